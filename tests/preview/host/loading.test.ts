import { describe, expect, it } from 'vitest';
import { errorCode, openBook } from '../../support/office.ts';

describe('load and sync', () => {
  it('refuses to give what was not loaded', async () => {
    const book = openBook();
    const code = await errorCode(() =>
      book.run(async (context) => {
        const range = context.workbook.worksheets.getItem('Sheet1').getRange('A1');
        await context.sync();
        return range.values;
      }),
    );
    expect(code).toBe('PropertyNotLoaded');
  });

  it('loads paths below an object', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const range = context.workbook.worksheets.getItem('Sheet1').getRange('B2');
      range.format.fill.color = 'yellow';
      range.load('address,format/fill/color,worksheet/name');
      await context.sync();
      expect(range.address).toBe('Sheet1!B2');
      expect(range.format.fill.color).toBe('#FFFF00');
      expect(range.worksheet.name).toBe('Sheet1');
    });
  });

  it('loads everything of a range without names', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const range = context.workbook.worksheets.getItem('Sheet1').getRange('A1');
      range.values = [[5]];
      range.load();
      await context.sync();
      expect(range.values).toEqual([[5]]);
      expect(range.text).toEqual([['5']]);
      expect(range.rowIndex).toBe(0);
      expect(range.numberFormat).toEqual([['General']]);
    });
  });

  it('knows null objects from real ones', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItemOrNullObject('Nowhere');
      const table = context.workbook.tables.getItemOrNullObject('Keys');
      const used = context.workbook.worksheets.getItem('Sheet1').getUsedRangeOrNullObject(true);
      const body = table.getDataBodyRange();
      await context.sync();
      expect([sheet.isNullObject, table.isNullObject, used.isNullObject]).toEqual([true, true, true]);
      expect(body.isNullObject).toBe(true);
    });
  });

  it('fails for a missing item with its code and keeps the sheet as it was', async () => {
    const book = openBook();
    const code = await errorCode(() =>
      book.run(async (context) => {
        context.workbook.worksheets.getItem('Nowhere').getRange('A1').values = [[1]];
        await context.sync();
      }),
    );
    expect(code).toBe('ItemNotFound');
    expect(book.model.usedArea('Sheet1')).toBeNull();
  });

  it('performs the actions before the failing one, as Excel does', async () => {
    const book = openBook();
    const code = await errorCode(() =>
      book.run(async (context) => {
        const sheet = context.workbook.worksheets.getItem('Sheet1');
        sheet.getRange('A1').values = [['before']];
        sheet.getRange('A2').values = [[1, 2]];
        sheet.getRange('A3').values = [['after']];
        await context.sync();
      }),
    );
    expect(code).toBe('InvalidArgument');
    expect(book.model.value('Sheet1', 0, 0)).toBe('before');
    expect(book.model.value('Sheet1', 2, 0)).toBeNull();
  });

  it('says ApiNotFound for what it lacks', async () => {
    const book = openBook();
    const code = await errorCode(() =>
      book.run(async (context) => {
        context.workbook.worksheets.getItem('Sheet1').slicers.load('items');
        await context.sync();
      }),
    );
    expect(code).toBe('ApiNotFound');
  });

  it('honours the requirement sets of the book', async () => {
    const book = openBook({}, { sets: { ExcelApi: '1.7' } });
    expect(Office.context.requirements.isSetSupported('ExcelApi', '1.7')).toBe(true);
    expect(Office.context.requirements.isSetSupported('ExcelApi', '1.10')).toBe(false);
    expect(Office.context.requirements.isSetSupported('SharedRuntime', '1.1')).toBe(false);
    expect(book.host.requestCount).toBe(0);
  });

  it('pages through a collection', async () => {
    const book = openBook({ sheets: ['A', 'B', 'C', 'D'] });
    await book.run(async (context) => {
      const { worksheets } = context.workbook;
      worksheets.load({ $top: 2, $skip: 1, name: true });
      await context.sync();
      expect(worksheets.items.map((sheet) => sheet.name)).toEqual(['B', 'C']);
    });
  });

  it('follows tracked ranges when rows are inserted above them', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      const range = sheet.getRange('A5');
      range.values = [['kept']];
      await context.sync();
      sheet.getRange('1:2').insert('Down');
      range.load('address,values');
      await context.sync();
      expect(range.address).toBe('Sheet1!A7');
      expect(range.values).toEqual([['kept']]);
    });
  });

  it('ends a tracked range whose cells are deleted', async () => {
    const book = openBook();
    const code = await errorCode(() =>
      book.run(async (context) => {
        const sheet = context.workbook.worksheets.getItem('Sheet1');
        const range = sheet.getRange('A5').load('address');
        await context.sync();
        sheet.getRange('4:6').delete('Up');
        range.load('values');
        await context.sync();
      }),
    );
    expect(code).toBe('InvalidReference');
  });

  it('lets go of untracked ranges', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const range = context.workbook.worksheets.getItem('Sheet1').getRange('A1').load('address');
      await context.sync();
      expect(book.host.book.live.size).toBe(1);
      range.untrack();
      await context.sync();
      expect(book.host.book.live.size).toBe(0);
    });
  });
});
