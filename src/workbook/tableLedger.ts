/** Sheet `Ledger`: one row an event of one copy of a key. Rows are added and never changed. */
import { formatDay, formatMinutes } from '../keying/calendar.ts';
import type { LedgerEntry, LedgerEvent, Signature } from '../keying/ledger.ts';
import type { ColumnSpec } from './columns.ts';
import { dayField, neededDay, timeField } from './dateFields.ts';
import { countField, readRows, textField, wordField, type ReadRow } from './fields.ts';
import type { CellInput } from './plan.ts';
import type { Place } from './places.ts';
import type { Problem, TableReading } from './reading.ts';

export const LEDGER_TABLE = 'KeyrowLedger';

export const LEDGER_COLUMNS = [
  { heading: 'No.', format: 'general', width: 7 },
  { heading: 'Date', format: 'text', width: 12, needed: true },
  { heading: 'Time', format: 'text', width: 8 },
  { heading: 'Event', format: 'text', width: 12, needed: true },
  { heading: 'System', format: 'text', width: 16 },
  { heading: 'Key', format: 'text', width: 10, needed: true },
  { heading: 'Copy', format: 'general', width: 8, needed: true },
  { heading: 'Holder', format: 'text', width: 26 },
  { heading: 'Due', format: 'text', width: 12 },
  { heading: 'Given by', format: 'text', width: 18 },
  { heading: 'Taken by', format: 'text', width: 18 },
  { heading: 'Signature', format: 'text', width: 13 },
  { heading: 'Hook', format: 'text', width: 10 },
  { heading: 'Corrects', format: 'general', width: 12 },
  { heading: 'Note', format: 'text', width: 28 },
] as const satisfies readonly ColumnSpec[];

const EVENT_WORDS: Readonly<Record<string, LedgerEvent>> = {
  issued: 'issued',
  issue: 'issued',
  'given out': 'issued',
  returned: 'returned',
  return: 'returned',
  'given back': 'returned',
  transferred: 'transferred',
  transfer: 'transferred',
  lost: 'lost',
  found: 'found',
  destroyed: 'destroyed',
  struck: 'struck',
};
export const EVENT_SHOWN: Readonly<Record<LedgerEvent, string>> = {
  issued: 'Issued',
  returned: 'Returned',
  transferred: 'Transferred',
  lost: 'Lost',
  found: 'Found',
  destroyed: 'Destroyed',
  struck: 'Struck',
};
const SIGNATURE_WORDS: Readonly<Record<string, Signature | ''>> = { required: 'required', signed: 'signed' };
const SIGNATURE_SHOWN: Readonly<Record<Signature, string>> = { required: 'Required', signed: 'Signed' };

const FIELDS = {
  number: { heading: 'No.', schema: countField(undefined, 1) },
  date: { heading: 'Date', schema: neededDay },
  time: { heading: 'Time', schema: timeField },
  event: {
    heading: 'Event',
    schema: wordField<LedgerEvent | ''>(EVENT_WORDS, Object.values(EVENT_SHOWN), ''),
  },
  system: { heading: 'System', schema: textField },
  symbol: { heading: 'Key', schema: textField },
  copy: { heading: 'Copy', schema: countField(undefined, 1) },
  holder: { heading: 'Holder', schema: textField },
  due: { heading: 'Due', schema: dayField },
  givenBy: { heading: 'Given by', schema: textField },
  takenBy: { heading: 'Taken by', schema: textField },
  signature: {
    heading: 'Signature',
    schema: wordField<Signature | ''>(SIGNATURE_WORDS, Object.values(SIGNATURE_SHOWN), ''),
  },
  hook: { heading: 'Hook', schema: textField },
  corrects: { heading: 'Corrects', schema: countField(undefined, 1) },
};

export interface LedgerRow {
  readonly entry: LedgerEntry;
  readonly at: Place;
}

export interface LedgerRows {
  readonly rows: readonly LedgerRow[];
  readonly problems: readonly Problem[];
  /** Rows that could not be read, and so don't count. */
  readonly unread: number;
  /** Highest number that any row has, read or not. */
  readonly lastNumber: number;
}

/** `systemOf` gives the system that a row's cell and symbol mean, or a sentence on why none can be told. */
export function readLedgerTable(
  table: TableReading,
  systemOf: (cell: string, symbol: string) => { readonly system: string } | { readonly sentence: string },
): LedgerRows {
  const { rows, problems } = readRows(table, FIELDS);
  const all = [...problems];
  const found = rows.flatMap((read): LedgerRow[] => {
    const entry = entryOf(read, systemOf, all);
    return entry ? [{ entry, at: read.at('event') }] : [];
  });
  return {
    rows: found,
    problems: all,
    unread: rows.length - found.length,
    lastNumber: rows.reduce((most, { values }) => Math.max(most, values.number ?? 0), 0),
  };
}

function entryOf(
  { values: v, at }: ReadRow<typeof FIELDS>,
  systemOf: Parameters<typeof readLedgerTable>[1],
  problems: Problem[],
): LedgerEntry | undefined {
  const fault = (field: keyof typeof FIELDS, sentence: string): undefined => {
    problems.push({ ...at(field), severity: 'fault', sentence });
    return undefined;
  };
  const { date, event, copy } = v;
  if (event === '') return fault('event', 'There is no event here. Type Issued, Returned, Lost or another.');
  if (!date || event === undefined) return undefined;
  const minutes = v.time ?? date.minutes;
  const rest = {
    day: date.day,
    event,
    ...(v.number !== undefined && { number: v.number }),
    ...(minutes !== undefined && { minutes }),
    ...(v.holder && { holder: v.holder }),
    ...(v.due && { due: v.due.day }),
    ...(v.givenBy && { givenBy: v.givenBy }),
    ...(v.takenBy && { takenBy: v.takenBy }),
    ...(v.signature && { signature: v.signature }),
    ...(v.hook && { hook: v.hook }),
    ...(v.corrects !== undefined && { corrects: v.corrects }),
  };
  const symbol = v.symbol ?? '';
  // a row that only strikes another needs no key of its own
  if (event === 'struck') return { ...rest, system: v.system ?? '', symbol, copy: copy ?? 1 };
  if (symbol === '') return fault('symbol', 'There is no key here. Type its symbol.');
  if (copy === undefined)
    return problems.some((p) => p.address === at('copy').address)
      ? undefined
      : fault('copy', 'There is no copy number here. Type the number that is stamped on the key.');
  const named = systemOf(v.system ?? '', symbol);
  if ('sentence' in named) return fault('system', named.sentence);
  return { ...rest, system: named.system, symbol, copy };
}

/** The cells of a row in the order of `LEDGER_COLUMNS`. */
export const ledgerRow = (entry: LedgerEntry, note = ''): CellInput[] => [
  entry.number ?? '',
  formatDay(entry.day),
  entry.minutes === undefined ? '' : formatMinutes(entry.minutes),
  EVENT_SHOWN[entry.event],
  entry.system,
  entry.symbol,
  entry.symbol === '' ? '' : entry.copy,
  entry.holder ?? '',
  entry.due === undefined ? '' : formatDay(entry.due),
  entry.givenBy ?? '',
  entry.takenBy ?? '',
  entry.signature ? SIGNATURE_SHOWN[entry.signature] : '',
  entry.hook ?? '',
  entry.corrects ?? '',
  note,
];
