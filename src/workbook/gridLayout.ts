/**
 * Where the parts of a marked grid lie in the shop's own layout: cylinders down, keys across. The header row is the
 * one with the most marks under headings that aren't marks themselves, the lowest of several that are alike (a row
 * of names over a row of symbols). Instead of marks a column may list the keys of each cylinder.
 */
import { isBlank } from './fields.ts';
import { METAL_HEADINGS, rowAbout } from './gridMetal.ts';
import { fold } from './names.ts';
import type { CellValue } from './reading.ts';
import { readMark } from './tableGrid.ts';

/** Rows and columns from 0 within the cells that were read. */
export interface GridLayout {
  readonly headerRow: number;
  /** The cylinder's own number or name. */
  readonly cylinder: number;
  /** What people call the door, where it stands in a column of its own. */
  readonly door?: number;
  /** One column a key; empty where a column lists them. */
  readonly keys: readonly number[];
  /** The column that lists each cylinder's keys. */
  readonly list?: number;
}

type Cells = readonly (readonly CellValue[])[];

/** Looked for within so many rows: below a title block, not in the middle of a list. */
const FIRST_ROWS = 40;

const CYLINDER_WORDS = new Set(['cylinder', 'cylinders', 'cyl', 'cyl.', 'lock', 'cylinder no.', 'cylinder number', 'core', 'no.', 'no', 'number', '#']); // prettier-ignore
const DOOR_WORDS = new Set(['door', 'doors', 'door no.', 'door no', 'door number', 'opening', 'room', 'location', 'description', 'name']); // prettier-ignore
const LIST_WORDS = new Set(['keys', 'key', 'opened by', 'operated by', 'keyed to', 'key symbols', 'symbols', 'keyset', 'keysets', 'who opens']); // prettier-ignore
const OTHER_WORDS = new Set(['qty', 'quantity', 'pcs', 'pieces', 'note', 'notes', 'remarks', 'system', 'symbol', 'type', 'zone', 'floor', 'level', 'finish', 'length', 'total', 'sum', 'hardware', 'side']); // prettier-ignore
const NOT_KEYS = new Set([...CYLINDER_WORDS, ...DOOR_WORDS, ...OTHER_WORDS, ...METAL_HEADINGS]);

const text = (cell: CellValue | undefined): string => String(cell ?? '').trim();

/** A text that counts as a mark in the column of a key: one of the usual ones, one of the shop's, the key's own name. */
export function markOf(cell: CellValue, key: string, yes: ReadonlySet<string>): boolean | undefined {
  const folded = fold(String(cell));
  if (folded !== '' && (yes.has(folded) || folded === fold(key))) return true;
  return readMark(cell);
}

/** Words of the shop's that mean yes, typed with commas or spaces between. @example yesWords('ja, E') → Set { 'ja', 'e' } */
export const yesWords = (typed: string): ReadonlySet<string> =>
  new Set(typed.split(/[,;\s]/).map(fold).filter(Boolean)); // prettier-ignore

interface Candidate {
  readonly layout: GridLayout;
  readonly score: number;
  /** Nothing marks it but its headings written again. */
  readonly repeats: boolean;
}

/**
 * @example findGridLayout([['Door', 'M', 'A'], ['101', 'x', 'x'], ['102', 'x', '']], new Set())
 *   → { headerRow: 0, cylinder: 0, keys: [1, 2] }
 */
export function findGridLayout(cells: Cells, yes: ReadonlySet<string>): GridLayout | undefined {
  let best: Candidate | undefined;
  // a row of keyways over the marks is taken for the keys' own symbols only where there is no other
  let next: Candidate | undefined;
  const kinds = kindsOf(cells, yes);
  for (let row = 0; row < Math.min(cells.length - 1, FIRST_ROWS); row++) {
    const found = markedUnder(cells, row, kinds);
    if (!found || (found.repeats && !headsNames(cells[row]!, found.layout))) continue;
    if (rowAbout(cells, row, found.layout)) next ??= found;
    else if (!best || found.score >= best.score) best = found;
  }
  return (best ?? next)?.layout ?? listed(cells);
}

/** Below a row of the list's own a column of one value, "brass" in every row, looks like marks of a key of that name. */
function headsNames(header: readonly CellValue[], { cylinder }: GridLayout): boolean {
  const heading = fold(text(header[cylinder]));
  return heading === '' || CYLINDER_WORDS.has(heading) || DOOR_WORDS.has(heading);
}

/** The layout with another header row, as the user chose it; undefined where nothing is marked under it. */
export const layoutUnder = (
  cells: Cells,
  headerRow: number,
  yes: ReadonlySet<string>,
): GridLayout | undefined => markedUnder(cells, headerRow, kindsOf(cells, yes))?.layout;

/** What a cell is, whatever stands above it; its folded text counts as a mark under a heading of the same name. */
interface CellKind {
  readonly mark: boolean | undefined;
  readonly folded: string;
}

/** Found once for all the rows that may be the header: a list may have 20,000 rows. Blank cells have none. */
const kindsOf = (cells: Cells, yes: ReadonlySet<string>): readonly (readonly (CellKind | undefined)[])[] =>
  cells.map((row) =>
    row.map((cell) =>
      isBlank(cell) ? undefined : { mark: markOf(cell, '', yes), folded: fold(String(cell)) },
    ),
  );

function markedUnder(
  cells: Cells,
  headerRow: number,
  kinds: ReturnType<typeof kindsOf>,
): Candidate | undefined {
  const header = cells[headerRow] ?? [];
  const body = cells.slice(headerRow + 1);
  const width = cells.reduce((most, row) => Math.max(most, row.length), 0);
  const marked: number[] = [];
  let score = 0;
  let repeats = true;
  for (let c = 0; c < width; c++) {
    const heading = text(header[c]);
    if (heading === '' || NOT_KEYS.has(fold(heading))) continue;
    const name = fold(heading);
    let marks = 0;
    let others = 0;
    let plain = false;
    for (let r = headerRow + 1; r < kinds.length; r++) {
      const kind = kinds[r]![c];
      if (!kind) continue;
      const mark = kind.folded === name ? true : kind.mark;
      if (mark === true) marks++;
      if (kind.mark === true) plain = true;
      else if (mark === undefined) others++;
    }
    // a few cells that can't be read are findings, a column of them is something else
    if (marks === 0 || others > marks) continue;
    marked.push(c);
    if (plain) repeats = false;
    // a mark as a heading means that this row is one of the grid's own
    if (readMark(header[c] ?? '') !== true) score += marks;
  }
  if (score === 0) return undefined;
  const names = nameColumns(header, body, marked);
  if (!names) return undefined;
  const keys: number[] = [];
  for (let c = marked[0]!; c <= marked.at(-1)!; c++) {
    // between key columns, one without a mark is a key that opens nothing yet, or has lost its heading
    if (c !== names.cylinder && (marked.includes(c) || isKeyLess(header, body, c))) keys.push(c);
  }
  for (let c = marked.at(-1)! + 1; c < width; c++) {
    if (text(header[c]) === '' || !isKeyLess(header, body, c)) break;
    keys.push(c);
  }
  return { layout: { headerRow, ...names, keys }, score, repeats };
}

/** A column that holds nothing but marks or blanks, whatever its heading. */
function isKeyLess(header: readonly CellValue[], body: Cells, c: number): boolean {
  if (NOT_KEYS.has(fold(text(header[c])))) return false;
  return body.every((row) => isBlank(row[c]) || readMark(row[c] ?? '') !== undefined);
}

/** The columns left of the keys (else right of them) that name the rows. */
function nameColumns(
  header: readonly CellValue[],
  body: Cells,
  keys: readonly number[],
): Pick<GridLayout, 'cylinder' | 'door'> | undefined {
  const others = header.map((_, c) => c).filter((c) => !keys.includes(c));
  const rowsWithMarks = body.filter((row) => keys.some((c) => !isBlank(row[c])));
  const filled = (c: number): number =>
    new Set(rowsWithMarks.map((row) => fold(text(row[c]))).filter(Boolean)).size;
  const sound = others.filter((c) => filled(c) > 0);
  if (sound.length === 0) return undefined;
  const heads = (words: ReadonlySet<string>): number | undefined =>
    sound.find((c) => words.has(fold(text(header[c]))) && filled(c) * 2 > rowsWithMarks.length);
  const left = sound.filter((c) => c < keys[0]!);
  const mostNames = [...(left.length > 0 ? left : sound)].sort((a, b) => filled(b) - filled(a))[0]!;
  const doorByWord = heads(DOOR_WORDS);
  const byWord = heads(CYLINDER_WORDS);
  // "Door" alone names the rows; beside a column of cylinders it is what people call them
  const cylinder =
    byWord !== undefined && filled(byWord) >= filled(mostNames) ? byWord : (doorByWord ?? mostNames);
  return { cylinder, ...(doorByWord !== undefined && doorByWord !== cylinder && { door: doorByWord }) };
}

/** A grid without marks: a column headed "Keys", "Opened by" … lists them for each cylinder. */
function listed(cells: Cells): GridLayout | undefined {
  for (let row = 0; row < Math.min(cells.length - 1, FIRST_ROWS); row++) {
    const header = cells[row]!;
    const list = header.findIndex((cell) => LIST_WORDS.has(fold(text(cell))));
    if (list < 0) continue;
    const names = nameColumns(header, cells.slice(row + 1), [list]);
    if (names) return { headerRow: row, ...names, keys: [], list };
  }
  return undefined;
}
