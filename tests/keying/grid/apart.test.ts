/** Proofs by how far keys have to be apart: their figures by hand, by Singleton's bound (1964). */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { depthSetOf } from '../../../src/keying/depthSet.ts';
import { tooFarApart } from '../../../src/keying/grid/apart.ts';
import type { Grid, SolveOptions } from '../../../src/keying/grid/chart.ts';
import { prepareGrid, wholeDomain } from '../../../src/keying/grid/prepare.ts';
import { noRules, plainGrid, smallSpec } from './charts.ts';

const spec = smallSpec(4, 3);
const numbers = (n: number): number[] => Array.from({ length: n }, (_, k) => k);
const own = (n: number): number[][] => numbers(n).map((k) => [k]);
function claim(grid: Grid, options: SolveOptions, domain = wholeDomain(grid)) {
  const asked = { rules: noRules, ...options };
  return tooFarApart(grid, asked, prepareGrid(grid, asked, domain));
}
const fixing = (grid: Grid, cuts: readonly number[], ...keys: number[]): Grid => ({
  ...grid,
  keys: grid.keys.map((key, k) => (keys.includes(k) ? { ...key, bitting: bittingOf(grid.spec, cuts) } : key)),
});

describe('a difference between any two keys', () => {
  it('is larger than the chambers in which they may differ', () => {
    const grid = plainGrid(spec, 3, own(3));
    const large = (asked: number, possible: number) => ({
      reason: { code: 'difference-too-large', asked, possible },
      keys: [0, 1],
      cylinders: [],
    });
    expect(claim(grid, { minimumDifference: 4 })).toBeUndefined();
    expect(claim(grid, { minimumDifference: 5 })).toEqual(large(5, 4));
    expect(claim(grid, { minimumDifference: 3, constant: [1, 3, 1] })).toEqual(large(3, 2));
    expect(claim(grid, { minimumDifference: 2, constant: [1, 3, 1] })).toBeUndefined();
    expect(claim(grid, { constant: [0, 1, 2, 3] })).toBeUndefined();
    // one new key differs from existing ones, which may have other cuts there
    const alone = fixing(grid, [0, 1, 2, 0], 0, 2);
    expect(claim(alone, { minimumDifference: 3, constant: [1, 3] })).toBeUndefined();
    expect(claim(fixing(grid, [0, 1, 2, 0], 0), { minimumDifference: 3, constant: [1, 3] })).toEqual({
      ...large(3, 2),
      keys: [1, 2],
    });
  });

  it('allows no more keys than the product of all but so many chambers', () => {
    const apart = (needed: number, possible: number, difference: number) => ({
      reason: { code: 'too-many-apart', needed, possible, difference },
      keys: numbers(possible + 1),
      cylinders: [],
    });
    const grid = (n: number) => plainGrid(spec, n, own(n));
    expect(claim(grid(27), { minimumDifference: 2 })).toBeUndefined();
    expect(claim(grid(29), { minimumDifference: 2 })).toEqual(apart(29, 27, 2));
    expect(claim(grid(9), { minimumDifference: 3 })).toBeUndefined();
    expect(claim(grid(10), { minimumDifference: 3 })).toEqual(apart(10, 9, 3));
    expect(claim(grid(29), {})).toBeUndefined();
    // the chambers of most depths are struck out: 1 · 2 of 1, 2, 3 and 3
    expect(claim(grid(3), { minimumDifference: 3 }, [7, 3, 7, 1])).toEqual(apart(3, 2, 3));
    expect(claim(grid(4), { minimumDifference: 3, constant: [2] })).toEqual(apart(4, 3, 3));
    expect(claim(grid(3), { minimumDifference: 3, constant: [2] })).toBeUndefined();
    expect(claim(grid(3), { minimumDifference: 3, constant: [3] }, [7, 3, 7, 1])).toEqual(apart(3, 2, 3));
    // existing keys take none of these
    expect(claim(fixing(grid(10), [0, 1, 2, 0], 4), { minimumDifference: 3 })).toBeUndefined();
  });

  it('counts each depth that one of the new keys may have', () => {
    const grid = plainGrid(spec, 3, own(3));
    const options = { rules: noRules, minimumDifference: 4 };
    const prepared = prepareGrid(grid, options, [1, 7, 7, 7]);
    const among = (first: number[]) => {
      const domain = Int32Array.from(prepared.instance.domain);
      first.forEach((bits, k) => (domain[4 * k] = bits));
      return tooFarApart(grid, options, { ...prepared, instance: { ...prepared.instance, domain } });
    };
    expect(among([1, 1, 2])?.reason).toMatchObject({ code: 'too-many-apart', possible: 2 });
    expect(among([1, 2, 4])).toBeUndefined();
  });
});

describe('the keys of one cylinder', () => {
  const door = (needed: number, possible: number, keys = numbers(possible + 1), cylinder = 'C1') => ({
    reason: { code: 'too-many-on-door', cylinder, needed, possible },
    keys,
    cylinders: [Number(cylinder.slice(1)) - 1],
  });
  const one = [true, false, false, false];
  /** The cylinders named have these chambers alone. */
  const pinned = (grid: Grid, ...sets: readonly (readonly boolean[] | undefined)[]): Grid => ({
    ...grid,
    cylinders: grid.cylinders.map((c, n) => ({ ...c, ...(sets[n] && { inUse: sets[n] }) })),
  });

  it('are more than its pinned chambers tell apart, if they have to differ there', () => {
    const grid = plainGrid(spec, 4, [numbers(4), ...own(4)]);
    expect(claim(pinned(grid, one, one, one, one, one), {})).toEqual(door(4, 3));
    // two whose own doors have other chambers may have the same cut there
    expect(claim(pinned(grid, one, one, one, one), {})).toEqual(door(4, 3));
    expect(claim(pinned(grid, one, one, one), {})).toBeUndefined();
    const three = plainGrid(spec, 3, [numbers(3), ...own(3)]);
    expect(claim(pinned(three, one, one, one, one), {})).toBeUndefined();
    const two = [true, false, true, false];
    const ten = plainGrid(spec, 10, [numbers(10), ...own(10)]);
    expect(claim(pinned(ten, two, ...own(10).map(() => two)), {})).toEqual(door(10, 9));
    // two depths in the second chamber, and one in the last
    const both = [true, true, false, false];
    expect(claim(pinned(ten, both, ...own(10).map(() => both)), {}, [7, 3, 7, 1])).toEqual(door(10, 6));
    // a second cylinder is looked at too, an existing one is not
    const second = plainGrid(spec, 4, [[0], numbers(4), ...own(4).slice(1)]);
    const all = [one, one, one, one, one];
    expect(claim(pinned(second, ...all), {})).toEqual(door(4, 3, numbers(4), 'C2'));
    const cylinders = pinned(second, ...all).cylinders.map((c, n) =>
      n === 1 ? { id: c.id, chambers: [depthSetOf([0, 1, 2]), -1, -1, -1] } : c,
    ) as Grid['cylinders'];
    expect(claim({ ...second, cylinders }, {})).toBeUndefined();
  });

  it('have no more depths in a chamber than asked for', () => {
    const grid = plainGrid(spec, 6, [numbers(6), ...own(6)]);
    expect(claim(grid, { mostDepths: 1 })).toEqual(door(6, 1));
    expect(claim(grid, { mostDepths: 2 })).toBeUndefined();
    const two = [true, true, false, false];
    const sets = own(7).map(() => two);
    expect(claim(pinned(grid, ...sets), { mostDepths: 2 })).toEqual(door(6, 4));
    expect(claim(pinned(grid, ...sets), { mostDepths: 3 })).toBeUndefined();
  });

  it('have no two depths in a chamber that are too near', () => {
    // the most numbers of a set with no two next to each other, by trying all subsets
    const most = (bits: number, depths: number): number => {
      let best = 0;
      for (let set = 0; set < 1 << depths; set++) {
        if ((set & ~bits) !== 0 || (set & (set << 1)) !== 0) continue;
        best = Math.max(best, numbers(depths).filter((d) => (set >>> d) & 1).length);
      }
      return best;
    };
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 31 }), { minLength: 4, maxLength: 4 }), (domain) => {
        const steps = smallSpec(4, 5, 2);
        const possible = domain.reduce((product, bits) => product * most(bits, 5), 1);
        const keys = possible + 1;
        const grid = plainGrid(steps, keys, [numbers(keys), ...own(keys)]);
        expect(claim(grid, {}, domain)).toEqual(door(keys, possible));
        const fewer = plainGrid(steps, possible, [numbers(possible), ...own(possible)]);
        expect(claim(fewer, {}, domain)).toBeUndefined();
      }),
    );
  });

  it('have to differ where their marks do, or each has to have its own', () => {
    const grid = plainGrid(spec, 3, [[0, 1, 2], [2]]);
    // keys 0 and 1 are alike, unless each has a bitting of its own
    expect(claim(grid, { mostDepths: 1 })).toEqual(door(2, 1));
    expect(claim(grid, { mostDepths: 1, sameMarks: 'different' })).toEqual(door(3, 1));
    const twins = plainGrid(spec, 2, [[0, 1]]);
    expect(claim(twins, { mostDepths: 1 })).toBeUndefined();
    expect(claim(twins, { mostDepths: 1, sameMarks: 'different' })).toEqual(door(2, 1));
    // which they may have in a chamber that this cylinder lacks; existing ones are as they are
    const most = [true, true, true, false];
    expect(claim(pinned(twins, most), { mostDepths: 1, sameMarks: 'different' })).toBeUndefined();
    const there = fixing(plainGrid(spec, 3, [[0, 1, 2]]), [0, 1, 2, 0], 0, 1);
    expect(claim(there, { mostDepths: 1, sameMarks: 'different' })).toEqual(door(2, 1));
  });

  it('of other blanks than its own may share bittings', () => {
    const grid = plainGrid(spec, 3, [[0, 1, 2], [1], [2]]);
    expect(claim(grid, { mostDepths: 1 })).toEqual(door(3, 1));
    const keyways = (...names: (string | undefined)[]): Grid => ({
      ...grid,
      keys: grid.keys.map((key, k) => ({ ...key, ...(names[k] && { keyway: names[k] }) })),
      cylinders: grid.cylinders.map((c, n) => ({ ...c, ...(n === 1 && { keyway: 'K1' }) })),
    });
    expect(claim(keyways('K1', 'K1', 'K1'), { mostDepths: 1 })).toEqual(door(3, 1));
    expect(claim(keyways('K1', 'K1', 'K2'), { mostDepths: 1 })).toEqual(door(2, 1));
    expect(claim(keyways('K2', 'K1', 'K2'), { mostDepths: 1 })).toBeUndefined();
    // the first key's blank doesn't enter C2, the others' do
    const first = { ...keyways('K2', 'K1', 'K1'), marks: [[0, 1, 2], [1], [2]] };
    expect(claim(first, { mostDepths: 1 })).toEqual(door(2, 1, [1, 2]));
  });

  it('are no more than the least difference lets its depths tell apart', () => {
    // two depths a chamber at most: of 2 · 2 · 2 · 2 no more than 2 · 2 differ in three chambers
    const grid = (n: number) => plainGrid(spec, n, [numbers(n), ...own(n)]);
    const options = { mostDepths: 2, minimumDifference: 3 };
    expect(claim(grid(4), options)).toBeUndefined();
    expect(claim(grid(5), options)).toEqual(door(5, 4));
    // so many differ at all that it's said first: keys alike by their marks on this door count once there
    expect(claim(grid(6), { mostDepths: 1, minimumDifference: 2 })).toEqual(door(6, 1));
    // which says nothing of a cylinder that lacks a chamber, nor of existing keys, which may be nearer
    const most = [true, true, true, false];
    expect(claim(pinned(grid(5), most), options)).toBeUndefined();
    expect(claim(fixing(grid(5), [0, 1, 0, 1], 2), options)).toBeUndefined();
    expect(claim(fixing(grid(6), [0, 1, 0, 1], 2), options)).toEqual(door(5, 4, [0, 1, 3, 4, 5]));
  });
});
