/** What an audit asks of a chamber. The same set of depths recurs in thousands of cylinders, so each is worked out once. */
import { hasDepth, NONE, withDepth, type DepthSet } from './depthSet.ts';
import { pinStack } from './pinning.ts';
import type { Specification } from './specification.ts';
import type { Length } from './units.ts';

export interface ChamberFacts {
  /** Depths outside the set that lie near one inside. */
  readonly near: DepthSet;
  /** Steps of each master pin that is too thin. */
  readonly thin: readonly number[];
  readonly tooTall: boolean;
}

export interface ChamberChecks {
  readonly factsOf: (set: DepthSet) => ChamberFacts;
  /** Thousandths of an inch from a depth to the nearest in a set, to one decimal. */
  readonly distance: (set: DepthSet, depth: number) => number;
}

const PER_THOUSANDTH = 25_400;

export function createChamberChecks(spec: Specification, within: Length): ChamberChecks {
  const known = new Map<DepthSet, ChamberFacts>();
  const gap = (set: DepthSet, depth: number): number => {
    let least = Infinity;
    spec.depths.forEach(({ root }, i) => {
      if (hasDepth(set, i)) least = Math.min(least, Math.abs(root - spec.depths[depth]!.root));
    });
    return least;
  };
  const workOut = (set: DepthSet): ChamberFacts => {
    let near = NONE;
    for (let i = 0; i < spec.depths.length; i++)
      if (!hasDepth(set, i) && gap(set, i) < within) near = withDepth(near, i);
    const pins = pinStack(spec, set);
    return { near, thin: pins?.thin.map(({ steps }) => steps) ?? [], tooTall: pins?.tooTall ?? false };
  };
  return {
    factsOf(set) {
      let facts = known.get(set);
      if (!facts) {
        facts = workOut(set);
        known.set(set, facts);
      }
      return facts;
    },
    distance: (set, depth) => Math.round((gap(set, depth) * 10) / PER_THOUSANDTH) / 10,
  };
}
