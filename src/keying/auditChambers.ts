/** What an audit asks of a chamber. The same set of depths recurs in thousands of cylinders, so each is worked out once. */
import { EVERY, hasDepth, NONE, withDepth, type DepthSet } from './depthSet.ts';
import { pinStack } from './pinning.ts';
import type { Specification } from './specification.ts';
import type { Length } from './units.ts';

export interface ChamberChecks {
  /** Depths outside a set that lie near one inside. */
  readonly near: (set: DepthSet) => DepthSet;
  /** Thousandths of an inch from a depth to the nearest in a set, to one decimal. */
  readonly distance: (set: DepthSet, depth: number) => number;
  readonly thin: (set: DepthSet) => readonly number[];
  readonly tooTall: (set: DepthSet) => boolean;
}

export function createChamberChecks(spec: Specification, within: Length): ChamberChecks {
  const nearOf = new Map<DepthSet, DepthSet>();
  const stackOf = new Map<DepthSet, { thin: readonly number[]; tooTall: boolean }>();
  const gap = (set: DepthSet, depth: number): number => {
    let least = Infinity;
    spec.depths.forEach(({ root }, i) => {
      if (hasDepth(set, i)) least = Math.min(least, Math.abs(root - spec.depths[depth]!.root));
    });
    return least;
  };
  const stack = (set: DepthSet): { thin: readonly number[]; tooTall: boolean } => {
    let known = stackOf.get(set);
    if (!known) {
      const pins = pinStack(spec, set);
      known = { thin: pins?.thin.map(({ steps }) => steps) ?? [], tooTall: pins?.tooTall ?? false };
      stackOf.set(set, known);
    }
    return known;
  };
  return {
    near(set) {
      if (set === EVERY || set === NONE) return NONE;
      let bits = nearOf.get(set);
      if (bits === undefined) {
        bits = NONE;
        for (let i = 0; i < spec.depths.length; i++)
          if (!hasDepth(set, i) && gap(set, i) < within) bits = withDepth(bits, i);
        nearOf.set(set, bits);
      }
      return bits;
    },
    distance: (set, depth) => Math.round((gap(set, depth) * 10) / 25_400) / 10,
    thin: (set) => stack(set).thin,
    tooTall: (set) => stack(set).tooTall,
  };
}
