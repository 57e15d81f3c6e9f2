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

describe('merged cells', () => {
  it('of a quantity are no quantity further down: a row of nothing else is passed over', () => {
    for (const column of [3, 4]) {
      const rows = [
        ['101', '', 'AA1', 2, 2],
        ['', '', '', '', ''],
        ['', 'note', '', '', ''],
        ['102', '', 'AA2', '', ''],
      ];
      const { lines, findings } = read(rows, [down(2, column, 4)]);
      expect(findings).toEqual([]);
      expect(lines.map((line) => [line.row, line.quantity, line.keys])).toEqual([
        [2, 2, 2],
        [5, column === 3 ? 0 : 1, column === 4 ? 0 : undefined],
      ]);
    }
  });

  it('of a door or a keyset hold down to their last row, whatever else is merged', () => {
    const rows = [
      ['101', 'a', 'AA1', 1, ''],
      ['', 'b', '', 1, ''],
      ['', 'c', '', 1, ''],
      ['102', 'd', '', 1, ''],
    ];
    const { lines } = read(rows, [
      { row: 2, column: 1, rows: 1, columns: 2 },
      down(2, 0, 3),
      down(3, 2, 2),
      down(2, 2, 1),
    ]);
    expect(lines.map((l) => [l.door, l.text.location, l.symbol, l.symbolRow])).toEqual([
      ['101', 'a', 'AA1', 2],
      ['101', 'b', '', 3],
      ['101', 'c', '', 3],
      ['102', 'd', '', 5],
    ]);
  });

  it('of rows that are short or missing hold nothing', () => {
    const { lines } = read([['101', 'Hall', 'AA1', 1, ''], ['102']], [down(3, 1, 4), down(9, 1, 3)]);
    expect(lines.map((l) => [l.door, l.text, l.symbol, l.quantity])).toEqual([
      ['101', { location: 'Hall' }, 'AA1', 1],
      ['102', {}, '', 1],
    ]);
  });
});

describe('rows that are no doors', () => {
  it('are headings of sections: words, merged across or without a figure', () => {
    const zones = (title: string, merged: Merged = []) =>
      read([[title], ['101', '', 'AA1', 1, '']], merged).lines.map((l) => [l.door, l.text.zone]);
    const across = { row: 2, column: 0, rows: 1, columns: 5 };
    expect(zones(' WEST WING ')).toEqual([['101', 'WEST WING']]);
    expect(zones('B2', [across])).toEqual([['101', 'B2']]);
    expect(zones('B2', [{ ...across, columns: 1 }])).toEqual([
      ['B2', undefined],
      ['101', undefined],
    ]);
    expect(zones('22', [across])).toEqual([
      ['22', undefined],
      ['101', undefined],
    ]);
    // a title in another column is one too
    expect(
      read([
        ['', ' ', 'GYM'],
        ['101', '', 'AA1', 1, ''],
      ]).lines.map((l) => l.text.zone),
    ).toEqual(['GYM']);
  });

  it('are the headings once more, also in part, but not one of them alone', () => {
    const { lines, findings } = read([
      ['101', '', 'AA1', 1, ''],
      ['DOOR', 'location:', 'Keyset', '', 'Keys'],
      ['Door', '', '', '', ''],
      ['102', '', 'AA2', 1, ''],
    ]);
    expect(lines.map((l) => [l.door, l.text.zone])).toEqual([
      ['101', undefined],
      ['102', 'Door'],
    ]);
    expect(findings).toEqual([]);
  });

  it('lack a door where they have a keyset, or a quantity and more', () => {
    expect(
      read([
        ['', '', 'AA1', '', ''],
        ['', 'Hall', '', 2, ''],
        ['', '', '', 2, ''],
        ['', 'Hall', 'AA2', 1, ''],
      ]).findings,
    ).toEqual([
      { code: 'no-door', row: 2, role: 'symbol' },
      { code: 'no-door', row: 3, role: 'quantity' },
      { code: 'no-door', row: 5, role: 'symbol' },
    ]);
  });

  it('are sums where one of their cells says so and none is a door', () => {
    const { lines, totals } = read([
      ['101', '', 'AA1', 3, ''],
      ['Total', 'of the wing', '', 3, ''],
      ['Sum', '', '', 3, ''],
      ['102', 'Total', 'AA2', 1, ''],
      ['103', 'Subtotal', 'AA2', 1, ''],
    ]);
    expect(lines.map((l) => l.door)).toEqual(['101', '102', '103']);
    expect(totals).toEqual([
      { row: 3, stated: 3, counted: 3 },
      { row: 4, stated: 3, counted: 0 },
    ]);
  });
});
