/** What existing keys and cylinders rule out by themselves, before any search. */
import { costIf } from './moveCosts.ts';
import { fits } from './stateRules.ts';
import type { Grid } from './chart.ts';
import { bitCount, type Instance } from './instance.ts';
import { controlProblem } from './controls.ts';
import { fixedFaults, usedBits, type Prepared } from './prepare.ts';
import { hasBlanks, whyShut } from './shut.ts';
import type { Impossible, ProofReason } from './result.ts';
import { GridState } from './state.ts';

type Problem = Omit<Impossible, 'steps'>;

const problem = (reason: ProofReason, keys: readonly string[], cylinders: readonly string[]): Problem => ({
  kind: 'impossible',
  reason,
  scope: 'any',
  keys,
  cylinders,
  minimal: true,
});

/** A mark for a key whose blank never turns in the cylinder. */
function shutMark(grid: Grid): Problem | undefined {
  if (!hasBlanks(grid)) return undefined;
  for (const [c, marked] of grid.marks.entries())
    for (const k of marked) {
      const reason = whyShut(grid, k, c, usedBits(grid, c));
      if (reason) return problem(reason, [grid.keys[k]!.symbol], [grid.cylinders[c]!.id]);
    }
  return undefined;
}

export function fixedProblem(grid: Grid, instance: Instance, prepared: Prepared): Problem | undefined {
  const keyOf = (k: number): string => {
    const member = prepared.keysIn[k]![0];
    return member === undefined ? 'an avoided bitting' : grid.keys[member]!.symbol;
  };
  const cylinderOf = (c: number): string => grid.cylinders[prepared.cylindersIn[c]![0]!]!.id;
  const shut = shutMark(grid);
  if (shut) return shut;
  const control = controlProblem(grid, (c) => usedBits(grid, c));
  if (control) return problem(control, 'key' in control ? [control.key] : [], [control.cylinder]);
  if (!instance.fixedCuts.some(Boolean) && !instance.fixedSets.some(Boolean)) return undefined;
  const fault = fixedFaults(grid)[0];
  if (fault) {
    const names = { key: grid.keys[fault.key]!.symbol, cylinder: grid.cylinders[fault.cylinder]!.id };
    return problem(
      { code: fault.operates ? 'fixed-interchange' : 'fixed-lock-out', ...names },
      [names.key],
      [names.cylinder],
    );
  }
  const thin = thinFixed(instance);
  if (thin)
    return problem(
      { code: 'fixed-keys-thin', cylinder: cylinderOf(thin.cylinder), chamber: thin.chamber + 1 },
      thin.keys.map(keyOf),
      [cylinderOf(thin.cylinder)],
    );
  const crowded = crowdedFixed(instance);
  if (crowded)
    return problem(
      {
        code: 'fixed-keys-crowd',
        cylinder: cylinderOf(crowded.cylinder),
        chamber: crowded.chamber + 1,
        most: instance.mostDepths,
      },
      crowded.keys.map(keyOf),
      [cylinderOf(crowded.cylinder)],
    );
  const state = new GridState(instance);
  const pair = state.conflicts[0];
  if (pair !== undefined) {
    const [k, c] = [Math.floor(pair / instance.cylinders), pair % instance.cylinders];
    const names = { key: keyOf(k), cylinder: cylinderOf(c) };
    return problem(
      { code: 'fixed-keys-admit', ...names },
      [names.key, ...admitting(instance, c, k).map(keyOf)],
      [names.cylinder],
    );
  }
  const stuck = stuckKey(state);
  if (stuck !== undefined)
    return {
      ...problem(
        { code: 'no-bitting-for-key', key: keyOf(stuck) },
        [keyOf(stuck)],
        instance.cylindersOf[stuck]!.filter((c) => instance.fixedSets[c]).map(cylinderOf),
      ),
      // fewer of its doors may do, and whatever bars its other bittings has a part in it
      minimal: false,
    };
  return undefined;
}

/** As few existing keys of a new cylinder as let key k in together. */
function admitting({ positions, inUse, keysOf, fixedCuts }: Instance, c: number, k: number): number[] {
  const letIn = (keys: readonly number[]): boolean => {
    for (let i = 0; i < positions; i++)
      if ((inUse[c]! >>> i) & 1 && keys.every((other) => fixedCuts[other]![i] !== fixedCuts[k]![i]))
        return false;
    return true;
  };
  let keys = keysOf[c]!.filter((other) => fixedCuts[other]);
  for (const one of [...keys]) {
    const rest = keys.filter((other) => other !== one);
    if (letIn(rest)) keys = rest;
  }
  return keys;
}

/** Existing keys of a new cylinder that have more cuts in a chamber than it may hold depths. */
function crowdedFixed(instance: Instance): { cylinder: number; chamber: number; keys: number[] } | undefined {
  for (let c = 0; c < instance.cylinders; c++) {
    if (instance.fixedSets[c]) continue;
    const fixed = instance.keysOf[c]!.filter((k) => instance.fixedCuts[k]);
    for (let i = 0; i < instance.positions; i++) {
      if (((instance.inUse[c]! >>> i) & 1) === 0) continue;
      const first = new Map<number, number>();
      for (const k of fixed)
        if (!first.has(instance.fixedCuts[k]![i]!)) first.set(instance.fixedCuts[k]![i]!, k);
      const keys = [...first.values()].slice(0, instance.mostDepths + 1);
      if (keys.length > instance.mostDepths) return { cylinder: c, chamber: i, keys };
    }
  }
  return undefined;
}

/** Two existing keys of a new cylinder whose cuts can't share a chamber. */
function thinFixed(instance: Instance): { cylinder: number; chamber: number; keys: number[] } | undefined {
  for (let c = 0; c < instance.cylinders; c++) {
    if (instance.fixedSets[c]) continue;
    const fixed = instance.keysOf[c]!.filter((k) => instance.fixedCuts[k]);
    for (let i = 0; i < instance.positions; i++) {
      if (((instance.inUse[c]! >>> i) & 1) === 0) continue;
      for (const [n, k] of fixed.entries()) {
        const near = instance.near[instance.fixedCuts[k]![i]!]!;
        const other = fixed.slice(0, n).find((o) => (near >>> instance.fixedCuts[o]![i]!) & 1);
        if (other !== undefined) return { cylinder: c, chamber: i, keys: [other, k] };
      }
    }
  }
  return undefined;
}

/** Domains up to this size are looked through. */
const MOST_LOOKED = 200_000;

/**
 * A new key of existing cylinders for which they leave no bitting: each one is unusable, operates another existing
 * cylinder, or lets an existing key into a new one. What existing keys and cylinders rule out stays ruled out.
 */
function stuckKey(state: GridState): number | undefined {
  const { instance } = state;
  const { positions: p, depths, domain, fixedCuts, fixedSets, cylindersOf } = instance;
  const cuts = new Array<number>(p).fill(0);
  for (let k = 0; k < instance.keys; k++) {
    if (fixedCuts[k] || !cylindersOf[k]!.some((c) => fixedSets[c])) continue;
    let size = 1;
    for (let i = 0; i < p; i++) size *= bitCount(domain[k * p + i]!);
    if (size > MOST_LOOKED) continue;
    const from = (i: number): boolean => {
      if (i === p) return costIf(state, k, cuts, 0) === 0 && fits(state, k, cuts);
      for (let depth = 0; depth < depths; depth++) {
        if (((domain[k * p + i]! >>> depth) & 1) === 0) continue;
        cuts[i] = depth;
        if (from(i + 1)) return true;
      }
      return false;
    };
    if (!from(0)) return k;
  }
  return undefined;
}
