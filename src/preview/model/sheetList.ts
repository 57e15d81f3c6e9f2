/** Adding, removing, renaming and ordering sheets. */
import { refuse } from './error.ts';
import { rewriteFormulas } from './moving.ts';
import { renameSheetIn } from './references.ts';
import { SheetModel } from './sheet.ts';
import type { Origin, SheetVisibility } from './types.ts';
import type { WorkbookModel } from './workbook.ts';

function checkName(model: WorkbookModel, name: string, self?: SheetModel): void {
  if (name === '' || name.length > 31 || /[\\/?*[\]:]/.test(name) || /^'|'$/.test(name)) {
    refuse('InvalidArgument', `"${name}" cannot be the name of a sheet.`);
  }
  const other = model.sheets.find((sheet) => sheet.name.toLowerCase() === name.toLowerCase());
  if (other && other !== self) refuse('ItemAlreadyExists', `There is already a sheet "${other.name}".`);
}

function freeSheetName(model: WorkbookModel): string {
  for (let n = model.sheets.length + 1; ; n++) {
    const name = `Sheet${String(n)}`;
    if (!model.findSheet(name)) return name;
  }
}

export function add(model: WorkbookModel, name: string | null, origin: Origin, at?: number): SheetModel {
  const wanted = name ?? freeSheetName(model);
  checkName(model, wanted);
  const sheet = new SheetModel(model.nextId('S'), wanted);
  model.setState({ sheets: model.sheets.toSpliced(at ?? model.sheets.length, 0, sheet) });
  model.emit({ kind: 'sheet', what: 'added', sheetId: sheet.id, origin });
  return sheet;
}

function isLastVisible(model: WorkbookModel, sheet: SheetModel): boolean {
  return !model.sheets.some((other) => other !== sheet && other.layout.visibility === 'visible');
}

function leave(model: WorkbookModel, sheet: SheetModel, origin: Origin): void {
  if (model.active !== sheet) return;
  const at = model.sheets.indexOf(sheet);
  const visible = (other: SheetModel): boolean => other !== sheet && other.layout.visibility === 'visible';
  const next = model.sheets.slice(at).find(visible) ?? model.sheets.slice(0, at).findLast(visible);
  if (next) model.activate(next, origin);
}

/** Excel cannot undo this, so the way back of earlier edits ends here as well. */
export function remove(model: WorkbookModel, sheet: SheetModel, origin: Origin): void {
  if (isLastVisible(model, sheet)) refuse('InvalidOperation', 'A workbook must keep one visible sheet.');
  leave(model, sheet, origin);
  const gone = model.state.tables.filter((table) => table.sheetId === sheet.id);
  model.state = {
    ...model.state,
    sheets: model.sheets.filter((other) => other !== sheet),
    tables: model.state.tables.filter((table) => table.sheetId !== sheet.id),
    names: model.state.names.filter((entry) => entry.sheetId !== sheet.id),
  };
  rewriteFormulas(model, (formula) => renameSheetIn(formula, sheet.name, null), origin);
  model.undoStack.clear();
  for (const table of gone) {
    model.emit({ kind: 'table', what: 'removed', tableId: table.id, sheetId: sheet.id, origin });
  }
  model.emit({ kind: 'sheet', what: 'removed', sheetId: sheet.id, origin });
}

export function rename(model: WorkbookModel, sheet: SheetModel, name: string, origin: Origin): void {
  checkName(model, name, sheet);
  const before = sheet.name;
  if (before === name) return;
  model.replaceLayout(sheet, { name });
  rewriteFormulas(model, (formula) => renameSheetIn(formula, before, name), origin);
  model.emit({ kind: 'sheet', what: 'renamed', sheetId: sheet.id, origin });
}

export function move(model: WorkbookModel, sheet: SheetModel, position: number, origin: Origin): void {
  if (position < 0 || position >= model.sheets.length)
    refuse('InvalidArgument', 'There is no such position.');
  const rest = model.sheets.filter((other) => other !== sheet);
  model.setState({ sheets: rest.toSpliced(position, 0, sheet) });
  model.emit({ kind: 'sheet', what: 'moved', sheetId: sheet.id, origin });
}

export function show(
  model: WorkbookModel,
  sheet: SheetModel,
  visibility: SheetVisibility,
  origin: Origin,
): void {
  if (sheet.layout.visibility === visibility) return;
  if (visibility !== 'visible') {
    if (isLastVisible(model, sheet)) refuse('InvalidOperation', 'A workbook must keep one visible sheet.');
    leave(model, sheet, origin);
  }
  model.replaceLayout(sheet, { visibility });
  model.emit({ kind: 'sheet', what: 'shown', sheetId: sheet.id, origin });
}
