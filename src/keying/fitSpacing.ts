/**
 * Which spec a key was cut by, as far as its spaces tell: for blades too worn to read their depths, or measured by
 * their positions alone. Specs that share a spacing can't be told apart this way, and no code comes of it.
 */
import { positions, type Specification } from './specification.ts';
import { lengthOf, subtract, type Length } from './units.ts';

/** A quarter of a millimetre, about 0.010 in: what an eye at a caliper can be off. Common practice. */
export const MOST_CENTRE_ERROR = lengthOf(250_000);

/** How measured centres lie against a spec's. */
export interface SpacingDeviation {
  /** Largest deviation of a centre, once the offset that all share (the stop) is taken out. */
  readonly error: Length;
  /** The offset that all centres share: positive where the cuts lie farther from the stop than the spec says. */
  readonly offset: Length;
}

export interface SpacingFit extends SpacingDeviation {
  readonly spec: Specification;
  readonly verdict: 'good' | 'fair' | 'poor';
}

/**
 * Centres against those wanted, both in the same order. A stop that is off moves all cuts alike; beyond twice what an
 * eye can be off it counts against the spec too.
 * @example spacingDeviation([5, 9, 13] mm, [5.1, 9.1, 13.1] mm) → { error: 0, offset: 0.1 mm }
 */
export function spacingDeviation(wanted: readonly Length[], centres: readonly Length[]): SpacingDeviation {
  const off = centres.map((centre, i) => subtract(centre, wanted[i]!));
  const offset = lengthOf(Math.round(off.reduce((sum, d) => sum + d, 0) / off.length) || 0);
  const worst = Math.max(...off.map((d) => Math.abs(d - offset)));
  const excess = Math.max(0, Math.abs(offset) - 2 * MOST_CENTRE_ERROR);
  return { error: lengthOf(Math.round(worst + excess)), offset };
}

/**
 * Specs with that many cuts, best first. Centres are taken from the stop on, in whatever order they were read.
 * @example fitSpacing(specs, [inches(0.237), inches(0.393), …])[0] → { spec: S-018-6, verdict: 'good', … }
 */
export function fitSpacing(specs: readonly Specification[], centres: readonly Length[]): SpacingFit[] {
  const fromStop = [...centres].sort((a, b) => a - b);
  return specs
    .filter((spec) => positions(spec) === centres.length)
    .map((spec) => {
      const deviation = spacingDeviation(spec.centres, fromStop);
      return { spec, ...deviation, verdict: verdictOf(deviation) };
    })
    .sort((a, b) => a.error - b.error || Math.abs(a.offset) - Math.abs(b.offset));
}

const verdictOf = ({ error }: SpacingDeviation): SpacingFit['verdict'] =>
  2 * error <= MOST_CENTRE_ERROR ? 'good' : error <= MOST_CENTRE_ERROR ? 'fair' : 'poor';
