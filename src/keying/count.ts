/**
 * How many bittings keep within MACS. Counted by running sums over the chambers (the transfer matrix of neighbours):
 * the number of ways that end in a depth is the sum of the ways that end within MACS of it one chamber before.
 * Counting 10^6 bittings one by one is feasible, but this is exact for any size and instant.
 */
import { lowestDepth, type DepthSet } from './depthSet.ts';
import { assert } from './result.ts';
import type { Specification } from './specification.ts';

/**
 * Number of bittings of `positions` cuts out of `depths` depths whose neighbours differ by at most `macs` steps.
 * No position at all has one (empty) bitting.
 * @example countWithinMacs(10, 6, 5) → 367826 (OEIS A126531)
 */
export function countWithinMacs(depths: number, positions: number, macs: number): number {
  if (positions === 0) return 1;
  let ways = new Array<number>(depths).fill(1);
  for (let i = 1; i < positions; i++)
    ways = ways.map((_, to) => sum(ways.slice(Math.max(0, to - macs), to + macs + 1)));
  return exact(sum(ways), positions);
}

const sum = (list: readonly number[]): number => list.reduce((total, n) => total + n, 0);

function exact(total: number, positions: number): number {
  assert(Number.isSafeInteger(total), `too many bittings to count exactly: ${positions} positions`);
  return total;
}

/**
 * The same where each chamber allows only some depths: the bittings that operate a cylinder and that a blank can
 * carry. Chambers in the order of the code.
 * @example countWithinMacsOf([depthSetOf([0, 9]), depthSetOf([4])], 10, 5) → 2: 0-4 and 9-4
 */
export function countWithinMacsOf(chambers: readonly DepthSet[], depths: number, macs: number): number {
  const all = (1 << depths) - 1;
  let total = 1;
  let before = 0;
  for (let i = 0; i < chambers.length; i++) {
    // Two rows of sums, turn and turn about.
    const [from, to] = i % 2 === 0 ? [EVEN, ODD] : [ODD, EVEN];
    const set = chambers[i]! & all;
    total = 0;
    for (let bits = set; bits !== 0; bits &= bits - 1) {
      const depth = lowestDepth(bits);
      const ways = i === 0 ? 1 : sumAround(from, before, depth, macs);
      to[depth] = ways;
      total += ways;
    }
    before = set;
  }
  return exact(total, chambers.length);
}

/** Ways that end in a depth, for the chamber before and the one at hand: an audit counts every cylinder. */
const EVEN = new Float64Array(32);
const ODD = new Float64Array(32);

/** Of the ways that end in the depths of a set, those within MACS of a depth. */
function sumAround(ways: Float64Array, set: number, to: number, macs: number): number {
  let sum = 0;
  for (let bits = set; bits !== 0; bits &= bits - 1) {
    const from = lowestDepth(bits);
    if (Math.abs(from - to) <= macs) sum += ways[from]!;
  }
  return sum;
}

/** Whether no two neighbours of a bitting are farther apart than MACS. */
export function isWithinMacs({ macs }: Pick<Specification, 'macs'>, cuts: readonly number[]): boolean {
  for (let i = 1; i < cuts.length; i++) if (Math.abs(cuts[i]! - cuts[i - 1]!) > macs) return false;
  return true;
}
