import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  MAX_COLUMNS,
  MAX_ROWS,
  areaAddress,
  columnLetters,
  columnNumber,
  formulaProblem,
  intersect,
  mapReferences,
  offsetReferences,
  parseArea,
  quoteSheet,
  splitSheet,
  subtract,
  type Area,
} from '../../../src/preview/model/index.ts';
import { renameColumnIn, renameSheetIn, renameTableIn } from '../../../src/preview/model/references.ts';
import { shiftArea } from '../../../src/preview/model/shift.ts';

const area = fc
  .record({
    row: fc.integer({ min: 0, max: 40 }),
    column: fc.integer({ min: 0, max: 40 }),
    rows: fc.integer({ min: 1, max: 12 }),
    columns: fc.integer({ min: 1, max: 12 }),
  })
  .map((a): Area => a);

const cellsOf = (a: Area): Set<string> =>
  new Set(
    Array.from({ length: a.rows * a.columns }, (_, i) =>
      [a.row + Math.floor(i / a.columns), a.column + (i % a.columns)].join(),
    ),
  );

describe('addresses', () => {
  it('know the corners of the sheet', () => {
    // ECMA-376 limits: 1,048,576 rows, 16,384 columns, the last of which is XFD
    expect(columnLetters(MAX_COLUMNS - 1)).toBe('XFD');
    expect(parseArea('XFD1048576')).toEqual({
      row: MAX_ROWS - 1,
      column: MAX_COLUMNS - 1,
      rows: 1,
      columns: 1,
    });
    expect([parseArea('XFE1'), parseArea('A1048577'), parseArea('A0'), parseArea('1A')]).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });

  it('go there and back', () => {
    fc.assert(
      fc.property(area, (a) => {
        expect(parseArea(areaAddress(a))).toEqual(a);
      }),
    );
    fc.assert(fc.property(fc.integer({ min: 0, max: 16_383 }), (n) => columnNumber(columnLetters(n)) === n));
  });

  it('quote sheet names where needed', () => {
    for (const [name, quoted] of [
      ['Keys', 'Keys'],
      ['My keys', "'My keys'"],
      ["Bob's", "'Bob''s'"],
      ['A1', "'A1'"],
      ['2024', "'2024'"],
    ] as const) {
      expect(quoteSheet(name)).toBe(quoted);
      expect(splitSheet(`${quoted}!B2`)).toEqual({ sheet: name, rest: 'B2' });
    }
  });

  it('subtract areas cell by cell', () => {
    fc.assert(
      fc.property(area, area, (a, b) => {
        const parts = subtract(a, b);
        const left = parts.flatMap((part) => [...cellsOf(part)]);
        const expected = [...cellsOf(a)].filter((cell) => !cellsOf(b).has(cell));
        expect(left.toSorted()).toEqual(expected.toSorted());
      }),
    );
  });
});

describe('shifting areas', () => {
  it('undoes an insert by a delete', () => {
    fc.assert(
      fc.property(area, fc.integer({ min: 0, max: 50 }), fc.integer({ min: 1, max: 9 }), (a, at, count) => {
        const there = shiftArea(a, { axis: 'rows', at, count });
        const back = there && shiftArea(there, { axis: 'rows', at, count: -count });
        expect(back).toEqual(a);
      }),
    );
  });

  it('keeps as many rows as were not deleted', () => {
    fc.assert(
      fc.property(area, fc.integer({ min: 0, max: 50 }), fc.integer({ min: 1, max: 9 }), (a, at, count) => {
        const rows = Array.from({ length: a.rows }, (_, i) => a.row + i).filter(
          (r) => r < at || r >= at + count,
        );
        const after = shiftArea(a, { axis: 'rows', at, count: -count });
        expect(after?.rows ?? 0).toBe(rows.length);
        if (after) expect(after.row).toBe((rows[0] ?? 0) < at ? rows[0] : (rows[0] ?? 0) - count);
      }),
    );
  });

  it('leaves alone what a lane does not hold whole', () => {
    const lane = { start: 2, count: 3 };
    const shift = { axis: 'rows' as const, at: 0, count: 1, lane };
    expect(shiftArea({ row: 5, column: 2, rows: 1, columns: 3 }, shift)?.row).toBe(6);
    expect(shiftArea({ row: 5, column: 1, rows: 1, columns: 2 }, shift)?.row).toBe(5);
  });
});

describe('formulas', () => {
  const down = (formula: string): string =>
    mapReferences(formula, (sheet, a) =>
      sheet === null ? shiftArea(a, { axis: 'rows', at: 0, count: 1 }) : a,
    );

  it.each([
    ['=A1+$B$2', '=A2+$B$3'],
    ['=SUM(A1:B2,C:C)', '=SUM(A2:B3,C:C)'],
    ['=LOG10(A1)&"A1"', '=LOG10(A2)&"A1"'],
    ['=Keys[A1]+[@B2]+A1', '=Keys[A1]+[@B2]+A2'],
    ["=Other!A1+'My A1'!B2", "=Other!A1+'My A1'!B2"],
    ['=A1#', '=A2#'],
    ['=KEYROW.CHECK(A1,x_A1)', '=KEYROW.CHECK(A2,x_A1)'],
    ['=1E3+A1', '=1E3+A2'],
    ['=2:2', '=3:3'],
  ])('%s moves to %s', (formula, moved) => {
    expect(down(formula)).toBe(moved);
  });

  it('move relative references when copied', () => {
    expect(offsetReferences('=A1+$A1+A$1+$A$1', 2, 1)).toBe('=B3+$A3+B$1+$A$1');
    expect(offsetReferences('=A1', -1, 0)).toBe('=#REF!');
    expect(offsetReferences('="A1"&A1', 1, 0)).toBe('="A1"&A2');
  });

  it('follow renamed sheets, tables and columns', () => {
    expect(renameSheetIn("=Old!A1+'Old'!B2+Older!A1", 'old', 'New one')).toBe(
      "='New one'!A1+'New one'!B2+Older!A1",
    );
    expect(renameSheetIn('=Old!A1:B2+1', 'Old', null)).toBe('=#REF!+1');
    expect(renameTableIn('=SUM(Keys[Cut])&"Keys"', 'Keys', 'Cuts')).toBe('=SUM(Cuts[Cut])&"Keys"');
    expect(renameColumnIn('=Keys[Cut]+[@Cut]', 'Keys', 'Cut', 'Depth', false)).toBe('=Keys[Depth]+[@Cut]');
    expect(renameColumnIn('=[@Cut]&[@[Cut 2]]', 'Keys', 'Cut 2', 'Depth', true)).toBe('=[@Cut]&[@[Depth]]');
    expect(renameColumnIn('=Keys[[#Headers],[Cut]]', 'Keys', 'Cut', 'A b', false)).toBe(
      '=Keys[[#Headers],[A b]]',
    );
  });

  it('are refused where brackets or quotes are open', () => {
    expect(formulaProblem('=SUM(A1)')).toBeNull();
    expect(formulaProblem('="(" & "["')).toBeNull();
    for (const bad of ['=SUM(A1', '=A1)', '="x', '=Keys[a', '=1+', '='])
      expect(formulaProblem(bad)).not.toBeNull();
  });

  it('lose no cell that both areas share', () => {
    fc.assert(
      fc.property(area, area, (a, b) => {
        const shared = intersect(a, b);
        const expected = [...cellsOf(a)].filter((cell) => cellsOf(b).has(cell));
        expect(shared ? cellsOf(shared).size : 0).toBe(expected.length);
      }),
    );
  });
});
