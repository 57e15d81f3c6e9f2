/** Cells of the shop's own sheets told apart by what stands in them: headings, dates, blocks to read. */
import { describe, expect, it } from 'vitest';
import { isFormula, rowBlocks, sliceCells, toCells } from '../../src/workbook/cells.ts';
import { isDateFormat } from '../../src/workbook/codeRows.ts';
import { looksHeaded } from '../../src/workbook/target.ts';

describe('cells', () => {
  it('are read in blocks that stay below what Excel answers at once', () => {
    expect(rowBlocks(10_000, 10)).toEqual(
      [0, 2_000, 4_000, 6_000, 8_000].map((start) => ({ start, count: 2_000 })),
    );
    expect(rowBlocks(5, 2, 4)).toEqual([
      { start: 0, count: 2 },
      { start: 2, count: 2 },
      { start: 4, count: 1 },
    ]);
    // a row is never split, however wide; no columns are one
    expect(rowBlocks(2, 9, 4).map(({ count }) => count)).toEqual([1, 1]);
    expect(rowBlocks(3, 0, 2).map(({ count }) => count)).toEqual([2, 1]);
    expect(rowBlocks(0, 4)).toEqual([]);
  });

  it('are text, numbers or truth values; anything else is blank', () => {
    expect(toCells([['a', 1, false, null, undefined, {}]])).toEqual([['a', 1, false, '', '', '']]);
    expect(() => toCells('a')).toThrow('Excel gave no matrix of cells');
    expect(() => toCells(['a'])).toThrow('Excel gave no row of cells');
    try {
      toCells(undefined);
    } catch (error) {
      expect(error).toMatchObject({ code: 'NoCells' });
    }
  });

  it('are cut out of a block, and blank beyond it', () => {
    const cells = [
      ['a', 'b'],
      ['c', 'd'],
    ];
    const from = { row: 10, column: 5, rows: 2, columns: 2 };
    expect(sliceCells(cells, from, { row: 11, column: 5, rows: 2, columns: 3 })).toEqual([
      ['c', 'd', ''],
      ['', '', ''],
    ]);
    expect(sliceCells(cells, from, { row: 9, column: 4, rows: 2, columns: 2 })).toEqual([
      ['', ''],
      ['', 'a'],
    ]);
  });

  it('hold a formula where that reads otherwise than the value', () => {
    expect(isFormula('=A1', 3)).toBe(true);
    expect([isFormula('=A1', '=A1'), isFormula('A1=', 3), isFormula(3, 4)]).toEqual([false, false, false]);
  });
});

describe('a block of the shop’s cells', () => {
  it('has a row of headings where words stand over what isn’t words', () => {
    expect(looksHeaded([['Key code'], ['274153']])).toBe(true);
    expect(
      looksHeaded([
        ['Key code', ''],
        ['', 'x'],
        ['274153', ''],
      ]),
    ).toBe(true);
    expect(
      looksHeaded([
        ['Schlüssel', 'Raum'],
        ['AA', 'Halle'],
        ['AB', 12],
      ]),
    ).toBe(false);
    expect(
      looksHeaded([
        ['Schlüssel', 'Raum'],
        ['AA', 12],
      ]),
    ).toBe(true);
  });

  it('has none in a row alone, a blank one, one with a code in it, or one over more words', () => {
    for (const cells of [
      [],
      [['Key code']],
      [[''], ['274153']],
      [
        ['Key code', 274153],
        ['274154', 3],
      ],
      [['Key1'], ['274153']],
      [['K'], ['274153']],
      [['Key code'], ['']],
      [['Key code'], ['Store']],
      [
        ['Key code', ''],
        ['Store', '274153'],
      ],
      [['274153'], ['274154']],
      [[true], [274153]],
    ])
      expect(looksHeaded(cells), JSON.stringify(cells)).toBe(false);
  });
});

describe('a number format', () => {
  it('shows dates where it has a day, a month or a year', () => {
    // built-in formats 14–17 and 22 of ISO/IEC 29500-1, 18.8.30, and what a locale puts in front
    for (const format of [
      'mm-dd-yy',
      'd-mmm-yy',
      'd-mmm',
      'mmm-yy',
      'm/d/yy h:mm',
      '[$-409]mmmm',
      'YYYY',
      'D',
    ])
      expect(isDateFormat(format), format).toBe(true);
    // the others of that list, and letters that are shown as they stand
    for (const format of [
      'General',
      '0',
      '0.00',
      '#,##0',
      '0%',
      '0.00E+00',
      '# ?/?',
      '@',
      'h:mm:ss',
      'mm:ss',
      '0.00 "dm"',
      '0\\d',
      '0_d',
      '0*d',
      '[Red]0',
    ])
      expect(isDateFormat(format), format).toBe(false);
  });
});
