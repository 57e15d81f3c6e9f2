/**
 * The first article: caliper readings of a key that was just cut, held against the bitting that it was to have.
 * Decoding alone would pass a wrong cut that happens to be another depth; this compares with the depth that was meant.
 */
import type { Bitting } from './bitting.ts';
import { assert } from './result.ts';
import { positions, type Specification } from './specification.ts';
import { subtract, type Length } from './units.ts';

export interface JudgedCut {
  /** Which symbol of the code, from 1. */
  readonly at: number;
  readonly reading: Length;
  /** The depth that was meant. */
  readonly symbol: string;
  readonly root: Length;
  /** Reading less root depth: positive where too little was cut away. */
  readonly deviation: Length;
  readonly within: boolean;
  /** Another depth that the reading is nearer to than to the one meant. */
  readonly reads?: string;
}

export interface Judgement {
  /** Cuts with a reading, in the order of the code. */
  readonly cuts: readonly JudgedCut[];
  /** Cuts without a reading yet. */
  readonly missing: readonly number[];
  /** Every cut was read and is within tolerance. */
  readonly good: boolean;
  /** Some cut is off by more than the tolerance. */
  readonly bad: boolean;
}

/**
 * Judges readings in the order of the code; undefined = not read yet.
 * @example judgeReadings(spec, bitting of '274153', [inches(0.28), …]) → { good: true, … }
 */
export function judgeReadings(
  spec: Specification,
  bitting: Bitting,
  readings: readonly (Length | undefined)[],
): Judgement {
  assert(readings.length === positions(spec), `${spec.name} has ${positions(spec)} cuts`);
  const missing = readings.flatMap((reading, i) => (reading === undefined ? [i + 1] : []));
  const cuts = readings.flatMap((reading, i) =>
    reading === undefined ? [] : [judgeCut(spec, bitting[i]!, reading, i + 1)],
  );
  const bad = cuts.some((cut) => !cut.within);
  return { cuts, missing, bad, good: !bad && missing.length === 0 };
}

function judgeCut(spec: Specification, index: number, reading: Length, at: number): JudgedCut {
  const { symbol, root } = spec.depths[index]!;
  const deviation = subtract(reading, root);
  const nearer = spec.depths.reduce((best, depth) =>
    Math.abs(reading - depth.root) < Math.abs(reading - best.root) ? depth : best,
  );
  const off = Math.abs(deviation);
  return {
    at,
    reading,
    symbol,
    root,
    deviation,
    within: off <= spec.tolerance,
    ...(Math.abs(reading - nearer.root) < off && { reads: nearer.symbol }),
  };
}
