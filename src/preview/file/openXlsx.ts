/**
 * Opens a workbook file. The parts are read directly: that keeps each cell's format number, which is what saving
 * needs to leave the rest of the file alone.
 */
import { contains, MAX_COLUMNS, parseArea, splitSheet } from '../model/address.ts';
import { SheetModel, type PageLayout, type SheetVisibility } from '../model/sheet.ts';
import type { Shift } from '../model/shift.ts';
import type { NameModel, TableModel } from '../model/tables.ts';
import type { Area, Cell } from '../model/types.ts';
import { WorkbookModel } from '../model/workbook.ts';
import type { FileNote, SheetBaseline, TableBaseline, XlsxBook } from './book.ts';
import { readTheme } from './colors.ts';
import { fromFileFormula } from './formulas.ts';
import { FileFault, type FileProblem } from './problems.ts';
import { readSheet } from './readSheet.ts';
import { readTable } from './readTable.ts';
import { readRelations, type Relation } from './relations.ts';
import { isSettingsPart, readSettings, SETTINGS_ID } from './settings.ts';
import { SharedStrings } from './sharedStrings.ts';
import { EMPTY_STYLES } from './blank.ts';
import { StyleTable } from './styles.ts';
import { childOf, childrenOf, flag, parseXml, withoutPrefix, type XmlNode } from './xml.ts';
import { ZipPackage, type ZipLimits, ZIP_LIMITS } from './zip.ts';

export type OpenResult = { ok: true; book: XlsxBook } | { ok: false; problem: FileProblem };

/**
 * Reads an .xlsx or .xlsm file into a workbook model.
 *
 * @returns the book, or why it could not be opened ({@link describeFileProblem} has the sentence); never throws for
 *   what a file contains
 * @example const opened = openXlsx(bytes); if (opened.ok) opened.book.model.sheets[0]?.name // "Sheet1"
 */
export function openXlsx(bytes: Uint8Array, name = 'Book1.xlsx', limits: ZipLimits = ZIP_LIMITS): OpenResult {
  try {
    return { ok: true, book: readBook(new ZipPackage(bytes, limits), name) };
  } catch (fault) {
    if (fault instanceof FileFault) return { ok: false, problem: fault.problem };
    throw fault;
  }
}

function findWorkbook(zip: ZipPackage): string {
  if (zip.resolve('[Content_Types].xml') === undefined) throw new FileFault({ code: 'no-workbook' });
  const main = readRelations(zip, '').find((relation) => relation.type === 'officeDocument')?.target;
  const part = main === undefined ? undefined : zip.resolve(main);
  if (part === undefined) throw new FileFault({ code: 'no-workbook' });
  if (part.toLowerCase().endsWith('.bin')) throw new FileFault({ code: 'binary-workbook' });
  return part;
}

const VISIBILITIES: readonly SheetVisibility[] = ['visible', 'hidden', 'veryHidden'];

function readBook(zip: ZipPackage, fileName: string): XlsxBook {
  const workbookPart = findWorkbook(zip);
  const root = parseXml(withoutPrefix(zip.textOf(workbookPart) ?? ''), workbookPart);
  if (root.name !== 'workbook') throw new FileFault({ code: 'no-workbook', part: workbookPart });
  const relations = readRelations(zip, workbookPart);
  const partOf = (type: string): string | undefined =>
    relations.find((relation) => relation.type === type)?.target;
  const stylesPart = partOf('styles');
  const themePart = partOf('theme');
  const theme = readTheme(themePart === undefined ? undefined : zip.textOf(themePart), themePart ?? '');
  const styles = new StyleTable(withoutPrefix((stylesPart && zip.textOf(stylesPart)) ?? EMPTY_STYLES), theme);
  const stringsPart = partOf('sharedStrings');
  const stringsXml = stringsPart === undefined ? undefined : zip.textOf(stringsPart);
  const strings = new SharedStrings(stringsXml === undefined ? undefined : withoutPrefix(stringsXml));

  const listed = childrenOf(childOf(root, 'sheets'), 'sheet').flatMap((node) => {
    const relation = relations.find((own) => own.id === node.attributes['id']);
    return relation?.type === 'worksheet' ? [{ node, relation }] : [];
  });
  if (listed.length === 0) throw new FileFault({ code: 'no-sheets' });
  const model = new WorkbookModel({
    name: fileName,
    sheets: listed.map(({ node }) => node.attributes['name'] ?? ''),
  });
  const sheets = new Map<string, SheetBaseline>();
  const tables = new Map<string, TableBaseline>();
  listed.forEach(({ node, relation }, i) => {
    const sheet = model.sheets[i];
    if (sheet === undefined) return;
    const found = loadTables(zip, model, sheet, relation.target);
    for (const table of found) tables.set(table.table.id, table);
    sheets.set(
      sheet.id,
      loadSheet({ zip, model, sheet, node, relation, theme, styles, strings, tables: found }),
    );
  });
  const names = loadNames(model, root);
  for (const [id, own] of sheets) {
    const sheet = model.sheets.find((other) => other.id === id);
    if (sheet !== undefined) sheets.set(id, { ...own, layout: sheet.layout });
  }
  activateShown(model, root, listed);
  const xmlParts = loadXmlParts(zip, model, relations);
  const settings = readSettings(xmlParts);
  for (const [key, json] of settings) model.setSetting(key, json, 'file');
  model.undoStack.clear();
  return {
    model,
    zip,
    workbookPart,
    stylesPart,
    theme,
    sheets,
    tables,
    xmlParts,
    names,
    order: model.sheets.map((sheet) => sheet.id),
    settings,
    shifts: followShifts(model),
    notes: readNotes(root, relations),
  };
}

interface SheetLoad {
  readonly zip: ZipPackage;
  readonly model: WorkbookModel;
  readonly sheet: SheetModel;
  readonly node: XmlNode;
  readonly relation: Relation;
  readonly theme: readonly string[];
  readonly styles: StyleTable;
  readonly strings: SharedStrings;
  readonly tables: readonly TableBaseline[];
}

function loadSheet({
  zip,
  model,
  sheet,
  node,
  relation,
  theme,
  styles,
  strings,
  tables,
}: SheetLoad): SheetBaseline {
  const xml = zip.textOf(relation.target);
  if (xml === undefined) throw new FileFault({ code: 'damaged', part: relation.target });
  const state = node.attributes['state'];
  const file = readSheet(
    {
      xml,
      part: relation.target,
      name: sheet.name,
      visibility: VISIBILITIES.find((own) => own === state) ?? 'visible',
      relations: readRelations(zip, relation.target),
      theme,
      filtered: tables.filter(({ table }) => table.filter.size > 0).map(({ table }) => table.area),
    },
    {
      strings,
      styles,
      tableAt: (row, column) => tables.find(({ table }) => contains(table.area, row, column))?.table.name,
    },
  );
  const cells = new Map<number, Cell>();
  for (const { row, column, cell } of file.grid.cells) {
    model.put(sheet, row, column, cell);
    cells.set(row * MAX_COLUMNS + column, cell);
  }
  sheet.layout = file.layout;
  sheet.protection = file.protection;
  return {
    part: relation.target,
    relationId: relation.id,
    sheetNumber: node.attributes['sheetId'] ?? '1',
    layout: file.layout,
    protection: file.protection,
    cells,
    rows: file.grid.rows,
    columnFormats: file.columnFormats,
  };
}

function loadTables(zip: ZipPackage, model: WorkbookModel, sheet: SheetModel, part: string): TableBaseline[] {
  return readRelations(zip, part).flatMap((relation) => {
    if (relation.type !== 'table') return [];
    const xml = zip.textOf(relation.target);
    if (xml === undefined) return [];
    const table: TableModel = model.adoptTable(readTable(xml, relation.target, sheet.id));
    return [{ part: relation.target, relationId: relation.id, table }];
  });
}

/** Reads the defined names; the built-in ones that the model keeps elsewhere go there. */
function loadNames(model: WorkbookModel, root: XmlNode): NameModel[] {
  const allSheets = childrenOf(childOf(root, 'sheets'), 'sheet').map((node) => node.attributes['name']);
  const names: NameModel[] = [];
  for (const { attributes: a, text } of childrenOf(childOf(root, 'definedNames'), 'definedName')) {
    const name = a['name'] ?? '';
    const local = a['localSheetId'];
    const sheet = local === undefined ? undefined : model.findSheet(allSheets[Number(local)] ?? '');
    if (local !== undefined && sheet === undefined) continue;
    if (name.startsWith('_xlnm.')) {
      if (sheet !== undefined)
        sheet.layout = { ...sheet.layout, page: withPrintName(sheet.layout.page, name, text) };
      continue;
    }
    names.push({
      name,
      sheetId: sheet?.id ?? null,
      formula: fromFileFormula(text),
      visible: !flag(a['hidden']),
      comment: a['comment'] ?? '',
    });
  }
  model.setState({ names });
  return names;
}

/** The areas of a reference list such as `'Sheet 1'!$A:$B,'Sheet 1'!$1:$2`. */
function listedAreas(text: string): Area[] {
  return text.split(/,(?=(?:[^']*'[^']*')*[^']*$)/).flatMap((ref) => parseArea(splitSheet(ref).rest) ?? []);
}

function withPrintName(page: PageLayout, name: string, text: string): PageLayout {
  const areas = listedAreas(text);
  if (name === '_xlnm.Print_Area') return { ...page, printArea: areas };
  if (name !== '_xlnm.Print_Titles') return page;
  const rows = areas.find((area) => area.columns === MAX_COLUMNS);
  const columns = areas.find((area) => area !== rows);
  return {
    ...page,
    titleRows: rows === undefined ? null : { start: rows.row, count: rows.rows },
    titleColumns: columns === undefined ? null : { start: columns.column, count: columns.columns },
  };
}

function activateShown(model: WorkbookModel, root: XmlNode, listed: readonly { node: XmlNode }[]): void {
  const all = childrenOf(childOf(root, 'sheets'), 'sheet');
  const tab = Number(childOf(childOf(root, 'bookViews'), 'workbookView')?.attributes['activeTab'] ?? 0);
  const wanted = model.sheets[listed.findIndex(({ node }) => node === all[tab])];
  const shown = [wanted, ...model.sheets].find((sheet) => sheet?.layout.visibility === 'visible');
  if (shown !== undefined) model.activate(shown, 'file');
}

function loadXmlParts(
  zip: ZipPackage,
  model: WorkbookModel,
  relations: readonly Relation[],
): Map<string, { part: string; xml: string }> {
  const parts = new Map<string, { part: string; xml: string }>();
  for (const relation of relations) {
    if (relation.type !== 'customXml') continue;
    const xml = zip.textOf(relation.target);
    if (xml === undefined) continue;
    if (isSettingsPart(xml)) {
      parts.set(SETTINGS_ID, { part: relation.target, xml });
      continue;
    }
    const properties = readRelations(zip, relation.target).find((own) => own.type === 'customXmlProps');
    const propertiesXml = properties === undefined ? undefined : zip.textOf(properties.target);
    const id = /itemID="([^"]+)"/.exec(propertiesXml ?? '')?.[1];
    const part = model.addXmlPart(xml, 'file', id);
    parts.set(part.id, { part: relation.target, xml });
  }
  return parts;
}

/** Notes down lines that come and go, for the parts of a file that the model does not hold (comments, drawings). */
function followShifts(model: WorkbookModel): Map<string, Shift[]> {
  const shifts = new Map<string, Shift[]>();
  model.subscribe((change) => {
    if (change.kind !== 'inserted' && change.kind !== 'deleted') return;
    const list = shifts.get(change.sheetId) ?? [];
    shifts.set(change.sheetId, list);
    list.push({
      axis: change.axis,
      at: change.at,
      count: change.kind === 'inserted' ? change.count : -change.count,
      ...(change.lane === undefined ? {} : { lane: change.lane }),
    });
  });
  return shifts;
}

function readNotes(root: XmlNode, relations: readonly Relation[]): FileNote[] {
  const notes: FileNote[] = [];
  if (flag(childOf(root, 'workbookPr')?.attributes['date1904'])) notes.push('date1904');
  if (relations.some((relation) => relation.type === 'vbaProject')) notes.push('macros');
  return notes;
}
