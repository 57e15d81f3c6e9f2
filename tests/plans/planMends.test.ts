/** Codes that lost their zero, as a sheet makes numbers of them, and the plan that puts it back. */
import { describe, expect, it } from 'vitest';
import type { BookReading, CellValue, SystemReading } from '../../src/workbook/index.ts';
import { planMends, zerosLost } from '../../src/workbook/planMends.ts';
import { EMPTY_BOOK, read, sentences, systemBook, writesOf } from './plainBook.ts';

/** The school with a code typed over; keys stand in rows 5 to 11 of Keys, bittings in column E. */
function typed(codes: Readonly<Record<number, CellValue>>, heading = 'Bitting'): BookReading {
  const book = systemBook();
  const change = (rows: readonly (readonly CellValue[])[], first: number) =>
    rows.map((row, r) => row.map((cell, c) => (c === 4 ? (codes[first + r] ?? cell) : cell)));
  return read({
    ...book,
    sheets: book.sheets.map((sheet) =>
      sheet.name === 'Keys'
        ? { ...sheet, values: change(sheet.values!, 1), formulas: change(sheet.formulas!, 1) }
        : sheet,
    ),
    tables: book.tables.map((table) =>
      table.name === 'KeyrowKeys'
        ? {
            ...table,
            headers: table.headers.map((h) => (h === 'Bitting' ? heading : h)),
            values: change(table.values, 5),
            formulas: change(table.formulas, 5),
          }
        : table,
    ),
  });
}
const lost = (book: BookReading) => zerosLost(book, book.systems[0]!);

describe('a zero that a code lost', () => {
  it('is found where the number has one digit too few', () => {
    // six cuts: 36453 can only be 036453
    expect(lost(typed({ 8: 36453 }))).toEqual([
      { at: { sheet: 'Keys', address: 'E8' }, symbol: 'AA1', from: '36453', to: '036453' },
    ]);
  });

  it('is not looked for in a text, in a sound code or in another fault', () => {
    expect(lost(typed({ 8: '36453' }))).toEqual([]);
    expect(lost(typed({ 8: 536453 }))).toEqual([]);
    expect(lost(typed({ 8: 12 }))).toEqual([]);
    expect(lost(systemBook())).toEqual([]);
  });

  it('is none without the table, its column or the spec', () => {
    const book = typed({ 8: 36453 });
    const [system] = book.systems;
    expect(zerosLost(EMPTY_BOOK, system!)).toEqual([]);
    expect(zerosLost(typed({ 8: 36453 }, 'Code'), system!)).toEqual([]);
    const bare = { ...system!, spec: undefined } as unknown as SystemReading;
    expect(zerosLost(book, bare)).toEqual([]);
  });

  it('is put back as text', () => {
    const book = typed({ 8: 36453, 10: 36457 });
    const plan = planMends(book, lost(book));
    expect(writesOf(plan)).toMatchObject([
      { sheet: 'Keys', row: 7, column: 4, cells: [['036453']], formats: ['text'], expected: [[36453]] },
      { sheet: 'Keys', row: 9, column: 4, cells: [['036457']], expected: [[36457]] },
    ]);
    expect(plan.title).toBe('Put lost zeros back');
    expect(planMends(book, lost(book).slice(1)).title).toBe('Put the lost zero back');
  });

  it('can’t be put back where the sheet is gone', () => {
    expect(sentences(planMends(EMPTY_BOOK, []))).toEqual(['The sheet Keys is gone. Read the book again.']);
  });
});
