/**
 * Proofs by how far keys have to be apart. So many chambers of so many depths tell no more bittings apart than their
 * product; and bittings that differ in at least d chambers stay different when any d − 1 of them are struck out, so
 * there are no more than the product of the depths of the rest (Singleton, IEEE Transactions on Information Theory
 * 10(2), 1964). Both hold for the keys of one cylinder, with the depths that one chamber may hold.
 */
import type { Grid, SolveOptions } from './chart.ts';
import { bitCount, type Instance } from './instance.ts';
import type { Prepared } from './prepare.ts';
import type { ProofReason } from './result.ts';

export interface ApartProblem {
  readonly reason: ProofReason;
  /** Key classes and cylinder classes. */
  readonly keys: readonly number[];
  readonly cylinders: readonly number[];
}

/** Depths at each chamber that some key may have, in all and in one cylinder. */
export function tooFarApart(
  grid: Grid,
  options: SolveOptions,
  { instance, cylindersIn }: Prepared,
): ApartProblem | undefined {
  const open = Array.from({ length: instance.keys }, (_, k) => k).filter((k) => !instance.fixedCuts[k]);
  const difference = instance.minimumDifference;
  if (open.length > 1 && difference > 1) {
    const free = instance.positions - new Set(options.constant ?? []).size;
    if (difference > free)
      return {
        reason: { code: 'difference-too-large', asked: difference, possible: free },
        keys: open.slice(0, 2),
        cylinders: [],
      };
    const choices = choicesOf(instance, open).map((n, i) => (options.constant?.includes(i) ? 1 : n));
    const possible = singleton(choices, difference);
    if (open.length > possible)
      return {
        reason: { code: 'too-many-apart', needed: open.length, possible, difference },
        keys: open.slice(0, possible + 1),
        cylinders: [],
      };
  }
  return onOneDoor(grid, instance, cylindersIn);
}

/** No more than the product of all but the `difference − 1` largest. */
function singleton(choices: readonly number[], difference: number): number {
  const kept = [...choices].sort((a, b) => a - b).slice(0, choices.length - difference + 1);
  return kept.reduce((product, n) => product * n, 1);
}

function choicesOf({ positions: p, domain }: Instance, keys: readonly number[]): number[] {
  return Array.from({ length: p }, (_, i) =>
    bitCount(keys.reduce((bits, k) => bits | domain[k * p + i]!, 0)),
  );
}

/** A cylinder whose chambers can't tell its keys apart. */
function onOneDoor(
  grid: Grid,
  instance: Instance,
  cylindersIn: readonly (readonly number[])[],
): ApartProblem | undefined {
  const { positions: p, keysOf, inUse, fixedSets, fixedCuts, minimumDifference } = instance;
  const whole = 2 ** p - 1;
  for (const [c, marked] of keysOf.entries()) {
    if (fixedSets[c] || marked.length < 2) continue;
    const depths = depthsAt(instance, marked);
    const used = depths.filter((_, i) => (inUse[c]! >>> i) & 1);
    const product = used.reduce((all, n) => all * n, 1);
    const apart =
      inUse[c] === whole && minimumDifference > 1 ? singleton(depths, minimumDifference) : product;
    if (marked.length <= Math.min(product, apart)) continue;
    const different = { keys: differentOn(instance, c), possible: product };
    const spread = { keys: marked.filter((k) => !fixedCuts[k]), possible: apart };
    const claims = apart < product ? [different, spread] : [different];
    for (const { keys, possible } of claims)
      if (keys.length > possible)
        return {
          reason: {
            code: 'too-many-on-door',
            cylinder: grid.cylinders[cylindersIn[c]![0]!]!.id,
            needed: keys.length,
            possible,
          },
          keys: keys.slice(0, possible + 1),
          cylinders: [c],
        };
  }
  return undefined;
}

/** Most depths that each chamber of a cylinder may hold: as many as asked for, none too near another. */
function depthsAt(
  { positions: p, depths, domain, near, mostDepths }: Instance,
  marked: readonly number[],
): number[] {
  return Array.from({ length: p }, (_, i) => {
    const bits = marked.reduce((all, k) => all | domain[k * p + i]!, 0);
    let [count, last] = [0, -1];
    // Depths lie in order, so taking the shallowest that fits each time takes the most.
    for (let depth = 0; depth < depths; depth++) {
      if (((bits >>> depth) & 1) === 0 || (last >= 0 && (near[last]! >>> depth) & 1)) continue;
      count++;
      last = depth;
    }
    return Math.min(count, mostDepths);
  });
}

/**
 * Keys of a cylinder of which any two must differ in a chamber that is pinned in it: those with different marks on
 * cylinders that are pinned in no other chamber.
 */
function differentOn(
  { keysOf, inUse, fixedSets, cylindersOf, distinct, positions, fixedCuts, shut }: Instance,
  c: number,
): number[] {
  const within = new Set(
    keysOf.flatMap((_, at) => (!fixedSets[at] && (inUse[at]! & ~inUse[c]!) === 0 ? [at] : [])),
  );
  const everyOne = distinct && inUse[c] === 2 ** positions - 1;
  const seen = new Set<string>();
  return keysOf[c]!.filter((k) => {
    // Keys of other blanks may share a bitting, whatever they are marked for.
    if (shut?.subarray(k * keysOf.length, (k + 1) * keysOf.length).includes(1)) return false;
    const name = `${cylindersOf[k]!.filter((at) => within.has(at)).join()} ${everyOne && !fixedCuts[k] ? k : ''}`;
    if (seen.has(name)) return false;
    seen.add(name);
    return true;
  });
}
