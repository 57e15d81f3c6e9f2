/**
 * Construction keying: until a one-way change, a construction key operates the cylinders too. Two states, so two
 * grids; but the keys are the same in both, so both are solved as one grid in which each cylinder stands twice.
 */
import type { Grid } from './chart.ts';
import type { Solved } from './result.ts';
import { foldSymbol } from '../system.ts';

export interface ConstructionKey {
  readonly symbol: string;
  /** Cylinders that it operates until the change; all when left out. */
  readonly cylinders?: readonly string[];
}

export interface ConstructionGrids {
  /** While the building goes up: the marks and the construction key. */
  readonly before: Grid;
  /** After the change: the marks alone, and the construction key operates nothing. */
  readonly after: Grid;
  /** Both at once: every cylinder of `after`, then those of `before` that differ. */
  readonly joint: Grid;
}

/** @example constructionGrids(grid, { symbol: 'CON' }).joint has each cylinder twice, the second time marked for CON */
export function constructionGrids(grid: Grid, key: ConstructionKey): ConstructionGrids {
  const chosen = key.cylinders && new Set(key.cylinders.map(foldSymbol));
  const keys = [...grid.keys, { symbol: key.symbol }];
  const number = grid.keys.length;
  const temporary = grid.cylinders.flatMap(({ id }, c) => (!chosen || chosen.has(foldSymbol(id)) ? [c] : []));
  const inside = new Set(temporary);
  const marks = grid.marks.map((marked, c) => (inside.has(c) ? [...marked, number] : marked));
  return {
    before: { ...grid, keys, marks },
    after: { ...grid, keys },
    joint: {
      ...grid,
      keys,
      cylinders: [...grid.cylinders, ...temporary.map((c) => grid.cylinders[c]!)],
      marks: [...grid.marks, ...temporary.map((c) => marks[c]!)],
    },
  };
}

/** The two states of a solved joint grid, each with every cylinder once. */
export function constructionStates(
  { before, after }: ConstructionGrids,
  solved: Solved,
): { readonly before: Solved['cylinders']; readonly after: Solved['cylinders'] } {
  const count = after.cylinders.length;
  const later = solved.cylinders.slice(0, count);
  const temporary = solved.cylinders.slice(count);
  let next = 0;
  return {
    after: later,
    before: later.map((cylinder, c) =>
      before.marks[c]!.length > after.marks[c]!.length ? temporary[next++]! : cylinder,
    ),
  };
}
