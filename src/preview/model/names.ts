/** Defined names. */
import { parseArea, splitSheet } from './address.ts';
import { refuse } from './error.ts';
import type { SheetModel } from './sheet.ts';
import { isValidName, type NameModel } from './tables.ts';
import type { Area, Origin } from './types.ts';
import type { WorkbookModel } from './workbook.ts';

export function add(model: WorkbookModel, entry: NameModel, origin: Origin): void {
  if (!isValidName(entry.name) && !entry.name.startsWith('_xlnm.')) {
    refuse('InvalidArgument', `"${entry.name}" cannot be a name.`);
  }
  if (model.findName(entry.name, entry.sheetId) || (entry.sheetId === null && model.findTable(entry.name))) {
    refuse('ItemAlreadyExists', `There is already a name "${entry.name}".`);
  }
  model.setState({ names: [...model.names, entry] });
  model.emit({ kind: 'name', name: entry.name, origin });
}

export function change(
  model: WorkbookModel,
  name: string,
  sheetId: string | null,
  patch: Partial<NameModel>,
  origin: Origin,
): void {
  const entry = model.findName(name, sheetId) ?? refuse('ItemNotFound', `There is no name "${name}".`);
  model.setState({ names: model.names.map((other) => (other === entry ? { ...entry, ...patch } : other)) });
  model.emit({ kind: 'name', name, origin });
}

export function remove(model: WorkbookModel, name: string, sheetId: string | null, origin: Origin): void {
  const entry = model.findName(name, sheetId) ?? refuse('ItemNotFound', `There is no name "${name}".`);
  model.setState({ names: model.names.filter((other) => other !== entry) });
  model.emit({ kind: 'name', name, origin });
}

export function area(model: WorkbookModel, entry: NameModel): { sheet: SheetModel; area: Area } | null {
  const { sheet: sheetName, rest } = splitSheet(entry.formula.replace(/^=/, ''));
  const found = parseArea(rest);
  const sheet = sheetName === null ? undefined : model.findSheet(sheetName);
  return found && sheet ? { sheet, area: found } : null;
}
