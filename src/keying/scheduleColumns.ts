/**
 * Finding the columns of a schedule that somebody else laid out. The header row is the one among the first rows with
 * the most headings that we know, door among them; a heading may also stand over two rows, merged downwards ("Door")
 * or as a group over several columns ("Cylinder" over "Type" and "Length"). It is a guess, to be confirmed.
 */
import { HEADING_WORDS, SCHEDULE_ROLES, type ScheduleRole } from './scheduleWords.ts';

/** A cell's content: '' is empty. */
export type SheetCell = string | number | boolean;
export type SheetCells = readonly (readonly SheetCell[])[];

/** Zero-based row of the header and columns, from the first cell of the block. */
export type ScheduleColumns = { readonly headerRow: number; readonly door: number } & {
  readonly [role in Exclude<ScheduleRole, 'door'>]?: number;
};

export interface FoundSchedule {
  readonly columns: ScheduleColumns;
  /** Headings of all columns, for the user to confirm or to choose from. */
  readonly headers: readonly string[];
}

const HEADER_WITHIN = 30;

/**
 * What stands before a closing bracket, without what the bracket holds. Cut up at the closing ones, since a pattern that
 * looks for them from each opening one takes a second over a full cell of `(`.
 */
function withoutBracket(part: string, index: number, parts: readonly string[]): string {
  if (index === parts.length - 1) return part;
  const open = part.indexOf('(');
  return open < 0 ? `${part})` : `${part.slice(0, open)} `;
}

/** @example foldHeading('Door No.:') → 'door no'; foldHeading('Length (mm)') → 'length' */
export const foldHeading = (cell: SheetCell | undefined): string =>
  String(cell ?? '')
    .normalize('NFKC')
    .toLowerCase()
    .replace(/n[º°]/g, 'no')
    .split(')')
    .map(withoutBracket)
    .join('')
    .replace(/[#.:_*]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();

/** Own heading of each column, and the one above where that is needed to understand it. */
function headingsAt(cells: SheetCells, row: number): { own: string[]; joined: string[] } {
  const here = cells[row] ?? [];
  const above = cells[row - 1] ?? [];
  let group = '';
  const own: string[] = [];
  const joined: string[] = [];
  for (let c = 0; c < here.length; c++) {
    const up = foldHeading(above[c]);
    if (up !== '') group = up;
    const mine = typeof here[c] === 'string' ? foldHeading(here[c]) : '';
    own.push(mine !== '' || String(here[c] ?? '').trim() !== '' ? mine : up);
    joined.push(mine === '' ? '' : `${group} ${mine}`.trim());
  }
  return { own, joined };
}

function rolesAt(cells: SheetCells, row: number): Partial<Record<ScheduleRole, number>> {
  const { own, joined } = headingsAt(cells, row);
  const roles: Partial<Record<ScheduleRole, number>> = {};
  const taken = new Set<number>();
  for (const [role, words] of HEADING_WORDS) {
    const column = words
      .map((word) => own.findIndex((heading, c) => !taken.has(c) && (joined[c] === word || heading === word)))
      .find((c) => c >= 0);
    if (column === undefined) continue;
    roles[role] = column;
    taken.add(column);
  }
  return roles;
}

/** Headings as they are shown: those over two rows together. */
export function headersAt(cells: SheetCells, row: number): string[] {
  return (cells[row] ?? []).map((cell, c) => {
    const mine = String(cell).trim();
    return mine === '' ? String(cells[row - 1]?.[c] ?? '').trim() : mine;
  });
}

/**
 * Finds the header row in the values of a sheet. Undefined where no row names a door column and one more.
 * @example findSchedule([['West wing'], [], ['Door', 'Room', 'Keyset', 'Qty'], …])?.columns
 *   → { headerRow: 2, door: 0, location: 1, symbol: 2, quantity: 3 }
 */
export function findSchedule(cells: SheetCells): FoundSchedule | undefined {
  let best: { columns: ScheduleColumns; found: number } | undefined;
  for (let headerRow = 0; headerRow < Math.min(HEADER_WITHIN, cells.length); headerRow++) {
    const { door, ...others } = rolesAt(cells, headerRow);
    const found = Object.keys(others).length + 1;
    const named = (cells[headerRow] ?? []).some((cell) => typeof cell === 'string' && cell.trim() !== '');
    if (door === undefined || found < 2 || !named || found <= (best?.found ?? 0)) continue;
    best = { columns: { headerRow, door, ...others }, found };
  }
  return best && { columns: best.columns, headers: headersAt(cells, best.columns.headerRow) };
}

/** Headings of the columns that the user confirmed, to find them again when the sheet was changed. */
export type RememberedHeadings = Partial<Record<ScheduleRole, string>>;

/** What to keep beside confirmed columns. */
export function headingsOf(columns: ScheduleColumns, headers: readonly string[]): RememberedHeadings {
  const kept: RememberedHeadings = {};
  for (const role of SCHEDULE_ROLES) {
    const column = columns[role];
    if (column !== undefined) kept[role] = headers[column] ?? '';
  }
  return kept;
}

/**
 * Confirmed columns in the sheet as it is now: rows may have come above the header and columns between. Undefined
 * where a heading is gone, so that the columns have to be confirmed anew.
 */
export function recallColumns(
  cells: SheetCells,
  columns: ScheduleColumns,
  headings: RememberedHeadings,
): ScheduleColumns | undefined {
  const rows = [
    columns.headerRow,
    ...Array.from({ length: Math.min(HEADER_WITHIN, cells.length) }, (_, r) => r),
  ];
  for (const headerRow of rows) {
    const now = recallAt(headersAt(cells, headerRow), columns, headings, headerRow);
    if (now) return now;
  }
  return undefined;
}

function recallAt(
  headers: readonly string[],
  columns: ScheduleColumns,
  headings: RememberedHeadings,
  headerRow: number,
): ScheduleColumns | undefined {
  const now: { -readonly [role in ScheduleRole]?: number } = {};
  for (const role of SCHEDULE_ROLES) {
    const before = columns[role];
    if (before === undefined) continue;
    const wanted = foldHeading(headings[role] ?? '');
    const same = foldHeading(headers[before]) === wanted;
    const at = same ? before : headers.findIndex((h) => wanted !== '' && foldHeading(h) === wanted);
    if (at < 0) return undefined;
    now[role] = at;
  }
  const { door, ...others } = now;
  return door === undefined ? undefined : { headerRow, door, ...others };
}
