/** Which depths a list of bittings uses, and which depths stand beside each other on a key. */
import type { Specification } from '../../src/keying/specification.ts';

export interface DepthUse {
  readonly bittings: number;
  readonly cuts: number;
  /** Cuts at each depth index. */
  readonly uses: readonly number[];
  /** `beside[a][b]`: how often a cut of index a is followed, in code order, by one of index b. */
  readonly beside: readonly (readonly number[])[];
  /** Neighbours that differ by this many steps. */
  readonly bySteps: readonly number[];
  /** Neighbours that differ by more than the spec's MACS. */
  readonly beyond: number;
}

/**
 * @example depthUse(spec, [bittingOf(spec, [2, 7, 4, 1, 5, 3])]).bySteps → [0, 0, 1, 2, 1, 1, 0, 0, 0, 0]
 */
export function depthUse(spec: Specification, bittings: readonly (readonly number[])[]): DepthUse {
  const count = spec.depths.length;
  const uses = new Array<number>(count).fill(0);
  const bySteps = new Array<number>(count).fill(0);
  const beside = Array.from({ length: count }, () => new Array<number>(count).fill(0));
  let cuts = 0;
  let beyond = 0;
  for (const bitting of bittings) {
    bitting.forEach((depth, i) => {
      cuts++;
      uses[depth]! += 1;
      const next = bitting[i + 1];
      if (next === undefined) return;
      const steps = Math.abs(next - depth);
      beside[depth]![next]! += 1;
      bySteps[steps]! += 1;
      if (steps > spec.macs) beyond++;
    });
  }
  return { bittings: bittings.length, cuts, uses, beside, bySteps, beyond };
}

/** The largest difference of neighbours that occurs; none in an empty list. */
export function largestJump(use: DepthUse): number | undefined {
  const largest = use.bySteps.findLastIndex((n) => n > 0);
  return largest < 0 ? undefined : largest;
}
