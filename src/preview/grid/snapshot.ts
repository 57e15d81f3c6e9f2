/** The model as the grid component's workbook, for the first showing. */
import { mergeWorksheetSnapshotWithDefault } from '@univerjs/core';
import type { ICellData, IColumnData, IRowData, IWorkbookData, IWorksheetData } from '@univerjs/core';
import { MAX_COLUMNS } from '../model/address.ts';
import {
  DEFAULT_COLUMN_PIXELS,
  DEFAULT_ROW_POINTS,
  type SheetLayout,
  type SheetModel,
} from '../model/sheet.ts';
import type { Area, Cell, CellStyle } from '../model/types.ts';
import type { WorkbookModel } from '../model/workbook.ts';
import { toGridFormula } from './gridFormula.ts';
import { newUniverStyle } from './univerStyle.ts';

/** The component's cell types. */
export const TEXT = 1;
export const NUMBER = 2;
export const BOOLEAN = 3;

/** Points to the component's pixels. */
export const pixels = (points: number): number => Math.round((points * 4) / 3);

/** Content of a cell without style. Empty for a cell that another one spills into: the engine fills those itself. */
export function cellContent(
  model: WorkbookModel,
  sheet: SheetModel,
  row: number,
  column: number,
  cell: Cell | undefined,
): ICellData {
  if (cell === undefined || cell.spilledFrom !== undefined) return {};
  if (cell.formula !== undefined)
    return { f: toGridFormula(cell.formula, { model, sheet, row, column }), ...valueContent(cell) };
  return valueContent(cell);
}

function valueContent({ value, formula }: Cell): ICellData {
  if (value === null) return {};
  if (typeof value === 'string') return { v: value, t: TEXT };
  if (typeof value === 'number') return { v: value, t: NUMBER };
  if (typeof value === 'boolean') return { v: value ? 1 : 0, t: BOOLEAN };
  // A typed-in error must act as one; as plain text the engine would calculate on with it.
  return formula === undefined
    ? { f: `=${value.error}`, v: value.error, t: TEXT }
    : { v: value.error, t: TEXT };
}

/** How many rows and columns to show: room to work, and no reference into nowhere, which the engine calls a name. */
export function sheetSize(model: WorkbookModel, sheet: SheetModel): { rows: number; columns: number } {
  const used = model.usedArea(sheet);
  const bottom = used === null ? 0 : used.row + used.rows;
  const right = used === null ? 0 : used.column + used.columns;
  return { rows: Math.max(1000, bottom + 500), columns: Math.max(78, right + 26) };
}

export function columnData(layout: SheetLayout): Record<number, Partial<IColumnData>> {
  const out: Record<number, Partial<IColumnData>> = {};
  const columns = new Set([
    ...layout.columnWidths.keys(),
    ...layout.hiddenColumns,
    ...layout.columnStyles.keys(),
  ]);
  for (const column of columns) {
    const style = newUniverStyle(layout.columnStyles.get(column));
    out[column] = {
      w: layout.columnWidths.get(column) ?? DEFAULT_COLUMN_PIXELS,
      hd: layout.hiddenColumns.has(column) ? 1 : 0,
      ...(style === undefined ? {} : { s: style }),
    };
  }
  return out;
}

export function rowData(layout: SheetLayout): Record<number, Partial<IRowData>> {
  const out: Record<number, Partial<IRowData>> = {};
  const hidden = new Set([...layout.hiddenRows, ...layout.filteredRows]);
  for (const row of new Set([...layout.rowHeights.keys(), ...hidden, ...layout.rowStyles.keys()])) {
    const height = layout.rowHeights.get(row);
    const style = newUniverStyle(layout.rowStyles.get(row));
    out[row] = {
      ...(height === undefined ? {} : { h: pixels(height), ia: 0 as const }),
      hd: hidden.has(row) ? 1 : 0,
      ...(style === undefined ? {} : { s: style }),
    };
  }
  return out;
}

/** The component's way to name an area: both ends. */
export interface Range {
  startRow: number;
  startColumn: number;
  endRow: number;
  endColumn: number;
}

export function range(area: Area): Range {
  return {
    startRow: area.row,
    startColumn: area.column,
    endRow: area.row + area.rows - 1,
    endColumn: Math.min(area.column + area.columns, MAX_COLUMNS) - 1,
  };
}

export function areaOf({ startRow, startColumn, endRow, endColumn }: Range): Area {
  return {
    row: startRow,
    column: startColumn,
    rows: endRow - startRow + 1,
    columns: endColumn - startColumn + 1,
  };
}

/** Frozen panes as the component counts them; -1 is "none". */
export function freezeOf(layout: SheetLayout): {
  startRow: number;
  startColumn: number;
  xSplit: number;
  ySplit: number;
} {
  const { rows, columns } = layout.frozen;
  return {
    startRow: rows > 0 ? rows : -1,
    startColumn: columns > 0 ? columns : -1,
    ySplit: rows,
    xSplit: columns,
  };
}

/** A sheet for the component; `withCells` false leaves it empty, to be filled by the mutations that calculation follows. */
export function sheetData(model: WorkbookModel, sheet: SheetModel, withCells: boolean): IWorksheetData {
  const { layout } = sheet;
  const size = sheetSize(model, sheet);
  const cellData: Record<number, Record<number, ICellData>> = {};
  const styles = new Map<CellStyle, ICellData['s']>();
  for (const { row, column, cell } of withCells ? sheet.cells.all() : []) {
    const content = cellContent(model, sheet, row, column, cell);
    if (cell.style !== undefined) {
      // One object for one style: the component then stores it once.
      if (!styles.has(cell.style)) styles.set(cell.style, newUniverStyle(cell.style));
      const style = styles.get(cell.style);
      if (style) content.s = style;
    }
    (cellData[row] ??= {})[column] = content;
  }
  return mergeWorksheetSnapshotWithDefault({
    id: sheet.id,
    name: sheet.name,
    hidden: layout.visibility === 'visible' ? 0 : 1,
    tabColor: layout.tabColor,
    rowCount: size.rows,
    columnCount: size.columns,
    defaultColumnWidth: DEFAULT_COLUMN_PIXELS,
    defaultRowHeight: pixels(DEFAULT_ROW_POINTS),
    showGridlines: layout.showGridlines ? 1 : 0,
    mergeData: layout.merges.map(range),
    freeze: freezeOf(layout),
    columnData: columnData(layout),
    rowData: rowData(layout),
    cellData,
  });
}

export function workbookData(model: WorkbookModel, unit: string): Partial<IWorkbookData> {
  return {
    id: unit,
    name: model.name,
    sheetOrder: model.sheets.map((sheet) => sheet.id),
    sheets: Object.fromEntries(model.sheets.map((sheet) => [sheet.id, sheetData(model, sheet, true)])),
  };
}
