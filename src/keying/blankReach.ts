/**
 * Which chambers a short blank has cuts for. A blank with n cuts has the positions 1 to n from its stop, so where
 * the code runs towards the stop it lacks the code's first symbols, and where it runs away from it the last ones
 * (follows from the definitions of stop and order of reading in `specification.ts`).
 */
import { positionOfSymbol, positions, type Specification } from './specification.ts';

declare const reach: unique symbol;
/** A bit for each chamber, in the order of the code, that the blank has a cut for. */
export type Reach = number & { readonly [reach]: true };

/** A blank with room for every cut. */
export const FULL_REACH = -1 as Reach;

/**
 * The chambers that a blank with so many cuts reaches; without a number, all.
 * @example read from the stop, 3 of 5 cuts → chambers 1 to 3; read towards it → chambers 3 to 5
 */
export function reachOf(spec: Specification, cuts: number | undefined): Reach {
  if (cuts === undefined) return FULL_REACH;
  let bits = 0;
  for (let i = 0; i < positions(spec); i++) if (positionOfSymbol(spec, i + 1) <= cuts) bits |= 1 << i;
  return bits as Reach;
}

/** Whether the blank has a cut for a chamber, counted from 0 in the order of the code. */
export const carries = (bits: Reach, chamber: number): boolean => ((bits >>> chamber) & 1) === 1;
