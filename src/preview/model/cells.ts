/** Sparse cells of one sheet, keyed `row * 16384 + column`. Stored cells are replaced, never changed in place. */
import { MAX_COLUMNS, contains } from './address.ts';
import type { Area, Cell } from './types.ts';
import { type Shift, shiftIndex } from './shift.ts';

export interface PlacedCell {
  row: number;
  column: number;
  cell: Cell;
}

export class CellStore {
  private cells = new Map<number, Cell>();

  get size(): number {
    return this.cells.size;
  }

  get(row: number, column: number): Cell | undefined {
    return this.cells.get(row * MAX_COLUMNS + column);
  }

  /** Puts or (with undefined) removes a cell and returns the one that was there. */
  set(row: number, column: number, cell: Cell | undefined): Cell | undefined {
    const key = row * MAX_COLUMNS + column;
    const before = this.cells.get(key);
    if (cell === undefined) this.cells.delete(key);
    else this.cells.set(key, cell);
    return before;
  }

  /** All stored cells, in no particular order. */
  *all(): Generator<PlacedCell> {
    for (const [key, cell] of this.cells) {
      const column = key % MAX_COLUMNS;
      yield { row: (key - column) / MAX_COLUMNS, column, cell };
    }
  }

  /** The stored cells of an area, in no particular order; quick for small areas and for sparse sheets. */
  in(area: Area): PlacedCell[] {
    const found: PlacedCell[] = [];
    if (area.rows * area.columns > this.cells.size) {
      for (const placed of this.all()) if (contains(area, placed.row, placed.column)) found.push(placed);
      return found;
    }
    for (let row = area.row; row < area.row + area.rows; row++) {
      for (let column = area.column; column < area.column + area.columns; column++) {
        const cell = this.get(row, column);
        if (cell) found.push({ row, column, cell });
      }
    }
    return found;
  }

  /** The smallest area holding all cells that `counts` accepts, or null. */
  used(counts: (cell: Cell) => boolean): Area | null {
    let [top, left, bottom, right] = [Infinity, Infinity, -1, -1];
    for (const { row, column, cell } of this.all()) {
      if (!counts(cell)) continue;
      top = Math.min(top, row);
      left = Math.min(left, column);
      bottom = Math.max(bottom, row);
      right = Math.max(right, column);
    }
    return bottom < 0 ? null : { row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 };
  }

  /** Moves cells for an insert or delete and returns the map as it was, for `restore`. */
  shift(shift: Shift): ReadonlyMap<number, Cell> {
    const before = this.cells;
    const next = new Map<number, Cell>();
    const rows = shift.axis === 'rows';
    for (const [key, cell] of before) {
      const column = key % MAX_COLUMNS;
      const row = (key - column) / MAX_COLUMNS;
      const [along, across] = rows ? [row, column] : [column, row];
      const lane = shift.lane;
      if (lane && (across < lane.start || across >= lane.start + lane.count)) {
        next.set(key, cell);
        continue;
      }
      const moved = shiftIndex(along, shift);
      if (moved === null) continue;
      next.set(rows ? moved * MAX_COLUMNS + column : row * MAX_COLUMNS + moved, cell);
    }
    this.cells = next;
    return before;
  }

  restore(before: ReadonlyMap<number, Cell>): void {
    this.cells = new Map(before);
  }
}
