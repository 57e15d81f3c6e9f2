/** Who has which key at the sample's school: posts and firms instead of people, all invented. */
import { dayOf, type Day } from '../keying/calendar.ts';
import type { Holder } from '../keying/ledger.ts';
import type { NewEntry } from '../workbook/index.ts';

const on = (month: number, day: number): Day => dayOf({ year: 2026, month, day })!;

export const SAMPLE_HOLDERS: readonly Holder[] = [
  { name: 'Head of school', department: 'Management' },
  { name: 'School office', department: 'Management' },
  { name: 'Caretaker', department: 'House' },
  { name: 'Cleaning, mornings', department: 'House' },
  { name: 'Sports coach', department: 'Sports' },
  { name: 'Kitchen lead', department: 'Kitchen' },
  { name: 'Workshop technician', department: 'Workshops' },
  { name: 'Library assistant', department: 'Library', left: on(3, 10) },
  { name: 'Choir, Thursdays', department: 'Guests' },
];

/** Invented, with a key that is overdue, one of somebody who left, and a master that is lost. */
export function sampleEntries(system: string): NewEntry[] {
  const issued = (day: Day, holder: string, symbol: string, copy = 1, due?: Day): NewEntry => ({
    event: 'issued',
    day,
    system,
    symbol,
    copy,
    holder,
    givenBy: 'School office',
    signature: 'signed',
    ...(due !== undefined && { due }),
  });
  return [
    issued(on(1, 8), 'Head of school', 'A'),
    issued(on(1, 8), 'Caretaker', 'A', 2),
    issued(on(1, 8), 'School office', 'AA2'),
    issued(on(1, 8), 'School office', 'AA4'),
    issued(on(1, 9), 'Cleaning, mornings', 'AA'),
    issued(on(1, 9), 'Sports coach', 'AB'),
    issued(on(1, 9), 'Kitchen lead', 'AB7'),
    issued(on(1, 12), 'Workshop technician', 'AC'),
    issued(on(1, 12), 'Library assistant', 'AA21'),
    issued(on(2, 5), 'Choir, Thursdays', 'AB1', 2, on(2, 27)),
    issued(on(2, 9), 'Sports coach', 'AB4', 2),
    { event: 'returned', day: on(2, 16), system, symbol: 'AB4', copy: 2, holder: 'Sports coach', hook: '14' },
    issued(on(2, 17), 'Kitchen lead', 'AA1', 3, on(6, 30)),
    { event: 'lost', day: on(3, 6), system, symbol: 'AB', copy: 1, holder: 'Sports coach' },
  ];
}
