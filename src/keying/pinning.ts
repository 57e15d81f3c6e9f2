/**
 * Pin stacks. Depths of a chamber from shallow to deep: a bottom pin for the shallowest, a master pin for each
 * further one (the difference), and a top pin that fills up to the target stack. A shallow cut leaves the blade
 * high, so the shallowest depth has the shortest bottom pin and each deeper one adds a master pin above it.
 *
 * Lengths come from the shop's pin table where it has one, else bottom pin = plug diameter − root depth (the blade
 * sits on the bottom of the plug); without either they are left out rather than guessed.
 */
import { depthsIn, EVERY, NONE, type DepthSet } from './depthSet.ts';
import { increment, type Specification } from './specification.ts';
import { add, subtract, type Length } from './units.ts';

export interface Pin {
  /** Steps of depth; for a bottom pin the index of its depth, where 0 is a physical pin too. */
  readonly steps: number;
  readonly length?: Length;
}

/** A master pin thinner than the thinnest one, between two depth indices of one chamber. */
export interface ThinPin {
  readonly from: number;
  readonly to: number;
  readonly steps: number;
}

export interface PinStack {
  readonly bottom: Pin;
  readonly masters: readonly Pin[];
  /** Missing where the target stack or the lengths aren't known. Its length is not positive if the stack is too tall. */
  readonly top?: Length;
  /** Bottom and master pins together: `steps` is the index of the deepest depth. */
  readonly total: Pin;
  readonly thin: readonly ThinPin[];
  /** The pins below leave no room for a top pin. */
  readonly tooTall: boolean;
}

/** Length of the bottom pin for a depth, or undefined where the spec doesn't tell. */
export function bottomPinLength(spec: Specification, index: number): Length | undefined {
  const depth = spec.depths[index];
  if (!depth) return undefined;
  if (depth.pin !== undefined) return depth.pin;
  return spec.plugDiameter === undefined ? undefined : subtract(spec.plugDiameter, depth.root);
}

/**
 * Whether a master pin between two depths would be thinner than the thinnest: fewer steps than the spec's `step`,
 * and, since steps may be uneven, less metal than so many of its smallest steps.
 */
export function isThin(spec: Specification, from: number, to: number): boolean {
  if (Math.abs(to - from) >= spec.step) return false;
  return Math.abs(spec.depths[from]!.root - spec.depths[to]!.root) < spec.step * increment(spec.depths);
}

/**
 * The pins of one chamber, or undefined where it is empty.
 * @example depths {2, 6} → bottom 2, one master pin of 4 steps
 */
export function pinStack(spec: Specification, set: DepthSet): PinStack | undefined {
  if (set === EVERY || set === NONE) return undefined;
  const depths = depthsIn(set, spec.depths.length);
  const shallowest = depths[0];
  if (shallowest === undefined) return undefined;
  const masters: Pin[] = [];
  const thin: ThinPin[] = [];
  for (let k = 1; k < depths.length; k++) {
    const from = depths[k - 1]!;
    const to = depths[k]!;
    masters.push(pin(to - from, masterPinLength(spec, from, to)));
    if (isThin(spec, from, to)) thin.push({ from, to, steps: to - from });
  }
  const below = masters.reduce<Length | undefined>(
    (sum, { length }) => (sum === undefined || length === undefined ? undefined : add(sum, length)),
    bottomPinLength(spec, shallowest),
  );
  const top =
    spec.targetStack === undefined || below === undefined ? undefined : subtract(spec.targetStack, below);
  return {
    bottom: pin(shallowest, bottomPinLength(spec, shallowest)),
    masters,
    ...(top === undefined ? {} : { top }),
    total: pin(depths.at(-1)!, below),
    thin,
    tooTall: top !== undefined && top <= 0,
  };
}

const pin = (steps: number, length: Length | undefined): Pin =>
  length === undefined ? { steps } : { steps, length };

/** Difference of the two bottom pins where both are known, else of the root depths. */
function masterPinLength(spec: Specification, from: number, to: number): Length {
  const shallow = bottomPinLength(spec, from);
  const deep = bottomPinLength(spec, to);
  return shallow !== undefined && deep !== undefined
    ? subtract(deep, shallow)
    : subtract(spec.depths[from]!.root, spec.depths[to]!.root);
}

/**
 * The kit size nearest to a length and the rounding error (size − length); the thinner of two equally near.
 * @example nearest to 0.113 in of 0.110 and 0.115 → 0.115, error 0.002
 */
export function nearestPin(
  length: Length,
  sizes: readonly Length[],
): { readonly size: Length; readonly error: Length } | undefined {
  let best: Length | undefined;
  for (const size of sizes) {
    const nearer = best === undefined ? -1 : Math.abs(size - length) - Math.abs(best - length);
    if (nearer < 0 || (nearer === 0 && size < best!)) best = size;
  }
  return best === undefined ? undefined : { size: best, error: subtract(best, length) };
}
