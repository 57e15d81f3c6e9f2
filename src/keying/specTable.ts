/**
 * The workbook's `Specs` table as cells → specifications. Headers are found by their text in any order and any
 * case; columns that the shop added are left alone. Everything wrong is reported with its row and column, and a row
 * with a fault gives no spec: a wrong dimension is worse than none.
 *
 * Names of the starter specs are reserved: a row may repeat a starter, but not give its name other dimensions.
 */
import { readSpecRow, NEEDED_COLUMNS, SPEC_COLUMNS, type SpecColumn, type SpecRowFault } from './specRow.ts';
import { cellText, isBlank, type Cell } from './specCells.ts';
import type { Specification } from './specification.ts';
import { starterSpec } from './starters.ts';

export { SPEC_COLUMNS, specTableRow, type SpecColumn } from './specRow.ts';
export type { Cell } from './specCells.ts';

export type SpecTableFault =
  | SpecRowFault
  | { readonly code: 'table-empty' }
  | { readonly code: 'column-missing' }
  | { readonly code: 'column-repeated' }
  | { readonly code: 'name-reserved'; readonly name: string }
  /** `row` is the other row with this name. */
  | { readonly code: 'name-repeated'; readonly name: string; readonly row: number };

export interface SpecCellFault {
  /** Row in the cells given; 0 is the header. */
  readonly row: number;
  readonly column: SpecColumn;
  /** Where that column stands in the cells given, from 0; −1 when it is missing. */
  readonly at: number;
  readonly fault: SpecTableFault;
}

export interface SpecTableRow {
  readonly row: number;
  readonly name: string;
  /** Absent when the row has a fault. */
  readonly spec?: Specification;
}

export interface SpecTable {
  /** Good specs by their name in lower case. */
  readonly specs: ReadonlyMap<string, Specification>;
  /** Every row that isn't blank, good or not, in the table's order. */
  readonly rows: readonly SpecTableRow[];
  readonly faults: readonly SpecCellFault[];
}

/** The form in which names are compared. */
export const foldName = (name: string): string => name.normalize('NFKC').trim().toLowerCase();

/**
 * Reads the table, its header row included.
 * @example readSpecTable([SPEC_COLUMNS, specTableRow(spec)]).specs.get('s-018-6') → the same spec
 */
export function readSpecTable(cells: readonly (readonly Cell[])[]): SpecTable {
  const [header, ...body] = cells;
  const faults: SpecCellFault[] = [];
  const filled = body.flatMap((row, i) => (row.every(isBlank) ? [] : [{ row: i + 1, cells: row }]));
  if (!header || header.every(isBlank)) {
    faults.push({ row: 0, column: 'Name', at: -1, fault: { code: 'table-empty' } });
    return { specs: new Map(), rows: [], faults };
  }
  const columns = findColumns(header, faults);
  const rows: SpecTableRow[] = [];
  for (const { row, cells: line } of filled) {
    const at = (column: SpecColumn): number => columns.get(column) ?? -1;
    const name = cellText(line[at('Name')]);
    if (faults.some((f) => f.row === 0)) {
      rows.push({ row, name });
      continue;
    }
    const read = readSpecRow((column) => line[at(column)] ?? null);
    if (read.ok) rows.push({ row, name, spec: read.value });
    else {
      rows.push({ row, name });
      for (const f of read.error) faults.push({ row, column: f.column, at: at(f.column), fault: f.fault });
    }
  }
  const nameFaults = findNameFaults(rows).map((f) => ({ ...f, at: columns.get('Name') ?? -1 }));
  const barred = new Set(nameFaults.map((f) => f.row));
  const kept = rows.map((r) => (barred.has(r.row) ? { row: r.row, name: r.name } : r));
  return {
    specs: new Map(kept.flatMap((r) => (r.spec ? [[foldName(r.name), r.spec] as const] : []))),
    rows: kept,
    faults: [...faults, ...nameFaults],
  };
}

function findColumns(header: readonly Cell[], faults: SpecCellFault[]): ReadonlyMap<SpecColumn, number> {
  const columns = new Map<SpecColumn, number>();
  const folded = header.map((h) => foldName(cellText(h)).replace(/\s+/g, ' '));
  for (const column of SPEC_COLUMNS) {
    const at = folded.indexOf(column.toLowerCase());
    if (at >= 0) columns.set(column, at);
    else if (NEEDED_COLUMNS.includes(column))
      faults.push({ row: 0, column, at: -1, fault: { code: 'column-missing' } });
    const again = at < 0 ? -1 : folded.indexOf(column.toLowerCase(), at + 1);
    if (again >= 0) faults.push({ row: 0, column, at: again, fault: { code: 'column-repeated' } });
  }
  return columns;
}

function findNameFaults(rows: readonly SpecTableRow[]): Omit<SpecCellFault, 'at'>[] {
  const faults: Omit<SpecCellFault, 'at'>[] = [];
  const byName = new Map<string, number[]>();
  for (const { row, name, spec } of rows) {
    const folded = foldName(name);
    if (folded === '') continue;
    byName.set(folded, [...(byName.get(folded) ?? []), row]);
    const starter = starterSpec(name);
    if (starter && spec && !sameDimensions(starter, spec))
      faults.push({ row, column: 'Name', fault: { code: 'name-reserved', name: starter.name } });
  }
  for (const { row, name } of rows) {
    const other = byName.get(foldName(name))?.find((r) => r !== row);
    if (other !== undefined)
      faults.push({ row, column: 'Name', fault: { code: 'name-repeated', name, row: other } });
  }
  return faults;
}

/** Whether two specs cut and pin the same, whatever they are called and wherever their numbers come from. */
export function sameDimensions(a: Specification, b: Specification): boolean {
  const metal = (spec: Specification): string =>
    JSON.stringify(Object.entries({ ...spec, name: '', title: '', source: '' }).sort());
  return metal(a) === metal(b);
}
