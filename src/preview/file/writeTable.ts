/** A table of the model as the file's part. */
import type { SheetModel } from '../model/sheet.ts';
import { bodyArea, type TableModel } from '../model/tables.ts';
import { equal } from './equal.ts';
import { toFileFormula } from './formulas.ts';
import { filterXml } from './readFilter.ts';
import { areaRef } from './refs.ts';
import {
  withAttribute,
  childOf,
  childrenOf,
  escapeXml,
  parseXml,
  withoutPrefix,
  type XmlNode,
} from './xml.ts';

const escapeName = (name: string): string =>
  escapeXml(name.replaceAll('\r', '_x000d_').replaceAll('\n', '_x000a_'));

function filterArea(table: TableModel): string {
  return areaRef({ ...table.area, rows: table.area.rows - (table.showTotals ? 1 : 0) });
}

function styleXml(table: TableModel): string {
  const mark = (on: boolean): string => (on ? '1' : '0');
  const name = table.style === '' ? '' : ` name="${escapeXml(table.style)}"`;
  return (
    `<tableStyleInfo${name} showFirstColumn="${mark(table.highlightFirstColumn)}" showLastColumn="${mark(table.highlightLastColumn)}"` +
    ` showRowStripes="${mark(table.showBandedRows)}" showColumnStripes="${mark(table.showBandedColumns)}"/>`
  );
}

function autoFilterXml(table: TableModel): string {
  if (!table.showFilterButton || !table.showHeaders) return '';
  const body = filterXml(table.filter);
  return `<autoFilter ref="${filterArea(table)}"${body === '' ? '/>' : `>${body}</autoFilter>`}`;
}

/** The formula that fills a whole column, so that Excel goes on filling it in new rows. */
function columnFormula(table: TableModel, sheet: SheetModel, offset: number): string {
  const body = bodyArea(table);
  const first = sheet.cells.get(body.row, body.column + offset)?.formula;
  if (first === undefined) return '';
  for (let row = body.row; row < body.row + body.rows; row++)
    if (sheet.cells.get(row, body.column + offset)?.formula !== first) return '';
  // A formula with plain addresses means something else in every row.
  if (/(?<![\p{L}\p{N}_.[@])[A-Za-z]{1,3}\d{1,7}(?![\p{L}\p{N}_.(\]])/u.test(first.replace(/"[^"]*"/g, '')))
    return '';
  return `<calculatedColumnFormula>${escapeXml(toFileFormula(first, table.name))}</calculatedColumnFormula>`;
}

function columnXml(id: number, name: string, inside: string): string {
  const head = `<tableColumn id="${String(id)}" name="${escapeName(name)}"`;
  return inside === '' ? `${head}/>` : `${head}>${inside}</tableColumn>`;
}

/** The part of a new table. `number` is its number in the file, different from all others. */
export function newTableXml(table: TableModel, sheet: SheetModel, number: number): string {
  const columns = table.columns.map((column, i) =>
    columnXml(i + 1, column.name, columnFormula(table, sheet, i)),
  );
  return (
    '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n' +
    `<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="${String(number)}" name="${escapeXml(table.name)}"` +
    ` displayName="${escapeXml(table.name)}" ref="${areaRef(table.area)}"${table.showHeaders ? '' : ' headerRowCount="0"'}` +
    `${table.showTotals ? ' totalsRowCount="1"' : ' totalsRowShown="0"'}>${autoFilterXml(table)}` +
    `<tableColumns count="${String(columns.length)}">${columns.join('')}</tableColumns>${styleXml(table)}</table>`
  );
}

/** An old table's part with what changed since; columns keep their elements by number. */
export function changedTableXml(
  part: string,
  table: TableModel,
  before: TableModel,
  sheet: SheetModel,
): string {
  if (equal(table, before)) return part;
  const xml = withoutPrefix(part);
  const root = parseXml(xml, 'table');
  let open = xml.slice(root.start, root.contentStart);
  const set = (name: string, value: string): void => {
    open = withAttribute(open, name, value);
  };
  set('ref', areaRef(table.area));
  if (table.name !== before.name) {
    set('name', table.name);
    set('displayName', table.name);
  }
  if (table.showHeaders !== before.showHeaders) set('headerRowCount', table.showHeaders ? '1' : '0');
  if (table.showTotals !== before.showTotals) set('totalsRowCount', table.showTotals ? '1' : '0');
  const body = root.children.map((child) => {
    const old = xml.slice(child.start, child.end);
    if (child.name === 'autoFilter') return filterPart(old, table, before);
    if (child.name === 'tableColumns') return columnsPart(xml, child, table, before, sheet);
    if (child.name === 'tableStyleInfo' && styleXml(table) !== styleXml(before)) return styleXml(table);
    return old;
  });
  if (childOf(root, 'autoFilter') === undefined) body.unshift(autoFilterXml(table));
  return xml.slice(0, root.start) + open + body.join('') + xml.slice(root.contentEnd);
}

function filterPart(old: string, table: TableModel, before: TableModel): string {
  if (!table.showFilterButton || !table.showHeaders) return '';
  if (!equal(table.filter, before.filter)) return autoFilterXml(table);
  return old.replace(/\sref="[^"]*"/, ` ref="${filterArea(table)}"`);
}

function columnsPart(
  xml: string,
  node: XmlNode,
  table: TableModel,
  before: TableModel,
  sheet: SheetModel,
): string {
  if (equal(table.columns, before.columns)) return xml.slice(node.start, node.end);
  const old = new Map(
    childrenOf(node, 'tableColumn').map((column) => [Number(column.attributes['id']), column]),
  );
  const taken = new Set(old.keys());
  const items = table.columns.map((column, i) => {
    const own = old.get(column.id);
    if (own !== undefined) {
      old.delete(column.id);
      const open = xml.slice(own.start, own.contentStart);
      const wanted = escapeName(column.name);
      // Set by hand: the name is already escaped.
      return (
        open.replace(/(\sname=)(?:"[^"]*"|'[^']*')/, (_, head: string) => `${head}"${wanted}"`) +
        xml.slice(own.contentStart, own.end)
      );
    }
    let id = column.id;
    while (taken.has(id)) id++;
    taken.add(id);
    return columnXml(id, column.name, columnFormula(table, sheet, i));
  });
  return `<tableColumns count="${String(items.length)}">${items.join('')}</tableColumns>`;
}
