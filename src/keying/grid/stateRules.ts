/** What a key's cuts have to keep to whatever they operate: its domain, pins, depths in a chamber, the difference. */
import { bitCount } from './instance.ts';
import type { GridState } from './state.ts';

/** Whether depth may be key k's at chamber i: in its domain, no pin too thin, no chamber with too many depths. */
export function depthFits(state: GridState, k: number, i: number, depth: number): boolean {
  const { p, d, instance, sets, counts } = state;
  if (((instance.domain[k * p + i]! >>> depth) & 1) === 0) return false;
  if (!instance.thinMatters && instance.mostDepths >= d) return true;
  const old = state.cuts[k * p + i]!;
  for (const c of instance.cylindersOf[k]!) {
    if (!state.open(c) || ((instance.inUse[c]! >>> i) & 1) === 0) continue;
    let set = sets[c * p + i]!;
    if (old >= 0 && counts[(c * p + i) * d + old] === 1) set &= ~(1 << old);
    if ((set & instance.near[depth]!) !== 0) return false;
    if (instance.mostDepths < d && bitCount(set | (1 << depth)) > instance.mostDepths) return false;
  }
  return true;
}

/** Whether cuts are far enough from every other key's. */
export function farEnough(state: GridState, k: number, cuts: ArrayLike<number>): boolean {
  const { instance, p } = state;
  const least = instance.minimumDifference;
  if (least <= 1 && !instance.distinct) return true;
  for (let other = 0; other < instance.keys; other++) {
    if (other === k || instance.avoided[other] || !state.isPlaced(other)) continue;
    const both = instance.reach[k]! & instance.reach[other]!;
    let differing = 0;
    for (let i = 0; i < p; i++) if ((both >>> i) & 1 && state.cuts[other * p + i] !== cuts[i]) differing++;
    if (differing < least) return false;
  }
  return true;
}

/** Whether key k may have these cuts at all, whatever operates what. */
export function fits(state: GridState, k: number, cuts: ArrayLike<number>): boolean {
  for (let i = 0; i < state.p; i++) if (!depthFits(state, k, i, cuts[i]!)) return false;
  return state.instance.usable(cuts) && farEnough(state, k, cuts);
}
