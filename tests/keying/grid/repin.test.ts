/**
 * Which cylinders to re-pin, with a solver that is told which sets of freed cylinders will do: any that holds one of
 * `enough`. The smallest of those is the answer, by trying all sets here.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { depthSetOf, EVERY } from '../../../src/keying/depthSet.ts';
import type { Grid } from '../../../src/keying/grid/chart.ts';
import { repinFor } from '../../../src/keying/grid/repin.ts';
import type { SolveResult } from '../../../src/keying/grid/result.ts';
import { runToEnd, type Steps } from '../../../src/keying/system.ts';
import { plainGrid, smallSpec } from './charts.ts';

const spec = smallSpec(4, 3);
const OPEN = [EVERY, EVERY, EVERY, depthSetOf([1])];
const answer = (kind: SolveResult['kind']) => ({ kind }) as SolveResult;

/** Cylinders C1 … that stand, each marked for the new key K1 but for those in `apart`; the last one is new. */
function standing(count: number, apart: readonly number[] = []): Grid {
  const grid = plainGrid(
    spec,
    2,
    Array.from({ length: count + 1 }, (_, c) => (apart.includes(c) ? [] : [0])),
  );
  return {
    ...grid,
    keys: [{ symbol: 'K1' }, { symbol: 'K2', bitting: bittingOf(spec, [0, 0, 0, 0]) }],
    cylinders: grid.cylinders.map(({ id }, c) => (c < count ? { id, keyway: 'K', chambers: OPEN } : { id })),
  };
}

interface Asked {
  readonly enough: readonly (readonly number[])[];
  /** What the solver says of a set that will not do. */
  readonly otherwise?: 'impossible' | 'not-found';
  readonly budget?: number;
  readonly first?: SolveResult['kind'];
}

function repin(grid: Grid, { enough, otherwise = 'impossible', budget = 1000, first = 'impossible' }: Asked) {
  const asked: { freed: number[]; budget: number; grid: Grid }[] = [];
  const solve = function* (freed: Grid, most: number): Steps<SolveResult> {
    const open = freed.cylinders.flatMap(({ chambers }, c) =>
      grid.cylinders[c]!.chambers && !chambers ? [c] : [],
    );
    asked.push({ freed: open, budget: most, grid: freed });
    return answer(enough.some((set) => set.every((c) => open.includes(c))) ? 'solved' : otherwise);
  };
  return { found: runToEnd(repinFor(grid, answer(first), solve, budget)), asked };
}

const names = (...numbers: number[]) => numbers.map((c) => `C${c + 1}`);

describe('cylinders to re-pin', () => {
  it('are the fewest that will do, proved so where every smaller set was tried', () => {
    expect(repin(standing(4), { enough: [[2]] }).found).toEqual({
      cylinders: names(2),
      kind: 'proved-smallest',
      atLeast: 1,
    });
    fc.assert(
      fc.property(
        fc.array(fc.subarray([0, 1, 2, 3, 4], { minLength: 1 }), { minLength: 1, maxLength: 3 }),
        (enough) => {
          const least = Math.min(...enough.map((set) => set.length));
          const { found } = repin(standing(5), { enough });
          expect(found).toMatchObject({ kind: 'proved-smallest', atLeast: least });
          expect(found!.cylinders).toHaveLength(least);
          const freed = found!.cylinders.map((id) => Number(id.slice(1)) - 1);
          expect(enough.some((set) => set.every((c) => freed.includes(c)))).toBe(true);
        },
      ),
    );
  });

  it('are none where freeing all of them does not do', () => {
    expect(repin(standing(3), { enough: [] }).found).toBeUndefined();
    // one that no new key is marked for is freed too before that is said
    const { found, asked } = repin(standing(3, [1]), { enough: [] });
    expect(found).toBeUndefined();
    expect(asked.map(({ freed }) => freed)).toEqual([
      [0, 2],
      [0, 1, 2],
    ]);
    expect(repin(standing(3, [1]), { enough: [[1]] }).found).toMatchObject({ cylinders: names(1) });
  });

  it('are only the best found where a smaller set was neither solved nor ruled out', () => {
    expect(repin(standing(4), { enough: [[0, 3]], otherwise: 'not-found' }).found).toEqual({
      cylinders: names(0, 3),
      kind: 'best-found',
      atLeast: 1,
    });
    // and nothing is known of the first answer, if that was no proof
    expect(
      repin(standing(4), { enough: [[0, 3]], otherwise: 'not-found', first: 'not-found' }).found,
    ).toMatchObject({ kind: 'best-found', atLeast: 0 });
  });

  it('are no more gone through one by one, or set by set, where they are many', () => {
    // 62 sets of one are more than 60
    const { found, asked } = repin(standing(62), { enough: [[7]] });
    expect(found).toMatchObject({ kind: 'best-found', atLeast: 1 });
    expect(found!.cylinders).toHaveLength(62);
    expect(asked).toHaveLength(1);
    expect(repin(standing(60), { enough: [[7]] }).found).toEqual({
      cylinders: names(7),
      kind: 'proved-smallest',
      atLeast: 1,
    });
    // 24 are narrowed down by fixing one after the other again, 25 are not
    const pair = { enough: [[0, 5]], otherwise: 'not-found' as const };
    expect(repin(standing(24), pair).found!.cylinders).toEqual(names(0, 5));
    expect(repin(standing(25), pair).found!.cylinders).toHaveLength(25);
  });

  it('that are wrong with existing keys are among them, and alone where that is enough', () => {
    // K2 stands and does not operate C1 and C3, for which it is marked
    const grid = standing(4);
    const wrong: Grid = { ...grid, marks: grid.marks.map((list, c) => (c === 0 || c === 2 ? [0, 1] : list)) };
    const alone = repin(wrong, { enough: [[0, 2]] });
    expect(alone.found).toEqual({ cylinders: names(0, 2), kind: 'proved-smallest', atLeast: 2 });
    expect(alone.asked).toHaveLength(1);
    expect(repin(wrong, { enough: [[0, 2, 3]] }).found).toEqual({
      cylinders: names(0, 2, 3),
      kind: 'proved-smallest',
      atLeast: 3,
    });
    // they stay freed, since they have to change whatever else does
    for (const { freed } of repin(wrong, { enough: [[3]] }).asked)
      expect(freed).toEqual(expect.arrayContaining([0, 2]));
  });

  it('are freed with the chambers that they have pins in, and the rest of them as it was', () => {
    const [first] = repin(standing(1), { enough: [[0]] }).asked;
    expect(first!.grid.cylinders).toEqual([
      { id: 'C1', keyway: 'K', inUse: [false, false, false, true] },
      { id: 'C2' },
    ]);
    const grid = standing(1);
    const five = {
      ...grid,
      cylinders: grid.cylinders.map((c) => ({ ...c, inUse: [true, true, true, false] })),
    };
    expect(repin(five, { enough: [[0]] }).asked[0]!.grid.cylinders[0]!.inUse).toEqual([
      true,
      true,
      true,
      false,
    ]);
  });

  it('get a quarter of the budget for each attempt, and a thousand steps at least', () => {
    expect(repin(standing(2), { enough: [[0]], budget: 40_002 }).asked.map((a) => a.budget)).toContain(
      10_000,
    );
    expect(repin(standing(2), { enough: [[0]], budget: 400 }).asked.map((a) => a.budget)).toContain(1000);
  });
});
