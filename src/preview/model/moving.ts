/** Inserting and deleting cells: everything that points at moved cells moves along. */
import { MAX_COLUMNS, MAX_ROWS, intersect } from './address.ts';
import { refuse } from './error.ts';
import { applyFilters } from './filter.ts';
import { mapReferences } from './references.ts';
import { type Shift, shiftArea, shiftAreas, shiftMap, shiftSet } from './shift.ts';
import type { ConditionalRule, SheetLayout, SheetModel } from './sheet.ts';
import { freeName, type TableModel } from './tables.ts';
import type { Area, Cell, Change, Origin } from './types.ts';
import type { WorkbookModel } from './workbook.ts';

export function insertCells(
  model: WorkbookModel,
  sheet: SheetModel,
  area: Area,
  to: 'down' | 'right',
  origin: Origin,
): void {
  shiftCells(model, sheet, areaShift(area, to === 'down', 1), origin);
}

export function deleteCells(
  model: WorkbookModel,
  sheet: SheetModel,
  area: Area,
  to: 'up' | 'left',
  origin: Origin,
): void {
  shiftCells(model, sheet, areaShift(area, to === 'up', -1), origin);
}

/** A whole row or column moves as one; anything smaller moves in its lane. */
function areaShift(area: Area, vertical: boolean, sign: 1 | -1): Shift {
  if (area.rows === MAX_ROWS) return { axis: 'columns', at: area.column, count: sign * area.columns };
  if (area.columns === MAX_COLUMNS) return { axis: 'rows', at: area.row, count: sign * area.rows };
  return vertical
    ? {
        axis: 'rows',
        at: area.row,
        count: sign * area.rows,
        lane: { start: area.column, count: area.columns },
      }
    : {
        axis: 'columns',
        at: area.column,
        count: sign * area.columns,
        lane: { start: area.row, count: area.rows },
      };
}

/** Whether the shift would move a part of the area and leave the rest. */
function cuts(area: Area, shift: Shift): boolean {
  if (!shift.lane) return false;
  const rows = shift.axis === 'rows';
  const band: Area = rows
    ? { row: shift.at, column: shift.lane.start, rows: MAX_ROWS - shift.at, columns: shift.lane.count }
    : { row: shift.lane.start, column: shift.at, rows: shift.lane.count, columns: MAX_COLUMNS - shift.at };
  if (!intersect(area, band)) return false;
  const [start, size] = rows ? [area.column, area.columns] : [area.row, area.rows];
  return start < shift.lane.start || start + size > shift.lane.start + shift.lane.count;
}

export function shiftCells(model: WorkbookModel, sheet: SheetModel, shift: Shift, origin: Origin): void {
  const tables = model.tablesOn(sheet);
  if (tables.some((table) => cuts(table.area, shift))) {
    refuse('InvalidOperation', 'This operation is not allowed. It would shift cells in a table.');
  }
  if (sheet.layout.merges.some((merge) => cuts(merge, shift))) {
    refuse('InvalidOperation', 'This operation is not allowed. It would split a merged cell.');
  }
  refuseOverflow(sheet, shift);
  const before = sheet.cells.shift(shift);
  model.undoStack.record(() => {
    sheet.cells.restore(before);
  });
  model.replaceLayout(sheet, shiftedLayout(sheet.layout, shift));
  const moved = tables.map((table) => shiftedTable(table, shift));
  model.setState({
    tables: model.tables.flatMap((table) => {
      const at = tables.indexOf(table);
      return at < 0 ? [table] : (moved[at] ?? []);
    }),
  });
  const name = sheet.name.toLowerCase();
  rewriteFormulas(
    model,
    (formula, home) =>
      mapReferences(formula, (prefix, area) =>
        (prefix === null ? home === sheet : prefix.toLowerCase() === name) ? shiftArea(area, shift) : area,
      ),
    origin,
  );
  respill(model, sheet, shift);
  const { axis, at, count, lane } = shift;
  const kind = count > 0 ? 'inserted' : 'deleted';
  const change: Change = {
    kind,
    axis,
    sheetId: sheet.id,
    at,
    count: Math.abs(count),
    origin,
    ...(lane ? { lane } : {}),
  };
  model.emit(change);
  tables.forEach((table, i) => {
    const next = moved[i];
    if (next === table) return;
    if (next && next.columns.length > table.columns.length) nameNewHeaders(model, sheet, next);
    const what = next ? 'changed' : 'removed';
    model.emit({ kind: 'table', what, tableId: table.id, sheetId: sheet.id, origin });
  });
  if (tables.some((table) => table.filter.size > 0) || sheet.layout.autoFilter) applyFilters(model, sheet);
}

function refuseOverflow(sheet: SheetModel, shift: Shift): void {
  if (shift.count <= 0) return;
  const edge: Area =
    shift.axis === 'rows'
      ? { row: MAX_ROWS - shift.count, column: 0, rows: shift.count, columns: MAX_COLUMNS }
      : { row: 0, column: MAX_COLUMNS - shift.count, rows: MAX_ROWS, columns: shift.count };
  if (shift.count >= (shift.axis === 'rows' ? MAX_ROWS : MAX_COLUMNS)) return;
  if (sheet.cells.in(edge).some(({ cell }) => cell.value !== null || cell.formula !== undefined)) {
    refuse('InvalidOperation', 'Cells with content would be pushed off the sheet.');
  }
}

function shiftedLayout(layout: SheetLayout, shift: Shift): Partial<SheetLayout> {
  const whole = !shift.lane;
  const rows = shift.axis === 'rows';
  const rule = (r: ConditionalRule): ConditionalRule => {
    const moved = (text: string): string =>
      mapReferences(text, (p, a) => (p === null ? shiftArea(a, shift) : a));
    if (r.kind === 'custom') return { ...r, formula: moved(r.formula) };
    if (r.kind !== 'cellValue') return r;
    return {
      ...r,
      formula1: moved(r.formula1),
      ...(r.formula2 === undefined ? {} : { formula2: moved(r.formula2) }),
    };
  };
  const span = (part: { start: number; count: number } | null): { start: number; count: number } | null => {
    if (!part || !whole) return part;
    const area = shiftArea(
      rows
        ? { row: part.start, column: 0, rows: part.count, columns: 1 }
        : { row: 0, column: part.start, rows: 1, columns: part.count },
      shift,
    );
    if (!area) return null;
    return rows ? { start: area.row, count: area.rows } : { start: area.column, count: area.columns };
  };
  const filterArea = layout.autoFilter ? shiftArea(layout.autoFilter.area, shift) : null;
  return {
    merges: shiftAreas(layout.merges, shift),
    conditionalFormats: layout.conditionalFormats
      .map((format) => ({ ...format, areas: shiftAreas(format.areas, shift), rule: rule(format.rule) }))
      .filter((format) => format.areas.length > 0),
    validations: layout.validations
      .map((entry) => ({ ...entry, areas: shiftAreas(entry.areas, shift) }))
      .filter((entry) => entry.areas.length > 0),
    links: layout.links.flatMap(({ area, link }) => {
      const moved = shiftArea(area, shift);
      return moved ? [{ area: moved, link }] : [];
    }),
    autoFilter: layout.autoFilter && filterArea ? { ...layout.autoFilter, area: filterArea } : null,
    page: {
      ...layout.page,
      printArea: shiftAreas(layout.page.printArea, shift),
      titleRows: rows ? span(layout.page.titleRows) : layout.page.titleRows,
      titleColumns: rows ? layout.page.titleColumns : span(layout.page.titleColumns),
    },
    ...(whole && rows
      ? {
          rowHeights: shiftMap(layout.rowHeights, shift),
          hiddenRows: shiftSet(layout.hiddenRows, shift),
          filteredRows: shiftSet(layout.filteredRows, shift),
          rowStyles: shiftMap(layout.rowStyles, shift),
          frozen: { ...layout.frozen, rows: frozenCount(layout.frozen.rows, shift) },
        }
      : {}),
    ...(whole && !rows
      ? {
          columnWidths: shiftMap(layout.columnWidths, shift),
          hiddenColumns: shiftSet(layout.hiddenColumns, shift),
          columnStyles: shiftMap(layout.columnStyles, shift),
          frozen: { ...layout.frozen, columns: frozenCount(layout.frozen.columns, shift) },
        }
      : {}),
  };
}

/** An insert inside the frozen part makes it larger, a delete smaller. */
function frozenCount(count: number, shift: Shift): number {
  if (shift.at >= count) return count;
  return shift.count > 0 ? count + shift.count : count - Math.min(count - shift.at, -shift.count);
}

function shiftedTable(table: TableModel, shift: Shift): TableModel | null {
  const area = shiftArea(table.area, shift);
  if (area === table.area || area === null) return area === null ? null : table;
  if (shift.axis === 'rows' && shift.count < 0 && table.showHeaders) {
    const header = { ...table.area, rows: 1 };
    if (shiftArea(header, shift) === null)
      refuse('InvalidOperation', "A table's header row cannot be deleted.");
  }
  // a table keeps one row for its body
  const least = (table.showHeaders ? 1 : 0) + (table.showTotals ? 1 : 0) + 1;
  const whole = { ...area, rows: Math.max(area.rows, least) };
  if (shift.axis === 'rows' || area.columns === table.area.columns) return { ...table, area: whole };
  const at = shift.at - table.area.column;
  if (shift.count < 0) {
    const from = Math.max(0, at);
    return {
      ...table,
      area: whole,
      columns: table.columns.toSpliced(from, table.columns.length - area.columns),
    };
  }
  const added: { id: number; name: string }[] = [];
  for (let i = 0; i < shift.count; i++) {
    const taken = [...table.columns, ...added];
    const name = freeName(
      'Column1',
      taken.map((column) => column.name),
    );
    added.push({ id: Math.max(...taken.map((column) => column.id)) + 1, name });
  }
  return { ...table, area: whole, columns: table.columns.toSpliced(at, 0, ...added) };
}

function nameNewHeaders(model: WorkbookModel, sheet: SheetModel, table: TableModel): void {
  if (!table.showHeaders) return;
  table.columns.forEach((column, i) => {
    const [row, at] = [table.area.row, table.area.column + i];
    const cell = sheet.cells.get(row, at);
    if (cell?.value !== column.name) model.put(sheet, row, at, { ...cell, value: column.name });
  });
}

/** Spilled cells know their anchor by place; after a shift that place has moved too. */
function respill(model: WorkbookModel, sheet: SheetModel, shift: Shift): void {
  for (const { row, column, cell } of sheet.cells.all()) {
    if (!cell.spilledFrom) continue;
    const at = shiftArea({ ...cell.spilledFrom, rows: 1, columns: 1 }, shift);
    if (!at) model.put(sheet, row, column, cell.style ? { value: null, style: cell.style } : undefined);
    else model.put(sheet, row, column, { ...cell, spilledFrom: { row: at.row, column: at.column } });
  }
}

/** Rewrites every formula of the book, those of names included; `home` is the sheet a formula stands on. */
export function rewriteFormulas(
  model: WorkbookModel,
  rewrite: (formula: string, home: SheetModel | null, cell?: { row: number; column: number }) => string,
  origin: Origin,
): void {
  for (const sheet of model.sheets) {
    const changed: [number, number, Cell][] = [];
    for (const { row, column, cell } of sheet.cells.all()) {
      if (cell.formula === undefined) continue;
      const formula = rewrite(cell.formula, sheet, { row, column });
      if (formula !== cell.formula) changed.push([row, column, { ...cell, formula }]);
    }
    for (const [row, column, cell] of changed) {
      model.put(sheet, row, column, cell);
      model.emit({
        kind: 'cells',
        sheetId: sheet.id,
        area: { row, column, rows: 1, columns: 1 },
        origin: 'calculation',
      });
    }
  }
  const names = model.names.map((entry) => {
    const home = entry.sheetId === null ? null : (model.findSheet(entry.sheetId) ?? null);
    const formula = rewrite(entry.formula, home);
    return formula === entry.formula ? entry : { ...entry, formula };
  });
  const touched = names.filter((entry, i) => entry !== model.names[i]);
  if (touched.length === 0) return;
  model.setState({ names });
  for (const entry of touched) model.emit({ kind: 'name', name: entry.name, origin });
}
