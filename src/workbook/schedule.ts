/**
 * The shop's own schedule: a row a door on a sheet laid out as the shop likes. The header row is found by its words,
 * also below a title block, and the guess is shown to the user before it is used. The sheet is only read.
 */
import { err, ok, type Result } from '../keying/result.ts';
import { loadBox } from './cells.ts';
import { runReading, type ExcelTrouble } from './excelErrors.ts';
import { isBlank } from './fields.ts';
import { place, type Box, type Place } from './places.ts';
import type { CellValue, Problem } from './reading.ts';

/** Zero-based row of the header and columns, from the first cell of the filled block. */
export interface ScheduleColumns {
  readonly headerRow: number;
  readonly door: number;
  readonly location?: number;
  readonly symbol?: number;
  readonly quantity?: number;
  readonly cylinder?: number;
}

export interface ScheduleGuess {
  readonly sheet: string;
  readonly columns: ScheduleColumns;
  /** Headings of all columns, for the user to confirm or to choose from. */
  readonly headers: readonly string[];
  readonly rows: number;
}

export interface ScheduleRow {
  readonly door: string;
  readonly location?: string;
  readonly symbol?: string;
  readonly cylinder?: string;
  readonly quantity: number;
  readonly at: Place;
}

type Role = Exclude<keyof ScheduleColumns, 'headerRow'>;

/** Headings of the trade, best first; the whole heading, folded, has to match. */
const HEADINGS: readonly (readonly [Role, RegExp])[] = [
  ['symbol', /^(key ?set|key ?set symbol|key symbol|keyset code|keying|key|symbol|key ?group|key ?mark)$/],
  ['door', /^(door|door (no|nr|number|mark|id)|opening|opening (no|number)|mark|room (no|number)|no)$/],
  ['location', /^(location|room|room name|place|zone|area|description|from|to\/from|door location)$/],
  ['quantity', /^(qty|quantity|count|pcs|pieces|number of cylinders|cylinders|cyl qty)$/],
  ['cylinder', /^(cylinder|cylinder (no|number|id)|cyl|cyl (no|number)|core|core (no|number))$/],
];

const foldHeading = (cell: CellValue): string =>
  String(cell)
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[#.:_]/g, ' ')
    .replace(/\bnº|№/g, 'no')
    .replace(/\s+/g, ' ')
    .trim();

const HEADER_WITHIN = 30;

/**
 * Finds the header row in the values of a sheet. Undefined where no row names a door column.
 * @example findSchedule([['West wing'], [], ['Door', 'Room', 'Keyset', 'Qty'], …])?.columns
 *   → { headerRow: 2, door: 0, location: 1, symbol: 2, quantity: 3 }
 */
export function findSchedule(
  values: readonly (readonly CellValue[])[],
): { readonly columns: ScheduleColumns; readonly headers: readonly string[] } | undefined {
  let best: { columns: ScheduleColumns; found: number; row: readonly CellValue[] } | undefined;
  values.slice(0, HEADER_WITHIN).forEach((row, headerRow) => {
    const columns = rolesIn(row);
    const found = Object.keys(columns).length;
    if (columns.door === undefined || found < 2 || found <= (best?.found ?? 0)) return;
    best = { columns: { headerRow, ...columns, door: columns.door }, found, row };
  });
  return best && { columns: best.columns, headers: best.row.map((cell) => String(cell).trim()) };
}

function rolesIn(row: readonly CellValue[]): Partial<Record<Role, number>> {
  const roles: Partial<Record<Role, number>> = {};
  const taken = new Set<number>();
  for (const [role, pattern] of HEADINGS) {
    const c = row.findIndex(
      (cell, i) => !taken.has(i) && typeof cell === 'string' && pattern.test(foldHeading(cell)),
    );
    if (c < 0) continue;
    roles[role] = c;
    taken.add(c);
  }
  return roles;
}

export interface ScheduleReading {
  readonly guess: ScheduleGuess;
  readonly rows: readonly ScheduleRow[];
  readonly problems: readonly Problem[];
}

/** Reads a sheet of the shop's; columns are guessed when not given. */
export async function readSchedule(
  sheet: string,
  columns?: ScheduleColumns,
): Promise<Result<ScheduleReading, ExcelTrouble>> {
  const read = await runReading(async (context) => {
    const used = context.workbook.worksheets.getItem(sheet).getUsedRangeOrNullObject(true);
    used.load('rowIndex,columnIndex,rowCount,columnCount');
    await context.sync();
    if (used.isNullObject) return undefined;
    const box: Box = {
      sheet,
      row: used.rowIndex,
      column: used.columnIndex,
      rows: used.rowCount,
      columns: used.columnCount,
    };
    return { box, values: (await loadBox(context, box)).values };
  });
  if (!read.ok) return read;
  const found =
    read.value && (columns ? withHeaders(read.value.values, columns) : findSchedule(read.value.values));
  if (!read.value || !found)
    return err({
      code: 'NoSchedule',
      sentence: `No row of ${sheet} looks like the headings of a schedule. It needs one with “Door” and at least one of “Location”, “Keyset”, “Quantity”.`,
    });
  return ok(readDoors(read.value.box, read.value.values, found));
}

const withHeaders = (
  values: readonly (readonly CellValue[])[],
  columns: ScheduleColumns,
): { columns: ScheduleColumns; headers: string[] } => ({
  columns,
  headers: (values[columns.headerRow] ?? []).map((cell) => String(cell).trim()),
});

function readDoors(
  box: Box,
  values: readonly (readonly CellValue[])[],
  { columns, headers }: { readonly columns: ScheduleColumns; readonly headers: readonly string[] },
): ScheduleReading {
  const rows: ScheduleRow[] = [];
  const problems: Problem[] = [];
  values.slice(columns.headerRow + 1).forEach((cells, i) => {
    const row = box.row + columns.headerRow + 1 + i;
    const text = (c: number | undefined): string => (c === undefined ? '' : String(cells[c] ?? '').trim());
    if (cells.every(isBlank)) return;
    const at = place(box.sheet, row, box.column + columns.door);
    const door = text(columns.door);
    if (door === '') {
      // a heading between the doors, or a total: no door, and nothing to say unless it carries a keyset
      if (text(columns.symbol) !== '')
        problems.push({
          ...at,
          severity: 'fault',
          sentence: 'This row has a keyset but no door. Type the door’s number.',
        });
      return;
    }
    const count = columns.quantity === undefined ? '' : text(columns.quantity);
    const quantity = count === '' ? 1 : Number(count);
    if (!Number.isInteger(quantity) || quantity < 0)
      problems.push({
        ...place(box.sheet, row, box.column + columns.quantity!),
        severity: 'fault',
        sentence: `“${count}” is not a number of cylinders. Type a whole number.`,
      });
    const location = text(columns.location);
    const symbol = text(columns.symbol);
    const cylinder = text(columns.cylinder);
    rows.push({
      door,
      quantity: Number.isInteger(quantity) && quantity >= 0 ? quantity : 1,
      at,
      ...(location && { location }),
      ...(symbol && { symbol }),
      ...(cylinder && { cylinder }),
    });
  });
  return { guess: { sheet: box.sheet, columns, headers, rows: rows.length }, rows, problems };
}
