/** From sheets made by hand to what the audit takes, and from its findings back to the cells. */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import { depthSetOf } from '../../src/keying/depthSet.ts';
import type { Finding } from '../../src/keying/findings.ts';
import {
  auditedCylinders,
  auditedKeys,
  auditInput,
  namesIn,
  placesOf,
} from '../../src/workbook/auditInput.ts';
import { knownKeys, retiredUnder } from '../../src/workbook/knownKeys.ts';
import { againstOf } from '../../src/workbook/scheduleAgainst.ts';
import type { CellValue, TableReading } from '../../src/workbook/reading.ts';
import { bookOf, tableOf } from './byHand.ts';
import { SPEC } from './school.ts';

type Rows = readonly (readonly CellValue[])[];
const CHAMBERS = [1, 2, 3, 4, 5, 6].map((c) => `Ch ${c}`);
const pins = (first: string): string[] => [first, '1', '2', '3', '4', '5'];

const SYSTEMS = tableOf('KeyrowSystems', 'Systems', [
  ['System', 'Spec', 'Keyway', 'Top master', 'Array 1', 'Grid'],
  ['School', 'S-018-6', 'K1', '012345', '2 4', 'KeyrowGrid1'],
  ['Plain', 'S-018-6', '', '', '', ''],
  ['Lost', 'S-9', '', '', '', ''],
]);
const key = (symbol: string, bitting: string, level: string, parent = '', status = 'issued', keyway = '') =>
  ['School', symbol, bitting, level, parent, status, keyway, ''] as const;
const KEYS = tableOf('KeyrowKeys', 'Keys', [
  ['System', 'Symbol', 'Bitting', 'Level', 'Parent', 'Status', 'Keyway', 'Copies'],
  key('A', '012345', 'MK'),
  key('A1', '212345', 'CK', 'A', 'reserved'),
  key('A2', '412345', 'CK', 'A', 'issued', 'K2'),
  key('A1', '612345', 'CK', 'A', 'retired'),
  key('A3', '81234x', 'CK', 'A'),
  key('', '812345', 'CK', 'A'),
  ['Plain', 'S1', '312345', '', '', 'retired', '', 2],
  ['Plain', 'S2', '512345', 'single', '', 'gone', '', ''],
]);
const CYLINDERS = tableOf('KeyrowCylinders', 'Cylinders', [
  ['System', 'Cylinder', 'Door', 'Symbol', 'Keyway', ...CHAMBERS, 'Control'],
  ['School', 'C1', '101', 'A1', 'K1', ...pins('0 2')],
  ['School', 'C2', '', 'A2', '', ...pins('0 4'), '712345'],
  ['School', 'C3', '103', 'A3', '', ...pins('x')],
  ['School', '', '104', 'A3', ''],
  ['Plain', 'P1', '', 'S1', '', ...pins('3')],
]);
/** A1 is marked at C1 alone; A has no column, and C2 has none of its marks here. */
const GRID = tableOf('KeyrowGrid1', 'Grid', [['Cylinder', 'A1', 'a2'], ['c1', 'x', ''], ['C3', '', 'x']], { column: 4 }); // prettier-ignore

const school = (...more: readonly TableReading[]) => bookOf(SYSTEMS, KEYS, CYLINDERS, GRID, ...more);
const blanks = (...rows: Rows) => tableOf('KeyrowBlanks', 'Blanks', [['Blank', 'Keyways'], ...rows]);

describe('what an audit takes of a system', () => {
  const book = school();
  it('is every row that can be read, and the names of the others', () => {
    const audit = auditInput(book, 'SCHOOL')!;
    const bitting = (cuts: string) => bittingOf(SPEC, [...cuts].map(Number));
    const sets = (first: number[]) => [first, [1], [2], [3], [4], [5]].map((depths) => depthSetOf(depths));
    expect(audit.system).toStrictEqual({
      name: 'School',
      spec: SPEC,
      topMaster: bitting('012345'),
      array: [[2, 4], [], [], [], [], []],
      keys: [
        { symbol: 'A', level: 'MK', bitting: bitting('012345'), status: 'issued' },
        { symbol: 'A1', level: 'CK', parent: 'A', bitting: bitting('212345'), status: 'reserved' },
        {
          symbol: 'A2',
          level: 'CK',
          parent: 'A',
          bitting: bitting('412345'),
          status: 'issued',
          keyway: 'K2',
        },
        { symbol: 'A1', level: 'CK', parent: 'A', bitting: bitting('612345'), status: 'retired' },
      ],
      cylinders: [
        { id: 'C1', symbol: 'A1', door: '101', keyway: 'K1', chambers: sets([0, 2]) },
        { id: 'C2', symbol: 'A2', chambers: sets([0, 4]), control: bitting('712345') },
      ],
    });
    // a row without a name goes by its cell
    expect(audit.leftOut).toEqual({ keys: ['A3', 'C10'], cylinders: ['C3', 'C8'] });
    const system = book.systems[0]!;
    expect(auditedKeys(system).map(({ symbol }) => symbol)).toEqual(['A', 'A1', 'A2', 'A1']);
    expect(auditedCylinders(system).map(({ id }) => id)).toEqual(['C1', 'C2']);
  });

  it('is meant by the grid’s marks, and by the hierarchy where the grid has no column or no row', () => {
    expect(auditInput(book, 'School')!.marks).toEqual([
      { key: 'A1', cylinder: 'C1' },
      // A has no column, so it is its place above A1 that counts
      { key: 'A', cylinder: 'C1' },
      // C2 has no row
      { key: 'A', cylinder: 'C2' },
      { key: 'A2', cylinder: 'C2' },
    ]);
    // a key with a column is meant where it is marked, whatever the hierarchy says
    const unmarked = tableOf('KeyrowGrid1', 'Grid', [
      ['Cylinder', 'A1', 'A'],
      ['C1', '', ''],
      ['C2', 'x', 'x'],
    ]);
    expect(auditInput(bookOf(SYSTEMS, KEYS, CYLINDERS, unmarked), 'School')!.marks).toEqual([
      { key: 'A1', cylinder: 'C2' },
      { key: 'A', cylinder: 'C2' },
      { key: 'A2', cylinder: 'C2' },
    ]);
  });

  it('is nothing of a system without a spec, or of none', () => {
    expect(auditInput(book, 'Lost')).toBeUndefined();
    expect(auditInput(book, 'Nowhere')).toBeUndefined();
    expect(auditInput(book, 'Plain')).toStrictEqual({
      system: { name: 'Plain', spec: SPEC, keys: [expect.objectContaining({ symbol: 'S1' })], cylinders: [expect.objectContaining({ id: 'P1' })] }, // prettier-ignore
      marks: [],
      leftOut: { keys: ['S2'], cylinders: [] },
    });
  });

  it('knows which blanks enter the keyways of others', () => {
    const wide = school(blanks(['B1', 'K1, K2']));
    expect(auditInput(wide, 'School')!.system.enters).toBeDefined();
    expect(auditInput(school(blanks(['B1', ''])), 'School')!.system).not.toHaveProperty('enters');
  });
});

describe('a finding', () => {
  const system = school().systems[0]!;
  const at = (finding: Finding) =>
    placesOf(system, finding).map(({ sheet, address }) => `${sheet}!${address}`);

  it('names its key, its cylinder and its chamber', () => {
    const lock = { code: 'lock-out', key: 'A1', cylinder: 'C1', chamber: 2, cut: '1', shears: [] } as const;
    expect(namesIn(lock)).toStrictEqual({ key: 'A1', cylinder: 'C1', chamber: 2 });
    expect(namesIn({ code: 'key-missing', symbol: 'A9', cylinder: 'C1' })).toStrictEqual({
      key: 'A9',
      cylinder: 'C1',
    });
    expect(namesIn({ code: 'bitting-reissued', key: 'A1' })).toStrictEqual({ key: 'A1' });
    expect(namesIn({ code: 'length', found: 5, expected: 6 })).toStrictEqual({});
  });

  it('about a key at a cylinder is at the grid’s cell, the bitting in use and the chamber', () => {
    expect(at({ code: 'lock-out', key: 'a1', cylinder: 'C1', chamber: 2, cut: '1', shears: [] })).toEqual([
      'Grid!F5',
      // the live A1, not the retired one below
      'Keys!D6',
      'Cylinders!H5',
    ]);
    expect(at({ code: 'interchange', key: 'A', cylinder: 'c2' })).toEqual(['Keys!D5', 'Cylinders!C6']);
    expect(at({ code: 'interchange', key: 'A2', cylinder: 'C1' })).toEqual([
      'Grid!G5',
      'Keys!D7',
      'Cylinders!C5',
    ]);
    // a chamber that the cylinder has no cell for: its row
    expect(at({ code: 'stack-too-tall', cylinder: 'C1', chamber: 9 })).toEqual(['Cylinders!C5']);
    expect(at({ code: 'interchange', key: 'Z', cylinder: 'Z' })).toEqual([]);
  });

  it('about a symbol is where that is typed', () => {
    expect(at({ code: 'key-missing', symbol: 'A9', cylinder: 'C1' })).toEqual([
      'Cylinders!E5',
      'Cylinders!C5',
    ]);
    expect(at({ code: 'parent-missing', key: 'A2', parent: 'Z' })).toEqual(['Keys!C7']);
    expect(at({ code: 'same-bitting', key: 'A1', other: 'a2' })).toEqual(['Keys!D6', 'Keys!D7']);
    expect(at({ code: 'same-bitting', key: 'A1', other: 'Z' })).toEqual(['Keys!D6']);
  });

  it('about a symbol that stands in several rows is at the one in use, wherever that stands', () => {
    const rows = (['issued', 'retired', 'void', 'free'] as const).map((status, r) => key('A2', `${r}12345`, 'CK', '', status)); // prettier-ignore
    const [one] = bookOf(SYSTEMS, tableOf('KeyrowKeys', 'Keys', [KEYS.headers, ...rows])).systems;
    expect(placesOf(one!, { code: 'bitting-reissued', key: 'A2' })).toEqual([
      { sheet: 'Keys', address: 'D5' },
    ]);
  });

  it('about control cuts is at the cell of the control cuts', () => {
    expect(at({ code: 'control-is-incidental', cylinder: 'C2' })).toEqual(['Cylinders!M6']);
    expect(at({ code: 'core-without-control', cylinder: 'C1' })).toEqual(['Cylinders!M5']);
    const without = tableOf('KeyrowCylinders', 'Cylinders', [
      ['System', 'Cylinder', 'Symbol', ...CHAMBERS],
      ['School', 'C1', 'A1', ...pins('0')],
    ]);
    const [plain] = bookOf(SYSTEMS, KEYS, without).systems;
    const finding = { code: 'core-without-control', cylinder: 'C1' } as const;
    expect(placesOf(plain!, finding)).toEqual([{ sheet: 'Cylinders', address: 'C5' }]);
    // without a grid there is no cell of it
    expect(placesOf(plain!, { code: 'interchange', key: 'A1', cylinder: 'C1' })[0]!.sheet).toBe('Keys');
  });
});

describe('what a system has already', () => {
  it('is its keys with a bitting, its pinned cylinders and the top master by its symbol', () => {
    const known = knownKeys(school().systems[0]!);
    expect(
      known.keys.map(({ symbol, bitting, status, master }) => [symbol, bitting.join(''), status, master]),
    ).toEqual([
      ['A', '012345', 'issued', true],
      ['A1', '212345', 'reserved', false],
      ['A2', '412345', 'issued', false],
      ['A1', '612345', 'retired', false],
      ['', '812345', 'issued', false],
    ]);
    expect(known.cylinders.map(({ id, symbol, keyway }) => [id, symbol, keyway])).toEqual([
      ['C1', 'A1', 'K1'],
      ['C2', 'A2', undefined],
    ]);
    expect('keyway' in known.cylinders[1]!).toBe(false);
    expect(known.master).toMatchObject({ symbol: 'A', bitting: [0, 1, 2, 3, 4, 5] });
    const plain = knownKeys(school().systems[1]!);
    // a status that can't be read counts as issued
    expect(plain.keys.map(({ symbol, status, master }) => [symbol, status, master])).toEqual([
      ['S1', 'retired', false],
      ['S2', 'issued', false],
    ]);
    expect(plain).not.toHaveProperty('master');
    const nameless = { ...school().systems[0]!, topMaster: bittingOf(SPEC, [0, 1, 2, 3, 4, 9]) };
    expect(knownKeys(nameless).master!.symbol).toBe('top master');
  });

  it('is retired under a keyway where its blanks could meet those', () => {
    const retired = (keyway: string | undefined, ...more: readonly TableReading[]) =>
      retiredUnder(school(...more), SPEC, keyway).map((cuts) => cuts.join(''));
    // the key says no keyway of its own, so its system's counts; without one on either side they meet
    expect(retired('K1')).toEqual(['612345', '312345']);
    expect(retired('K7')).toEqual(['312345']);
    expect(retired(undefined)).toEqual(['612345', '312345']);
    expect(retired('K7', blanks(['B1', 'K1, K7']))).toEqual(['612345', '312345']);
    const own = tableOf('KeyrowKeys', 'Keys', [
      ['System', 'Symbol', 'Bitting', 'Level', 'Status', 'Keyway'],
      ['School', 'A1', '612345', 'CK', 'retired', 'K5'],
      ['School', 'A2', '', 'CK', 'retired', 'K5'],
    ]);
    expect(retiredUnder(bookOf(SYSTEMS, own), SPEC, 'K1')).toEqual([]);
    expect(retiredUnder(bookOf(SYSTEMS, own), SPEC, 'K5')).toEqual([[6, 1, 2, 3, 4, 5]]);
    expect(retiredUnder(bookOf(SYSTEMS, own), { ...SPEC, name: 'Other' }, 'K5')).toEqual([]);
  });

  it('is what a schedule is checked against', () => {
    const against = againstOf(school(), 'plain');
    expect(against).toStrictEqual({
      keys: [
        { symbol: 'S1', level: 'single', status: 'retired', copies: 2 },
        { symbol: 'S2', level: 'single', status: undefined, copies: undefined },
      ],
      cylinders: ['S1'],
    });
    expect(againstOf(school(), 'Nowhere')).toEqual({ keys: [], cylinders: [] });
  });
});
