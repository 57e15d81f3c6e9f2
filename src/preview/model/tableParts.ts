/** What several table operations share: storing, header cells, and formulas and looks for new rows. */
import { displayText } from './format.ts';
import { offsetReferences } from './references.ts';
import type { SheetModel } from './sheet.ts';
import { bodyArea, freeName, headerArea, type TableColumn, type TableModel } from './tables.ts';
import type { Area, Cell, Origin } from './types.ts';
import type { WorkbookModel } from './workbook.ts';

export function store(model: WorkbookModel, next: TableModel, origin: Origin): TableModel {
  model.setState({ tables: model.tables.map((table) => (table.id === next.id ? next : table)) });
  model.emit({ kind: 'table', what: 'changed', tableId: next.id, sheetId: next.sheetId, origin });
  return next;
}

/** Column names from the header cells: text, not empty, each only once. Old columns keep their ids. */
export function readHeaders(sheet: SheetModel, area: Area, before: readonly TableColumn[]): TableColumn[] {
  const columns: TableColumn[] = [];
  for (let i = 0; i < area.columns; i++) {
    const cell = sheet.cells.get(area.row, area.column + i);
    const text = displayText(cell?.value ?? null, cell?.style?.numberFormat);
    const wanted = text === '' ? (before[i]?.name ?? `Column${String(i + 1)}`) : text;
    const name = freeName(
      wanted,
      columns.map((column) => column.name),
    );
    columns.push({ id: before[i]?.id ?? nextColumnId([...before, ...columns]), name });
  }
  return columns;
}

export function nextColumnId(columns: readonly TableColumn[]): number {
  return Math.max(0, ...columns.map((column) => column.id)) + 1;
}

export function writeHeaders(
  model: WorkbookModel,
  sheet: SheetModel,
  table: TableModel,
  origin: Origin,
): void {
  const header = headerArea(table);
  if (!header) return;
  let changed = false;
  table.columns.forEach((column, i) => {
    const at = header.column + i;
    const cell = sheet.cells.get(header.row, at);
    if (cell?.value === column.name && cell.formula === undefined) return;
    const next: Cell = { ...cell, value: column.name };
    delete next.formula;
    model.put(sheet, header.row, at, next);
    changed = true;
  });
  if (changed) model.emit({ kind: 'cells', sheetId: sheet.id, area: header, origin });
}

/** Gives new, empty body cells the formula of their column, where the column has one formula all the way down. */
export function fillFormulas(
  model: WorkbookModel,
  sheet: SheetModel,
  table: TableModel,
  from: number,
  count: number,
  origin: Origin,
): void {
  const body = bodyArea(table);
  for (let j = 0; j < body.columns; j++) {
    const column = body.column + j;
    const source = from > 0 ? from - 1 : from + count;
    if (source >= body.rows) continue;
    const formula = sheet.cells.get(body.row + source, column)?.formula;
    const first = sheet.cells.get(body.row, column)?.formula;
    if (formula === undefined || first === undefined) continue;
    if (from > 0 && offsetReferences(first, source, 0) !== formula) continue;
    for (let i = from; i < from + count; i++) {
      const cell = sheet.cells.get(body.row + i, column);
      if (cell && (cell.value !== null || cell.formula !== undefined)) continue;
      model.put(sheet, body.row + i, column, {
        ...cell,
        value: null,
        formula: offsetReferences(formula, i - source, 0),
      });
    }
    model.emit({
      kind: 'cells',
      sheetId: sheet.id,
      area: { row: body.row + from, column, rows: count, columns: 1 },
      origin,
    });
  }
}

/** New rows look like the row above them. */
export function copyStyles(
  model: WorkbookModel,
  sheet: SheetModel,
  table: TableModel,
  from: number,
  count: number,
): void {
  const body = bodyArea(table);
  const source = from > 0 ? from - 1 : from + count;
  if (source >= body.rows) return;
  for (let column = body.column; column < body.column + body.columns; column++) {
    const cell = sheet.cells.get(body.row + source, column);
    if (!cell?.style && cell?.fileFormat === undefined) continue;
    for (let i = from; i < from + count; i++) {
      const old = sheet.cells.get(body.row + i, column);
      if (old?.style || old?.fileFormat !== undefined) continue;
      model.put(sheet, body.row + i, column, {
        ...old,
        value: old?.value ?? null,
        ...(cell.style ? { style: cell.style } : {}),
        ...(cell.fileFormat === undefined ? {} : { fileFormat: cell.fileFormat }),
      });
    }
  }
}
