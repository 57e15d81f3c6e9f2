/**
 * A house of six doors whose keys differ in their first cut alone, so that what opens what is plain: a key opens a
 * door where its first cut stands in the door's first chamber.
 */
import { dayOf, type Day } from '../../src/keying/calendar.ts';
import type { BookReading, CellValue, TableReading } from '../../src/workbook/reading.ts';
import { bookOf, tableOf } from './byHand.ts';

export const day = (month: number, date: number): Day => dayOf({ year: 2026, month, day: date })!;

const key = (first: number, symbol: string, ...rest: readonly CellValue[]): readonly CellValue[] => [
  'House',
  symbol,
  `${first}12345`,
  ...rest,
];
/** Level, parent, status, copies; copy 1 of A2 was cut to the bitting that is retired. */
const KEYS = [
  key(0, 'A', 'MK', '', 'issued', 2),
  key(1, 'A1', 'CK', 'A', 'issued', 3),
  key(4, 'A2', 'CK', 'A', 'retired', 1),
  key(2, 'A2', 'CK', 'A', 'issued', 2),
  key(3, 'A3', 'CK', 'A', 'issued', 1),
  key(5, 'S9', 'single', '', 'reserved', ''),
];
const door = (id: string, name: string, symbol: string, first: string): readonly CellValue[] => [
  'House',
  id,
  name,
  symbol,
  first,
  ...['1', '2', '3', '4', '5'],
];
const DOORS = [
  door('C1', '101', 'A1', '0 1'),
  door('C2', '102', 'A2', '0 2 4'),
  door('C3', '', 'A1', '0 1 2'),
  door('C4', '103', 'A2', '9'),
  door('C5', '104', 'A3', '3'),
  door('C6', '105', 'A1', '0 1 5'),
];

/** Date, event, key, copy, holder, due. */
export const EVENTS: readonly (readonly CellValue[])[] = [
  ['2026-02-01', 'issued', 'A2', 1, 'Cook', ''],
  ['2026-03-01', 'issued', 'A', 1, 'porter', '2026-06-30'],
  ['2026-03-02', 'issued', 'A1', 1, 'Nurse', '2026-03-20'],
  ['2026-03-03', 'issued', 'A1', 2, 'Guest', ''],
  ['2026-03-10', 'lost', 'A1', 2, 'Guest', ''],
  ['2026-03-11', 'issued', 'A2', 2, 'Nurse', ''],
  ['2026-03-12', 'issued', 'A', 2, '', ''],
];
const PEOPLE = [
  ['Porter', 'Gate', ''],
  ['Nurse', 'Ward', ''],
  ['Cook', 'Kitchen', '2026-03-15'],
  ['Zoe', '', ''],
];

export function house(
  events: readonly (readonly CellValue[])[] = EVENTS,
  ...more: readonly TableReading[]
): BookReading {
  const chambers = [1, 2, 3, 4, 5, 6].map((c) => `Ch ${c}`);
  return bookOf(
    tableOf('KeyrowSystems', 'Systems', [
      ['System', 'Spec'],
      ['House', 'S-018-6'],
    ]),
    tableOf('KeyrowKeys', 'Keys', [
      ['System', 'Symbol', 'Bitting', 'Level', 'Parent', 'Status', 'Copies'],
      ...KEYS,
    ]),
    tableOf('KeyrowCylinders', 'Cylinders', [
      ['System', 'Cylinder', 'Door', 'Symbol', ...chambers],
      ...DOORS,
    ]),
    tableOf('KeyrowLedger', 'Ledger', [['Date', 'Event', 'Key', 'Copy', 'Holder', 'Due'], ...events]),
    tableOf('KeyrowHolders', 'Holders', [['Holder', 'Department', 'Left on'], ...PEOPLE]),
    ...more,
  );
}
