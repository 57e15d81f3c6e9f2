/**
 * A grid as the search works on it: keys with the same marks and cylinders with the same keys are one class each,
 * and depths are small numbers. Avoided bittings are keys that are marked for nothing.
 */
import type { Specification } from '../specification.ts';

export interface Instance {
  readonly spec: Specification;
  readonly positions: number;
  readonly depths: number;
  /** Number of key classes; the avoided bittings come last. */
  readonly keys: number;
  readonly cylinders: number;
  /** Cuts of key classes that may not change. */
  readonly fixedCuts: readonly (readonly number[] | undefined)[];
  /** Depth sets of cylinder classes that may not change. */
  readonly fixedSets: readonly (readonly number[] | undefined)[];
  /** For each cylinder class the chambers in use, as bits. */
  readonly inUse: readonly number[];
  /** Key classes of each cylinder class, ascending. */
  readonly keysOf: readonly (readonly number[])[];
  /** Cylinder classes of each key class, ascending. */
  readonly cylindersOf: readonly (readonly number[])[];
  /** Depths that a key class may have at a chamber, as bits, at `key * positions + chamber`. */
  readonly domain: Int32Array;
  /** For each depth those too near to share a chamber with it, as bits. */
  readonly near: Int32Array;
  /** Some depths that the domains allow are too near each other. */
  readonly thinMatters: boolean;
  /**
   * Pairs that never turn, whatever the cuts, at `key * cylinders + cylinder`: the blank doesn't enter, or has no cut
   * for a chamber that is pinned. Left out where there are none.
   */
  readonly shut: Uint8Array | undefined;
  /** For each key class the chambers that its blank has cuts for, as bits. */
  readonly reach: readonly number[];
  /** Bittings that no key may have and no cylinder admit: nothing has to differ from them in more. */
  readonly avoided: readonly boolean[];
  readonly mostDepths: number;
  readonly minimumDifference: number;
  /** Keys with equal marks are classes of their own and must differ. */
  readonly distinct: boolean;
  readonly usable: (cuts: ArrayLike<number>) => boolean;
}

export const isFixedKey = (instance: Instance, k: number): boolean => instance.fixedCuts[k] !== undefined;

export function bitCount(bits: number): number {
  let v = bits - ((bits >>> 1) & 0x55555555);
  v = (v & 0x33333333) + ((v >>> 2) & 0x33333333);
  return (((v + (v >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
}

/** The lowest set bit's number. */
export const lowestBit = (bits: number): number => 31 - Math.clz32(bits & -bits);
