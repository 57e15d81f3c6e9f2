/**
 * Rows for the ledger and names for the list of holders, as plans that only ever add. Before a plan is offered the
 * ledger is replayed with the new rows in it: one that can't be right (a key given out twice, a copy that doesn't
 * exist) is a conflict, and nothing is written.
 */
import { copyName, type Holder, type LedgerEntry } from '../keying/ledger.ts';
import { ledgerSeverity } from '../keying/ledgerFindings.ts';
import { replayLedger } from '../keying/ledgerReplay.ts';
import { sayLedger } from '../keying/ledgerWording.ts';
import type { Day } from '../keying/calendar.ts';
import { missingColumns } from './columns.ts';
import { findTable } from './find.ts';
import { fold } from './names.ts';
import type { WritePlan } from './plan.ts';
import { appendOrCreate } from './planRows.ts';
import { PlanBuilder, type TableContent } from './planTable.ts';
import { readLedger } from './readLedger.ts';
import type { BookReading, Problem } from './reading.ts';
import { HOLDER_COLUMNS, HOLDERS_TABLE, holderRow } from './tableHolders.ts';
import { LEDGER_COLUMNS, LEDGER_TABLE, ledgerRow } from './tableLedger.ts';

/** A row to be added; its number is given by the plan. */
export type NewEntry = Omit<LedgerEntry, 'number'> & { readonly note?: string };

export interface LedgerPlanInput {
  /** Date as it shall stand in a sheet's line: the room knows no clock. */
  readonly made: string;
  readonly title: string;
  readonly entries: readonly NewEntry[];
  /** Added to Holders where no holder of that name is there. */
  readonly holders?: readonly Holder[];
}

/**
 * Adds rows to the ledger, and the sheets where they are missing.
 * @example describePlan(planLedger(book, { made, title: 'Issue', entries: [issue] })).sentence
 *   → 'Adds 1 row to Ledger; touches nothing else.'
 */
export function planLedger(book: BookReading, input: LedgerPlanInput): WritePlan {
  const builder = new PlanBuilder(book);
  const reading = readLedger(book);
  for (const table of [HOLDERS_TABLE, LEDGER_TABLE])
    for (const lost of columnsLost(book, table)) builder.conflict(lost.sentence, lost);
  if (builder.conflicts.length > 0) return builder.plan(input.title);
  const known = new Set(reading.people.map((holder) => fold(holder.name)));
  const added: Holder[] = [];
  for (const holder of input.holders ?? []) {
    if (holder.name.trim() === '' || known.has(fold(holder.name))) continue;
    known.add(fold(holder.name));
    added.push(holder);
  }
  if (added.length > 0 || !reading.holdersTable)
    appendOrCreate(builder, reading.holdersTable, holdersContent(input.made, added));
  const entries = input.entries.map((entry, i) => ({ ...entry, number: reading.lastNumber + 1 + i }));
  if (entries.length > 0 || !reading.ledger)
    appendOrCreate(builder, reading.ledger, {
      table: LEDGER_TABLE,
      sheet: 'Ledger',
      title: 'Key ledger',
      line: `One row an event of one copy of a key; nothing is changed afterwards, a mistake is corrected by a further row that names the number it corrects. First written ${input.made}.`,
      columns: LEDGER_COLUMNS,
      rows: entries.map((entry) => ledgerRow(entry, entry.note)),
      frozen: 2,
    });
  reportContradictions(builder, entries, [...reading.people, ...added]);
  return builder.plan(input.title);
}

/** Columns without which a table can be neither read nor added to. */
function columnsLost(book: BookReading, name: string): Problem[] {
  const table = findTable(book.tables, name);
  return table ? missingColumns(table, name === LEDGER_TABLE ? LEDGER_COLUMNS : HOLDER_COLUMNS) : [];
}

const holdersContent = (made: string, holders: readonly Holder[]): TableContent => ({
  table: HOLDERS_TABLE,
  sheet: 'Holders',
  title: 'Key holders',
  line: `Everybody that keys are given to. Personal data: it stays in this workbook, and it goes when it is no longer needed. First written ${made}.`,
  columns: HOLDER_COLUMNS,
  rows: holders.map(holderRow),
  frozen: 1,
});

/** Faults that the new rows would bring into the ledger. */
function reportContradictions(
  builder: PlanBuilder,
  entries: readonly LedgerEntry[],
  holders: readonly Holder[],
): void {
  const reading = readLedger(builder.book);
  const all = [...reading.entries, ...entries];
  const last = all.reduce((latest, { day }) => Math.max(latest, day), 0) as Day;
  const known = replayLedger(reading, last).findings.map(sayLedger);
  for (const finding of replayLedger({ ...reading, entries: all, holders }, last).findings) {
    if (ledgerSeverity(finding) !== 'fault') continue;
    const at = reading.places[finding.entry];
    const sentence = sayLedger(finding);
    // a fault that stands there already is no reason to refuse a row that has nothing to do with it
    if (at && known.includes(sentence)) continue;
    builder.conflict(sentence, at);
  }
}

/** A row that stands for another one, or strikes it. The row itself stays as it is. */
export function planCorrection(
  book: BookReading,
  input: { readonly made: string; readonly number: number; readonly entry: Omit<NewEntry, 'corrects'> },
): WritePlan {
  const { made, number, entry } = input;
  const title = `Correct number ${number}`;
  const there = readLedger(book).entries.some((row) => row.number === number);
  if (!there) {
    const builder = new PlanBuilder(book);
    builder.conflict(`There is no row number ${number} in the ledger. Check the number.`);
    return builder.plan(title);
  }
  return planLedger(book, { made, title, entries: [{ ...entry, corrects: number }] });
}

/** How plans and receipts speak of several keys. @example 'AA1 / 2, AA1 / 3 and 4 more' */
export function namesOf(copies: readonly { readonly symbol: string; readonly copy: number }[]): string {
  const shown = copies.slice(0, 3).map((c) => copyName(c.symbol, c.copy));
  return copies.length > 3 ? `${shown.join(', ')} and ${copies.length - 3} more` : shown.join(', ');
}
