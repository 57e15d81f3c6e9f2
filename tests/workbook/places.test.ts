import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  fold,
  freeCuttingName,
  freeGridName,
  freeSheetName,
  isGrid,
  isOurs,
  sameName,
} from '../../src/workbook/names.ts';
import {
  boxAddress,
  cellAddress,
  columnIndex,
  columnName,
  contains,
  formatPlace,
  parseAddress,
  place,
  quoteSheet,
} from '../../src/workbook/places.ts';

describe('addresses', () => {
  it('names columns as a spreadsheet does', () => {
    // the last column of a sheet is XFD, the 16,384th: published specification of the file format (ECMA-376)
    expect([0, 25, 26, 701, 702, 16_383].map(columnName)).toEqual(['A', 'Z', 'AA', 'ZZ', 'AAA', 'XFD']);
  });

  it('reads back every column name', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 16_383 }), (c) => {
        expect(columnIndex(columnName(c))).toBe(c);
      }),
    );
  });

  it('reads back every box with any sheet name', () => {
    const name = fc
      .string({ minLength: 1, maxLength: 31 })
      .filter((s) => s.trim() === s && !/[\\/?*[\]:]/.test(s));
    const box = fc.record({
      sheet: name,
      row: fc.integer({ min: 0, max: 9999 }),
      column: fc.integer({ min: 0, max: 999 }),
      rows: fc.integer({ min: 1, max: 50 }),
      columns: fc.integer({ min: 1, max: 50 }),
    });
    fc.assert(
      fc.property(box, (b) => {
        expect(parseAddress(formatPlace({ sheet: b.sheet, address: boxAddress(b) }))).toEqual(b);
      }),
    );
  });

  it.each(['A0', 'B2:A1', 'A:A', '1:3', 'A1B2', '', 'Keys!', '=A1'])('refuses %j', (text) => {
    expect(parseAddress(text)).toBeUndefined();
  });

  it.each([
    'x A1',
    'A1 x',
    'A1:B2:C3',
    "Keys'!A1",
    'ABCD1',
    'A',
    '7',
    'A1:',
    'A2:B1',
    '!A1',
    "''!A1",
    'A1:1',
  ])('refuses %j too', (text) => {
    expect(parseAddress(text)).toBeUndefined();
  });

  it('reads what Excel gives, in either case and with blanks around', () => {
    const one = { rows: 1, columns: 1 };
    expect(parseAddress(' b2 ')).toEqual({ sheet: '', row: 1, column: 1, ...one });
    expect(parseAddress('A1:A1')).toEqual({ sheet: '', row: 0, column: 0, ...one });
    expect(parseAddress("'Smith''s'!B2:C3")).toEqual({
      sheet: "Smith's",
      row: 1,
      column: 1,
      rows: 2,
      columns: 2,
    });
    expect(parseAddress('Keys!$A$5:$F$9')).toEqual({ sheet: 'Keys', row: 4, column: 0, rows: 5, columns: 6 });
    expect(parseAddress(' Keys !A1')!.sheet).toBe('Keys');
  });

  it('knows what lies in a box, to its edges', () => {
    const box = { sheet: 'S', row: 2, column: 3, rows: 2, columns: 2 };
    const within = (row: number, column: number): boolean => contains(box, row, column);
    for (const [row, column] of [
      [2, 3],
      [3, 4],
      [2, 4],
      [3, 3],
    ] as const)
      expect(within(row, column)).toBe(true);
    for (const [row, column] of [
      [1, 3],
      [4, 3],
      [2, 2],
      [2, 5],
    ] as const)
      expect(within(row, column)).toBe(false);
  });

  it('quotes sheets where their names need it', () => {
    const at = (sheet: string): string => formatPlace({ sheet, address: 'B2' });
    expect(['Keys', '_x1', 'Keys 2', '1Keys', 'Keys!', "Smith's", 'Tür'].map(at)).toEqual([
      'Keys!B2',
      '_x1!B2',
      "'Keys 2'!B2",
      "'1Keys'!B2",
      "'Keys!'!B2",
      "'Smith''s'!B2",
      "'Tür'!B2",
    ]);
    expect(quoteSheet('Keys')).toBe("'Keys'");
    expect(place('Keys', 1, 1)).toEqual({ sheet: 'Keys', address: 'B2' });
    expect(boxAddress({ row: 1, column: 1, rows: 1, columns: 2 })).toBe('B2:C2');
    expect(boxAddress({ row: 1, column: 1, rows: 2, columns: 1 })).toBe('B2:B3');
    expect(boxAddress({ row: 1, column: 1, rows: 1, columns: 1 })).toBe('B2');
    expect(columnIndex('xfd')).toBe(16_383);
  });

  it('takes dollar signs', () => {
    expect(parseAddress('Keys!$B$3')).toMatchObject({ sheet: 'Keys', row: 2, column: 1 });
    expect(cellAddress(2, 1)).toBe('B3');
  });
});

describe('names for our sheets', () => {
  it('steps aside where the shop has the name already', () => {
    expect(freeSheetName('Keys', ['Doors'])).toBe('Keys');
    expect(freeSheetName('Keys', ['KEYS'])).toBe('Keys (Keyrow)');
    expect(freeSheetName('Keys', ['keys', 'Keys (Keyrow)'])).toBe('Keys (Keyrow 2)');
  });

  it('keeps to what Excel allows in a sheet name', () => {
    // at most 31 characters and none of \ / ? * [ ] : (Excel's documented limits)
    const name = freeSheetName("'Grid [North/South] of a very long customer name?'", []);
    expect(name.length).toBeLessThanOrEqual(31);
    expect(name).not.toMatch(/[\\/?*[\]:]|^'|'$/);
  });

  it('cleans what Excel refuses, and finds a name where nothing is left', () => {
    expect(freeSheetName('a\\b/c?d*e[f]g:h', [])).toBe('a b c d e f g h');
    expect(freeSheetName("''Keys''", [])).toBe('Keys');
    expect(freeSheetName("Owner's", [])).toBe("Owner's");
    expect(freeSheetName('???', [])).toBe('Sheet');
    const long = 'A name of more than thirty-one letters';
    expect(freeSheetName(long, [])).toBe('A name of more than thirty-one');
    expect(freeSheetName(long, ['A name of more than thirty-one'])).toBe('A name of more than th (Keyrow)');
    expect(freeSheetName(long, ['A name of more than thirty-one', 'A name of more than th (Keyrow)'])).toBe(
      'A name of more than (Keyrow 2)',
    );
  });

  it('knows ours by their tables’ names', () => {
    expect(['KeyrowKeys', 'KEYROWGRID1', 'Keyrow'].map(isOurs)).toEqual([true, true, true]);
    expect(['MyKeyrow', 'Keys', ''].map(isOurs)).toEqual([false, false, false]);
    expect(['KeyrowGrid1', 'keyrowgrid12'].map(isGrid)).toEqual([true, true]);
    expect(['KeyrowGrid', 'KeyrowGrid1x', 'xKeyrowGrid1', 'KeyrowKeys'].map(isGrid)).toEqual(
      Array.from({ length: 4 }, () => false),
    );
    expect(fold(' ＫEYS ')).toBe('keys');
    expect(sameName('Keys', ' KEYS')).toBe(true);
    expect(sameName('Keys', 'Key')).toBe(false);
  });

  it('numbers cutting jobs from the second on', () => {
    expect(freeCuttingName([])).toBe('KeyrowCutting');
    expect(freeCuttingName(['KEYROWCUTTING'])).toBe('KeyrowCutting2');
    expect(freeCuttingName(['KeyrowCutting', 'KeyrowCutting2'])).toBe('KeyrowCutting3');
    expect(freeCuttingName(['KeyrowCutting2'])).toBe('KeyrowCutting');
  });

  it('numbers the grids', () => {
    expect(freeGridName(['KeyrowKeys'])).toBe('KeyrowGrid1');
    expect(freeGridName(['keyrowgrid1', 'KeyrowGrid2'])).toBe('KeyrowGrid3');
  });
});
