/**
 * Where each cut lies and how deep it goes. Positions count from the gauge's stop, symbols count along the code;
 * both from 1. Everything here is exact: it only picks lengths from the spec.
 */
import type { Bitting } from './bitting.ts';
import { assert } from './result.ts';
import { positionOfSymbol, positions, type Specification } from './specification.ts';
import type { Length } from './units.ts';

/** One cut of a key, as a code machine or a drawing needs it. */
export interface Cut {
  /** Counted from the gauge's stop, from 1. */
  readonly position: number;
  /** Which symbol of the code this cut is, from 1. */
  readonly symbolNumber: number;
  readonly symbol: string;
  /** Stop to the centre of the cut. */
  readonly centre: Length;
  /** Blade bottom to the bottom of the cut. */
  readonly root: Length;
}

/**
 * Centre of the cut at a position counted from the gauge's stop. Throws where the spec has no such position.
 * @example centreAt(spec, 2) → 0.393 in, where the first is 0.237 in and the spacing 0.156 in
 */
export function centreAt(spec: Specification, position: number): Length {
  const centre = spec.centres[position - 1];
  assert(centre !== undefined, `${spec.name} has no position ${position}`);
  return centre;
}

/**
 * Centre of the cut that a symbol of the code stands for, from the gauge's stop.
 * @example cutCentre(spec, 1) → the centre nearest the bow when the code reads from bow to tip
 */
export function cutCentre(spec: Specification, symbolNumber: number): Length {
  return centreAt(spec, positionOfSymbol(spec, symbolNumber));
}

/** Centres in the order of the code. @example cutCentres(spec) → [0.237 in, 0.393 in, …] */
export function cutCentres(spec: Specification): Length[] {
  return inCodeOrder(spec, spec.centres);
}

/** Root depths in the order of the code. @example rootDepths(spec, bitting of '274153') → [0.279 in, 0.189 in, …] */
export function rootDepths(spec: Specification, bitting: Bitting): Length[] {
  return bitting.map((index) => depthAt(spec, index).root);
}

/**
 * The cuts in the order of their positions, nearest the gauge's stop first: the order in which they are cut.
 * @example cutsFromStop(tipSpec, bitting)[0] → the cut nearest the tip, whichever way the code reads
 */
export function cutsFromStop(spec: Specification, bitting: Bitting): Cut[] {
  const indices = fromStopOrder(spec, bitting);
  return indices.map((index, i) => {
    const { symbol, root } = depthAt(spec, index);
    const position = i + 1;
    // the relation between the two counts is its own inverse
    return {
      position,
      symbolNumber: positionOfSymbol(spec, position),
      symbol,
      centre: spec.centres[i]!,
      root,
    };
  });
}

/** Values listed from the gauge's stop, put in the order of the code. */
export function inCodeOrder<T>(spec: Specification, fromStop: readonly T[]): T[] {
  assert(fromStop.length === positions(spec), `${spec.name} has ${positions(spec)} positions`);
  return positionOfSymbol(spec, 1) === 1 ? [...fromStop] : [...fromStop].reverse();
}

/** Values listed in the order of the code, put in the order of positions from the gauge's stop. */
export const fromStopOrder: <T>(spec: Specification, inCode: readonly T[]) => T[] = inCodeOrder;

function depthAt(spec: Specification, index: number) {
  const depth = spec.depths[index];
  assert(depth !== undefined, `${spec.name} has no depth at index ${index}`);
  return depth;
}
