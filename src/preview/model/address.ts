/** A1 addresses: letters to columns and back, areas, sheet names in quotes. Zero-based on the inside. */
import type { Area } from './types.ts';

export const MAX_ROWS = 1_048_576;
export const MAX_COLUMNS = 16_384;

/** `0` → `A`, `26` → `AA`. */
export function columnLetters(column: number): string {
  let letters = '';
  for (let n = column + 1; n > 0; n = Math.floor((n - 1) / 26)) {
    letters = String.fromCharCode(65 + ((n - 1) % 26)) + letters;
  }
  return letters;
}

/** `A` → `0`, `XFD` → `16383`; case does not matter. */
export function columnNumber(letters: string): number {
  let n = 0;
  for (const letter of letters.toUpperCase()) n = n * 26 + letter.charCodeAt(0) - 64;
  return n - 1;
}

/** `{0, 1}` → `B1`. */
export function cellAddress(row: number, column: number): string {
  return columnLetters(column) + String(row + 1);
}

/** `A1:B2`, `C:D` for whole columns, `3:4` for whole rows; a single cell stands alone. */
export function areaAddress(area: Area): string {
  const { row, column, rows, columns } = area;
  if (rows === MAX_ROWS) return `${columnLetters(column)}:${columnLetters(column + columns - 1)}`;
  if (columns === MAX_COLUMNS) return `${String(row + 1)}:${String(row + rows)}`;
  const first = cellAddress(row, column);
  return rows === 1 && columns === 1
    ? first
    : `${first}:${cellAddress(row + rows - 1, column + columns - 1)}`;
}

const CELLS = /^\$?([A-Z]{1,3})\$?(\d{1,7})(?::\$?([A-Z]{1,3})\$?(\d{1,7}))?$/i;
const COLUMNS = /^\$?([A-Z]{1,3}):\$?([A-Z]{1,3})$/i;
const ROWS = /^\$?(\d{1,7}):\$?(\d{1,7})$/;

function span(a: number, b: number): [start: number, count: number] {
  return [Math.min(a, b), Math.abs(a - b) + 1];
}

/** Reads `A1`, `$A$1:B2`, `C:D`, `3:4` (no sheet name). Returns null where the text is no address. */
export function parseArea(text: string): Area | null {
  let area: Area | null = null;
  let match = CELLS.exec(text);
  if (match) {
    const [, c1 = '', r1 = '', c2 = c1, r2 = r1] = match;
    const [row, rows] = span(Number(r1) - 1, Number(r2) - 1);
    const [column, columns] = span(columnNumber(c1), columnNumber(c2));
    area = { row, column, rows, columns };
  } else if ((match = COLUMNS.exec(text))) {
    const [column, columns] = span(columnNumber(match[1] ?? ''), columnNumber(match[2] ?? ''));
    area = { row: 0, column, rows: MAX_ROWS, columns };
  } else if ((match = ROWS.exec(text))) {
    const [row, rows] = span(Number(match[1]) - 1, Number(match[2]) - 1);
    area = { row, column: 0, rows, columns: MAX_COLUMNS };
  }
  return area && isOnSheet(area) ? area : null;
}

/** Splits `'My sheet'!A1:B2` into the sheet name (without quotes) and the rest. */
export function splitSheet(text: string): { sheet: string | null; rest: string } {
  const match = /^(?:'((?:[^']|'')+)'|([^'!]+))!(.+)$/.exec(text.trim());
  if (!match) return { sheet: null, rest: text.trim() };
  return { sheet: (match[1] ?? match[2] ?? '').replaceAll("''", "'"), rest: match[3] ?? '' };
}

/** Puts quotes round a sheet name where a formula needs them: `Plan 1` → `'Plan 1'`. */
export function quoteSheet(name: string): string {
  const plain = /^[\p{L}_][\p{L}\p{N}_.]*$/u.test(name) && !CELLS.test(name) && !/^R\d*C\d*$/i.test(name);
  return plain ? name : `'${name.replaceAll("'", "''")}'`;
}

export function isOnSheet(area: Area): boolean {
  const { row, column, rows, columns } = area;
  return (
    row >= 0 &&
    column >= 0 &&
    rows >= 1 &&
    columns >= 1 &&
    row + rows <= MAX_ROWS &&
    column + columns <= MAX_COLUMNS
  );
}

export function contains(area: Area, row: number, column: number): boolean {
  return (
    row >= area.row &&
    row < area.row + area.rows &&
    column >= area.column &&
    column < area.column + area.columns
  );
}

/** The cells two areas share, or null. */
export function intersect(a: Area, b: Area): Area | null {
  const row = Math.max(a.row, b.row);
  const column = Math.max(a.column, b.column);
  const rows = Math.min(a.row + a.rows, b.row + b.rows) - row;
  const columns = Math.min(a.column + a.columns, b.column + b.columns) - column;
  return rows > 0 && columns > 0 ? { row, column, rows, columns } : null;
}

/** The smallest area that holds both. */
export function bounding(a: Area, b: Area): Area {
  const row = Math.min(a.row, b.row);
  const column = Math.min(a.column, b.column);
  return {
    row,
    column,
    rows: Math.max(a.row + a.rows, b.row + b.rows) - row,
    columns: Math.max(a.column + a.columns, b.column + b.columns) - column,
  };
}

export function sameArea(a: Area, b: Area): boolean {
  return a.row === b.row && a.column === b.column && a.rows === b.rows && a.columns === b.columns;
}

/** `within(outer, inner)`: whether every cell of `inner` lies in `outer`. */
export function within(outer: Area, inner: Area): boolean {
  const shared = intersect(outer, inner);
  return shared !== null && sameArea(shared, inner);
}

/** `a` without the cells of `b`, as up to four areas. */
export function subtract(a: Area, b: Area): Area[] {
  const shared = intersect(a, b);
  if (!shared) return [a];
  const parts: Area[] = [
    { ...a, rows: shared.row - a.row },
    { ...a, row: shared.row + shared.rows, rows: a.row + a.rows - shared.row - shared.rows },
    { ...shared, column: a.column, columns: shared.column - a.column },
    {
      ...shared,
      column: shared.column + shared.columns,
      columns: a.column + a.columns - shared.column - shared.columns,
    },
  ];
  return parts.filter((part) => part.rows > 0 && part.columns > 0);
}
