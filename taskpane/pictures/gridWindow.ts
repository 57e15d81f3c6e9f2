/**
 * Which cells of a large grid are in view, where the keys move to, and how far to scroll so that a cell is seen.
 * A 200 × 200 grid has 40,000 cells; only those in view are drawn.
 */
import type { Cell } from './gridStates.ts';

/** Side of a cell, px: the least target size of WCAG 2.2 (2.5.8). */
export const CELL = 24;

export interface Viewport {
  readonly left: number;
  readonly top: number;
  /** Room for cells, without the headers. */
  readonly width: number;
  readonly height: number;
}

export interface Extent {
  readonly rows: number;
  readonly columns: number;
}

export interface Range {
  readonly from: number;
  /** One past the last. */
  readonly to: number;
}

/** Cells kept ready beyond the edge, so that scrolling doesn't show white. */
const OVERSCAN = 3;

export function inView(offset: number, room: number, count: number): Range {
  const from = Math.max(0, Math.min(count, Math.floor(offset / CELL) - OVERSCAN));
  return { from, to: Math.max(from, Math.min(count, Math.ceil((offset + room) / CELL) + OVERSCAN)) };
}

export const indices = ({ from, to }: Range): number[] =>
  Array.from({ length: to - from }, (_, i) => from + i);

const clamp = (n: number, count: number): number => Math.max(0, Math.min(count - 1, n));

/** Where a key press leads, as in any grid: arrows, Home, End, Page Up and Down, with Ctrl to the corners. */
export function move(cell: Cell, key: string, ctrl: boolean, extent: Extent, page: number): Cell | undefined {
  const { row, column } = cell;
  const at = (r: number, c: number): Cell => ({
    row: clamp(r, extent.rows),
    column: clamp(c, extent.columns),
  });
  switch (key) {
    case 'ArrowUp':
      return at(ctrl ? 0 : row - 1, column);
    case 'ArrowDown':
      return at(ctrl ? extent.rows : row + 1, column);
    case 'ArrowLeft':
      return at(row, ctrl ? 0 : column - 1);
    case 'ArrowRight':
      return at(row, ctrl ? extent.columns : column + 1);
    case 'Home':
      return at(ctrl ? 0 : row, 0);
    case 'End':
      return at(ctrl ? extent.rows : row, extent.columns);
    case 'PageUp':
      return at(row - page, column);
    case 'PageDown':
      return at(row + page, column);
    default:
      return undefined;
  }
}

/** The scroll offset, nearest to the present one, at which the index-th cell is wholly in view. */
export function reveal(index: number, offset: number, room: number): number {
  const start = index * CELL;
  if (start < offset) return start;
  return start + CELL > offset + room ? start + CELL - room : offset;
}
