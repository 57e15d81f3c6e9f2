/** A picture put over its cell: where, how large, what bars it, and what is there again when it is taken back. */
import { describe, expect, it } from 'vitest';
import { applyPlan, undoPlan } from '../../src/workbook/apply.ts';
import type { PictureStep } from '../../src/workbook/plan.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { undoOf } from './book.ts';
import { png, reasons, tiny } from './tiny.ts';

/** Rows are 15 points high and columns 48 wide: the cell C3 begins 96 points from the left and 30 from above. */
const STEP: PictureStep = {
  kind: 'picture',
  sheet: 'Sheet1',
  row: 2,
  column: 2,
  name: 'Keyrow P',
  alt: 'What it shows.',
  base64: png(2),
  width: 60,
  height: 40,
  rowHeight: 50,
};
const apply = (more: Partial<PictureStep> = {}) => applyPlan(tiny({ ...STEP, ...more }));
const pictures = ({ model }: OpenBook) => model.sheet('Sheet1').layout.pictures;
const height = ({ model }: OpenBook) => model.sheet('Sheet1').layout.rowHeights.get(2) ?? 15;

async function shape(book: OpenBook, left: number, top: number, name = 'Mine'): Promise<void> {
  await book.run(async (context) => {
    const drawn = context.workbook.worksheets.getItem('Sheet1').shapes.addImage(png(4));
    drawn.name = name;
    drawn.left = left;
    drawn.top = top;
    drawn.lockAspectRatio = false;
    drawn.width = 10;
    drawn.height = 10;
    await context.sync();
  });
}

describe('a picture', () => {
  it('lies four points within its cell, as large as it was asked for, on a row made high for it', async () => {
    const book = openBook();
    const outcome = await apply();
    expect(outcome.outcome).toBe('done');
    expect(pictures(book)).toMatchObject([
      {
        name: 'Keyrow P',
        altText: 'What it shows.',
        left: 100,
        top: 34,
        width: 60,
        height: 40,
        lockAspectRatio: true,
      },
    ]);
    expect(height(book)).toBe(50);
    expect((await undoPlan(undoOf(outcome))).outcome).toBe('done');
    expect([pictures(book).length, height(book)]).toEqual([0, 15]);
  });

  it('covers nothing of the shop’s: beside, above and below is room', async () => {
    // the picture takes 100 to 160 from the left and 34 to 74 from above; the other is 10 by 10
    const met = async (left: number, top: number) => {
      const book = openBook();
      await shape(book, left, top);
      const outcome = await apply();
      if (outcome.outcome === 'done') return 'done';
      expect(outcome.sentence).toMatch(
        /^“Mine” on Sheet1 lies where the picture would go\. Move or delete it first\./,
      );
      expect(pictures(book).map(({ name }) => name)).toEqual(['Mine']);
      expect(height(book)).toBe(15);
      return outcome.outcome;
    };
    expect(await met(120, 50)).toBe('rolled-back');
    expect([await met(159, 50), await met(91, 50)]).toEqual(['rolled-back', 'rolled-back']);
    expect([await met(160, 50), await met(90, 50)]).toEqual(['done', 'done']);
    expect([await met(120, 73), await met(120, 25)]).toEqual(['rolled-back', 'rolled-back']);
    // what lies below moves down with the row, which gets 35 points higher
    expect([await met(120, 24), await met(120, 80)]).toEqual(['done', 'done']);
  });

  it('takes the place of one of its name, whatever the case, and gives it back', async () => {
    const book = openBook();
    await shape(book, 300, 200, 'keyrow p');
    await shape(book, 0, 0, 'Another');
    const outcome = await apply();
    expect(pictures(book).map(({ name, left, width }) => [name, left, width])).toEqual([
      ['Another', 0, 10],
      ['Keyrow P', 100, 60],
    ]);
    expect((await undoPlan(undoOf(outcome))).outcome).toBe('done');
    expect(pictures(book)).toMatchObject([
      { name: 'Another' },
      { name: 'Keyrow P', left: 300, top: 200, width: 10, height: 10, base64: png(4) },
    ]);
    // one that lies just where the new one goes is no obstacle to it
    const again = openBook();
    await shape(again, 110, 40, 'Keyrow P');
    expect((await apply()).outcome).toBe('done');
    expect(pictures(again)).toHaveLength(1);
  });

  it('is asked for on a sheet that is there', async () => {
    openBook();
    expect(reasons(await apply({ sheet: 'Gone' }))).toEqual([
      'The sheet Gone is gone or was renamed. Read the book again.',
    ]);
  });
});
