/**
 * A fast scan of a worksheet part: where its rows and cells stand in the text, and what they say. The grid of cells
 * is cut out by pattern, since a tree of a big sheet would cost more than all else together; what stands around it
 * is parsed as a tree.
 */
import { columnNumber } from '../model/address.ts';
import { readAttributes, type XmlNode, parseXml } from './xml.ts';

export interface ScannedCell {
  readonly row: number;
  readonly column: number;
  readonly attributes: Readonly<Record<string, string>>;
  /** The cell's element, whole. */
  readonly xml: string;
  /** What stands between its tags. */
  readonly inside: string;
}

export interface ScannedRow {
  readonly row: number;
  readonly attributes: Readonly<Record<string, string>>;
  /** The text of its opening tag's attributes. */
  readonly open: string;
  readonly xml: string;
  readonly inside: string;
}

export interface SheetText {
  /** Everything up to the first row, everything after the last. */
  readonly head: string;
  readonly grid: string;
  readonly tail: string;
}

/** Cuts a worksheet part at its `<sheetData>`, whose tags stay with head and tail. */
export function cutSheet(xml: string): SheetText | undefined {
  const open = /<sheetData(?:\s[^>]*?)?(\/?)>/.exec(xml);
  if (open === null) return undefined;
  const from = open.index + open[0].length;
  const before = xml.slice(0, open.index);
  if (open[1] === '/')
    return { head: `${before}<sheetData>`, grid: '', tail: `</sheetData>${xml.slice(from)}` };
  const to = xml.indexOf('</sheetData>', from);
  if (to < 0) return undefined;
  return { head: xml.slice(0, from), grid: xml.slice(from, to), tail: xml.slice(to) };
}

/** The worksheet's tree with the grid left out. */
export function parseAround(text: SheetText, part: string): XmlNode {
  return parseXml(text.head + text.tail, part);
}

/** The rows in file order. A row without a number follows the one before it. */
export function* scanRows(grid: string): Generator<ScannedRow> {
  let next = 0;
  for (const m of grid.matchAll(/<row\b([^>]*?)(?:\/>|>([\s\S]*?)<\/row>)/g)) {
    const attributes = readAttributes(m[1] ?? '');
    const row = attributes['r'] === undefined ? next : Number(attributes['r']) - 1;
    next = row + 1;
    yield { row, attributes, open: m[1] ?? '', xml: m[0], inside: m[2] ?? '' };
  }
}

/** The cells of a row in file order. A cell without a reference follows the one before it. */
export function* scanCells(row: ScannedRow): Generator<ScannedCell> {
  let next = 0;
  for (const m of row.inside.matchAll(/<c\b([^>]*?)(?:\/>|>([\s\S]*?)<\/c>)/g)) {
    const attributes = readAttributes(m[1] ?? '');
    const letters = /^[A-Za-z]{1,3}/.exec(attributes['r'] ?? '')?.[0];
    const column = letters === undefined ? next : columnNumber(letters);
    next = column + 1;
    yield { row: row.row, column, attributes, xml: m[0], inside: m[2] ?? '' };
  }
}

export interface ScannedFormula {
  readonly attributes: Readonly<Record<string, string>>;
  readonly text: string;
  readonly xml: string;
}

/** The `<f>` of a cell. The text is still as stored, entities included. */
export function formulaOf(inside: string): ScannedFormula | undefined {
  const m = /<f\b([^>]*?)(?:\/>|>([\s\S]*?)<\/f>)/.exec(inside);
  return m === null ? undefined : { attributes: readAttributes(m[1] ?? ''), text: m[2] ?? '', xml: m[0] };
}

/** The `<v>` of a cell, as stored. */
export function valueOf(inside: string): string | undefined {
  const m = /<v\b[^>]*?(?:\/>|>([\s\S]*?)<\/v>)/.exec(inside);
  return m === null ? undefined : (m[1] ?? '');
}
