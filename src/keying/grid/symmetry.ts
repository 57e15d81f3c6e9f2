/**
 * Bittings that are as good as one another for the first key of a complete search: those that swapping two positions,
 * or two depths at a position, or turning all depths round, carries into each other, where the rules allow as much
 * after it as before. Only one of each lot has to be tried.
 */
import type { Instance } from './instance.ts';

type Change = (cuts: readonly number[]) => number[];

/** For each bitting whether it is the first of its lot. Needs a grid without existing keys or cylinders. */
export function firstOfLots(instance: Instance, list: readonly (readonly number[])[]): boolean[] {
  const lot = list.map((_, at) => at);
  const find = (at: number): number => {
    let root = at;
    while (lot[root] !== root) root = lot[root]!;
    return root;
  };
  const numbers = new Map(list.map((cuts, at) => [cuts.join(), at]));
  for (const change of changesOf(instance)) {
    const images = list.map((cuts) => numbers.get(change(cuts).join()));
    if (images.some((to) => to === undefined)) continue;
    images.forEach((to, at) => {
      const [a, b] = [find(at), find(to!)];
      lot[Math.max(a, b)] = Math.min(a, b);
    });
  }
  return list.map((_, at) => find(at) === at);
}

function changesOf({ positions: p, depths, domain, near, inUse, fixedSets, reach }: Instance): Change[] {
  if (fixedSets.some(Boolean)) return [];
  // On short blanks some cuts don't count towards the difference between keys.
  if (reach.some((bits) => bits !== reach[0])) return [];
  // An existing key has one depth a chamber, so where one stands the domains differ.
  for (let at = p; at < domain.length; at++) if (domain[at] !== domain[at - p]) return [];
  const changes: Change[] = [];
  for (let i = 0; i < p; i++)
    for (let j = i + 1; j < p; j++)
      if (inUse.every((bits) => ((bits >>> i) & 1) === ((bits >>> j) & 1)))
        changes.push((cuts) => cuts.map((cut, at) => (at === i ? cuts[j]! : at === j ? cuts[i]! : cut)));
  if (inUse.every((bits) => mirrored(bits, p) === bits)) changes.push((cuts) => [...cuts].reverse());
  const keepsNear = (to: (depth: number) => number): boolean =>
    near.every((bits, a) => {
      for (let b = 0; b < depths; b++)
        if (((bits >>> b) & 1) !== ((near[to(a)]! >>> to(b)) & 1)) return false;
      return true;
    });
  const turned = (depth: number): number => depths - 1 - depth;
  if (keepsNear(turned)) {
    changes.push((cuts) => cuts.map(turned));
    for (let i = 0; i < p; i++) changes.push((cuts) => cuts.map((cut, at) => (at === i ? turned(cut) : cut)));
  }
  for (let a = 0; a < depths; a++)
    for (let b = a + 1; b < depths; b++) {
      const swapped = (depth: number): number => (depth === a ? b : depth === b ? a : depth);
      if (!keepsNear(swapped)) continue;
      for (let i = 0; i < p; i++)
        changes.push((cuts) => cuts.map((cut, at) => (at === i ? swapped(cut) : cut)));
    }
  return changes;
}

function mirrored(bits: number, p: number): number {
  let turned = 0;
  for (let i = 0; i < p; i++) if ((bits >>> i) & 1) turned |= 1 << (p - 1 - i);
  return turned;
}
