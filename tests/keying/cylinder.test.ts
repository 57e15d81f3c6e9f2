import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { depthSetOf, EVERY, hasDepth, NONE, type DepthSet } from '../../src/keying/depthSet.ts';
import {
  incidentalBittings,
  operates,
  operatingCount,
  operatingCountCuttable,
  pinnedFor,
  reachOf,
  whyNotOperates,
} from '../../src/keying/index.ts';
import { cutsOf, plainSpec } from '../support/systems.ts';

const spec = plainSpec({ positions: 4, depths: 5, increment: 0.015, macs: 2 });

const chambersArbitrary: fc.Arbitrary<DepthSet[]> = fc.array(
  fc.oneof(fc.constant(EVERY), fc.uniqueArray(fc.nat({ max: 4 }), { maxLength: 4 }).map(depthSetOf)),
  { minLength: 4, maxLength: 4 },
);

/** All 625 bittings. */
const ALL = Array.from({ length: 625 }, (_, n) => cutsOf(spec, n.toString(5).padStart(4, '0')));

describe('what operates what', () => {
  it('follows from the chambers alone, counted over all bittings', () => {
    fc.assert(
      fc.property(chambersArbitrary, (chambers) => {
        const fits = ALL.filter((cuts) => chambers.every((set, i) => hasDepth(set, cuts[i]!)));
        expect(ALL.filter((cuts) => operates(chambers, cuts))).toEqual(fits);
        expect(ALL.filter((cuts) => whyNotOperates(spec, chambers, cuts).length === 0)).toEqual(fits);
        expect(operatingCount(spec, chambers)).toBe(fits.length);
        const cuttable = fits.filter((cuts) =>
          cuts.every((cut, i) => i === 0 || Math.abs(cut - cuts[i - 1]!) <= 2),
        );
        expect(operatingCountCuttable(spec, chambers)).toBe(cuttable.length);
        const issued = ALL.filter((_, n) => n % 3 === 0);
        const known = new Set(issued.map((cuts) => cuts.join()));
        expect([...incidentalBittings(spec, chambers, issued)]).toEqual(
          cuttable.filter((cuts) => !known.has(cuts.join())),
        );
        expect([...incidentalBittings(spec, chambers, [], { uncuttable: true })]).toEqual(fits);
      }),
    );
  });

  it('pins for exactly its keys and the mixtures of them', () => {
    const chambers = pinnedFor(spec, [cutsOf(spec, '0123'), cutsOf(spec, '0321')]);
    expect(chambers).toEqual([[0], [1, 3], [2], [1, 3]].map((depths) => depthSetOf(depths)));
    expect([...incidentalBittings(spec, chambers, [cutsOf(spec, '0123'), cutsOf(spec, '0321')])]).toEqual([
      cutsOf(spec, '0121'),
    ]);
    expect(operatingCount(spec, chambers)).toBe(4);
  });

  it('leaves chambers out of use open, and pins nothing without keys', () => {
    const four = pinnedFor(spec, [cutsOf(spec, '0123')], [true, true, true, false]);
    expect(four[3]).toBe(EVERY);
    expect(operates(four, cutsOf(spec, '0124'))).toBe(true);
    expect(pinnedFor(spec, [])).toEqual([EVERY, EVERY, EVERY, EVERY]);
  });

  it('is not operated by a blank with fewer cuts than pinned chambers', () => {
    const all = pinnedFor(spec, [cutsOf(spec, '0123')]);
    const three = pinnedFor(spec, [cutsOf(spec, '0123')], [true, true, true, false]);
    expect(operates(all, cutsOf(spec, '0123'), reachOf(spec, 3))).toBe(false);
    expect(operates(three, cutsOf(spec, '0123'), reachOf(spec, 3))).toBe(true);
    expect(whyNotOperates(spec, all, cutsOf(spec, '0123'), 3)).toEqual([{ chamber: 4, shears: [3] }]);
  });

  it('lacks the first cuts of a short blank where the code runs towards the stop', () => {
    // measured from the shoulder, read from the tip: position 1 is the last symbol, so 3 cuts are symbols 2 to 4
    const towards = plainSpec({ positions: 4, depths: 5, increment: 0.015, macs: 2, order: 'tip-to-bow' });
    const key = cutsOf(towards, '0123');
    const without = (chamber: number) =>
      pinnedFor(
        towards,
        [key],
        [0, 1, 2, 3].map((i) => i !== chamber),
      );
    expect(operates(without(0), key, reachOf(towards, 3))).toBe(true);
    expect(operates(without(3), key, reachOf(towards, 3))).toBe(false);
    expect(whyNotOperates(towards, without(3), key, 3)).toEqual([{ chamber: 1, shears: [0] }]);
  });

  it('names every failing chamber with what would shear', () => {
    const chambers = [depthSetOf([0, 2]), EVERY, NONE, depthSetOf([1])];
    expect(whyNotOperates(spec, chambers, cutsOf(spec, '1221'))).toEqual([
      { chamber: 1, cut: 1, shears: [0, 2] },
      { chamber: 3, cut: 2, shears: [] },
    ]);
  });
});
