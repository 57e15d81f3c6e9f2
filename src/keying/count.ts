/**
 * How many bittings keep within MACS. Counted by running sums over the chambers (the transfer matrix of neighbours):
 * the number of ways that end in a depth is the sum of the ways that end within MACS of it one chamber before.
 * Counting 10^6 bittings one by one is feasible, but this is exact for any size and instant.
 */
import { EVERY, hasDepth, type DepthSet } from './depthSet.ts';
import { assert } from './result.ts';

/**
 * Number of bittings of `positions` cuts out of `depths` depths whose neighbours differ by at most `macs` steps.
 * No position at all has one (empty) bitting.
 * @example countWithinMacs(10, 6, 5) → 367826 (OEIS A126531)
 */
export function countWithinMacs(depths: number, positions: number, macs: number): number {
  return countWithinMacsOf(new Array<DepthSet>(positions).fill(EVERY), depths, macs);
}

/**
 * The same where each chamber allows only some depths: the bittings that operate a cylinder and that a blank can
 * carry. Chambers in the order of the code.
 * @example countWithinMacsOf([depthSetOf([0, 9]), depthSetOf([4])], 10, 5) → 2: 0-4 and 9-4
 */
export function countWithinMacsOf(chambers: readonly DepthSet[], depths: number, macs: number): number {
  let ways: number[] | undefined;
  for (const chamber of chambers) {
    const reach: number[] = [];
    for (let to = 0; to < depths; to++)
      reach.push(hasDepth(chamber, to) ? (ways ? sumAround(ways, to, macs) : 1) : 0);
    ways = reach;
  }
  const total = ways ? ways.reduce((sum, n) => sum + n, 0) : 1;
  assert(Number.isSafeInteger(total), `too many bittings to count exactly: ${chambers.length} positions`);
  return total;
}

function sumAround(ways: readonly number[], to: number, macs: number): number {
  let sum = 0;
  for (let from = Math.max(0, to - macs); from <= Math.min(ways.length - 1, to + macs); from++)
    sum += ways[from]!;
  return sum;
}
