/**
 * Cell addresses. Inside this room rows and columns are zero-based, as in Office.js' `getRangeByIndexes`; what the
 * user sees is the A1 form. A place always names its sheet by its present name.
 */

export interface Place {
  readonly sheet: string;
  /** A1 form without the sheet: `E14` or `A5:F9`. */
  readonly address: string;
}

/** Zero-based rectangle on a sheet. */
export interface Box {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

/** `columnName(0)` → 'A', `columnName(27)` → 'AB'. */
export function columnName(column: number): string {
  let name = '';
  for (let n = column + 1; n > 0; n = Math.floor((n - 1) / 26))
    name = String.fromCharCode(65 + ((n - 1) % 26)) + name;
  return name;
}

/** The inverse of `columnName`; letters in either case. */
export function columnIndex(name: string): number {
  let index = 0;
  for (const letter of name.toUpperCase()) index = index * 26 + letter.charCodeAt(0) - 64;
  return index - 1;
}

/** `cellAddress(13, 4)` → 'E14'. */
export const cellAddress = (row: number, column: number): string => `${columnName(column)}${row + 1}`;

/** `place('Keys', 13, 4)` → { sheet: 'Keys', address: 'E14' }. */
export const place = (sheet: string, row: number, column: number): Place => ({
  sheet,
  address: cellAddress(row, column),
});

/** A box in A1 form; a single cell without the colon. */
export function boxAddress({ row, column, rows, columns }: Omit<Box, 'sheet'>): string {
  const first = cellAddress(row, column);
  return rows === 1 && columns === 1
    ? first
    : `${first}:${cellAddress(row + rows - 1, column + columns - 1)}`;
}

/**
 * Reads an address as Excel gives it: `E14`, `$A$5:$F$9`, `'Keys (Keyrow)'!A4:F9`. The sheet is '' where none is
 * named. Undefined for whole rows or columns and for anything else.
 * @example parseAddress("'Smith''s'!B2:C3") → { sheet: "Smith's", row: 1, column: 1, rows: 2, columns: 2 }
 */
export function parseAddress(text: string): Box | undefined {
  const match =
    /^(?:(?:'((?:[^']|'')+)'|([^'!]+))!)?\$?([A-Z]{1,3})\$?(\d+)(?::\$?([A-Z]{1,3})\$?(\d+))?$/i.exec(
      text.trim(),
    );
  if (!match) return undefined;
  const sheet = (match[1]?.replaceAll("''", "'") ?? match[2] ?? '').trim();
  const row = Number(match[4]) - 1;
  const column = columnIndex(match[3]!);
  const lastRow = match[6] === undefined ? row : Number(match[6]) - 1;
  const lastColumn = match[5] === undefined ? column : columnIndex(match[5]);
  if (row < 0 || lastRow < row || lastColumn < column) return undefined;
  return { sheet, row, column, rows: lastRow - row + 1, columns: lastColumn - column + 1 };
}

/** A sheet name quoted for a formula or a link. `quoteSheet("Smith's")` → "'Smith''s'". */
export const quoteSheet = (sheet: string): string => `'${sheet.replaceAll("'", "''")}'`;

/** `formatPlace({ sheet: 'Keys', address: 'E14' })` → 'Keys!E14', quoted where the name needs it. */
export function formatPlace({ sheet, address }: Place): string {
  return `${/^[A-Za-z_][A-Za-z0-9_]*$/.test(sheet) ? sheet : quoteSheet(sheet)}!${address}`;
}

/** Whether a cell lies in a box. */
export const contains = (box: Box, row: number, column: number): boolean =>
  row >= box.row && row < box.row + box.rows && column >= box.column && column < box.column + box.columns;
