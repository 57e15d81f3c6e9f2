/** Which cell and row of the opened file each present one was, after lines were inserted and deleted. */
import { MAX_COLUMNS } from '../model/address.ts';
import { shiftIndex, type Shift } from '../model/shift.ts';
import type { Cell } from '../model/types.ts';

export interface Origins {
  /** The old key (`row * 16384 + column`) of the cell now at this place. */
  readonly cell: (key: number, cell: Cell | undefined) => number | undefined;
  readonly row: (row: number) => number | undefined;
}

const IN_PLACE: Origins = { cell: (key) => key, row: (row) => row };

function moveCell(row: number, column: number, shift: Shift): [number, number] | null {
  const [along, across] = shift.axis === 'rows' ? [row, column] : [column, row];
  const { lane } = shift;
  if (lane !== undefined && (across < lane.start || across >= lane.start + lane.count)) return [row, column];
  const moved = shiftIndex(along, shift);
  if (moved === null) return null;
  return shift.axis === 'rows' ? [moved, column] : [row, moved];
}

/** Follows every cell through the shifts; the very same cell object elsewhere counts too (undo, cut and paste). */
export function traceOrigins(
  cells: ReadonlyMap<number, Cell>,
  rows: Iterable<number>,
  shifts: readonly Shift[],
): Origins {
  if (shifts.length === 0) return IN_PLACE;
  const byPlace = new Map<number, number>();
  const byCell = new Map<Cell, number>();
  for (const [key, cell] of cells) {
    byCell.set(cell, key);
    let place: [number, number] | null = [Math.floor(key / MAX_COLUMNS), key % MAX_COLUMNS];
    for (const shift of shifts) place = place === null ? null : moveCell(...place, shift);
    if (place !== null) byPlace.set(place[0] * MAX_COLUMNS + place[1], key);
  }
  const byRow = new Map<number, number>();
  for (const row of rows) {
    let moved: number | null = row;
    for (const shift of shifts)
      if (moved !== null && shift.axis === 'rows' && shift.lane === undefined)
        moved = shiftIndex(moved, shift);
    if (moved !== null) byRow.set(moved, row);
  }
  return {
    cell: (key, cell) => (cell === undefined ? undefined : byCell.get(cell)) ?? byPlace.get(key),
    row: (row) => byRow.get(row),
  };
}
