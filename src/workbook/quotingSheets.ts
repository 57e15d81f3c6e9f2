/**
 * Sheets that quote a bitting somewhere, the shop's own and derived ones: every cell of every sheet is compared with
 * the bittings of our tables. A code that stands in none of them can't be told from a number, and is not found.
 */
import { givesAway } from '../keying/secrecy.ts';
import { sameName } from './names.ts';
import type { BookReading } from './reading.ts';
import { readScheduleSheet } from './schedule.ts';
import { secretsIn, secretSheets } from './secretCells.ts';

export interface QuotingSheet {
  readonly sheet: string;
  readonly cells: number;
}

/** Sheets beside those that hold bittings by their kind. @example → [{ sheet: 'Old codes', cells: 2 }] */
export async function readQuotingSheets(book: BookReading): Promise<QuotingSheet[]> {
  const secrets = secretsIn(book);
  const known = secretSheets(book);
  const found: QuotingSheet[] = [];
  if (secrets.codes.size === 0) return found;
  for (const { name } of book.sheets) {
    if (known.some((sheet) => sameName(sheet, name))) continue;
    const read = await readScheduleSheet(name);
    if (!read.ok) continue;
    const cells = read.value.values.flat().filter((cell) => givesAway(secrets, String(cell)));
    if (cells.length > 0) found.push({ sheet: name, cells: cells.length });
  }
  return found;
}
