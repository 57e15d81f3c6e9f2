/** What tables do: add, grow, shrink, rename, and keep their column names equal to the header cells. */
import { intersect, isOnSheet, MAX_ROWS } from './address.ts';
import { refuse } from './error.ts';
import { applyFilters } from './filter.ts';
import { displayText } from './format.ts';
import { rewriteFormulas, shiftCells } from './moving.ts';
import { renameTableIn } from './references.ts';
import type { SheetModel } from './sheet.ts';
import { bodyArea, freeName, isValidName, totalsArea, type TableModel } from './tables.ts';
import type { Area, Origin } from './types.ts';
import type { WorkbookModel } from './workbook.ts';

import { copyStyles, fillFormulas, nextColumnId, readHeaders, store, writeHeaders } from './tableParts.ts';

function checkArea(model: WorkbookModel, sheet: SheetModel, area: Area, self?: TableModel): void {
  if (!isOnSheet(area)) refuse('InvalidArgument', 'The table would leave the sheet.');
  const other = model.tablesOn(sheet, area).find((table) => table.id !== self?.id);
  if (other) refuse('InvalidArgument', `A table cannot overlap another one ("${other.name}").`);
  if (sheet.layout.merges.some((merge) => intersect(merge, area))) {
    refuse('InvalidArgument', 'A table cannot hold merged cells.');
  }
}

function checkName(model: WorkbookModel, name: string, self?: TableModel): void {
  if (!isValidName(name)) refuse('InvalidArgument', `"${name}" cannot be the name of a table.`);
  const other = model.findTable(name);
  if ((other && other !== self) || model.findName(name, null)) {
    refuse('ItemAlreadyExists', `There is already something named "${name}".`);
  }
}

function freeTableName(model: WorkbookModel): string {
  for (let n = model.tables.length + 1; ; n++) {
    const name = `Table${String(n)}`;
    if (!model.findTable(name) && !model.findName(name, null)) return name;
  }
}

export function add(
  model: WorkbookModel,
  sheet: SheetModel,
  wanted: Area,
  hasHeaders: boolean,
  origin: Origin,
  name?: string,
): TableModel {
  checkArea(model, sheet, wanted);
  if (name !== undefined) checkName(model, name);
  let area = wanted;
  if (!hasHeaders) {
    const lane = { start: area.column, count: area.columns };
    shiftCells(model, sheet, { axis: 'rows', at: area.row, count: 1, lane }, origin);
    area = { ...area, rows: area.rows + 1 };
  } else if (area.rows === 1) {
    area = { ...area, rows: 2 };
    checkArea(model, sheet, area);
  }
  const table: TableModel = {
    id: model.nextId('T'),
    name: name ?? freeTableName(model),
    sheetId: sheet.id,
    area,
    columns: readHeaders(sheet, area, []),
    showHeaders: true,
    showTotals: false,
    showBandedRows: true,
    showBandedColumns: false,
    showFilterButton: true,
    highlightFirstColumn: false,
    highlightLastColumn: false,
    style: 'TableStyleMedium2',
    filter: new Map(),
  };
  model.setState({ tables: [...model.tables, table] });
  writeHeaders(model, sheet, table, origin);
  model.emit({ kind: 'table', what: 'added', tableId: table.id, sheetId: sheet.id, origin });
  return table;
}

export function rename(model: WorkbookModel, table: TableModel, name: string, origin: Origin): void {
  checkName(model, name, table);
  rewriteFormulas(model, (formula) => renameTableIn(formula, table.name, name), origin);
  store(model, { ...table, name }, origin);
}

export function replace(
  model: WorkbookModel,
  table: TableModel,
  patch: Partial<TableModel>,
  origin: Origin,
): void {
  store(model, { ...table, ...patch }, origin);
}

export function resize(model: WorkbookModel, table: TableModel, area: Area, origin: Origin): void {
  const sheet = model.sheet(table.sheetId);
  if (area.row !== table.area.row || !intersect(area, table.area)) {
    refuse(
      'InvalidArgument',
      'The header row of the table must stay in the same row, and the tables must overlap.',
    );
  }
  const fixed = (table.showHeaders ? 1 : 0) + (table.showTotals ? 1 : 0);
  if (area.rows < fixed + 1) refuse('InvalidArgument', 'A table needs at least one row below its headers.');
  checkArea(model, sheet, area, table);
  const before = bodyArea(table);
  const offset = area.column - table.area.column;
  const kept = Array.from({ length: area.columns }, (_, i) => table.columns[i + offset]);
  const known = kept.filter((column) => column !== undefined);
  const taken = [...table.columns];
  const columns = kept.map((column, i) => {
    if (column) return column;
    const cell = table.showHeaders ? sheet.cells.get(area.row, area.column + i) : undefined;
    const text = displayText(cell?.value ?? null) || `Column${String(i + 1)}`;
    const fresh = {
      id: nextColumnId(taken),
      name: freeName(
        text,
        [...known, ...taken].map((c) => c.name),
      ),
    };
    taken.push(fresh);
    return fresh;
  });
  const next = store(model, { ...table, area, columns }, origin);
  writeHeaders(model, sheet, next, origin);
  const after = bodyArea(next);
  if (after.rows > before.rows)
    fillFormulas(model, sheet, next, before.rows, after.rows - before.rows, origin);
  if (next.filter.size > 0) applyFilters(model, sheet);
}

export function addRows(
  model: WorkbookModel,
  table: TableModel,
  index: number | null,
  count: number,
  origin: Origin,
): number {
  const sheet = model.sheet(table.sheetId);
  const body = bodyArea(table);
  const at = index === null || index < 0 ? body.rows : index;
  if (at > body.rows) refuse('InvalidArgument', 'There is no such row in the table.');
  const lane = { start: body.column, count: body.columns };
  const below = {
    row: body.row + at,
    column: body.column,
    rows: MAX_ROWS - body.row - at,
    columns: body.columns,
  };
  if (
    at < body.rows ||
    table.showTotals ||
    sheet.cells.in(below).length > 0 ||
    model.tablesOn(sheet, below).length > 1
  ) {
    shiftCells(model, sheet, { axis: 'rows', at: body.row + at, count, lane }, origin);
  }
  const rows = table.area.rows + count;
  const next = store(model, { ...model.table(table.id), area: { ...table.area, rows } }, origin);
  copyStyles(model, sheet, next, at, count);
  fillFormulas(model, sheet, next, at, count, origin);
  return at;
}

export function deleteRows(
  model: WorkbookModel,
  table: TableModel,
  index: number,
  count: number,
  origin: Origin,
): void {
  const body = bodyArea(table);
  if (index < 0 || index + count > body.rows) refuse('InvalidArgument', 'There is no such row in the table.');
  const sheet = model.sheet(table.sheetId);
  const lane = { start: body.column, count: body.columns };
  if (count === body.rows) {
    // the last row stays, empty
    model.clear(sheet, { ...body, row: body.row, rows: 1 }, 'contents', origin);
    if (count > 1)
      shiftCells(model, sheet, { axis: 'rows', at: body.row + 1, count: 1 - count, lane }, origin);
  } else {
    shiftCells(model, sheet, { axis: 'rows', at: body.row + index, count: -count, lane }, origin);
  }
}

export function addColumn(
  model: WorkbookModel,
  table: TableModel,
  index: number | null,
  name: string | null,
  origin: Origin,
): number {
  const sheet = model.sheet(table.sheetId);
  const { area } = table;
  const at = index === null || index < 0 ? area.columns : index;
  if (at > area.columns) refuse('InvalidArgument', 'There is no such column in the table.');
  const lane = { start: area.row, count: area.rows };
  const right = { ...area, column: area.column + at, columns: 16_384 - area.column - at };
  if (at < area.columns || sheet.cells.in(right).length > 0) {
    shiftCells(model, sheet, { axis: 'columns', at: area.column + at, count: 1, lane }, origin);
  }
  const names = table.columns.map((column) => column.name);
  const fresh = { id: nextColumnId(table.columns), name: freeName(name ?? `Column${String(at + 1)}`, names) };
  const columns = table.columns.toSpliced(at, 0, fresh);
  const next = store(model, { ...table, area: { ...area, columns: area.columns + 1 }, columns }, origin);
  writeHeaders(model, sheet, next, origin);
  return at;
}

export function deleteColumn(model: WorkbookModel, table: TableModel, index: number, origin: Origin): void {
  if (index < 0 || index >= table.columns.length)
    refuse('InvalidArgument', 'There is no such column in the table.');
  if (table.columns.length === 1) return remove(model, table, false, origin);
  const lane = { start: table.area.row, count: table.area.rows };
  const at = table.area.column + index;
  shiftCells(model, model.sheet(table.sheetId), { axis: 'columns', at, count: -1, lane }, origin);
}

export function remove(model: WorkbookModel, table: TableModel, keepCells: boolean, origin: Origin): void {
  const sheet = model.sheet(table.sheetId);
  model.setState({ tables: model.tables.filter((other) => other.id !== table.id) });
  if (!keepCells) model.clear(sheet, table.area, 'all', origin);
  applyFilters(model, sheet);
  model.emit({ kind: 'table', what: 'removed', tableId: table.id, sheetId: sheet.id, origin });
}

export function showTotals(model: WorkbookModel, table: TableModel, show: boolean, origin: Origin): void {
  if (show === table.showTotals) return;
  const sheet = model.sheet(table.sheetId);
  const lane = { start: table.area.column, count: table.area.columns };
  const end = table.area.row + table.area.rows;
  if (show) {
    shiftCells(model, sheet, { axis: 'rows', at: end, count: 1, lane }, origin);
    store(model, { ...table, showTotals: true, area: { ...table.area, rows: table.area.rows + 1 } }, origin);
    const first = sheet.cells.get(end, table.area.column);
    model.put(sheet, end, table.area.column, { ...first, value: 'Total' });
    model.emit({
      kind: 'cells',
      sheetId: sheet.id,
      area: totalsArea(model.table(table.id)) ?? table.area,
      origin,
    });
  } else {
    store(model, { ...table, showTotals: false, area: { ...table.area, rows: table.area.rows - 1 } }, origin);
    shiftCells(model, sheet, { axis: 'rows', at: end - 1, count: -1, lane }, origin);
  }
}

export function showHeaders(model: WorkbookModel, table: TableModel, show: boolean, origin: Origin): void {
  if (show === table.showHeaders) return;
  const sheet = model.sheet(table.sheetId);
  const { area } = table;
  const grown = show
    ? { ...area, row: area.row - 1, rows: area.rows + 1 }
    : { ...area, row: area.row + 1, rows: area.rows - 1 };
  if (show && area.row === 0)
    refuse('InvalidOperation', 'There is no room for a header row above the table.');
  if (!show) model.clear(sheet, { ...area, rows: 1 }, 'contents', origin);
  const next = store(model, { ...model.table(table.id), showHeaders: show, area: grown }, origin);
  writeHeaders(model, sheet, next, origin);
}
