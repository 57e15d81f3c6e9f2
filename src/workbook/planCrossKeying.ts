/**
 * Cross-keying a door as a plan: the chamber cells of its cylinder, named with their old values, and the marks that
 * say it is meant. A key without a column in the grid gets one, with all the doors that it opens by its symbol.
 */
import { fold, TABLES } from './names.ts';
import type { Chambers } from '../keying/system.ts';
import type { SystemAudit } from './auditInput.ts';
import { auditInput } from './auditInput.ts';
import { findTable, systemNamed } from './find.ts';
import { addGridColumns, columnIn, rowIn } from './gridColumns.ts';
import { chamberChanges, changeCells, type NamedChange } from './namedCells.ts';
import { parseAddress, place } from './places.ts';
import type { WritePlan } from './plan.ts';
import { contentOf } from './planRows.ts';
import { PlanBuilder } from './planTable.ts';
import type { BookReading, SystemReading, TableReading } from './reading.ts';
import { MARK } from './tableGrid.ts';

export interface CrossKeying {
  readonly system: string;
  readonly cylinder: string;
  /** Keys that shall operate it besides those that do. */
  readonly keys: readonly string[];
  /** How it will be pinned. */
  readonly chambers: Chambers;
}

/** The plan and the cells of existing rows that it changes. */
export function planCrossKeying(
  book: BookReading,
  wanted: CrossKeying,
): { readonly plan: WritePlan; readonly changes: readonly NamedChange[] } {
  const builder = new PlanBuilder(book);
  const system = systemNamed(book, wanted.system);
  const row = system?.cylinders.find((c) => fold(c.id) === fold(wanted.cylinder));
  const audit = auditInput(book, wanted.system);
  const cylinders = findTable(book.tables, TABLES.Cylinders);
  const title = `Cross-key ${row?.door ?? wanted.cylinder}`;
  if (!system?.spec || !row || !audit || !cylinders) {
    builder.conflict(
      `Cylinder ${wanted.cylinder} of ${wanted.system} can’t be read any more. Read it again.`,
    );
    return { plan: builder.plan(title), changes: [] };
  }
  const pins = chamberChanges(system.spec, row, wanted.chambers);
  changeCells(builder, cylinders, pins);
  const table = system.grid && findTable(book.tables, system.grid.table);
  const gridRow = rowIn(system, wanted.cylinder);
  if (!system.grid || !table || gridRow === undefined) {
    builder.conflict(
      `The grid of ${system.name} has no row for ${row.id}, so the new keys could not be marked and the audit would report them. Give the system a grid with that row first.`,
      system.at,
    );
    return { plan: builder.plan(title), changes: pins };
  }
  const marks: NamedChange[] = [];
  const fresh: string[] = [];
  for (const key of wanted.keys) {
    const column = columnIn(system, key);
    if (column === undefined) fresh.push(key);
    else if (!system.grid.marks.some((m) => fold(m.key) === fold(key) && fold(m.cylinder) === fold(row.id))) {
      const at = place(table.sheet, gridRow, column);
      const cell = parseAddress(at.address)!;
      marks.push({
        at,
        what: `Mark of ${key} for ${row.door ?? row.id}`,
        from: String(contentOf(builder, { ...cell, sheet: at.sheet })[0]![0]!),
        to: MARK,
      });
    }
  }
  changeCells(builder, table, marks);
  addColumns(builder, table, fresh, system, audit, gridRow);
  return { plan: builder.plan(title), changes: [...pins, ...marks] };
}

/** With a column of its own a key's doors are those that are marked, so all that it has by its symbol are. */
function addColumns(
  builder: PlanBuilder,
  table: TableReading,
  keys: readonly string[],
  system: SystemReading,
  audit: SystemAudit,
  also: number,
): void {
  addGridColumns(
    builder,
    table,
    keys.map((key) => ({
      heading: key,
      rows: new Set([
        ...audit.marks
          .filter((mark) => fold(mark.key) === fold(key))
          .flatMap((mark) => rowIn(system, mark.cylinder) ?? []),
        also,
      ]),
    })),
  );
}
