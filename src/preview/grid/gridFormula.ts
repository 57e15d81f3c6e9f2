/**
 * Formulas of the model in a form that the calculation engine here understands: structured references, bare table
 * names and spill references (`A1#`) are spelled out as plain addresses. The engine has structured references of its
 * own, but counts a totals row as data, tells upper from lower case, and reads an unknown column as the one before
 * the first, so they are resolved here. The model keeps the formula as Excel has it.
 */
import { areaAddress, MAX_COLUMNS, parseArea, quoteSheet } from '../model/address.ts';
import type { SheetModel } from '../model/sheet.ts';
import { bodyArea, headerArea, totalsArea, type TableModel } from '../model/tables.ts';
import type { Area } from '../model/types.ts';
import type { WorkbookModel } from '../model/workbook.ts';
import { scanFormula } from '../file/formulaScan.ts';

export interface FormulaPlace {
  readonly model: WorkbookModel;
  readonly sheet: SheetModel;
  readonly row: number;
  readonly column: number;
}

interface StructuredItem {
  readonly sections: readonly string[];
  readonly first?: string;
  readonly last?: string;
}

const unescape = (name: string): string => name.replace(/'(.)/g, '$1');

/** Reads what stands in the brackets of a structured reference; undefined where it makes no sense. */
export function readStructured(text: string): StructuredItem | undefined {
  let inner = text.slice(1, -1).trim();
  const sections: string[] = [];
  if (inner.startsWith('@')) {
    sections.push('#this row');
    inner = inner.slice(1).trim();
  }
  if (inner === '') return { sections };
  if (!inner.startsWith('[')) {
    if (inner.startsWith('#')) return { sections: [inner.toLowerCase()] };
    return { sections, first: unescape(inner) };
  }
  const items = [...inner.matchAll(/([,:]?)\s*\[((?:'.|[^[\]'])*)\]\s*/g)];
  if (
    items
      .map((item) => item[0])
      .join('')
      .trim() !== inner
  )
    return undefined;
  const columns: string[] = [];
  for (const [, , content = ''] of items) {
    const item = content.trim();
    if (item.startsWith('#')) sections.push(item.toLowerCase());
    else columns.push(unescape(item));
  }
  const [first, last] = columns;
  return { sections, ...(first === undefined ? {} : { first }), ...(last === undefined ? {} : { last }) };
}

function sectionArea(table: TableModel, section: string, place: FormulaPlace): Area | string {
  switch (section) {
    case '#all':
      return table.area;
    case '#headers':
      return headerArea(table) ?? '#REF!';
    case '#totals':
      return totalsArea(table) ?? '#REF!';
    case '#this row': {
      const body = bodyArea(table);
      const inside =
        place.sheet.id === table.sheetId && place.row >= body.row && place.row < body.row + body.rows;
      return inside ? { ...body, row: place.row, rows: 1 } : '#VALUE!';
    }
    case '#data':
      return bodyArea(table);
    default:
      return '#REF!';
  }
}

function resolve(table: TableModel, item: StructuredItem, place: FormulaPlace): string {
  const offsetOf = (name: string): number =>
    table.columns.findIndex((column) => column.name.toLowerCase() === name.toLowerCase());
  const from = item.first === undefined ? 0 : offsetOf(item.first);
  const to =
    item.last === undefined
      ? item.first === undefined
        ? table.columns.length - 1
        : from
      : offsetOf(item.last);
  if (from < 0 || to < 0) return '#REF!';
  let top = Infinity;
  let bottom = -1;
  for (const section of item.sections.length === 0 ? ['#data'] : item.sections) {
    const area = sectionArea(table, section, place);
    if (typeof area === 'string') return area;
    top = Math.min(top, area.row);
    bottom = Math.max(bottom, area.row + area.rows);
  }
  const area = {
    row: top,
    rows: bottom - top,
    column: table.area.column + Math.min(from, to),
    columns: Math.abs(to - from) + 1,
  };
  const sheet = place.model.findSheet(table.sheetId);
  const prefix = sheet === undefined || sheet === place.sheet ? '' : `${quoteSheet(sheet.name)}!`;
  return prefix + fixed(area);
}

/** `$A$1:$B$2`, and always a range of cells, never `A:A`. */
function fixed(area: Area): string {
  const plain = area.columns === MAX_COLUMNS ? { ...area, columns: MAX_COLUMNS - 1 } : area;
  return areaAddress(plain).replace(/([A-Z]+)(\d+)/g, '$$$1$$$2');
}

const TRAILING_NAME = /[\p{L}_\\][\p{L}\p{N}_.\\]*$/u;

/**
 * The formula as the engine gets it.
 *
 * @example toGridFormula('=SUM(Keys[Depth])', place) // "=SUM($B$2:$B$9)"
 */
export function toGridFormula(formula: string, place: FormulaPlace): string {
  const pieces = scanFormula(formula);
  const out: string[] = [];
  for (const [i, piece] of pieces.entries()) {
    if (piece.kind === 'code') {
      const beforeBracket = pieces[i + 1]?.kind === 'structured';
      out.push(plainCode(piece.text, beforeBracket, place));
      continue;
    }
    if (piece.kind !== 'structured') {
      out.push(piece.text);
      continue;
    }
    const before = out.pop() ?? '';
    const name = TRAILING_NAME.exec(before)?.[0];
    const table =
      name === undefined
        ? place.model.tableAt(place.sheet, place.row, place.column)
        : place.model.findTable(name);
    const item = readStructured(piece.text);
    if (table === undefined || item === undefined) {
      out.push(
        name === undefined ? before + '#REF!' : before.slice(0, before.length - name.length) + '#REF!',
      );
      continue;
    }
    out.push(before.slice(0, before.length - (name?.length ?? 0)) + resolve(table, item, place));
  }
  return out.join('');
}

function plainCode(code: string, beforeBracket: boolean, place: FormulaPlace): string {
  let text = code;
  if (text.includes('#'))
    text = text.replace(/\$?([A-Za-z]{1,3})\$?(\d{1,7})#/g, (whole) => spillArea(whole, place));
  // The engine takes `@` for an error on a range; a single cell or a call means the same without it.
  text = text.replaceAll('@', '');
  if (place.model.tables.length === 0) return text;
  return text.replace(
    /(?<![\p{L}\p{N}_.\\!$])[\p{L}_\\][\p{L}\p{N}_.\\]*(?![\p{L}\p{N}_.\\(!])/gu,
    (name, at: number) => {
      if (beforeBracket && at + name.length === text.length) return name;
      const table = place.model.findTable(name);
      return table?.name.toLowerCase() === name.toLowerCase()
        ? resolve(table, { sections: [] }, place)
        : name;
    },
  );
}

function spillArea(reference: string, place: FormulaPlace): string {
  const at = parseArea(reference.slice(0, -1));
  const spill = at === null ? undefined : place.sheet.cells.get(at.row, at.column)?.spill;
  if (at === null || spill === undefined) return reference.slice(0, -1);
  return fixed({ ...at, ...spill });
}
