/** Blocks of the shop's own cells read through office.js: the selection, a range, a table, a list of codes, a grid. */
import { describe, expect, it } from 'vitest';
import {
  readCodeRows,
  readGridSource,
  readQuotingSheets,
  readSchedule,
  readTarget,
  readZones,
  writeSettings,
} from '../../src/workbook/index.ts';
import { readScheduleSheet } from '../../src/workbook/schedule.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { put, reading, writeSystem } from './book.ts';
import { school } from './school.ts';

const BLOCK = [
  ['Key code', 'Note'],
  ["'354635", 'old'],
  ["'554635", ''],
];

/** A sheet with `BLOCK` in B3:C5. */
function codes(): OpenBook {
  const book = openBook();
  book.host.userEdit('Sheet1', 'B3', BLOCK);
  return book;
}
async function selected(book: OpenBook, address: string) {
  book.host.userSelect('Sheet1', address);
  const read = await readTarget('selection');
  return read.ok ? read.value : read.error.code;
}
const addTable = ({ model }: OpenBook): void =>
  void model.addTable('Sheet1', { row: 2, column: 1, rows: 3, columns: 2 }, true, 'user', 'Codes');

describe('a block of cells', () => {
  it('is the filled block around one selected cell, headings apart', async () => {
    const book = codes();
    book.host.userEdit('Sheet1', 'D4', 'beside');
    expect(await selected(book, 'C4')).toMatchObject({ box: { row: 2, column: 1, rows: 3, columns: 3 } });
    book.host.userEdit('Sheet1', 'D4', '');
    expect(await selected(book, 'B4')).toStrictEqual({
      box: { sheet: 'Sheet1', row: 2, column: 1, rows: 3, columns: 2 },
      headers: ['Key code', 'Note'],
      values: [
        ['354635', 'old'],
        ['554635', ''],
      ],
      right: ['', '', ''],
      protected: false,
      filtered: false,
      merged: false,
      totals: false,
    });
  });

  it('is what was selected or named, cut to what is filled', async () => {
    const book = codes();
    book.host.userEdit('Sheet1', 'D4', '=1+1');
    const codesAlone = {
      box: { sheet: 'Sheet1', row: 3, column: 1, rows: 2, columns: 2 },
      headers: [],
      values: [
        ['354635', 'old'],
        ['554635', ''],
      ],
      // what stands to the right, formulas where there are any
      right: ['=1+1', ''],
    };
    expect(await selected(book, 'B4:C5')).toMatchObject(codesAlone);
    expect(await selected(book, 'B4:C900')).toMatchObject(codesAlone);
    const named = await readTarget({ sheet: 'Sheet1', address: 'B4:C5' });
    expect(named.ok && named.value).toMatchObject(codesAlone);
    expect(await readTarget({ sheet: 'Gone', address: 'B4' })).toMatchObject({
      ok: false,
      error: { code: 'ItemNotFound' },
    });
  });

  it('is nothing where nothing is filled', async () => {
    const nothing = {
      ok: false,
      error: {
        code: 'NothingSelected',
        sentence:
          'There is nothing in these cells. Select the cells that hold the codes, or one cell of their table.',
      },
    };
    openBook().host.userSelect('Sheet1', 'B2');
    expect(await readTarget('selection')).toEqual(nothing);
    const book = codes();
    for (const address of ['M20:N21', 'M20', 'D4:E5'])
      expect(await selected(book, address)).toBe('NothingSelected');
    book.host.userEdit('Sheet1', 'F9', 'far');
    // within what is used, and blank
    expect(await selected(book, 'D7:E8')).toBe('NothingSelected');
  });

  it('is the whole table of a selected cell, without its totals row', async () => {
    const book = codes();
    addTable(book);
    const whole = { table: 'Codes', box: { row: 2, column: 1, rows: 3, columns: 2 }, totals: false };
    expect(await selected(book, 'C5')).toMatchObject({
      ...whole,
      headers: ['Key code', 'Note'],
      filtered: false,
    });
    await book.run(async (context) => {
      context.workbook.tables.getItem('Codes').showTotals = true;
      await context.sync();
    });
    const totals = await selected(book, 'C5');
    expect(totals).toMatchObject({ ...whole, totals: true });
    expect(totals).toHaveProperty('right.length', 3);
    expect(totals).toHaveProperty('values.length', 2);
  });

  it('has headings in a table, whatever they look like', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'B3', [['12', '34'], ['56', '78']]); // prettier-ignore
    book.model.addTable('Sheet1', { row: 2, column: 1, rows: 2, columns: 2 }, true, 'user', 'Odd');
    expect(await selected(book, 'B4')).toMatchObject({ headers: ['12', '34'], values: [[56, 78]] });
  });

  it('tells of protection, filters and merged cells', async () => {
    const book = codes();
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.autoFilter.apply('B3:C5', 0, { filterOn: 'Values', values: ['354635'] });
      await context.sync();
    });
    expect(await selected(book, 'B4:C5')).toMatchObject({ filtered: true, protected: false, merged: false });
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.autoFilter.remove();
      sheet.getRange('B5:C5').merge();
      sheet.protection.protect();
      await context.sync();
    });
    expect(await selected(book, 'B4:C5')).toMatchObject({ filtered: false, protected: true, merged: true });
    const other = codes();
    addTable(other);
    await other.run(async (context) => {
      const { autoFilter } = context.workbook.tables.getItem('Codes');
      autoFilter.apply('B3:C5', 0, { filterOn: 'Values', values: ['354635'] });
      await context.sync();
    });
    expect(await selected(other, 'B4')).toMatchObject({ filtered: true });
  });
});

describe('a sheet of the shop’s', () => {
  it('is read where it is filled, not where it is only coloured', async () => {
    const book = codes();
    await book.run(async (context) => {
      context.workbook.worksheets.getItem('Sheet1').getRange('K30').format.fill.color = '#FF0000';
      await context.sync();
    });
    const box = { sheet: 'Sheet1', row: 2, column: 1, rows: 3, columns: 2 };
    const read = await readScheduleSheet('Sheet1');
    expect(read.ok && read.value).toMatchObject({ box, merged: [], filtered: false, protected: false });
    expect(await selected(book, 'A1:Z99')).toMatchObject({ box });
    expect((await reading()).sheets[0]).toMatchObject({ used: box });
  });

  it('has a filter where any of its tables has one', async () => {
    const book = codes();
    addTable(book);
    book.host.userEdit('Sheet1', 'F3', BLOCK);
    book.model.addTable('Sheet1', { row: 2, column: 5, rows: 3, columns: 2 }, true, 'user', 'Others');
    const filtered = async () => {
      const read = await readScheduleSheet('Sheet1');
      return read.ok && read.value.filtered;
    };
    expect(await filtered()).toBe(false);
    await book.run(async (context) => {
      const { autoFilter } = context.workbook.tables.getItem('Others');
      autoFilter.apply('F3:G5', 0, { filterOn: 'Values', values: ['354635'] });
      await context.sync();
    });
    expect(await filtered()).toBe(true);
  });

  it('without headings of a schedule is named', async () => {
    codes();
    expect(await readSchedule('Sheet1')).toMatchObject({
      error: {
        sentence:
          'No row of Sheet1 looks like the headings of a schedule. Choose another sheet, or give this one a row of headings: “Door” and at least one of “Location”, “Keyset”, “Quantity”.',
      },
    });
  });
});

describe('a list of codes', () => {
  const rows = async (address: string) => {
    const read = await readCodeRows({ sheet: 'Sheet1', address });
    if (!read.ok) throw new Error(read.error.sentence);
    return read.value.rows;
  };

  it('is read cell by cell with its headings, dates and padded numbers told apart', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', [['Key code', 'Made', 'Count'], [46_095, 274153, 12], ['x', 46_095, 7]]); // prettier-ignore
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.getRange('A2:B3').numberFormat = [
        ['0000000', 'General'],
        ['yyyy-mm-dd', 'yyyy-mm-dd'],
      ];
      await context.sync();
    });
    const [headings, first, second] = await rows('A1:C3');
    expect(headings).toEqual(['Key code', 'Made', 'Count']);
    expect(first).toEqual(['0046095', 274153, 12]);
    expect(second).toEqual(['x', { serial: 46_095, shown: '2026-03-14' }, 7]);
    expect(await rows('A2:C3')).toEqual([first, second]);
    // a row by itself, of numbers alone and among texts
    expect([await rows('A2:C2'), await rows('A3:C3')]).toEqual([[first], [second]]);
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.getRange('C2:C3').numberFormat = [['#00'], ['00.0']];
      await context.sync();
    });
    expect(await rows('A2:C3')).toEqual([first, second]);
    // one zero alone is how most numbers are shown
    await book.run(async (context) => {
      context.workbook.worksheets.getItem('Sheet1').getRange('A2').numberFormat = [['0']];
      await context.sync();
    });
    expect((await rows('A2:C3'))[0]).toEqual([46_095, 274153, 12]);
  });

  it('is read to its end however long it is', async () => {
    const book = openBook();
    const many = Array.from({ length: 20_003 }, (_, r) => [r]);
    await book.run(async (context) => {
      const range = context.workbook.worksheets.getItem('Sheet1').getRange('B3:B20005');
      range.numberFormat = many.map(() => ['000000']);
      range.values = many;
      await context.sync();
    });
    const read = await rows('B3:B20005');
    expect(read.length).toBe(20_003);
    expect([0, 19_999, 20_000, 20_002].map((r) => read[r])).toEqual([
      ['000000'],
      ['019999'],
      ['020000'],
      ['020002'],
    ]);
  });

  it('is as it stands where there are no numbers, and trouble where there is nothing', async () => {
    const { host } = codes();
    const asked: string[] = [];
    host.intercept = (_, body) => {
      asked.push(JSON.stringify(body.Actions));
      return 'pass';
    };
    expect(await rows('B3:C5')).toEqual([
      ['Key code', 'Note'],
      ['354635', 'old'],
      ['554635', ''],
    ]);
    // nor is a format asked for that says how a number shows
    expect(asked.join()).toContain('values');
    expect(asked.join()).not.toContain('numberFormat');
    expect(await readCodeRows({ sheet: 'Sheet1', address: 'M1:N2' })).toMatchObject({
      ok: false,
      error: { code: 'NothingSelected' },
    });
  });
});

describe('the cells of a grid', () => {
  const GRID = [
    ['Door', 'M', 'A'],
    ['101', 'x', 'x'],
    ['102', 'x', ''],
  ];
  const at = async (address: string) => {
    const read = await readGridSource('selection');
    return read.ok ? read.value : `${address} ${read.error.code}`;
  };

  it('are those of a whole sheet, or of the selection', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'B3', GRID);
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.getRange('C4:D4').merge();
      sheet.getRange('B5:C5').merge();
      await context.sync();
    });
    const whole = await readGridSource({ sheet: 'Sheet1' });
    expect(whole.ok && whole.value).toMatchObject({ box: { row: 2, column: 1, rows: 3, columns: 3 } });
    book.host.userSelect('Sheet1', 'B3');
    const merged = [
      { row: 1, column: 1, rows: 1, columns: 2 },
      { row: 2, column: 0, rows: 1, columns: 2 },
    ];
    const around = await at('B3');
    expect(around).toMatchObject({ box: { row: 2, column: 1, rows: 3, columns: 3 }, merged });
    expect(around).not.toHaveProperty('table');
    expect((around as { values: unknown }).values).toEqual((whole.ok && whole.value.values) || []);
    // of a part the merged cells within it, from its first cell on
    book.host.userSelect('Sheet1', 'C4:D5');
    expect(await at('C4:D5')).toMatchObject({
      box: { row: 3, column: 2, rows: 2, columns: 2 },
      merged: [
        { row: 0, column: 0, rows: 1, columns: 2 },
        { row: 1, column: -1, rows: 1, columns: 2 },
      ],
    });
    book.host.userSelect('Sheet1', 'B5:D5');
    expect(await at('B5:D5')).toBe('B5:D5 NoGrid');
    book.host.userSelect('Sheet1', 'D3:D5');
    expect(await at('D3:D5')).toBe('D3:D5 NoGrid');
    book.host.userSelect('Sheet1', 'M9:N10');
    expect(await at('M9:N10')).toBe('M9:N10 NothingSelected');
    expect(await readGridSource({ sheet: 'Gone' })).toMatchObject({
      ok: false,
      error: { code: 'ItemNotFound' },
    });
  });

  it('leave out merged cells above and left of them, and name the table that they are of', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', [['Plan', '', '', ''], ['', ...GRID[0]!], ['', ...GRID[1]!], ['', ...GRID[2]!]]); // prettier-ignore
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.getRange('A1:D1').merge();
      sheet.getRange('A2:A4').merge();
      await context.sync();
    });
    book.host.userSelect('Sheet1', 'B2:D4');
    expect(await at('B2:D4')).toMatchObject({ box: { row: 1, column: 1 }, merged: [] });
    const other = openBook();
    other.host.userEdit('Sheet1', 'B3', GRID);
    other.model.addTable('Sheet1', { row: 2, column: 1, rows: 3, columns: 3 }, true, 'user', 'Marks');
    other.host.userSelect('Sheet1', 'C4');
    expect(await at('C4')).toMatchObject({ table: 'Marks', box: { rows: 3, columns: 3 } });
    expect(await readGridSource('selection')).toMatchObject({ ok: true });
  });

  it('need more than one row and column, which is said', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'B3', 'x');
    book.host.userSelect('Sheet1', 'B3');
    expect(await readGridSource('selection')).toEqual({
      ok: false,
      error: {
        code: 'NoGrid',
        sentence:
          'A grid needs a row of keys and a column of cylinders. Select it whole, or one cell inside it.',
      },
    });
  });
});

describe('sheets of the shop’s', () => {
  it('that quote a bitting are told with how many cells do', async () => {
    const book = openBook();
    await writeSystem(school());
    book.host.userEdit('Sheet1', 'A1', [['was 3-5-4-6-3-5', "'354635"], [354635, 'Hall 3546']]); // prettier-ignore
    await book.run(async (context) => {
      context.workbook.worksheets.add('Empty');
      await context.sync();
    });
    expect(await readQuotingSheets(await reading())).toEqual([{ sheet: 'Sheet1', cells: 3 }]);
    await put(book, 'Sheet1', { A1: 'gone', B1: 'gone', A2: '354 63' });
    expect(await readQuotingSheets(await reading())).toEqual([]);
    const empty = openBook();
    empty.host.userEdit('Sheet1', 'A1', [["'354635"]]);
    // without bittings of ours none is quoted, and no sheet is looked through
    const bare = await reading();
    let asked = 0;
    empty.host.intercept = () => {
      asked++;
      return 'pass';
    };
    expect([await readQuotingSheets(bare), asked]).toEqual([[], 0]);
  });

  it('tell the zones of doors: the one confirmed, else the first that tells any', async () => {
    const book = openBook();
    await writeSystem(school());
    const zones = async () => {
      const found = await readZones(await reading());
      return found && [found.sheet, found.zoneOf('0101')];
    };
    // our own sheet of cylinders looks like a schedule, also with a column of the shop's in it
    await book.run(async (context) => {
      context.workbook.tables.getItem('KeyrowCylinders').columns.add(undefined, undefined, 'Zone');
      await context.sync();
    });
    await put(book, 'Cylinders', { S5: 'North' });
    expect(await zones()).toBeUndefined();
    book.host.userEdit('Sheet1', 'A1', [['Door', 'Room', 'Keyset', 'Zone'], ["'0101", 'Office', 'AA1', 'West']]); // prettier-ignore
    await book.run(async (context) => {
      context.workbook.worksheets.add('Other');
      await context.sync();
    });
    book.host.userEdit('Other', 'A1', [['Door', 'Room', 'Keyset', 'Zone'], ["'0101", 'Office', 'AA1', 'East']]); // prettier-ignore
    expect(await zones()).toEqual(['Sheet1', 'West']);
    await put(book, 'Sheet1', { D2: '' });
    expect(await zones()).toEqual(['Other', 'East']);
    await put(book, 'Sheet1', { D2: 'West' });
    const columns = { headerRow: 0, door: 0, location: 1, symbol: 2, zone: 3 };
    const headings = { door: 'Door', location: 'Room', symbol: 'Keyset', zone: 'Zone' };
    await writeSettings({ schedule: { sheet: 'Other', columns, headings } });
    expect(await zones()).toEqual(['Other', 'East']);
    // one that was never confirmed, and one whose sheet is gone
    await writeSettings({ schedule: { sheet: 'Other', columns } });
    expect(await zones()).toEqual(['Sheet1', 'West']);
    await writeSettings({ schedule: { sheet: 'Gone', columns, headings } });
    expect(await zones()).toEqual(['Sheet1', 'West']);
    await put(book, 'Other', { A1: '', B1: '', C1: '', D1: '', A2: '', B2: '', C2: '', D2: '' });
    await writeSettings({ schedule: { sheet: 'Other', columns, headings } });
    expect(await zones()).toEqual(['Sheet1', 'West']);
  });
});
