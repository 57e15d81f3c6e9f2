/**
 * What a cutter does to the blade: how far a cut eats into the flat of its neighbour, how many steps neighbours may
 * differ because of it, how a narrow cutter widens, and the outline of the finished blade.
 *
 * Method: a cut is a trapezoid, flat W at the root with flanks that open at half the included angle A on each side.
 * The published form of MACS is (spacing − W) ÷ (increment · tan(A/2)): Pulford, High-Security Mechanical Locks: An
 * Encyclopedic Reference, 2007. Results that need a tangent are rounded to the nanometre.
 */
import type { Bitting } from './bitting.ts';
import { cutsFromStop } from './cuts.ts';
import type { CutFinding } from './findings.ts';
import { positionOfSymbol, positions, type Specification } from './specification.ts';
import { inches, lengthOf, type Length } from './units.ts';

/** The wheel at hand. One that is narrower than the spec's root width is taken to be moved until it is as wide. */
export interface Cutter {
  readonly name?: string;
  readonly flat: Length;
  /** Included angle, degrees. */
  readonly angle: number;
}

/** An eaten flat below this is within the play of any machine. */
export const EATEN_LIMIT = inches(0.001);

/** The cutter that the spec itself describes. */
export const cutterOf = (spec: Specification): Cutter => ({ flat: spec.rootWidth, angle: spec.angle });

/** Tangent of half an included angle in degrees. */
const halfTangent = (angle: number): number => Math.tan((angle * Math.PI) / 360);

/** The flat that a cutter leaves at the root: at least the spec's. */
const flatLeft = (spec: Specification, cutter: Cutter): number => Math.max(cutter.flat, spec.rootWidth);

/**
 * How much of its neighbour's flat the deeper of two cuts takes away; negative where flat is left over between them.
 * `deltaRoot` is the difference of their root depths, `centreDistance` that of their centres.
 * @example 6 steps of 0.018 in at 90°, flat 0.054 in, centres 0.156 in apart → 0.006 in
 */
export function eatenFlat(
  spec: Specification,
  deltaRoot: Length,
  centreDistance: Length,
  cutter: Cutter = cutterOf(spec),
): Length {
  const reach = Math.abs(deltaRoot) * halfTangent(cutter.angle);
  return lengthOf(Math.round(reach + (flatLeft(spec, cutter) + spec.rootWidth) / 2 - centreDistance));
}

/** A pair of neighbours of which the deeper eats the flat of the shallower. */
export interface Interference {
  /** The lower of the two symbol numbers, counted along the code from 1. */
  readonly first: number;
  readonly from: string;
  readonly to: string;
  readonly by: Length;
}

/** Every pair of neighbours that eats more than 0.001 in, in the order of the code. */
export function interferences(
  spec: Specification,
  bitting: Bitting,
  cutter: Cutter = cutterOf(spec),
): Interference[] {
  const cuts = cutsFromStop(spec, bitting);
  if (positionOfSymbol(spec, 1) !== 1) cuts.reverse();
  const found: Interference[] = [];
  for (let i = 1; i < cuts.length; i++) {
    const [a, b] = [cuts[i - 1]!, cuts[i]!];
    const distance = lengthOf(Math.abs(b.centre - a.centre));
    const by = eatenFlat(spec, lengthOf(a.root - b.root), distance, cutter);
    if (by > EATEN_LIMIT) found.push({ first: a.symbolNumber, from: a.symbol, to: b.symbol, by });
  }
  return found;
}

/**
 * What there is to say about cutting a bitting with a cutter: too wide, a MACS other than the spec states, and every
 * pair of neighbours that meets.
 */
export function cutterFindings(
  spec: Specification,
  bitting: Bitting,
  cutter: Cutter = cutterOf(spec),
): CutFinding[] {
  const { unit, macs: stated } = spec;
  const found: CutFinding[] = [];
  const widening = wideningPasses(spec, cutter);
  const geometric = geometricMacs(spec, cutter);
  if (widening.kind === 'too-wide')
    found.push({ code: 'cutter-too-wide', by: widening.by, macs: widening.macs, unit });
  else if (geometric !== stated) found.push({ code: 'macs-differs', stated, geometric });
  for (const pair of interferences(spec, bitting, cutter)) found.push({ code: 'eaten-flat', ...pair, unit });
  return found;
}

/**
 * The most steps that neighbours may differ with a cutter before any pair eats more than 0.001 in. With uneven
 * depths or centres the worst pair decides: lengths are compared, not steps.
 * @example geometricMacs(spec) → 5 for 0.018 in steps at 90°, flat 0.054 in, centres 0.156 in apart
 */
export function geometricMacs(spec: Specification, cutter: Cutter = cutterOf(spec)): number {
  const closest = closestCentres(spec);
  let macs = 0;
  for (let steps = 1; steps < spec.depths.length; steps++) {
    if (eatenFlat(spec, largestDrop(spec, steps), closest, cutter) > EATEN_LIMIT) break;
    macs = steps;
  }
  return macs;
}

function closestCentres(spec: Specification): Length {
  const gaps = spec.centres.slice(1).map((centre, i) => centre - spec.centres[i]!);
  return lengthOf(Math.min(...gaps));
}

/** The largest difference in root depth between two depths that many steps apart. */
function largestDrop(spec: Specification, steps: number): Length {
  const drops = spec.depths.slice(steps).map((deep, i) => spec.depths[i]!.root - deep.root);
  return lengthOf(Math.max(...drops));
}

/**
 * The published form of MACS, before rounding down: a real number of steps.
 * @example publishedMacs(inches(0.156), inches(0.031), inches(0.015), 100) → 6.992…
 */
export function publishedMacs(spacing: Length, rootWidth: Length, increment: Length, angle: number): number {
  return (spacing - rootWidth) / (increment * halfTangent(angle));
}

/** How a cutter makes the spec's root width. */
export type Widening =
  | { readonly kind: 'fits' }
  /** Centres of the passes, as offsets from the centre of the cut, rising. */
  | { readonly kind: 'widen'; readonly offsets: readonly Length[] }
  /** It would take more than `MOST_PASSES`: a slip of the keys rather than a cutter. */
  | { readonly kind: 'too-narrow' }
  /** The cutter is wider than the root width by `by`; with it neighbours may differ by at most `macs` steps. */
  | { readonly kind: 'too-wide'; readonly by: Length; readonly macs: number };

/** Nobody widens a cut in more passes than this. */
export const MOST_PASSES = 100;

/**
 * The passes of a cutter that together make the root width: the fewest that leave no ridge, evenly spaced.
 * @example flat 0.040 in for a root of 0.060 in → widen at −0.010 in and +0.010 in
 */
export function wideningPasses(spec: Specification, cutter: Cutter): Widening {
  const spare = spec.rootWidth - cutter.flat;
  if (spare === 0) return { kind: 'fits' };
  if (spare < 0) return { kind: 'too-wide', by: lengthOf(-spare), macs: geometricMacs(spec, cutter) };
  const passes = Math.ceil(spec.rootWidth / cutter.flat);
  if (!(passes <= MOST_PASSES)) return { kind: 'too-narrow' };
  const offsets = Array.from({ length: passes }, (_, i) => {
    // twice the distance from the middle pass, so that the two halves mirror each other to the nanometre
    const fromMiddle = 2 * i - (passes - 1);
    const size = Math.round((spare * Math.abs(fromMiddle)) / (2 * (passes - 1)));
    return lengthOf(fromMiddle < 0 ? -size : size);
  });
  return { kind: 'widen', offsets };
}

/**
 * Could the key be drawn out while the plug is turned? It could if the blade nowhere rises from the bow towards the
 * tip between its outermost cuts: each cut is at least as deep as the one before it and eats away the ridge between.
 * Looks at neighbours only, which is enough within the geometric MACS.
 */
export function neverRisesToTip(spec: Specification, bitting: readonly number[]): boolean {
  const cuts = positions(spec);
  const fromBow = spec.order === 'bow-to-tip';
  for (let i = 1; i < cuts; i++) {
    const before = bitting[fromBow ? i - 1 : cuts - i]!;
    const deep = bitting[fromBow ? i : cuts - 1 - i]!;
    const drop = lengthOf(spec.depths[before]!.root - spec.depths[deep]!.root);
    if (drop < 0) return false;
    const first = spec.gauge === 'shoulder' ? i - 1 : cuts - 1 - i;
    const distance = lengthOf(spec.centres[first + 1]! - spec.centres[first]!);
    if (eatenFlat(spec, drop, distance) < 0) return false;
  }
  return true;
}
