/**
 * Cells of a grid that say what its keys and cylinders are made of. About cylinders a column of its own, headed Keyway,
 * Pins or Control; about keys a row of its own, above or below their symbols, called Keyway, Blank or Cuts.
 */
import { isBlank } from './fields.ts';
import { fold } from './names.ts';
import type { Place } from './places.ts';
import type { CellValue } from './reading.ts';

/** A filled cell as text, with its place. */
export interface Said {
  readonly text: string;
  readonly at: Place;
}

/** What cells say of a key: the keyway or blank, the cuts on it. Of a cylinder also the control cuts. */
export interface Metal {
  readonly blank?: Said;
  readonly cuts?: Said;
  readonly control?: Said;
}

type About = keyof Metal;

const BLANK_WORDS = ['keyway', 'keyways', 'key section', 'blank', 'key blank'] as const;
const PIN_WORDS = ['pins', 'chambers', 'no. of pins', 'number of pins'] as const;
const CONTROL_WORDS = ['control', 'control key', 'control cuts', 'control bitting'] as const;

const ofWords = (about: About, words: readonly string[]): [string, About][] =>
  words.map((word) => [word, about]);
const COLUMNS = new Map([
  ...ofWords('blank', BLANK_WORDS),
  ...ofWords('cuts', PIN_WORDS),
  ...ofWords('control', CONTROL_WORDS),
]);
const ROWS = new Map([...ofWords('blank', BLANK_WORDS), ...ofWords('cuts', ['cuts', 'number of cuts'])]);

/** Headings of columns about cylinders, folded: no key is called so. */
export const METAL_HEADINGS: ReadonlySet<string> = new Set(COLUMNS.keys());

/** Whether a row of this name is about the keys above or below it, and no cylinder. */
export const isKeyRow = (name: CellValue | undefined): boolean => ROWS.has(fold(String(name ?? '')));

type Cells = readonly (readonly CellValue[])[];
type PlaceOf = (row: number, column: number) => Place;

/**
 * The columns about cylinders, by the headings of a row.
 * @example columnsAbout(['Door', 'Keyway', 'M']) → Map { 'blank' → 1 }
 */
export const columnsAbout = (header: readonly CellValue[]): ReadonlyMap<About, number> =>
  firstOf(header.map(columnAbout));

const columnAbout = (heading: CellValue): About | undefined => COLUMNS.get(fold(String(heading)));

/** The first of each kind. */
export const firstOf = (all: readonly (About | undefined)[]): ReadonlyMap<About, number> =>
  new Map(all.flatMap((about, n) => (about && all.indexOf(about) === n ? [[about, n]] : [])));

/** Where something is said again, and where it was said first. */
type Again = readonly (readonly [again: number, first: number])[];

/** Those of a kind that was there before: which of the two counts can't be known. */
export const againIn = (all: readonly (About | undefined)[]): Again =>
  all.flatMap((about, n) => (about && all.indexOf(about) < n ? [[n, all.indexOf(about)]] : []));

/** Columns about what another column is about. */
export const columnsAgain = (header: readonly CellValue[]): Again => againIn(header.map(columnAbout));

interface Names {
  /** Columns of keys. */
  readonly keys: readonly number[];
  readonly cylinder: number;
  readonly door?: number;
}

/**
 * What a row says about keys: the one name beside the keys' columns tells, where cylinders or doors are named or where
 * nothing else is.
 * @example rowAbout([['Keyway', 'K1', 'K2'], …], 0, { keys: [1, 2], cylinder: 0 }) → 'blank'
 */
export function rowAbout(cells: Cells, r: number, { keys, cylinder, door }: Names): About | undefined {
  const row = cells[r] ?? [];
  const name = row.findIndex((cell, c) => !isBlank(cell) && !keys.includes(c));
  const about = name < 0 ? undefined : ROWS.get(fold(String(row[name])));
  if (!about || row.some((cell, c) => c > name && !isBlank(cell) && !keys.includes(c))) return undefined;
  const holdsNames =
    name === cylinder ||
    name === door ||
    cells.every((other) => isBlank(other[name]) || isKeyRow(other[name]));
  return holdsNames ? about : undefined;
}

/** What each row says about keys. */
export const rowsAbout = (cells: Cells, names: Names): readonly (About | undefined)[] =>
  cells.map((_, r) => rowAbout(cells, r, names));

/** What the cells of one cylinder's row, or of one key's column, say; undefined where they say nothing. */
export function metalAt(
  cells: Cells,
  about: ReadonlyMap<About, number>,
  cellOf: (index: number) => readonly [row: number, column: number],
  at: PlaceOf,
): Metal | undefined {
  const metal: { -readonly [A in About]?: Said } = {};
  for (const [what, index] of about) {
    const [row, column] = cellOf(index);
    const cell = cells[row]?.[column];
    if (!isBlank(cell)) metal[what] = { text: String(cell).trim(), at: at(row, column) };
  }
  return Object.keys(metal).length > 0 ? metal : undefined;
}
