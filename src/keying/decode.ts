/**
 * From caliper readings back to a code. Each reading is matched to the nearest depth, and the answer says how far
 * off it is and what else it could be: a key is worn, a stop is dirty, a caliper is read wrong. Nothing is guessed
 * silently: a doubtful cut carries its flags, and the whole carries the offset that all cuts share.
 */
import { bittingOf, type Bitting, type BittingFault } from './bitting.ts';
import type { CutFinding } from './findings.ts';
import { err, ok, type Result } from './result.ts';
import { positionOfSymbol, positions, type Depth, type Specification } from './specification.ts';
import { lengthOf, subtract, type Length } from './units.ts';

export interface DecodedCut {
  /** Which symbol of the code, from 1. */
  readonly symbolNumber: number;
  /** Which position from the gauge's stop, from 1. */
  readonly position: number;
  readonly reading: Length;
  /** The nearest depth: its index, symbol and root depth. */
  readonly index: number;
  readonly symbol: string;
  readonly root: Length;
  /** Reading less root depth: positive where the key has more metal than the code says. */
  readonly deviation: Length;
  /** The second-nearest depth, and the reading's deviation from it. */
  readonly second: { readonly symbol: string; readonly deviation: Length };
  /** Farther from the nearest depth than the spec's tolerance. */
  readonly suspect: boolean;
  /** The second-nearest depth is less than twice the tolerance farther than the nearest. */
  readonly ambiguous: boolean;
}

export interface Decoding {
  /** The nearest code; trust it only where `clear`. */
  readonly bitting: Bitting;
  readonly cuts: readonly DecodedCut[];
  /** No cut is suspect or ambiguous. */
  readonly clear: boolean;
  /** Mean of the deviations. */
  readonly offset: Length;
  /** Largest less smallest deviation. */
  readonly spread: Length;
  /** All cuts are off by about the same: the spread is within the tolerance and the offset is over half of it. */
  readonly sharedOffset: boolean;
  /** The same as data for the words. */
  readonly findings: readonly CutFinding[];
}

/**
 * Decodes root depths read off a key, one for each cut in the order of the code (`inCodeOrder` turns readings taken
 * from the stop). The only error is a wrong number of readings.
 * @example decodeReadings(spec, [inches(0.28), …]) → cut 1 is a 2, off by 0.001 in
 */
export function decodeReadings(
  spec: Specification,
  readings: readonly Length[],
): Result<Decoding, readonly BittingFault[]> {
  const expected = positions(spec);
  if (readings.length !== expected) return err([{ code: 'length', found: readings.length, expected }]);
  const cuts = readings.map((reading, i) => decodeCut(spec, reading, i + 1));
  const deviations = cuts.map((cut) => cut.deviation);
  const offset = lengthOf(Math.round(deviations.reduce((sum, d) => sum + d, 0) / expected) || 0);
  const spread = lengthOf(Math.max(...deviations) - Math.min(...deviations));
  const sharedOffset = spread <= spec.tolerance && Math.abs(offset) > spec.tolerance / 2;
  return ok({
    bitting: bittingOf(
      spec,
      cuts.map((cut) => cut.index),
    ),
    cuts,
    clear: cuts.every((cut) => !cut.suspect && !cut.ambiguous),
    offset,
    spread,
    sharedOffset,
    findings: [
      ...(sharedOffset ? [{ code: 'shared-offset', offset, unit: spec.unit } as const] : []),
      ...cuts.flatMap((cut) => cutFindings(spec, cut)),
    ],
  });
}

function decodeCut(spec: Specification, reading: Length, symbolNumber: number): DecodedCut {
  const byDistance = spec.depths
    .map((depth, index) => ({ depth, index, distance: Math.abs(reading - depth.root) }))
    .sort((a, b) => a.distance - b.distance);
  const [nearest, next] = [byDistance[0]!, byDistance[1]!];
  const deviationFrom = (depth: Depth) => subtract(reading, depth.root);
  return {
    symbolNumber,
    position: positionOfSymbol(spec, symbolNumber),
    reading,
    index: nearest.index,
    symbol: nearest.depth.symbol,
    root: nearest.depth.root,
    deviation: deviationFrom(nearest.depth),
    second: { symbol: next.depth.symbol, deviation: deviationFrom(next.depth) },
    suspect: nearest.distance > spec.tolerance,
    ambiguous: next.distance - nearest.distance < 2 * spec.tolerance,
  };
}

function cutFindings({ unit, tolerance }: Specification, cut: DecodedCut): CutFinding[] {
  const { symbolNumber: at, symbol, deviation, second } = cut;
  const found: CutFinding[] = [];
  if (cut.suspect) found.push({ code: 'suspect-cut', at, symbol, deviation, tolerance, unit });
  if (cut.ambiguous) found.push({ code: 'ambiguous-cut', at, symbol, other: second.symbol });
  return found;
}
