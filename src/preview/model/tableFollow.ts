/** How tables follow what is typed into and beside them. */
import { contains, intersect, sameArea } from './address.ts';
import { rewriteFormulas } from './moving.ts';
import { offsetReferences, renameColumnIn } from './references.ts';
import type { SheetModel } from './sheet.ts';
import { bodyArea, headerArea, type TableModel } from './tables.ts';
import type { Area, Origin } from './types.ts';
import type { WorkbookModel } from './workbook.ts';

import { readHeaders, store, writeHeaders } from './tableParts.ts';
import { resize } from './tableOps.ts';

/**
 * After cells were written: header cells rename their columns, and what a user types right below or beside a table
 * makes it grow, as Excel's autocorrection does (it does not for add-ins).
 */
export function followEdit(model: WorkbookModel, sheet: SheetModel, area: Area, origin: Origin): void {
  if (origin === 'file' || origin === 'calculation') return;
  for (const table of model.tablesOn(sheet)) {
    const header = headerArea(table);
    if (header && intersect(header, area)) followHeaders(model, sheet, table, header, origin);
    else if (origin === 'user') growAfter(model, sheet, table, area);
    if (table.filter.size === 0 && origin === 'user') fillColumn(model, sheet, table, area);
  }
}

function followHeaders(
  model: WorkbookModel,
  sheet: SheetModel,
  table: TableModel,
  header: Area,
  origin: Origin,
): void {
  const columns = readHeaders(sheet, header, table.columns);
  columns.forEach((column, i) => {
    const before = table.columns[i];
    if (!before || before.name === column.name) return;
    rewriteFormulas(
      model,
      (formula, home, at) => {
        const inside = home === sheet && at !== undefined && contains(table.area, at.row, at.column);
        return renameColumnIn(formula, table.name, before.name, column.name, inside);
      },
      origin,
    );
  });
  const renamed = columns.some((column, i) => column.name !== table.columns[i]?.name);
  const next = renamed ? store(model, { ...table, columns }, origin) : table;
  writeHeaders(model, sheet, next, origin);
}

function growAfter(model: WorkbookModel, sheet: SheetModel, table: TableModel, area: Area): void {
  const { row, column, rows, columns } = table.area;
  const below = { row: row + rows, column, rows: 1, columns };
  const beside = { row, column: column + columns, rows, columns: 1 };
  const filled = sheet.cells.in(area).some(({ cell }) => cell.value !== null || cell.formula !== undefined);
  if (!filled) return;
  const isFree = (target: Area): boolean =>
    sheet.cells
      .in(target)
      .every((p) => contains(area, p.row, p.column) || (p.cell.value === null && !p.cell.formula));
  if (
    !table.showTotals &&
    area.rows === 1 &&
    intersect(area, below) &&
    area.row === below.row &&
    isFree(below)
  ) {
    resize(model, table, { ...table.area, rows: rows + 1 }, 'user');
  } else if (
    area.columns === 1 &&
    intersect(area, beside) &&
    area.column === beside.column &&
    isFree(beside)
  ) {
    resize(model, table, { ...table.area, columns: columns + 1 }, 'user');
  }
}

/** A formula typed into an otherwise empty column of a table fills the whole column. */
function fillColumn(model: WorkbookModel, sheet: SheetModel, table: TableModel, area: Area): void {
  const body = bodyArea(model.table(table.id));
  if (area.rows !== 1 || area.columns !== 1 || !contains(body, area.row, area.column)) return;
  const formula = sheet.cells.get(area.row, area.column)?.formula;
  if (formula === undefined) return;
  const strip = { ...body, column: area.column, columns: 1 };
  if (sameArea(strip, area)) return;
  const others = sheet.cells
    .in(strip)
    .filter((p) => p.row !== area.row && (p.cell.value !== null || p.cell.formula));
  if (others.length > 0) return;
  for (let row = strip.row; row < strip.row + strip.rows; row++) {
    if (row === area.row) continue;
    const cell = sheet.cells.get(row, area.column);
    const moved = offsetReferences(formula, row - area.row, 0);
    model.put(sheet, row, area.column, { ...cell, value: null, formula: moved });
  }
  model.emit({ kind: 'cells', sheetId: sheet.id, area: strip, origin: 'user' });
}
