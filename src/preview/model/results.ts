/** Results of formulas and the cells they spill into. */
import { bounding, contains } from './address.ts';
import type { SheetModel } from './sheet.ts';
import type { Area, Cell, CellValue } from './types.ts';
import type { WorkbookModel } from './workbook.ts';

export type Result = CellValue | readonly (readonly CellValue[])[];

export interface CellResult {
  row: number;
  column: number;
  result: Result;
}

function isMatrix(result: Result): result is readonly (readonly CellValue[])[] {
  return Array.isArray(result);
}

function styled(cell: Cell | undefined): Pick<Cell, 'style' | 'fileFormat'> {
  return {
    ...(cell?.style === undefined ? {} : { style: cell.style }),
    ...(cell?.fileFormat === undefined ? {} : { fileFormat: cell.fileFormat }),
  };
}

/** Empties the cells a spill fills; given one of its cells or its anchor. The anchor then shows `#SPILL!`. */
export function dropSpill(
  model: WorkbookModel,
  sheet: SheetModel,
  row: number,
  column: number,
  quiet = false,
): void {
  const cell = sheet.cells.get(row, column);
  const anchorAt = cell?.spilledFrom ?? { row, column };
  const anchor = sheet.cells.get(anchorAt.row, anchorAt.column);
  if (!anchor?.spill) return;
  const area = { ...anchorAt, ...anchor.spill };
  for (const placed of sheet.cells.in(area)) {
    const from = placed.cell.spilledFrom;
    if (from?.row !== anchorAt.row || from.column !== anchorAt.column) continue;
    const rest = styled(placed.cell);
    model.put(
      sheet,
      placed.row,
      placed.column,
      Object.keys(rest).length > 0 ? { value: null, ...rest } : undefined,
    );
  }
  const next: Cell = { ...anchor, value: { error: '#SPILL!' } };
  delete next.spill;
  model.put(sheet, anchorAt.row, anchorAt.column, next);
  if (!quiet) model.emit({ kind: 'cells', sheetId: sheet.id, area, origin: 'calculation' });
}

function isBlocked(model: WorkbookModel, sheet: SheetModel, area: Area): boolean {
  if (model.tableAt(sheet, area.row, area.column)) return true;
  return (
    model.tablesOn(sheet, area).length > 0 ||
    sheet.layout.merges.some((merge) => contains(area, merge.row, merge.column)) ||
    sheet.cells.in(area).some(({ row, column, cell }) => {
      if (row === area.row && column === area.column) return false;
      return cell.value !== null || cell.formula !== undefined;
    })
  );
}

/** Stores results; a cell that no longer has a formula is left alone. One notice for the whole list. */
export function setResults(model: WorkbookModel, sheet: SheetModel, list: readonly CellResult[]): void {
  let touched: Area | null = null;
  for (const { row, column, result } of list) {
    const before = sheet.cells.get(row, column);
    if (before?.formula === undefined) continue;
    if (before.spill) {
      touched = bounding(touched ?? { row, column, rows: 1, columns: 1 }, { row, column, ...before.spill });
      dropSpill(model, sheet, row, column, true);
    }
    const area = place(model, sheet, row, column, before.formula, result);
    touched = touched ? bounding(touched, area) : area;
  }
  if (touched) model.emit({ kind: 'cells', sheetId: sheet.id, area: touched, origin: 'calculation' });
}

function place(
  model: WorkbookModel,
  sheet: SheetModel,
  row: number,
  column: number,
  formula: string,
  result: Result,
): Area {
  const rows = isMatrix(result) ? result.length : 1;
  const columns = isMatrix(result) ? Math.max(0, ...result.map((line) => line.length)) : 1;
  const area = { row, column, rows: Math.max(1, rows), columns: Math.max(1, columns) };
  const anchor: Cell = { ...styled(sheet.cells.get(row, column)), formula, value: null };
  const first = isMatrix(result)
    ? (result[0]?.[0] ?? (rows === 0 ? { error: '#CALC!' as const } : 0))
    : (result ?? 0);
  if (!isMatrix(result) || (rows <= 1 && columns <= 1)) {
    sheet.cells.set(row, column, { ...anchor, value: first });
    return area;
  }
  if (isBlocked(model, sheet, area)) {
    sheet.cells.set(row, column, { ...anchor, value: { error: '#SPILL!' } });
    return { row, column, rows: 1, columns: 1 };
  }
  for (let i = 0; i < rows; i++) {
    for (let j = 0; j < columns; j++) {
      if (i === 0 && j === 0) continue;
      const value = result[i]?.[j] === undefined ? { error: '#N/A' as const } : (result[i]?.[j] ?? 0);
      sheet.cells.set(row + i, column + j, {
        ...styled(sheet.cells.get(row + i, column + j)),
        value,
        spilledFrom: { row, column },
      });
    }
  }
  sheet.cells.set(row, column, { ...anchor, value: first, spill: { rows, columns } });
  return area;
}
