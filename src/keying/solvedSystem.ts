/**
 * A solved grid as a system that the sheets can hold. The grid says who opens what; a system also needs a keyset
 * symbol for each cylinder, a level for each key and a key bitting array, so that it may be extended later. All three
 * are read off the grid: a cylinder's own key is the one with the fewest doors, and the array holds the depths that
 * can share a chamber with all those in use.
 */
import type { KeyBittingArray } from './array.ts';
import type { Bitting } from './bitting.ts';
import type { CapacityProblem } from './capacityProblem.ts';
import { controlKeysFor } from './controlKeys.ts';
import { proposeControl } from './controlKey.ts';
import type { Grid, Solved } from './grid/index.ts';
import type { Mark } from './intended.ts';
import { isThin } from './pinning.ts';
import { ok, type Result } from './result.ts';
import { DEFAULT_RULES, type Rules } from './rules.ts';
import type { Specification } from './specification.ts';
import type { CylinderRecord, KeyRecord, KeySystem } from './system.ts';

export interface SolvedSystem {
  readonly system: KeySystem;
  /** What must operate what, the control key of interchangeable cores included. */
  readonly marks: readonly Mark[];
  /** Cylinders that no key is marked for: they are not pinned, so they are no part of the system. */
  readonly leftOut: readonly string[];
}

export interface SolvedNames {
  readonly name: string;
  /** What people call the doors, by cylinder. */
  readonly doors?: ReadonlyMap<string, string>;
  /** Where most of it is; what differs stands in the grid. */
  readonly keyway?: string | undefined;
  readonly rules?: Rules;
  readonly seed?: number;
}

/** The number of each cylinder's own key: the one with the fewest doors; −1 without a mark. */
export function ownKeys({ keys, marks }: Pick<Grid, 'keys' | 'marks'>): number[] {
  const doors = new Array<number>(keys.length).fill(0);
  for (const marked of marks) for (const k of marked) doors[k]!++;
  return marks.map((marked) => marked.reduce((own, k) => (own < 0 || doors[k]! < doors[own]! ? k : own), -1));
}

/** Levels as the doors say them: a key with a cylinder of its own is a change key; one of all doors, on top of others. */
export function levelsOf(grid: Pick<Grid, 'keys' | 'marks'>): KeyRecord['level'][] {
  const own = ownKeys(grid);
  const owners = new Set(own);
  const marked = grid.marks.filter((list) => list.length > 0);
  const opensOthers = (k: number): boolean =>
    new Set(grid.marks.flatMap((list, c) => (list.includes(k) ? [own[c]] : []))).size > 1;
  const masters = grid.keys.map((_, k) => !owners.has(k) && opensOthers(k));
  const everywhere = grid.keys.map((_, k) => masters[k]! && marked.every((list) => list.includes(k)));
  const between = masters.some((master, k) => master && !everywhere[k]);
  return grid.keys.map((_, k) => (everywhere[k] && between ? 'GMK' : masters[k] ? 'MK' : 'CK'));
}

/**
 * For each chamber the depths in use, and those that can share a chamber with every one of them; a top master's own
 * cut is left out. @example two-step, cuts 2 and 4 in use under a top master's 6 → [0, 2, 4, 8]
 */
export function arrayInUse(
  spec: Specification,
  bittings: readonly Bitting[],
  topMaster?: Bitting,
): KeyBittingArray {
  return spec.centres.map((_, i) => {
    const used = new Set(bittings.map((cuts) => cuts[i]!));
    return spec.depths.flatMap((_depth, d) =>
      d !== topMaster?.[i] &&
      (used.has(d) || [...used].every((u) => !isThin(spec, Math.min(u, d), Math.max(u, d))))
        ? [d]
        : [],
    );
  });
}

/** Fails only where the cores of an interchangeable core spec leave no control bitting. */
export function systemOfSolved(
  grid: Grid,
  solved: Solved,
  names: SolvedNames,
): Result<SolvedSystem, CapacityProblem> {
  const { spec } = grid;
  const levels = levelsOf(grid);
  const own = ownKeys(grid);
  const top = topOf(grid, levels);
  const topMaster = top === undefined ? undefined : solved.keys[top]!.bitting;
  const array = arrayInUse(
    spec,
    solved.keys.map(({ bitting }) => bitting),
    topMaster,
  );
  const keys = solved.keys.map(({ symbol, bitting }, k): KeyRecord => {
    const { keyway, cuts } = grid.keys[k]!;
    return {
      symbol,
      level: levels[k]!,
      bitting,
      status: 'issued',
      ...(keyway !== undefined && { keyway }),
      ...(cuts !== undefined && { cuts }),
    };
  });
  const cylinders = solved.cylinders.flatMap(({ id, chambers }, c): CylinderRecord[] => {
    if (own[c]! < 0) return [];
    const door = names.doors?.get(id);
    const { keyway, control } = grid.cylinders[c]!;
    return [
      {
        id,
        symbol: keys[own[c]!]!.symbol,
        chambers,
        ...(door && { door }),
        ...(keyway !== undefined && { keyway }),
        ...(control && { control }),
      },
    ];
  });
  const marks = grid.marks.flatMap((list, c) =>
    list.map((k) => ({ key: grid.keys[k]!.symbol, cylinder: grid.cylinders[c]!.id })),
  );
  const system: KeySystem = {
    name: names.name,
    spec,
    array,
    keys,
    cylinders,
    ...(topMaster && { topMaster }),
    ...(grid.enters && { enters: grid.enters }),
  };
  const leftOut = grid.cylinders.filter((_, c) => own[c]! < 0).map(({ id }) => id);
  if (!spec.core) return ok({ system, marks, leftOut });
  const cores = withControls(system, topMaster ?? keys[0]!.bitting, array, names);
  if (!cores.ok) return cores;
  const { keyway } = names;
  const controls = controlKeysFor(cores.value, { keys, keyway, enters: grid.enters });
  return ok({
    system: { ...system, keys: [...keys, ...controls.keys], cylinders: cores.value },
    marks: [...marks, ...controls.marks],
    leftOut,
  });
}

/** Cores whose control cuts nobody named get some that pull none of the others by mistake. */
function withControls(
  { spec, keys, cylinders }: KeySystem,
  topMaster: Bitting,
  array: KeyBittingArray,
  { rules = DEFAULT_RULES, seed = 1 }: SolvedNames,
): Result<readonly CylinderRecord[], CapacityProblem> {
  if (cylinders.every(({ control }) => control)) return ok(cylinders);
  const control = proposeControl({
    spec,
    topMaster,
    array,
    cores: cylinders.map(({ chambers }) => chambers),
    keys: keys.map(({ bitting }) => bitting),
    rules,
    seed,
  });
  if (!control.ok) return control;
  return ok(cylinders.map((core) => (core.control ? core : { ...core, control: control.value })));
}

/** The key of every door, where there is just one. */
function topOf({ marks }: Grid, levels: readonly KeyRecord['level'][]): number | undefined {
  const tops = levels.flatMap((level, k) =>
    level === 'GMK' || (level === 'MK' && marks.every((list) => list.length === 0 || list.includes(k)))
      ? [k]
      : [],
  );
  return tops.length === 1 ? tops[0] : undefined;
}
