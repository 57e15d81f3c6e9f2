/**
 * Formulas of ours: which columns of our tables hold them, and which cells of those columns no longer do. A formula
 * that calls another function there is somebody's intention and is left alone.
 */
import { isFormula } from './cells.ts';
import { columnOf, type ColumnSpec } from './columns.ts';
import { isBlank } from './fields.ts';
import { fold, TABLES } from './names.ts';
import { place, type Place } from './places.ts';
import type { BookReading, CellValue, TableReading } from './reading.ts';
import { CYLINDER_COLUMNS } from './tableCylinders.ts';
import { KEY_COLUMNS } from './tableKeys.ts';

/** Columns of the tables that have formula columns, by folded name of the table. */
const COLUMNS: ReadonlyMap<string, readonly ColumnSpec[]> = new Map<string, readonly ColumnSpec[]>([
  [fold(TABLES.Keys), KEY_COLUMNS],
  [fold(TABLES.Cylinders), CYLINDER_COLUMNS],
]);

/** A cell of a formula column of ours that doesn't hold its formula, or holds it in vain. */
export interface BrokenFormula {
  readonly at: Place;
  readonly table: string;
  readonly heading: string;
  readonly why: 'overwritten' | 'missing' | 'reference' | 'name';
  /** What the cell shows; '' where it is empty. */
  readonly holds: string;
}

/** The columns of a table of ours that has formula columns; undefined of any other. */
export const formulaColumnsOf = (table: TableReading): readonly ColumnSpec[] | undefined =>
  COLUMNS.get(fold(table.name));

/**
 * Every formula of ours gone wrong, in the order of the tables. Rows that are empty otherwise count as no rows.
 * @example brokenFormulas(book) → [{ at: { sheet: 'Keys', address: 'K6' }, why: 'overwritten', holds: 'good', … }]
 */
export function brokenFormulas(book: BookReading): BrokenFormula[] {
  return book.tables.flatMap((table) => {
    const columns = formulaColumnsOf(table)?.filter((c) => c.formula !== undefined) ?? [];
    const found = columns.map(({ heading }) => ({ heading, column: columnOf(table, heading) }));
    const own = new Set(found.map(({ column }) => column));
    return table.values.flatMap((row, r) => {
      if (row.every((cell, c) => own.has(c) || isBlank(cell))) return [];
      return found.flatMap(({ heading, column }): BrokenFormula[] => {
        if (column < 0) return [];
        const value = row[column] ?? '';
        const why = wrongWith(table.formulas[r]?.[column] ?? '', value);
        if (!why) return [];
        const at = place(table.sheet, table.box.row + 1 + r, table.box.column + column);
        return [{ at, table: table.name, heading, why, holds: String(value) }];
      });
    });
  });
}

function wrongWith(formula: CellValue, value: CellValue): BrokenFormula['why'] | undefined {
  if (!isFormula(formula, value)) return isBlank(value) ? 'missing' : 'overwritten';
  if (value === '#REF!' || /#REF!/i.test(String(formula))) return 'reference';
  return value === '#NAME?' ? 'name' : undefined;
}

const WHY: Readonly<Record<BrokenFormula['why'], (holds: string) => string>> = {
  overwritten: (holds) => `holds “${holds}” where a formula was`,
  missing: () => 'is empty where a formula should be',
  reference: () => 'has a formula whose reference broke (#REF!)',
  name: () => 'has a formula that Excel does not know (#NAME?)',
};

/** @example sayBroken(broken) → 'Check holds “good” where a formula was.' */
export const sayBroken = ({ heading, why, holds }: BrokenFormula): string => `${heading} ${WHY[why](holds)}.`;
