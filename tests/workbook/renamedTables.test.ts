/**
 * A table of ours that gets another name, or is made plain cells of, while a plan is written, put back or undone: it is
 * found by its id, as sheets are (renamed.test.ts).
 */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { setPatience } from '../../src/workbook/excelRun.ts';
import { applyPlan, undoPlan } from '../../src/workbook/index.ts';
import type { OpenBook } from '../support/office.ts';
import { reading, undoOf } from './book.ts';
import { deepPicture, notesLeft, sameAs } from './deepPicture.ts';
import { installClock, wrongWithSentence } from './faultKinds.ts';
import { fullBook, WRITE_PATHS } from './paths.ts';

beforeAll(installClock);
afterAll(() => {
  setPatience();
});

const ours = (book: OpenBook) => book.model.tables.filter(({ name }) => name.startsWith('Keyrow'));

/** Gives all tables of ours other names; the result gives them their own again. */
function rename(book: OpenBook): () => void {
  const names = ours(book).map(({ id, name }) => [id, name] as const);
  names.forEach(([id], n) => {
    book.model.renameTable(id, `My.list_${n}`, 'user');
  });
  return () => {
    for (const [id, name] of names) if (book.model.findTable(id)) book.model.renameTable(id, name, 'user');
  };
}

describe('tables renamed', () => {
  it.each(WRITE_PATHS)('after the write, %s is taken back all the same', async (_name, make) => {
    const book = await fullBook();
    const before = deepPicture(book.model);
    const undo = undoOf(await applyPlan(await make(await reading())));
    const back = rename(book);
    expect((await undoPlan(undo)).outcome).toBe('done');
    back();
    expect(sameAs(before, deepPicture(book.model))).toBeUndefined();
  });

  it('are grown by several of the write paths', async () => {
    await fullBook();
    const now = await reading();
    const plans = await Promise.all(WRITE_PATHS.map(([, make]) => make(now)));
    const growing = plans.filter(({ steps }) => steps.some(({ kind }) => kind === 'resize-table'));
    expect(growing.length).toBeGreaterThan(3);
  });

  it.each(WRITE_PATHS)(
    'in the middle of the write, %s leaves nothing half written',
    { timeout: 120_000 },
    async (_name, make) => {
      const book = await fullBook();
      const before = deepPicture(book.model);
      const plan = await make(await reading());
      const start = book.host.requestCount;
      const undo = undoOf(await applyPlan(plan));
      const whole = book.host.requestCount - start;
      expect((await undoPlan(undo)).outcome).toBe('done');
      const first = book.host.requestCount;
      let back: (() => void) | undefined;
      book.host.intercept = (index) => {
        if (index - first >= Math.round(0.6 * whole)) back ??= rename(book);
        return 'pass';
      };
      const outcome = await applyPlan(plan);
      book.host.intercept = null;
      if (outcome.outcome === 'done') expect((await undoPlan(undoOf(outcome))).outcome).toBe('done');
      else {
        expect(wrongWithSentence(outcome.sentence)).toBeUndefined();
        expect(['refused', 'rolled-back'], outcome.sentence).toContain(outcome.outcome);
        if (outcome.outcome === 'rolled-back') expect(outcome.kept, outcome.sentence).toBeUndefined();
      }
      back?.();
      expect(sameAs(before, deepPicture(book.model)), outcome.sentence).toBeUndefined();
      expect(notesLeft(book.model)).toEqual([]);
    },
  );

  it('are named where what was written calls them otherwise', async () => {
    const book = await fullBook();
    const before = deepPicture(book.model);
    const make = WRITE_PATHS.find(([name]) => name === 'specs')![1];
    const plan = await make(await reading());
    const { id } = book.model.tables.find(({ name }) => name === 'KeyrowSpecs')!;
    const rows = book.model.findTable(id)!.area.rows;
    book.host.intercept = () => {
      // as soon as the table has grown
      if (book.model.findTable(id)!.area.rows > rows) book.model.renameTable(id, 'Dimensions', 'user');
      return 'pass';
    };
    const outcome = await applyPlan(plan);
    book.host.intercept = null;
    expect(outcome).toMatchObject({
      outcome: 'rolled-back',
      sentence:
        'The table KeyrowSpecs was renamed while it was being written. Read the book again, then try once more. The workbook is as it was before.',
    });
    expect(book.model.findTable(id)!.name).toBe('Dimensions');
    book.model.renameTable(id, 'KeyrowSpecs', 'user');
    expect(sameAs(before, deepPicture(book.model))).toBeUndefined();
  });

  it('are let go where they were made plain cells of', async () => {
    const book = await fullBook();
    const make = WRITE_PATHS.find(([name]) => name === 'specs')![1];
    const plan = await make(await reading());
    const { id } = book.model.tables.find(({ name }) => name === 'KeyrowSpecs')!;
    const rows = book.model.findTable(id)!.area.rows;
    let done = false;
    book.host.intercept = () => {
      if (!done && book.model.findTable(id)!.area.rows > rows) {
        done = true;
        book.model.removeTable(id, true, 'user');
      }
      return 'pass';
    };
    const outcome = await applyPlan(plan);
    book.host.intercept = null;
    expect(outcome).toMatchObject({
      outcome: 'rolled-back',
      sentence:
        'The table KeyrowSpecs was removed while it was being written. Read the book again, then try once more. The workbook is as it was before.',
    });
    expect(notesLeft(book.model)).toEqual([]);
  });
});
