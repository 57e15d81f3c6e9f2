/** References of a file ↔ zero-based areas of the model. */
import { cellAddress, parseArea } from '../model/address.ts';
import type { Area } from '../model/types.ts';

/** A file spells whole columns out (`A1:A1048576`), unlike a formula. */
export function areaRef(area: Area): string {
  const first = cellAddress(area.row, area.column);
  if (area.rows === 1 && area.columns === 1) return first;
  return `${first}:${cellAddress(area.row + area.rows - 1, area.column + area.columns - 1)}`;
}

/** Reads a space-separated list (`sqref`). */
export function parseAreas(list: string): Area[] {
  return list
    .trim()
    .split(/\s+/)
    .flatMap((ref) => parseArea(ref) ?? []);
}

export function areasRef(areas: readonly Area[]): string {
  return areas.map(areaRef).join(' ');
}
