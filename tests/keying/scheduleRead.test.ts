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

  it('are read 5,000 at a time', () => {
    const rows = Array.from({ length: 5000 }, (_, i) => [100 + i, `Room ${i}`, `AA${i + 1}`, 1]);
    expect(read(rows).lines).toHaveLength(5000);
  });
});
