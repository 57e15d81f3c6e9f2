/** The cells of a worksheet part as the model's cells: values, formulas written out, formats, spilled arrays. */
import { MAX_COLUMNS, MAX_ROWS, parseArea } from '../model/address.ts';
import { ERROR_CODES } from '../model/input.ts';
import { offsetReferences } from '../model/references.ts';
import type { Area, Cell, CellValue } from '../model/types.ts';
import { fromFileFormula } from './formulas.ts';
import { plainText, type SharedStrings } from './sharedStrings.ts';
import {
  formulaOf,
  scanCells,
  scanRows,
  valueOf,
  type ScannedCell,
  type ScannedFormula,
} from './sheetScan.ts';
import type { StyleTable } from './styles.ts';
import { decodeText } from './xml.ts';

export interface PlacedFileCell {
  readonly row: number;
  readonly column: number;
  readonly cell: Cell;
}

export interface Context {
  readonly strings: SharedStrings;
  readonly styles: StyleTable;
  /** The name of the table at a cell, where there is one. */
  readonly tableAt: (row: number, column: number) => string | undefined;
}

interface SharedFormula {
  readonly text: string;
  readonly row: number;
  readonly column: number;
}

/** Days from the serial number's origin, for the rare cells that store a date as text (`t="d"`). */
function serialOf(iso: string): CellValue {
  const ms = Date.parse(
    /[zZ]|[+-]\d\d:\d\d$/.test(iso) ? iso : `${iso.includes('T') ? iso : `${iso}T00:00:00`}Z`,
  );
  return Number.isNaN(ms) ? iso : ms / 86_400_000 + 25_569;
}

/** A cell's value as the file stores it. Errors the model has no word for read as `#N/A` with their own name. */
export function readValue(cell: ScannedCell, strings: SharedStrings): CellValue {
  const type = cell.attributes['t'] ?? 'n';
  if (type === 'inlineStr') return plainText(cell.inside);
  const stored = valueOf(cell.inside);
  if (stored === undefined) return null;
  switch (type) {
    case 's':
      return strings.texts[Number(stored)] ?? '';
    case 'b':
      return stored.trim() === '1' || stored.trim() === 'true';
    case 'e': {
      const name = decodeText(stored);
      const error = ERROR_CODES.find((code) => code === name);
      return error === undefined ? { error: '#N/A', message: name } : { error };
    }
    case 'str':
      return decodeText(stored, true);
    case 'd':
      return serialOf(stored);
    default: {
      const number = Number(stored);
      return stored.trim() === '' || Number.isNaN(number) ? null : number;
    }
  }
}

export interface FileGrid {
  readonly cells: readonly PlacedFileCell[];
  /** The attributes of every row element, by row. */
  readonly rows: ReadonlyMap<number, Readonly<Record<string, string>>>;
}

/** All cells that hold or look like something, with the spilled ones pointing at their anchor. */
export function readGrid(grid: string, context: Context): FileGrid {
  const rows = new Map<number, Readonly<Record<string, string>>>();
  const out: PlacedFileCell[] = [];
  const shared = new Map<string, SharedFormula>();
  const arrays: (Area & { anchor: Cell })[] = [];
  for (const row of scanRows(grid)) {
    if (row.row < 0 || row.row >= MAX_ROWS) continue;
    rows.set(row.row, row.attributes);
    for (const scanned of scanCells(row)) {
      if (scanned.column >= MAX_COLUMNS) continue;
      const cell = readCell(scanned, context, shared);
      const formula = formulaOf(scanned.inside);
      if (formula?.attributes['t'] === 'array') {
        const area = parseArea(formula.attributes['ref'] ?? '');
        if (area !== null && area.rows * area.columns > 1) {
          cell.spill = { rows: area.rows, columns: area.columns };
          arrays.push({ ...area, anchor: cell });
        }
      }
      if (cell.value !== null || cell.formula !== undefined || cell.fileFormat !== undefined)
        out.push({ row: scanned.row, column: scanned.column, cell });
    }
  }
  markSpilled(out, arrays);
  return { cells: out, rows };
}

function readCell(scanned: ScannedCell, context: Context, shared: Map<string, SharedFormula>): Cell {
  const cell: Cell = { value: readValue(scanned, context.strings) };
  const stored = formulaOf(scanned.inside);
  const text = stored === undefined ? undefined : expand(stored, scanned, shared);
  if (text !== undefined && text !== '')
    cell.formula = fromFileFormula(
      text,
      text.includes('[') ? context.tableAt(scanned.row, scanned.column) : undefined,
    );
  const format = scanned.attributes['s'];
  if (format !== undefined && format !== '0') {
    cell.fileFormat = Number(format);
    const style = context.styles.styleOf(cell.fileFormat);
    if (style !== undefined) cell.style = style;
  }
  return cell;
}

/** A formula's own text; members of a shared one get the first member's, moved to where they stand. */
function expand(
  formula: ScannedFormula,
  at: ScannedCell,
  shared: Map<string, SharedFormula>,
): string | undefined {
  const text = decodeText(formula.text);
  // What-if tables are no formulas a cell could be given; their results stay as values.
  if (formula.attributes['t'] === 'dataTable') return undefined;
  const group = formula.attributes['si'];
  if (formula.attributes['t'] !== 'shared' || group === undefined) return text;
  if (text !== '') {
    shared.set(group, { text, row: at.row, column: at.column });
    return text;
  }
  const first = shared.get(group);
  if (first === undefined) return undefined;
  return offsetReferences(first.text, at.row - first.row, at.column - first.column);
}

function markSpilled(cells: readonly PlacedFileCell[], arrays: readonly (Area & { anchor: Cell })[]): void {
  if (arrays.length === 0) return;
  const byKey = new Map(cells.map((placed) => [placed.row * MAX_COLUMNS + placed.column, placed.cell]));
  for (const array of arrays)
    for (let row = array.row; row < Math.min(array.row + array.rows, MAX_ROWS); row++)
      for (let column = array.column; column < array.column + array.columns; column++) {
        const cell = byKey.get(row * MAX_COLUMNS + column);
        if (cell === undefined || cell === array.anchor || cell.formula !== undefined) continue;
        cell.spilledFrom = { row: array.row, column: array.column };
      }
}
