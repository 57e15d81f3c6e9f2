/**
 * A key bitting array put on the sheet `Array`, to be edited there. Rows of that name that stand already are changed
 * cell by cell, each with what it held; nothing else is touched.
 */
import type { Specification } from '../keying/specification.ts';
import { columnOf } from './columns.ts';
import { findTable } from './find.ts';
import { changeCells, type NamedChange } from './namedCells.ts';
import { TABLES } from './names.ts';
import { parseAddress, place } from './places.ts';
import type { WritePlan } from './plan.ts';
import { appendOrCreate, contentOf } from './planRows.ts';
import { PlanBuilder } from './planTable.ts';
import type { BookReading } from './reading.ts';
import { ARRAY_COLUMNS, arrayPlaces, arrayRows, type SheetArray } from './tableArrays.ts';

export interface ArrayInput extends SheetArray {
  /** Name of the system that is to be made by it. */
  readonly system: string;
  readonly spec: Specification;
}

/** @example planArray(book, { system: 'Hall', spec, topMaster, array }, { made: '24 Nov 2026' }).changes → [] on a new sheet */
export function planArray(
  book: BookReading,
  input: ArrayInput,
  { made }: { readonly made: string },
): { readonly plan: WritePlan; readonly changes: readonly NamedChange[] } {
  const builder = new PlanBuilder(book);
  const { system, spec } = input;
  const table = findTable(book.tables, TABLES.Array);
  const rows = arrayRows(system, spec, input);
  const there = arrayPlaces(book, system);
  const title = `Put the array of ${system} on a sheet`;
  if (!table || there.size === 0) {
    appendOrCreate(builder, table, {
      table: TABLES.Array,
      sheet: 'Array',
      title: 'Key bitting arrays to make keys by',
      line: `One row a chamber. Depths in order: what change keys may have there, the top master’s cut never. Level: CK, MK, GMK, or kept at the top master’s cut. First written ${made}. SECRET: whoever has a bitting can cut the key.`,
      columns: ARRAY_COLUMNS,
      rows,
      frozen: 1,
    });
    return { plan: builder.plan(title), changes: [] };
  }
  const changes: NamedChange[] = [];
  rows.forEach((row, i) => {
    const at = there.get(i + 1);
    if (!at)
      return builder.conflict(
        `The array of ${system} has no row for chamber ${i + 1}. Give it one, or take all its rows away.`,
        place(table.sheet, table.box.row, table.box.column),
      );
    const line = parseAddress(at('chamber').address)!.row;
    ARRAY_COLUMNS.forEach(({ heading }, c) => {
      const column = columnOf(table, heading);
      const to = String(row[c]);
      if (column < 0) {
        if (to !== '')
          builder.conflict(`The table on ${table.sheet} has no column “${heading}”. Add it.`, at('chamber'));
        return;
      }
      const cell = place(table.sheet, line, table.box.column + column);
      const from = String(contentOf(builder, { ...parseAddress(cell.address)!, sheet: cell.sheet })[0]![0]!);
      // the name stays as the shop wrote it
      if (heading !== 'System' && from !== to)
        changes.push({ at: cell, what: `${heading}, chamber ${i + 1}`, from, to });
    });
  });
  changeCells(builder, table, changes);
  return { plan: builder.plan(title), changes };
}
