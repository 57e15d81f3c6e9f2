import { describe, expect, it } from 'vitest';
import { errorCode, openBook, type OpenBook } from '../../support/office.ts';

async function shift(book: OpenBook, address: string, act: 'insert' | 'delete', way: string): Promise<void> {
  await book.run(async (context) => {
    const range = context.workbook.worksheets.getItem('Sheet1').getRange(address);
    if (act === 'insert') range.insert(way as Excel.InsertShiftDirection);
    else range.delete(way as Excel.DeleteShiftDirection);
    await context.sync();
  });
}

describe('inserting and deleting', () => {
  it('moves cells and the references to them, on other sheets too', async () => {
    const book = openBook({ sheets: ['Sheet1', 'Other'] });
    book.model.enter('Sheet1', 4, 1, 'here', 'user');
    book.model.enter('Other', 0, 0, '=Sheet1!B5&SUM(Sheet1!$A$1:B9)&"B5"&B5', 'user');
    await shift(book, '3:4', 'insert', 'Down');
    expect(book.model.value('Sheet1', 6, 1)).toBe('here');
    expect(book.model.cell('Other', 0, 0)?.formula).toBe('=Sheet1!B7&SUM(Sheet1!$A$1:B11)&"B5"&B5');
  });

  it('turns references to deleted cells into #REF! and shrinks the others', async () => {
    const book = openBook();
    book.model.enter('Sheet1', 9, 0, '=B2+SUM(B1:B8)+SUM(B:B)', 'user');
    await shift(book, '2:3', 'delete', 'Up');
    expect(book.model.cell('Sheet1', 7, 0)?.formula).toBe('=#REF!+SUM(B1:B6)+SUM(B:B)');
  });

  it('moves names, merges, frozen rows, heights, print area, formats and lists', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      context.workbook.names.add('Spot', sheet.getRange('C4'));
      sheet.getRange('A6:B6').merge();
      sheet.freezePanes.freezeRows(3);
      sheet.getRange('5:5').format.rowHeight = 40;
      sheet.pageLayout.setPrintArea('A1:D9');
      sheet.getRange('D8').dataValidation.rule = { list: { inCellDropDown: true, source: 'a,b' } };
      const rule = sheet.getRange('E5:E6').conditionalFormats.add('Custom').custom.rule;
      rule.formula = '=E5=1';
      await context.sync();
      sheet.getRange('2:2').insert('Down');
      await context.sync();
    });
    const { layout } = book.model.sheet('Sheet1');
    expect(book.model.findName('Spot', null)?.formula).toBe('=Sheet1!$C$5');
    expect(layout.merges).toEqual([{ row: 6, column: 0, rows: 1, columns: 2 }]);
    expect(layout.frozen).toEqual({ rows: 4, columns: 0 });
    expect([...layout.rowHeights]).toEqual([[5, 40]]);
    expect(layout.page.printArea).toEqual([{ row: 0, column: 0, rows: 10, columns: 4 }]);
    expect(layout.validations[0]?.areas).toEqual([{ row: 8, column: 3, rows: 1, columns: 1 }]);
    expect(layout.conditionalFormats[0]?.areas).toEqual([{ row: 5, column: 4, rows: 2, columns: 1 }]);
    expect(layout.conditionalFormats[0]?.rule).toEqual({ kind: 'custom', formula: '=E6=1' });
  });

  it('moves only the lane for a part of the sheet', async () => {
    const book = openBook();
    const cells = [
      [1, 'a'],
      [2, 'b'],
    ];
    book.model.enterBlock('Sheet1', { row: 0, column: 0, rows: 2, columns: 2 }, cells, 'user');
    await shift(book, 'A1', 'insert', 'Down');
    expect([0, 1, 2].map((row) => book.model.value('Sheet1', row, 0))).toEqual([null, 1, 2]);
    expect([0, 1].map((row) => book.model.value('Sheet1', row, 1))).toEqual(['a', 'b']);
    await shift(book, 'A1', 'delete', 'Left');
    expect(book.model.value('Sheet1', 0, 0)).toBe('a');
  });

  it('refuses to tear a table or a merged cell apart', async () => {
    const book = openBook();
    book.model.enterBlock(
      'Sheet1',
      { row: 2, column: 0, rows: 2, columns: 2 },
      [
        ['x', 'y'],
        [1, 2],
      ],
      'user',
    );
    book.model.addTable('Sheet1', { row: 2, column: 0, rows: 2, columns: 2 }, true, 'user');
    expect(await errorCode(() => shift(book, 'A1', 'insert', 'Down'))).toBe('InvalidOperation');
    await shift(book, 'A1:B1', 'insert', 'Down');
    expect(book.model.tables[0]?.area.row).toBe(3);
  });

  it('grows and moves tables with whole rows and columns', async () => {
    const book = openBook();
    book.model.enterBlock(
      'Sheet1',
      { row: 0, column: 0, rows: 3, columns: 2 },
      [
        ['x', 'y'],
        [1, 2],
        [3, 4],
      ],
      'user',
    );
    book.model.addTable('Sheet1', { row: 0, column: 0, rows: 3, columns: 2 }, true, 'user', 'T');
    await shift(book, '3:3', 'insert', 'Down');
    await shift(book, 'B:B', 'insert', 'Right');
    expect(book.model.table('T').area).toEqual({ row: 0, column: 0, rows: 4, columns: 3 });
    expect(book.model.table('T').columns.map((c) => c.name)).toEqual(['x', 'Column1', 'y']);
    expect(book.model.value('Sheet1', 0, 1)).toBe('Column1');
    await shift(book, 'A:A', 'delete', 'Left');
    expect(book.model.table('T').columns.map((c) => c.name)).toEqual(['Column1', 'y']);
  });

  it('follows the rename of a sheet in formulas and names', async () => {
    const book = openBook({ sheets: ['Sheet1', 'Other'] });
    book.model.enter('Sheet1', 0, 0, '=Other!A1', 'user');
    await book.run(async (context) => {
      const other = context.workbook.worksheets.getItem('Other');
      context.workbook.names.add('Spot', other.getRange('A1:A2'));
      other.name = 'Keys 2';
      await context.sync();
    });
    expect(book.model.cell('Sheet1', 0, 0)?.formula).toBe("='Keys 2'!A1");
    expect(book.model.findName('spot', null)?.formula).toBe("='Keys 2'!$A$1:$A$2");
  });
});
