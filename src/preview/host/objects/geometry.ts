/** Where cells lie on the sheet in points, and which rows and columns are hidden. */
import {
  DEFAULT_COLUMN_PIXELS,
  DEFAULT_ROW_POINTS,
  MAX_COLUMNS,
  MAX_ROWS,
  type Area,
  type SheetModel,
} from '../../model/index.ts';
import type { Book } from '../book.ts';
import { badArgument } from '../error.ts';

/** The API's widths are points; the model keeps pixels. */
export const POINTS_PER_PIXEL = 0.75;

function sum(
  from: number,
  count: number,
  fallback: number,
  sizes: ReadonlyMap<number, number>,
  isHiddenAt: (index: number) => boolean,
  hiddenCount: number,
): number {
  // the usual case: few sizes of their own, none hidden
  if (sizes.size === 0 && hiddenCount === 0) return count * fallback;
  let total = 0;
  for (let index = from; index < from + count; index++) {
    if (!isHiddenAt(index)) total += sizes.get(index) ?? fallback;
  }
  return total;
}

export function edges(
  sheet: SheetModel,
  area: Area,
): { left: number; top: number; width: number; height: number } {
  const { columnWidths, rowHeights, hiddenColumns, hiddenRows, filteredRows } = sheet.layout;
  const across = (from: number, count: number): number =>
    sum(from, count, DEFAULT_COLUMN_PIXELS, columnWidths, (c) => hiddenColumns.has(c), hiddenColumns.size) *
    POINTS_PER_PIXEL;
  const hidden = hiddenRows.size + filteredRows.size;
  const down = (from: number, count: number): number =>
    sum(from, count, DEFAULT_ROW_POINTS, rowHeights, (r) => sheet.isRowHidden(r), hidden);
  return {
    left: across(0, area.column),
    top: down(0, area.row),
    width: across(area.column, area.columns),
    height: down(area.row, area.rows),
  };
}

/** Whether all (true), none (false) or some (null) of the rows or columns are hidden. */
export function isHidden(sheet: SheetModel, area: Area, axis: 'rows' | 'columns'): boolean | null {
  const rows = axis === 'rows';
  const { hiddenRows, filteredRows, hiddenColumns } = sheet.layout;
  const marks = rows ? new Set([...hiddenRows, ...filteredRows]) : hiddenColumns;
  const [start, count] = rows ? [area.row, area.rows] : [area.column, area.columns];
  const hidden = [...marks].filter((index) => index >= start && index < start + count).length;
  if (hidden === 0) return false;
  return hidden === count ? true : null;
}

export function setHidden(
  book: Book,
  sheet: SheetModel,
  area: Area,
  axis: 'rows' | 'columns',
  hide: boolean,
): void {
  const rows = axis === 'rows';
  const [start, count] = rows ? [area.row, area.rows] : [area.column, area.columns];
  if (hide && count === (rows ? MAX_ROWS : MAX_COLUMNS)) badArgument();
  const marks = new Set(rows ? sheet.layout.hiddenRows : sheet.layout.hiddenColumns);
  if (hide) for (let index = start; index < start + count; index++) marks.add(index);
  else for (const index of [...marks]) if (index >= start && index < start + count) marks.delete(index);
  book.model.setLayout(sheet, rows ? { hiddenRows: marks } : { hiddenColumns: marks }, 'addin');
}

/** A merge keeps the first content it finds, in its top left cell; the rest is lost. */
export function keepFirst(book: Book, sheet: SheetModel, merge: Area): void {
  const filled = sheet.cells
    .in(merge)
    .filter(({ cell }) => cell.value !== null || cell.formula !== undefined)
    .sort((a, b) => a.row - b.row || a.column - b.column);
  const first = filled[0];
  if (!first) return;
  for (const { row, column } of filled) {
    if (row !== merge.row || column !== merge.column) book.model.enter(sheet, row, column, null, 'addin');
  }
  if (first.row !== merge.row || first.column !== merge.column) {
    const old = sheet.cells.get(merge.row, merge.column);
    book.model.put(sheet, merge.row, merge.column, { ...old, ...first.cell });
  }
}
