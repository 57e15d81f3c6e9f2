/**
 * Weighted local repair. Takes a pair that operates and must not, looks at every single cut that would break it, of
 * the key that gets in and of the keys that let it in, and makes the best change; recent cuts are taboo, and the
 * pair that was to be broken weighs more at a standstill (breakout, one pair at a time: with all of them weighing more
 * the count rises by thousands before it falls). Heavy keys are rarely moved, since hundreds of doors hang on
 * them. Now and then a key is given quite another bitting that fits everywhere.
 */
import { costOfMoves } from './moveCosts.ts';
import { depthFits, farEnough } from './stateRules.ts';
import { isFixedKey } from './instance.ts';
import { placeBest, type Work } from './construct.ts';
import type { Plan } from './plan.ts';
import type { Random } from './random.ts';
import type { GridState } from './state.ts';

export interface RepairOptions {
  /** Steps at which to give up. */
  readonly until: number;
  /** Depths to choose from at each chamber when a key gets quite another bitting. */
  readonly choices: readonly (readonly number[])[];
  /** Wide keys alone: a key is never given quite another bitting. */
  readonly wide: boolean;
}

/** One heavy key in so many is looked at. */
const HEAVY_ONE_IN = 12;
const RELOCATE_ONE_IN = 4;
const RELOCATE_TRIES = 60;
/** Looks in a row that may cost no step, as those do that pass a heavy key by. Where only existing keys could move, all do. */
const FREE_LOOKS = 1_000;
/** At a standstill the best change is made all the same, once in so many. */
const UPHILL_ONE_IN = 64;

export function* repair(
  state: GridState,
  plan: Plan,
  random: Random,
  work: Work,
  { until, choices, wide }: RepairOptions,
): Generator<number, boolean, void> {
  const { instance } = state;
  const { positions: p, depths: d, cylinders } = instance;
  const heavy = new Uint8Array(instance.keys);
  for (const k of [...plan.tops, ...plan.heavy]) heavy[k] = 1;
  const tabu = new Int32Array(instance.keys * p * d);
  const costs = new Float64Array(p * d);
  const cuts = new Array<number>(p).fill(0);
  const allKeys = Array.from({ length: instance.keys }, (_, k) => k);
  let moves = 0;
  let free = 0;
  let last = work.steps;

  const redraw = (k: number): number => {
    const near = plan.partners[k]!;
    return placeBest(state, k, RELOCATE_TRIES, work, (attempt, to) => {
      const other = near.length > 0 && attempt % 2 === 0 ? near[random.below(near.length)]! : -1;
      const change = other >= 0 && state.isPlaced(other) ? 1 + random.below(3) : p;
      for (let i = 0; i < p; i++)
        to[i] = change === p ? choices[i]![random.below(choices[i]!.length)]! : state.cuts[other * p + i]!;
      if (change < p)
        for (let n = change; n > 0; n--) {
          const i = random.below(p);
          to[i] = choices[i]![random.below(choices[i]!.length)]!;
        }
    });
  };

  const relocate = (k: number): boolean => {
    const before = state.costOf(k);
    const old = state.cutsOf(k);
    const least = redraw(k);
    if (least < before) return true;
    if (least !== Infinity) state.place(k, old);
    return false;
  };

  /** Gives a key without cuts some, or takes them from one that may be in its way. */
  const placeMissing = (): void => {
    const missing: number[] = [];
    for (let k = 0; k < instance.keys; k++) if (!state.isPlaced(k)) missing.push(k);
    const k = missing[random.below(missing.length)]!;
    if (redraw(k) !== Infinity) return;
    const beside = instance.cylindersOf[k]!.flatMap((c) => instance.keysOf[c]!);
    const others = instance.minimumDifference > 1 || beside.length === 0 ? allKeys : beside;
    const other = others[random.below(others.length)]!;
    if (other !== k && !isFixedKey(instance, other)) state.lift(other);
  };

  while (state.conflicts.length + state.unplaced > 0 && work.steps < until) {
    moves++;
    free = work.steps === last ? free + 1 : 0;
    if (free > FREE_LOOKS) work.steps++;
    last = work.steps;
    if (moves % 64 === 0) yield state.conflicts.length + state.unplaced;
    if (state.unplaced > 0 && (state.conflicts.length === 0 || random.below(4) === 0)) {
      work.steps++;
      placeMissing();
      continue;
    }
    const pair = state.conflicts[random.below(state.conflicts.length)]!;
    const k = Math.floor(pair / cylinders);
    const c = pair % cylinders;
    let bestKey = -1;
    let bestAt = 0;
    let best = Infinity;
    let ties = 0;
    const consider = (m: number, chambers: number, breaks: (i: number, depth: number) => boolean): void => {
      if (isFixedKey(instance, m)) return;
      const before = state.costOf(m);
      costOfMoves(state, m, chambers, costs);
      work.steps += 1 + (instance.cylindersOf[m]!.length >> 3);
      for (let i = 0; i < p; i++) {
        if (((chambers >>> i) & 1) === 0) continue;
        cuts.splice(0, p, ...state.cutsOf(m));
        const old = cuts[i]!;
        for (let depth = 0; depth < d; depth++) {
          if (depth === old || !breaks(i, depth)) continue;
          const delta = costs[i * d + depth]! - before;
          if (delta > best) continue;
          if (tabu[(m * p + i) * d + depth]! > moves && delta >= 0) continue;
          if (!depthFits(state, m, i, depth)) continue;
          cuts[i] = depth;
          if (!instance.usable(cuts) || !farEnough(state, m, cuts)) continue;
          if (delta === best && random.below(++ties) !== 0) continue;
          if (delta < best) ties = 1;
          best = delta;
          bestKey = m;
          bestAt = i * d + depth;
        }
      }
    };

    if (!wide && heavy[k] === 0 && random.below(RELOCATE_ONE_IN) === 0 && relocate(k)) continue;
    if (heavy[k] === 0 || random.below(HEAVY_ONE_IN) === 0)
      consider(k, instance.inUse[c]!, (i, depth) => ((state.sets[c * p + i]! >>> depth) & 1) === 0);
    if (instance.fixedSets[c] === undefined)
      for (const m of instance.keysOf[c]!) {
        if (heavy[m] === 1 && random.below(HEAVY_ONE_IN) !== 0) continue;
        let alone = 0;
        for (let i = 0; i < p; i++) {
          const cut = state.cuts[k * p + i]!;
          if (state.cuts[m * p + i] === cut && state.countAt(c, i, cut) === 1) alone |= 1 << i;
        }
        if (alone !== 0) consider(m, alone, () => true);
      }
    if (best >= 0) state.raiseWeight(pair);
    if (bestKey < 0 || (best > 0 && random.below(UPHILL_ONE_IN) !== 0)) continue;
    const i = Math.floor(bestAt / d);
    const old = state.cuts[bestKey * p + i]!;
    state.move(bestKey, i, bestAt % d);
    tabu[(bestKey * p + i) * d + old] = moves + 8 + random.below(12);
  }
  return state.conflicts.length === 0 && state.unplaced === 0;
}
