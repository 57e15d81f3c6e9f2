/** Tables and defined names as immutable records. */
import type { Area } from './types.ts';
import type { FilterCriteria } from './sheet.ts';

export interface TableColumn {
  readonly id: number;
  readonly name: string;
}

export interface TableModel {
  readonly id: string;
  readonly name: string;
  readonly sheetId: string;
  /** With the header row and, where shown, the totals row. */
  readonly area: Area;
  readonly columns: readonly TableColumn[];
  readonly showHeaders: boolean;
  readonly showTotals: boolean;
  readonly showBandedRows: boolean;
  readonly showBandedColumns: boolean;
  readonly showFilterButton: boolean;
  readonly highlightFirstColumn: boolean;
  readonly highlightLastColumn: boolean;
  readonly style: string;
  /** By column offset. */
  readonly filter: ReadonlyMap<number, FilterCriteria>;
  /** The table's number in the opened file, for the file writer; absent for new tables. */
  readonly fileId?: number;
}

export interface NameModel {
  readonly name: string;
  /** null: the whole workbook. */
  readonly sheetId: string | null;
  /** `=Sheet1!$A$1:$B$2`, `=3.5`, `="text"`. */
  readonly formula: string;
  readonly visible: boolean;
  readonly comment: string;
}

/** The rows between header and totals; an empty table still shows one. */
export function bodyArea(table: TableModel): Area {
  const top = table.showHeaders ? 1 : 0;
  const bottom = table.showTotals ? 1 : 0;
  return { ...table.area, row: table.area.row + top, rows: Math.max(1, table.area.rows - top - bottom) };
}

export function headerArea(table: TableModel): Area | null {
  return table.showHeaders ? { ...table.area, rows: 1 } : null;
}

export function totalsArea(table: TableModel): Area | null {
  return table.showTotals ? { ...table.area, row: table.area.row + table.area.rows - 1, rows: 1 } : null;
}

/** A header no other column has: `Cut`, `Cut2`, `Cut3`, as Excel numbers them. */
export function freeName(wanted: string, taken: Iterable<string>): string {
  const used = new Set([...taken].map((name) => name.toLowerCase()));
  if (!used.has(wanted.toLowerCase())) return wanted;
  for (let n = 2; ; n++) {
    const name = `${wanted}${String(n)}`;
    if (!used.has(name.toLowerCase())) return name;
  }
}

/** Whether Excel takes the text as a table's or range's name. */
export function isValidName(name: string): boolean {
  return (
    /^[\p{L}_\\][\p{L}\p{N}_.\\?]{0,254}$/u.test(name) &&
    !/^[a-z]{1,3}\d{1,7}$/i.test(name) &&
    !/^[rc]$/i.test(name) &&
    !/^r\d*c\d*$/i.test(name)
  );
}
