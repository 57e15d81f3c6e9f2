/** The index of keys against trying each key in turn, by the definition of what operates what. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { depthSetOf, EVERY, hasDepth, NONE } from '../../src/keying/depthSet.ts';
import { keyIndexOf } from '../../src/keying/keyIndex.ts';
import { plainSpec } from '../support/systems.ts';

const DEPTHS = 3;
const chamber = fc.oneof(
  fc.constant(EVERY),
  fc.subarray([0, 1, 2]).map(depthSetOf),
  fc.subarray([0, 1, 2], { minLength: 1 }).map(depthSetOf),
);
const four = <T>(one: fc.Arbitrary<T>) => fc.array(one, { minLength: 4, maxLength: 4 });

describe('an index of keys', () => {
  it.each(['bow-to-tip', 'tip-to-bow'] as const)(
    'counts and finds the keys that trying each of them does, read %s',
    (order) => {
      const spec = plainSpec({ positions: 4, depths: DEPTHS, increment: 0.025, macs: 1, order });
      // few depths, so that several keys have the same cuts
      const drawn = fc.array(four(fc.nat({ max: DEPTHS - 1 })), { minLength: 1, maxLength: 30 });
      fc.assert(
        fc.property(drawn, four(chamber), fc.constantFrom(0, 2, 3, 4, 4, 4), (list, chambers, onBlank) => {
          const keys = list.map((cuts, k) => ({ number: 100 + k, cuts }));
          const index = keyIndexOf(spec, onBlank, keys);
          // read from the bow the first cut stands at the shoulder, read from the tip the last one
          const carried = (i: number) => (order === 'bow-to-tip' ? i : 3 - i) < onBlank;
          const failing = (cuts: readonly number[]) =>
            [0, 1, 2, 3].filter(
              (i) => chambers[i] !== EVERY && !(carried(i) && hasDepth(chambers[i]!, cuts[i]!)),
            );
          const operating = keys.filter(({ cuts }) => failing(cuts).length === 0);
          const found: number[] = [];
          index.eachOperating(chambers, (k) => found.push(k));
          expect(found.sort()).toEqual(operating.map(({ number }) => number));

          const tally = { keys: -1, cuttable: -1 };
          index.count(chambers, tally);
          expect(tally.keys).toBe(operating.length);
          const within = operating.filter(({ cuts }) =>
            cuts.every((cut, i) => i === 0 || Math.abs(cut - cuts[i - 1]!) <= 1),
          );
          if (onBlank === 4) expect(tally.cuttable).toBe(new Set(within.map(({ cuts }) => cuts.join())).size);

          // near: any other depth of a chamber that shears at some
          const near = chambers.map((set) => (set === NONE ? NONE : depthSetOf([0, 1, 2])));
          const close: string[] = [];
          index.eachNear(chambers, near, (k, at) => close.push(`${k} ${at}`));
          const one = keys.flatMap(({ number, cuts }) => {
            const [at, ...more] = failing(cuts);
            const is = at !== undefined && more.length === 0 && carried(at) && chambers[at] !== NONE;
            return is ? [`${number} ${at}`] : [];
          });
          expect(close.sort()).toEqual(one.sort());
        }),
        { numRuns: 150 },
      );
    },
  );
});
