/**
 * Columns of our tables. A heading is found in any place and any case, so that the shop may move columns and add
 * its own between them; ours are never renamed or reordered by us.
 */
import { fold } from './names.ts';
import type { ColumnFormat } from './plan.ts';
import type { Problem, TableReading } from './reading.ts';
import { place } from './places.ts';

export interface ColumnSpec {
  readonly heading: string;
  readonly format: ColumnFormat;
  /** In characters. */
  readonly width: number;
  /** Without it the table can't be read. */
  readonly needed?: boolean;
  /** Filled by formulas of ours. */
  readonly formula?: string;
}

/** `columnOf(table, 'Bitting')` → index in the table, or -1. */
export function columnOf(table: TableReading, heading: string): number {
  const wanted = fold(heading);
  return table.headers.findIndex((h) => fold(h) === wanted);
}

/** A sentence for every needed column that the table has lost. */
export function missingColumns(table: TableReading, columns: readonly ColumnSpec[]): Problem[] {
  return columns
    .filter((c) => c.needed && columnOf(table, c.heading) < 0)
    .map((c) => ({
      ...place(table.sheet, table.box.row, table.box.column),
      severity: 'fault' as const,
      sentence: `The table ${table.name} has no column “${c.heading}”. Add it, or give the renamed column its name back.`,
    }));
}
