/** Reads a block of the shop's own cells: the selection, or a range by its address. */
import { err, ok, type Result } from '../keying/result.ts';
import { loadBox, toCells } from './cells.ts';
import { runReading, type ExcelTrouble } from './excelErrors.ts';
import { isBlank } from './fields.ts';
import type { Box } from './places.ts';
import type { CellValue } from './reading.ts';

/** A range the user named, or the selection; a cell inside a table means the whole table. */
export type TargetRequest = { readonly sheet: string; readonly address: string } | 'selection';

/** A block of the shop's own cells, with the column that would be written to the right of it. */
export interface TargetReading {
  /** With the header row, where there is one. */
  readonly box: Box;
  /** Name of the table, where the range lies in one. */
  readonly table?: string;
  /** As they stand, spaces at the ends included; empty where the block has no header row. */
  readonly headers: readonly string[];
  /** Rows below the header, or all where there is none. */
  readonly values: readonly (readonly CellValue[])[];
  /** Content of the cells just right of the box, header row first. */
  readonly right: readonly CellValue[];
  readonly protected: boolean;
  readonly filtered: boolean;
  readonly merged: boolean;
  readonly totals: boolean;
}

const NOTHING: ExcelTrouble = {
  code: 'NothingSelected',
  sentence:
    'There is nothing in these cells. Select the cells that hold the codes, or one cell of their table.',
};

/** A single cell outside a table stands for the filled block around it; whole columns are cut to what is filled. */
export async function readTarget(request: TargetRequest): Promise<Result<TargetReading, ExcelTrouble>> {
  const read = await runReading((context) => load(context, request));
  if (!read.ok) return read;
  return read.value ? ok(read.value) : err(NOTHING);
}

async function load(
  context: Excel.RequestContext,
  request: TargetRequest,
): Promise<TargetReading | undefined> {
  const asked =
    request === 'selection'
      ? context.workbook.getSelectedRange()
      : context.workbook.worksheets.getItem(request.sheet).getRange(request.address);
  asked.load('cellCount');
  const tables = asked.getTables(false);
  tables.load('items/name,items/showTotals');
  const { worksheet } = asked;
  worksheet.load('name');
  worksheet.protection.load('protected');
  worksheet.autoFilter.load('isDataFiltered');
  const used = worksheet.getUsedRangeOrNullObject(true);
  used.load('address');
  await context.sync();

  const [table] = tables.items;
  // an empty sheet has nothing that cells could be cut to
  if (!table && used.isNullObject) return undefined;
  const whole = table
    ? table.getRange()
    : (asked.cellCount === 1 ? asked.getSurroundingRegion() : asked).getIntersectionOrNullObject(used);
  whole.load('rowIndex,columnIndex,rowCount,columnCount');
  const merged = asked.getMergedAreasOrNullObject();
  merged.load('address');
  table?.autoFilter.load('isDataFiltered');
  await context.sync();
  if (whole.isNullObject) return undefined;

  const totals = table?.showTotals ?? false;
  const box: Box = {
    sheet: worksheet.name,
    row: whole.rowIndex,
    column: whole.columnIndex,
    rows: whole.rowCount - (totals ? 1 : 0),
    columns: whole.columnCount,
  };
  const { values } = await loadBox(context, box);
  if (values.every((row) => row.every(isBlank))) return undefined;
  const beside = worksheet.getRangeByIndexes(box.row, box.column + box.columns, box.rows, 1);
  beside.load('formulas');
  await context.sync();
  const headed = table !== undefined || looksHeaded(values);
  return {
    box,
    ...(table && { table: table.name }),
    headers: headed ? (values[0] ?? []).map(String) : [],
    values: headed ? values.slice(1) : values,
    right: toCells(beside.formulas).map((row) => row[0] ?? ''),
    protected: worksheet.protection.protected,
    filtered: worksheet.autoFilter.isDataFiltered || (table?.autoFilter.isDataFiltered ?? false),
    merged: !merged.isNullObject,
    totals,
  };
}

/** A first row of words over rows that aren't: `Key code` over `274153`. */
export function looksHeaded(values: readonly (readonly CellValue[])[]): boolean {
  const [first = [], ...rest] = values;
  const wordy = (cell: CellValue): boolean =>
    typeof cell === 'string' && /\p{L}{2}/u.test(cell) && !/\d/.test(cell);
  const filled = first.filter((cell) => !isBlank(cell));
  const below = (c: number): CellValue | undefined =>
    rest.map((row) => row[c] ?? '').find((cell) => !isBlank(cell));
  return (
    filled.every((cell) => wordy(cell)) &&
    first.some((cell, c) => {
      const next = below(c);
      return wordy(cell) && next !== undefined && !wordy(next);
    })
  );
}
