/**
 * What operates what. A key operates a cylinder if and only if each of its cuts is one of the depths at which that
 * chamber shears; an empty chamber admits every depth, and a key with fewer cuts than the cylinder has pinned
 * chambers does not operate it. So pinned for a set of keys, the bittings that operate a cylinder are the whole
 * product of its chambers' depths: issued ones and incidental ones.
 */
import { bittingOf, packBitting, type Bitting } from './bitting.ts';
import { carries, FULL_REACH, reachOf, type Reach } from './blankReach.ts';
import { countWithinMacsOf } from './count.ts';
import { depthCount, depthsIn, EVERY, hasDepth, NONE, withDepth, type DepthSet } from './depthSet.ts';
import { positions, type Specification } from './specification.ts';
import type { Chambers } from './system.ts';

/**
 * Whether a key operates a cylinder. `reach` says which chambers its blank has cuts for (`reachOf`), all when left out.
 * @example operates(pinnedFor(spec, [changeKey, master]), master) → true
 */
export function operates(chambers: Chambers, cuts: readonly number[], reach: Reach = FULL_REACH): boolean {
  for (let i = 0; i < chambers.length; i++) {
    const set = chambers[i]!;
    if (set === EVERY) continue;
    if (!carries(reach, i) || !hasDepth(set, cuts[i]!)) return false;
  }
  return true;
}

/** One chamber that keeps a key from turning. `cut` is missing where the blank carries no cut there. */
export interface FailingChamber {
  /** Counted from 1 in the order of the code. */
  readonly chamber: number;
  readonly cut?: number;
  readonly shears: readonly number[];
}

/** Every chamber that keeps a key, on a blank with so many cuts, from operating a cylinder; none when it operates it. */
export function whyNotOperates(
  spec: Specification,
  chambers: Chambers,
  cuts: readonly number[],
  cutsOnBlank?: number,
): FailingChamber[] {
  const reach = reachOf(spec, cutsOnBlank);
  const failing: FailingChamber[] = [];
  chambers.forEach((set, i) => {
    if (set === EVERY) return;
    const cut = carries(reach, i) ? cuts[i] : undefined;
    if (cut !== undefined && hasDepth(set, cut)) return;
    const shears = depthsIn(set, spec.depths.length);
    failing.push({ chamber: i + 1, shears, ...(cut === undefined ? {} : { cut }) });
  });
  return failing;
}

/**
 * Chambers that shear for every one of the bittings. `inUse` says for each chamber of the code whether it is pinned
 * (a five-pin cylinder under six-cut keys); all when left out. Without bittings nothing is pinned.
 * @example pinnedFor(spec, [[2, 7, …], [4, 7, …]]) → [{2, 4}, {7}, …]
 */
export function pinnedFor(
  spec: Specification,
  bittings: readonly Bitting[],
  inUse?: readonly boolean[],
): Chambers {
  return spec.centres.map((_, i) =>
    bittings.length === 0 || inUse?.[i] === false
      ? EVERY
      : bittings.reduce<DepthSet>((set, cuts) => withDepth(set, cuts[i]!), NONE),
  );
}

/** Bittings that operate a cylinder, issued and incidental: the product of the chambers. */
export function operatingCount(spec: Specification, chambers: Chambers): number {
  let product = 1;
  for (const set of chambers) product *= depthCount(set, spec.depths.length);
  return product;
}

/** Those of them that a blank can carry: no neighbours farther apart than MACS. */
export function operatingCountCuttable(spec: Specification, chambers: Chambers): number {
  return countWithinMacsOf(chambers, spec.depths.length, spec.macs);
}

/**
 * The bittings that operate a cylinder without being issued, in ascending order, found as they are asked for. Only
 * those within MACS unless `uncuttable` asks for the others too.
 */
export function* incidentalBittings(
  spec: Specification,
  chambers: Chambers,
  issued: Iterable<readonly number[]>,
  { uncuttable = false }: { readonly uncuttable?: boolean } = {},
): Generator<Bitting, void, void> {
  const known = new Set<number>();
  for (const cuts of issued) known.add(packBitting(spec, cuts));
  const choices = chambers.map((set) => depthsIn(set, spec.depths.length));
  const cuts = new Array<number>(positions(spec)).fill(0);
  function* from(i: number): Generator<Bitting, void, void> {
    if (i === cuts.length) {
      if (!known.has(packBitting(spec, cuts))) yield bittingOf(spec, [...cuts]);
      return;
    }
    for (const depth of choices[i]!) {
      if (!uncuttable && i > 0 && Math.abs(depth - cuts[i - 1]!) > spec.macs) continue;
      cuts[i] = depth;
      yield* from(i + 1);
    }
  }
  yield* from(0);
}
