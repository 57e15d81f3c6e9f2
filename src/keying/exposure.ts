/**
 * How exposed a master key is to the holder of one change key and its lock: at most P·(H − 1) trials with P
 * positions and H depths, since each position can be tried on its own (Blaze, Rights amplification in master-keyed
 * mechanical locks, IEEE Security & Privacy 1(2), 2003). Shown as a caution; the program gives no recipe.
 */
import { positions, type Specification } from './specification.ts';

/**
 * Most trials that reveal the top master of a master-keyed cylinder.
 * @example six positions of ten depths → 54
 */
export function masterExposure(spec: Specification): number {
  return positions(spec) * (spec.depths.length - 1);
}
