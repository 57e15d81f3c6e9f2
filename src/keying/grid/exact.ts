/**
 * Complete search for small grids: every bitting of every key, with forward checking and the key with the fewest
 * bittings left next. What a partial assignment breaks stays broken, since chambers only gain depths; so a conflict
 * ends a branch, and an exhausted search is a proof. Keys that can be swapped without changing the grid are taken in
 * ascending order of their bittings, and may have the same one: on different blanks, with the same marks. Of bittings that symmetry makes equal only one is tried for the first key; that
 * goes together with the ascending order, because the one tried is the lowest of its lot and the first key the lowest
 * of those that can be swapped with it.
 */
import { costIf } from './moveCosts.ts';
import { fits } from './stateRules.ts';
import type { Instance } from './instance.ts';
import { GridState } from './state.ts';
import { firstOfLots } from './symmetry.ts';
import type { Work } from './construct.ts';

export type ExactAnswer =
  { readonly kind: 'solved'; readonly state: GridState } | { readonly kind: 'none' | 'gave-up' };

/** More bittings than that in a key's domain aren't listed, nor looked through for usable ones. */
const MOST_BITTINGS = 20_000;
const MOST_LOOKED = 500_000;

/** Tries everything, or gives up when `work.steps` reaches `until` or the bittings are too many to list. */
export function* searchAll(
  instance: Instance,
  work: Work,
  until: number,
): Generator<number, ExactAnswer, void> {
  const state = new GridState(instance);
  if (state.conflicts.length > 0) return { kind: 'none' };
  const lists: number[][][] = [];
  for (let k = 0; k < instance.keys; k++) {
    const list = instance.fixedCuts[k] ? [] : bittingsOf(instance, k);
    if (list === undefined) return { kind: 'gave-up' };
    lists.push(list);
  }
  const open = lists.flatMap((_, k) => (instance.fixedCuts[k] ? [] : [k]));
  const twin = twinsOf(instance, open);
  let gaveUp = false;

  /** Bittings that key k can still have, as numbers into its list. */
  const narrow = (k: number, from: readonly number[]): number[] =>
    from.filter((at) => {
      work.steps++;
      const cuts = lists[k]![at]!;
      return costIf(state, k, cuts, 0) === 0 && fits(state, k, cuts);
    });

  function* descend(
    left: readonly number[],
    choices: ReadonlyMap<number, readonly number[]>,
  ): Generator<number, boolean, void> {
    if (left.length === 0) return true;
    if (work.steps >= until) {
      gaveUp = true;
      return false;
    }
    const k = left.reduce((best, key) => (choices.get(key)!.length < choices.get(best)!.length ? key : best));
    const rest = left.filter((key) => key !== k);
    const first = left.length === open.length ? firstOfLots(instance, lists[k]!) : undefined;
    for (const at of choices.get(k)!) {
      if (first?.[at] === false) continue;
      yield left.length;
      state.place(k, lists[k]![at]!);
      const next = new Map<number, number[]>();
      const alive = rest.every((key) => {
        let from = choices.get(key)!;
        // of keys that can be swapped the first is taken first, since they have the same bittings left
        if (twin[key] === twin[k]) from = from.filter((n) => n >= at);
        const kept = narrow(key, from);
        next.set(key, kept);
        return kept.length > 0;
      });
      if (alive && (yield* descend(rest, next))) return true;
      state.lift(k);
      if (gaveUp) return false;
    }
    return false;
  }

  const start = new Map(
    open.map((k) => [
      k,
      narrow(
        k,
        lists[k]!.map((_, at) => at),
      ),
    ]),
  );
  if (yield* descend(open, start)) return { kind: 'solved', state };
  return { kind: gaveUp ? 'gave-up' : 'none' };
}

/** Usable bittings in a key's domain, or undefined when there are too many. */
function bittingsOf(instance: Instance, k: number): number[][] | undefined {
  const { positions: p, depths, domain } = instance;
  const found: number[][] = [];
  const cuts = new Array<number>(p).fill(0);
  let looked = 0;
  const from = (i: number): boolean => {
    if (i === p) {
      if (instance.usable(cuts)) found.push([...cuts]);
      return found.length <= MOST_BITTINGS && ++looked <= MOST_LOOKED;
    }
    for (let depth = 0; depth < depths; depth++) {
      if (((domain[k * p + i]! >>> depth) & 1) === 0) continue;
      cuts[i] = depth;
      if (!from(i + 1)) return false;
    }
    return true;
  };
  return from(0) ? found : undefined;
}

/** A number for each key; keys with the same number can be swapped without changing the grid. */
function twinsOf(instance: Instance, open: readonly number[]): Int32Array {
  const { positions: p, cylinders, keysOf, inUse, fixedSets, domain, shut, reach } = instance;
  const twin = Int32Array.from({ length: instance.keys }, (_, k) => -1 - k);
  const nameOf = (keys: readonly number[], c: number): string =>
    `${inUse[c]!} ${fixedSets[c]?.join() ?? ''} ${[...keys].sort((a, b) => a - b).join()}`;
  const names = new Set(keysOf.map((keys, c) => nameOf(keys, c)));
  const swap = (a: number, b: number): boolean => {
    for (let i = 0; i < p; i++) if (domain[a * p + i] !== domain[b * p + i]) return false;
    if (reach[a] !== reach[b]) return false;
    for (let c = 0; shut && c < cylinders; c++)
      if (shut[a * cylinders + c] !== shut[b * cylinders + c]) return false;
    return keysOf.every((keys, c) => {
      const [hasA, hasB] = [keys.includes(a), keys.includes(b)];
      if (hasA === hasB) return true;
      return names.has(
        nameOf(
          keys.map((k) => (k === a ? b : k === b ? a : k)),
          c,
        ),
      );
    });
  };
  for (const a of open) {
    if (twin[a]! >= 0) continue;
    twin[a] = a;
    for (const b of open) if (b > a && twin[b]! < 0 && swap(a, b)) twin[b] = a;
  }
  return twin;
}
