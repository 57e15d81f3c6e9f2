/** The workbook part: the list of sheets and the defined names. */
import { areaAddress, MAX_COLUMNS, MAX_ROWS, quoteSheet } from '../model/address.ts';
import type { SheetModel } from '../model/sheet.ts';
import type { Area } from '../model/types.ts';
import type { XlsxBook } from './book.ts';
import { equal } from './equal.ts';
import { toFileFormula } from './formulas.ts';
import {
  withAttribute,
  childOf,
  childrenOf,
  escapeXml,
  parseXml,
  withoutPrefix,
  type XmlNode,
} from './xml.ts';

/** The element list of the workbook that follows `<sheets>` up to `<definedNames>`. */
const BEFORE_NAMES = ['sheets', 'functionGroups', 'externalReferences'];

interface SheetEntry {
  /** undefined for a sheet the model does not hold (a chart sheet). */
  readonly sheet: SheetModel | undefined;
  readonly xml: string;
}

/**
 * The workbook part with the present sheets and names; the old text where neither changed.
 *
 * @param added relationship ids of the sheets that are new, by model id
 */
export function writeWorkbook(book: XlsxBook, added: ReadonlyMap<string, string>): string {
  const original = book.zip.textOf(book.workbookPart) ?? '';
  const xml = withoutPrefix(original);
  const root = parseXml(xml, book.workbookPart);
  const list = childOf(root, 'sheets');
  if (list === undefined) return original;
  const entries = sheetEntries(book, xml, list, added);
  const oldList = xml.slice(list.contentStart, list.contentEnd);
  const newList = entries.map((entry) => entry.xml).join('');
  const sheetsChanged =
    newList !==
    childrenOf(list, 'sheet')
      .map((node) => xml.slice(node.start, node.end))
      .join('');
  const names = sheetsChanged || namesChanged(book) ? namesXml(book, root, entries) : undefined;
  if (!sheetsChanged && names === undefined) return original;

  const pieces = root.children.map((child) => {
    if (child === list) return `<sheets>${sheetsChanged ? newList : oldList}</sheets>`;
    if (child.name === 'definedNames' && names !== undefined) return names;
    if (child.name === 'bookViews' && sheetsChanged)
      return viewsXml(xml.slice(child.start, child.end), list, entries, book);
    return xml.slice(child.start, child.end);
  });
  if (names !== undefined && childOf(root, 'definedNames') === undefined) {
    const at = root.children.findLastIndex((child) => BEFORE_NAMES.includes(child.name));
    pieces.splice(at + 1, 0, names);
  }
  let open = xml.slice(0, root.contentStart);
  if (added.size > 0 && !open.includes('xmlns:r='))
    open = open.replace(
      /<workbook\b/,
      '<workbook xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"',
    );
  return open + pieces.join('') + xml.slice(root.contentEnd);
}

function sheetEntries(
  book: XlsxBook,
  xml: string,
  list: XmlNode,
  added: ReadonlyMap<string, string>,
): SheetEntry[] {
  const nodes = childrenOf(list, 'sheet');
  const numbers = nodes.map((node) => Number(node.attributes['sheetId']));
  let number = Math.max(0, ...numbers);
  const own = book.model.sheets.map((sheet): SheetEntry => {
    const baseline = book.sheets.get(sheet.id);
    const node = nodes.find((other) => other.attributes['id'] === baseline?.relationId);
    const { name, visibility } = sheet.layout;
    if (baseline === undefined || node === undefined) {
      const state = visibility === 'visible' ? '' : ` state="${visibility}"`;
      const relation = added.get(sheet.id) ?? '';
      return {
        sheet,
        xml: `<sheet name="${escapeXml(name)}" sheetId="${String(++number)}"${state} r:id="${relation}"/>`,
      };
    }
    let entry = xml.slice(node.start, node.end);
    if (name !== baseline.layout.name) entry = withAttribute(entry, 'name', name);
    if (visibility !== baseline.layout.visibility) entry = withAttribute(entry, 'state', visibility);
    return { sheet, xml: entry };
  });
  // Sheets the model does not hold stay behind the sheet they followed.
  const known = new Set([...book.sheets.values()].map((baseline) => baseline.relationId));
  nodes.forEach((node, i) => {
    if (known.has(node.attributes['id'] ?? '')) return;
    const entry = { sheet: undefined, xml: xml.slice(node.start, node.end) };
    const leader = nodes.slice(0, i).findLast((other) => known.has(other.attributes['id'] ?? ''));
    const after = own.findIndex(
      ({ sheet }) =>
        sheet !== undefined && book.sheets.get(sheet.id)?.relationId === leader?.attributes['id'],
    );
    own.splice(leader === undefined ? 0 : after < 0 ? own.length : after + 1, 0, entry);
  });
  return own;
}

/** The tab shown stays the same sheet; were it another than the one marked selected, Excel would group both. */
function viewsXml(xml: string, list: XmlNode, entries: readonly SheetEntry[], book: XlsxBook): string {
  const before = Number(/\sactiveTab="(\d+)"/.exec(xml)?.[1] ?? 0);
  const shown = childrenOf(list, 'sheet')[before]?.attributes['id'];
  const at = entries.findIndex(
    ({ sheet }) => sheet !== undefined && book.sheets.get(sheet.id)?.relationId === shown,
  );
  const visible = entries.findIndex(({ sheet }) => sheet?.layout.visibility === 'visible');
  const tab = at >= 0 && entries[at]?.sheet?.layout.visibility === 'visible' ? at : Math.max(0, visible);
  return xml
    .replace(/\sfirstSheet="\d+"/g, '')
    .replace(/<((?:\w+:)?workbookView)\b[^>]*>/, (view) => withAttribute(view, 'activeTab', String(tab)));
}

function namesChanged(book: XlsxBook): boolean {
  if (!equal(book.model.names, book.names)) return true;
  return book.model.sheets.some((sheet) => {
    const before = book.sheets.get(sheet.id)?.layout;
    const key = (layout: typeof before): unknown => [
      layout?.page.printArea ?? [],
      layout?.page.titleRows ?? null,
      layout?.page.titleColumns ?? null,
      layout?.autoFilter?.area ?? null,
    ];
    return !equal(key(sheet.layout), key(before));
  });
}

function absolute(sheet: SheetModel, area: Area): string {
  const fixed = areaAddress(area)
    .split(':')
    .map((end) =>
      end.replace(
        /^([A-Z]*)(\d*)$/,
        (_, letters: string, digits: string) => (letters ? `$${letters}` : '') + (digits ? `$${digits}` : ''),
      ),
    )
    .join(':');
  return `${quoteSheet(sheet.name)}!${fixed}`;
}

/** The names that the model keeps as part of a sheet's page or filter. */
function builtInNames(sheet: SheetModel): [name: string, text: string, hidden: boolean][] {
  const { page, autoFilter } = sheet.layout;
  const out: [string, string, boolean][] = [];
  if (autoFilter !== null) out.push(['_xlnm._FilterDatabase', absolute(sheet, autoFilter.area), true]);
  if (page.printArea.length > 0)
    out.push(['_xlnm.Print_Area', page.printArea.map((area) => absolute(sheet, area)).join(','), false]);
  const titles: string[] = [];
  if (page.titleColumns !== null)
    titles.push(
      absolute(sheet, {
        row: 0,
        rows: MAX_ROWS,
        column: page.titleColumns.start,
        columns: page.titleColumns.count,
      }),
    );
  if (page.titleRows !== null)
    titles.push(
      absolute(sheet, {
        row: page.titleRows.start,
        rows: page.titleRows.count,
        column: 0,
        columns: MAX_COLUMNS,
      }),
    );
  if (titles.length > 0) out.push(['_xlnm.Print_Titles', titles.join(','), false]);
  return out;
}

const OWN_BUILT_INS = ['_xlnm._FilterDatabase', '_xlnm.Print_Area', '_xlnm.Print_Titles'];

function namesXml(book: XlsxBook, root: XmlNode, entries: readonly SheetEntry[]): string {
  const items: string[] = [];
  const element = (name: string, text: string, sheet: SheetModel | undefined, rest: string): void => {
    const local =
      sheet === undefined
        ? ''
        : ` localSheetId="${String(entries.findIndex((entry) => entry.sheet === sheet))}"`;
    items.push(`<definedName name="${escapeXml(name)}"${rest}${local}>${escapeXml(text)}</definedName>`);
  };
  for (const sheet of book.model.sheets)
    for (const [name, text, hidden] of builtInNames(sheet))
      element(name, text, sheet, hidden ? ' hidden="1"' : '');
  for (const name of book.model.names) {
    const sheet = name.sheetId === null ? undefined : book.model.findSheet(name.sheetId);
    if (name.sheetId !== null && sheet === undefined) continue;
    const rest =
      (name.comment === '' ? '' : ` comment="${escapeXml(name.comment)}"`) +
      (name.visible ? '' : ' hidden="1"');
    element(name.name, toFileFormula(name.formula), sheet, rest);
  }
  keepForeign(root, items);
  if (items.length === 0) return '';
  return `<definedNames>${items.join('')}</definedNames>`;
}

/** Built-in names of the whole workbook that the model has no place for. */
function keepForeign(root: XmlNode, items: string[]): void {
  for (const node of childrenOf(childOf(root, 'definedNames'), 'definedName')) {
    const name = node.attributes['name'] ?? '';
    if (
      !name.startsWith('_xlnm.') ||
      OWN_BUILT_INS.includes(name) ||
      node.attributes['localSheetId'] !== undefined
    )
      continue;
    items.push(`<definedName name="${escapeXml(name)}">${escapeXml(node.text)}</definedName>`);
  }
}
