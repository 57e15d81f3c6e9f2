/**
 * Numbers of bittings within MACS against the On-Line Encyclopedia of Integer Sequences: strings over n symbols whose
 * neighbours differ by at most k. Source: https://oeis.org, the entries named below, read there.
 */
import { describe, expect, it } from 'vitest';
import { countWithinMacs, countWithinMacsOf } from '../../src/keying/index.ts';
import { depthSetOf, EVERY, type DepthSet } from '../../src/keying/depthSet.ts';
import { NO_LEADING_ZERO, WITHIN_MACS } from './values.ts';

/** The same by writing out every bitting: slow and plain. */
function bruteForce(chambers: readonly (readonly number[])[], macs: number): number {
  let strings: number[][] = [[]];
  for (const chamber of chambers)
    strings = strings.flatMap((before) =>
      chamber
        .filter((d) => before.length === 0 || Math.abs(d - before[before.length - 1]!) <= macs)
        .map((d) => [...before, d]),
    );
  return strings.length;
}

const allDepths = (depths: number) => Array.from({ length: depths }, (_, i) => i);

describe('bittings within MACS', () => {
  it.each(WITHIN_MACS)('$id: $depths depths, MACS $macs', ({ depths, macs, offset, terms }) => {
    expect(terms.map((_, i) => countWithinMacs(depths, offset + i, macs))).toEqual(terms);
  });

  it.each(WITHIN_MACS)(
    '$id by writing out every bitting of up to four cuts',
    ({ depths, macs, offset, terms }) => {
      terms.forEach((term, i) => {
        const positions = offset + i;
        if (positions > 4) return;
        expect(bruteForce(new Array(positions).fill(allDepths(depths)), macs)).toBe(term);
      });
    },
  );

  it('A383202: ten depths, MACS 7, no leading zero', () => {
    const { terms } = NO_LEADING_ZERO;
    const first = depthSetOf([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    const counted = terms.map((_, i) =>
      countWithinMacsOf([first, ...new Array<DepthSet>(i).fill(EVERY)], 10, 7),
    );
    expect(counted).toEqual(terms);
  });

  it('counts chambers that allow only some depths as writing them out does', () => {
    const chambers = [[0, 9], [4], [1, 3, 5, 8], [0, 2, 7]];
    for (let macs = 0; macs <= 9; macs++)
      expect(countWithinMacsOf(chambers.map(depthSetOf), 10, macs)).toBe(bruteForce(chambers, macs));
    // by hand: both first cuts reach the 4; from there 1, 3, 5, 8 go on to 2, 3, 3 and 1 of the last
    expect(bruteForce(chambers, 5)).toBe(18);
  });
});
