/** Rows for the ledger as plans: their numbers, the holders that come with them, and rows that can't be right. */
import { describe, expect, it } from 'vitest';
import type { Day } from '../../src/keying/calendar.ts';
import type { BookReading } from '../../src/workbook/index.ts';
import { namesOf, planCorrection, planLedger, type NewEntry } from '../../src/workbook/planLedger.ts';
import { HOLDER_COLUMNS } from '../../src/workbook/tableHolders.ts';
import { LEDGER_COLUMNS } from '../../src/workbook/tableLedger.ts';
import { bookWith, carriedOut, lineOf, read, rowsOf, sentences, standing, systemBook } from './plainBook.ts';
import { school } from '../workbook/school.ts';

/** Excel’s day 46095 is 14 March 2026: 25569 is 1 January 1970, and 56 years and 72 days lie between. */
const DAY = 46_095 as Day;
const MADE = '14 Mar 2026';
const issue = (copy: number, more: Partial<NewEntry> = {}): NewEntry => ({
  event: 'issued',
  system: 'School',
  symbol: 'AA1',
  copy,
  holder: 'Caretaker',
  day: DAY,
  ...more,
});

const made = school();
const BOOK = systemBook({
  ...made,
  system: { ...made.system, keys: made.system.keys.map((key) => ({ ...key, status: 'issued' })) },
});
const planned = (
  entries: readonly NewEntry[],
  book: BookReading = BOOK,
  names: readonly string[] = ['Caretaker'],
) => planLedger(book, { made: MADE, title: 'Issue', entries, holders: names.map((name) => ({ name })) });
/** The ledger with AA1 / 1 given to the caretaker. */
const GIVEN = carriedOut(BOOK, planned([issue(1)]));
const numbers = (rows: readonly (readonly unknown[])[]) => rows.map(([number]) => number);

describe('the first row of a ledger', () => {
  it('brings both sheets along', () => {
    const plan = planned([issue(1, { note: 'for the week' })]);
    expect(plan).toMatchObject({ title: 'Issue', conflicts: [] });
    expect(lineOf(plan, 'Ledger', 0)).toEqual(['Key ledger']);
    expect(lineOf(plan, 'Ledger', 1).join()).toMatch(/corrects\. First written 14 Mar 2026\.$/);
    expect(lineOf(plan, 'Holders', 0)).toEqual(['Key holders']);
    expect(lineOf(plan, 'Holders', 1).join()).toMatch(/Personal data.* First written 14 Mar 2026\.$/);
    expect(rowsOf(plan, 'Holders')).toEqual([['Caretaker', '', '', '', '']]);
    expect(rowsOf(plan, 'Ledger')).toEqual([
      [
        1,
        '2026-03-14',
        '',
        'Issued',
        'School',
        'AA1',
        1,
        'Caretaker',
        '',
        '',
        '',
        '',
        '',
        '',
        'for the week',
      ],
    ]);
    const layouts = plan.steps.flatMap((step) =>
      step.kind === 'layout' ? [step.layout.freeze.columns] : [],
    );
    expect(layouts).toEqual([1, 2]);
  });

  it('may be none: the sheets are added all the same', () => {
    const plan = planLedger(BOOK, { made: MADE, title: 'Begin', entries: [] });
    expect(plan.effects).toMatchObject([
      { kind: 'sheet', sheet: 'Holders', rows: 0 },
      { kind: 'sheet', sheet: 'Ledger', rows: 0 },
    ]);
  });
});

describe('further rows', () => {
  it('are numbered on from the last', () => {
    const plan = planned([issue(2), issue(3)], GIVEN);
    expect(plan.effects).toEqual([{ kind: 'rows', sheet: 'Ledger', rows: 2, what: 'rows added' }]);
    const after = carriedOut(GIVEN, plan);
    const ledger = after.tables.find(({ name }) => name === 'KeyrowLedger')!;
    expect(numbers(ledger.values)).toEqual([1, 2, 3]);
  });

  it('add a holder once, where there is none of that name', () => {
    const plan = planned([], GIVEN, ['caretaker ', ' ', 'Nurse', 'nurse', 'Cook']);
    expect(plan.effects).toEqual([{ kind: 'rows', sheet: 'Holders', rows: 2, what: 'rows added' }]);
    expect(carriedOut(GIVEN, plan).tables.find(({ name }) => name === 'KeyrowHolders')!.values.map(([name]) => name)).toEqual(['Caretaker', 'Nurse', 'Cook']); // prettier-ignore
    expect(planned([], GIVEN)).toMatchObject({ steps: [], effects: [], conflicts: [] });
  });

  it('are not barred by a sheet that they don’t touch', () => {
    const filtered = (name: string): BookReading => ({
      ...GIVEN,
      tables: GIVEN.tables.map((t) => (t.name === name ? { ...t, filtered: true } : t)),
    });
    expect(planned([issue(2)], filtered('KeyrowHolders')).conflicts).toEqual([]);
    expect(planned([issue(2)], filtered('KeyrowLedger')).conflicts).toHaveLength(1);
    expect(planned([], filtered('KeyrowLedger'), ['Cook']).conflicts).toEqual([]);
    expect(planned([], filtered('KeyrowHolders'), ['Cook']).conflicts).toHaveLength(1);
  });

  it('that can’t be right are refused: a copy given out twice, or one that was never cut', () => {
    const twice = planned([issue(1, { holder: 'Nurse' })], GIVEN, ['Nurse']);
    expect(twice.steps).toEqual([]);
    expect(twice.conflicts).toHaveLength(1);
    expect(twice.conflicts[0]!.sentence).toMatch(/AA1 \/ 1/);
    // three copies of AA1 were cut
    expect(planned([issue(4)], GIVEN).conflicts).toHaveLength(1);
    expect(planned([issue(3)], GIVEN).conflicts).toEqual([]);
    const stranger = planned([issue(3, { holder: 'Nobody' })], GIVEN);
    expect(stranger.conflicts).toMatchObject([
      { sentence: expect.stringMatching(/^Nobody is not in/) as string },
    ]);
  });

  it('are refused at the row that they make wrong', () => {
    // AA1 / 1 stands as given out on the 14th; now it is said to have been given out the day before already
    const { conflicts } = planned([issue(1, { holder: 'Nurse', day: (DAY - 1) as Day })], GIVEN, ['Nurse']);
    expect(conflicts).toHaveLength(1);
    expect(conflicts[0]!.at).toMatchObject({ sheet: 'Ledger' });
  });

  it('are not refused for a fault that stood there before', () => {
    const rows = [
      LEDGER_COLUMNS.map(({ heading }) => heading),
      [1, '2026-03-14', '', 'Issued', 'School', 'AA1', 1, 'Caretaker', '', '', '', '', '', '', ''],
      [2, '2026-03-14', '', 'Issued', 'School', 'AA1', 1, 'Nurse', '', '', '', '', '', '', ''],
    ];
    const ledger = standing('KeyrowLedger', 'Ledger', rows);
    const people = standing('KeyrowHolders', 'Holders', [HOLDER_COLUMNS.map(({ heading }) => heading), ['Caretaker', '', '', '', ''], ['Nurse', '', '', '', '']]); // prettier-ignore
    const faulty = read({
      ...BOOK,
      tables: [...BOOK.tables, ledger.table, people.table],
      sheets: [...BOOK.sheets, ledger.sheet, people.sheet],
    });
    expect(planned([issue(2)], faulty).conflicts).toEqual([]);
    expect(planned([issue(2), issue(2, { holder: 'Nurse' })], faulty).conflicts).toHaveLength(1);
  });

  it('need the columns of both sheets', () => {
    const lost = (name: string, heading: string) => ({
      ...GIVEN,
      tables: GIVEN.tables.map((t) =>
        t.name === name ? { ...t, headers: t.headers.map((h) => (h === heading ? 'Other' : h)) } : t,
      ),
    });
    const sentence = (table: string, heading: string) => [
      `The table ${table} has no column “${heading}”. Add it, or give the renamed column its name back.`,
    ];
    const ledger = planned([issue(2)], lost('KeyrowLedger', 'Copy'));
    expect([ledger.title, sentences(ledger)]).toEqual(['Issue', sentence('KeyrowLedger', 'Copy')]);
    expect(ledger.conflicts[0]!.at).toMatchObject({ sheet: 'Ledger', address: 'A4' });
    expect(sentences(planned([], lost('KeyrowHolders', 'Holder')))).toEqual(
      sentence('KeyrowHolders', 'Holder'),
    );
    expect(planned([issue(2)], lost('KeyrowHolders', 'Contact')).conflicts).toEqual([]);
  });
});

describe('a correction', () => {
  it('is a further row that names the one it stands for', () => {
    const plan = planCorrection(GIVEN, { made: MADE, number: 1, entry: issue(2) });
    expect(plan).toMatchObject({ title: 'Correct number 1', conflicts: [] });
    const ledger = carriedOut(GIVEN, plan).tables.find(({ name }) => name === 'KeyrowLedger')!;
    expect([ledger.values[1]![0], ledger.values[1]![13]]).toEqual([2, 1]);
  });

  it('needs the row that it corrects', () => {
    const plan = planCorrection(GIVEN, { made: MADE, number: 9, entry: issue(2) });
    expect([plan.title, sentences(plan)]).toEqual([
      'Correct number 9',
      ['There is no row number 9 in the ledger. Check the number.'],
    ]);
    expect(planCorrection(bookWith(), { made: MADE, number: 1, entry: issue(1) }).conflicts).toHaveLength(1);
  });
});

it('several keys are told by three of them', () => {
  const copies = (count: number) => Array.from({ length: count }, (_, i) => ({ symbol: 'AA1', copy: i + 1 }));
  expect(namesOf(copies(2))).toBe('AA1 / 1, AA1 / 2');
  expect(namesOf(copies(3))).toBe('AA1 / 1, AA1 / 2, AA1 / 3');
  expect(namesOf(copies(5))).toBe('AA1 / 1, AA1 / 2, AA1 / 3 and 2 more');
});
