/** Whole answers for tiny grids, against trying every bitting of every key by the plain definition. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import type { Grid, SolveOptions } from '../../../src/keying/grid/chart.ts';
import { partGrid } from '../../../src/keying/grid/shrink.ts';
import { solveGrid } from '../../../src/keying/grid/solve.ts';
import { runToEnd } from '../../../src/keying/system.ts';
import { noRules, plainGrid, smallSpec } from './charts.ts';
import { canBeSolved, isRight, tinyGrid, tinyOptions } from './plain.ts';

const KINDS = [
  { fixed: false, blanks: false },
  { fixed: true, blanks: false },
  { fixed: false, blanks: true },
  { fixed: true, blanks: true },
];

/** Proofs that name all keys and cylinders that they rest on; the others count keys, or say which key is stuck. */
const WHOLE = /exhausted|under-master|^fixed|^blank|^control/;

describe('the answer for a tiny grid', () => {
  it('is right, or names what can’t be solved by itself, and nothing needless where it says so', () => {
    const seen = { possible: 0, not: 0 };
    fc.assert(
      fc.property(fc.nat(1e6), fc.constantFrom(...KINDS), (seed, kind) => {
        const grid = tinyGrid(seed, kind);
        const options = { ...tinyOptions(seed, grid), rules: noRules };
        const answer = runToEnd(solveGrid(grid, options));
        const possible = canBeSolved(grid, options);
        seen[possible ? 'possible' : 'not']++;
        expect(answer.kind).toBe(possible ? 'solved' : 'impossible');
        if (answer.kind === 'solved') {
          expect(
            isRight(
              grid,
              options,
              answer.keys.map(({ bitting }) => bitting),
            ),
          ).toBe(true);
          return;
        }
        if (answer.kind !== 'impossible') return;
        const keys = grid.keys.flatMap(({ symbol }, k) => (answer.keys.includes(symbol) ? [k] : []));
        const cylinders = grid.cylinders.flatMap(({ id }, c) => (answer.cylinders.includes(id) ? [c] : []));
        // an existing key that is left out is no avoided bitting then
        const known = grid.keys.map(({ bitting }) => bitting?.join());
        const avoid = options.avoid!.filter((cuts) => !known.includes(cuts.join()));
        const can = (k: readonly number[], c: readonly number[]) =>
          canBeSolved(partGrid(grid, k, c), { ...options, avoid });
        if (!WHOLE.test(answer.reason.code)) return;
        const whole = keys.length + cylinders.length === grid.keys.length + grid.cylinders.length;
        if (!whole) expect(can(keys, cylinders)).toBe(false);
        // without one of the existing keys named another avoided bitting may get in
        if (!answer.minimal || (avoid.length > 0 && answer.reason.code.startsWith('fixed'))) return;
        for (const k of keys)
          expect(
            can(
              keys.filter((o) => o !== k),
              cylinders,
            ),
            answer.reason.code,
          ).toBe(true);
        for (const c of cylinders)
          expect(
            can(
              keys,
              cylinders.filter((o) => o !== c),
            ),
            answer.reason.code,
          ).toBe(true);
      }),
      { numRuns: 30 },
    );
    expect(Math.min(seen.possible, seen.not)).toBeGreaterThan(0);
  });
});

const numbers = (n: number, from = 0): number[] => Array.from({ length: n }, (_, k) => from + k);
const two = smallSpec(4, 2);
const own = (n: number, spec = two): Grid =>
  plainGrid(
    spec,
    n,
    numbers(n).map((k) => [k]),
  );
const under = (n: number, spec = two): Grid =>
  plainGrid(
    spec,
    n + 1,
    numbers(n, 1).map((k) => [0, k]),
  );
const answer = (grid: Grid, options: SolveOptions = {}) =>
  runToEnd(solveGrid(grid, { rules: noRules, ...options }));
const names = (letter: string, list: readonly number[]): string[] => list.map((n) => `${letter}${n + 1}`);
const top = bittingOf(two, [0, 1, 0, 1]);

describe('a proof before any search', () => {
  const found = (grid: Grid, options: SolveOptions = {}) => {
    const { kind, ...rest } = answer(grid, options);
    expect(kind).toBe('impossible');
    return rest;
  };

  it('names keys and cylinders, and what it holds for', () => {
    const many = {
      reason: { code: 'too-many-keys', needed: 18, possible: 16 },
      scope: 'any',
      keys: names('K', numbers(17)),
      cylinders: [],
      minimal: false,
      steps: 0,
    };
    expect(found(own(18))).toEqual(many);
    expect(found(own(18), { constant: [1] })).toEqual(many);
    expect(found(own(18), { topMaster: top })).toEqual({ ...many, scope: 'this-deal' });
    expect(found(own(9), { topMaster: top, constant: [1] })).toMatchObject({
      reason: { code: 'too-many-keys', needed: 9, possible: 8 },
      scope: 'this-deal',
    });
    expect(found(under(9))).toEqual({
      reason: { code: 'too-many-under-master', master: 'K1', needed: 7, possible: 6 },
      scope: 'any',
      keys: names('K', numbers(8)),
      cylinders: names('C', numbers(7)),
      minimal: false,
      steps: 0,
    });
    const large = { code: 'difference-too-large', asked: 5, possible: 4 };
    expect(found(own(3), { minimumDifference: 5 })).toEqual({
      reason: large,
      scope: 'any',
      keys: ['K1', 'K2'],
      cylinders: [],
      minimal: false,
      steps: 0,
    });
    for (const deal of [{ constant: [2] }, { topMaster: top }])
      expect(found(own(3), { minimumDifference: 5, ...deal })).toMatchObject({ scope: 'this-deal' });
    expect(found(own(3), { minimumDifference: 5, constant: [] })).toMatchObject({ scope: 'any' });
    const door = plainGrid(two, 3, [[1], [0, 1, 2], [2]]);
    expect(found(door, { mostDepths: 1 })).toMatchObject({
      reason: { code: 'too-many-on-door', cylinder: 'C2', needed: 3, possible: 1 },
      keys: ['K1', 'K2'],
      cylinders: ['C2'],
      minimal: false,
    });
  });

  it('comes after what is wrong with existing ones, which holds for any deal', () => {
    const there = { symbol: 'E', bitting: top };
    const grid = own(18);
    const wrong: Grid = {
      ...grid,
      keys: [...grid.keys, there],
      cylinders: [...grid.cylinders, { id: 'There', chambers: [1, 2, 1, 2] as never }],
      marks: [...grid.marks, []],
    };
    expect(found(wrong, { topMaster: top })).toMatchObject({
      reason: { code: 'fixed-interchange', key: 'E', cylinder: 'There' },
      scope: 'any',
      minimal: true,
      steps: 0,
    });
  });
});

/** A door for each of many keys and further doors of three, in 81 bittings. */
const crowd = (n: number, threes = n - 3, positions = 4): Grid =>
  plainGrid(smallSpec(positions, 3), n, [
    ...numbers(n).map((k) => [k]),
    ...numbers(threes).map((k) => [k, k + 1, k + 3]),
  ]);

describe('trying everything', () => {
  it('says how many steps it took, and then narrows down the conflict', () => {
    const grid = plainGrid(two, 4, [
      [0, 1],
      [1, 2],
      [0, 2],
      [0, 3],
      [1, 3],
    ]);
    const found = answer(grid, { constant: [0, 1, 2] });
    if (found.kind !== 'impossible' || found.reason.code !== 'search-exhausted') throw new Error(found.kind);
    expect(found.scope).toBe('this-deal');
    expect(found.reason.steps).toBeGreaterThan(0);
    expect(found.steps).toBeGreaterThan(found.reason.steps);
    // quick tries first: no more than a fiftieth of the budget, and what they had begun
    expect(found.reason.steps).toBeLessThan(2_000_000 * 0.02 + 20_000);
  });

  it('is left out above forty keys, and is what a small grid ends with', () => {
    const stages = (grid: Grid, options: SolveOptions) => {
      const steps = solveGrid(grid, { rules: noRules, ...options });
      const seen = new Set<string>();
      for (;;) {
        const next = steps.next();
        if (next.done) return [next.value.kind, ...seen];
        if (next.value.stage.includes(':')) seen.add(next.value.stage.split(':')[0]!);
        if (next.value.stage.includes(':')) {
          expect(next.value.stage).toMatch(/: \d+ left$/);
          expect(next.value.total).toBe(options.budget);
          expect(next.value.done).toBeLessThanOrEqual(options.budget!);
        }
      }
    };
    expect(stages(crowd(41), { budget: 15_000 })).toEqual(['not-found', 'searching']);
    expect(stages(crowd(40), { budget: 15_000 })).toEqual(['not-found', 'searching', 'trying everything']);
    expect(stages(own(3), { budget: 100_000 })).toEqual(['solved', 'searching', 'saving pins']);
    const impossible = plainGrid(two, 4, [
      [0, 1],
      [1, 2],
      [0, 2],
      [0, 3],
      [1, 3],
    ]);
    expect(stages(impossible, { budget: 500_000, constant: [0, 1, 2] })).toEqual([
      'impossible',
      'searching',
      'trying everything',
      'narrowing down the conflict',
    ]);
  });
});

describe('nothing found', () => {
  it.each([
    ['a few pairs', crowd(44, 24, 6)],
    ['more than are listed', crowd(44)],
  ])('counts what the best attempt leaves wrong: %s', (_, grid) => {
    const found = answer(grid, { budget: 2000 });
    if (found.kind !== 'not-found') throw new Error(found.kind);
    expect(found).toMatchObject({ keys: 44, unplaced: 0 });
    expect(found.steps).toBeGreaterThanOrEqual(2000);
    expect(found.left).toBeGreaterThan(0);
    expect(found.violations).toHaveLength(Math.min(found.left, 200));
    for (const { key, cylinder } of found.violations) {
      const c = grid.cylinders.findIndex(({ id }) => id === cylinder);
      expect(grid.marks[c]).not.toContain(grid.keys.findIndex(({ symbol }) => symbol === key));
    }
    const wrong = new Set(found.violations.map(({ key }) => key));
    if (found.left <= 200) expect(found.keysRight).toBe(44 - wrong.size);
    else expect(found.keysRight).toBeLessThanOrEqual(44 - wrong.size);
  });

  it('is not what a large grid with a simple solution ends with', () => {
    expect(answer(own(45, smallSpec(4, 3))).kind).toBe('solved');
  });

  it('is told without an attempt where no top master is usable', () => {
    // so many bittings that nobody counts them, and none that is usable
    const rules = { ...noRules, fewDepths: true, leastDepths: 9, leastDepthsFrom: 1 };
    expect(answer(own(3, smallSpec(8, 7)), { rules, budget: 1000 })).toEqual({
      kind: 'not-found',
      steps: 0,
      left: 0,
      unplaced: 3,
      violations: [],
      keysRight: 0,
      keys: 3,
      hints: [],
    });
  });

  it('hints at skipped levels and at dealings that are short', () => {
    const groups = [1, 2].flatMap((master) => numbers(16, 3 + 16 * (master - 1)).map((k) => [0, master, k]));
    const grid = plainGrid(smallSpec(4, 3), 35, [...groups, [0, 1, 3, 4], [0, 3]]);
    const found = answer(grid, { budget: 40_000 });
    if (found.kind !== 'not-found') throw new Error(found.kind);
    expect(found.hints.map(({ code }) => code)).toEqual(['no-dealing-fits', 'skips-level']);
  });
});

describe('existing cylinders in the way', () => {
  it('are named as ones to re-pin, and its steps are counted', () => {
    const chambers = [1, 1, 1, 1] as never;
    const grid: Grid = {
      ...plainGrid(two, 2, [[0], [0, 1]]),
      cylinders: [
        { id: 'C1', chambers },
        { id: 'C2', chambers },
      ],
    };
    const found = answer(grid);
    expect(found).toMatchObject({ kind: 'impossible', repin: { kind: 'proved-smallest', atLeast: 1 } });
    expect(found.steps).toBeGreaterThan(0);
    // a new cylinder stands in nobody's way, and where all is solved nothing is said
    const more: Grid = { ...grid, cylinders: [...grid.cylinders, { id: 'C3' }], marks: [...grid.marks, [1]] };
    expect(answer(more)).toHaveProperty('repin');
    const fine: Grid = { ...grid, marks: [[0], [0]] };
    const solved = answer(fine);
    expect(solved.kind).toBe('solved');
    expect(solved).not.toHaveProperty('repin');
    // nothing is said of it where none stands
    expect(answer(own(18))).not.toHaveProperty('repin');
  });
});
