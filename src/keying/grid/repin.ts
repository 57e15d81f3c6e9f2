/**
 * Which existing cylinders to re-pin so that the rest can be solved. All of them are freed to see whether re-pinning
 * helps at all, then one after the other is fixed again. Fewer are ruled out by proofs only: cylinders that are wrong
 * with existing keys have to change whatever else does, and smaller sets are tried where they are few.
 */
import type { Steps } from '../system.ts';
import type { Grid } from './chart.ts';
import { fixedFaults } from './prepare.ts';
import type { Repin, SolveResult } from './result.ts';

/** Smaller sets are only tried if they are no more than this. */
const MOST_SETS = 60;
const MOST_FREED = 24;

export function* repinFor(
  grid: Grid,
  asFixed: SolveResult,
  solve: (freed: Grid, budget: number) => Steps<SolveResult>,
  budget: number,
): Steps<Repin | undefined> {
  const existing = grid.cylinders.flatMap(({ chambers }, c) => (chambers ? [c] : []));
  const must = [...new Set(fixedFaults(grid).map(({ cylinder }) => cylinder))];
  const each = Math.max(1000, Math.floor(budget / 4));
  const solves = function* (freed: readonly number[]): Steps<SolveResult['kind']> {
    return (yield* solve(freeing(grid, freed), each)).kind;
  };
  const named = (freed: readonly number[], kind: Repin['kind'], atLeast: number): Repin => ({
    cylinders: freed.map((c) => grid.cylinders[c]!.id),
    kind,
    atLeast,
  });
  if (must.length > 0 && (yield* solves(must)) === 'solved')
    return named(must, 'proved-smallest', must.length);

  const suspects = suspectsOf(grid, existing, must);
  let freed = suspects;
  if ((yield* solves(freed)) !== 'solved') {
    if (suspects.length === existing.length) return undefined;
    freed = existing;
    if ((yield* solves(freed)) !== 'solved') return undefined;
  }
  for (const c of freed.length <= MOST_FREED ? [...freed] : []) {
    if (must.includes(c)) continue;
    const fewer = freed.filter((other) => other !== c);
    if ((yield* solves(fewer)) === 'solved') freed = fewer;
  }
  let atLeast = Math.max(must.length, asFixed.kind === 'impossible' ? 1 : 0);
  while (atLeast < freed.length) {
    const sets = subsets(existing, must, atLeast);
    if (sets.length > MOST_SETS) break;
    let proved = true;
    for (const set of sets) {
      const kind = yield* solves(set);
      if (kind === 'solved') return named(set, 'proved-smallest', atLeast);
      if (kind === 'not-found') proved = false;
    }
    if (!proved) break;
    atLeast++;
  }
  return named(freed, atLeast >= freed.length ? 'proved-smallest' : 'best-found', atLeast);
}

function freeing(grid: Grid, freed: readonly number[]): Grid {
  const open = new Set(freed);
  return {
    ...grid,
    cylinders: grid.cylinders.map((cylinder, c) => {
      if (!open.has(c)) return cylinder;
      const { chambers, ...rest } = cylinder;
      const inUse = rest.inUse ?? chambers!.map((set) => set !== -1);
      return { ...rest, inUse };
    }),
  };
}

/** Existing cylinders that a new key is marked for, besides those that are wrong anyway. */
function suspectsOf(grid: Grid, existing: readonly number[], must: readonly number[]): number[] {
  return existing.filter((c) => must.includes(c) || grid.marks[c]!.some((k) => !grid.keys[k]!.bitting));
}

/** All sets of `size` cylinders that contain `must`; one too many where there are too many. */
function subsets(existing: readonly number[], must: readonly number[], size: number): number[][] {
  const others = existing.filter((c) => !must.includes(c));
  const found: number[][] = [];
  const from = (start: number, set: readonly number[]): void => {
    if (found.length > MOST_SETS) return;
    if (set.length === size) {
      found.push([...set]);
      return;
    }
    for (let n = start; n < others.length; n++) from(n + 1, [...set, others[n]!]);
  };
  from(0, must);
  return found;
}
