/** Rows of the sheet Array, cell by cell: what they give together, and every reason why they give nothing. */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import type { CellValue } from '../../src/workbook/reading.ts';
import { arrayNames, arrayPlaces, arrayRows, levelWord, readArray } from '../../src/workbook/tableArrays.ts';
import { bookOf, tableOf, told } from './byHand.ts';
import { SPEC } from './school.ts';

const HEADINGS = ['System', 'Spec', 'Chamber', 'Top master', 'Depths in order', 'Level', 'Sequence'];
type Row = readonly CellValue[];
/** Row from 0, heading, cell. */
type Change = readonly [number, string, CellValue];
/** The top master 3 3 3 3 3 3, with the depths of its two-step array. */
const ROWS: readonly Row[] = [1, 2, 3, 4, 5, 6].map((c) => ['Hall', 'S-018-6', c, '3', '1 5 7 9', '', '']);
const bookWith = (rows: readonly Row[], headings: readonly string[] = HEADINGS) =>
  bookOf(tableOf('KeyrowArray', 'Array', [headings, ...rows]));
const read = (rows: readonly Row[], headings?: readonly string[]) =>
  readArray(bookWith(rows, headings), 'hall', SPEC);
/** The rows with some cells changed. */
const but = (...changes: readonly Change[]): Row[] =>
  ROWS.map((row, r) =>
    HEADINGS.map((heading, c) => changes.find(([at, name]) => at === r && name === heading)?.[2] ?? row[c]!),
  );
const faults = (...changes: readonly Change[]): string[] => {
  const found = read(but(...changes))!;
  expect(found.array).toBeUndefined();
  return told(found.problems);
};

describe('an array of the sheet Array', () => {
  it('is its rows in the order of the chambers, wherever they stand', () => {
    const rows = [...ROWS.slice(1), ...ROWS.slice(0, 1)].map((row, r) =>
      row.with(4, r === 5 ? '9 1' : '1 5 7 9'),
    );
    expect(read(rows)).toStrictEqual({
      problems: [],
      array: {
        topMaster: [3, 3, 3, 3, 3, 3],
        array: [[9, 1], ...Array.from({ length: 5 }, () => [1, 5, 7, 9])],
      },
    });
  });

  it('carries a level in the words of the trade, and a sequence', () => {
    const words = ['CK', 'Change key', 'MK', 'master', 'GMK', 'grand master'];
    const deal = words.map((word, r) => [r, 'Level', word] as const);
    const sequence = [6, 5, 4, 1, 2, 3].map((turn, r) => [r, 'Sequence', turn] as const);
    expect(read(but(...deal, ...sequence))!.array).toMatchObject({
      deal: ['CK', 'CK', 'MK', 'MK', 'GMK', 'GMK'],
      // first the chamber that says 1, from 0: the fourth
      sequence: [3, 4, 5, 2, 1, 0],
    });
    const kept = words.map((_, r) => [r, 'Level', r % 2 === 0 ? 'kept' : 'Constant'] as const);
    expect(read(but(...kept))!.array!.deal).toStrictEqual(Array.from({ length: 6 }, () => 'constant'));
    expect((['CK', 'constant'] as const).map(levelWord)).toStrictEqual(['CK', 'kept']);
  });

  it('is none where the sheet has none of that name', () => {
    expect(readArray(bookOf(), 'Hall', SPEC)).toBeUndefined();
    expect(read([])).toBeUndefined();
    expect(read(ROWS.map((row) => row.with(0, 'Works')))).toBeUndefined();
    expect(told(read(ROWS, HEADINGS.with(2, 'Place'))!.problems)).toStrictEqual([
      'fault Array!B4 The table KeyrowArray has no column “Chamber”. Add it, or give the renamed column its name back.',
    ]);
  });

  it('leaves the rows of other names alone, whatever is wrong with them', () => {
    const others: Row[] = [['Works', 'S-9', 0, 'x', 'x', 'boss', -1]];
    const found = read([...others, ...ROWS])!;
    expect(found.problems).toStrictEqual([]);
    expect(found.array).toBeDefined();
    // rows 5 and 15 are two
    const below = [...ROWS, ...ROWS.slice(0, 4).map((row) => row.with(0, 'Works')), ...others];
    expect(read(below)!.problems).toStrictEqual([]);
  });

  it('says of each row which chamber it can’t be', () => {
    expect(faults([1, 'Chamber', ''])).toStrictEqual([
      'fault Array!D6 Type which chamber this is, from 1 to 6.',
      'fault Array!B5 The array of Hall has no row for chamber 2. Give each chamber a row.',
    ]);
    const turned = ROWS.slice(1).map((row) => [row[2]!, row[0]!, row[3]!, row[4]!]);
    expect(
      told(read(turned, ['Chamber', 'System', 'Top master', 'Depths in order'])!.problems),
    ).toStrictEqual(['fault Array!C5 The array of Hall has no row for chamber 1. Give each chamber a row.']);
    expect(faults([1, 'Chamber', 7], [2, 'Chamber', 7])).toStrictEqual([
      'fault Array!D6 S-018-6 has 6 chambers. Take this row away.',
      'fault Array!D7 S-018-6 has 6 chambers. Take this row away.',
      'fault Array!B5 The array of Hall has no row for chamber 2, 3. Give each chamber a row.',
    ]);
    expect(faults([1, 'Chamber', 1])[0]).toBe('fault Array!D6 Chamber 1 has two rows. Take one away.');
    expect(faults([1, 'Chamber', 'two'])).toStrictEqual([
      'fault Array!D6 “two” is not a whole number from 1 on.',
      'fault Array!D6 Type which chamber this is, from 1 to 6.',
      'fault Array!B5 The array of Hall has no row for chamber 2. Give each chamber a row.',
    ]);
    expect(faults([3, 'Spec', 'S-025-5'])).toStrictEqual([
      'fault Array!C8 This array is for the spec S-025-5, not for S-018-6. Choose that spec, or correct the cell.',
    ]);
    expect(read(but([3, 'Spec', ' s-018-6'], [4, 'Spec', '']))!.problems).toStrictEqual([]);
  });

  it('says what is wrong with a cut, with depths, with levels and with the sequence', () => {
    const one = 'Type the one cut of the top master in this chamber.';
    expect(faults([0, 'Top master', ''], [1, 'Top master', '3 5'])).toStrictEqual([
      `fault Array!E5 ${one}`,
      `fault Array!E6 ${one}`,
    ]);
    // what can't be read at all is said once
    expect(faults([2, 'Top master', 'x'])).toStrictEqual([
      expect.stringMatching(/^fault Array!E7 There is no depth X/),
    ]);
    expect(faults([2, 'Depths in order', 'x 1'])).toStrictEqual([
      expect.stringMatching(/^fault Array!F7 There is no depth X/),
    ]);
    expect(faults([2, 'Depths in order', 1.5])).toStrictEqual([
      expect.stringMatching(/^fault Array!F7 “1.5”/),
    ]);
    expect(faults([0, 'Level', 'CK'], [2, 'Level', 'CK'])).toStrictEqual([
      'fault Array!G6 Give every chamber its level, or leave all of them blank.',
    ]);
    expect(faults([0, 'Level', 'boss'])).toStrictEqual([
      'fault Array!G5 “boss” is none of CK, MK, GMK, kept.',
    ]);
    const sequence =
      'fault Array!H5 Number the chambers from 1 to 6 in the sequence of progression, each once, or leave all blank.';
    expect(faults([2, 'Sequence', 1])).toStrictEqual([sequence]);
    const all = [1, 2, 3, 4, 5, 5].map((turn, r) => [r, 'Sequence', turn] as const);
    expect(faults(...all)).toStrictEqual([sequence]);
    // faults of the array itself, at the depths of their chamber: the master's own cut among them, one step off it
    expect(faults([4, 'Depths in order', '3 5'], [5, 'Depths in order', '4 5'])).toStrictEqual([
      expect.stringMatching(/^fault Array!F9 /),
      expect.stringMatching(/^fault Array!F10 /),
    ]);
  });

  it('is read without the columns that are not needed', () => {
    const few = ROWS.map((row) => [row[0]!, row[2]!, row[3]!, row[4]!]);
    const found = read(few, ['System', 'Chamber', 'Top master', 'Depths in order'])!;
    expect(found.problems).toStrictEqual([]);
    expect(Object.keys(found.array!)).toStrictEqual(['topMaster', 'array']);
  });
});

describe('the names of arrays', () => {
  it('are told once each, in the order of the sheet', () => {
    const names = ['Hall', 'HALL ', 'Works', '', 'hall'];
    expect(arrayNames(bookWith(names.map((name) => [name, '', 1])))).toStrictEqual(['Hall', 'Works']);
    expect(arrayNames(bookOf())).toStrictEqual([]);
    expect(arrayNames(bookWith(ROWS, HEADINGS.with(3, 'Top')))).toStrictEqual([]);
  });

  it('have the places of their rows by chamber', () => {
    const places = arrayPlaces(bookWith([['Works', '', 2], ...ROWS, ['Hall', '', 'x'], ['', '', 1]]), 'HALL');
    expect([...places.keys()]).toStrictEqual([1, 2, 3, 4, 5, 6]);
    expect(places.get(2)!('depths')).toStrictEqual({ sheet: 'Array', address: 'F7' });
    expect(arrayPlaces(bookOf(), 'Hall').size).toBe(0);
    expect(arrayPlaces(bookWith(ROWS, HEADINGS.with(3, 'Top')), 'Hall').size).toBe(0);
  });

  it('are written a row a chamber', () => {
    const array = { topMaster: bittingOf(SPEC, [3, 3, 3, 3, 3, 3]), array: [[9, 1], [], [1], [1], [1], [1]] };
    expect(arrayRows('Hall', SPEC, array).slice(0, 2)).toStrictEqual([
      ['Hall', 'S-018-6', 1, '3', '9 1', '', ''],
      ['Hall', 'S-018-6', 2, '3', '', '', ''],
    ]);
    const deal = ['MK', 'constant', 'CK', 'CK', 'CK', 'CK'] as const;
    const rows = arrayRows('Hall', SPEC, { ...array, deal, sequence: [2, 0, 1, 3, 4, 5] });
    expect(rows.map((row) => row[5])).toStrictEqual(['MK', 'kept', 'CK', 'CK', 'CK', 'CK']);
    // the third chamber comes first, then the first
    expect(rows.map((row) => row[6])).toStrictEqual(['2', '3', '1', '4', '5', '6']);
  });
});
