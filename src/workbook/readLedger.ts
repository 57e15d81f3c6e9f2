/** Ledger, holders and keys of a book together: what a replay takes, with the cell of every row. */
import type { LedgerInput } from '../keying/ledgerReplay.ts';
import type { LedgerKey } from '../keying/ledger.ts';
import { missingColumns, type ColumnSpec } from './columns.ts';
import { findTable } from './find.ts';
import { fold } from './names.ts';
import type { Place } from './places.ts';
import type { BookReading, KeyRow, Problem, TableReading } from './reading.ts';
import { HOLDER_COLUMNS, HOLDERS_TABLE, readHolders, type HolderRow } from './tableHolders.ts';
import { LEDGER_COLUMNS, LEDGER_TABLE, readLedgerTable, type LedgerRows } from './tableLedger.ts';

export interface LedgerReading extends LedgerInput {
  readonly keys: readonly LedgerKey[];
  /** The row of the sheet Keys behind each of `keys`. */
  readonly keyRows: readonly KeyRow[];
  /** Cell of each of `entries`. */
  readonly places: readonly Place[];
  readonly people: readonly HolderRow[];
  readonly problems: readonly Problem[];
  /** Rows of the ledger that can't be read, and so don't count. */
  readonly unread: number;
  readonly lastNumber: number;
  readonly ledger?: TableReading;
  readonly holdersTable?: TableReading;
}

/** Read once for each reading of the book, since every question asks for it. */
const readings = new WeakMap<BookReading, LedgerReading>();

/** @example readLedger(book).entries → [{ day: 46095, event: 'issued', symbol: 'AA1', copy: 1, … }, …] */
export function readLedger(book: BookReading): LedgerReading {
  let reading = readings.get(book);
  if (!reading) {
    reading = read(book);
    readings.set(book, reading);
  }
  return reading;
}

function read(book: BookReading): LedgerReading {
  const problems: Problem[] = [];
  const holdersTable = usable(book, HOLDERS_TABLE, HOLDER_COLUMNS, problems);
  const ledger = usable(book, LEDGER_TABLE, LEDGER_COLUMNS, problems);
  const holders = holdersTable && readHolders(holdersTable);
  problems.push(...(holders?.problems ?? []));
  const rows: LedgerRows = ledger
    ? readLedgerTable(ledger, systemFinder(book))
    : { rows: [], problems: [], unread: 0, lastNumber: 0 };
  problems.push(...rows.problems);
  const keys = book.systems.flatMap((system) =>
    system.keys.flatMap((row): { readonly key: LedgerKey; readonly row: KeyRow }[] => {
      const { symbol, level, status, copies } = row;
      if (symbol === '' || level === undefined || status === undefined) return [];
      return [
        { row, key: { system: system.name, symbol, level, status, ...(copies !== undefined && { copies }) } },
      ];
    }),
  );
  return {
    entries: rows.rows.map((row) => row.entry),
    places: rows.rows.map((row) => row.at),
    keys: keys.map(({ key }) => key),
    keyRows: keys.map(({ row }) => row),
    ...(holders && { holders: holders.rows }),
    people: holders?.rows ?? [],
    problems,
    unread: rows.unread,
    lastNumber: rows.lastNumber,
    ...(ledger && { ledger }),
    ...(holdersTable && { holdersTable }),
  };
}

function usable(
  book: BookReading,
  name: string,
  columns: readonly ColumnSpec[],
  problems: Problem[],
): TableReading | undefined {
  const table = findTable(book.tables, name);
  if (!table) return undefined;
  const missing = missingColumns(table, columns);
  problems.push(...missing);
  return missing.length > 0 ? undefined : table;
}

/** A row's system by its name; a blank cell means the only system that has such a key. */
function systemFinder(book: BookReading): Parameters<typeof readLedgerTable>[1] {
  const byName = new Map(book.systems.map((system) => [fold(system.name), system.name]));
  const bySymbol = new Map<string, Set<string>>();
  for (const { name, keys } of book.systems)
    for (const { symbol } of keys) {
      const names = bySymbol.get(fold(symbol));
      if (names) names.add(name);
      else bySymbol.set(fold(symbol), new Set([name]));
    }
  return (cell, symbol) => {
    if (cell !== '') return { system: byName.get(fold(cell)) ?? cell };
    const [only] = book.systems;
    if (only && book.systems.length === 1) return { system: only.name };
    const names = [...(bySymbol.get(fold(symbol)) ?? [])];
    if (names.length === 1) return { system: names[0]! };
    return {
      sentence:
        names.length === 0
          ? `No system has a key ${symbol}. Type the name of its system.`
          : `The systems ${names.join(' and ')} both have a key ${symbol}. Type the name of the one that is meant.`,
    };
  };
}
