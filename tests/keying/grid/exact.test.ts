/** Complete search and the proofs before it, against trying every bitting of every key by the plain definition. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { tooFarApart } from '../../../src/keying/grid/apart.ts';
import { tooMany } from '../../../src/keying/grid/bounds.ts';
import type { Grid, SolveOptions } from '../../../src/keying/grid/chart.ts';
import { depthSetOf } from '../../../src/keying/depthSet.ts';
import { searchEverything } from '../../../src/keying/grid/everything.ts';
import { searchAll } from '../../../src/keying/grid/exact.ts';
import { fixedProblem } from '../../../src/keying/grid/fixed.ts';
import type { Instance } from '../../../src/keying/grid/instance.ts';
import { prepareGrid, wholeDomain } from '../../../src/keying/grid/prepare.ts';
import { noRules, plainGrid, smallSpec } from './charts.ts';
import { allCuts, canBeSolved, isRight, tinyGrid, tinyOptions } from './plain.ts';

const drain = <T>(steps: Generator<number, T, void>): T => {
  for (;;) {
    const next = steps.next();
    if (next.done) return next.value;
  }
};

const KINDS = [
  { fixed: false, blanks: false },
  { fixed: true, blanks: false },
  { fixed: false, blanks: true },
  { fixed: true, blanks: true },
];

describe('tiny grids', () => {
  it.each(KINDS)('are solved, or proved to have no solution, as trying everything shows: %o', (kind) => {
    const seen = { possible: 0, not: 0 };
    fc.assert(
      fc.property(fc.nat(1e6), (seed) => {
        const grid = tinyGrid(seed, kind);
        const options = { ...tinyOptions(seed, grid), rules: noRules };
        const prepared = prepareGrid(grid, options, wholeDomain(grid));
        const possible = canBeSolved(grid, options);
        seen[possible ? 'possible' : 'not']++;
        const proofs = [
          fixedProblem(grid, prepared.instance, prepared)?.reason.code,
          tooFarApart(grid, options, prepared)?.reason.code,
          tooMany(prepared.instance)?.code,
        ].filter((code) => code !== undefined);
        if (proofs.length > 0) expect(possible).toBe(false);
        // what stands already may be wrong by itself, which is looked at before
        if (fixedProblem(grid, prepared.instance, prepared)) return;
        const found = drain(searchEverything(grid, options, { steps: 0 }, 1e6));
        expect(found.kind).toBe(possible ? 'solved' : 'none');
        if (found.kind !== 'solved') return;
        const cuts = found.prepared.keyClass.map((k) => found.state.cutsOf(k));
        expect(isRight(grid, options, cuts)).toBe(true);
      }),
      { numRuns: 30 },
    );
    expect(Math.min(seen.possible, seen.not)).toBeGreaterThan(0);
  });
});

describe('keys of different blanks with the same marks', () => {
  const spec = smallSpec(4, 2);
  const grid: Grid = {
    ...plainGrid(spec, 2, [[0, 1]]),
    keys: [
      { symbol: 'A', keyway: 'K1' },
      { symbol: 'B', keyway: 'K2' },
    ],
  };
  const everything = (options: SolveOptions) =>
    drain(searchEverything(grid, { rules: noRules, ...options }, { steps: 0 }, 1e6));

  it('may have one bitting, and have it where a chamber holds one depth or one bitting is left', () => {
    const one = everything({ mostDepths: 1 });
    if (one.kind !== 'solved') throw new Error(one.kind);
    expect(one.state.cutsOf(0)).toEqual(one.state.cutsOf(1));
    const left = allCuts(spec).map((cuts) => bittingOf(spec, cuts));
    const options = { rules: noRules, avoid: left.filter((_, n) => n !== 5) };
    const { instance } = prepareGrid(grid, options, wholeDomain(grid));
    expect(tooMany(instance)).toBeUndefined();
    const last = everything(options);
    if (last.kind !== 'solved') throw new Error(last.kind);
    expect([0, 1].map((k) => last.state.cutsOf(k))).toEqual([left[5], left[5]]);
  });

  it('have bittings of their own where any two keys have to differ', () => {
    const left = allCuts(spec).map((cuts) => bittingOf(spec, cuts));
    for (const more of [{ sameMarks: 'different' as const }, { minimumDifference: 2 }]) {
      const options = { rules: noRules, avoid: left.slice(1), ...more };
      const { instance } = prepareGrid(grid, options, wholeDomain(grid));
      expect(tooMany(instance)).toMatchObject({ code: 'too-many-keys', needed: 2, possible: 1 });
      expect(everything(options).kind).toBe('none');
    }
  });
});

describe('keys that can be swapped', () => {
  const spec = smallSpec(4, 2);
  const all = allCuts(spec).map((cuts) => bittingOf(spec, cuts));
  const cutsOf = (code: string) => bittingOf(spec, [...code].map(Number));
  const prepare = (grid: Grid, options: SolveOptions = {}) =>
    prepareGrid(grid, { rules: noRules, ...options }, wholeDomain(grid)).instance;
  const only = (...codes: string[]): SolveOptions => ({
    avoid: all.filter((cuts) => !codes.includes(cuts.join(''))),
  });
  const run = (instance: Instance, until = 1e6) => {
    const steps = searchAll(instance, { steps: 0 }, until);
    let nodes = 0;
    for (let next = steps.next(); ; next = steps.next()) {
      if (next.done) return { found: next.value, nodes };
      nodes++;
    }
  };
  const codes = (instance: Instance): string[] => {
    const { found } = run(instance);
    if (found.kind !== 'solved') return [found.kind];
    return [0, 1].map((k) => found.state.cutsOf(k).join(''));
  };
  const [low, high] = ['0010', '1101'];

  it('are tried in one order alone', () => {
    // five keys with a door each and four bittings: no more than the sets of up to four of them
    const own = plainGrid(spec, 5, [[0], [1], [2], [3], [4]]);
    const instance = prepare(own, only('0001', '0110', '1011', '1100'));
    const { found, nodes } = run(instance);
    expect(found.kind).toBe('none');
    expect(nodes).toBeLessThanOrEqual(4 + 6 + 4 + 1);
    // for the first key one bitting is tried where all are as good as it
    expect(
      run(
        prepare(
          plainGrid(spec, 3, [
            [0, 1],
            [1, 2],
            [0, 2],
          ]),
          { constant: [] },
        ),
      ).nodes,
    ).toBeLessThan(20);
  });

  /** K1 and K2 with a door each, and E that stands; two bittings are left, and K1 may not have the lower one. */
  const uneven = (change: (grid: Grid) => Grid, more: SolveOptions = {}) => {
    const grid = plainGrid(spec, 3, [[0], [1]]);
    const keys = grid.keys.map((key, k) => (k === 2 ? { ...key, bitting: cutsOf('0011') } : key));
    // what is usable is not what no cylinder may admit
    const usable = (cuts: ArrayLike<number>) => [low, high].includes(Array.from(cuts).join(''));
    return { ...prepare(change({ ...grid, keys }), more), usable };
  };
  const alone: Record<string, () => Instance> = {
    'their doors have the same chambers': () =>
      uneven((grid) => ({
        ...grid,
        cylinders: [{ id: 'D1', inUse: [true, true, true, false] }, { id: 'D2' }],
      })),
    // the third key's cuts are K1's but for the fourth, which K1's blank lacks
    'their blanks have the same cuts': () =>
      uneven(
        (grid) => ({
          ...grid,
          keys: grid.keys.map((key, k) => ({
            ...key,
            ...(k === 0 && { cuts: 3 }),
            ...(k === 2 && { keyway: 'K2' }),
          })),
          cylinders: ['D1', 'D2'].map((id) => ({ id, keyway: 'K1', inUse: [true, true, true, false] })),
        }),
        { sameMarks: 'different' },
      ),
    'their blanks go into the same cylinders': () =>
      uneven((grid) => ({
        ...grid,
        keys: grid.keys.map((key, k) => ({ ...key, keyway: k === 0 ? 'K1' : 'K2' })),
        cylinders: [
          { id: 'D1' },
          { id: 'D2' },
          { id: 'D3', keyway: 'K1', chambers: [...low].map((depth) => depthSetOf([Number(depth)])) },
        ],
        marks: [[0], [1], []],
      })),
    // with the lower one and 0111 the common door would open for 0110 too
    'they have the same doors but their own': () =>
      uneven((grid) => ({
        ...grid,
        keys: [
          ...grid.keys.slice(0, 2),
          ...['0111', '0110'].map((code) => ({ symbol: code, bitting: cutsOf(code) })),
        ],
        cylinders: [...grid.cylinders, { id: 'D3' }],
        marks: [[0], [1], [0, 2]],
      })),
  };

  it.each(Object.keys(alone))('are so only where %s', (name) => {
    expect(codes(alone[name]!())).toEqual([high, low]);
  });

  it('are so only where their depths are the same', () => {
    // 0011 opens what stands; K1's second cut is 0, so 1011 is left, K2's is 1, so 0100 is
    const three = ['0011', '0100', '1011'];
    const there = { id: 'E', chambers: [...'0011'].map((depth) => depthSetOf([Number(depth)])) };
    const grid = plainGrid(spec, 2, [[0], [1], []]);
    const instance = prepare({ ...grid, cylinders: [...grid.cylinders.slice(0, 2), there] });
    const domain = Int32Array.from(instance.domain);
    domain[1] = 1;
    domain[4 + 1] = 2;
    const usable = (cuts: ArrayLike<number>) => three.includes(Array.from(cuts).join(''));
    expect(codes({ ...instance, domain, usable })).toEqual(['1011', '0100']);
  });

  it('are those of existing cylinders of the same chambers', () => {
    const chambers = (set: string) =>
      [...set].map((depth) => depthSetOf(depth === '*' ? [0, 1] : [Number(depth)]));
    const grid: Grid = {
      ...plainGrid(spec, 2, [[0], [1]]),
      cylinders: [
        { id: 'D1', chambers: chambers('**01') },
        { id: 'D2', chambers: chambers('**10') },
      ],
    };
    expect(codes(prepare(grid))).toEqual(['0001', '0010']);
    const turned = { ...grid, marks: [[1], [0]] };
    expect(codes(prepare(turned))).toEqual(['0010', '0001']);
  });
});

describe('complete search', () => {
  const until = (grid: Grid, options: SolveOptions = {}, steps = 1e6) =>
    drain(
      searchAll(
        prepareGrid(grid, { rules: noRules, ...options }, wholeDomain(grid)).instance,
        { steps: 0 },
        steps,
      ),
    );

  it('gives up above twenty thousand bittings a key, and where its steps are used up', () => {
    expect(until(plainGrid(smallSpec(8, 4), 1, [[0]])).kind).toBe('gave-up');
    expect(until(plainGrid(smallSpec(4, 2), 2, [[0], [1]]), {}, 0).kind).toBe('gave-up');
  });

  it('ends where existing keys are in conflict', () => {
    const spec = smallSpec(4, 2);
    const codes = ['0011', '0000', '0001'];
    const grid: Grid = {
      ...plainGrid(spec, 3, [[0, 1]]),
      keys: codes.map((code) => ({ symbol: code, bitting: bittingOf(spec, [...code].map(Number)) })),
    };
    expect(until(grid)).toEqual({ kind: 'none' });
    expect(until({ ...grid, marks: [[0, 1, 2]] }).kind).toBe('solved');
  });
});
