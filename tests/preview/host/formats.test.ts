import { describe, expect, it } from 'vitest';
import { errorCode, openBook } from '../../support/office.ts';

const sheetOf = (context: Excel.RequestContext): Excel.Worksheet =>
  context.workbook.worksheets.getItem('Sheet1');

describe('formats', () => {
  it('are set and read, null where cells differ', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const range = sheetOf(context).getRange('A1:B2');
      range.format.font.bold = true;
      range.format.font.color = 'navy';
      range.format.font.size = 14;
      range.format.horizontalAlignment = 'Center';
      range.format.wrapText = true;
      range.format.protection.locked = false;
      sheetOf(context).getRange('B2').format.font.bold = false;
      range.load(
        'format/horizontalAlignment,format/wrapText,format/font/bold,format/font/color,format/font/size,format/fill/color,format/protection/locked',
      );
      await context.sync();
      const { format } = range;
      expect([format.font.bold, format.font.color, format.font.size]).toEqual([null, '#000080', 14]);
      expect([format.horizontalAlignment, format.wrapText, format.fill.color]).toEqual([
        'Center',
        true,
        '#FFFFFF',
      ]);
      expect(format.protection.locked).toBe(false);
    });
    expect(book.model.cell('Sheet1', 0, 0)?.style).toEqual({
      bold: true,
      fontColor: '#000080',
      fontSize: 14,
      horizontal: 'center',
      wrap: true,
      locked: false,
    });
  });

  it('keep columns and rows as wide and high as told', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const sheet = sheetOf(context);
      sheet.getRange('B:B').format.columnWidth = 96;
      sheet.getRange('3:3').format.rowHeight = 30;
      const both = sheet.getRange('A:B').load('format/columnWidth');
      const one = sheet.getRange('B1').load('format/columnWidth,left,width');
      const row = sheet.getRange('A4').load('top');
      await context.sync();
      expect([both.format.columnWidth, one.format.columnWidth]).toEqual([null, 96]);
      expect([one.left, one.width, row.top]).toEqual([48, 96, 60]);
    });
    expect([...book.model.sheet('Sheet1').layout.columnWidths]).toEqual([[1, 128]]);
  });

  it('fit columns to their longest text', async () => {
    const book = openBook();
    book.model.enterBlock(
      'Sheet1',
      { row: 0, column: 0, rows: 1, columns: 2 },
      [['a long long heading', 'x']],
      'user',
    );
    await book.run(async (context) => {
      sheetOf(context).getUsedRange().format.autofitColumns();
      await context.sync();
    });
    const { columnWidths } = book.model.sheet('Sheet1').layout;
    expect(columnWidths.get(0)).toBeGreaterThan(columnWidths.get(1) ?? Infinity);
  });

  it('draw borders round and inside', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const { borders } = sheetOf(context).getRange('A1:B2').format;
      borders.getItem('EdgeTop').style = 'Continuous';
      borders.getItem('InsideVertical').weight = 'Thick';
      borders.getItem('InsideVertical').color = '#ff0000';
      const top = borders.getItem('EdgeTop').load('style,weight,color');
      const bottom = borders.getItem('EdgeBottom').load('style');
      await context.sync();
      expect([top.style, top.weight, top.color, bottom.style]).toEqual([
        'Continuous',
        'Thin',
        '#000000',
        'None',
      ]);
      borders.getItem('EdgeTop').style = 'None';
      await context.sync();
    });
    expect(book.model.cell('Sheet1', 1, 0)?.style?.borders).toEqual({
      right: { style: 'thick', color: '#FF0000' },
    });
    expect(book.model.cell('Sheet1', 0, 1)?.style?.borders).toEqual({});
  });

  it('clear a fill', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const range = sheetOf(context).getRange('A1');
      range.format.fill.color = 'red';
      range.format.fill.clear();
      range.load('format/fill/color');
      await context.sync();
      expect(range.format.fill.color).toBe('#FFFFFF');
    });
    expect(book.model.cell('Sheet1', 0, 0)?.style).toEqual({});
  });

  it('take one format a cell', async () => {
    const book = openBook();
    await book.run(async (context) => {
      sheetOf(context)
        .getRange('A1:B1')
        .setCellProperties([
          [{ format: { fill: { color: '#112233' } } }, { format: { font: { italic: true } } }],
        ]);
      await context.sync();
    });
    expect(book.model.cell('Sheet1', 0, 0)?.style).toEqual({ fill: '#112233' });
    expect(book.model.cell('Sheet1', 0, 1)?.style).toEqual({ italic: true });
  });

  it('set number formats cell by cell', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const range = sheetOf(context).getRange('A1:B1');
      range.values = [[1.5, 45000]];
      range.numberFormat = [['0.00', 'yyyy-mm-dd']];
      range.load('text,numberFormat');
      await context.sync();
      // 15 March 2023 is day 45000 (LibreOffice Calc and ECMA-376 agree)
      expect(range.text).toEqual([['1.50', '2023-03-15']]);
      expect(range.numberFormat).toEqual([['0.00', 'yyyy-mm-dd']]);
    });
  });

  it('refuse unknown colours and alignments', async () => {
    const book = openBook();
    const tries: ((range: Excel.Range) => unknown)[] = [
      (range) => (range.format.fill.color = 'no colour'),
      (range) => (range.format.horizontalAlignment = 'Upwards' as Excel.HorizontalAlignment),
      (range) => (range.format.columnWidth = -1),
    ];
    for (const act of tries) {
      const code = await errorCode(() =>
        book.run(async (context) => {
          act(sheetOf(context).getRange('A1'));
          await context.sync();
        }),
      );
      expect(code).toBe('InvalidArgument');
    }
  });
});

describe('conditional formats', () => {
  it('hold formulas, comparisons and texts', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const range = sheetOf(context).getRange('A1:A9');
      const own = range.conditionalFormats.add(Excel.ConditionalFormatType.custom);
      own.custom.rule.formula = '=$B1="!"';
      own.custom.format.fill.color = '#ffcc00';
      own.custom.format.font.bold = true;
      own.stopIfTrue = true;
      const value = range.conditionalFormats.add(Excel.ConditionalFormatType.cellValue);
      value.cellValue.rule = { formula1: '=5', operator: 'GreaterThan' };
      const text = range.conditionalFormats.add(Excel.ConditionalFormatType.containsText);
      text.textComparison.rule = { operator: 'Contains', text: 'key' };
      await context.sync();
      range.conditionalFormats.load('items/type,items/priority,count');
      own.custom.rule.load('formula');
      own.load('priority,stopIfTrue');
      const none = own.cellValueOrNullObject;
      none.load('rule');
      const where = own.getRange().load('address');
      await context.sync();
      expect(range.conditionalFormats.items.map((item) => item.type)).toEqual([
        'ContainsText',
        'CellValue',
        'Custom',
      ]);
      expect([own.custom.rule.formula, own.priority, own.stopIfTrue]).toEqual(['=$B1="!"', 2, true]);
      expect([none.isNullObject, where.address]).toEqual([true, 'Sheet1!A1:A9']);
    });
    const kept = book.model.sheet('Sheet1').layout.conditionalFormats;
    expect(kept[2]?.style).toEqual({ fill: '#FFCC00', bold: true });
    expect(kept[1]?.rule).toEqual({ kind: 'cellValue', operator: 'GreaterThan', formula1: '=5' });
    await book.run(async (context) => {
      sheetOf(context).getRange('A3').conditionalFormats.clearAll();
      await context.sync();
    });
    expect(book.model.sheet('Sheet1').layout.conditionalFormats).toHaveLength(0);
  });
});

describe('data validation', () => {
  it('takes a list, and tells whether cells keep to it', async () => {
    const book = openBook();
    book.model.enter('Sheet1', 0, 0, 'b', 'user');
    await book.run(async (context) => {
      const { dataValidation } = sheetOf(context).getRange('A1:A3');
      dataValidation.rule = { list: { inCellDropDown: true, source: 'a,b' } };
      dataValidation.errorAlert = { message: 'no', showAlert: true, style: 'Stop', title: 'Key' };
      dataValidation.load('rule,type,valid,errorAlert,ignoreBlanks');
      const part = sheetOf(context).getRange('A3:A4').dataValidation.load('type');
      await context.sync();
      expect([dataValidation.type, dataValidation.valid, dataValidation.ignoreBlanks]).toEqual([
        'List',
        true,
        true,
      ]);
      expect(dataValidation.rule).toEqual({ list: { inCellDropDown: true, source: 'a,b' } });
      expect(dataValidation.errorAlert.message).toBe('no');
      expect(part.type).toBe('Inconsistent');
    });
  });

  it('refuses a typed list over 255 characters and splits areas where it is cleared', async () => {
    const book = openBook();
    const set = (source: string): Promise<void> =>
      book.run(async (context) => {
        sheetOf(context).getRange('A1:A9').dataValidation.rule = { list: { inCellDropDown: true, source } };
        await context.sync();
      });
    expect(await errorCode(() => set('x,'.repeat(130)))).toBe('InvalidArgument');
    await set('=Lists!$A$1:$A$99');
    await book.run(async (context) => {
      sheetOf(context).getRange('A4:A5').dataValidation.clear();
      await context.sync();
    });
    expect(book.model.sheet('Sheet1').layout.validations[0]?.areas).toEqual([
      { row: 0, column: 0, rows: 3, columns: 1 },
      { row: 5, column: 0, rows: 4, columns: 1 },
    ]);
  });
});
