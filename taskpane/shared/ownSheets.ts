/** Sheets of the shop's own: visible ones that hold no table of ours. */
import type { BookReading } from '../../src/workbook/index.ts';

export function ownSheets(book: Pick<BookReading, 'tables' | 'sheets'> | undefined): string[] {
  const ours = new Set((book?.tables ?? []).map((table) => table.sheet));
  return (book?.sheets ?? []).filter((s) => s.visible && !ours.has(s.name)).map((s) => s.name);
}
