/** Tables put together into systems, and the rows of the ledger tied to them, from cells made by hand. */
import { describe, expect, it } from 'vitest';
import { readLedger } from '../../src/workbook/readLedger.ts';
import type { CellValue } from '../../src/workbook/reading.ts';
import { bookOf, tableOf, told } from './byHand.ts';

type Rows = readonly (readonly CellValue[])[];
const systems = (...rows: Rows) => tableOf('KeyrowSystems', 'Systems', [['System', 'Spec', 'Grid'], ...rows]);
const keys = (...rows: Rows) =>
  tableOf('KeyrowKeys', 'Keys', [
    ['Symbol', 'System', 'Bitting', 'Level', 'Status', 'Spec', 'Copies'],
    ...rows,
  ]);
const CHAMBERS = [1, 2, 3, 4, 5, 6].map((c) => `Ch ${c}`);
const PINS = ['0', '1', '2', '3', '4', '5'];
const cylinders = (...rows: Rows) =>
  tableOf('KeyrowCylinders', 'Cylinders', [['Cylinder', 'System', 'Symbol', ...CHAMBERS], ...rows]);
const ledger = (...rows: Rows) =>
  tableOf('KeyrowLedger', 'Ledger', [['Date', 'Event', 'System', 'Key', 'Copy'], ...rows]);

describe('systems of a book', () => {
  it('have the rows of keys and cylinders that name them, in any case', () => {
    const { systems: found, problems } = bookOf(
      systems(['School', 'S-018-6'], ['Works', 'S-018-6'], ['Empty', 'S-018-6']),
      keys(['A', 'school', '012345', 'CK', 'issued'], ['B', 'WORKS', '112345'], ['C', 'School ', '212345']),
      cylinders(['C1', 'works', 'B', ...PINS], ['C2', 'School', 'A', ...PINS]),
    );
    expect(problems).toEqual([]);
    expect(
      found.map(({ name, keys: k, cylinders: c }) => [
        name,
        k.map(({ symbol }) => symbol),
        c.map(({ id }) => id),
      ]),
    ).toEqual([
      ['School', ['A', 'C'], ['C2']],
      ['Works', ['B'], ['C1']],
      ['Empty', [], []],
    ]);
    expect(found[0]!.keys[0]!.record).toMatchObject({ symbol: 'A', bitting: [0, 1, 2, 3, 4, 5] });
    expect(Object.keys(found[2]!)).not.toContain('grid');
    expect(bookOf().systems).toEqual([]);
  });

  it('of one name are told apart by the first', () => {
    const { systems: found, problems } = bookOf(systems(['School', 'S-018-6'], ['SCHOOL', 'S-018-6']));
    expect(found.map(({ name }) => name)).toEqual(['School']);
    expect(told(problems)).toEqual([
      'fault Systems!B6 There is another system “SCHOOL” above. Give one of them another name.',
    ]);
  });

  it('are not read where a needed column is gone, and the others are', () => {
    const { systems: found, problems } = bookOf(
      systems(['School', 'S-018-6']),
      tableOf('KeyrowKeys', 'Keys', [
        ['Symbol', 'Bitting'],
        ['A', '012345'],
      ]),
      cylinders(['C1', 'School', 'A', ...PINS]),
    );
    expect(found.map(({ keys: k, cylinders: c }) => [k.length, c.length])).toEqual([[0, 1]]);
    expect(told(problems)).toEqual([
      'fault Keys!B4 The table KeyrowKeys has no column “System”. Add it, or give the renamed column its name back.',
    ]);
  });

  it('report rows that belong to none', () => {
    const { problems } = bookOf(
      systems(['School', 'S-018-6']),
      keys(['A', '', '012345', 'CK', 'issued'], ['B', 'Shool', '', 'CK', 'issued', 'S-018-6']),
      cylinders(['C1', 'Shool', 'A', ...PINS]),
    );
    expect(told(problems)).toEqual([
      'warning Keys!D6 This key has no bitting.',
      'fault Keys!C5 This row names no system, so it is not checked. Type the name of its system.',
      'fault Keys!C6 There is no system “Shool” in the sheet Systems, so this row is not checked. Correct the name or add the system.',
      'fault Cylinders!C5 There is no system “Shool” in the sheet Systems, so this row is not checked. Correct the name or add the system.',
    ]);
  });

  it('read a stray key by the spec that it names itself', () => {
    // a code that can't be of the spec is told, though the row's system is unknown
    const { problems } = bookOf(keys(['A', 'Gone', '01234x', 'CK', 'issued', 's-018-6']));
    expect(told(problems)[0]).toMatch(/^fault Keys!D5 /);
    expect(bookOf(keys(['A', 'Gone', '01234x', 'CK', 'issued', 'S-9'])).problems).toHaveLength(1);
  });

  it('report what stands twice in one system, and nothing else', () => {
    const key = (symbol: string, system: string, status: string) => [symbol, system, '012345', 'CK', status];
    const { problems } = bookOf(
      systems(['School', 'S-018-6'], ['Works', 'S-018-6']),
      keys(
        key('A', 'School', 'issued'),
        key('a', 'school', 'reserved'),
        key('A', 'Works', 'issued'),
        // the bitting before, a bitting to spare: both may have the symbol as well
        key('A', 'School', 'retired'),
        key('A', 'School', 'void'),
        key('A', 'School', 'free'),
      ),
      cylinders(
        ['A', 'School', 'A', ...PINS],
        ['C1', 'School', 'A', ...PINS],
        ['c1', 'School', 'A', ...PINS],
        ['C1', 'Works', 'A', ...PINS],
        ['', 'School', 'A', ...PINS],
        ['', 'School', 'A', ...PINS],
      ),
    );
    expect(told(problems).filter((one) => !one.includes('no cylinder number'))).toEqual([
      'fault Keys!B6 There is another key “a” of this system at B5. Give one of them another name.',
      'fault Cylinders!B7 There is another cylinder “c1” of this system at B6. Give one of them another name.',
    ]);
  });

  it('have the grid that they name, with their own keys as its columns', () => {
    const grid = tableOf('KeyrowGrid1', 'Grid', [
      ['Cylinder', 'A', 'B', 'Z'],
      ['C1', 'x', '', 'x'],
    ]);
    const own = keys(['a', 'School', '012345', 'CK', 'issued']);
    const gone = (name: string): string =>
      `fault Systems!B5 The grid ${name} of this system is gone. Write a new one, or clear the cell under Grid.`;
    const read = bookOf(systems(['School', 'S-018-6', 'keyrowgrid1']), own, grid);
    expect([...read.systems[0]!.grid!.keys.keys()]).toEqual(['A']);
    expect(read.systems[0]!.grid!.marks).toHaveLength(1);
    expect(told(read.problems)).toEqual([
      'warning Grid!E4 The system has no key “Z”, so the marks below are not read. Add the key or correct the heading.',
    ]);
    const other = bookOf(systems(['School', 'S-018-6', 'KeyrowGrid2']), own, grid);
    expect(told(other.problems)).toEqual([gone('KeyrowGrid2')]);
    expect(other.systems[0]).not.toHaveProperty('grid');
    // a table of ours that is no grid is none either
    expect(told(bookOf(systems(['School', 'S-018-6', 'KeyrowKeys']), own).problems)).toEqual([
      gone('KeyrowKeys'),
    ]);
    const lame = tableOf('KeyrowGrid1', 'Grid', [
      ['Lock', 'A'],
      ['C1', 'x'],
    ]);
    const bad = bookOf(systems(['School', 'S-018-6', 'KeyrowGrid1']), own, lame);
    expect(bad.systems[0]).not.toHaveProperty('grid');
    expect(told(bad.problems)).toEqual([
      'fault Grid!B4 The table KeyrowGrid1 has no column “Cylinder”. Add it, or give the renamed column its name back.',
    ]);
  });
});

describe('the ledger of a book', () => {
  const key = (symbol: string, system: string, copies: CellValue = ''): readonly CellValue[] => [
    symbol,
    system,
    '012345',
    'CK',
    'issued',
    '',
    copies,
  ];
  const TWO = [
    systems(['School', 'S-018-6'], ['Works', 'S-018-6']),
    keys(key('A', 'School', 3), key('B', 'School'), key('A', 'Works'), ['C', 'Works', '', 'boss', 'issued'], ['D', 'Works', '', 'CK', 'gone'], ['', 'Works', '012345', 'CK', 'issued']), // prettier-ignore
  ];

  it('is empty without its tables', () => {
    const book = bookOf(...TWO);
    expect(readLedger(book)).toStrictEqual({
      entries: [],
      places: [],
      // rows whose symbol, level or status can't be read are no keys to give out
      keys: [
        { system: 'School', symbol: 'A', level: 'CK', status: 'issued', copies: 3 },
        { system: 'School', symbol: 'B', level: 'CK', status: 'issued' },
        { system: 'Works', symbol: 'A', level: 'CK', status: 'issued' },
      ],
      keyRows: [...book.systems[0]!.keys, book.systems[1]!.keys[0]],
      people: [],
      problems: [],
      unread: 0,
      lastNumber: 0,
    });
    expect(readLedger(book)).toBe(readLedger(book));
  });

  it('names the system of a row by its cell, else by the only one that has such a key', () => {
    const read = (...rows: Rows) => readLedger(bookOf(...TWO, ledger(...rows)));
    const found = read(
      ['2026-03-14', 'issued', 'school', 'A', 1],
      ['2026-03-14', 'issued', 'Elsewhere', 'A', 1],
      ['2026-03-14', 'issued', '', 'b', 1],
      ['2026-03-14', 'issued', '', 'A', 1],
      ['2026-03-14', 'issued', '', 'Z', 1],
    );
    expect(found.entries.map(({ system, symbol }) => `${system} ${symbol}`)).toEqual([
      'School A',
      'Elsewhere A',
      'School b',
    ]);
    expect(found.places.map(({ address }) => address)).toEqual(['C5', 'C6', 'C7']);
    expect(found.unread).toBe(2);
    expect(told(found.problems)).toEqual([
      'fault Ledger!D8 The systems School and Works both have a key A. Type the name of the one that is meant.',
      'fault Ledger!D9 No system has a key Z. Type the name of its system.',
    ]);
    expect(found.ledger!.name).toBe('KeyrowLedger');
    // in a book of one system it is that one, even of a key that isn't listed
    const one = bookOf(systems(['School', 'S-018-6']), ledger(['2026-03-14', 'issued', '', 'Z', 1]));
    expect(readLedger(one).entries.map(({ system }) => system)).toEqual(['School']);
    const none = readLedger(bookOf(ledger(['2026-03-14', 'issued', '', 'Z', 1])));
    expect(told(none.problems)).toEqual([
      'fault Ledger!D5 No system has a key Z. Type the name of its system.',
    ]);
  });

  it('has the people of the sheet Holders, and the faults of both sheets', () => {
    const holders = tableOf('KeyrowHolders', 'Holders', [['Holder', 'Left on'], ['Porter', ''], ['Cook', 'soon']]); // prettier-ignore
    const read = readLedger(bookOf(...TWO, holders, ledger(['', 'issued', 'School', 'A', 1])));
    expect(read.people.map(({ name }) => name)).toEqual(['Porter', 'Cook']);
    expect(read.holders).toBe(read.people);
    expect(read.holdersTable).toBe(holders);
    expect(told(read.problems).map((one) => one.slice(0, 20))).toEqual([
      'fault Holders!C6 “so',
      'fault Ledger!B5 Ther',
    ]);
  });

  it('is not read where one of its columns is gone', () => {
    const lame = tableOf('KeyrowLedger', 'Ledger', [
      ['Date', 'Event', 'Key'],
      ['2026-03-14', 'issued', 'A'],
    ]);
    const nobody = tableOf('KeyrowHolders', 'Holders', [['Person'], ['Porter']]);
    const read = readLedger(bookOf(...TWO, lame, nobody));
    expect([read.entries, read.people]).toEqual([[], []]);
    expect([Object.keys(read).includes('ledger'), Object.keys(read).includes('holders')]).toEqual([
      false,
      false,
    ]);
    expect(told(read.problems)).toEqual([
      'fault Holders!B4 The table KeyrowHolders has no column “Holder”. Add it, or give the renamed column its name back.',
      'fault Ledger!B4 The table KeyrowLedger has no column “Copy”. Add it, or give the renamed column its name back.',
    ]);
  });
});
