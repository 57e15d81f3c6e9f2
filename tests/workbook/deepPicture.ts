/** A picture of everything in a workbook that a write could change, for comparing two moments. */
import type { SheetModel, WorkbookModel } from '../../src/preview/model/index.ts';

const JOURNAL = /^KeyrowWriting /;

/** Maps and sets as plain objects; ids and numbers of the opened file are left out. */
function plain(value: unknown): unknown {
  if (value instanceof Map) return Object.fromEntries([...value].map(([k, v]) => [String(k), plain(v)]));
  if (value instanceof Set) return [...value].map(plain);
  if (Array.isArray(value)) return value.map(plain);
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).filter(
    ([key]) => !['id', 'sheetId', 'fileId', 'fileFormat'].includes(key),
  );
  return Object.fromEntries(entries.map(([key, part]) => [key, plain(part)]));
}

/** A cell without a format of its own is General, and one without content and looks is no cell. */
function cellsOf(sheet: SheetModel, formats: boolean): Record<string, unknown> {
  const cells: Record<string, unknown> = {};
  for (const { row, column, cell } of sheet.cells.all()) {
    const { numberFormat, ...looks } = cell.style ?? {};
    const shown = {
      ...(cell.formula === undefined ? { value: cell.value } : { formula: cell.formula }),
      ...(formats && numberFormat !== undefined && numberFormat !== 'General' && { numberFormat }),
      ...(Object.keys(looks).length > 0 && { looks: plain(looks) }),
    };
    if (Object.keys(shown).length > 1 || cell.value !== null || cell.formula !== undefined)
      cells[`${row},${column}`] = shown;
  }
  return cells;
}

export interface DeepPicture {
  readonly sheets: readonly unknown[];
  readonly tables: unknown;
  readonly names: unknown;
  readonly settings: unknown;
}

/**
 * `printing: false` leaves out how sheets are printed, which a computer without a printer refuses; `formats: false` the
 * number formats of cells.
 */
export function deepPicture(model: WorkbookModel, { printing = true, formats = true } = {}): DeepPicture {
  return {
    sheets: model.sheets.map((sheet) => {
      const { page, rowHeights, ...layout } = sheet.layout;
      return {
        cells: cellsOf(sheet, formats),
        layout: plain(layout),
        // 15 points is how high a row is that nobody touched
        rowHeights: plain(new Map([...rowHeights].filter(([, points]) => points !== 15))),
        protection: plain(sheet.protection),
        ...(printing && { page: plain(page) }),
      };
    }),
    tables: plain([...model.tables].sort((a, b) => a.name.localeCompare(b.name))),
    names: plain(model.state.names),
    settings: Object.fromEntries([...model.state.settings].filter(([key]) => !JOURNAL.test(key))),
  };
}

/** Notes of writes under way. */
export const notesLeft = (model: WorkbookModel): string[] =>
  [...model.state.settings.keys()].filter((key) => JOURNAL.test(key));

/**
 * Where two pictures differ first, as a path with both contents; undefined where they are alike. Two texts compare in a
 * tenth of the time of a test's own comparison, and nearly all pairs are alike.
 */
export function sameAs(a: unknown, b: unknown): string | undefined {
  return JSON.stringify(a) === JSON.stringify(b) ? undefined : firstDifference(a, b, '');
}

function firstDifference(a: unknown, b: unknown, path: string): string | undefined {
  if (Object.is(a, b)) return undefined;
  const isTree = (x: unknown): x is Record<string, unknown> => typeof x === 'object' && x !== null;
  if (!isTree(a) || !isTree(b)) return `${path}: ${JSON.stringify(a)} | ${JSON.stringify(b)}`;
  for (const key of new Set([...Object.keys(a), ...Object.keys(b)])) {
    const found = firstDifference(a[key], b[key], `${path}/${key}`);
    if (found !== undefined) return found;
  }
  return undefined;
}
