/** Random specs and bittings for property tests: both gauges and orders, even and uneven, digits and letters. */
import fc from 'fast-check';
import {
  bittingOf,
  GAUGES,
  lengthOf,
  makeSpecification,
  ORDERS,
  positions,
  type Bitting,
  type Specification,
} from '../../src/keying/index.ts';

const ALPHABETS = [
  ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9'],
  ['9', '8', '7', '6', '5', '4', '3', '2', '1', '0'],
  ['1', '2', '3', '4', '5', '6', '7'],
  ['G', 'B', 'A', 'K', 'C', 'D', 'R', 'Z'],
  ['1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12'],
] as const;

export function specArbitrary(): fc.Arbitrary<Specification> {
  return fc
    .record({
      unit: fc.constantFrom('in' as const, 'mm' as const),
      gauge: fc.constantFrom(...GAUGES),
      order: fc.constantFrom(...ORDERS),
      symbols: fc.constantFrom(...ALPHABETS),
      positions: fc.integer({ min: 4, max: 8 }),
      first: fc.integer({ min: 2_000_000, max: 7_000_000 }),
      gaps: fc.array(fc.integer({ min: 3_500_000, max: 4_500_000 }), { minLength: 7, maxLength: 7 }),
      drops: fc.array(fc.integer({ min: 200_000, max: 900_000 }), { minLength: 11, maxLength: 11 }),
      even: fc.boolean(),
      deepest: fc.integer({ min: 1_000_000, max: 4_000_000 }),
      rootWidth: fc.integer({ min: 500_000, max: 2_000_000 }),
      angle: fc.integer({ min: 60, max: 120 }),
      macs: fc.integer({ min: 1, max: 6 }),
    })
    .map(({ symbols, positions: count, first, gaps, drops, even, deepest, ...rest }) => {
      const step = (list: readonly number[], i: number) => list[even ? 0 : i]!;
      const centres = [lengthOf(first)];
      for (let i = 1; i < count; i++) centres.push(lengthOf(centres[i - 1]! + step(gaps, i - 1)));
      let root = deepest;
      const depths = [...symbols].reverse().map((symbol, i) => {
        if (i > 0) root += step(drops, i - 1);
        return { symbol, root: lengthOf(root) };
      });
      const made = makeSpecification({
        ...rest,
        rootWidth: lengthOf(rest.rootWidth),
        name: 'any',
        title: '',
        positions: count,
        centres,
        depths,
      });
      if (!made.ok) throw new Error(made.error.map((fault) => fault.code).join());
      return made.value;
    });
}

/** Any bitting of a spec, within its MACS or not. */
export function bittingArbitrary(spec: Specification): fc.Arbitrary<Bitting> {
  const count = positions(spec);
  return fc
    .array(fc.nat({ max: spec.depths.length - 1 }), { minLength: count, maxLength: count })
    .map((indices) => bittingOf(spec, indices));
}

/** A spec and some bittings of it. */
export function keysArbitrary(count = 1): fc.Arbitrary<{ spec: Specification; bittings: Bitting[] }> {
  return specArbitrary().chain((spec) =>
    fc
      .array(bittingArbitrary(spec), { minLength: count, maxLength: count })
      .map((bittings) => ({ spec, bittings })),
  );
}
