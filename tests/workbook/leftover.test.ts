/** A write that was broken off: what the next one to open the book is told, and what becomes of it. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { setPatience } from '../../src/workbook/excelRun.ts';
import {
  applyPlan,
  planNewSystem,
  planScheduleFixes,
  readSchedule,
  type Leftover,
  type WritePlan,
} from '../../src/workbook/index.ts';
import { bittingsIn } from '../../src/workbook/secretCells.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { at, MADE, reading, writeSystem } from './book.ts';
import { deepPicture, notesLeft } from './deepPicture.ts';
import { installClock, runOut } from './faultKinds.ts';
import { MORE_PATHS, moreBook } from './morePaths.ts';
import { fullBook, WRITE_PATHS } from './paths.ts';
import { school } from './school.ts';

beforeEach(installClock);
afterEach(() => {
  setPatience();
});

/** What a pane that was just opened has: it remembers nothing. */
async function reopened(): Promise<typeof import('../../src/workbook/applyLeftover.ts')> {
  vi.resetModules();
  return await import('../../src/workbook/applyLeftover.ts');
}

/** The window is closed at this request: none of the write arrives after it, and nobody waits for an answer. */
async function closedAt(book: OpenBook, request: number, plan: WritePlan): Promise<void> {
  const first = book.host.requestCount;
  book.host.intercept = (index) => {
    if (index - first < request) return 'pass';
    setImmediate(() => setImmediate(runOut));
    return 'drop';
  };
  await applyPlan(plan);
  book.host.intercept = null;
  // what is left of the closed window's clock
  for (let turn = 0; turn < 6; turn++) await new Promise((resolve) => setImmediate(resolve));
}

const takeLeftoverBack = async (left: Leftover) => (await reopened()).takeLeftoverBack(left);
const leaveLeftover = async (left: Leftover) => (await reopened()).leaveLeftover(left);

async function leftover(): Promise<Leftover | undefined> {
  const read = await (await reopened()).readLeftover();
  if (!read.ok) throw new Error(read.error.sentence);
  return read.value;
}

describe('a window closed in the middle of a write', () => {
  it.each([
    ...WRITE_PATHS.map(([name, make]) => [name, make, fullBook] as const),
    ...MORE_PATHS.map(([name, make]) => [name, make, moreBook] as const),
  ])('is noticed on reopening and taken back: %s', { timeout: 60_000 }, async (_, make, open) => {
    const book = await open();
    const before = deepPicture(book.model, { formats: false });
    for (const request of [3, 6, 9, 13, 19, 27]) {
      const plan = await make(await reading());
      await closedAt(book, request, plan);
      const left = await leftover();
      if (notesLeft(book.model).length === 0) {
        expect(left).toBeUndefined();
        continue;
      }
      expect(left!.sentence).toContain(`“${plan.title}” was begun in this workbook`);
      expect(left!.sentence).toMatch(/Take it back, or leave it as it is\.$/);
      const outcome = await takeLeftoverBack(left!);
      expect(outcome.outcome).toBe('done');
      expect(notesLeft(book.model)).toEqual([]);
      const after = deepPicture(book.model, { formats: false });
      if (outcome.sentence.includes('Check ')) return;
      expect(after).toEqual(before);
    }
  });

  it('bars further writes until somebody has decided', async () => {
    const book = openBook();
    const plan = planNewSystem(await reading(), school(), MADE);
    await closedAt(book, 12, plan);
    const half = deepPicture(book.model);
    const again = planNewSystem(await reading(), school('Other'), MADE);
    const outcome = await applyPlan(again);
    expect(outcome).toMatchObject({
      outcome: 'refused',
      reasons: [{ sentence: expect.stringContaining('go to the start page') as string }],
    });
    expect(deepPicture(book.model)).toEqual(half);
    expect(await leaveLeftover((await leftover())!)).toMatchObject({ outcome: 'done' });
    expect(deepPicture(book.model)).toEqual(half);
    expect(await leftover()).toBeUndefined();
    const now = planNewSystem(await reading(), school('Other'), MADE);
    if (now.conflicts.length === 0) expect((await applyPlan(now)).outcome).toBe('done');
  });

  it('keeps what was typed onto the new sheets since', async () => {
    const book = openBook();
    await closedAt(book, 12, planNewSystem(await reading(), school(), MADE));
    expect(book.model.sheets.length).toBeGreaterThan(1);
    book.host.userEdit('Specs', 'Z40', 'my note');
    const outcome = await takeLeftoverBack((await leftover())!);
    expect(outcome.sentence).toContain('The sheet Specs was kept: there is something else on it at Z40.');
    expect(at(book.model, 'Specs', 'Z40')).toBe('my note');
  });

  it('gives the shop’s own cells their old content', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', [
      ['Door', 'Keyset'],
      ["'0101", 'aa1'],
      ["'0102", 'AB1'],
    ]);
    await writeSystem(school());
    const read = await readSchedule('Sheet1');
    if (!read.ok) throw new Error(read.error.sentence);
    const plan = planScheduleFixes(await reading(), read.value, [
      { row: 1, role: 'symbol', from: 'aa1', to: 'AA1' },
    ]);
    const first = book.host.requestCount;
    let written = false;
    book.host.intercept = () => {
      if (written) {
        setImmediate(() => setImmediate(runOut));
        return 'drop';
      }
      written = at(book.model, 'Sheet1', 'B2') === 'AA1';
      return 'pass';
    };
    await applyPlan(plan);
    book.host.intercept = null;
    expect(book.host.requestCount).toBeGreaterThan(first);
    expect(at(book.model, 'Sheet1', 'B2')).toBe('AA1');
    expect((await takeLeftoverBack((await leftover())!)).outcome).toBe('done');
    expect(at(book.model, 'Sheet1', 'B2')).toBe('aa1');
  });

  it('says which sheet it did not find, where one was renamed since', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', 'mine');
    const plan: WritePlan = {
      title: 'Remarks',
      effects: [],
      conflicts: [],
      steps: [
        {
          kind: 'write',
          sheet: 'Sheet1',
          row: 0,
          column: 1,
          cells: [['ours']],
          formats: ['text'],
          expected: 'empty',
        },
      ],
    };
    let written = false;
    book.host.intercept = () => {
      if (written) {
        setImmediate(() => setImmediate(runOut));
        return 'drop';
      }
      written = at(book.model, 'Sheet1', 'B1') === 'ours';
      return 'pass';
    };
    await applyPlan(plan);
    book.host.intercept = null;
    book.model.renameSheet('Sheet1', 'Doors', 'user');
    const outcome = await takeLeftoverBack((await leftover())!);
    expect(outcome.sentence).toContain('Check Sheet1: no sheet has that name now, so nothing was taken back');
    expect(at(book.model, 'Doors', 'A1')).toBe('mine');
    expect(at(book.model, 'Doors', 'B1')).toBe('ours');
  });

  it('leaves no bitting in the settings', async () => {
    for (const [, make] of WRITE_PATHS) {
      const book = await fullBook();
      const secrets = bittingsIn(await reading());
      expect(secrets.length).toBeGreaterThan(10);
      await closedAt(book, 9, await make(await reading()));
      const kept = [...book.model.state.settings.values()].join('\n');
      expect(secrets.filter((secret) => kept.includes(secret))).toEqual([]);
    }
  }, 60_000);

  it('can be left alone where its note was garbled', async () => {
    const book = openBook();
    for (const text of ['{"title": 5', JSON.stringify('[]'), '{"__proto__": {"title": "x"}}', '"null"']) {
      book.model.setSetting('KeyrowWriting x 1', text.startsWith('"') ? text : JSON.stringify(text), 'user');
      const left = await leftover();
      expect(left!.sentence).toContain('Its note can’t be read: leave it as it is.');
      expect((await leaveLeftover(left!)).outcome).toBe('done');
      expect(notesLeft(book.model)).toEqual([]);
    }
  });
});
