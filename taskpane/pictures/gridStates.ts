/** What a cell of the key-by-door grid can say, in words; the marks are the same in sheet, pane and print. */

export const GRID_STATES = ['opens', 'lock-out', 'interchange', 'closed'] as const;
export type GridState = (typeof GRID_STATES)[number];

/** What the grid shows: columns are keys, rows are cylinders. */
export interface GridData {
  /** What the columns are, where they aren't keys. */
  readonly across?: 'person';
  readonly keys: readonly { readonly symbol: string }[];
  readonly cylinders: readonly { readonly id: string; readonly door?: string }[];
  /** Row is an index of `cylinders`, column one of `keys`. Called for what is in view, so it has to be cheap. */
  readonly stateOf: (row: number, column: number) => GridState;
}

/** The columns in words, one and many. */
export const columnNoun = ({ across }: Pick<GridData, 'across'>): readonly [one: string, many: string] =>
  across === 'person' ? ['person', 'people'] : ['key', 'keys'];

const WORDS: Record<GridState, string> = {
  opens: 'opens as meant',
  'lock-out': 'should open and doesn’t',
  interchange: 'opens and should not',
  closed: 'doesn’t open, as meant',
};

export const stateWords = (state: GridState): string => WORDS[state];

export const isFault = (state: GridState): boolean => state === 'lock-out' || state === 'interchange';

/** What people call the cylinder: its door, else its own number. */
export const rowName = (cylinder: GridData['cylinders'][number]): string => cylinder.door ?? cylinder.id;

export interface Cell {
  readonly row: number;
  readonly column: number;
}

/** Every cell that isn't as meant, row by row. */
export function faultCells({ keys, cylinders, stateOf }: GridData): Cell[] {
  const found: Cell[] = [];
  for (let row = 0; row < cylinders.length; row++)
    for (let column = 0; column < keys.length; column++)
      if (isFault(stateOf(row, column))) found.push({ row, column });
  return found;
}

/** The fault after (or before) a cell in reading order, going round at the end. */
export function nextFault(faults: readonly Cell[], from: Cell, direction: 1 | -1): Cell | undefined {
  const compare = (a: Cell, b: Cell) => a.row - b.row || a.column - b.column;
  if (direction === 1) return faults.find((f) => compare(f, from) > 0) ?? faults[0];
  return faults.findLast((f) => compare(f, from) < 0) ?? faults[faults.length - 1];
}

/**
 * The first key or door whose name begins with the text, else one that holds it; the case doesn't matter.
 * A match among keys moves along the row, one among doors down the column.
 */
export function findCell({ keys, cylinders }: GridData, text: string, from: Cell): Cell | undefined {
  const sought = text.trim().toLowerCase();
  if (sought === '') return undefined;
  const names = [
    ...keys.map((key, column) => ({ names: [key.symbol], cell: { row: from.row, column } })),
    ...cylinders.map((c, row) => ({
      names: c.door === undefined ? [c.id] : [c.door, c.id],
      cell: { row, column: from.column },
    })),
  ];
  const matches = (test: (name: string) => boolean) =>
    names.find((entry) => entry.names.some((name) => test(name.toLowerCase())))?.cell;
  return (
    matches((name) => name === sought) ??
    matches((name) => name.startsWith(sought)) ??
    matches((name) => name.includes(sought))
  );
}
