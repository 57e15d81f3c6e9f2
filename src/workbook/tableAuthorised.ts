/**
 * Sheet `Authorised`: who may sign for a duplicate key of a system, and which of its blanks are restricted. The shop
 * keeps it; the order and the reports name what stands here, and ask where nothing does.
 */
import type { ColumnSpec } from './columns.ts';
import { neededText, readRows, textField } from './fields.ts';
import { findTable } from './find.ts';
import { sameName, TABLES } from './names.ts';
import type { Place } from './places.ts';
import type { WritePlan } from './plan.ts';
import { appendOrCreate } from './planRows.ts';
import { PlanBuilder } from './planTable.ts';
import type { BookReading } from './reading.ts';

export const AUTHORISED_COLUMNS: readonly ColumnSpec[] = [
  { heading: 'System', format: 'text', width: 18, needed: true },
  { heading: 'May sign', format: 'text', width: 26, needed: true },
  { heading: 'Function', format: 'text', width: 22 },
  { heading: 'For keys', format: 'text', width: 16 },
  { heading: 'Restricted blank', format: 'text', width: 18 },
  { heading: 'From', format: 'text', width: 12 },
  { heading: 'Until', format: 'text', width: 12 },
  { heading: 'Note', format: 'text', width: 28 },
];

const FIELDS = {
  system: { heading: 'System', schema: neededText('system name') },
  name: { heading: 'May sign', schema: textField },
  role: { heading: 'Function', schema: textField },
  keys: { heading: 'For keys', schema: textField },
  blank: { heading: 'Restricted blank', schema: textField },
};

export interface Authorised {
  readonly system: string;
  readonly name: string;
  readonly role: string;
  /** Keys that they may sign for, as the shop wrote it; '' = all. */
  readonly keys: string;
  /** Blanks that are sold only against such a signature; '' = none named. */
  readonly blank: string;
  readonly at: Place;
}

/** All rows of a system; of every system when none is named. */
export function readAuthorised(book: BookReading, system?: string): Authorised[] {
  const table = findTable(book.tables, TABLES.Authorised);
  if (!table) return [];
  return readRows(table, FIELDS)
    .rows.map(({ values, at }) => ({
      system: values.system ?? '',
      name: values.name ?? '',
      role: values.role ?? '',
      keys: values.keys ?? '',
      blank: values.blank ?? '',
      at: at('system'),
    }))
    .filter((row) => system === undefined || sameName(row.system, system));
}

/** Adds a row, and the sheet where there is none yet. */
export function planAuthorised(
  book: BookReading,
  person: { readonly system: string; readonly name: string; readonly role: string; readonly blank: string },
  made: string,
): WritePlan {
  const builder = new PlanBuilder(book);
  if (person.name.trim() === '') builder.conflict('Nobody is named. Type who may sign.');
  appendOrCreate(builder, findTable(book.tables, TABLES.Authorised), {
    table: TABLES.Authorised,
    sheet: 'Authorised',
    title: 'Who may sign for duplicates',
    line: `One row a person and system. “For keys” left blank means all of them. First written ${made}.`,
    columns: AUTHORISED_COLUMNS,
    rows: [[person.system, person.name.trim(), person.role.trim(), '', person.blank.trim(), made, '', '']],
    frozen: 2,
  });
  return builder.plan(`Record who may sign for ${person.system}`);
}

/** @example 'Duplicates are signed for by the head of school.' */
export function authorisedSentence(people: readonly Authorised[]): string {
  const names = people.filter((p) => p.name !== '').map((p) => (p.role ? `${p.name} (${p.role})` : p.name));
  const blanks = [...new Set(people.map((p) => p.blank).filter((b) => b !== ''))];
  const who =
    names.length === 0
      ? 'Nobody is recorded who may sign for duplicates.'
      : `Duplicates are signed for by ${names.join(', ')}.`;
  return blanks.length === 0 ? who : `${who} Restricted blank: ${blanks.join(', ')}.`;
}
