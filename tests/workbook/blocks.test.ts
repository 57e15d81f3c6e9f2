import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asText, blocksOf, miswritten, unexpectedCells, writtenCells } from '../../src/workbook/blocks.ts';
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
