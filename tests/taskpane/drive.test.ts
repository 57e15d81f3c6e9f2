import { describe, expect, it } from 'vitest';
import type { Progress, Steps } from '../../src/keying/system.ts';
import { drive, type Driver } from '../../taskpane/worker/drive.ts';

function* counting(total: number, closed: string[] = []): Steps<number> {
  try {
    for (let done = 0; done < total; done++) yield { stage: 'Counting', done, total };
    return total;
  } finally {
    closed.push('closed');
  }
}

/** A clock that goes on by one at each look, so that a slice of n lasts n steps. */
function driverOf(change: Partial<Driver> = {}): Driver & { readonly reports: Progress[] } {
  let time = 0;
  const reports: Progress[] = [];
  return {
    now: () => time++,
    breathe: () => Promise.resolve(),
    stopped: () => false,
    report: (p) => reports.push(p),
    sliceMs: 10,
    reports,
    ...change,
  };
}

describe('drive', () => {
  it('gives what the generator returns', async () => {
    expect(await drive(counting(57), driverOf())).toEqual({ state: 'done', value: 57 });
  });

  it('reports once a slice, not once a step', async () => {
    const driver = driverOf();
    await drive(counting(100), driver);
    expect(driver.reports).toHaveLength(10);
    expect(driver.reports.map((p) => p.done)).toEqual(
      [...driver.reports.map((p) => p.done)].sort((a, b) => a - b),
    );
  });

  it('stops between slices, closes the generator and says where it was', async () => {
    const closed: string[] = [];
    let breaths = 0;
    const driver = driverOf({
      breathe: () => {
        breaths++;
        return Promise.resolve();
      },
      stopped: () => breaths === 2,
    });
    const driven = await drive(counting(100, closed), driver);
    expect(driven).toEqual({ state: 'stopped', progress: { stage: 'Counting', done: 19, total: 100 } });
    expect(closed).toEqual(['closed']);
  });

  it('lets work that gives a part finish at its next turn', async () => {
    let breaths = 0;
    const stopped = (): boolean => breaths === 2;
    function* partial(): Steps<string> {
      for (let done = 0; done < 100; done++) {
        yield { stage: 'Counting', done, total: 100 };
        if (stopped()) return `${done} of 100`;
      }
      return 'all';
    }
    const breathe = (): Promise<void> => Promise.resolve(void breaths++);
    expect(await drive(partial(), driverOf({ breathe, stopped, givesPart: true }))).toEqual({
      state: 'done',
      value: '19 of 100',
    });
  });

  it('passes on what the work throws', async () => {
    function* failing(): Steps<number> {
      yield { stage: 'Counting', done: 0, total: 1 };
      throw new Error('no depth at index 9');
    }
    await expect(drive(failing(), driverOf())).rejects.toThrow('no depth at index 9');
  });
});
