import { describe, expect, it } from 'vitest';
import { errorCode, openBook, type OpenBook } from '../../support/office.ts';

const sheetOf = (context: Excel.RequestContext, name = 'Sheet1'): Excel.Worksheet =>
  context.workbook.worksheets.getItem(name);

/** Writes through the API and reads back what the cells hold. */
async function written(book: OpenBook, input: unknown, format?: string): Promise<unknown[]> {
  return book.run(async (context) => {
    const range = sheetOf(context).getRange('A1');
    range.clear();
    if (format !== undefined) range.numberFormat = [[format]];
    range.values = [[input]];
    range.load('values,formulas,numberFormat,valueTypes');
    await context.sync();
    return [
      range.values[0]?.[0],
      range.formulas[0]?.[0],
      range.numberFormat[0]?.[0],
      range.valueTypes[0]?.[0],
    ];
  });
}

describe('what cells make of input', () => {
  // Excel's rules from memory; serial numbers as in ECMA-376 part 1, 18.17.4.1
  it.each([
    ['01234', [1234, 1234, 'General', 'Double']],
    ['1-2-3', [37623, 37623, 'm/d/yyyy', 'Double']],
    ['2/7', [46060, 46060, 'd-mmm', 'Double']],
    ['13-14', ['13-14', '13-14', 'General', 'String']],
    ['TRUE', [true, true, 'General', 'Boolean']],
    ['1e5', [100000, 100000, '0.00E+00', 'Double']],
    ['5%', [0.05, 0.05, '0%', 'Double']],
    ['-7', [-7, -7, 'General', 'Double']],
    ["'0042", ['0042', '0042', 'General', 'String']],
    [' key ', [' key ', ' key ', 'General', 'String']],
    ['#N/A', ['#N/A', '#N/A', 'General', 'Error']],
    ['12345678901234567', [12345678901234500, 12345678901234500, 'General', 'Double']],
  ])('General: %j', async (input, expected) => {
    expect(await written(openBook(), input)).toEqual(expected);
  });

  it.each(['01234', '1-2-3', '=1+1', 'TRUE', '5%'])('text cells keep %j', async (input) => {
    expect(await written(openBook(), input, '@')).toEqual([input, input, '@', 'String']);
  });

  it('turns text into a formula', async () => {
    expect((await written(openBook(), '=1+1'))[1]).toBe('=1+1');
    expect((await written(openBook(), '+A2'))[1]).toBe('=+A2');
    expect((await written(openBook(), '-x'))[1]).toBe('=-x');
  });

  it('refuses a broken formula', async () => {
    expect(await errorCode(() => written(openBook(), '=SUM(A2'))).toBe('InvalidArgument');
    expect(await errorCode(() => written(openBook(), '=1+'))).toBe('InvalidArgument');
  });

  it('refuses objects and texts over 32,767 characters', async () => {
    expect(await errorCode(() => written(openBook(), { a: 1 }))).toBe('InvalidArgument');
    expect(await errorCode(() => written(openBook(), 'x'.repeat(32768)))).toBe('InvalidArgument');
  });

  it('leaves cells alone where the value is null, and empties them for the empty text', async () => {
    const book = openBook();
    book.model.enterBlock('Sheet1', { row: 0, column: 0, rows: 1, columns: 2 }, [[1, 2]], 'user');
    await book.run(async (context) => {
      sheetOf(context).getRange('A1:B1').values = [[null, '']];
      await context.sync();
    });
    expect([book.model.value('Sheet1', 0, 0), book.model.value('Sheet1', 0, 1)]).toEqual([1, null]);
  });

  it('fills a range with a single value', async () => {
    const book = openBook();
    await book.run(async (context) => {
      sheetOf(context).getRange('A1:B2').values = 7 as unknown as number[][];
      await context.sync();
    });
    expect(book.model.value('Sheet1', 1, 1)).toBe(7);
  });

  it('takes on the format of its column', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const sheet = sheetOf(context);
      sheet.getRange('C:C').numberFormat = '@' as unknown as string[][];
      sheet.getRange('C9').values = [['007']];
      await context.sync();
    });
    expect(book.model.value('Sheet1', 8, 2)).toBe('007');
  });
});

describe('ranges', () => {
  it('read formulas, values, text and types', async () => {
    const book = openBook();
    book.model.enterBlock(
      'Sheet1',
      { row: 0, column: 0, rows: 1, columns: 4 },
      [[0.125, 'a', true, '=1/0']],
      'user',
    );
    book.model.setResult('Sheet1', 0, 3, { error: '#DIV/0!' });
    book.model.style('Sheet1', { row: 0, column: 0, rows: 1, columns: 1 }, { numberFormat: '0.0%' }, 'user');
    await book.run(async (context) => {
      const range = sheetOf(context).getRange('A1:E1').load('values,formulas,text,valueTypes');
      await context.sync();
      expect(range.values).toEqual([[0.125, 'a', true, '#DIV/0!', '']]);
      expect(range.formulas).toEqual([[0.125, 'a', true, '=1/0', '']]);
      expect(range.text).toEqual([['12.5%', 'a', 'TRUE', '#DIV/0!', '']]);
      expect(range.valueTypes).toEqual([['Double', 'String', 'Boolean', 'Error', 'Empty']]);
    });
  });

  it('refuse arrays of another size', async () => {
    const book = openBook();
    for (const values of [[[1]], [[1, 2], [3]], [[1, 2, 3]]]) {
      const code = await errorCode(() =>
        book.run(async (context) => {
          sheetOf(context).getRange('A1:B2').values = values;
          await context.sync();
        }),
      );
      expect(code).toBe('InvalidArgument');
    }
  });

  it('refuse bad addresses, other sheets and cells off the sheet', async () => {
    const book = openBook({ sheets: ['Sheet1', 'Other'] });
    for (const address of ['A0', 'XFE1', 'A1048577', 'no such name', 'Other!A1', 'A1:']) {
      const code = await errorCode(() =>
        book.run(async (context) => {
          sheetOf(context).getRange(address).load('address');
          await context.sync();
        }),
      );
      expect(code, address).toBe('InvalidArgument');
    }
    const off = await errorCode(() =>
      book.run(async (context) => {
        sheetOf(context).getRange('A1').getOffsetRange(-1, 0).load('address');
        await context.sync();
      }),
    );
    expect(off).toBe('InvalidArgument');
  });

  it('find their neighbours', async () => {
    const book = openBook({ sheets: ["Plan 'A'"] });
    await book.run(async (context) => {
      const range = sheetOf(context, "Plan 'A'").getRange('B2:C4');
      const parts = [
        range.getCell(1, 1),
        range.getOffsetRange(1, -1),
        range.getResizedRange(-1, 2),
        range.getAbsoluteResizedRange(1, 1),
        range.getRow(2),
        range.getLastColumn(),
        range.getLastCell(),
        range.getEntireRow(),
        range.getEntireColumn(),
        range.getBoundingRect('F9'),
        range.getIntersection('A1:B9'),
        range.getRowsBelow(2),
        range.getColumnsAfter(),
      ];
      for (const part of parts) part.load('address');
      const apart = range.getIntersectionOrNullObject('H1');
      await context.sync();
      expect(parts.map((part) => part.address.replace("'Plan ''A'''!", ''))).toEqual(
        'C3 A3:B5 B2:E3 B2 B4:C4 C2:C4 C4 2:4 B:C B2:F9 B2:B4 B5:C6 D2:D4'.split(' '),
      );
      expect(apart.isNullObject).toBe(true);
    });
  });

  it('know the used range, with and without formats', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const sheet = sheetOf(context);
      sheet.getRange('C3').values = [['x']];
      sheet.getRange('E9').format.fill.color = 'red';
      const all = sheet.getUsedRange().load('address');
      const valued = sheet.getUsedRange(true).load('address');
      const column = sheet.getRange('C:C').getUsedRange(true).load('address');
      await context.sync();
      expect([all.address, valued.address, column.address]).toEqual([
        'Sheet1!C3:E9',
        'Sheet1!C3',
        'Sheet1!C3',
      ]);
    });
  });

  it('grow to the surrounding region', async () => {
    const book = openBook();
    const cells = [
      [1, 2, '', 9],
      [3, 4, '', ''],
      ['', '', '', ''],
      ['', 5, '', ''],
    ];
    book.model.enterBlock('Sheet1', { row: 1, column: 1, rows: 4, columns: 4 }, cells, 'user');
    await book.run(async (context) => {
      const region = sheetOf(context).getRange('B2').getSurroundingRegion().load('address');
      await context.sync();
      expect(region.address).toBe('Sheet1!B2:C3');
    });
  });

  it('grow in every direction, over corners too', async () => {
    const book = openBook();
    const cells = [
      ['', '', '', 1],
      ['', '', 2, ''],
      ['', 3, '', ''],
      [4, '', '', ''],
      ['', 5, '', ''],
    ];
    book.model.enterBlock('Sheet1', { row: 1, column: 1, rows: 5, columns: 4 }, cells, 'user');
    await book.run(async (context) => {
      const regions = ['E2', 'C4', 'C6', 'A1', 'H9'].map((at) =>
        sheetOf(context).getRange(at).getSurroundingRegion().load('address'),
      );
      await context.sync();
      expect(regions.map(({ address }) => address)).toEqual([
        'Sheet1!B2:E6',
        'Sheet1!B2:E6',
        'Sheet1!B2:E6',
        'Sheet1!A1',
        'Sheet1!H9',
      ]);
    });
  });

  it('find text', async () => {
    const book = openBook();
    book.model.enterBlock(
      'Sheet1',
      { row: 0, column: 0, rows: 1, columns: 3 },
      [['Keys', 'key', 'monkey']],
      'user',
    );
    await book.run(async (context) => {
      const range = sheetOf(context).getRange('A1:C1');
      const whole = range.find('key', { completeMatch: true }).load('address');
      const loose = range.find('KEY', {}).load('address');
      const none = range.findOrNullObject('KEY', { matchCase: true });
      await context.sync();
      expect([whole.address, loose.address, none.isNullObject]).toEqual(['Sheet1!B1', 'Sheet1!A1', true]);
    });
  });

  it('give special cells as areas', async () => {
    const book = openBook();
    const rows = [
      [1, '=A1', ''],
      ['x', '', ''],
    ];
    book.model.enterBlock('Sheet1', { row: 0, column: 0, rows: 2, columns: 3 }, rows, 'user');
    await book.run(async (context) => {
      const range = sheetOf(context).getRange('A1:B2');
      const constants = range.getSpecialCells('Constants').load('address,areaCount');
      const texts = range.getSpecialCells('Constants', 'Text').load('address');
      const blanks = range.getSpecialCells('Blanks').load('address');
      const errors = range.getSpecialCellsOrNullObject('Formulas', 'Errors');
      await context.sync();
      expect(constants.address).toBe('Sheet1!A1:A2');
      expect(texts.address).toBe('Sheet1!A2');
      expect(blanks.address).toBe('Sheet1!B2');
      expect(errors.isNullObject).toBe(true);
    });
  });

  it('show only the visible rows in a view', async () => {
    const book = openBook();
    book.model.enterBlock('Sheet1', { row: 0, column: 0, rows: 3, columns: 1 }, [[1], [2], [3]], 'user');
    await book.run(async (context) => {
      const sheet = sheetOf(context);
      sheet.getRange('2:2').rowHidden = true;
      const view = sheet.getRange('A1:A3').getVisibleView().load('values,rowCount,cellAddresses');
      const hidden = sheet.getRange('A1:A3').load('rowHidden');
      const row = sheet.getRange('A2').load('rowHidden');
      await context.sync();
      expect(view.values).toEqual([[1], [3]]);
      expect(view.cellAddresses).toEqual([['Sheet1!A1'], ['Sheet1!A3']]);
      expect([hidden.rowHidden, row.rowHidden]).toEqual([null, true]);
    });
  });

  it('copy formulas with their references, or values alone', async () => {
    const book = openBook({ sheets: ['Sheet1', 'Other'] });
    book.model.enterBlock(
      'Sheet1',
      { row: 0, column: 0, rows: 1, columns: 3 },
      [[2, '=A1*$A$1', 'x']],
      'user',
    );
    book.model.setResult('Sheet1', 0, 1, 4);
    await book.run(async (context) => {
      const source = sheetOf(context).getRange('B1');
      sheetOf(context).getRange('B3').copyFrom(source, 'Formulas');
      sheetOf(context, 'Other').getRange('A1').copyFrom('Sheet1!B1', 'Values');
      sheetOf(context, 'Other').getRange('C1:D2').copyFrom('Sheet1!A1');
      await context.sync();
    });
    expect(book.model.cell('Sheet1', 2, 1)?.formula).toBe('=A3*$A$1');
    expect(book.model.cell('Other', 0, 0)).toEqual({ value: 4 });
    expect(book.model.value('Other', 1, 3)).toBe(2);
  });

  it('merge and unmerge', async () => {
    const book = openBook();
    book.model.enterBlock('Sheet1', { row: 0, column: 0, rows: 2, columns: 1 }, [['kept'], ['lost']], 'user');
    await book.run(async (context) => {
      const sheet = sheetOf(context);
      sheet.getRange('A1:B2').merge();
      const merged = sheet.getRange('A1:D9').getMergedAreasOrNullObject().load('address');
      await context.sync();
      expect(merged.address).toBe('Sheet1!A1:B2');
      sheet.getRange('A1').unmerge();
      const none = sheet.getRange('A1:D9').getMergedAreasOrNullObject();
      await context.sync();
      expect(none.isNullObject).toBe(true);
    });
    expect([book.model.value('Sheet1', 0, 0), book.model.value('Sheet1', 1, 0)]).toEqual(['kept', null]);
  });

  it('hold links within the book', async () => {
    const book = openBook({ sheets: ['Sheet1', 'Keys'] });
    await book.run(async (context) => {
      const range = sheetOf(context).getRange('A1');
      range.hyperlink = { documentReference: 'Keys!A1', textToDisplay: 'to the keys', screenTip: 'jump' };
      range.load('hyperlink,values');
      await context.sync();
      expect(range.values).toEqual([['to the keys']]);
      expect(range.hyperlink).toMatchObject({ documentReference: 'Keys!A1', screenTip: 'jump' });
    });
  });

  it('select, and tell the selection', async () => {
    const book = openBook({ sheets: ['Sheet1', 'Other'] });
    await book.run(async (context) => {
      sheetOf(context, 'Other').getRange('B2:C3').select();
      const selected = context.workbook.getSelectedRange().load('address');
      const cell = context.workbook.getActiveCell().load('address');
      const active = context.workbook.worksheets.getActiveWorksheet().load('name');
      await context.sync();
      expect([selected.address, cell.address, active.name]).toEqual(['Other!B2:C3', 'Other!B2', 'Other']);
    });
    book.host.userSelect('Other', 'A1,C3:C4');
    await book.run(async (context) => {
      const all = context.workbook.getSelectedRanges().load('address,areaCount');
      await context.sync();
      expect([all.address, all.areaCount]).toEqual(['Other!A1,Other!C3:C4', 2]);
    });
    const code = await errorCode(() =>
      book.run(async (context) => {
        context.workbook.getSelectedRange().load('address');
        await context.sync();
      }),
    );
    expect(code).toBe('InvalidSelection');
  });

  it('clear contents, formats or both', async () => {
    const book = openBook();
    const area = { row: 0, column: 0, rows: 1, columns: 3 };
    book.model.enterBlock('Sheet1', area, [['a', 'b', 'c']], 'user');
    book.model.style('Sheet1', area, { bold: true }, 'user');
    await book.run(async (context) => {
      const sheet = sheetOf(context);
      sheet.getRange('A1').clear('Contents');
      sheet.getRange('B1').clear('Formats');
      sheet.getRange('C1').clear();
      await context.sync();
    });
    expect(book.model.cell('Sheet1', 0, 0)).toEqual({ value: null, style: { bold: true } });
    expect(book.model.cell('Sheet1', 0, 1)).toEqual({ value: 'b' });
    expect(book.model.cell('Sheet1', 0, 2)).toBeUndefined();
  });

  it('sort rows by several keys, empty cells last', async () => {
    const book = openBook();
    const rows = [
      ['b', 1],
      ['a', 2],
      ['', 3],
      ['a', 1],
    ];
    book.model.enterBlock('Sheet1', { row: 0, column: 0, rows: 4, columns: 2 }, rows, 'user');
    await book.run(async (context) => {
      const range = sheetOf(context).getRange('A1:B4');
      range.sort.apply([
        { key: 0, ascending: true },
        { key: 1, ascending: false },
      ]);
      range.load('values');
      await context.sync();
      expect(range.values).toEqual([
        ['a', 2],
        ['a', 1],
        ['b', 1],
        ['', 3],
      ]);
    });
  });

  it('tell spills', async () => {
    const book = openBook();
    book.model.enter('Sheet1', 0, 0, '=SEQ()', 'user');
    book.model.setResult('Sheet1', 0, 0, [
      [1, 2],
      [3, 4],
    ]);
    await book.run(async (context) => {
      const sheet = sheetOf(context);
      const spill = sheet.getRange('A1').getSpillingToRange().load('address,values');
      const parent = sheet.getRange('B2').getSpillParent().load('address');
      const none = sheet.getRange('D1').getSpillParentOrNullObject();
      await context.sync();
      expect(spill.address).toBe('Sheet1!A1:B2');
      expect(spill.values).toEqual([
        [1, 2],
        [3, 4],
      ]);
      expect([parent.address, none.isNullObject]).toEqual(['Sheet1!A1', true]);
    });
  });
});
