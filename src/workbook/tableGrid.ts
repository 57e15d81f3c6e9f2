/**
 * Key-by-door grids: rows are cylinders, columns are keys, a mark where the key must operate the cylinder. Written
 * by us with one mark, and read with those that people put by hand.
 */
import type { ColumnSpec } from './columns.ts';
import { columnOf } from './columns.ts';
import { isBlank } from './fields.ts';
import { isKeyRow, METAL_HEADINGS } from './gridMetal.ts';
import { fold } from './names.ts';
import { place } from './places.ts';
import type { CellInput } from './plan.ts';
import type { CellValue, GridReading, Problem, TableReading } from './reading.ts';

/** The mark that we write: a filled dot. */
export const MARK = '●';

const YES = new Set(['●', '•', 'x', '1', 'yes', 'y', 'true', '✓', '✔', '✗', '×']);
const NO = new Set(['', '0', 'no', 'n', 'false', '-', '–', '○']);

/** True, false, or undefined for something that is no mark. */
export function readMark(cell: CellValue): boolean | undefined {
  const text = String(cell).normalize('NFKC').trim().toLowerCase();
  return YES.has(text) ? true : NO.has(text) ? false : undefined;
}

/** Columns before those of the keys. */
export const GRID_ROW_COLUMNS = [
  { heading: 'Cylinder', format: 'text', width: 12, needed: true },
  { heading: 'Door', format: 'text', width: 14 },
  { heading: 'Symbol', format: 'text', width: 10 },
] as const satisfies readonly ColumnSpec[];

/** All columns of a grid, one a key. */
export const gridColumns = (keys: readonly string[]): ColumnSpec[] => [
  ...GRID_ROW_COLUMNS,
  ...keys.map((heading) => ({ heading, format: 'text' as const, width: 5 })),
];

const NOT_KEYS = new Set(['cylinder', 'door', 'symbol', 'location', 'note', 'system', ...METAL_HEADINGS]);

/** Whether a heading may be a key's symbol: not one of the usual columns about the cylinder. */
export const isKeyHeading = (heading: string): boolean => !NOT_KEYS.has(fold(heading));

/** `isKey` tells a column of the system's from one that the shop added for itself. */
export function readGrid(
  table: TableReading,
  isKey: (symbol: string) => boolean,
): { readonly grid: GridReading; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const cylinderAt = columnOf(table, 'Cylinder');
  const keys = new Map<string, number>();
  table.headers.forEach((header, c) => {
    if (c === cylinderAt) return;
    if (isKey(header)) keys.set(header, table.box.column + c);
    else if (isKeyHeading(header) && table.values.some((row) => readMark(row[c] ?? '') === true))
      problems.push({
        ...place(table.sheet, table.box.row, table.box.column + c),
        severity: 'warning',
        sentence: `The system has no key “${header}”, so the marks below are not read. Add the key or correct the heading.`,
      });
  });
  const cylinders = new Map<string, number>();
  const marks: { key: string; cylinder: string; at: ReturnType<typeof place> }[] = [];
  table.values.forEach((row, i) => {
    const sheetRow = table.box.row + 1 + i;
    const cylinder = String(row[cylinderAt] ?? '').trim();
    if (isKeyRow(cylinder)) return;
    const marked = [...keys].filter(([, c]) => !isBlank(row[c - table.box.column]));
    if (cylinder === '') {
      if (marked.length > 0)
        problems.push({
          ...place(table.sheet, sheetRow, table.box.column + Math.max(0, cylinderAt)),
          severity: 'fault',
          sentence: 'This row has marks but no cylinder. Type the cylinder’s number.',
        });
      return;
    }
    if (cylinders.has(cylinder))
      problems.push({
        ...place(table.sheet, sheetRow, table.box.column + cylinderAt),
        severity: 'fault',
        sentence: `Cylinder “${cylinder}” has two rows in this grid. Take one away.`,
      });
    else cylinders.set(cylinder, sheetRow);
    for (const [key, c] of marked) {
      const cell = row[c - table.box.column]!;
      const mark = readMark(cell);
      const at = place(table.sheet, sheetRow, c);
      if (mark === true) marks.push({ key, cylinder, at });
      else if (mark === undefined)
        problems.push({
          ...at,
          severity: 'fault',
          sentence: `“${String(cell)}” is no mark. Type ${MARK} or x where the key must operate, and nothing elsewhere.`,
        });
    }
  });
  return { grid: { table: table.name, box: table.box, keys, cylinders, marks }, problems };
}

/** The cells of a grid's row in the order of `gridColumns`. */
export const gridRow = (
  cylinder: { readonly id: string; readonly door?: string; readonly symbol: string },
  keys: readonly string[],
  marked: ReadonlySet<string>,
): CellInput[] => [
  cylinder.id,
  cylinder.door ?? '',
  cylinder.symbol,
  ...keys.map((key) => (marked.has(key) ? MARK : '')),
];
