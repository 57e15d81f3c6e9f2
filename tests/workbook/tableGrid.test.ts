/** A grid's own cells: which columns are keys, which rows cylinders, which cells marks. */
import { describe, expect, it } from 'vitest';
import {
  gridColumns,
  gridRow,
  isKeyHeading,
  MARK,
  readGrid,
  readMark,
} from '../../src/workbook/tableGrid.ts';
import type { CellValue } from '../../src/workbook/reading.ts';
import { tableOf, told } from './byHand.ts';

const grid = (...rows: readonly (readonly CellValue[])[]) =>
  readGrid(tableOf('KeyrowGrid1', 'Grid', rows), (symbol) => ['M', 'A1', 'Cylinder'].includes(symbol));

describe('a mark', () => {
  it('is yes, no, or neither', () => {
    const yes = ['●', '•', 'x', ' X ', 1, '1', 'Yes', 'y', true, 'TRUE', '✓', '✔', '✗', '×', 'ｘ'];
    const no = ['', '  ', 0, '0', 'No', 'n', false, '-', '–', '○'];
    expect(yes.map(readMark)).toEqual(yes.map(() => true));
    expect(no.map(readMark)).toEqual(no.map(() => false));
    expect(['?', 2, 'xx', '#N/A'].map(readMark)).toEqual([undefined, undefined, undefined, undefined]);
    expect(readMark(MARK)).toBe(true);
  });
});

describe('a grid', () => {
  it('has its keys, its cylinders and its marks with their cells', () => {
    const { grid: read, problems } = grid(
      ['Door', 'Cylinder', 'M', 'Note', 'A1'],
      ['101', ' C1 ', 'x', 'x', ''],
      ['102', 'C2', '-', '', '●'],
      // a row about the keys, and one that nothing is typed in
      ['', 'Keyway', 'K1', '', 'K2'],
      ['', '', '', '', ''],
    );
    expect(problems).toEqual([]);
    expect(read).toStrictEqual({
      table: 'KeyrowGrid1',
      box: { sheet: 'Grid', row: 3, column: 1, rows: 5, columns: 5 },
      keys: new Map([
        ['M', 3],
        ['A1', 5],
      ]),
      cylinders: new Map([
        ['C1', 4],
        ['C2', 5],
      ]),
      marks: [
        { key: 'M', cylinder: 'C1', at: { sheet: 'Grid', address: 'D5' } },
        { key: 'A1', cylinder: 'C2', at: { sheet: 'Grid', address: 'F6' } },
      ],
    });
  });

  it('says which marks it can’t take, each at its cell', () => {
    const { grid: read, problems } = grid(
      ['Cylinder', 'M', 'B7', 'Zone'],
      ['C1', '?', 'x', ''],
      ['C1', 'x', '', 'x'],
      ['', 'x', '', ''],
    );
    expect(told(problems)).toEqual([
      'warning Grid!D4 The system has no key “B7”, so the marks below are not read. Add the key or correct the heading.',
      'warning Grid!E4 The system has no key “Zone”, so the marks below are not read. Add the key or correct the heading.',
      'fault Grid!C5 “?” is no mark. Type ● or x where the key must operate, and nothing elsewhere.',
      'fault Grid!B6 Cylinder “C1” has two rows in this grid. Take one away.',
      'fault Grid!B7 This row has marks but no cylinder. Type the cylinder’s number.',
    ]);
    expect([...read.cylinders]).toEqual([['C1', 4]]);
    expect(read.marks.map(({ at }) => at.address)).toEqual(['C6']);
    // a column without a mark may be called anything
    expect(grid(['Cylinder', 'B7'], ['C1', 'see below']).problems).toEqual([]);
    expect(grid(['Cylinder', 'B7'], ['C1', '']).problems).toEqual([]);
    expect(grid(['Cylinder', 'Note', 'Location'], ['C1', 'x', 'x']).problems).toEqual([]);
  });

  it('says so at the column of its cylinders, wherever that stands', () => {
    const { problems } = grid(['M', 'Door', 'Cylinder'], ['x', '', 'C1'], ['x', '', 'C1'], ['x', '', '']);
    expect(problems.map(({ address }) => address)).toEqual(['D6', 'D7']);
  });

  it('without a column of cylinders has marks of none', () => {
    const { grid: read, problems } = grid(['Lock', 'M'], ['C1', 'x'], ['C2', '']);
    expect([read.cylinders.size, read.marks.length]).toEqual([0, 0]);
    expect(told(problems)).toEqual([
      'fault Grid!B5 This row has marks but no cylinder. Type the cylinder’s number.',
    ]);
  });

  it('is written with three columns before the keys, and the one mark', () => {
    expect(gridColumns(['M', 'A1']).map(({ heading, format, width }) => [heading, format, width])).toEqual([
      ['Cylinder', 'text', 12],
      ['Door', 'text', 14],
      ['Symbol', 'text', 10],
      ['M', 'text', 5],
      ['A1', 'text', 5],
    ]);
    const marked = new Set(['A1', 'Z']);
    expect(gridRow({ id: 'C1', door: '101', symbol: 'A1' }, ['M', 'A1'], marked)).toEqual([
      'C1',
      '101',
      'A1',
      '',
      '●',
    ]);
    expect(gridRow({ id: 'C1', symbol: 'A1' }, ['M'], marked)).toEqual(['C1', '', 'A1', '']);
  });

  it('has headings that are no key’s symbol', () => {
    for (const heading of [
      'Cylinder',
      'DOOR',
      ' symbol',
      'Location',
      'note',
      'System',
      'Keyway',
      'Pins',
      'Control',
    ])
      expect(isKeyHeading(heading)).toBe(false);
    expect(['A1', 'M', 'doors'].map(isKeyHeading)).toEqual([true, true, true]);
  });
});
