import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  depthCount,
  depthSetOf,
  depthsIn,
  EVERY,
  hasDepth,
  intersection,
  NONE,
  union,
  withDepth,
} from '../../src/keying/depthSet.ts';

const indices = fc.uniqueArray(fc.nat({ max: 25 }));
const sorted = (values: Iterable<number>) => [...values].sort((a, b) => a - b);

it('behaves as a set of depth indices', () => {
  fc.assert(
    fc.property(indices, indices, fc.nat({ max: 25 }), (a, b, index) => {
      const [setA, setB] = [depthSetOf(a), depthSetOf(b)];
      expect(depthsIn(setA, 26)).toEqual(sorted(a));
      expect(depthCount(setA, 26)).toBe(a.length);
      expect(hasDepth(setA, index)).toBe(a.includes(index));
      expect(depthsIn(withDepth(setA, index), 26)).toEqual(sorted(new Set([...a, index])));
      expect(depthsIn(union(setA, setB), 26)).toEqual(sorted(new Set([...a, ...b])));
      expect(depthsIn(intersection(setA, setB), 26)).toEqual(sorted(a.filter((i) => b.includes(i))));
    }),
  );
});

it('has a set of none and one of every depth', () => {
  expect([depthCount(NONE, 10), depthsIn(NONE, 10)]).toEqual([0, []]);
  expect([depthCount(EVERY, 10), depthsIn(EVERY, 4)]).toEqual([10, [0, 1, 2, 3]]);
  expect(hasDepth(EVERY, 25)).toBe(true);
});
