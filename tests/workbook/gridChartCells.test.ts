/** A marked grid read from cells made by hand: names, marks, and every cell that can't be taken. */
import { describe, expect, it } from 'vitest';
import { chartOf, type ChartOptions } from '../../src/workbook/gridChart.ts';
import type { CellValue } from '../../src/workbook/reading.ts';
import { told } from './byHand.ts';

type Cells = readonly (readonly CellValue[])[];
type Merged = readonly { row: number; column: number; rows: number; columns: number }[];
/** Read from C11 on. */
const chart = (values: Cells, options: ChartOptions = {}, merged: Merged = []) =>
  chartOf(
    {
      box: { sheet: 'Doors', row: 10, column: 2, rows: values.length, columns: values[0]!.length },
      values,
      merged,
    },
    options,
  );
const at = (address: string) => ({ sheet: 'Doors', address });

describe('a chart', () => {
  it('has every key, cylinder and mark with its cell', () => {
    const read = chart([
      ['Cyl.', 'Room', ' M ', 'A', 'Keyway'],
      [1, 'Hall', 'x', '', ' K1 '],
      ['2', '', 'x', 'x', ''],
      ['3', 'Attic', 'x', '', ''],
    ])!;
    expect(read).toStrictEqual({
      layout: { headerRow: 0, cylinder: 0, door: 1, keys: [2, 3] },
      headers: ['Cyl.', 'Room', 'M', 'A', 'Keyway'],
      keys: [
        { symbol: 'M', at: at('E11') },
        { symbol: 'A', at: at('F11') },
      ],
      cylinders: [
        { id: '1', at: at('C12'), door: 'Hall', metal: { blank: { text: 'K1', at: at('G12') } } },
        { id: '2', at: at('C13') },
        { id: '3', at: at('C14'), door: 'Attic' },
      ],
      marks: [
        { key: 'M', cylinder: '1', at: at('E12') },
        { key: 'M', cylinder: '2', at: at('E13') },
        { key: 'A', cylinder: '2', at: at('F13') },
        { key: 'M', cylinder: '3', at: at('E14') },
      ],
      problems: [],
    });
    expect(chart([['Annexe'], ['Hall']])).toBeUndefined();
  });

  it('is read with the layout, the headings or the words that the user chose', () => {
    const cells = [
      ['Door', 'Whole', 'Store'],
      ['Door', 'M', 'A'],
      ['101', 'x', 'x'],
      ['102', 'ja', 'x'],
      ['103', 'x', ''],
    ];
    expect(chart(cells)!.keys.map(({ symbol }) => symbol)).toEqual(['M', 'A']);
    const under = chart(cells, { headerRow: 0 })!;
    expect(under.keys.map(({ symbol }) => symbol)).toEqual(['Whole', 'Store']);
    expect(chart(cells, { headerRow: 4 })).toBeUndefined();
    const chosen = chart(cells, { layout: { headerRow: 1, cylinder: 0, keys: [2] }, headerRow: 0 })!;
    expect(chosen.keys.map(({ symbol }) => symbol)).toEqual(['A']);
    const yes = chart(cells, { yes: new Set(['ja']) })!;
    expect([yes.problems.length, yes.marks.length]).toEqual([0, 5]);
    expect(told(chart(cells)!.problems)).toEqual([
      'fault Doors!D14 “ja” is no mark. Type ● or x where M must open 102, clear it where it must not, or add it to the words that mean yes.',
    ]);
    // a layout that lies beyond the cells has nothing in it
    const beyond = chart(cells, { layout: { headerRow: 9, cylinder: 0, keys: [1] } })!;
    expect([beyond.headers, beyond.keys, beyond.cylinders]).toEqual([[], [], []]);
  });

  it('says which names stand twice, are missing, or can’t be', () => {
    const read = chart([
      ['Door', 'M', 'A', 'm', '', 'N', 'B'],
      ['101', 'x', '', 'x', '', '', 'x'],
      ['D101 ', 'x', 'x', '', 'x', '', ''],
      ['d101', 'x', '', '', '', '', ''],
      ['', 'x', '', '', '', '', ''],
      ['#N/A', '', 'x', '', '', '', ''],
      ['#REF!', 'x', '', '', '', '', ''],
      ['', '', '', '', '', '', ''],
    ])!;
    expect(told(read.problems)).toEqual([
      'fault Doors!C14 “d101” stands at C13 already. Give one of the two another name.',
      'fault Doors!C15 This row is marked but names no cylinder. Type its number, or clear the marks.',
      'fault Doors!C16 This row is marked but names no cylinder. Type its number, or clear the marks.',
      'fault Doors!F11 “m” heads D11 already. Give one of the two another symbol.',
      'fault Doors!G11 There are marks below, but no key is named here. Type its symbol, or clear the column.',
      'warning Doors!H11 Key “N” has no mark: it gets a bitting that opens nothing.',
    ]);
    expect(read.cylinders.map(({ id }) => id)).toEqual(['101', 'D101', '#REF!']);
    expect(read.keys.map(({ symbol }) => symbol)).toEqual(['M', 'A', 'N', 'B']);
    // what stands over a column is no mark below it
    const over = chart([['Plan', '', 'Wing', ''], ['Door', 'M', '', 'A'], ['101', 'x', '', 'x']])!; // prettier-ignore
    expect(over.problems).toEqual([]);
    // an unheaded column between keys that nothing stands in is nothing
    const gap = chart([['Door', 'M', '', 'A'], ['101', 'x', '', 'x']])!; // prettier-ignore
    expect([gap.problems, gap.keys.map(({ at: cell }) => cell.address)]).toEqual([[], ['D11', 'F11']]);
  });

  it('passes over the headings of sections, and over nothing that has a number or a mark', () => {
    const read = chart([
      ['Door', 'M', 'Note'],
      ['Ground floor', '', ''],
      ['Hall', 'x', ''],
      ['Cellar', 'x', ''],
      ['Attic', '', 'later'],
      ['103', '', ''],
      ['Floor 2', '', ''],
    ])!;
    expect(read.cylinders.map(({ id }) => id)).toEqual(['Hall', 'Cellar', 'Attic', '103', 'Floor 2']);
    expect(read.problems).toEqual([]);
  });

  it('has what is said of its keys in a row of its own, which is no cylinder', () => {
    const cells = [
      ['Keyway', 'K1', ''],
      ['Door', 'M', 'A'],
      ['101', 'x', 'x'],
      ['102', 'x', ''],
      ['Cuts', '', 5],
    ];
    const read = chart(cells)!;
    expect(read.keys).toStrictEqual([
      { symbol: 'M', at: at('D12'), metal: { blank: { text: 'K1', at: at('D11') } } },
      { symbol: 'A', at: at('E12'), metal: { cuts: { text: '5', at: at('E15') } } },
    ]);
    expect(read.cylinders.map(({ id }) => id)).toEqual(['101', '102']);
    expect(read.problems).toEqual([]);
    const twice = [...cells, ['Key blank', 'K2', '']];
    expect(told(chart(twice)!.problems)).toEqual([
      'fault Doors!C16 C11 and C16 are about the same thing. Keep one of the two.',
    ]);
    const columns = [['Door', 'Pins', 'M', 'Chambers'], ['101', 5, 'x', 6], ['102', 5, 'x', '']]; // prettier-ignore
    expect(told(chart(columns)!.problems)).toEqual([
      'fault Doors!F11 D11 and F11 are about the same thing. Keep one of the two.',
    ]);
  });

  it('can’t tell what merged cells below its headings hold', () => {
    const cells = [
      ['Plan', '', '', ''],
      ['Door', 'Keyway', 'M', 'A'],
      ['101', 'K1', 'x', 'x'],
      ['102', 'K1', 'x', ''],
      ['Cuts', '', 5, 5],
    ];
    const merged = (row: number, column: number, rows: number, columns: number): string[] =>
      told(chart(cells, {}, [{ row, column, rows, columns }])!.problems);
    const sentence = (cell: string, box: string): string[] => [
      `fault Doors!${cell} ${box} are merged, so that only one of them holds anything. Unmerge them and fill each cell.`,
    ];
    // marks, what is said of cylinders, what is said of keys, and over the edge of the headings
    expect(merged(2, 2, 1, 2)).toEqual(sentence('E13', 'E13:F13'));
    expect(merged(2, 3, 2, 1)).toEqual(sentence('F13', 'F13:F14'));
    expect(merged(2, 1, 2, 1)).toEqual(sentence('D13', 'D13:D14'));
    expect(merged(4, 2, 1, 2)).toEqual(sentence('E15', 'E15:F15'));
    expect(merged(1, 2, 2, 1)).toEqual(sentence('E12', 'E12:E13'));
    expect(merged(2, 0, 1, 3)).toEqual(sentence('C13', 'C13:E13'));
    // a title, the headings, names of doors
    expect([merged(0, 0, 1, 4), merged(1, 2, 1, 2), merged(2, 0, 2, 1)]).toEqual([[], [], []]);
    // over the keys' row above the headings
    const above = [['Keyway', 'K1', ''], ['Door', 'M', 'A'], ['101', 'x', 'x'], ['102', 'x', 'x']]; // prettier-ignore
    expect(told(chart(above, {}, [{ row: 0, column: 1, rows: 1, columns: 2 }])!.problems)).toEqual(
      sentence('D11', 'D11:E11'),
    );
    const titled = [['Plan', '', ''], ...above];
    expect(told(chart(titled, {}, [{ row: 0, column: 1, rows: 2, columns: 1 }])!.problems)).toEqual(
      sentence('D11', 'D11:D12'),
    );
  });
});

describe('a chart that lists keys', () => {
  const list = (...cells: readonly CellValue[]) =>
    chart([
      ['Door', 'Keys', 'Room'],
      ...cells.map((cell, r) => [`D${r + 1}`, cell, r === 0 ? 'Hall' : 'Attic']),
    ])!;
  const marks = (read: ReturnType<typeof list>) =>
    read.marks.map(({ key, cylinder }) => `${key} ${cylinder}`);

  it('has them with separators between, with spaces where there are none', () => {
    expect(marks(list('M A1', 'm'))).toEqual(['M D1', 'A1 D1', 'M D2']);
    expect(marks(list('M, A 1', 'm'))).toEqual(['M D1', 'A 1 D1', 'M D2']);
    for (const separator of [',', ';', '/', '+', '\n'])
      expect(marks(list(`M${separator} A1 ${separator}`))).toEqual(['M D1', 'A1 D1']);
    expect(marks(list('M  m A1'))).toEqual(['M D1', 'A1 D1']);
  });

  it('has the first cell of each key, and the doors by their own numbers', () => {
    const read = list('M', 'A1 M');
    expect(read.keys).toStrictEqual([
      { symbol: 'M', at: at('D12') },
      { symbol: 'A1', at: at('D13') },
    ]);
    expect(read.cylinders.map(({ id }) => id)).toEqual(['D1', 'D2']);
    expect(read.marks.map(({ at: cell }) => cell.address)).toEqual(['D12', 'D13', 'D13']);
    expect(read.problems).toEqual([]);
  });

  it('says where a formula broke, and takes no key from it', () => {
    const read = list('M', '#N/A');
    expect(marks(read)).toEqual(['M D1']);
    expect(told(read.problems)).toEqual([
      'fault Doors!D13 “#N/A” is an error of Excel’s, not a list of keys. Correct the formula, or type the symbols.',
    ]);
    const nameless = chart([['Door', 'Keys'], ['D1', 'M'], ['', 'M'], ['', '']])!; // prettier-ignore
    expect(told(nameless.problems)).toEqual([
      'fault Doors!C13 This row is marked but names no cylinder. Type its number, or clear the marks.',
    ]);
    const merged = chart([['Door', 'Keys'], ['D1', 'M'], ['D2', '']], {}, [{ row: 1, column: 1, rows: 2, columns: 1 }])!; // prettier-ignore
    expect(merged.problems.map(({ address }) => address)).toEqual(['D12']);
  });
});
