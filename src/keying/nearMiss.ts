/**
 * A key that fails at exactly one chamber, and there only by a little, may still turn a worn cylinder. The limit is
 * a length, not a number of steps: 0.018 in may be one step of one spec and no step of another.
 */
import { hasDepth } from './depthSet.ts';
import type { Specification } from './specification.ts';
import type { Chambers } from './system.ts';
import type { Length, Unit } from './units.ts';

export interface NearMiss {
  /** The one chamber that fails, counted along the code from 1. */
  readonly chamber: number;
  /** By how much, in thousandths of an inch to one decimal. */
  readonly thousandths: number;
  /** The unit to say it in, where the spec's is not inches. */
  readonly unit?: Unit;
}

const PER_THOUSANDTH = 25_400;

/** A length in thousandths of an inch to one decimal. @example inThousandths(inches(0.018)) → 18 */
export const inThousandths = (length: number): number => Math.round((length * 10) / PER_THOUSANDTH) / 10;

/** What a finding says about the unit: nothing for inches. */
export const sayUnit = ({ unit }: Specification): { readonly unit?: Unit } => (unit === 'in' ? {} : { unit });

const nearMiss = (spec: Specification, chamber: number, distance: number): NearMiss => ({
  chamber,
  thousandths: inThousandths(distance),
  ...sayUnit(spec),
});

/**
 * Exactly one chamber fails, and the key's root depth there lies less than `within` from a depth that shears.
 * @example a key 1-2-3-4-5 and a cylinder of 1-2-3-4-6, steps of 0.018 in → { chamber: 5, thousandths: 18 }
 */
export function nearMissOf(
  spec: Specification,
  bitting: readonly number[],
  chambers: Chambers,
  within: Length,
): NearMiss | undefined {
  let failing = -1;
  for (let i = 0; i < chambers.length; i++) {
    if (hasDepth(chambers[i]!, bitting[i]!)) continue;
    if (failing >= 0) return undefined;
    failing = i;
  }
  if (failing < 0) return undefined;
  const root = spec.depths[bitting[failing]!]!.root;
  let least = Infinity;
  spec.depths.forEach((depth, index) => {
    if (hasDepth(chambers[failing]!, index)) least = Math.min(least, Math.abs(depth.root - root));
  });
  return least < within ? nearMiss(spec, failing + 1, least) : undefined;
}

/** The same of key against key: they differ in exactly one cut, and there by less than `within`. */
export function nearMissOfKey(
  spec: Specification,
  bitting: readonly number[],
  other: readonly number[],
  within: Length,
): NearMiss | undefined {
  let failing = -1;
  for (let i = 0; i < other.length; i++) {
    if (bitting[i] === other[i]) continue;
    if (failing >= 0) return undefined;
    failing = i;
  }
  if (failing < 0) return undefined;
  const distance = Math.abs(spec.depths[bitting[failing]!]!.root - spec.depths[other[failing]!]!.root);
  return distance < within ? nearMiss(spec, failing + 1, distance) : undefined;
}
