/**
 * Which spec a measured key was cut by. Each spec is tried on all root depths, and on the spaces where they were
 * measured; the answer says how well each fits and why the others don't. A spec with many close depths fits anything a
 * little, so the measure is the deviation against what chance would give: readings that fall anywhere between two
 * depths of a spec are off by 1 ÷ √12 of their distance (root mean square of an even distribution).
 */
import { decodeReadings, type Decoding } from './decode.ts';
import { cutCentres } from './cuts.ts';
import { MOST_CENTRE_ERROR, spacingDeviation } from './fitSpacing.ts';
import { assert } from './result.ts';
import { increment, positions, type Specification } from './specification.ts';
import { lengthOf, type Length } from './units.ts';

export interface KeyReadings {
  /** Root depths in the order in which the key was read. */
  readonly roots: readonly Length[];
  /** Stop to the centre of each cut, in the same order; none where only depths were measured. */
  readonly centres?: readonly Length[];
}

export interface SpecFit {
  readonly spec: Specification;
  readonly decoding: Decoding;
  /** Root mean square of the root depths' deviations. */
  readonly depthError: Length;
  /** Largest deviation of a centre, once the offset that all share (the stop) is taken out; none without centres. */
  readonly centreError?: Length;
  /** The offset that all centres share: positive where the cuts lie farther from the stop than the spec says. */
  readonly centreOffset?: Length;
  /** The readings run against the order of the code: turned round for the decoding. */
  readonly turned: boolean;
  /** 1 where chance would do as well; 0 is a perfect fit. */
  readonly score: number;
  readonly verdict: 'good' | 'fair' | 'poor';
}

/**
 * Specs of the right number of cuts, best first. Without centres a key reads the same from both ends, so readings are
 * taken to go along the code; with centres they are turned round where the spec wants that.
 * @example fitSpecs(specs, { roots: [inches(0.28), …] })[0] → { spec: S-018-6, verdict: 'good', … }
 */
export function fitSpecs(specs: readonly Specification[], readings: KeyReadings): SpecFit[] {
  return specs
    .filter((spec) => positions(spec) === readings.roots.length)
    .map((spec) => bestWay(spec, readings))
    .sort((a, b) => a.score - b.score);
}

function bestWay(spec: Specification, readings: KeyReadings): SpecFit {
  const along = fitOf(spec, readings, false);
  if (!readings.centres) return along;
  const turned = fitOf(
    spec,
    { roots: [...readings.roots].reverse(), centres: [...readings.centres].reverse() },
    true,
  );
  return turned.score < along.score ? turned : along;
}

function fitOf(spec: Specification, { roots, centres }: KeyReadings, turned: boolean): SpecFit {
  const decoded = decodeReadings(spec, roots);
  assert(decoded.ok, `${spec.name} has ${positions(spec)} cuts`);
  const decoding = decoded.value;
  const depthError = rootMeanSquare(decoding.cuts.map((cut) => cut.deviation));
  const spacing = centres && spacingDeviation(cutCentres(spec), centres);
  const byChance = increment(spec.depths) / Math.sqrt(12);
  const depthScore = depthError / byChance;
  const centreScore = spacing ? spacing.error / MOST_CENTRE_ERROR : 0;
  const score = Math.hypot(depthScore, centreScore);
  const within = decoding.cuts.every((cut) => !cut.suspect);
  const spaced = !spacing || spacing.error <= MOST_CENTRE_ERROR;
  return {
    spec,
    decoding,
    depthError,
    turned,
    score,
    verdict:
      within && spaced && depthScore < 0.5
        ? 'good'
        : spaced && (decoding.sharedOffset || depthScore < 0.75)
          ? 'fair'
          : 'poor',
    ...(spacing && { centreError: spacing.error, centreOffset: spacing.offset }),
  };
}

const rootMeanSquare = (deviations: readonly Length[]): Length =>
  lengthOf(Math.round(Math.sqrt(deviations.reduce((sum, d) => sum + d * d, 0) / deviations.length)));
