/**
 * The plain definition of a solved grid, and tiny grids tried out whole: every bitting of every new key. A key operates
 * a cylinder if its blank goes in and has a cut for each pinned chamber, and each cut is one of the chamber's depths;
 * a new cylinder has the cuts of the keys marked for it, at the chambers in use.
 */
import { depthSetOf, EVERY } from '../../../src/keying/depthSet.ts';
import { bittingOf } from '../../../src/keying/bitting.ts';
import type { Grid, GridCylinder, GridKey, SolveOptions } from '../../../src/keying/grid/chart.ts';
import type { Specification } from '../../../src/keying/specification.ts';
import { noRules, plainGrid, randomOf, smallSpec } from './charts.ts';

/** Every list of cuts of a spec, whether a rule bars it or not. */
export function allCuts({ centres, depths }: Pick<Specification, 'centres' | 'depths'>): number[][] {
  return centres.reduce<number[][]>(
    (lists) => lists.flatMap((list) => depths.map((_, depth) => [...list, depth])),
    [[]],
  );
}

/** Depths of each chamber; undefined where it isn't pinned. */
function chambersOf(
  { cylinders, marks, spec }: Grid,
  c: number,
  cuts: readonly (readonly number[])[],
): (ReadonlySet<number> | undefined)[] {
  const { chambers, inUse } = cylinders[c]!;
  return spec.centres.map((_, i) => {
    if (chambers)
      return chambers[i] === -1
        ? undefined
        : new Set(spec.depths.flatMap((__, depth) => ((chambers[i]! >>> depth) & 1 ? [depth] : [])));
    return inUse?.[i] === false ? undefined : new Set(marks[c]!.map((k) => cuts[k]![i]!));
  });
}

/** Whether the blank goes in and has a cut for each pinned chamber; on these specs a short one lacks the last cuts. */
export function goesIn(grid: Grid, key: Omit<GridKey, 'symbol'>, c: number): boolean {
  const { keyway, chambers, inUse } = grid.cylinders[c]!;
  if (key.keyway && keyway && key.keyway !== keyway && !grid.enters?.[key.keyway]?.includes(keyway))
    return false;
  const pinned = (i: number): boolean => (chambers ? chambers[i] !== -1 : inUse?.[i] !== false);
  return grid.spec.centres.every((_, i) => !pinned(i) || i < (key.cuts ?? grid.spec.centres.length));
}

/** Whether these cuts, one list a key, are what the grid and the options ask for. */
export function isRight(grid: Grid, options: SolveOptions, cuts: readonly (readonly number[])[]): boolean {
  const { spec, keys, cylinders, marks } = grid;
  const least = options.minimumDifference ?? (options.sameMarks === 'different' ? 1 : 0);
  const known = new Set(keys.flatMap(({ bitting }) => (bitting ? [bitting.join()] : [])));
  const avoid = (options.avoid ?? []).filter((bitting) => !known.has(bitting.join()));
  for (const [k, { bitting }] of keys.entries()) {
    if (bitting) continue;
    if (options.avoid?.some((other) => other.join() === cuts[k]!.join())) return false;
    for (const i of options.constant ?? [])
      if (keys.some((other, o) => !other.bitting && cuts[o]![i] !== cuts[k]![i])) return false;
    for (const [o, other] of keys.entries()) {
      if (o === k || (isTwin(grid, o, k) && options.sameMarks !== 'different')) continue;
      const both = Math.min(keys[k]!.cuts ?? 99, other.cuts ?? 99);
      const differing = cuts[k]!.filter((cut, i) => i < both && cut !== cuts[o]![i]).length;
      if (differing < (least > 1 || options.sameMarks === 'different' ? least : 0)) return false;
    }
  }
  return cylinders.every(({ chambers: given }, c) => {
    if (!given && marks[c]!.length === 0) return true;
    const sets = chambersOf(grid, c, cuts);
    const opens = (of: readonly number[]): boolean => sets.every((set, i) => !set || set.has(of[i]!));
    if (keys.some((key, k) => (goesIn(grid, key, c) && opens(cuts[k]!)) !== marks[c]!.includes(k)))
      return false;
    if (given) return true;
    if (avoid.some(opens)) return false;
    return sets.every((set) => {
      const depths = [...(set ?? [])].sort((a, b) => a - b);
      return (
        depths.length <= (options.mostDepths ?? 99) &&
        depths.every((depth, n) => n === 0 || depth - depths[n - 1]! >= spec.step)
      );
    });
  });
}

/** New keys of the same blank and marks, which may be cut alike. */
function isTwin({ keys, marks }: Grid, a: number, b: number): boolean {
  const [one, other] = [keys[a]!, keys[b]!];
  return (
    !one.bitting &&
    !other.bitting &&
    one.cuts === other.cuts &&
    one.keyway === other.keyway &&
    marks.every((marked) => marked.includes(a) === marked.includes(b))
  );
}

/** Whether some bittings are right. For a handful of new keys and a few dozen bittings. */
export function canBeSolved(grid: Grid, options: SolveOptions): boolean {
  const bittings = allCuts(grid.spec);
  const cuts: (readonly number[])[] = grid.keys.map(({ bitting }) => bitting ?? []);
  const open = grid.keys.flatMap(({ bitting }, k) => (bitting ? [] : [k]));
  const from = (n: number): boolean => {
    if (n === open.length) return isRight(grid, options, cuts);
    return bittings.some((bitting) => {
      cuts[open[n]!] = bitting;
      return from(n + 1);
    });
  };
  return from(0);
}

export interface TinyKind {
  /** Some keys and cylinders stand already. */
  readonly fixed: boolean;
  /** Some blanks are short or of a keyway. */
  readonly blanks: boolean;
}

/**
 * A grid of four positions and three new keys at most: two depths, or three with fewer new keys. Mostly a mark stands
 * only where the blank goes in, and existing keys are marked for the existing cylinders that they operate.
 */
export function tinyGrid(seed: number, { fixed, blanks }: TinyKind): Grid {
  const random = randomOf(seed);
  const one = <T>(...of: T[]): T => of[random(of.length)]!;
  const depths = one(2, 2, 3);
  const spec = smallSpec(4, depths, depths === 3 ? one(1, 2) : 1);
  const open = depths === 2 ? one(2, 3, 3) : one(1, 2, 2);
  const number = open + (fixed ? random(3) : 0);
  const anyCuts = () =>
    bittingOf(
      spec,
      spec.centres.map(() => random(depths)),
    );
  const careless = random(8) === 0;
  const named = () => {
    const keyway = blanks ? one(undefined, 'K1', 'K2') : undefined;
    return keyway ? { keyway } : {};
  };
  const keys = Array.from({ length: number }, (_, k) => ({
    symbol: `K${k + 1}`,
    ...(k >= open && { bitting: anyCuts() }),
    ...named(),
    ...(blanks && random(3) === 0 && { cuts: 3 }),
  }));
  const chamber = () => depthSetOf([random(depths), random(depths)]);
  const cylinders = Array.from({ length: one(1, 2, 3, 4, 5) }, (_, c): GridCylinder => {
    const empty = one(-1, -1, 3, random(4));
    return {
      id: `C${c + 1}`,
      ...named(),
      ...(fixed && random(3) === 0
        ? { chambers: spec.centres.map((_centre, i) => (i === empty ? EVERY : chamber())) }
        : empty >= 0 && { inUse: spec.centres.map((_centre, i) => i !== empty) }),
    };
  });
  const bare: Grid = {
    spec,
    keys,
    cylinders,
    marks: cylinders.map(() => []),
    ...(blanks && random(2) === 0 && { enters: { K1: ['K2'] } }),
  };
  const may = (k: number, c: number): boolean => careless || goesIn(bare, keys[k]!, c);
  const marks = cylinders.map(({ chambers }, c) =>
    keys.flatMap(({ bitting }, k) => {
      const wanted =
        chambers && bitting && !careless
          ? bitting.every((cut, i) => (chambers[i]! >>> cut) & 1)
          : random(5) < 2 + (c % 2);
      return wanted && may(k, c) ? [k] : [];
    }),
  );
  return { ...bare, marks };
}

export function tinyOptions(seed: number, { spec }: Grid): SolveOptions {
  const random = randomOf(seed + 7);
  const one = <T>(...of: T[]): T => of[random(of.length)]!;
  const avoid = Array.from({ length: one(0, 0, 1, 3) }, () =>
    bittingOf(
      spec,
      spec.centres.map(() => random(spec.depths.length)),
    ),
  );
  const constant = one<number[] | undefined>(undefined, undefined, [1], [0, 2, 2]);
  return {
    minimumDifference: one(1, 1, 2, 3),
    mostDepths: one(1, 2, 3),
    sameMarks: one('alike' as const, 'different' as const),
    avoid,
    ...(constant && { constant }),
  };
}

export type Cuts = readonly (readonly number[])[];

const doorsOf = ({ marks }: Grid, k: number): string =>
  marks.flatMap((marked, c) => (marked.includes(k) ? [c] : [])).join();

/** A grid made for cuts that are drawn: each cylinder is marked for a few keys and for all others that open it then. */
export function solvedGrid(seed: number): { grid: Grid; options: SolveOptions; cuts: Cuts } {
  const random = randomOf(seed);
  const step = 1 + random(2);
  const spec = smallSpec(4, 5, step);
  const keys = 4 + random(4);
  const near = random(2) === 0;
  const draw = () => spec.centres.map(() => step * random(step === 2 ? 3 : near ? 3 : 5));
  const cuts: number[][] = Array.from({ length: keys }, draw);
  const bare: Grid = {
    ...plainGrid(
      spec,
      keys,
      Array.from({ length: 2 + random(5) }, () => []),
    ),
    keys: cuts.map((own, k) => ({
      symbol: `K${k + 1}`,
      ...(random(5) === 0 && { bitting: bittingOf(spec, own) }),
      ...(random(8) === 0 && { cuts: 3 }),
    })),
  };
  const cylinders = bare.cylinders.map((cylinder) => ({
    ...cylinder,
    ...(random(6) === 0
      ? { chambers: spec.centres.map(() => depthSetOf([0, 1, 2, 3, 4].filter(() => random(2) === 0))) }
      : random(3) === 0 && { inUse: spec.centres.map((_, i) => i !== 3) }),
  }));
  const doors: Grid = { ...bare, cylinders };
  const marks = cylinders.map(({ chambers, inUse }, c) => {
    const asked = new Set(
      Array.from({ length: 2 + random(3) }, () => random(keys)).filter(
        (k) => !chambers && goesIn(doors, bare.keys[k]!, c),
      ),
    );
    const opens = (k: number): boolean =>
      goesIn(doors, bare.keys[k]!, c) &&
      cuts[k]!.every((cut, i) =>
        chambers
          ? (chambers[i]! >>> cut) & 1
          : inUse?.[i] === false || [...asked].some((o) => cuts[o]![i] === cut),
      );
    return Array.from({ length: keys }, (_, k) => k).filter((k) => (asked.size > 0 || chambers) && opens(k));
  });
  // some stand several times
  const number = cylinders.map(() => (random(3) === 0 ? 2 + random(2) : 1));
  const grid: Grid = {
    ...doors,
    cylinders: cylinders.flatMap((cylinder, c) =>
      Array.from({ length: number[c]! }, (_, n) => ({ ...cylinder, id: `${cylinder.id} ${n}` })),
    ),
    marks: marks.flatMap((marked, c) => Array.from({ length: number[c]! }, () => marked)),
  };
  // keys alike are one class, so they have one bitting
  grid.keys.forEach((key, k) => {
    const twin = grid.keys.findIndex(
      (other, o) =>
        !other.bitting && !key.bitting && other.cuts === key.cuts && doorsOf(grid, o) === doorsOf(grid, k),
    );
    if (twin >= 0) cuts[k] = cuts[twin]!;
  });
  const options: SolveOptions = {
    rules: noRules,
    minimumDifference: 1 + random(2),
    ...(random(2) === 0 && { mostDepths: 3 }),
  };
  return { grid, options, cuts };
}
