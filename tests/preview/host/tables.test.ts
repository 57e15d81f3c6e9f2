import { beforeEach, describe, expect, it } from 'vitest';
import { errorCode, openBook, type OpenBook } from '../../support/office.ts';

let book: OpenBook;

/** `Keys` in B3:D5 of Sheet1: name, cuts, count. */
beforeEach(async () => {
  book = openBook({ sheets: ['Sheet1', 'Other'] });
  await book.run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    const range = sheet.getRange('B3:D5');
    range.values = [
      ['Key', 'Cuts', 'Count'],
      ['AA1', "'0123", 2],
      ['AA2', "'0321", 3],
    ];
    const table = sheet.tables.add(range, true);
    table.name = 'Keys';
    await context.sync();
  });
});

const keys = (context: Excel.RequestContext): Excel.Table => context.workbook.tables.getItem('Keys');

describe('tables', () => {
  it('tell their parts', async () => {
    await book.run(async (context) => {
      const table = keys(context);
      const ranges = [
        table.getRange(),
        table.getHeaderRowRange(),
        table.getDataBodyRange(),
        table.columns.getItem('Cuts').getDataBodyRange(),
        table.columns.getItemAt(2).getRange(),
        table.rows.getItemAt(1).getRange(),
      ];
      for (const range of ranges) range.load('address');
      table.load('name,showHeaders,showTotals,style,worksheet/name');
      table.columns.load('items/name,items/index,count');
      table.rows.load('items/values,count');
      await context.sync();
      expect(ranges.map((range) => range.address.slice(7))).toEqual(
        'B3:D5 B3:D3 B4:D5 C4:C5 D3:D5 B5:D5'.split(' '),
      );
      expect(table.columns.items.map((column) => column.name)).toEqual(['Key', 'Cuts', 'Count']);
      expect([table.columns.count, table.rows.count]).toEqual([3, 2]);
      expect(table.rows.items[1]?.values).toEqual([['AA2', '0321', 3]]);
      expect(table.worksheet.name).toBe('Sheet1');
      expect(table.style).toBe('TableStyleMedium2');
    });
  });

  it('name columns once each, in text, never empty', async () => {
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Other');
      sheet.getRange('A1:D1').values = [['Cut', 'Cut', 7, '']];
      const table = sheet.tables.add('A1:D2', true);
      table.columns.load('items/name');
      const header = table.getHeaderRowRange().load('values');
      await context.sync();
      expect(table.columns.items.map((column) => column.name)).toEqual(['Cut', 'Cut2', '7', 'Column4']);
      expect(header.values).toEqual([['Cut', 'Cut2', '7', 'Column4']]);
    });
  });

  it('push the data down to make room for headers', async () => {
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Other');
      sheet.getRange('A1:A2').values = [[1], [2]];
      const range = sheet.tables.add('A1:A2', false).getRange().load('address,values');
      await context.sync();
      expect(range.address).toBe('Other!A1:A3');
      expect(range.values).toEqual([['Column1'], [1], [2]]);
    });
  });

  it('refuse overlaps, bad names and names in use', async () => {
    const tries: [string, (context: Excel.RequestContext) => unknown][] = [
      ['InvalidArgument', (c) => c.workbook.worksheets.getItem('Sheet1').tables.add('D5:E6', true)],
      ['InvalidArgument', (c) => (keys(c).name = 'A1')],
      ['InvalidArgument', (c) => (keys(c).name = 'two words')],
      [
        'ItemAlreadyExists',
        (c) => {
          c.workbook.worksheets.getItem('Other').tables.add('A1:A2', true).name = 'keys';
        },
      ],
      ['ItemNotFound', (c) => c.workbook.tables.getItem('Nothing').load('name')],
      ['ItemNotFound', (c) => keys(c).columns.getItem('Nothing').load('name')],
      ['ItemNotFound', (c) => keys(c).getTotalRowRange().load('address')],
    ];
    for (const [code, act] of tries) {
      const got = await errorCode(() =>
        book.run(async (context) => {
          act(context);
          await context.sync();
        }),
      );
      expect(got, act.toString()).toBe(code);
    }
  });

  it('append rows below, moving what lies there', async () => {
    book.model.enter('Sheet1', 5, 1, 'below', 'addin');
    book.model.enter('Sheet1', 5, 5, 'beside', 'addin');
    await book.run(async (context) => {
      keys(context).rows.add(undefined, [
        ['AA3', "'0011", 1],
        ['AA4', "'0022", 1],
      ]);
      await context.sync();
    });
    expect(book.model.table('Keys').area.rows).toBe(5);
    expect(book.model.value('Sheet1', 5, 2)).toBe('0011');
    expect(book.model.value('Sheet1', 7, 1)).toBe('below');
    expect(book.model.value('Sheet1', 5, 5)).toBe('beside');
  });

  it('insert a row in the middle and refuse rows of another width', async () => {
    await book.run(async (context) => {
      keys(context).rows.add(0, [['AA0', 'x', 1]]);
      await context.sync();
    });
    expect([3, 4, 5].map((row) => book.model.value('Sheet1', row, 1))).toEqual(['AA0', 'AA1', 'AA2']);
    const code = await errorCode(() =>
      book.run(async (context) => {
        keys(context).rows.add(undefined, [['a', 'b']]);
        await context.sync();
      }),
    );
    expect(code).toBe('InvalidArgument');
  });

  it('resize over cells written below, keeping column ids', async () => {
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.getRange('B6:E6').values = [['AA3', 'z', 4, 'new']];
      sheet.getRange('E3').values = [['Note']];
      const table = keys(context);
      table.columns.load('items/id');
      await context.sync();
      const before = table.columns.items.map((column) => column.id);
      table.resize('B3:E6');
      table.columns.load('items/id,items/name');
      table.rows.load('count');
      await context.sync();
      expect(table.columns.items.map((column) => column.name)).toEqual(['Key', 'Cuts', 'Count', 'Note']);
      expect(table.columns.items.slice(0, 3).map((column) => column.id)).toEqual(before);
      expect(table.rows.count).toBe(3);
    });
    const code = await errorCode(() =>
      book.run(async (context) => {
        keys(context).resize('B4:E6');
        await context.sync();
      }),
    );
    expect(code).toBe('InvalidArgument');
  });

  it('add, rename and delete columns, with structured references following', async () => {
    await book.run(async (context) => {
      const table = keys(context);
      table.columns.add(undefined, [['Twice'], ['=[@Count]*2'], ['=[@Count]*2']]);
      context.workbook.worksheets.getItem('Other').getRange('A1').values = [['=SUM(Keys[Count])']];
      await context.sync();
      table.columns.getItem('Count').name = 'How many';
      await context.sync();
    });
    expect(book.model.cell('Sheet1', 3, 4)?.formula).toBe('=[@[How many]]*2');
    expect(book.model.cell('Other', 0, 0)?.formula).toBe('=SUM(Keys[How many])');
    await book.run(async (context) => {
      keys(context).columns.getItem('Cuts').delete();
      await context.sync();
    });
    expect(book.model.table('Keys').columns.map((column) => column.name)).toEqual([
      'Key',
      'How many',
      'Twice',
    ]);
    expect(book.model.table('Keys').area.columns).toBe(3);
  });

  it('follow their header cells', async () => {
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.getRange('D3').values = [['Key']];
      const table = keys(context);
      table.columns.load('items/name');
      await context.sync();
      expect(table.columns.items.map((column) => column.name)).toEqual(['Key', 'Cuts', 'Key2']);
    });
  });

  it('carry the formula of a column into new rows', async () => {
    await book.run(async (context) => {
      keys(context).columns.getItem('Count').getDataBodyRange().formulas = [['=LEN(C4)'], ['=LEN(C5)']];
      keys(context).rows.add(undefined, [['AA3', 'x', null as unknown as string]]);
      await context.sync();
    });
    expect(book.model.cell('Sheet1', 5, 3)?.formula).toBe('=LEN(C6)');
  });

  it('show totals, filters and styles', async () => {
    await book.run(async (context) => {
      const table = keys(context);
      table.showTotals = true;
      table.style = 'TableStyleLight1';
      table.showFilterButton = false;
      table.load('showTotals,style,showFilterButton');
      const total = table.getTotalRowRange().load('address,values');
      await context.sync();
      expect([table.showTotals, table.style, table.showFilterButton]).toEqual([
        true,
        'TableStyleLight1',
        false,
      ]);
      expect(total.address).toBe('Sheet1!B6:D6');
      expect(total.values[0]?.[0]).toBe('Total');
    });
  });

  it('hide rows by a filter, and say so', async () => {
    await book.run(async (context) => {
      const table = keys(context);
      table.columns.getItem('Key').filter.applyValuesFilter(['AA2']);
      table.autoFilter.load('enabled,isDataFiltered,criteria');
      const view = table.getDataBodyRange().getVisibleView().load('values');
      const row = table.rows.getItemAt(0).getRange().load('rowHidden');
      await context.sync();
      expect([table.autoFilter.enabled, table.autoFilter.isDataFiltered]).toEqual([true, true]);
      expect(view.values).toEqual([['AA2', '0321', 3]]);
      expect(row.rowHidden).toBe(true);
      // writing reaches hidden rows as well
      table.getDataBodyRange().values = [
        ['AA1', 'a', 1],
        ['AA2', 'b', 2],
      ];
      table.clearFilters();
      table.autoFilter.load('isDataFiltered');
      row.load('rowHidden');
      await context.sync();
      expect([table.autoFilter.isDataFiltered, row.rowHidden]).toEqual([false, false]);
    });
    expect(book.model.value('Sheet1', 3, 2)).toBe('a');
  });

  it('compare numbers in own filters', async () => {
    await book.run(async (context) => {
      const table = keys(context);
      table.columns.getItem('Count').filter.applyCustomFilter('>2');
      const view = table.getDataBodyRange().getVisibleView().load('values');
      await context.sync();
      expect(view.values.map((row) => row[0] as string)).toEqual(['AA2']);
    });
  });

  it('sort their body', async () => {
    await book.run(async (context) => {
      const table = keys(context);
      table.sort.apply([{ key: 2, ascending: false }]);
      const body = table.getDataBodyRange().load('values');
      await context.sync();
      expect(body.values.map((row) => row[0] as string)).toEqual(['AA2', 'AA1']);
    });
  });

  it('go, with their cells or without', async () => {
    await book.run(async (context) => {
      const range = keys(context).convertToRange().load('address');
      await context.sync();
      expect(range.address).toBe('Sheet1!B3:D5');
    });
    expect(book.model.tables).toHaveLength(0);
    expect(book.model.value('Sheet1', 2, 1)).toBe('Key');
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.tables.add('B3:D5', true).delete();
      await context.sync();
    });
    expect(book.model.usedArea('Sheet1')).toBeNull();
  });

  it('keep one empty row when the last one is deleted', async () => {
    await book.run(async (context) => {
      const { rows } = keys(context);
      rows.deleteRowsAt(0, 2);
      rows.load('count');
      await context.sync();
      expect(rows.count).toBe(1);
    });
    expect(book.model.value('Sheet1', 3, 1)).toBeNull();
  });

  it('grow when a user types below, not when an add-in writes there', async () => {
    await book.run(async (context) => {
      context.workbook.worksheets.getItem('Sheet1').getRange('B6').values = [['AA3']];
      await context.sync();
    });
    expect(book.model.table('Keys').area.rows).toBe(3);
    book.model.clear('Sheet1', { row: 5, column: 1, rows: 1, columns: 1 }, 'all', 'user');
    book.host.userEdit('Sheet1', 'B6', 'AA3');
    expect(book.model.table('Keys').area.rows).toBe(4);
  });

  it('are listed by sheet and by range', async () => {
    await book.run(async (context) => {
      const here = context.workbook.worksheets.getItem('Sheet1').tables.getCount();
      const there = context.workbook.worksheets.getItem('Other').tables.getCount();
      const touched = context.workbook.worksheets
        .getItem('Sheet1')
        .getRange('D5:F9')
        .getTables(false)
        .getCount();
      const held = context.workbook.worksheets.getItem('Sheet1').getRange('D5:F9').getTables(true).getCount();
      await context.sync();
      expect([here.value, there.value, touched.value, held.value]).toEqual([1, 0, 1, 0]);
    });
  });
});
