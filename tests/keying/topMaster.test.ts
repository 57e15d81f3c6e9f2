/** Proposed top masters by their definition: usable, each once, the roomiest first. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { topMasterProposals } from '../../src/keying/topMaster.ts';
import { plainSpec } from '../support/systems.ts';

// seven depths in two steps: an even cut leaves three others of its parity, an odd one two
const SPEC = plainSpec({ positions: 5, depths: 7, increment: 0.015, macs: 6, step: 2 });
const roomUnder = (cuts: readonly number[]): number =>
  cuts.reduce(
    (product, cut) => product * [0, 1, 2, 3, 4, 5, 6].filter((d) => d !== cut && (d - cut) % 2 === 0).length,
    1,
  );

describe('proposed top masters', () => {
  it('are usable, each once, thirty-two at most, those with the most changes under them first', () => {
    fc.assert(
      fc.property(fc.integer(), fc.nat(6), (seed, barred) => {
        const usable = (cuts: readonly number[]): boolean => cuts[0] !== barred;
        const found = topMasterProposals(SPEC, usable, seed);
        expect(found).toHaveLength(32);
        expect(new Set(found.map(String)).size).toBe(32);
        expect(found.every(usable)).toBe(true);
        expect(found).toEqual(topMasterProposals(SPEC, usable, seed));
      }),
      { numRuns: 20 },
    );
    const rooms = topMasterProposals(SPEC, () => true, 3).map(roomUnder);
    expect(rooms).toEqual([...rooms].sort((a, b) => b - a));
    expect(new Set(rooms).size).toBeGreaterThan(2);
  });

  it('count only the changes that are usable', () => {
    // every change under a top master that ends in 0 is usable; of all others hardly any
    const usable = (cuts: readonly number[]): boolean => cuts[4]! % 2 === 0 || cuts[3] === 6;
    const found = topMasterProposals(SPEC, usable, 1);
    const open = found.map((cuts) => cuts[4]! % 2 === 0);
    expect(open).toContain(true);
    expect(open).toContain(false);
    const share = (cuts: readonly number[]): number =>
      cuts[4]! % 2 === 0 ? roomUnder(cuts) : cuts[3]! % 2 === 0 && cuts[3] !== 6 ? roomUnder(cuts) / 3 : 0;
    // sampled shares lie near the true ones
    const shares = found.map(share);
    shares
      .slice(1)
      .forEach((here, i) => expect(here).toBeLessThanOrEqual(shares[i]! + 0.35 * Math.max(here, shares[i]!)));
  });

  it('are all that there are where those are few, and none where there are none', () => {
    const small = plainSpec({ positions: 4, depths: 4, increment: 0.015, macs: 3, step: 1 });
    const wanted = ['0,1,2,3', '3,1,1,0', '2,2,2,2'];
    const found = topMasterProposals(small, (cuts) => wanted.includes(cuts.join()), 1);
    expect(found.map(String).sort()).toEqual([...wanted].sort());
    expect(topMasterProposals(small, () => false, 1)).toEqual([]);
  });

  it('have no room where a chamber has no other depth', () => {
    // three depths in two steps: the middle one has none
    const bare = plainSpec({ positions: 5, depths: 3, increment: 0.015, macs: 2, step: 2 });
    const blocked = topMasterProposals(bare, () => true, 1).map((cuts) => cuts.includes(1));
    expect(new Set(blocked).size).toBe(2);
    expect(blocked).toEqual([...blocked].sort());
  });
});
