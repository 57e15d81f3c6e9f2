/**
 * A small conflicting set: cylinders and keys are left out one by one as long as the rest is still proved impossible.
 * A part of a solvable grid is solvable, so what remains is a proof for the whole.
 */
import type { Grid, SolveOptions } from './chart.ts';
import type { Work } from './construct.ts';
import { searchEverything } from './everything.ts';

export interface Core {
  readonly keys: readonly number[];
  readonly cylinders: readonly number[];
  /** Every one of them is needed. */
  readonly minimal: boolean;
}

export function* shrink(
  grid: Grid,
  options: SolveOptions,
  work: Work,
  until: number,
): Generator<number, Core, void> {
  let keys = grid.keys.map((_, k) => k);
  let cylinders = grid.cylinders.map((_, c) => c);
  let minimal = true;
  // An existing key that is left out mustn't become a bitting that no cylinder may admit.
  const known = new Set(grid.keys.flatMap(({ bitting }) => (bitting ? [bitting.join()] : [])));
  const avoid = (options.avoid ?? []).filter((cuts) => !known.has(cuts.join()));
  const each = Math.max(2000, Math.floor((until - work.steps) / (2 * (keys.length + cylinders.length + 1))));
  const impossible = function* (
    k: readonly number[],
    c: readonly number[],
  ): Generator<number, boolean, void> {
    const part = partGrid(grid, k, c);
    const found = yield* searchEverything(part, { ...options, avoid }, work, work.steps + each);
    if (found.kind === 'gave-up') minimal = false;
    return found.kind === 'none';
  };
  for (const c of [...cylinders]) {
    const rest = cylinders.filter((other) => other !== c);
    if (yield* impossible(keys, rest)) cylinders = rest;
  }
  for (const k of [...keys]) {
    const rest = keys.filter((other) => other !== k);
    if (yield* impossible(rest, cylinders)) keys = rest;
  }
  // The whole was proved with such bittings avoided; without that nothing of it may have been left out.
  const eased = avoid.length < (options.avoid ?? []).length;
  if (eased && keys.length + cylinders.length === grid.keys.length + grid.cylinders.length) minimal = false;
  return {
    keys,
    cylinders: cylinders.filter(
      (c) => grid.cylinders[c]!.chambers || grid.marks[c]!.some((k) => keys.includes(k)),
    ),
    minimal,
  };
}

/** Some of the keys and cylinders of a grid, with their marks. */
export function partGrid(grid: Grid, keys: readonly number[], cylinders: readonly number[]): Grid {
  const at = new Map(keys.map((k, n) => [k, n]));
  return {
    ...grid,
    keys: keys.map((k) => grid.keys[k]!),
    cylinders: cylinders.map((c) => grid.cylinders[c]!),
    marks: cylinders.map((c) => grid.marks[c]!.flatMap((k) => at.get(k) ?? [])),
  };
}
