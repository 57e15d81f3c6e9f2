/**
 * Rows of a schedule as lines of doors. Section headings between them ("SPORTS HALL") are no doors but give the zone
 * of the doors below, unless a column does; blank rows, totals and repeated headings are passed over; cells merged
 * downwards hold for all their rows, but a quantity is counted once. Cells that can't be read are findings, and the
 * line is kept.
 */
import { foldHeading, type ScheduleColumns, type SheetCells } from './scheduleColumns.ts';
import type { ScheduleFinding } from './scheduleFindings.ts';
import { isSheetError } from './sheetError.ts';
import {
  QUANTITY_WORDS,
  SCHEDULE_ROLES,
  SUBTOTAL_WORDS,
  TOTAL_WORDS,
  type ScheduleRole,
} from './scheduleWords.ts';

/** A merged block, from the first cell of the cells. */
export interface MergedCells {
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

/** One door, or one side or leaf of it. */
export interface ScheduleLine {
  /** Zero-based row in the cells. */
  readonly row: number;
  readonly door: string;
  /** The keyset symbol exactly as it stands in the cell; '' = not keyed yet, or an error, which is a finding. */
  readonly symbol: string;
  /** Row of the symbol's cell: above `row` where it is merged downwards. */
  readonly symbolRow: number;
  /** Cylinders: 1 where the column is missing or the cell is blank or can't be read. */
  readonly quantity: number;
  /** Keys to cut, where there is a column for it and the cell is filled. */
  readonly keys?: number;
  /** All the other columns, trimmed; blank ones are left out. The zone may come from a section heading. */
  readonly text: Readonly<Partial<Record<ScheduleRole, string>>>;
}

/** What the sheet itself says the quantities come to. */
export interface StatedTotal {
  readonly row: number;
  readonly stated: number;
  readonly counted: number;
}

export interface ScheduleLines {
  readonly lines: readonly ScheduleLine[];
  readonly findings: readonly ScheduleFinding[];
  readonly totals: readonly StatedTotal[];
  /** Section headings that have doors below them. */
  readonly sections: readonly string[];
}

type Reading = { -readonly [K in keyof ScheduleLines]: ScheduleLines[K][number][] };

const isTextRole = (role: ScheduleRole): boolean =>
  role !== 'symbol' && role !== 'door' && role !== 'quantity' && role !== 'keys';

/** @example readLines([['Door', 'Keyset'], ['WEST WING', ''], ['101', 'AA1']], { headerRow: 0, door: 0, symbol: 1 }) */
export function readLines(
  cells: SheetCells,
  columns: ScheduleColumns,
  merged: readonly MergedCells[] = [],
): ScheduleLines {
  const spread = spreadDown(cells, columns, merged);
  const across = new Set(merged.filter((m) => m.columns > 1).map((m) => m.row));
  const headings = (cells[columns.headerRow] ?? []).map(foldHeading);
  const found: Reading = { lines: [], findings: [], totals: [], sections: [] };
  let zone = '';
  let sinceTotal = 0;
  let sinceSubtotal = 0;
  for (let row = columns.headerRow + 1; row < cells.length; row++) {
    const text = (role: ScheduleRole): string => shown(spread, row, columns[role]);
    const main = { door: text('door'), symbol: text('symbol'), quantity: text('quantity') };
    const kind = kindOfRow(cells[row] ?? [], main, headings, across.has(row));
    if (kind === 'nothing') continue;
    if (kind === 'section') {
      zone = (cells[row] ?? []).map((c) => String(c).trim()).find((t) => t !== '')!;
      continue;
    }
    if (kind === 'total' || kind === 'subtotal') {
      const stated = numberOf(text('quantity'));
      const counted = kind === 'total' ? sinceTotal : sinceSubtotal;
      if (stated !== undefined) found.totals.push({ row, stated, counted });
      sinceSubtotal = 0;
      if (kind === 'total') sinceTotal = 0;
      continue;
    }
    if (main.door === '') {
      found.findings.push({ code: 'no-door', row, role: main.symbol === '' ? 'quantity' : 'symbol' });
      continue;
    }
    const line = readLine(spread, row, columns, zone, found.findings, merged);
    // a door that shows an error has a finding, and no name to be ordered or reported under
    if (isSheetError(main.door)) continue;
    if (zone !== '' && found.sections.at(-1) !== zone && columns.zone === undefined)
      found.sections.push(zone);
    found.lines.push(line);
    sinceTotal += line.quantity;
    sinceSubtotal += line.quantity;
  }
  return found;
}

const shown = (cells: SheetCells, row: number, column: number | undefined): string =>
  column === undefined ? '' : String(cells[row]?.[column] ?? '').trim();

/** Values of cells merged downwards in each of their rows; those of quantities stay where they are. */
function spreadDown(cells: SheetCells, columns: ScheduleColumns, merged: readonly MergedCells[]): SheetCells {
  const down = merged.filter(
    ({ rows, column }) => rows > 1 && column !== columns.quantity && column !== columns.keys,
  );
  if (down.length === 0) return cells;
  const copy = cells.map((row) => [...row]);
  for (const { row, column, rows } of down) {
    if (row <= columns.headerRow) continue;
    const value = cells[row]?.[column] ?? '';
    for (let r = row + 1; r < Math.min(row + rows, copy.length); r++) copy[r]![column] = value;
  }
  return copy;
}

type RowKind = 'door' | 'section' | 'subtotal' | 'total' | 'nothing';

function kindOfRow(
  row: SheetCells[number],
  { door, symbol, quantity }: { readonly door: string; readonly symbol: string; readonly quantity: string },
  headings: readonly string[],
  merged: boolean,
): RowKind {
  const filled = row.map((cell) => String(cell).trim()).filter((t) => t !== '');
  if (filled.length === 0 && door === '') return 'nothing';
  if (filled.length > 1 && repeatsHeadings(row, headings)) return 'nothing';
  const bareDoor = door === '' ? '' : foldHeading(door);
  if (bareDoor === '' || TOTAL_WORDS.includes(bareDoor) || SUBTOTAL_WORDS.includes(bareDoor)) {
    const words = row.map(foldHeading);
    if (words.some((word) => SUBTOTAL_WORDS.includes(word))) return 'subtotal';
    if (words.some((word) => TOTAL_WORDS.includes(word))) return 'total';
  }
  if (filled.length === 1 && isSectionTitle(filled[0]!, merged)) return 'section';
  // a note beside the doors, or a bare sum below them
  const bare = symbol === '' && (quantity === '' || filled.length === 1);
  return door === '' && bare ? 'nothing' : 'door';
}

/** The headings once more, as on printed pages. Most rows are told apart by their first filled cell. */
const repeatsHeadings = (row: SheetCells[number], headings: readonly string[]): boolean =>
  row.every((cell, c) => {
    const word = foldHeading(cell);
    return word === '' || word === headings[c];
  });

/** A lone `101` or `D-12` is a door of which nothing else is known yet; a lone `SPORTS HALL` is a heading. */
const isSectionTitle = (text: string, merged: boolean): boolean =>
  /\p{L}/u.test(text) && (merged || /\s/.test(text) || !/\d/.test(text));

function readLine(
  cells: SheetCells,
  row: number,
  columns: ScheduleColumns,
  section: string,
  findings: ScheduleFinding[],
  merged: readonly MergedCells[],
): ScheduleLine {
  const text: Partial<Record<ScheduleRole, string>> = {};
  for (const role of SCHEDULE_ROLES) {
    const value = shown(cells, row, columns[role]);
    if (isSheetError(value)) {
      findings.push({ code: 'cell-error', row, role, text: value });
      continue;
    }
    if (isTextRole(role) && value !== '') text[role] = value;
  }
  if (text.zone === undefined && section !== '') text.zone = section;
  const origin = (column: number | undefined): MergedCells | undefined =>
    merged.find((m) => m.rows > 1 && m.column === column && row >= m.row && row < m.row + m.rows);
  const count = (role: 'quantity' | 'keys'): number | undefined => {
    const from = origin(columns[role]);
    if (from && from.row !== row) return 0;
    const value = shown(cells, row, columns[role]);
    if (value === '' || value.startsWith('#')) return undefined;
    const n = numberOf(value);
    if (n === undefined) findings.push({ code: 'not-a-number', row, role, text: value });
    return n;
  };
  const keys = count('keys');
  const symbol = columns.symbol === undefined ? '' : String(cells[row]?.[columns.symbol] ?? '');
  return {
    row,
    door: shown(cells, row, columns.door),
    symbol: isSheetError(symbol.trim()) ? '' : symbol,
    symbolRow: origin(columns.symbol)?.row ?? row,
    quantity: count('quantity') ?? 1,
    text,
    ...(keys !== undefined && { keys }),
  };
}

/** @example numberOf('2 pcs') → 2; numberOf('two') → undefined */
function numberOf(text: string): number | undefined {
  const match = /^(\d{1,6})(?:\.0+)?\s*([a-z]*)\.?$/i.exec(text.trim());
  if (!match || (match[2] !== '' && !QUANTITY_WORDS.includes(match[2]!.toLowerCase()))) return undefined;
  return Number(match[1]);
}
