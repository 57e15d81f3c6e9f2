/** How areas and row or column marks move when cells are inserted or deleted. Pure. */
import { MAX_COLUMNS, MAX_ROWS } from './address.ts';
import type { Area } from './types.ts';

/** `count` cells inserted (positive) or deleted (negative) at `at`; `lane` where only part of the sheet moves. */
export interface Shift {
  axis: 'rows' | 'columns';
  at: number;
  count: number;
  lane?: { start: number; count: number };
}

/** One span along the shifted axis: its new start and size, or null where all of it was deleted. */
export function shiftSpan(start: number, size: number, shift: Shift): [start: number, size: number] | null {
  const { at, count } = shift;
  if (count > 0) {
    if (start >= at) return [start + count, size];
    return start + size > at ? [start, size + count] : [start, size];
  }
  const end = at - count;
  const before = Math.max(0, Math.min(start + size, at) - start);
  const after = Math.max(0, start + size - Math.max(start, end));
  if (before + after === 0) return null;
  const newStart = start < at ? start : start >= end ? start + count : at;
  return [newStart, before + after];
}

/** The area after the shift, the same object where nothing moves, null where it is gone. */
export function shiftArea(area: Area, shift: Shift): Area | null {
  const rows = shift.axis === 'rows';
  const [start, size] = rows ? [area.row, area.rows] : [area.column, area.columns];
  if (size === (rows ? MAX_ROWS : MAX_COLUMNS)) return area;
  if (shift.lane) {
    const [crossStart, crossSize] = rows ? [area.column, area.columns] : [area.row, area.rows];
    const { start: laneStart, count } = shift.lane;
    if (crossStart < laneStart || crossStart + crossSize > laneStart + count) return area;
  }
  const moved = shiftSpan(start, size, shift);
  if (moved === null) return null;
  const limit = rows ? MAX_ROWS : MAX_COLUMNS;
  if (moved[0] >= limit) return null;
  if (moved[0] === start && moved[1] === size) return area;
  const clipped = Math.min(moved[1], limit - moved[0]);
  return rows ? { ...area, row: moved[0], rows: clipped } : { ...area, column: moved[0], columns: clipped };
}

/** Where one row or column goes, or null where it was deleted. */
export function shiftIndex(index: number, shift: Shift): number | null {
  return shiftSpan(index, 1, shift)?.[0] ?? null;
}

export function shiftMap<T>(map: ReadonlyMap<number, T>, shift: Shift): ReadonlyMap<number, T> {
  if (map.size === 0) return map;
  const next = new Map<number, T>();
  for (const [index, value] of map) {
    const moved = shiftIndex(index, shift);
    if (moved !== null) next.set(moved, value);
  }
  return next;
}

export function shiftSet(set: ReadonlySet<number>, shift: Shift): ReadonlySet<number> {
  if (set.size === 0) return set;
  return new Set([...set].map((index) => shiftIndex(index, shift)).filter((index) => index !== null));
}

export function shiftAreas(areas: readonly Area[], shift: Shift): readonly Area[] {
  return areas.map((area) => shiftArea(area, shift)).filter((area) => area !== null);
}
