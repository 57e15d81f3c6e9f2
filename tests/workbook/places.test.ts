import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { freeGridName, freeSheetName } from '../../src/workbook/names.ts';
import {
  boxAddress,
  cellAddress,
  columnIndex,
  columnName,
  formatPlace,
  parseAddress,
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

  it('numbers the grids', () => {
    expect(freeGridName(['KeyrowKeys'])).toBe('KeyrowGrid1');
    expect(freeGridName(['keyrowgrid1', 'KeyrowGrid2'])).toBe('KeyrowGrid3');
  });
});
