/** A picture as a plan: its row, its size in points (three quarters of a pixel), and the one that it replaces. */
import { describe, expect, it } from 'vitest';
import type { BookReading } from '../../src/workbook/index.ts';
import { planPicture, type PictureInput } from '../../src/workbook/planPicture.ts';
import {
  bookWith,
  EMPTY_BOOK,
  lineOf,
  rowsOf,
  sentences,
  sheetWith,
  standing,
  writesOf,
} from './plainBook.ts';

const INPUT: PictureInput = {
  made: '24 Nov 2026',
  name: 'Blade AA1',
  shows: 'Six cuts.',
  base64: 'iVBO',
  widthPixels: 400,
  heightPixels: 200,
};
const planned = (book: BookReading = EMPTY_BOOK, input: Partial<PictureInput> = {}) =>
  planPicture(book, { ...INPUT, ...input });
const pictureOf = (plan: ReturnType<typeof planned>) => plan.steps.find(({ kind }) => kind === 'picture');
const HEADINGS = ['Picture', 'Shows', 'Written', 'Drawing'];
const there = (headings = HEADINGS) =>
  bookWith(standing('KeyrowPictures', 'Drawings', [headings, ['Blade A', 'x', 'y', ''], ['blade aa1', 'old', 'then', '']])); // prettier-ignore

describe('the first picture', () => {
  it('gets a sheet with a row for it', () => {
    const plan = planned();
    expect(plan).toMatchObject({ title: 'Put a picture into the sheet', conflicts: [] });
    expect(lineOf(plan, 'Pictures', 0)).toEqual(['Pictures']);
    expect(lineOf(plan, 'Pictures', 1).join()).toMatch(/^Blades and pins, drawn to scale\./);
    expect(lineOf(plan, 'Pictures', 2).join()).toMatch(/^SECRET/);
    expect(rowsOf(plan, 'Pictures')).toEqual([['Blade AA1', 'Six cuts.', '24 Nov 2026', '']]);
    expect(pictureOf(plan)).toEqual({
      kind: 'picture',
      sheet: 'Pictures',
      row: 4,
      column: 3,
      name: 'Keyrow Blade AA1',
      alt: 'Six cuts.',
      base64: 'iVBO',
      width: 300,
      height: 150,
      rowHeight: 290,
    });
    expect(plan.effects.at(-1)).toEqual({
      kind: 'picture',
      sheet: 'Pictures',
      rows: 1,
      what: 'picture',
      name: '“Blade AA1”',
      replaces: false,
    });
    const layout = plan.steps.flatMap((step) => (step.kind === 'layout' ? [step.layout] : []))[0]!;
    expect(layout.wrapped!.map(({ column }) => column)).toEqual([0, 0, 1]);
    expect(layout).toMatchObject({ large: [], freeze: { columns: 1 } });
  });

  it('is shrunk where it is higher than its row', () => {
    // 800 pixels are 600 points; 280 are left of a row of 290
    expect(pictureOf(planned(EMPTY_BOOK, { heightPixels: 800, widthPixels: 600 }))).toMatchObject({
      height: 280,
      width: 210,
    });
    const height = 280 / 0.75;
    expect(pictureOf(planned(EMPTY_BOOK, { heightPixels: height }))).toMatchObject({
      height: 280,
      width: 300,
    });
  });

  it('leaves the shop its own sheet of that name', () => {
    const plan = planned(bookWith({ sheet: sheetWith('Pictures', []) }));
    expect(pictureOf(plan)).toMatchObject({ sheet: 'Pictures (Keyrow)' });
  });
});

describe('a further picture', () => {
  it('of another name gets a row below, its drawing in the column for it', () => {
    const moved = there(['Drawing', 'Shows', 'Written', 'Picture']);
    const plan = planned(moved);
    expect(pictureOf(plan)).toMatchObject({ sheet: 'Drawings', row: 6, column: 0 });
    const after = planned(there(), { name: 'Pins AA1' });
    expect(writesOf(after)[0]).toMatchObject({
      row: 6,
      cells: [['Pins AA1', 'Six cuts.', '24 Nov 2026', '']],
    });
    expect(pictureOf(after)).toMatchObject({ row: 6, column: 3 });
    expect(after.effects.map(({ kind }) => kind)).toEqual(['rows', 'picture']);
    expect(after.effects.at(-1)).toMatchObject({ replaces: false });
  });

  it('of a name that is there takes its row, and only what it says is written', () => {
    const plan = planned(there());
    const write = { kind: 'write', sheet: 'Drawings', row: 5, formats: ['text'] };
    expect(plan.steps.slice(0, 2)).toEqual([
      { ...write, column: 1, cells: [['Six cuts.']], expected: [['old']] },
      { ...write, column: 2, cells: [['24 Nov 2026']], expected: [['then']] },
    ]);
    expect(plan.steps).toHaveLength(3);
    expect(pictureOf(plan)).toMatchObject({ row: 5, column: 3 });
    expect(plan.effects).toMatchObject([{ kind: 'picture', replaces: true }]);
    expect(pictureOf(planned(there(), { name: 'BLADE A' }))).toMatchObject({ row: 4 });
    const moved = planned(there(['Shows', 'Picture', 'Written', 'Drawing']), { name: 'x' });
    expect(writesOf(moved).map(({ column }) => column)).toEqual([0, 2]);
    const short = planned(there(['Picture', 'Facts', 'Written', 'Drawing']));
    expect(writesOf(short).map(({ column }) => column)).toEqual([2]);
  });

  it('needs the columns of its name and of its drawing', () => {
    const sentence = (heading: string) =>
      `The table on Drawings has no column “${heading}”. Give the renamed column its name back.`;
    const lost = (headings: string[]) => planned(there(headings));
    expect(lost(['Name', 'Shows', 'Written', 'Drawing']).conflicts).toEqual([
      { sentence: sentence('Picture'), at: { sheet: 'Drawings', address: 'A4' } },
    ]);
    expect(sentences(lost(['Picture', 'Shows', 'Written', 'Image']))).toEqual([sentence('Drawing')]);
    expect(lost(['Picture', 'Shows', 'Written', 'Image']).effects).toEqual([]);
  });

  it('is barred by what stands in the way of the table', () => {
    const book = there();
    const tables = book.tables.map((table) => ({ ...table, totals: true }));
    expect(planned({ ...book, tables }).conflicts).toHaveLength(1);
    expect(planned({ ...book, tables }, { name: 'Other' }).conflicts).toHaveLength(1);
  });
});
