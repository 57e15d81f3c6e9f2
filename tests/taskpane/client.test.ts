/** Long work where the host gives no worker: Node has none either. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { DEFAULT_RULES } from '../../src/keying/rules.ts';
import { starterSpec } from '../../src/keying/starters.ts';
import { startWork } from '../../taskpane/worker/client.ts';
import type { WorkOrder } from '../../taskpane/worker/jobs.ts';

afterEach(() => {
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

const ORDER: WorkOrder<'codes'> = {
  job: 'codes',
  input: {
    list: {
      spec: starterSpec('S-018-6')!,
      rows: Array.from({ length: 3_000 }, (_, i) => [String(100_000 + i)]),
      roles: ['code'],
      options: {},
    },
    rules: DEFAULT_RULES,
    firstRow: 1,
  },
};

/** A clock by which every step is longer than a slice, so that each is reported. */
function slowClock(): void {
  let time = 0;
  vi.spyOn(performance, 'now').mockImplementation(() => (time += 1_000));
}

describe('work without a worker', () => {
  it('is in hand before it says how far it is', async () => {
    slowClock();
    const said: string[] = [];
    const work = startWork(ORDER, ({ stage }) => said.push(stage));
    said.push('in hand');
    const driven = await work.result;
    expect(said[0]).toBe('in hand');
    expect(said.length).toBeGreaterThan(2);
    expect(driven).toMatchObject({ state: 'done', value: { rows: { length: 3_000 } } });
  });

  it('can be stopped before it is through', async () => {
    slowClock();
    const work = startWork(ORDER, () => work.stop());
    expect(await work.result).toMatchObject({ state: 'stopped', progress: { total: 3_000 } });
  });

  it('is how lists of codes are read even where there are workers', async () => {
    const asked: unknown[] = [];
    vi.stubGlobal('Worker', function (url: unknown) {
      asked.push(url);
      throw new Error('none here');
    });
    expect((await startWork(ORDER, () => undefined).result).state).toBe('done');
    expect(asked).toEqual([]);
  });
});
