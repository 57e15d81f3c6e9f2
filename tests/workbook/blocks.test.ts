import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addedSheets,
  arrived,
  asText,
  blocksOf,
  hasFormulas,
  miswritten,
  numberFormats,
  ownThings,
  unexpectedCells,
  writtenCells,
} from '../../src/workbook/blocks.ts';
import { rowBlocks } from '../../src/workbook/cells.ts';
import { explain, KNOWN_CODES } from '../../src/workbook/excelErrors.ts';
import type { WriteBlock } from '../../src/workbook/plan.ts';
import { readMark } from '../../src/workbook/tableGrid.ts';

const step: WriteBlock = {
  kind: 'write',
  sheet: 'S',
  row: 2,
  column: 1,
  cells: [
    ['01234', 5],
    ['=1+1', { formula: '=B3' }],
  ],
  formats: ['text', 'general'],
  expected: 'empty',
};

describe('blocks of a write', () => {
  it('cover every row once, whatever the shape', () => {
    const size = fc.integer({ min: 1, max: 3000 });
    fc.assert(
      fc.property(size, fc.integer({ min: 1, max: 60 }), (rows, columns) => {
        const blocks = rowBlocks(rows, columns, 5000);
        expect(blocks.reduce((sum, b) => sum + b.count, 0)).toBe(rows);
        expect(blocks.every((b) => b.count * columns <= 5000)).toBe(true);
        expect(
          blocks.every((b, i) => i === 0 || b.start === blocks[i - 1]!.start + blocks[i - 1]!.count),
        ).toBe(true);
      }),
    );
  });

  it('hand text over as text and formulas as formulas', () => {
    const [block] = blocksOf(step, 0);
    expect(writtenCells(block!)).toEqual([
      ['01234', 5],
      ['=1+1', '=B3'],
    ]);
  });

  it('guard text in General cells that Excel would take for something else', () => {
    expect(['=1+1', '+A1', '-2', '@SUM(A1)', '01234', '1-2-3', 'true', '#N/A', "'x"].map(asText)).toEqual(
      ['=1+1', '+A1', '-2', '@SUM(A1)', '01234', '1-2-3', 'true', '#N/A', "'x"].map((t) => `'${t}`),
    );
    // Excel passes over blanks at the front; full-width signs are those of OWASP's page on CSV injection
    for (const text of [' =1+1', '\t=1+1', '\r+1', '\n-x', '\u00A0=x', '＝1', '＠x', ' true', '"=x'])
      expect(asText(text)).toBe(`'${text}`);
    expect(asText('Front door')).toBe('Front door');
  });

  it('say what stays plain in a General cell', () => {
    for (const text of ['Front door', 'trueness', 'so true', 'false alarm', 'true x', 'AA'])
      expect(asText(text)).toBe(text);
    expect(asText('true ')).toBe("'true ");
    expect(asText('AA1')).toBe("'AA1");
  });

  it('carry their own rows and what is expected there', () => {
    // 20,000 cells a request: 7,001 rows of three columns are two blocks
    const rows = Array.from({ length: 7_001 }, (_, r) => [`a${r}`, 'b', 'c']);
    const three = { ...step, cells: rows, formats: ['text', 'text', 'text'] as const };
    const [first, second, ...more] = blocksOf({ ...three, expected: rows }, 4);
    expect(more).toEqual([]);
    expect(first).toMatchObject({ step: 4, box: { sheet: 'S', row: 2, column: 1, rows: 6_666, columns: 3 } });
    expect(second!.box).toEqual({ sheet: 'S', row: 6_668, column: 1, rows: 335, columns: 3 });
    expect([...first!.cells, ...second!.cells]).toEqual(rows);
    expect(second!.expected).toEqual(rows.slice(6_666));
    expect(blocksOf(three, 4)[1]!.expected).toBe('empty');
    expect(blocksOf({ kind: 'add-sheet', sheet: 'S' }, 0)).toEqual([]);
  });

  it('have a number format a cell, and say whether formulas are among them', () => {
    const formats = ['text', 'general', 'inches', 'millimetres'] as const;
    const [block] = blocksOf({ ...step, cells: [[1, 2, 3, 4]], formats }, 0);
    expect(numberFormats(block!)).toEqual([['@', 'General', '0.000#', '0.00']]);
    expect(hasFormulas(block!)).toBe(false);
    expect(hasFormulas(blocksOf(step, 0)[0]!)).toBe(true);
    // a text in a General column is guarded, a number and a truth value are not
    const [mixed] = blocksOf(
      {
        ...step,
        cells: [
          ['7', '7'],
          [7, true],
        ],
      },
      0,
    );
    expect(writtenCells(mixed!)).toEqual([
      ['7', "'7"],
      [7, true],
    ]);
  });

  it('arrive as they were written, to the last place of a number and whatever a line ends in', () => {
    const formula = { formula: '=B3' };
    expect(arrived(formula, 0, '=Keys!B3')).toBe(true);
    expect(arrived(formula, '=B3', 'B3')).toBe(false);
    expect(arrived(formula, 3, 3)).toBe(false);
    expect(arrived(0.1 + 0.2, 0.3, 0.3)).toBe(true);
    expect(arrived(1_000_000, 1_000_000.000_000_5, 0)).toBe(true);
    expect(arrived(1_000_000, 1_000_001, 0)).toBe(false);
    expect(arrived(0.5, 0.5001, 0.5)).toBe(false);
    expect(arrived(5, '5', '5')).toBe(false);
    expect(arrived('', ' ', '')).toBe(true);
    expect(arrived(' ', '', '')).toBe(true);
    expect(arrived('a', '', '')).toBe(false);
    expect(arrived('', 'a', 'a')).toBe(false);
    expect(arrived(true, true, true)).toBe(true);
    expect(arrived(true, 'true', 'true')).toBe(false);
    expect(arrived('a\r\nb\rc', 'a\nb\nc', '')).toBe(true);
    expect(arrived('a\nb', 'a\r\nb', '')).toBe(true);
    expect(arrived('a\nb', 'a\rb', '')).toBe(true);
    expect(arrived('a\nb', 'ab', '')).toBe(false);
    expect(arrived('a\nb', 5, '')).toBe(false);
  });

  it('tell where a cell that was expected holds something else', () => {
    const [block] = blocksOf({ ...step, expected: [['old', 5]] }, 0);
    expect(unexpectedCells(block!, [['old', 5]])).toEqual([]);
    expect(unexpectedCells(block!, [['old', 6]])).toEqual([
      { at: { sheet: 'S', address: 'C3' }, holds: '6' },
    ]);
    // beyond what was expected a cell is to be empty
    expect(
      unexpectedCells(block!, [
        ['old', 5, ''],
        ['', 'x'],
      ]),
    ).toEqual([{ at: { sheet: 'S', address: 'C4' }, holds: 'x' }]);
  });

  it('of a cell that Excel did not hand over are not as written', () => {
    const [block] = blocksOf(step, 0);
    expect(miswritten(block!, [], []).map(({ address }) => address)).toEqual(['B3', 'C3', 'B4', 'C4']);
  });

  it('know what a plan adds, by folded names', () => {
    const box = { sheet: 'Keys', row: 0, column: 0, rows: 2, columns: 1 };
    const picture = { row: 0, column: 0, alt: '', base64: '', width: 1, height: 1, rowHeight: 1 };
    const steps = [
      step,
      { kind: 'add-sheet', sheet: 'Keys ' },
      { kind: 'add-table', name: 'KeyrowKeys', box },
      { kind: 'resize-table', name: 'KeyrowPins', from: box, to: box },
      { kind: 'picture', sheet: 'Keys', name: 'Keyrow AA1', ...picture },
    ] as const;
    expect([...addedSheets(steps)]).toEqual(['keys']);
    expect(ownThings(steps)).toEqual({
      tables: new Set(['keyrowkeys']),
      pictures: new Set(['keyrow aa1']),
    });
  });

  it('tell where something arrived changed', () => {
    const [block] = blocksOf(step, 0);
    const values = [
      [1234, 5],
      ['=1+1', 0],
    ];
    const formulas = [
      [1234, 5],
      ['=1+1', '=B3'],
    ];
    expect(miswritten(block!, values, formulas)).toEqual([{ sheet: 'S', address: 'B3' }]);
    const last = [
      ['01234', 5],
      ['=1+1', 0],
    ];
    expect(miswritten(block!, last, last)).toEqual([{ sheet: 'S', address: 'C4' }]);
  });

  it('tell what stands in cells that should be empty', () => {
    const [block] = blocksOf(step, 0);
    expect(
      unexpectedCells(block!, [
        ['', ''],
        ['', 'mine'],
      ]),
    ).toEqual([{ at: { sheet: 'S', address: 'C4' }, holds: 'mine' }]);
  });
});

describe('marks', () => {
  it.each(['●', 'x', 'X', ' 1 ', 1, true, 'yes', 'YES', '✓'])('%j is a mark', (cell) => {
    expect(readMark(cell)).toBe(true);
  });
  it.each(['', 0, false, 'no', '-'])('%j is none', (cell) => {
    expect(readMark(cell)).toBe(false);
  });
  it.each(['?', 'maybe', 2])('%j is neither', (cell) => {
    expect(readMark(cell)).toBeUndefined();
  });
});

describe('Excel’s refusals', () => {
  it('each have a sentence that ends', () => {
    for (const code of KNOWN_CODES) expect(explain({ code }).sentence).toMatch(/^[A-Z].*\.$/);
  });
  it('cover every error code of the type definitions that reading and writing cells can meet', () => {
    // from the enum Excel.ErrorCodes of @types/office-js
    const met = ['AccessDenied', 'ApiNotFound', 'Conflict', 'FilteredRangeConflict', 'GeneralException'];
    met.push('InsertDeleteConflict', 'InvalidArgument', 'InvalidOperation', 'InvalidOperationInCellEditMode');
    met.push(
      'InvalidReference',
      'InvalidSelection',
      'ItemAlreadyExists',
      'ItemNotFound',
      'MergedRangeConflict',
    );
    met.push('NonBlankCellOffSheet', 'PivotTableRangeConflict', 'RangeExceedsLimit', 'RequestAborted');
    met.push('ResponsePayloadSizeLimitExceeded', 'UnsupportedOperation', 'UnsupportedSheet');
    for (const code of met) expect(explain({ code }).sentence).not.toContain(code);
  });
  it('show an unknown code, to be looked up', () => {
    expect(explain({ code: 'SomethingNew' })).toEqual({
      code: 'SomethingNew',
      sentence:
        'Excel refused this with “SomethingNew”. Try again; if it stays, save, close and reopen the book.',
    });
  });
});
