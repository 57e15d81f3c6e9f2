/**
 * Fewer extra master pins in a grid that is solved. Cut by cut, a key gets a depth that its doors have already, where
 * nothing is wrong after it. Extra are the pins beyond one in a chamber: one is what progression needs, and taking that
 * away would only move change keys closer to the master and leave less room for keys made later. A change is made only
 * if no key then operates what it must not, so what was solved stays solved.
 */
import type { Work } from './construct.ts';
import { bitCount } from './instance.ts';
import { costOfMoves } from './moveCosts.ts';
import type { Prepared } from './prepare.ts';
import type { GridState } from './state.ts';
import { depthFits, farEnough } from './stateRules.ts';

/** Changes cuts of a solved state until nothing more is saved or `until` steps are taken; says what is left to do. */
export function* savePins(
  state: GridState,
  { cylindersIn }: Pick<Prepared, 'cylindersIn'>,
  work: Work,
  until: number,
): Generator<number, void, void> {
  const { instance } = state;
  const { positions: p, depths: d, cylindersOf } = instance;
  const costs = new Float64Array(p * d);

  const extra = (set: number): number => Math.max(0, bitCount(set) - 2);

  /** Whether an extra pin of chamber i is there for key k alone: else nothing is saved there. */
  const owned = (k: number, i: number): boolean => {
    const cut = state.cuts[k * p + i]!;
    return cylindersOf[k]!.some(
      (c) => bitCount(state.sets[c * p + i]!) > 2 && state.countAt(c, i, cut) === 1,
    );
  };

  /** Extra pins more or fewer if key k had `depth` at chamber i. */
  const pinsMore = (k: number, i: number, depth: number): number => {
    const old = state.cuts[k * p + i]!;
    let sum = 0;
    for (const c of cylindersOf[k]!) {
      // An existing cylinder and a chamber that is not in use have the depth already, and count no cuts.
      const set = state.sets[c * p + i]!;
      const without = state.countAt(c, i, old) === 1 ? set & ~(1 << old) : set;
      sum += (extra(without | (1 << depth)) - extra(set)) * cylindersIn[c]!.length;
    }
    return sum;
  };

  const improve = (k: number): boolean => {
    const saving: { i: number; depth: number; more: number }[] = [];
    work.steps += 1 + (cylindersOf[k]!.length >> 3);
    for (let i = 0; i < p; i++) {
      if (!owned(k, i)) continue;
      for (let depth = 0; depth < d; depth++) {
        if (!depthFits(state, k, i, depth)) continue;
        const more = pinsMore(k, i, depth);
        if (more < 0) saving.push({ i, depth, more });
      }
    }
    if (saving.length === 0) return false;
    work.steps += 1 + (cylindersOf[k]!.length >> 3);
    costOfMoves(
      state,
      k,
      saving.reduce((bits, { i }) => bits | (1 << i), 0),
      costs,
    );
    const cuts = state.cutsOf(k);
    for (const { i, depth } of saving.sort((a, b) => a.more - b.more)) {
      if (costs[i * d + depth] !== 0) continue;
      const old = cuts[i]!;
      cuts[i] = depth;
      if (instance.usable(cuts) && farEnough(state, k, cuts)) {
        state.move(k, i, depth);
        return true;
      }
      cuts[i] = old;
    }
    return false;
  };

  // An existing key's own cuts are all that its domain has.
  let queue = cylindersOf.map((_, k) => k);
  while (queue.length > 0) {
    const changed: number[] = [];
    for (const [n, k] of queue.entries()) {
      if (work.steps >= until) return;
      if (n % 64 === 0) yield queue.length - n;
      while (work.steps < until && improve(k)) changed.push(k);
    }
    // Whoever shares a door with a key that changed may save now.
    const next = new Set(changed.flatMap((k) => cylindersOf[k]!.flatMap((c) => instance.keysOf[c]!)));
    queue = queue.filter((k) => next.has(k));
  }
}
