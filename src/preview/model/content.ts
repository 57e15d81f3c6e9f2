/** Writing, clearing, styling and copying the content of cells. */
import { MAX_COLUMNS, MAX_ROWS, contains, intersect } from './address.ts';
import { refuse } from './error.ts';
import { readInput } from './input.ts';
import { formulaProblem, offsetReferences } from './references.ts';
import { dropSpill } from './results.ts';
import type { SheetModel } from './sheet.ts';
import { followEdit } from './tableFollow.ts';
import type { Area, Cell, CellStyle, Origin } from './types.ts';
import type { Input, WorkbookModel } from './workbook.ts';

export type CopyWhat = 'all' | 'formulas' | 'values' | 'formats';

/** A cell without content, or undefined where nothing is left to store. */
function bare(cell: Cell | undefined, inherited: CellStyle): Cell | undefined {
  const style = cell?.style ?? (Object.keys(inherited).length > 0 ? inherited : undefined);
  if (style === undefined && cell?.fileFormat === undefined) return undefined;
  return {
    value: null,
    ...(style === undefined ? {} : { style }),
    ...(cell?.fileFormat === undefined ? {} : { fileFormat: cell.fileFormat }),
  };
}

/** Puts new content into a cell, keeping its style; a spill that ends or is broken by it is taken away. */
function setContent(
  model: WorkbookModel,
  sheet: SheetModel,
  row: number,
  column: number,
  next: Cell | undefined,
): void {
  const before = sheet.cells.get(row, column);
  if (before?.spill || before?.spilledFrom) dropSpill(model, sheet, row, column);
  model.put(sheet, row, column, next);
}

function enterCell(model: WorkbookModel, sheet: SheetModel, row: number, column: number, input: Input): void {
  const before = sheet.cells.get(row, column);
  const style = sheet.styleAt(row, column);
  const base = bare(before, style);
  if (input === null) {
    if (before) setContent(model, sheet, row, column, base);
    return;
  }
  const entered = readInput(input, { numberFormat: style.numberFormat ?? 'General', year: model.year });
  if (entered.formula !== undefined) {
    const problem = formulaProblem(entered.formula);
    if (problem)
      refuse('InvalidArgument', `There is a problem with the formula ${entered.formula}: ${problem}.`);
  } else if (entered.value === null) {
    if (before) setContent(model, sheet, row, column, base);
    return;
  }
  const cell: Cell = { ...base, value: entered.value };
  if (entered.formula !== undefined) cell.formula = entered.formula;
  if (entered.numberFormat !== undefined && (style.numberFormat ?? 'General') === 'General') {
    cell.style = { ...style, numberFormat: entered.numberFormat };
    delete cell.fileFormat;
  }
  setContent(model, sheet, row, column, cell);
}

export function enterBlock(
  model: WorkbookModel,
  sheet: SheetModel,
  area: Area,
  inputs: readonly (readonly (Input | undefined)[])[],
  origin: Origin,
): void {
  for (let i = 0; i < area.rows; i++) {
    for (let j = 0; j < area.columns; j++) {
      const input = inputs[i]?.[j];
      if (input !== undefined) enterCell(model, sheet, area.row + i, area.column + j, input);
    }
  }
  model.emit({ kind: 'cells', sheetId: sheet.id, area, origin });
  followEdit(model, sheet, area, origin);
}

/** Merges a patch into a style, borders edge by edge. */
export function patchedStyle(before: CellStyle, patch: CellStyle): CellStyle {
  const next: CellStyle = { ...before, ...patch };
  if (patch.borders) next.borders = { ...before.borders, ...patch.borders };
  return next;
}

/** Gives every cell of the area the style worked out from its present one; whole columns and rows get defaults. */
export function style(
  model: WorkbookModel,
  sheet: SheetModel,
  area: Area,
  next: (before: CellStyle, row: number, column: number) => CellStyle,
  origin: Origin,
): void {
  const wholeColumns = area.rows === MAX_ROWS;
  const wholeRows = !wholeColumns && area.columns === MAX_COLUMNS;
  const restyle = (row: number, column: number, cell: Cell | undefined): void => {
    const changed: Cell = {
      ...cell,
      value: cell?.value ?? null,
      style: next(sheet.styleAt(row, column), row, column),
    };
    delete changed.fileFormat;
    model.put(sheet, row, column, changed);
  };
  if (wholeColumns || wholeRows) {
    for (const { row, column, cell } of sheet.cells.in(area)) restyle(row, column, cell);
  } else {
    for (let row = area.row; row < area.row + area.rows; row++) {
      for (let column = area.column; column < area.column + area.columns; column++) {
        restyle(row, column, sheet.cells.get(row, column));
      }
    }
  }
  if (wholeColumns) {
    const columnStyles = new Map(sheet.layout.columnStyles);
    for (let c = area.column; c < area.column + area.columns; c++) {
      columnStyles.set(c, next(columnStyles.get(c) ?? {}, 0, c));
    }
    model.replaceLayout(sheet, { columnStyles });
  } else if (wholeRows) {
    const rowStyles = new Map(sheet.layout.rowStyles);
    for (let r = area.row; r < area.row + area.rows; r++)
      rowStyles.set(r, next(rowStyles.get(r) ?? {}, r, 0));
    model.replaceLayout(sheet, { rowStyles });
  }
  model.emit({ kind: 'styles', sheetId: sheet.id, area, origin });
}

export function clear(
  model: WorkbookModel,
  sheet: SheetModel,
  area: Area,
  what: 'all' | 'contents' | 'formats',
  origin: Origin,
): void {
  for (const { row, column, cell } of sheet.cells.in(area)) {
    if (what !== 'formats') {
      // a cell of a spill whose anchor stays has no content of its own to clear
      const anchor = cell.spilledFrom;
      if (anchor && !contains(area, anchor.row, anchor.column)) continue;
      setContent(model, sheet, row, column, what === 'all' ? undefined : bare(cell, {}));
    } else if (cell.style !== undefined || cell.fileFormat !== undefined) {
      const next: Cell = { ...cell };
      delete next.style;
      delete next.fileFormat;
      model.put(sheet, row, column, next.value === null && next.formula === undefined ? undefined : next);
    }
  }
  if (what !== 'contents') clearDefaults(model, sheet, area);
  if (what !== 'formats') model.emit({ kind: 'cells', sheetId: sheet.id, area, origin });
  if (what !== 'contents') model.emit({ kind: 'styles', sheetId: sheet.id, area, origin });
  if (what !== 'formats') followEdit(model, sheet, area, origin);
}

function clearDefaults(model: WorkbookModel, sheet: SheetModel, area: Area): void {
  if (area.rows === MAX_ROWS && sheet.layout.columnStyles.size > 0) {
    const kept = [...sheet.layout.columnStyles].filter(([c]) => !contains(area, 0, c));
    model.replaceLayout(sheet, { columnStyles: new Map(kept) });
  }
  if (area.columns === MAX_COLUMNS && sheet.layout.rowStyles.size > 0) {
    const kept = [...sheet.layout.rowStyles].filter(([r]) => !contains(area, r, 0));
    model.replaceLayout(sheet, { rowStyles: new Map(kept) });
  }
}

export function copy(
  model: WorkbookModel,
  from: SheetModel,
  source: Area,
  to: SheetModel,
  target: Area,
  what: CopyWhat,
  origin: Origin,
): void {
  const rows = Math.max(target.rows, source.rows);
  const columns = Math.max(target.columns, source.columns);
  const whole = { row: target.row, column: target.column, rows, columns };
  const used = from.cells.used(() => true) ?? { row: 0, column: 0, rows: 1, columns: 1 };
  // read everything first: source and target may overlap
  const writes: { row: number; column: number; cell: Cell | undefined }[] = [];
  for (
    let i = 0;
    i < rows && (rows <= used.rows + used.row || i < used.row + used.rows || i < target.rows);
    i++
  ) {
    for (let j = 0; j < columns; j++) {
      const [si, sj] = [source.row + (i % source.rows), source.column + (j % source.columns)];
      const [row, column] = [target.row + i, target.column + j];
      writes.push({ row, column, cell: copied(from, si, sj, to, row, column, what) });
    }
  }
  for (const { row, column, cell } of writes) {
    if (what === 'formats') model.put(to, row, column, cell);
    else setContent(model, to, row, column, cell);
  }
  if (what !== 'formats') model.emit({ kind: 'cells', sheetId: to.id, area: whole, origin });
  if (what === 'all' || what === 'formats')
    model.emit({ kind: 'styles', sheetId: to.id, area: whole, origin });
  if (what !== 'formats' && intersect(whole, whole)) followEdit(model, to, whole, origin);
}

function copied(
  from: SheetModel,
  row: number,
  column: number,
  to: SheetModel,
  toRow: number,
  toColumn: number,
  what: CopyWhat,
): Cell | undefined {
  const cell = from.cells.get(row, column);
  const old = to.cells.get(toRow, toColumn);
  const style =
    what === 'all' || what === 'formats' ? from.styleAt(row, column) : to.styleAt(toRow, toColumn);
  const styled = Object.keys(style).length > 0 ? { style } : {};
  if (what === 'formats') {
    const next: Cell = { ...old, value: old?.value ?? null, ...styled };
    if (!('style' in styled)) delete next.style;
    return next;
  }
  if (!cell || (cell.value === null && cell.formula === undefined)) return bare(undefined, style);
  const next: Cell = { value: cell.value, ...styled };
  if (what !== 'values' && cell.formula !== undefined) {
    next.formula = offsetReferences(cell.formula, toRow - row, toColumn - column);
  }
  return next;
}
