/** Reading a schedule that somebody else laid out. Headings as common practice has them; the layouts are invented. */
import { describe, expect, it } from 'vitest';
import {
  findSchedule,
  headingsOf,
  recallColumns,
  type SheetCells,
} from '../../src/keying/scheduleColumns.ts';
import { readLines } from '../../src/keying/scheduleRead.ts';
import { HEADING_WORDS, SCHEDULE_ROLES } from '../../src/keying/scheduleWords.ts';
import { foldHeading } from '../../src/keying/scheduleColumns.ts';

const HEADER = ['Door No.', 'Room / location', 'HW set', 'Key set', 'Cyl qty', 'Hand', 'Remarks'];

describe('the words of headings', () => {
  it('are folded, and each belongs to one role', () => {
    const all = HEADING_WORDS.flatMap(([, words]) => words);
    expect(all.filter((word) => foldHeading(word) !== word)).toEqual([]);
    expect(new Set(all).size).toBe(all.length);
    expect(HEADING_WORDS.map(([role]) => role).sort()).toEqual([...SCHEDULE_ROLES].sort());
  });
});

describe('columns', () => {
  it('are found below a title block', () => {
    const found = findSchedule([
      ['DOOR AND KEYING SCHEDULE', '', '', '', '', '', ''],
      ['Rev. C', 45000],
      [],
      HEADER,
    ]);
    expect(found?.columns).toEqual({
      headerRow: 3, door: 0, location: 1, hardware: 2, symbol: 3, quantity: 4, hand: 5, remarks: 6,
    }); // prettier-ignore
  });

  it('are understood over two rows, merged downwards and grouped', () => {
    const found = findSchedule([
      ['Title', '', '', '', '', ''],
      ['Door', 'Location', 'Cylinder', '', '', 'Keyset'],
      ['', '', 'Type', 'Length (mm)', 'Qty', ''],
      ['101', 'Office', 'rim', 30, 2, 'AA1'],
    ]);
    expect(found?.columns).toEqual({
      headerRow: 2, door: 0, location: 1, type: 2, length: 3, quantity: 4, symbol: 5,
    }); // prettier-ignore
    expect(found?.headers).toEqual(['Door', 'Location', 'Type', 'Length (mm)', 'Qty', 'Keyset']);
  });

  it('stand where they were first, not in a row of data', () => {
    expect(
      findSchedule([HEADER, ['', '', '', '', '', '', ''], ['101', '', '', '', '', '', '']])?.columns
        .headerRow,
    ).toBe(0);
  });

  it('are found again when rows and columns came before them, and not when a heading is gone', () => {
    const columns = findSchedule([HEADER])!.columns;
    const headings = headingsOf(columns, HEADER);
    const moved: SheetCells = [[], ['x'], ['New', ...HEADER]];
    expect(recallColumns(moved, columns, headings)).toEqual({
      headerRow: 2, door: 1, location: 2, hardware: 3, symbol: 4, quantity: 5, hand: 6, remarks: 7,
    }); // prettier-ignore
    expect(
      recallColumns([HEADER.map((h) => (h === 'Hand' ? 'Swing to' : h))], columns, headings),
    ).toBeUndefined();
  });
});

describe('a heading, folded', () => {
  it.each([
    ['Door No.:', 'door no'],
    ['DOOR  #', 'door'],
    ['Door Nº', 'door no'],
    ['n° of keys', 'no of keys'],
    ['Key_set *', 'key set'],
    ['Length (mm)', 'length'],
    ['Length (mm) of cylinder (each) ', 'length of cylinder'],
    ['a) Door', 'a) door'],
    ['Door (see', 'door (see'],
    ['(see) Door', 'door'],
    ['Ｄｏｏｒ\nno', 'door no'],
    [12, '12'],
    [true, 'true'],
    ['', ''],
    [undefined, ''],
  ])('%j is “%s”', (cell, folded) => {
    expect(foldHeading(cell)).toBe(folded);
  });
});

describe('the header row', () => {
  const blank = (rows: number): SheetCells => Array.from({ length: rows }, () => []);
  const rowOf = (cells: SheetCells) => findSchedule(cells)?.columns;

  it('is looked for in the first thirty rows', () => {
    expect(rowOf([...blank(29), ['Door', 'Keyset']])).toEqual({ headerRow: 29, door: 0, symbol: 1 });
    expect(rowOf([...blank(30), ['Door', 'Keyset']])).toBeUndefined();
    expect(rowOf([])).toBeUndefined();
  });

  it('names a door and one thing more, in words', () => {
    expect(rowOf([['Door']])).toBeUndefined();
    expect(rowOf([['Location', 'Keyset', 'Qty']])).toBeUndefined();
    expect(rowOf([['Keyset', 'Door']])).toEqual({ headerRow: 0, symbol: 0, door: 1 });
    // what stands above numbers doesn't make them headings
    expect(
      rowOf([
        ['Door', 'Keyset', ''],
        [101, 102, 103],
      ]),
    ).toEqual({ headerRow: 0, door: 0, symbol: 1 });
  });

  it('is the one with the most headings, the first of those', () => {
    const two = ['Door', 'Keyset'];
    const three = ['Door', 'Keyset', 'Qty'];
    expect(rowOf([two, ['x'], three])?.headerRow).toBe(2);
    expect(rowOf([three, ['x', 'y'], two])?.headerRow).toBe(0);
    expect(rowOf([two, ['x', 'y'], two])?.headerRow).toBe(0);
  });

  it('gives each column one role, the more particular words first', () => {
    expect(rowOf([['Door', 'Door no', 'Keyset']])).toEqual({ headerRow: 0, door: 1, symbol: 2 });
    expect(rowOf([['Key', 'Keyset', 'Mark']])).toEqual({ headerRow: 0, symbol: 1, door: 2 });
    expect(rowOf([['Door', 'Keyset', 'Keyset']])).toEqual({ headerRow: 0, door: 0, symbol: 1 });
  });

  it('may stand below a group of headings, which reaches to the next', () => {
    const found = findSchedule([
      ['Door', '', 'Cylinder', '', 'Key', ''],
      ['No.', 'Location', 'Type', 'Qty', 'Symbol', 'Qty'],
    ]);
    expect(found?.columns).toEqual({
      headerRow: 1, door: 0, location: 1, type: 2, quantity: 3, symbol: 4, keys: 5,
    }); // prettier-ignore
    expect(found?.headers).toEqual(['No.', 'Location', 'Type', 'Qty', 'Symbol', 'Qty']);
  });

  it('takes no heading from above a number, a blank column or the row’s end', () => {
    expect(
      rowOf([
        ['Keyset', 'Keys', 'Qty'],
        [5, true, '', 'Door', 'Room'],
      ]),
    ).toEqual({ headerRow: 1, door: 3, location: 4, quantity: 2 });
    expect(
      rowOf([
        ['', 'Door', 'Keyset', 'Qty'],
        [' ', 'Hand'],
      ])?.headerRow,
    ).toBe(0);
    expect(
      rowOf([['Cylinder', 'Door', 'Keyset'], [], ['No.', 'Door', 'Keyset', 'Qty']])?.cylinder,
    ).toBeUndefined();
  });

  it('shows headings as they stand, those merged downwards too', () => {
    expect(
      findSchedule([
        [' Door ', 'Cylinder', ''],
        ['', ' Qty ', ' Keys'],
      ])?.headers,
    ).toEqual(['Door', 'Qty', 'Keys']);
  });
});

describe('confirmed columns', () => {
  const columns = { headerRow: 0, door: 1, symbol: 2, remarks: 0 };
  const headers = ['Notes', 'Door', 'Keyset', 'Door'];
  const headings = { door: 'Door', symbol: 'Keyset', remarks: 'Notes' };

  it('keep the headings of their roles and no other', () => {
    expect(headingsOf(columns, headers)).toEqual(headings);
    expect(headingsOf({ headerRow: 0, door: 1, symbol: 9 }, headers)).toEqual({ door: 'Door', symbol: '' });
  });

  it('stay where their heading still stands, though another column has the same', () => {
    expect(recallColumns([['Notes', 'Door', 'Keyset', 'Door']], columns, headings)).toEqual(columns);
    expect(recallColumns([['Door', 'DOOR:', 'Keyset', 'Notes']], columns, headings)).toEqual({
      ...columns,
      remarks: 3,
    });
  });

  it('without a heading stay only while their cell is blank', () => {
    const bare = { ...headings, remarks: '' };
    expect(recallColumns([['', 'Door', 'Keyset']], columns, bare)).toEqual(columns);
    expect(recallColumns([['New', 'Door', 'Keyset', '']], columns, bare)).toBeUndefined();
    expect(recallColumns([['', 'Door', 'Keyset']], columns, {})).toBeUndefined();
  });

  it('are looked for in their row first, then from the top down', () => {
    const head = headers.slice(0, 3);
    expect(recallColumns([head, [], head], { ...columns, headerRow: 2 }, headings)?.headerRow).toBe(2);
    expect(recallColumns([[], head, head], columns, headings)?.headerRow).toBe(1);
    const deep = [...Array.from({ length: 40 }, () => []), head];
    expect(recallColumns(deep, { ...columns, headerRow: 40 }, headings)?.headerRow).toBe(40);
    expect(recallColumns(deep, columns, headings)).toBeUndefined();
    expect(recallColumns([], columns, headings)).toBeUndefined();
  });
});

describe('lines', () => {
  const columns = { headerRow: 0, door: 0, location: 1, symbol: 2, quantity: 3 };
  const head = ['Door', 'Location', 'Keyset', 'Qty'];
  const read = (rows: SheetCells, merged: Parameters<typeof readLines>[2] = []) =>
    readLines([head, ...rows], columns, merged);

  it('take the zone from section headings and pass over blank rows, repeated headings and totals', () => {
    const { lines, totals, sections, findings } = read([
      ['SPORTS HALL', '', '', ''],
      [301, 'Entrance', 'AB1', 1],
      ['', '', '', ''],
      head,
      ['302', 'Hall', 'AB2', '2 pcs'],
      ['', '', 'Total', 3],
      ['WORKSHOPS', '', '', ''],
      ['401', 'Wood', '', ''],
    ]);
    expect(lines.map((l) => [l.door, l.text.zone, l.symbol, l.quantity])).toEqual([
      ['301', 'SPORTS HALL', 'AB1', 1],
      ['302', 'SPORTS HALL', 'AB2', 2],
      ['401', 'WORKSHOPS', '', 1],
    ]);
    expect(sections).toEqual(['SPORTS HALL', 'WORKSHOPS']);
    expect(totals).toEqual([{ row: 6, stated: 3, counted: 3 }]);
    expect(findings).toEqual([]);
  });

  it('tell a lone door number from a heading', () => {
    expect(read([['101'], ['101A'], ['D-12']]).lines.map((l) => l.door)).toEqual(['101', '101A', 'D-12']);
    expect(read([['Level 2'], ['EXTERIOR']]).lines).toEqual([]);
    expect(read([['B2', '', '', '']], [{ row: 1, column: 0, rows: 1, columns: 4 }]).lines).toEqual([]);
  });

  it('carry cells merged downwards, but count their quantity once', () => {
    const { lines } = read(
      [
        ['101', 'Lobby', 'AA1', 2],
        ['', '', 'AA2', ''],
      ],
      [
        { row: 1, column: 0, rows: 2, columns: 1 },
        { row: 1, column: 1, rows: 2, columns: 1 },
        { row: 1, column: 3, rows: 2, columns: 1 },
      ],
    );
    expect(lines.map((l) => [l.door, l.text.location, l.symbol, l.quantity])).toEqual([
      ['101', 'Lobby', 'AA1', 2],
      ['101', 'Lobby', 'AA2', 0],
    ]);
  });

  it('report a keyset without a door, errors, and quantities that are none', () => {
    const { findings, lines } = read([
      ['', 'x', 'AA1', ''],
      ['102', '#REF!', 'AA1', 'two'],
      ['', 'Corridor', '', 2],
    ]);
    expect(findings).toEqual([
      { code: 'no-door', row: 1, role: 'symbol' },
      { code: 'cell-error', row: 2, role: 'location', text: '#REF!' },
      { code: 'not-a-number', row: 2, role: 'quantity', text: 'two' },
      { code: 'no-door', row: 3, role: 'quantity' },
    ]);
    expect(lines).toHaveLength(1);
  });

  it('take an error for no symbol, and a door that shows one for no door', () => {
    const { findings, lines } = read([
      ['101', 'Lobby', '#N/A', 1],
      ['#REF!', 'Store', 'AA2', 1],
    ]);
    expect(findings.map(({ code, ...at }) => [code, 'row' in at && at.row])).toEqual([
      ['cell-error', 1],
      ['cell-error', 2],
    ]);
    expect(lines.map(({ door, symbol }) => [door, symbol])).toEqual([['101', '']]);
  });

  it('are read 5,000 at a time', () => {
    const rows = Array.from({ length: 5000 }, (_, i) => [100 + i, `Room ${i}`, `AA${i + 1}`, 1]);
    expect(read(rows).lines).toHaveLength(5000);
  });
});
