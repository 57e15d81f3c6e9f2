/** Where this workbook holds bittings: the sheets, and the bittings themselves, to be kept out of what leaves the shop. */
import { secretsOf, type Secrets } from '../keying/secrecy.ts';
import { columnOf } from './columns.ts';
import { findTable } from './find.ts';
import { sameName, TABLES } from './names.ts';
import type { BookReading } from './reading.ts';

/** Columns with whole bittings, by table. */
const BITTING_COLUMNS: readonly (readonly [table: string, heading: string])[] = [
  [TABLES.Keys, 'Bitting'],
  [TABLES.Systems, 'Top master'],
  [TABLES.Cylinders, 'Control'],
  [TABLES.Construction, 'Bitting'],
];

/** Every bitting that stands in our tables, readable or not. */
export function bittingsIn(book: BookReading): string[] {
  return BITTING_COLUMNS.flatMap(([name, heading]) => {
    const table = findTable(book.tables, name);
    const column = table ? columnOf(table, heading) : -1;
    return column < 0 ? [] : table!.values.map((row) => String(row[column] ?? ''));
  }).filter((text) => text.trim() !== '');
}

export const secretsIn = (book: BookReading): Secrets => secretsOf(bittingsIn(book));

/** Tables whose sheets hold bittings, or depths from which bittings follow; cutting jobs besides. */
const SECRET_TABLES: readonly string[] = [
  TABLES.Keys,
  TABLES.Systems,
  TABLES.Cylinders,
  TABLES.Pinning,
  TABLES.ShopDoors,
  TABLES.ShopKeys,
  TABLES.Pictures,
  TABLES.Array,
  TABLES.Construction,
];

/** Sheets of ours that hold bittings, in the order of the workbook. */
export function secretSheets(book: BookReading): string[] {
  const secret = (table: string): boolean =>
    SECRET_TABLES.some((name) => sameName(name, table)) || /^keyrowcutting\d*$/i.test(table);
  const homes = new Set(book.tables.filter((table) => secret(table.name)).map((table) => table.sheet));
  return book.sheets.map((sheet) => sheet.name).filter((name) => homes.has(name));
}
