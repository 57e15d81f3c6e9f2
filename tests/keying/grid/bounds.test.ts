/** Proofs by counting: their figures by hand, and what they name against the definition of each proof. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { depthSetOf } from '../../../src/keying/depthSet.ts';
import { tooMany } from '../../../src/keying/grid/bounds.ts';
import type { Grid, SolveOptions } from '../../../src/keying/grid/chart.ts';
import { prepareGrid, wholeDomain } from '../../../src/keying/grid/prepare.ts';
import { noRules, plainGrid, randomOf, smallSpec } from './charts.ts';
import { allCuts } from './plain.ts';

const two = smallSpec(4, 2);
const three = smallSpec(4, 3);
const numbers = (n: number, from = 0): number[] => Array.from({ length: n }, (_, k) => from + k);
/** Keys with a door each. */
const own = (n: number, spec = two): Grid =>
  plainGrid(
    spec,
    n,
    numbers(n).map((k) => [k]),
  );
/** A master and keys under it, with a door each. */
const under = (n: number, spec = two): Grid =>
  plainGrid(
    spec,
    n + 1,
    numbers(n).map((k) => [0, k + 1]),
  );
const count = (grid: Grid, options: SolveOptions = {}, domain = wholeDomain(grid)) =>
  tooMany(prepareGrid(grid, { rules: noRules, ...options }, domain).instance);

describe('more keys than bittings', () => {
  it('is said with the number of bittings there are, and with one key more than that', () => {
    expect(count(own(16))).toBeUndefined();
    expect(count(own(19))).toEqual({
      code: 'too-many-keys',
      needed: 19,
      possible: 16,
      keys: numbers(17),
      cylinders: [],
    });
  });

  it('counts bittings that the rules let pass, at the depths open to new keys', () => {
    const avoid = [0, 3, 5].map((n) => bittingOf(two, allCuts(two)[n]!));
    expect(count(own(13), { avoid })).toBeUndefined();
    expect(count(own(14), { avoid })).toMatchObject({ needed: 14, possible: 13, keys: numbers(14) });
    expect(count(own(8), {}, [3, 1, 3, 3])).toBeUndefined();
    expect(count(own(9), {}, [3, 1, 3, 3])).toMatchObject({ needed: 9, possible: 8 });
    // one key may have one depth there, the others the other
    const { instance } = prepareGrid(own(9), { rules: noRules }, [3, 1, 3, 3]);
    const domain = Int32Array.from(instance.domain);
    domain[4 + 1] = 2;
    expect(tooMany({ ...instance, domain })).toBeUndefined();
  });

  it('counts keys that have a mark and no bitting yet', () => {
    const more = (key: object, marks: number[]): Grid => {
      const grid = own(16);
      return {
        ...grid,
        keys: [...grid.keys, { symbol: 'More', ...key }],
        cylinders: [...grid.cylinders, { id: 'More' }],
        marks: [...grid.marks, marks],
      };
    };
    expect(count(more({}, [16]))).toMatchObject({ needed: 17 });
    expect(count(more({}, []))).toBeUndefined();
    const there = more({ bitting: bittingOf(two, [0, 1, 0, 0]) }, [16]);
    expect(count(there)).toBeUndefined();
    // nor may another have an existing one's depth that isn't open to new keys
    expect(count(there, {}, [3, 1, 3, 3])).toMatchObject({ needed: 16, possible: 8 });
  });

  it('is not said where they are millions', () => {
    // nobody may have any of 5^8, which are counted; of 7^8 nobody counts them
    const none = { ...noRules, fewDepths: true, leastDepths: 9, leastDepthsFrom: 1 };
    expect(count(own(1, smallSpec(8, 5)), { rules: none })).toMatchObject({
      needed: 1,
      possible: 0,
      keys: [0],
    });
    expect(count(own(1, smallSpec(8, 7)), { rules: none })).toBeUndefined();
  });
});

/** The largest product sum of c of the numbers, over all c: by writing out every set of chambers. */
function largestRank(choices: readonly number[]): number {
  const ranks = new Map<number, number>();
  for (let set = 0; set < 1 << choices.length; set++) {
    const chosen = choices.filter((_, i) => (set >>> i) & 1);
    const product = chosen.reduce((a, b) => a * b, 1);
    ranks.set(chosen.length, (ranks.get(chosen.length) ?? 0) + product);
  }
  return Math.max(...ranks.values());
}

describe('more keys under a master than bittings under it tell apart', () => {
  it('is said with the largest rank, one key more and a door for each', () => {
    expect(largestRank([1, 1, 1, 1])).toBe(6);
    expect(count(under(6))).toBeUndefined();
    expect(count(under(9))).toEqual({
      code: 'too-many-under-master',
      master: 0,
      needed: 7,
      possible: 6,
      keys: numbers(7, 1),
      cylinders: numbers(7),
    });
    expect(largestRank([2, 2, 2, 2])).toBe(32);
    expect(count(under(32, three))).toBeUndefined();
    expect(count(under(33, three))).toMatchObject({ needed: 33, possible: 32 });
  });

  it('counts the depths that may share a chamber with the master’s, at the depths open to each', () => {
    // in two steps two others go with the rim, one with an inner depth
    const steps = smallSpec(4, 4, 2);
    expect(count(under(33, steps))).toMatchObject({ possible: largestRank([2, 2, 2, 2]) });
    const grid = under(33, steps);
    const at = (cuts: number[]) => ({
      ...grid,
      keys: grid.keys.map((key, k) => (k === 0 ? { ...key, bitting: bittingOf(steps, cuts) } : key)),
    });
    expect(count(at([1, 1, 1, 1]))).toMatchObject({ possible: largestRank([1, 1, 1, 1]) });
    expect(count(at([1, 0, 2, 1]))).toMatchObject({ possible: largestRank([1, 2, 1, 1]) });
    // nothing goes with 1 or with 2 but 0 with 2, unless a door lacks the chamber
    const odd = smallSpec(4, 3, 2);
    const pair: Grid = {
      ...plainGrid(odd, 3, [
        [0, 1],
        [0, 2],
      ]),
      keys: [{ symbol: 'M', bitting: bittingOf(odd, [1, 1, 1, 2]) }, { symbol: 'A' }, { symbol: 'B' }],
    };
    expect(count(pair)).toMatchObject({ needed: 2, possible: 1 });
    const [first, last] = [
      [false, true, true, true],
      [true, true, true, false],
    ];
    const lacking = (...inUse: boolean[][]): Grid => ({
      ...pair,
      cylinders: pair.cylinders.map((c, n) => ({ ...c, inUse: inUse[n]! })),
    });
    // A's 0112 and B's 1110 open their own door each
    expect(count(lacking(first, last))).toBeUndefined();
    // 3 · 1 · 2 · 3 bittings in all
    expect(count(under(17, three), {}, [7, 1, 3, 7])).toMatchObject({
      code: 'too-many-under-master',
      possible: largestRank([2, 0, 1, 2]),
    });
  });

  it('counts keys with a door of the master’s that none of the others opens, of new doors alone', () => {
    const shared = (marks: number[][]): Grid => plainGrid(two, 12, [...under(6).marks, ...marks]);
    expect(count(shared([]))).toBeUndefined();
    expect(count(shared([[0, 7]]))).toMatchObject({ needed: 7, keys: [1, 2, 3, 4, 5, 6, 7] });
    expect(count(shared([[0, 1, 7]]))).toBeUndefined();
    // a further key opens the seventh one's door
    expect(count(shared([[0, 7, 8]]))).toMatchObject({ needed: 7, cylinders: [0, 1, 2, 3, 4, 5, 6] });
    expect(count(shared([[7]]))).toBeUndefined();
    // a door for the master alone is no key's under it
    expect(count(shared([[0]]))).toBeUndefined();
    // nor is one whose other keys are shared by two doors that are counted
    const used = [3, 4, 5, 6].map((k) => [0, k]);
    expect(count(plainGrid(two, 10, [...used, [0, 1, 7], [0, 2, 8], [0, 7, 8]]))).toBeUndefined();
    // doors of fewer keys tell more, wherever they stand
    const pairs = numbers(6, 1).map((k) => [0, k, k + 1]);
    expect(count(plainGrid(two, 8, [...pairs, ...under(7).marks]))).toMatchObject({
      needed: 7,
      cylinders: numbers(7, 6),
    });
    const there = shared([[0, 7]]);
    const chambers = two.centres.map(() => depthSetOf([0, 1]));
    const cylinders = there.cylinders.map((c, n) => (n === 6 ? { ...c, chambers } : c));
    expect(count({ ...there, cylinders })).toBeUndefined();
  });

  it('names keys and doors that prove it by the definition', () => {
    let seen = 0;
    fc.assert(
      fc.property(fc.nat(1e6), (seed) => {
        const random = randomOf(seed);
        const masters = 1 + random(4);
        const wide = numbers(masters);
        const keys = masters + 8 + random(4);
        const marks = numbers(14 + random(6)).map(() => [
          ...wide.filter((k) => random(masters) === k || random(3) > 0),
          ...numbers(1 + random(2), 0).map(() => masters + random(keys - masters)),
        ]);
        const grid = plainGrid(
          two,
          keys,
          marks.map((list) => [...new Set(list)].sort((a, b) => a - b)),
        );
        const found = count(grid);
        if (!found) return;
        seen++;
        const { instance } = prepareGrid(grid, { rules: noRules }, wholeDomain(grid));
        expect(found).toMatchObject({ code: 'too-many-under-master', needed: 7, possible: 6 });
        expect(new Set(found.keys).size).toBe(7);
        found.keys.forEach((k, n) => {
          const here = instance.keysOf[found.cylinders[n]!]!;
          expect(here).toContain(found.master);
          expect(found.keys.filter((other) => here.includes(other))).toEqual([k]);
        });
      }),
    );
    expect(seen).toBeGreaterThan(0);
  });

  it('looks at the four widest keys', () => {
    // a door for each set of four keys, so that each opens eight and has three others under it at most; then a master
    const sets = numbers(15, 1).map((set) => numbers(4).filter((k) => (set >>> k) & 1));
    const beside = (n: number) => plainGrid(two, 5 + n, [...sets, ...numbers(n, 5).map((k) => [4, k])]);
    expect(count(beside(7))).toBeUndefined();
    expect(count(beside(9))).toMatchObject({ code: 'too-many-under-master', master: 4 });
  });
});

describe('keys of several blanks', () => {
  it('are counted blank by blank, and named by their numbers in the grid', () => {
    const keyway = (k: number) => ({ keyway: k < 5 ? 'K1' : 'K2' });
    const split = (grid: Grid): Grid => ({
      ...grid,
      keys: grid.keys.map((key, k) => ({ ...key, ...keyway(k) })),
      cylinders: grid.cylinders.map((cylinder, c) => ({ ...cylinder, ...keyway(grid.marks[c]!.at(-1)!) })),
    });
    expect(count(split(own(21)))).toBeUndefined();
    expect(count(split(own(22)))).toStrictEqual({
      code: 'too-many-keys',
      needed: 17,
      possible: 16,
      keys: numbers(17, 5),
      cylinders: [],
    });
    const masters = plainGrid(two, 14, [
      ...numbers(4, 1).map((k) => [0, k]),
      ...numbers(8, 6).map((k) => [5, k]),
    ]);
    expect(count(split(masters))).toEqual({
      code: 'too-many-under-master',
      master: 5,
      needed: 7,
      possible: 6,
      keys: numbers(7, 6),
      cylinders: numbers(7, 4),
    });
  });

  it('are of two blanks where one is short', () => {
    const short = (n: number): Grid => {
      const grid = own(n);
      const inUse = [true, true, true, false];
      return {
        ...grid,
        keys: grid.keys.map((key, k) => ({ ...key, ...(k === 0 && { cuts: 3 }) })),
        cylinders: grid.cylinders.map((cylinder) => ({ ...cylinder, inUse })),
      };
    };
    expect(count(short(17))).toBeUndefined();
    expect(count(short(18))).toMatchObject({ needed: 17, possible: 16, keys: numbers(17, 1) });
  });
});
