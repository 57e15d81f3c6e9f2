/** Near misses and drawing out turned, by their plain definitions. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import { isWithinMacs } from '../../src/keying/count.ts';
import { cutCentres } from '../../src/keying/cuts.ts';
import { depthSetOf, EVERY, type DepthSet } from '../../src/keying/depthSet.ts';
import { eatenFlat, neverRisesToTip } from '../../src/keying/geometry.ts';
import { nearMissOf, nearMissOfKey, sayUnit } from '../../src/keying/nearMiss.ts';
import { lengthOf } from '../../src/keying/units.ts';
import { keysArbitrary, specArbitrary } from '../support/keyingArbitraries.ts';

const limit = fc.integer({ min: 1, max: 2_000_000 }).map(lengthOf);

describe('a near miss', () => {
  it('fails at one chamber alone, there by less than the limit, in thousandths of an inch', () => {
    const cases = keysArbitrary(1).chain(({ spec, bittings }) =>
      fc.record({
        spec: fc.constant(spec),
        bitting: fc.constant(bittings[0]!),
        // mostly the key's own depth, now and then others
        sets: fc.tuple(
          ...bittings[0]!.map((cut) =>
            fc.oneof(
              { weight: 6, arbitrary: fc.constant([cut]) },
              { weight: 1, arbitrary: fc.subarray([...spec.depths.keys()], { minLength: 1, maxLength: 3 }) },
              { weight: 1, arbitrary: fc.constant(undefined) },
            ),
          ),
        ),
        within: limit,
      }),
    );
    fc.assert(
      fc.property(cases, ({ spec, bitting, sets, within }) => {
        const chambers = sets.map((set): DepthSet => (set ? depthSetOf(set) : EVERY));
        const failing = sets.flatMap((set, i) => (set && !set.includes(bitting[i]!) ? [i] : []));
        const off = (i: number): number =>
          Math.min(...sets[i]!.map((d) => Math.abs(spec.depths[d]!.root - spec.depths[bitting[i]!]!.root)));
        const expected =
          failing.length === 1 && off(failing[0]!) < within
            ? {
                chamber: failing[0]! + 1,
                thousandths: Number((off(failing[0]!) / 25_400).toFixed(1)),
                ...sayUnit(spec),
              }
            : undefined;
        const found = nearMissOf(spec, bitting, chambers, within);
        expect(found && { ...found, thousandths: 0 }).toEqual(expected && { ...expected, thousandths: 0 });
        if (found)
          expect(Math.abs(found.thousandths - off(failing[0]!) / 25_400)).toBeLessThanOrEqual(0.05 + 1e-9);
        const other = bittingOf(
          spec,
          sets.map((set, i) => set?.[0] ?? bitting[i]!),
        );
        const differ = other.flatMap((cut, i) => (cut === bitting[i] ? [] : [i]));
        const apart = differ.map((i) =>
          Math.abs(spec.depths[other[i]!]!.root - spec.depths[bitting[i]!]!.root),
        );
        expect(nearMissOfKey(spec, bitting, other, within)?.chamber).toBe(
          differ.length === 1 && apart[0]! < within ? differ[0]! + 1 : undefined,
        );
      }),
      { numRuns: 300 },
    );
  });

  it('says the unit where it isn’t the inch', () => {
    fc.assert(
      fc.property(specArbitrary(), (spec) => {
        expect(sayUnit(spec)).toEqual(spec.unit === 'in' ? {} : { unit: 'mm' });
      }),
    );
  });
});

describe('a bitting within MACS', () => {
  it('has no two neighbours farther apart', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(9), { maxLength: 8 }), fc.integer({ min: 1, max: 9 }), (cuts, macs) => {
        const steps = cuts.slice(1).map((cut, i) => Math.max(cut, cuts[i]!) - Math.min(cut, cuts[i]!));
        expect(isWithinMacs({ macs }, cuts)).toBe(Math.max(0, ...steps) <= macs);
      }),
    );
  });
});

describe('a key that could be drawn out turned', () => {
  it('gets no shallower from the bow to the tip and has no ridge left between its cuts', () => {
    const cases = specArbitrary().chain((made) =>
      fc.record({
        // wide flats, so that ridges go at some spaces and stay at others
        spec: fc
          .integer({ min: 2_600_000, max: 4_200_000 })
          .map((width) => ({ ...made, rootWidth: lengthOf(width) })),
        falls: fc.array(fc.nat(made.depths.length - 1), {
          minLength: made.centres.length,
          maxLength: made.centres.length,
        }),
        mixed: fc.integer({ min: 0, max: 3 }),
      }),
    );
    let never = 0;
    let rises = 0;
    fc.assert(
      fc.property(cases, ({ spec, falls, mixed }) => {
        const centres = cutCentres(spec);
        const fromBow = centres
          .map((centre, i) => ({ centre, i }))
          .sort((a, b) => (spec.gauge === 'shoulder' ? a.centre - b.centre : b.centre - a.centre));
        const deeper = mixed === 0 ? falls : [...falls].sort((a, b) => a - b);
        const cuts = new Array<number>(falls.length);
        fromBow.forEach(({ i }, n) => (cuts[i] = deeper[n]!));
        const expected = fromBow.slice(1).every(({ centre, i }, n) => {
          const before = fromBow[n]!;
          const drop = spec.depths[cuts[before.i]!]!.root - spec.depths[cuts[i]!]!.root;
          return (
            drop >= 0 && eatenFlat(spec, lengthOf(drop), lengthOf(Math.abs(centre - before.centre))) >= 0
          );
        });
        if (expected) never++;
        else rises++;
        expect(neverRisesToTip(spec, cuts)).toBe(expected);
      }),
      { numRuns: 400 },
    );
    expect(Math.min(never, rises)).toBeGreaterThan(0);
  });
});
