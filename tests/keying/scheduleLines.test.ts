/** Lines of a schedule: totals, merged cells, quantities. The layouts are common practice, their content invented. */
import { describe, expect, it } from 'vitest';
import type { SheetCells } from '../../src/keying/scheduleColumns.ts';
import { readLines } from '../../src/keying/scheduleRead.ts';

const columns = { headerRow: 1, door: 0, location: 1, symbol: 2, quantity: 3, keys: 4 };
const head: SheetCells = [['Schedule'], ['Door', 'Location', 'Keyset', 'Qty', 'Keys']];
type Merged = Parameters<typeof readLines>[2];
const read = (rows: SheetCells, merged: Merged = []) => readLines([...head, ...rows], columns, merged);
const down = (row: number, column: number, rows: number) => ({ row, column, rows, columns: 1 });

describe('totals', () => {
  it('count since the last one of their kind, a total everything since the last total', () => {
    const { totals, lines } = read([
      ['101', '', 'AA1', 2, ''],
      ['102', '', 'AA2', 3, ''],
      ['Subtotal', '', '', 5, ''],
      ['103', '', 'AA3', 4, ''],
      ['', '', 'Subtotal', '4', ''],
      ['Total', '', '', 9, ''],
      ['104', '', 'AA4', 1, ''],
      ['Total', '', '', 1, ''],
    ]);
    expect(lines.map((line) => line.door)).toEqual(['101', '102', '103', '104']);
    expect(totals).toEqual([
      { row: 4, stated: 5, counted: 5 },
      { row: 6, stated: 4, counted: 4 },
      { row: 7, stated: 9, counted: 9 },
      { row: 9, stated: 1, counted: 1 },
    ]);
  });

  it('without a number state nothing, and a door of that name is one where it has more', () => {
    const { totals, lines } = read([
      ['101', '', 'AA1', 2, ''],
      ['Total', '', '', '', ''],
      ['102', 'Total stock room', 'AA2', 1, ''],
    ]);
    expect(totals).toEqual([]);
    expect(lines.map((line) => [line.row, line.door])).toEqual([
      [2, '101'],
      [4, '102'],
    ]);
  });
});

describe('quantities', () => {
  const quantity = (cell: string | number) => {
    const { lines, findings } = read([['101', '', 'AA1', cell, '']]);
    return findings.length > 0 ? findings.map((f) => f.code) : lines[0]!.quantity;
  };

  it('are whole numbers, as cells and people write them; none means one', () => {
    expect(['2', ' 2 ', '2.0', '2.00', '12', 3, '2 pcs', '2 pcs.', ''].map(quantity)).toEqual([
      2, 2, 2, 2, 12, 3, 2, 2, 1,
    ]);
    for (const cell of ['two', '2 doors', '2.5', '-2', 'x2', '2 pcs 3', '1234567'])
      expect(quantity(cell)).toEqual(['not-a-number']);
  });

  it('of keys are given only where they stand', () => {
    const { lines } = read([
      ['101', '', 'AA1', 1, 4],
      ['102', '', 'AA2', 1, ''],
    ]);
    expect(lines[0]!.keys).toBe(4);
    expect(lines[1]).not.toHaveProperty('keys');
  });
});

describe('cells merged downwards', () => {
  it('hold for each of their rows and no further, a quantity once', () => {
    const { lines } = read(
      [
        ['101', 'Hall', 'AA1', 2, 3],
        ['102', '', '', '', ''],
        ['103', '', 'AA2', '', ''],
      ],
      [down(2, 1, 2), down(2, 2, 2), down(2, 3, 2), down(2, 4, 2)],
    );
    expect(lines.map((l) => [l.text.location, l.symbol, l.symbolRow, l.quantity, l.keys])).toEqual([
      ['Hall', 'AA1', 2, 2, 3],
      ['Hall', 'AA1', 2, 0, 0],
      [undefined, 'AA2', 4, 1, undefined],
    ]);
  });

  it('of the headings are left alone, and ones that run past the end do no harm', () => {
    const { lines } = read(
      [
        ['101', 'Hall', 'AA1', 1, ''],
        ['102', '', 'AA2', 1, ''],
      ],
      [down(1, 1, 2), down(0, 0, 2), down(3, 1, 9), down(2, 2, 1)],
    );
    expect(lines.map((l) => [l.text.location, l.symbol])).toEqual([
      ['Hall', 'AA1'],
      [undefined, 'AA2'],
    ]);
  });
});

describe('what a line keeps', () => {
  it('is the text of its cells, the symbol exactly as written, and no error of the sheet', () => {
    const { lines, findings } = read([
      [' 101 ', ' Hall ', ' aa1', '#N/A', ''],
      ['102', '#REF! see plan', 'AA2', '#pending', ''],
    ]);
    expect(lines).toEqual([
      {
        row: 2,
        door: '101',
        symbol: ' aa1',
        symbolRow: 2,
        quantity: 1,
        text: { location: 'Hall' },
      },
      {
        row: 3,
        door: '102',
        symbol: 'AA2',
        symbolRow: 3,
        quantity: 1,
        text: { location: '#REF! see plan' },
      },
    ]);
    expect(findings).toEqual([{ code: 'cell-error', row: 2, role: 'quantity', text: '#N/A' }]);
  });

  it('is no note beside the doors and no bare sum below them', () => {
    const { lines, findings } = read([
      ['101', '', 'AA1', 1, ''],
      ['', 'see drawing 4', '', '', ''],
      ['', '', '', 12, ''],
    ]);
    expect(lines).toHaveLength(1);
    expect(findings).toEqual([]);
  });

  it('takes the section for a zone only where the schedule has no column of zones', () => {
    const zoned = { headerRow: 0, door: 0, symbol: 1, zone: 2 };
    const { lines, sections } = readLines(
      [['Door', 'Keyset', 'Zone'], ['EAST WING'], ['101', 'AA1', 'North'], ['102', 'AA2', '']],
      zoned,
    );
    expect(lines.map((line) => line.text.zone)).toEqual(['North', 'EAST WING']);
    expect(sections).toEqual([]);
    const plain = readLines(
      [['Door', 'Keyset'], ['EAST WING'], ['101', 'AA1'], ['102', 'AA2'], ['WEST WING'], ['103', 'AA3']],
      { headerRow: 0, door: 0, symbol: 1 },
    );
    expect(plain.sections).toEqual(['EAST WING', 'WEST WING']);
    expect(readLines([['Door'], ['101']], { headerRow: 0, door: 0 }).lines[0]).toMatchObject({ symbol: '' });
  });
});
