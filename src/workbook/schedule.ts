/**
 * The shop's own schedule: a row a door on a sheet laid out as the shop likes. How its header row is found and its
 * rows are understood is in the keying room (`scheduleColumns.ts`, `scheduleRead.ts`); here the sheet is read, and
 * what was found gets its cells. The sheet is only read.
 */
import {
  findSchedule,
  headersAt,
  recallColumns,
  type FoundSchedule,
  type RememberedHeadings,
  type ScheduleColumns,
} from '../keying/scheduleColumns.ts';
import { scheduleSeverity, type ScheduleFinding } from '../keying/scheduleFindings.ts';
import { readLines, type MergedCells, type ScheduleLines } from '../keying/scheduleRead.ts';
import { sayScheduleFinding } from '../keying/scheduleWording.ts';
import type { ScheduleRole } from '../keying/scheduleWords.ts';
import { err, ok, type Result } from '../keying/result.ts';
import { loadBox, type Cells } from './cells.ts';
import { runReading, type ExcelTrouble } from './excelErrors.ts';
import { place, type Box, type Place } from './places.ts';
import type { Problem } from './reading.ts';

export { findSchedule, type ScheduleColumns };

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

/** Cells of a sheet of the shop's, as they are now. */
export interface ScheduleSheet {
  readonly box: Box;
  readonly values: Cells;
  /** As values, but formulas where there are any. */
  readonly formulas: Cells;
  readonly merged: readonly MergedCells[];
  readonly protected: boolean;
  /** A filter hides rows: they are read all the same, but writing would miss them. */
  readonly filtered: boolean;
}

export interface ScheduleReading {
  readonly guess: ScheduleGuess;
  readonly rows: readonly ScheduleRow[];
  readonly problems: readonly Problem[];
  readonly sheet: ScheduleSheet;
  readonly schedule: ScheduleLines;
}

/** Columns that were confirmed before. */
export interface KnownColumns {
  readonly columns: ScheduleColumns;
  readonly headings: RememberedHeadings;
}

/** Reads a sheet of the shop's. Columns are guessed when not given, or when those remembered are gone. */
export async function readSchedule(
  sheet: string,
  columns?: ScheduleColumns | KnownColumns,
): Promise<Result<ScheduleReading, ExcelTrouble>> {
  const read = await readScheduleSheet(sheet);
  if (!read.ok) return read;
  const found = foundIn(read.value.values, columns);
  return found
    ? ok(understand(read.value, found))
    : err({
        code: 'NoSchedule',
        sentence: `No row of ${sheet} looks like the headings of a schedule. Choose another sheet, or give this one a row of headings: “Door” and at least one of “Location”, “Keyset”, “Quantity”.`,
      });
}

function foundIn(values: Cells, columns?: ScheduleColumns | KnownColumns): FoundSchedule | undefined {
  if (!columns) return findSchedule(values);
  if (!('headings' in columns)) return { columns, headers: headersAt(values, columns.headerRow) };
  const now = recallColumns(values, columns.columns, columns.headings);
  return now ? { columns: now, headers: headersAt(values, now.headerRow) } : findSchedule(values);
}

/** The filled cells of a sheet with its merged cells; trouble where the sheet is gone or empty. */
export async function readScheduleSheet(sheet: string): Promise<Result<ScheduleSheet, ExcelTrouble>> {
  const read = await runReading((context) => load(context, sheet));
  if (!read.ok) return read;
  return read.value
    ? ok(read.value)
    : err({ code: 'NothingThere', sentence: `The sheet ${sheet} is empty. Choose the one with the doors.` });
}

async function load(context: Excel.RequestContext, name: string): Promise<ScheduleSheet | undefined> {
  const worksheet = context.workbook.worksheets.getItem(name);
  const used = worksheet.getUsedRangeOrNullObject(true);
  used.load('rowIndex,columnIndex,rowCount,columnCount');
  worksheet.protection.load('protected');
  worksheet.autoFilter.load('isDataFiltered');
  worksheet.tables.load('items/name');
  await context.sync();
  if (used.isNullObject) return undefined;
  const filters = worksheet.tables.items.map((table) => table.autoFilter);
  for (const filter of filters) filter.load('isDataFiltered');
  const merged = used.getMergedAreasOrNullObject();
  merged.load('areaCount');
  await context.sync();
  if (!merged.isNullObject)
    merged.areas.load('items/rowIndex,items/columnIndex,items/rowCount,items/columnCount');
  await context.sync();
  const box: Box = {
    sheet: name,
    row: used.rowIndex,
    column: used.columnIndex,
    rows: used.rowCount,
    columns: used.columnCount,
  };
  return {
    box,
    ...(await loadBox(context, box)),
    merged: merged.isNullObject
      ? []
      : merged.areas.items.map((area) => ({
          row: area.rowIndex - box.row,
          column: area.columnIndex - box.column,
          rows: area.rowCount,
          columns: area.columnCount,
        })),
    protected: worksheet.protection.protected,
    filtered: worksheet.autoFilter.isDataFiltered || filters.some((filter) => filter.isDataFiltered),
  };
}

/** A sheet understood by its columns. */
export function understand(sheet: ScheduleSheet, { columns, headers }: FoundSchedule): ScheduleReading {
  const schedule = readLines(sheet.values, columns, sheet.merged);
  return {
    sheet,
    schedule,
    guess: { sheet: sheet.box.sheet, columns, headers, rows: schedule.lines.length },
    rows: schedule.lines.map((line): ScheduleRow => {
      const { location, cylinder } = line.text;
      const symbol = line.symbol.trim();
      return {
        door: line.door,
        quantity: line.quantity,
        at: scheduleCell(sheet.box, columns, line.row, 'door'),
        ...(location && { location }),
        ...(symbol && { symbol }),
        ...(cylinder && { cylinder }),
      };
    }),
    problems: schedule.findings.map((finding) => problemOf(sheet.box, columns, finding)),
  };
}

function problemOf(box: Box, columns: ScheduleColumns, finding: ScheduleFinding): Problem {
  const severity = scheduleSeverity(finding);
  return {
    ...('row' in finding
      ? scheduleCell(box, columns, finding.row, finding.role)
      : place(box.sheet, box.row, box.column)),
    severity: severity === 'note' ? 'warning' : severity,
    sentence: sayScheduleFinding(finding),
  };
}

/** The cell of a row in the column of a role, or in that of the doors where there is no such column. */
export const scheduleCell = (box: Box, columns: ScheduleColumns, row: number, role: ScheduleRole): Place =>
  place(box.sheet, box.row + row, box.column + (columns[role] ?? columns.door));
