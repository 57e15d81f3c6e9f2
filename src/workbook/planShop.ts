/** The shop's own tables, added empty: headings and a line that says what belongs there. */
import { findTable } from './find.ts';
import { TABLES } from './names.ts';
import type { WritePlan } from './plan.ts';
import { createSheet, PlanBuilder } from './planTable.ts';
import type { BookReading } from './reading.ts';
import { SHOP_COLUMNS, SHOP_TABLES, type ShopTable } from './tableShop.ts';

const LINES: Readonly<Record<ShopTable, readonly [title: string, line: string]>> = {
  Cutters: [
    'Cutters',
    'One row a cutter that you have: its flat at the tip and its included angle in degrees, as measured. Unit in or mm.',
  ],
  Setups: [
    'Set-ups',
    'One row a spec: the cutter that you cut it with, how the key is held in the vice and what it is stopped against.',
  ],
  Blanks: [
    'Blanks',
    'One row a blank: the keyways that it enters and blanks that may be taken instead, separated by commas; the most cuts it has room for.',
  ],
  Pins: [
    'Pins',
    'One row a size of your pin kit. Kind is bottom, master, build-up, top, or any. Lengths as measured; unit in or mm.',
  ],
};

/** Adds those of the four tables that the workbook lacks. Tables that are there are never touched. */
export function planShop(book: BookReading, wanted: readonly ShopTable[] = SHOP_TABLES): WritePlan {
  const builder = new PlanBuilder(book);
  for (const name of wanted) {
    if (findTable(book.tables, TABLES[name])) continue;
    const [title, line] = LINES[name];
    createSheet(
      builder,
      { table: TABLES[name], sheet: name, title, line, columns: SHOP_COLUMNS[name], rows: [], frozen: 1 },
      builder.sheetName(name, `Shop ${name.toLowerCase()}`),
    );
  }
  return builder.plan('Add the shop’s tables');
}
