/**
 * Reading blocks of cells. Excel on the web answers at most 5 MB a request, so large boxes come in blocks of rows,
 * one request each.
 */
import type { Box } from './places.ts';
import type { CellValue } from './reading.ts';

export type Cells = readonly (readonly CellValue[])[];

export interface BoxContent {
  readonly values: Cells;
  readonly formulas: Cells;
}

const CELLS_A_BLOCK = 20_000;

/** Splits rows into blocks that stay below Excel's limits. `rowBlocks(10_000, 10)` → 5 blocks. */
export function rowBlocks(
  rows: number,
  columns: number,
  most: number = CELLS_A_BLOCK,
): { readonly start: number; readonly count: number }[] {
  const size = Math.max(1, Math.floor(most / Math.max(1, columns)));
  const blocks: { start: number; count: number }[] = [];
  for (let start = 0; start < rows; start += size)
    blocks.push({ start, count: Math.min(size, rows - start) });
  return blocks;
}

/** The range of a box; the sheet has to exist. */
export const rangeOf = (context: Excel.RequestContext, box: Box): Excel.Range =>
  context.workbook.worksheets
    .getItem(box.sheet)
    .getRangeByIndexes(box.row, box.column, box.rows, box.columns);

/** Excel answered a request without the cells that it was asked for; it can't be helped from here. */
class NoCells extends Error {
  readonly code = 'NoCells';
}

/** Office.js types cells as `any`; this is the one place where they get a type. Errors arrive as text (`#N/A`). */
export function toCells(matrix: unknown): CellValue[][] {
  if (!Array.isArray(matrix)) throw new NoCells('Excel gave no matrix of cells');
  return matrix.map((row: unknown) => {
    if (!Array.isArray(row)) throw new NoCells('Excel gave no row of cells');
    return row.map((cell: unknown) =>
      typeof cell === 'string' || typeof cell === 'number' || typeof cell === 'boolean' ? cell : '',
    );
  });
}

/** Values and formulas of a box, read in blocks. */
export async function loadBox(context: Excel.RequestContext, box: Box): Promise<BoxContent> {
  const values: CellValue[][] = [];
  const formulas: CellValue[][] = [];
  for (const { start, count } of rowBlocks(box.rows, box.columns)) {
    const range = rangeOf(context, { ...box, row: box.row + start, rows: count });
    range.load('values,formulas');
    // eslint-disable-next-line office-addins/no-context-sync-in-loop -- a block is as much as one answer may hold
    await context.sync();
    values.push(...toCells(range.values));
    formulas.push(...toCells(range.formulas));
  }
  return { values, formulas };
}

/** The part of a read block that lies in `box`, padded with empty cells where it reaches beyond. */
export function sliceCells(cells: Cells, from: Omit<Box, 'sheet'>, box: Omit<Box, 'sheet'>): CellValue[][] {
  return Array.from({ length: box.rows }, (_, r) =>
    Array.from(
      { length: box.columns },
      (_c, c) => cells[box.row + r - from.row]?.[box.column + c - from.column] ?? '',
    ),
  );
}

/** Tells a formula from text that starts with `=`: the text reads the same both ways. */
export const isFormula = (formula: CellValue, value: CellValue): boolean =>
  typeof formula === 'string' && formula.startsWith('=') && formula !== value;
