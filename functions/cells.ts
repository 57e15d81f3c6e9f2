/// <reference types="custom-functions-runtime" />
/**
 * Cell values as Excel hands them over ↔ values that the functions work with. A blank comes as null or empty text,
 * a range as rows of cells, an error cell as an object. What can't be read becomes #VALUE! with a sentence: what is
 * wrong and what to do.
 */

import { brief } from '../src/keying/words.ts';

/** What a cell can be given back. */
export type CellValue = string | number | boolean;

/** What a spilling function gives back: an error in one cell leaves the others alone. */
export type Spill = (CellValue | CustomFunctions.Error)[][];

/** Blank in gives blank out. */
export const BLANK = '';

export const isBlank = (cell: unknown): boolean =>
  cell === null || cell === undefined || (typeof cell === 'string' && cell.trim() === '');

/** #VALUE! with a sentence. Thrown rather than returned, except in a cell of a spill. */
export function refuse(sentence: string): never {
  throw new CustomFunctions.Error(CustomFunctions.ErrorCode.invalidValue, brief(sentence));
}

/** Text or a number from a cell. `what` names the argument: `The code`. */
export function textOrNumber(cell: unknown, what: string): string | number {
  if (typeof cell === 'string' || typeof cell === 'number') return cell;
  if (typeof cell === 'boolean')
    return refuse(`${what} is ${cell ? 'TRUE' : 'FALSE'}; it must be text or a number.`);
  return refuse(`${what} is an error; correct the cell that it comes from.`);
}

/** A word from an optional argument, or undefined where it was left out. */
export function optionalText(cell: unknown, what: string): string | undefined {
  return isBlank(cell) ? undefined : String(textOrNumber(cell, what)).trim();
}

/** A plain number from a cell: 90, '90', '22,5'. */
export function numberIn(cell: unknown, what: string): number {
  const value = textOrNumber(cell, what);
  const found =
    typeof value === 'number'
      ? value
      : /^\s*[+-]?\d+(?:[.,]\d+)?\s*$/.test(value)
        ? Number(value.replace(',', '.'))
        : NaN;
  return Number.isFinite(found) ? found : refuse(`${what} is “${value}”; it must be a number.`);
}

/** A whole number between two limits, both allowed. */
export function wholeNumberIn(cell: unknown, what: string, least: number, most: number): number {
  const value = numberIn(cell, what);
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  return refuse(`${what} is ${value}; it must be a whole number from ${least} to ${most}.`);
}

/** TRUE, FALSE or left out (= FALSE). */
export function switchIn(cell: unknown, what: string): boolean {
  if (isBlank(cell)) return false;
  if (typeof cell === 'boolean') return cell;
  return refuse(`${what} must be TRUE or FALSE.`);
}

/** A range as rows of cells; a host may hand over a single cell bare. */
export function rowsOf(range: unknown): unknown[][] {
  if (!Array.isArray(range)) return [[range]];
  return range.map((row: unknown): unknown[] => (Array.isArray(row) ? row : [row]));
}

/** The cells of a range that is one row or one column. */
export function lineOf(range: unknown, what: string): unknown[] {
  const rows = rowsOf(range);
  if (rows.length === 1) return rows[0]!;
  if (rows.every((row) => row.length === 1)) return rows.map((row) => row[0]);
  return refuse(`${what} must be one row or one column of cells.`);
}

/**
 * One answer for each cell of a range, in its shape, without the blank rows at its end, so that a whole column may
 * be given. A cell that is refused gets its own error.
 */
export function eachCell(range: unknown, answer: (cell: unknown) => CellValue): Spill {
  return withoutBlankEnd(rowsOf(range)).map((row) =>
    row.map((cell) => (isBlank(cell) ? BLANK : answerOrError(() => answer(cell)))),
  );
}

/** One answer for each row of a block, as a column. */
export function eachRow(range: unknown, answer: (row: unknown[]) => CellValue): Spill {
  return withoutBlankEnd(rowsOf(range)).map((row) => [answerOrError(() => answer(row))]);
}

function withoutBlankEnd(rows: unknown[][]): unknown[][] {
  let end = rows.length;
  while (end > 1 && rows[end - 1]!.every(isBlank)) end--;
  return rows.slice(0, end);
}

function answerOrError(answer: () => CellValue): CellValue | CustomFunctions.Error {
  try {
    return answer();
  } catch (error) {
    if (error instanceof CustomFunctions.Error) return error;
    throw error;
  }
}
