/** One cell of the model as the file's element. */
import { cellAddress } from '../model/address.ts';
import type { Cell, CellValue } from '../model/types.ts';
import { toFileFormula } from './formulas.ts';
import { areaRef } from './refs.ts';
import type { SharedStrings } from './sharedStrings.ts';
import { escapeCellText, escapeXml } from './xml.ts';

export interface CellPlace {
  readonly row: number;
  readonly column: number;
  /** Format number; 0 is the plain one. */
  readonly format: number;
  /** The table the cell stands in. */
  readonly table: string | undefined;
}

export interface CellContext {
  readonly strings: SharedStrings;
  /** The number of the dynamic-array mark; asking for it creates the mark. */
  readonly dynamicMark: () => number;
}

/** Functions whose result may be a matrix although it is one cell just now. */
const MATRIX_FUNCTIONS =
  /(?<![\p{L}\p{N}_.])(?:FILTER|SORT|SORTBY|UNIQUE|SEQUENCE|RANDARRAY|TRANSPOSE|TEXTSPLIT|VSTACK|HSTACK|TOROW|TOCOL|WRAPROWS|WRAPCOLS|TAKE|DROP|EXPAND|CHOOSECOLS|CHOOSEROWS|BYROW|BYCOL|MAP|SCAN|MAKEARRAY|KEYROW\.[A-Z0-9_.]+)\(/iu;

/** Errors that a file can only say with rich data; the nearest plain one stands in until the next calculation. */
const STAND_INS: Record<string, string> = { '#SPILL!': '#VALUE!', '#CALC!': '#VALUE!', '#BUSY!': '#N/A' };

/** The error text a file may hold. */
export function storedError(value: CellValue): string | undefined {
  return value !== null && typeof value === 'object' ? (STAND_INS[value.error] ?? value.error) : undefined;
}

/** Type attribute and `<v>` or `<is>` of a value. `computed` values are never put in the shared table. */
export function valueXml(
  value: CellValue,
  computed: boolean,
  strings: SharedStrings,
): { type: string; inside: string } {
  const error = storedError(value);
  if (error !== undefined) return { type: ' t="e"', inside: `<v>${error}</v>` };
  if (value === null) return { type: '', inside: '' };
  if (typeof value === 'number')
    return Number.isFinite(value)
      ? { type: '', inside: `<v>${String(value)}</v>` }
      : { type: ' t="e"', inside: '<v>#NUM!</v>' };
  if (typeof value === 'boolean') return { type: ' t="b"', inside: `<v>${value ? '1' : '0'}</v>` };
  if (computed) return { type: ' t="str"', inside: `<v>${escapeCellText(String(value))}</v>` };
  const { type, inside } = strings.cellContent(String(value));
  return { type: ` t="${type}"`, inside };
}

/** Whether a formula goes into the file as a dynamic array. Tables take no arrays, so there it never does. */
function isDynamic(cell: Cell, place: CellPlace): boolean {
  if (place.table !== undefined || cell.formula === undefined) return false;
  return cell.spill !== undefined || MATRIX_FUNCTIONS.test(cell.formula) || /\d#/.test(cell.formula);
}

/** The `<c>` element of a cell written anew. */
export function cellXml(cell: Cell, place: CellPlace, context: CellContext): string {
  const format = place.format === 0 ? '' : ` s="${String(place.format)}"`;
  const head = `<c r="${cellAddress(place.row, place.column)}"${format}`;
  const computed = cell.formula !== undefined || cell.spilledFrom !== undefined;
  const { type, inside } = valueXml(cell.value, computed, context.strings);
  if (cell.formula === undefined) return inside === '' ? `${head}/>` : `${head}${type}>${inside}</c>`;
  const formula = escapeXml(toFileFormula(cell.formula, place.table));
  if (!isDynamic(cell, place)) return `${head}${type}><f>${formula}</f>${inside}</c>`;
  const ref = areaRef({
    row: place.row,
    column: place.column,
    rows: cell.spill?.rows ?? 1,
    columns: cell.spill?.columns ?? 1,
  });
  const mark = ` cm="${String(context.dynamicMark())}"`;
  return `${head}${type}${mark}><f t="array" ref="${ref}">${formula}</f>${inside}</c>`;
}
