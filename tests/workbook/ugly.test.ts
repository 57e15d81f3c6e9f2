/**
 * Workbooks as shops have them: whatever is read from one is right or is told in one clear sentence, reading changes
 * nothing, and whatever is written leaves every cell of the shop's alone and is taken back without a trace.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { applyPlan, readSchedule, undoPlan, type WritePlan } from '../../src/workbook/index.ts';
import type { OpenBook } from '../support/office.ts';
import { reading, undoOf } from './book.ts';
import { deepPicture } from './deepPicture.ts';
import { wrongWithSentence } from './faultKinds.ts';
import { fullBook, WRITE_PATHS, type Shop } from './paths.ts';
import { codesIn, READ_PATHS } from './readPaths.ts';
import { UGLY_SHEETS } from './uglySheets.ts';

/** Of a large sheet a comparison takes its time, so only those paths that touch the shop's sheets are tried on it. */
const ON_LARGE = ['a check column', 'schedule fixes'];

/** The shop's own cells that a plan does not name. */
function ownCells(book: OpenBook, { schedule, codes }: Shop, plan?: WritePlan): unknown[] {
  const boxes = (plan?.steps ?? []).flatMap((step) =>
    step.kind === 'write'
      ? [
          {
            sheet: step.sheet,
            row: step.row,
            column: step.column,
            rows: step.cells.length,
            columns: step.formats.length,
          },
        ]
      : [],
  );
  const found = [schedule, codes.sheet].map((name) =>
    [...book.model.sheet(name).cells.all()].filter(
      ({ row, column }) =>
        !boxes.some(
          (box) =>
            box.sheet === name &&
            row >= box.row &&
            row < box.row + box.rows &&
            column >= box.column &&
            column < box.column + box.columns,
        ),
    ),
  );
  return structuredClone(found);
}

describe.each(UGLY_SHEETS)('$name', ({ lay, doors, codes, doubts = [], barred = [] }) => {
  let book: OpenBook;
  let shop: Shop;

  beforeAll(async () => {
    book = await fullBook((empty) => (shop = lay(empty)));
  }, 60_000);

  it('is read as a person reads it, or a sentence says why not', async () => {
    const read = await readSchedule(shop.schedule);
    if (!read.ok) throw new Error(read.error.sentence);
    const { rows, problems } = read.value;
    expect(rows.map(({ door, symbol = '' }) => `${door} ${symbol}`)).toEqual(doors);
    expect(problems.map(({ address }) => address).sort()).toEqual([...doubts].sort());
    expect((await codesIn(shop.codes)).codes).toEqual(codes);
  });

  it('is left as it is by everything that reads', async () => {
    const before = deepPicture(book.model);
    const input = { open: book, book: await reading(), shop };
    for (const [path, run] of READ_PATHS)
      for (const { sentence } of await run(input)) expect(wrongWithSentence(sentence), path).toBeUndefined();
    expect(deepPicture(book.model)).toEqual(before);
  }, 120_000);

  const paths = WRITE_PATHS.filter(([path]) => doors.length < 1000 || ON_LARGE.includes(path));
  it('keeps every cell of the shop’s through all that is written and taken back', async () => {
    const before = deepPicture(book.model);
    const refused: string[] = [];
    for (const [path, make] of paths) {
      const plan = await make(await reading(), shop);
      const own = ownCells(book, shop, plan);
      const outcome = await applyPlan(plan);
      if (outcome.outcome !== 'done') {
        const reasons = 'reasons' in outcome ? outcome.reasons : [];
        for (const { sentence } of [outcome, ...reasons])
          expect(wrongWithSentence(sentence), path).toBeUndefined();
        expect(outcome.outcome, path).toBe('refused');
        refused.push(path);
      } else {
        expect(ownCells(book, shop, plan), path).toEqual(own);
        expect((await undoPlan(undoOf(outcome))).outcome, path).toBe('done');
      }
      expect(deepPicture(book.model), path).toEqual(before);
    }
    expect(refused).toEqual(barred);
  }, 300_000);
});
