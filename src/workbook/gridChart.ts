/**
 * A key-by-door grid of the shop's, read into keys, cylinders and marks with their cells. Nothing is guessed: a cell
 * that is neither a mark nor empty is a fault, and so is a name that stands twice.
 */
import { brief } from '../keying/words.ts';
import { isBlank } from './fields.ts';
import { layoutUnder, findGridLayout, markOf, type GridLayout } from './gridLayout.ts';
import { againIn, columnsAbout, columnsAgain, firstOf, metalAt, rowsAbout, type Metal } from './gridMetal.ts';
import type { GridSource } from './gridSource.ts';
import { fold } from './names.ts';
import { boxAddress, place, type Place } from './places.ts';
import type { CellValue, Problem } from './reading.ts';
import { MARK } from './tableGrid.ts';

export interface ChartKey {
  readonly symbol: string;
  /** Its heading; in a list, the first cell that names it. */
  readonly at: Place;
  /** What the sheet says of its blank. */
  readonly metal?: Metal;
}

export interface ChartCylinder {
  readonly id: string;
  readonly door?: string;
  readonly at: Place;
  /** What the sheet says of its keyway, pins and control cuts. */
  readonly metal?: Metal;
}

export interface ChartMark {
  readonly key: string;
  readonly cylinder: string;
  readonly at: Place;
}

export interface GridChart {
  readonly layout: GridLayout;
  /** Headings of all columns, to choose from. */
  readonly headers: readonly string[];
  readonly keys: readonly ChartKey[];
  readonly cylinders: readonly ChartCylinder[];
  readonly marks: readonly ChartMark[];
  /** With a fault among them the grid says something other than what it shows, and is not solved. */
  readonly problems: readonly Problem[];
}

export interface ChartOptions {
  /** As the user chose it; found when left out. */
  readonly layout?: GridLayout;
  /** Only the header row was chosen. */
  readonly headerRow?: number;
  /** Further words that mean yes, folded. */
  readonly yes?: ReadonlySet<string>;
}

/**
 * Reads the grid; undefined where nothing looks like one.
 * @example chartOf(source)?.marks → [{ key: 'M', cylinder: '101', at: { sheet: 'Doors', address: 'C4' } }, …]
 */
export function chartOf(source: GridSource, options: ChartOptions = {}): GridChart | undefined {
  const yes = options.yes ?? new Set<string>();
  const layout =
    options.layout ??
    (options.headerRow === undefined
      ? findGridLayout(source.values, yes)
      : layoutUnder(source.values, options.headerRow, yes));
  if (!layout) return undefined;
  const problems: Problem[] = [];
  const headers = (source.values[layout.headerRow] ?? []).map((cell) => String(cell).trim());
  const said = layout.list === undefined ? rowsAbout(source.values, layout) : [];
  const aboutKeys = firstOf(said);
  const keyRowsAgain = againIn(said);
  const keyRows = new Set([...aboutKeys.values(), ...keyRowsAgain.map(([again]) => again)]);
  const rows = readRows(source, layout, keyRows, problems);
  const keys = readHeadings(source, layout, aboutKeys, problems);
  const read =
    layout.list === undefined
      ? { keys, marks: readMarks(source, rows, keys, yes, problems) }
      : readLists(source, rows, layout.list, problems);
  reportMerged(source, layout, keyRows, problems);
  reportAgain(source, layout, keyRowsAgain, problems);
  const unmarked = new Set(read.keys.map((key) => fold(key.symbol)));
  for (const mark of read.marks) unmarked.delete(fold(mark.key));
  for (const key of read.keys)
    if (unmarked.has(fold(key.symbol)))
      problems.push({
        ...key.at,
        severity: 'warning',
        sentence: `Key “${key.symbol}” has no mark: it gets a bitting that opens nothing.`,
      });
  return {
    layout,
    headers,
    keys: read.keys.map(({ symbol, at, metal }) => ({ symbol, at, ...(metal && { metal }) })),
    cylinders: rows.map(({ id, door, at, metal }) => ({
      id,
      at,
      ...(door && { door }),
      ...(metal && { metal }),
    })),
    marks: read.marks,
    problems: problems.map((one) => ({ ...one, sentence: brief(one.sentence) })),
  };
}

interface Row extends ChartCylinder {
  readonly row: number;
}
interface Column extends ChartKey {
  readonly column: number;
}

const textAt = (source: GridSource, row: number, column: number | undefined): string =>
  column === undefined ? '' : String(source.values[row]?.[column] ?? '').trim();

const placeAt = ({ box }: GridSource, row: number, column: number): Place =>
  place(box.sheet, box.row + row, box.column + column);

function readRows(
  source: GridSource,
  layout: GridLayout,
  aboutKeys: ReadonlySet<number>,
  problems: Problem[],
): Row[] {
  const about = columnsAbout(source.values[layout.headerRow] ?? []);
  const seen = new Map<string, Place>();
  const rows: Row[] = [];
  const columns = layout.list === undefined ? layout.keys : [layout.list];
  source.values.slice(layout.headerRow + 1).forEach((cells, i) => {
    const row = layout.headerRow + 1 + i;
    if (aboutKeys.has(row)) return;
    const id = textAt(source, row, layout.cylinder);
    const at = placeAt(source, row, layout.cylinder);
    const filled = columns.some((c) => !isBlank(cells[c]));
    if (id === '' || id.startsWith('#N')) {
      if (filled)
        problems.push({
          ...at,
          severity: 'fault',
          sentence: 'This row is marked but names no cylinder. Type its number, or clear the marks.',
        });
      return;
    }
    const other = seen.get(fold(id));
    if (other) {
      problems.push({
        ...at,
        severity: 'fault',
        sentence: `“${id}” stands at ${other.address} already. Give one of the two another name.`,
      });
      return;
    }
    // a heading of a section has a name and nothing else
    if (!filled && cells.filter((cell) => !isBlank(cell)).length === 1 && !/\d/.test(id)) return;
    seen.set(fold(id), at);
    const door = textAt(source, row, layout.door);
    const metal = metalAt(
      source.values,
      about,
      (c) => [row, c],
      (r, c) => placeAt(source, r, c),
    );
    rows.push({ id, at, row, ...(door && { door }), ...(metal && { metal }) });
  });
  return rows;
}

function readHeadings(
  source: GridSource,
  layout: GridLayout,
  about: ReturnType<typeof firstOf>,
  problems: Problem[],
): Column[] {
  const seen = new Map<string, Place>();
  return layout.keys.flatMap((column): Column[] => {
    const symbol = textAt(source, layout.headerRow, column);
    const at = placeAt(source, layout.headerRow, column);
    if (symbol === '') {
      const used = source.values.slice(layout.headerRow + 1).some((row) => !isBlank(row[column]));
      if (used)
        problems.push({
          ...at,
          severity: 'fault',
          sentence: 'There are marks below, but no key is named here. Type its symbol, or clear the column.',
        });
      return [];
    }
    const other = seen.get(fold(symbol));
    if (other) {
      problems.push({
        ...at,
        severity: 'fault',
        sentence: `“${symbol}” heads ${other.address} already. Give one of the two another symbol.`,
      });
      return [];
    }
    seen.set(fold(symbol), at);
    const metal = metalAt(
      source.values,
      about,
      (row) => [row, column],
      (r, c) => placeAt(source, r, c),
    );
    return [{ symbol, at, column, ...(metal && { metal }) }];
  });
}

function readMarks(
  source: GridSource,
  rows: readonly Row[],
  keys: readonly Column[],
  yes: ReadonlySet<string>,
  problems: Problem[],
): ChartMark[] {
  return rows.flatMap(({ id, row }) =>
    keys.flatMap(({ symbol, column }): ChartMark[] => {
      const cell: CellValue = source.values[row]?.[column] ?? '';
      const mark = markOf(cell, symbol, yes);
      const at = placeAt(source, row, column);
      if (mark === undefined)
        problems.push({
          ...at,
          severity: 'fault',
          sentence: `“${String(cell)}” is no mark. Type ${MARK} or x where ${symbol} must open ${id}, clear it where it must not, or add it to the words that mean yes.`,
        });
      return mark === true ? [{ key: symbol, cylinder: id, at }] : [];
    }),
  );
}

/** Keys listed in a cell: with commas, semicolons, slashes or lines between; with spaces where there are none of those. */
function readLists(
  source: GridSource,
  rows: readonly Row[],
  column: number,
  problems: Problem[],
): { keys: ChartKey[]; marks: ChartMark[] } {
  const separated = rows.some(({ row }) => /[,;/+\n]/.test(textAt(source, row, column)));
  const split = separated ? /[,;/+\n]/ : /\s/;
  const keys = new Map<string, ChartKey>();
  const marks: ChartMark[] = [];
  for (const { id, row } of rows) {
    const at = placeAt(source, row, column);
    const text = textAt(source, row, column);
    if (text.startsWith('#'))
      problems.push({
        ...at,
        severity: 'fault',
        sentence: `“${text}” is an error of Excel’s, not a list of keys. Correct the formula, or type the symbols.`,
      });
    const named = new Set<string>();
    const listed = text.startsWith('#') ? [] : text.split(split).map((symbol) => symbol.trim());
    for (const symbol of listed.filter((each) => each !== '')) {
      if (named.has(fold(symbol))) continue;
      named.add(fold(symbol));
      if (!keys.has(fold(symbol))) keys.set(fold(symbol), { symbol, at });
      marks.push({ key: keys.get(fold(symbol))!.symbol, cylinder: id, at });
    }
  }
  return { keys: [...keys.values()], marks };
}

/** Of two columns or rows about the same thing neither is taken for the right one. */
function reportAgain(
  source: GridSource,
  { headerRow }: GridLayout,
  keyRowsAgain: ReturnType<typeof againIn>,
  problems: Problem[],
): void {
  const report = (again: Place, first: Place): void => {
    problems.push({
      ...again,
      severity: 'fault',
      sentence: `${first.address} and ${again.address} are about the same thing. Keep one of the two.`,
    });
  };
  for (const [again, first] of columnsAgain(source.values[headerRow] ?? []))
    report(placeAt(source, headerRow, again), placeAt(source, headerRow, first));
  const named = (row: number): Place =>
    placeAt(
      source,
      row,
      source.values[row]!.findIndex((cell) => !isBlank(cell)),
    );
  for (const [again, first] of keyRowsAgain) report(named(again), named(first));
}

/** Excel keeps one value for merged cells: what was meant for the others can't be known. */
function reportMerged(
  source: GridSource,
  layout: GridLayout,
  aboutKeys: ReadonlySet<number>,
  problems: Problem[],
): void {
  const columns = new Set(layout.list === undefined ? layout.keys : [layout.list]);
  for (const c of columnsAbout(source.values[layout.headerRow] ?? []).values()) columns.add(c);
  for (const area of source.merged) {
    const last = area.row + area.rows - 1;
    const inside = Array.from({ length: area.columns }, (_, i) => area.column + i).some((c) =>
      columns.has(c),
    );
    const about = Array.from({ length: area.rows }, (_, i) => area.row + i).some((r) => aboutKeys.has(r));
    if (!inside || (last <= layout.headerRow && !about)) continue;
    const box = { ...area, row: source.box.row + area.row, column: source.box.column + area.column };
    problems.push({
      ...placeAt(source, area.row, area.column),
      severity: 'fault',
      sentence: `${boxAddress(box)} are merged, so that only one of them holds anything. Unmerge them and fill each cell.`,
    });
  }
}
