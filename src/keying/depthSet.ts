/**
 * The depths at which one chamber shears, as bits of a 32-bit word: bit i is depth index i. Intersections, unions
 * and counts of chambers are the inner loop of every audit, so the bit tricks live here and nowhere else.
 */
declare const depthSet: unique symbol;
export type DepthSet = number & { readonly [depthSet]: true };

const of = (bits: number): DepthSet => (bits | 0) as DepthSet;

/** No depth: a chamber that never shears. */
export const NONE: DepthSet = of(0);

/** An empty or unused chamber admits every depth. */
export const EVERY: DepthSet = of(-1);

/** `depthSetOf([2, 6])` shears at depth indices 2 and 6. */
export function depthSetOf(indices: Iterable<number>): DepthSet {
  let bits = 0;
  for (const i of indices) bits |= 1 << i;
  return of(bits);
}

export const hasDepth = (set: DepthSet, index: number): boolean => ((set >>> index) & 1) === 1;
export const withDepth = (set: DepthSet, index: number): DepthSet => of(set | (1 << index));
export const union = (a: DepthSet, b: DepthSet): DepthSet => of(a | b);
export const intersection = (a: DepthSet, b: DepthSet): DepthSet => of(a & b);

/** Number of depths in the set. `EVERY` counts as all `depths` of the spec. */
export function depthCount(set: DepthSet, depths: number): number {
  return set === EVERY ? depths : popCount(set);
}

/** Number of bits that are set. */
export function popCount(bits: number): number {
  let v = bits - ((bits >>> 1) & 0x55555555);
  v = (v & 0x33333333) + ((v >>> 2) & 0x33333333);
  return (((v + (v >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
}

/** The shallowest depth of a set that is not empty. */
export const lowestDepth = (bits: number): number => 31 - Math.clz32(bits & -bits);

/** The depth indices in the set, shallow to deep. `EVERY` gives all `depths` of the spec. */
export function depthsIn(set: DepthSet, depths: number): number[] {
  const found: number[] = [];
  for (let i = 0; i < depths; i++) if (hasDepth(set, i)) found.push(i);
  return found;
}
