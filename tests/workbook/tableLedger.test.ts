/** Rows of the sheet Ledger, cell by cell: what each gives, and what is said of one that gives nothing. */
import { describe, expect, it } from 'vitest';
import { dayOf, type Day } from '../../src/keying/calendar.ts';
import type { LedgerEntry } from '../../src/keying/ledger.ts';
import type { CellValue } from '../../src/workbook/reading.ts';
import { ledgerRow, readLedgerTable } from '../../src/workbook/tableLedger.ts';
import { tableOf, told } from './byHand.ts';

const HEADINGS = ['No.', 'Date', 'Time', 'Event', 'System', 'Key', 'Copy', 'Holder', 'Due', 'Given by', 'Taken by', 'Signature', 'Hook', 'Corrects']; // prettier-ignore
type Row = readonly CellValue[];
const day = (month: number, date: number): Day => dayOf({ year: 2026, month, day: date })!;
const ledger = (rows: readonly Row[], headings: readonly string[] = HEADINGS) =>
  readLedgerTable(tableOf('KeyrowLedger', 'Ledger', [headings, ...rows]), (cell, symbol) =>
    cell === '?' ? { sentence: `Which system has ${symbol}?` } : { system: cell || 'School' },
  );

const FULL: Row = [7, '2026-03-14', '09:30', 'Issued', 'Works', 'AA1', 2, 'Porter', '2026-04-01', 'Office', 'Helper', 'Signed', 'H3', 4]; // prettier-ignore
const ENTRY: LedgerEntry = {
  number: 7,
  day: day(3, 14),
  minutes: 570,
  event: 'issued',
  system: 'Works',
  symbol: 'AA1',
  copy: 2,
  holder: 'Porter',
  due: day(4, 1),
  givenBy: 'Office',
  takenBy: 'Helper',
  signature: 'signed',
  hook: 'H3',
  corrects: 4,
};

describe('a row of the ledger', () => {
  it('gives an entry with all that is typed, and only that', () => {
    const read = ledger([FULL, ['', '2026-03-15', '', 'returned', '', 'AA2', 1]]);
    expect(read).toStrictEqual({
      rows: [
        { entry: ENTRY, at: { sheet: 'Ledger', address: 'E5' } },
        {
          entry: { day: day(3, 15), event: 'returned', system: 'School', symbol: 'AA2', copy: 1 },
          at: { sheet: 'Ledger', address: 'E6' },
        },
      ],
      problems: [],
      unread: 0,
      lastNumber: 7,
    });
    // a time that stands with the date counts where the column Time is blank
    expect(ledger([[1, '2026-03-14 08:05', '', 'lost', '', 'A', 1]]).rows[0]!.entry.minutes).toBe(485);
    expect(ledger([[1, '2026-03-14 08:05', '0:00', 'lost', '', 'A', 1]]).rows[0]!.entry.minutes).toBe(0);
  });

  it('takes an event and a signature in the words that people type', () => {
    const words = {
      issued: ['Issued', 'issue', 'Given out'],
      returned: ['returned', 'Return', 'given back'],
      transferred: ['Transferred', 'transfer'],
      lost: ['lost'],
      found: ['found'],
      destroyed: ['destroyed'],
      struck: ['struck'],
    };
    for (const [event, all] of Object.entries(words))
      for (const word of all)
        expect(ledger([['', '2026-03-14', '', word, '', 'A', 1]]).rows[0]!.entry.event).toBe(event);
    const signed = (word: string) =>
      ledger([['', '2026-03-14', '', 'lost', '', 'A', 1, '', '', '', '', word]]).rows[0]!.entry;
    expect(signed('REQUIRED').signature).toBe('required');
    expect(signed('')).not.toHaveProperty('signature');
  });

  it('that gives nothing says why, once, and counts as unread', () => {
    const rows: Row[] = [
      [9, '', '', 'issued', '', 'A', 1],
      [3, '2026-03-14', '', '', '', 'A', 1],
      [2, '2026-03-14', '', 'eaten', '', 'A', 1],
      [1, '2026-03-14', '', 'issued', '', '', 1],
      [1, '2026-03-14', '', 'issued', '', 'A', ''],
      [1, '2026-03-14', '', 'issued', '', 'A', 0],
      [1, '2026-03-14', '', 'issued', '?', 'A', 1],
      [1, '2026-03-14', '', 'issued', '', 'A', 1],
    ];
    const read = ledger(rows);
    expect(read.rows.map(({ at }) => at.address)).toStrictEqual(['E12']);
    expect([read.unread, read.lastNumber]).toStrictEqual([7, 9]);
    expect(told(read.problems)).toStrictEqual([
      'fault Ledger!C5 There is no date here. Type one, year first.',
      'fault Ledger!E7 “eaten” is none of Issued, Returned, Transferred, Lost, Found, Destroyed, Struck.',
      'fault Ledger!H10 “0” is not a whole number from 1 on.',
      'fault Ledger!E6 There is no event here. Type Issued, Returned, Lost or another.',
      'fault Ledger!G8 There is no key here. Type its symbol.',
      'fault Ledger!H9 There is no copy number here. Type the number that is stamped on the key.',
      'fault Ledger!F11 Which system has A?',
    ]);
    expect(
      told(ledger([[0, '2026-03-14', '', 'lost', '', 'A', 1, '', '', '', '', 'maybe', '', 0]]).problems),
    ).toStrictEqual([
      'fault Ledger!B5 “0” is not a whole number from 1 on.',
      'fault Ledger!M5 “maybe” is none of Required, Signed.',
      'fault Ledger!O5 “0” is not a whole number from 1 on.',
    ]);
    expect(ledger([]).lastNumber).toBe(0);
  });

  it('that strikes another needs no key of its own', () => {
    const read = ledger([
      ['', '2026-03-14', '', 'struck', '', '', '', '', '', '', '', '', '', 4],
      ['', '2026-03-14', '', 'struck', 'Works', 'A', 3, '', '', '', '', '', '', 4],
    ]);
    expect(read.problems).toStrictEqual([]);
    const struck = { day: day(3, 14), event: 'struck', corrects: 4 };
    expect(read.rows.map(({ entry }) => entry)).toStrictEqual([
      { ...struck, system: '', symbol: '', copy: 1 },
      { ...struck, system: 'Works', symbol: 'A', copy: 3 },
    ]);
  });

  it('is read where only the needed columns are there', () => {
    const read = ledger([['2026-03-14', 'lost', 'A', 1]], ['Date', 'Event', 'Key', 'Copy']);
    expect(read.rows[0]!.entry).toStrictEqual({
      day: day(3, 14),
      event: 'lost',
      system: 'School',
      symbol: 'A',
      copy: 1,
    });
    const struck = ledger([['2026-03-14', 'struck']], ['Date', 'Event']);
    expect(struck.rows[0]!.entry).toStrictEqual({
      day: day(3, 14),
      event: 'struck',
      system: '',
      symbol: '',
      copy: 1,
    });
    expect(told(ledger([['2026-03-14', 'lost']], ['Date', 'Event']).problems)).toStrictEqual([
      'fault Ledger!B5 There is no key here. Type its symbol.',
    ]);
  });
});

describe('an entry written to the sheet', () => {
  it('has its cells in the order of the columns, and comes back as it was', () => {
    const cells = ledgerRow(ENTRY, 'wet');
    expect(cells).toStrictEqual([...FULL, 'wet']);
    const plain: LedgerEntry = {
      day: day(3, 15),
      event: 'destroyed',
      system: 'School',
      symbol: 'A',
      copy: 1,
    };
    expect(ledgerRow(plain)).toStrictEqual(
      ['', '2026-03-15', '', 'Destroyed', 'School', 'A', 1, '', '', '', '', '', '', '', ''], // prettier-ignore
    );
    // a row that strikes another has no copy, and midnight is a time
    const struck: LedgerEntry = { ...plain, event: 'struck', system: '', symbol: '', minutes: 0, signature: 'required' }; // prettier-ignore
    expect(ledgerRow(struck).slice(2, 7)).toStrictEqual(['00:00', 'Struck', '', '', '']);
    expect(ledgerRow(struck)[11]).toBe('Required');
    for (const [event, shown] of [
      ['returned', 'Returned'],
      ['transferred', 'Transferred'],
      ['lost', 'Lost'],
      ['found', 'Found'],
    ] as const)
      // prettier-ignore
      expect(ledgerRow({ ...plain, event })[3]).toBe(shown);
  });
});
