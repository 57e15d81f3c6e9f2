/** Where the parts of a grid lie, in small layouts whose headings and marks can be read off by eye. */
import { describe, expect, it } from 'vitest';
import { findGridLayout, layoutUnder, markOf, yesWords } from '../../src/workbook/gridLayout.ts';
import type { CellValue } from '../../src/workbook/reading.ts';

type Cells = readonly (readonly CellValue[])[];
const NONE: ReadonlySet<string> = new Set();
const found = (cells: Cells, yes = '') => findGridLayout(cells, yesWords(yes));

describe('a mark in the column of a key', () => {
  it('is one of the usual ones, a word of the shop’s, or the key’s own name', () => {
    const yes = yesWords(' ja,E;  oui\n');
    expect([...yes]).toEqual(['ja', 'e', 'oui']);
    expect(['x', 'JA', 'e', ' a1 ', '●'].map((cell) => markOf(cell, 'A1', yes))).toEqual([
      true,
      true,
      true,
      true,
      true,
    ]);
    expect(['', '-', false].map((cell) => markOf(cell, 'A1', yes))).toEqual([false, false, false]);
    expect(markOf('j', 'A1', yes)).toBeUndefined();
    // a blank cell is no mark where neither the key nor the words have a name
    expect(markOf('', '', new Set(['']))).toBe(false);
    expect(yesWords('').size).toBe(0);
  });
});

describe('a grid with marks', () => {
  it('has its keys across and its cylinders down', () => {
    expect(found([['Door', 'M', 'A'], ['101', 'x', 'x'], ['102', 'x', '']])).toStrictEqual({ headerRow: 0, cylinder: 0, keys: [1, 2] }); // prettier-ignore
    // words of the shop's count as marks where they are given
    const own = [['Door', 'M'], ['101', 'ja'], ['102', 'ja']]; // prettier-ignore
    expect(found(own)).toBeUndefined();
    expect(found(own, 'ja')).toStrictEqual({ headerRow: 0, cylinder: 0, keys: [1] });
    // so does the key's own symbol, under headings that are headings
    for (const over of ['Door', 'Cyl.', '', ' Room '])
      expect(found([[over, 'A1'], ['101', 'a1']])).toStrictEqual({ headerRow: 0, cylinder: 0, keys: [1] }); // prettier-ignore
    expect(found([['Wing', 'A1'], ['East', 'a1']])).toBeUndefined(); // prettier-ignore
    expect(layoutUnder([['Wing', 'A1'], ['East', 'a1']], 0, NONE)).toMatchObject({ keys: [1] }); // prettier-ignore
    // beside real marks a column of one value makes no difference
    const brass = [['Sign', 'M', 'Finish'], ['a', 'x', 'brass'], ['b', 'x', 'brass']]; // prettier-ignore
    expect(found(brass)).toMatchObject({ headerRow: 0, keys: [1] });
  });

  it('names a cylinder by its own column, and the door beside it', () => {
    const both = [['Cyl.', 'Room', 'M'], ['1', 'Hall', 'x'], ['2', 'Store', 'x']]; // prettier-ignore
    expect(found(both)).toStrictEqual({ headerRow: 0, cylinder: 0, door: 1, keys: [2] });
    const turned = [['Room', 'Cyl.', 'M'], ['Hall', '1', 'x'], ['Store', '2', 'x']]; // prettier-ignore
    expect(found(turned)).toStrictEqual({ headerRow: 0, cylinder: 1, door: 0, keys: [2] });
    // of a column of numbers that are mostly missing the doors are the names
    const few = [['Cyl.', 'Room', 'M'], ['1', 'Hall', 'x'], ['', 'Store', 'x'], ['', 'Attic', 'x']]; // prettier-ignore
    expect(found(few)).toStrictEqual({ headerRow: 0, cylinder: 1, keys: [2] });
    // without a word that tells, the column with most names
    const none = [['Wing', 'Sign', 'M'], ['East', 'a', 'x'], ['East', 'b', 'x']]; // prettier-ignore
    expect(found(none)).toStrictEqual({ headerRow: 0, cylinder: 1, keys: [2] });
    // of two alike the first, and those left of the keys before those right of them
    const alike = [['Sign', 'Plate', 'M', 'Tag'], ['a', 'b', 'x', 'c'], ['d', 'e', 'x', 'f']]; // prettier-ignore
    expect(found(alike)).toMatchObject({ cylinder: 0 });
    const right = [['', 'M', 'Tag'], ['', 'x', 'c'], ['', 'x', 'f']]; // prettier-ignore
    expect(found(right)).toStrictEqual({ headerRow: 0, cylinder: 2, keys: [1] });
    const signs = [['Sign', 'M', 'Tag'], ['a', 'x', 'c'], ['a', 'x', 'd']]; // prettier-ignore
    expect(found(signs)).toMatchObject({ cylinder: 0 });
    // numbers that stand several times name no rows where doors do
    const again = [['Cyl.', 'Room', 'M'], ['1', 'Hall', 'x'], ['1', 'Attic', 'x'], ['2', 'Store', 'x']]; // prettier-ignore
    expect(found(again)).toStrictEqual({ headerRow: 0, cylinder: 1, keys: [2] });
    // a door is what the shop calls so, though another column has more names
    const called = [['Sign', 'Room', 'M'], ['a', 'Hall', 'x'], ['b', 'Hall', 'x'], ['c', 'Attic', 'x']]; // prettier-ignore
    expect(found(called)).toStrictEqual({ headerRow: 0, cylinder: 1, keys: [2] });
    // names of rows without marks are no names
    const apart = [['Cyl.', 'Room', 'M'], ['', 'Hall', 'x'], ['', 'Attic', 'x'], ['1', '', ''], ['2', '', ''], ['3', '', '']]; // prettier-ignore
    expect(found(apart)).toStrictEqual({ headerRow: 0, cylinder: 1, keys: [2] });
    // a door column with too few names for its rows names no rows
    const halves = [['Room', 'Sign', 'M'], ['Hall', 'a', 'x'], ['Attic', 'b', 'x'], ['', 'c', 'x'], ['', 'd', 'x']]; // prettier-ignore
    expect(found(halves)).toStrictEqual({ headerRow: 0, cylinder: 1, keys: [2] });
    const doors = [['Room', 'Sign', 'M'], ['Hall', 'a', 'x'], ['', 'b', 'x'], ['', 'c', 'x'], ['', 'd', 'x']]; // prettier-ignore
    expect(found(doors)).toStrictEqual({ headerRow: 0, cylinder: 1, keys: [2] });
    // marks beside nothing that names a row are no grid
    expect(
      found([
        ['', 'M'],
        ['', 'x'],
      ]),
    ).toBeUndefined();
  });

  it('has its headings in the row with the most marks below it, the lowest of those alike', () => {
    const titled = [['Plan', '', ''], ['', 'Whole', 'Store'], ['Door', 'M', 'A'], ['101', 'x', 'x'], ['102', '', 'x']]; // prettier-ignore
    expect(found(titled)).toStrictEqual({ headerRow: 2, cylinder: 0, keys: [1, 2] });
    // a row of marks is no row of headings, though there are marks below it
    const many = [['Door', 'M', 'A'], ['101', 'x', 'x'], ['102', 'x', 'x'], ['103', 'x', 'x']]; // prettier-ignore
    expect(found(many)).toMatchObject({ headerRow: 0 });
    const below = Array.from({ length: 39 }, () => ['Notes', '', '']);
    const grid = [['Door', 'M', 'A'], ['101', 'x', 'x']]; // prettier-ignore
    expect(found([...below, ...grid])).toMatchObject({ headerRow: 39 });
    expect(found([...below, ['Notes', '', ''], ...grid])).toBeUndefined();
    // the last row heads nothing
    expect(found([['Door', 'M']])).toBeUndefined();
    expect(found([])).toBeUndefined();
  });

  it('takes a row of keyways for headings only where there is no other', () => {
    const ways = [['Keyway', 'K1', 'K2'], ['Door', 'M', 'A'], ['101', 'x', 'x'], ['102', 'x', '']]; // prettier-ignore
    expect(found(ways)).toMatchObject({ headerRow: 1 });
    const below = [['Door', 'M', 'A'], ['Keyway', 'K1', 'K2'], ['101', 'x', 'x'], ['102', 'x', '']]; // prettier-ignore
    expect(found(below)).toMatchObject({ headerRow: 0 });
    const alone = [['Keyway', 'K1', 'K2'], ['101', 'x', 'x'], ['102', 'x', '']]; // prettier-ignore
    expect(found(alone)).toMatchObject({ headerRow: 0, keys: [1, 2] });
  });

  it('may have its headings chosen', () => {
    const two = [['Door', 'Whole', 'Store'], ['Door', 'M', 'A'], ['101', 'x', 'x'], ['102', '', 'x']]; // prettier-ignore
    expect(found(two)).toMatchObject({ headerRow: 1 });
    expect(layoutUnder(two, 0, NONE)).toMatchObject({ headerRow: 0, keys: [1, 2] });
    expect(layoutUnder(two, 3, NONE)).toBeUndefined();
    expect(layoutUnder(two, 9, NONE)).toBeUndefined();
  });

  it('has as keys the columns between its marks, unless they name or count', () => {
    // a key without a mark, one without a heading, a column of quantities in marks
    const wide = [['Door', 'M', 'N', '', 'Qty', 'A', 'B', 'Note', 'C'], ['101', 'x', '', '', 1, 'x', '', '', ''], ['102', '', '-', 'x', 1, 'x', '', '', 'text']]; // prettier-ignore
    expect(found(wide)).toStrictEqual({ headerRow: 0, cylinder: 0, keys: [1, 2, 3, 5, 6] });
    // what is written on in words is no key, nor is what lies behind a gap
    const gap = [['Door', 'M', '', 'Z'], ['101', 'x', '', ''], ['102', 'x', '', '']]; // prettier-ignore
    expect(found(gap)).toMatchObject({ keys: [1] });
    const words = [['Door', 'M', 'Who', 'A'], ['101', 'x', 'Ann', 'x'], ['102', 'x', 'Bob', 'x']]; // prettier-ignore
    expect(found(words)).toMatchObject({ keys: [1, 3] });
    // a few cells that are no marks are faults of a key; more than the marks make the column something else
    const odd = [['Door', 'M', 'A', 'B'], ['101', 'x', 'x', 'x'], ['102', 'x', '?', '?'], ['103', 'x', 'x', '?']]; // prettier-ignore
    expect(found(odd)).toMatchObject({ keys: [1, 2] });
    const half = [['Door', 'M', 'A'], ['101', 'x', 'x'], ['102', 'x', '?']]; // prettier-ignore
    expect(found(half)).toMatchObject({ keys: [1, 2] });
    const many = [['Door', 'M', 'A'], ['1', 'x', 'x'], ['2', 'x', 'x'], ['3', 'x', '?'], ['4', 'x', '-'], ['5', 'x', '-']]; // prettier-ignore
    expect(found(many)).toMatchObject({ keys: [1, 2] });
    const three = [['Door', 'M', 'A', 'B'], ['1', 'x', '', 'x'], ['2', '', 'x', '']]; // prettier-ignore
    expect(found(three)).toMatchObject({ keys: [1, 2, 3] });
    // marks under no heading at the right of all keys are nobody's
    expect(found([['Door', 'M', ' '], ['1', 'x', 'x']])).toMatchObject({ keys: [1] }); // prettier-ignore
    expect(found([['Door', 'M'], ['1', 'x', 'x']])).toMatchObject({ keys: [1] }); // prettier-ignore
    // names between keys, even such as look like marks
    const odds = [['M', 'Tag', 'A'], ['x', 'no', 'x'], ['x', '-', '']]; // prettier-ignore
    expect(found(odds)).toStrictEqual({ headerRow: 0, cylinder: 1, keys: [0, 2] });
    const middle = [['M', 'Door', 'A'], ['x', '101', 'x'], ['x', '102', '']]; // prettier-ignore
    expect(found(middle)).toStrictEqual({ headerRow: 0, cylinder: 1, keys: [0, 2] });
  });
});

describe('a grid without marks', () => {
  it('has a column that lists the keys of each cylinder', () => {
    const list = [['Annexe'], ['Door', 'Opened by', 'Qty'], ['101', 'M A1', 2], ['102', 'M', 2]]; // prettier-ignore
    expect(found(list)).toStrictEqual({ headerRow: 1, cylinder: 0, keys: [], list: 1 });
    const both = [['Keys', 'Cyl.', 'Room'], ['M', '1', 'Hall'], ['M A', '2', 'Attic']]; // prettier-ignore
    expect(found(both)).toStrictEqual({ headerRow: 0, cylinder: 1, door: 2, keys: [], list: 0 });
  });

  it('is none where nothing is listed, or nothing names the rows', () => {
    expect(found([['Door', 'Keys'], ['101', ''], ['102', ' ']])).toBeUndefined(); // prettier-ignore
    expect(found([['Annexe', ''], ['Door', 'Keys'], ['101', '']])).toBeUndefined(); // prettier-ignore
    expect(found([['Keys'], ['M A'], ['M']])).toBeUndefined();
    expect(found([['Door', 'Who'], ['101', 'Ann'], ['102', 'Bob']])).toBeUndefined(); // prettier-ignore
    const below = Array.from({ length: 40 }, () => ['Notes', '']);
    expect(found([...below, ['Door', 'Keys'], ['101', 'M']])).toBeUndefined();
    expect(found([...below.slice(1), ['Door', 'Keys'], ['101', 'M']])).toMatchObject({ headerRow: 39 });
    // a list below a row that only looks like one
    const twice = [['Door', 'Keys'], ['', ''], ['Door', 'Keys'], ['101', '']]; // prettier-ignore
    expect(found(twice)).toMatchObject({ headerRow: 0 });
  });
});
