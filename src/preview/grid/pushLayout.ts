/** Everything of the model but its cells, pushed into the grid component where it differs. */
import type { IColumnData, IRowData, Workbook, Worksheet } from '@univerjs/core';
import { DEFAULT_COLUMN_PIXELS, DEFAULT_ROW_POINTS, type SheetModel } from '../model/sheet.ts';
import type { WorkbookModel } from '../model/workbook.ts';
import { toGridFormula } from './gridFormula.ts';
import { columnData, freezeOf, pixels, range, rowData, sheetData } from './snapshot.ts';

/** Runs one of the component's mutations on the preview's workbook. */
export type Push = (id: string, params: Record<string, unknown>) => void;

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Adds, removes, renames, moves and hides sheets. */
export function pushSheets(model: WorkbookModel, workbook: Workbook, push: Push): void {
  for (const [index, sheet] of model.sheets.entries()) {
    if (workbook.getSheetBySheetId(sheet.id)) continue;
    push('sheet.mutation.insert-sheet', { index, sheet: sheetData(model, sheet, false) });
  }
  for (const shown of workbook.getSheets()) {
    const id = shown.getSheetId();
    if (!model.sheets.some((sheet) => sheet.id === id))
      push('sheet.mutation.remove-sheet', { subUnitId: id, subUnitName: shown.getName() });
  }
  for (const sheet of model.sheets) {
    const shown = workbook.getSheetBySheetId(sheet.id);
    if (!shown) continue;
    if (shown.getName() !== sheet.name)
      push('sheet.mutation.set-worksheet-name', { subUnitId: sheet.id, name: sheet.name });
    const hidden = sheet.layout.visibility === 'visible' ? 0 : 1;
    if ((shown.isSheetHidden() === 1 ? 1 : 0) !== hidden)
      push('sheet.mutation.set-worksheet-hidden', { subUnitId: sheet.id, hidden });
  }
  for (const [toOrder, sheet] of model.sheets.entries()) {
    const fromOrder = workbook.getConfig().sheetOrder.indexOf(sheet.id);
    if (fromOrder >= 0 && fromOrder !== toOrder)
      push('sheet.mutation.set-worksheet-order', { subUnitId: sheet.id, fromOrder, toOrder });
  }
}

/** Widths, heights, hidden lines, merges, frozen panes, grid lines and tab colour of a sheet. */
export function pushLayout(sheet: SheetModel, shown: Worksheet, push: Push): void {
  const { layout } = sheet;
  const config = shown.getConfig();
  const at = { subUnitId: sheet.id };
  const merges = layout.merges.map(range);
  const merged = config.mergeData.map(({ startRow, startColumn, endRow, endColumn }) => ({
    startRow,
    startColumn,
    endRow,
    endColumn,
  }));
  if (!same(merges, merged)) {
    if (merged.length > 0) push('sheet.mutation.remove-worksheet-merge', { ...at, ranges: merged });
    if (merges.length > 0) push('sheet.mutation.add-worksheet-merge', { ...at, ranges: merges });
  }
  const freeze = freezeOf(layout);
  const { startRow, startColumn, xSplit, ySplit } = config.freeze;
  if (
    !same(freeze, { startRow, startColumn, xSplit, ySplit }) &&
    (freeze.xSplit !== xSplit || freeze.ySplit !== ySplit)
  )
    push('sheet.mutation.set-frozen', { ...at, ...freeze, resetScroll: false });
  const gridlines = layout.showGridlines ? 1 : 0;
  if (config.showGridlines !== gridlines)
    push('sheet.mutation.toggle-gridlines', { ...at, showGridlines: gridlines });
  if ((config.tabColor || '') !== layout.tabColor)
    push('sheet.mutation.set-tab-color', { ...at, color: layout.tabColor });
  pushColumns(sheet, shown, push);
  pushRows(sheet, shown, push);
}

function pushColumns(sheet: SheetModel, shown: Worksheet, push: Push): void {
  const wanted = columnData(sheet.layout);
  const old = shown.getConfig().columnData;
  const update: Record<number, Partial<IColumnData>> = {};
  for (const key of new Set([...Object.keys(wanted), ...Object.keys(old)])) {
    const column = Number(key);
    const next: Partial<IColumnData> = wanted[column] ?? { w: DEFAULT_COLUMN_PIXELS, hd: 0 };
    const before = old[column];
    const differs =
      next.w !== (before?.w ?? DEFAULT_COLUMN_PIXELS) ||
      (next.hd ?? 0) !== (before?.hd ?? 0) ||
      !same(next.s ?? null, before?.s ?? null);
    if (differs) update[column] = next;
  }
  const columns = Object.keys(update).map(Number);
  if (columns.length === 0) return;
  push('sheet.mutation.set-col-data', { subUnitId: sheet.id, columnData: update });
  // The component redraws for this message, not for the one above.
  push('sheet.mutation.set-worksheet-col-width', {
    subUnitId: sheet.id,
    ranges: columns.map((c) => range({ row: 0, column: c, rows: 1, columns: 1 })),
    colWidth: Object.fromEntries(columns.map((c) => [c, update[c]!.w ?? DEFAULT_COLUMN_PIXELS])),
  });
}

function pushRows(sheet: SheetModel, shown: Worksheet, push: Push): void {
  const wanted = rowData(sheet.layout);
  const old = shown.getConfig().rowData;
  const update: Record<number, Partial<IRowData>> = {};
  for (const key of new Set([...Object.keys(wanted), ...Object.keys(old)])) {
    const row = Number(key);
    const next: Partial<IRowData> = wanted[row] ?? { hd: 0 };
    const before = old[row];
    const height = next.h ?? pixels(DEFAULT_ROW_POINTS);
    // The component grows rows by itself (`ah`); that is a view and no height of the model's.
    const differs =
      (next.h !== undefined && next.h !== before?.h) ||
      (next.h === undefined && before?.ia === 0) ||
      (next.hd ?? 0) !== (before?.hd ?? 0) ||
      !same(next.s ?? null, before?.s ?? null);
    if (differs) update[row] = { ...before, ...next, h: height, ia: next.h === undefined ? 1 : 0 };
  }
  const rows = Object.keys(update).map(Number);
  if (rows.length === 0) return;
  push('sheet.mutation.set-row-data', { subUnitId: sheet.id, rowData: update });
  push('sheet.mutation.set-worksheet-row-height', {
    subUnitId: sheet.id,
    ranges: rows.map((r) => range({ row: r, column: 0, rows: 1, columns: 1 })),
    rowHeight: Object.fromEntries(rows.map((r) => [r, update[r]!.h ?? pixels(DEFAULT_ROW_POINTS)])),
  });
}

/** The defined names, by name; the component looks them up when it calculates. */
export function pushNames(model: WorkbookModel, push: Push): void {
  for (const [index, name] of model.names.entries()) {
    const sheet = name.sheetId === null ? model.sheets[0] : model.findSheet(name.sheetId);
    if (sheet === undefined) continue;
    const formula = toGridFormula(name.formula, { model, sheet, row: 0, column: 0 });
    // A name for cells is written without `=`; one for a formula with it.
    const isReference = /^=(?:'(?:[^']|'')+'|[^'!()"]+)!\$?[A-Z]{1,3}\$?\d+(?::\$?[A-Z]{1,3}\$?\d+)?$/i.test(
      formula,
    );
    push('formula.mutation.set-defined-name', {
      id: `name-${String(index)}`,
      name: name.name,
      formulaOrRefString: isReference ? formula.slice(1) : formula,
      localSheetId: name.sheetId ?? 'AllDefaultWorkbook',
      hidden: !name.visible,
    });
  }
}
