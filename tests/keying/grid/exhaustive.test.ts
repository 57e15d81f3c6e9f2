/**
 * All small grids against trying every assignment. An assignment serves a set of cylinders when each of them, pinned
 * for its keys, admits those keys and no other; a grid is solvable if and only if one assignment serves all of its
 * cylinders. Up to renaming the keys, these are all grids of three and four keys in four positions of two depths.
 */
import { describe, expect, it } from 'vitest';
import { solveGrid } from '../../../src/keying/grid/index.ts';
import { runToEnd } from '../../../src/keying/system.ts';
import { noRules, plainGrid, smallSpec, wrongWith } from './charts.ts';

/** For each assignment the sets of keys that a cylinder can be pinned for, as bits over the sets; only the largest. */
function servedSets(keys: number, positions: number): number[] {
  const bittings = 1 << positions;
  const served = new Set<number>();
  const cuts = new Array<number>(keys).fill(0);
  const from = (k: number): void => {
    if (k < keys) {
      for (let b = 0; b < bittings; b++) {
        cuts[k] = b;
        from(k + 1);
      }
      return;
    }
    let good = 0;
    for (let set = 1; set < 1 << keys; set++) {
      // With two depths: positions at which some key of the set has a 1, and at which some has a 0.
      let ones = 0;
      let zeros = 0;
      for (let j = 0; j < keys; j++)
        if ((set >>> j) & 1) {
          ones |= cuts[j]!;
          zeros |= ~cuts[j]!;
        }
      let exact = true;
      for (let j = 0; j < keys; j++)
        if (!((set >>> j) & 1) && (cuts[j]! & ~ones) === 0 && (~cuts[j]! & ~zeros & (bittings - 1)) === 0)
          exact = false;
      if (exact) good |= 1 << set;
    }
    served.add(good);
  };
  from(0);
  const all = [...served];
  return all.filter((a) => !all.some((b) => a !== b && (a & b) === a));
}

function permutations(n: number): number[][] {
  if (n === 0) return [[]];
  return permutations(n - 1).flatMap((rest) =>
    Array.from({ length: n }, (_, at) => [...rest.slice(0, at), n - 1, ...rest.slice(at)]),
  );
}

/** Bits over sets of keys, after renaming the keys. */
function renamed(grid: number, keys: number, to: readonly number[]): number {
  let out = 0;
  for (let set = 1; set < 1 << keys; set++) {
    if (!((grid >>> set) & 1)) continue;
    let image = 0;
    for (let k = 0; k < keys; k++) if ((set >>> k) & 1) image |= 1 << to[k]!;
    out |= 1 << image;
  }
  return out;
}

function gridsUpToRenaming(keys: number): number[] {
  const orders = permutations(keys);
  const seen = new Set<number>();
  const found: number[] = [];
  // Bit 0 is the empty set of keys, which no cylinder has.
  for (let grid = 2; grid < 2 ** (1 << keys); grid += 2) {
    if (seen.has(grid)) continue;
    found.push(grid);
    for (const order of orders) seen.add(renamed(grid, keys, order));
  }
  return found;
}

describe('all small grids', () => {
  it.each([
    { keys: 2, grids: 5 },
    { keys: 3, grids: 39 },
    { keys: 4, grids: 1991 },
  ])(
    '$keys keys: solved exactly when some assignment serves all cylinders',
    ({ keys, grids }) => {
      const spec = smallSpec(4, 2);
      const served = servedSets(keys, 4);
      const all = gridsUpToRenaming(keys);
      expect(all.length).toBe(grids);
      for (const bits of all) {
        const marks = Array.from({ length: 1 << keys }, (_, set) => set)
          .filter((set) => (bits >>> set) & 1)
          .map((set) => Array.from({ length: keys }, (_, k) => k).filter((k) => (set >>> k) & 1));
        const grid = plainGrid(spec, keys, marks);
        const answer = runToEnd(solveGrid(grid, { rules: noRules, budget: 200_000 }));
        const possible = served.some((good) => (bits & good) === bits);
        expect(answer.kind, JSON.stringify(marks)).toBe(possible ? 'solved' : 'impossible');
        if (answer.kind === 'solved') expect(wrongWith(grid, answer)).toEqual([]);
      }
    },
    120_000,
  );
});
