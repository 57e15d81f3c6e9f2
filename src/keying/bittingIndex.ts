/**
 * Places of bittings in a list by their packed number, for lists of 100,000 and more: a hash table with open
 * addressing over two typed arrays, since a Map of arrays costs more than the search itself. Near misses are looked
 * up rather than compared: all that differ from a bitting in one chamber by one depth have a number that can be
 * worked out.
 */
import { packBitting } from './bitting.ts';
import { positions, type Specification } from './specification.ts';
import { lengthOf, type Length } from './units.ts';

export interface BittingIndex {
  /** First place (from 0) that holds the packed bitting, or -1. */
  readonly first: (packed: number) => number;
  /** The next place with the same bitting as a place, or -1. */
  readonly next: (place: number) => number;
  /** `packed[place]` as `packBitting` gives it. */
  readonly packed: Float64Array;
}

/** @example bittingIndexOf(spec, [a, b, a]).first(packBitting(spec, a)) → 0, next(0) → 2 */
export function bittingIndexOf(spec: Specification, bittings: readonly (readonly number[])[]): BittingIndex {
  const count = bittings.length;
  const bits = Math.max(4, Math.ceil(Math.log2(2 * count + 1)));
  const mask = 2 ** bits - 1;
  const heads = new Int32Array(mask + 1).fill(NOWHERE);
  const next = new Int32Array(count).fill(NOWHERE);
  const packed = new Float64Array(count);
  const slotOf = (key: number): number => {
    let slot = hash(key) & mask;
    while (heads[slot]! !== NOWHERE && packed[heads[slot]!] !== key) slot = (slot + 1) & mask;
    return slot;
  };
  // from the end, so that each chain runs in rising order
  for (let place = count - 1; place >= 0; place--) {
    const key = packBitting(spec, bittings[place]!);
    packed[place] = key;
    const slot = slotOf(key);
    next[place] = heads[slot]!;
    heads[slot] = place;
  }
  return {
    first: (key) => heads[slotOf(key)]!,
    next: (place) => next[place]!,
    packed,
  };
}

const NOWHERE = -1;

/** Mixes both halves of a number below 2^53 into 32 bits. */
function hash(key: number): number {
  const high = Math.floor(key / 4_294_967_296);
  let h = Math.imul((key | 0) ^ Math.imul(high, 0x9e3779b1), 0x85ebca6b);
  h ^= h >>> 15;
  h = Math.imul(h, 0xc2b2ae35);
  return h ^ (h >>> 13);
}

/** How far a packed bitting moves when a chamber (from 0) goes one step deeper. */
const weights = (spec: Specification): number[] => {
  const cuts = positions(spec);
  return Array.from({ length: cuts }, (_, chamber) => spec.depths.length ** (cuts - 1 - chamber));
};

/** For each depth the other depths whose root lies within `within` of its own, and how far. */
function closeDepths(spec: Specification, within: Length): { index: number; apart: Length }[][] {
  return spec.depths.map(({ root }, from) =>
    spec.depths.flatMap((other, index) => {
      const apart = Math.abs(other.root - root);
      return index !== from && apart < within ? [{ index, apart: lengthOf(apart) }] : [];
    }),
  );
}

/** Calls back with a place of the index, the one chamber (from 0) in which it differs, and by how much. */
export type NearFound = (place: number, chamber: number, apart: Length) => void;

/**
 * Finds what in an index differs from a bitting in exactly one chamber, and there by less than `within`.
 * @example nearFinder(spec, index, inches(0.02))(bitting, (place, chamber) => …)
 */
export function nearFinder(
  spec: Specification,
  index: BittingIndex,
  within: Length,
): (bitting: readonly number[], found: NearFound) => void {
  const close = closeDepths(spec, within);
  const weight = weights(spec);
  return (bitting, found) => {
    const packed = packBitting(spec, bitting);
    for (let chamber = 0; chamber < bitting.length; chamber++) {
      const depth = bitting[chamber]!;
      for (const { index: other, apart } of close[depth]!) {
        let place = index.first(packed + (other - depth) * weight[chamber]!);
        for (; place !== NOWHERE; place = index.next(place)) found(place, chamber, apart);
      }
    }
  };
}
