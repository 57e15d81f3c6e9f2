import { describe, expect, it } from 'vitest';
import { bittingOf, formatBitting } from '../../../src/keying/bitting.ts';
import {
  gridOf,
  sayAnswer,
  sayRepin,
  skippedLevels,
  solveGrid,
  type Grid,
  type Solved,
  type SolveOptions,
} from '../../../src/keying/grid/index.ts';
import { isUsable } from '../../../src/keying/rules.ts';
import { starterSpec } from '../../../src/keying/starters.ts';
import { runToEnd } from '../../../src/keying/system.ts';
import { hierarchyChart, irregularChart } from '../../bench/gridCharts.ts';
import { noRules, plainGrid, smallSpec, wrongWith } from './charts.ts';

const spec = starterSpec('S-018-6')!;

function solved(grid: Grid, options: SolveOptions = {}): Solved {
  const answer = runToEnd(solveGrid(grid, options));
  if (answer.kind !== 'solved') throw new Error(sayAnswer(answer).join(' '));
  expect(wrongWith(grid, answer)).toEqual([]);
  return answer;
}

/** A master over so many keys with a door each. */
const doors = (changeKeys: number): Grid =>
  plainGrid(
    spec,
    changeKeys + 1,
    Array.from({ length: changeKeys }, (_, n) => [0, n + 1]),
  );

describe('solving a grid', () => {
  it('reads marks by name, whatever the case', () => {
    const grid = gridOf(
      spec,
      ['AA', 'AA1'],
      ['Front'],
      [
        { key: 'aa1', cylinder: ' front' },
        { key: 'X', cylinder: 'Front' },
      ],
    );
    expect(grid.marks).toEqual([[1]]);
  });

  it('solves irregular grids of two-step progression, every pair checked', () => {
    for (const seed of [1, 2, 3]) {
      const answer = solved(irregularChart(starterSpec('T-0125-7')!, 80, seed));
      for (const { bitting } of answer.keys) expect(isUsable(starterSpec('T-0125-7')!, bitting)).toBe(true);
    }
  });

  it('solves hierarchies with cross-keyed doors', () => {
    solved(hierarchyChart(starterSpec('T-018-7')!, 3, 400, 0.05, 1));
    solved(hierarchyChart(starterSpec('T-018-7')!, 4, 400, 0.05, 1));
  });

  it('gives the same answer for the same seed, and another for another', () => {
    const grid = irregularChart(spec, 40, 1);
    const codes = (seed: number) =>
      solved(grid, { seed }).keys.map(({ bitting }) => formatBitting(spec, bitting));
    expect(codes(5)).toEqual(codes(5));
    expect(codes(5)).not.toEqual(codes(6));
  });

  it('keeps to the budget and says how far it got', () => {
    const grid = irregularChart(spec, 400, 1);
    const answer = runToEnd(solveGrid(grid, { budget: 3000 }));
    expect(answer.kind).toBe('not-found');
    if (answer.kind !== 'not-found') return;
    // A step that is under way is finished, but no more.
    expect(answer.steps).toBeLessThan(3000 + 400 * 400);
    expect(answer.left + answer.unplaced).toBeGreaterThan(0);
    expect(answer.keysRight).toBeLessThan(400);
    expect(sayAnswer(answer)[0]).toMatch(/nothing is proved/);
  });

  it('tells keys that have no bitting yet from pairs that are wrong', () => {
    const answer = runToEnd(solveGrid(irregularChart(spec, 400, 1), { budget: 3000 }));
    if (answer.kind !== 'not-found') throw new Error('meant to stop at its budget');
    const every = { ...answer, left: 2, unplaced: 1 };
    expect(sayAnswer(every)[0]).toContain('leaves 2 pairs wrong, 1 key without a bitting, and has');
    expect(sayAnswer({ ...every, unplaced: 0 })[0]).toContain('leaves 2 pairs wrong and has');
    // no pair is counted that could not be listed
    expect(answer.left === 0).toBe(answer.violations.length === 0);
  });

  it('yields progress, so that it can be cancelled', () => {
    const steps = solveGrid(irregularChart(spec, 400, 1));
    const first = steps.next();
    expect(first.done).toBe(false);
    expect(steps.return(undefined as never).done).toBe(true);
  });

  it('keys with the same marks are cut alike, or each its own if asked', () => {
    const grid = plainGrid(spec, 4, [[0, 1, 2], [3]]);
    const alike = solved(grid);
    expect(alike.alike).toEqual([['K1', 'K2', 'K3']]);
    expect(new Set(alike.keys.map((k) => k.bitting.join())).size).toBe(2);
    const different = solved(grid, { sameMarks: 'different' });
    expect(different.alike).toEqual([]);
    expect(new Set(different.keys.map((k) => k.bitting.join())).size).toBe(4);
  });

  it('holds the minimum difference between any two keys', () => {
    const { keys } = solved(doors(40), { minimumDifference: 3 });
    for (const a of keys)
      for (const b of keys)
        if (a !== b)
          expect(a.bitting.filter((cut, i) => cut !== b.bitting[i]).length).toBeGreaterThanOrEqual(3);
  });

  it('holds the most depths in a chamber', () => {
    const grid = plainGrid(spec, 7, [
      [0, 1, 2, 3, 4],
      [0, 1],
      [0, 2],
      [0, 3],
      [0, 4],
      [0, 5],
      [0, 6],
    ]);
    const { cylinders } = solved(grid, { mostDepths: 2 });
    for (const { chambers } of cylinders)
      for (const set of chambers)
        expect([...(set >>> 0).toString(2)].filter((b) => b === '1').length).toBeLessThanOrEqual(2);
  });

  it('keeps positions constant for a later level', () => {
    const { keys } = solved(doors(20), { constant: [0, 3] });
    for (const i of [0, 3]) expect(new Set(keys.map(({ bitting }) => bitting[i])).size).toBe(1);
  });

  it('issues no avoided bitting and lets none in', () => {
    const free = solved(doors(12));
    const avoid = free.keys.slice(1).map(({ bitting }) => bitting);
    const again = solved(doors(12), { avoid });
    for (const cuts of avoid)
      for (const { chambers } of again.cylinders)
        expect(chambers.every((set, i) => (set >>> cuts[i]!) & 1)).toBe(false);
  });

  it('leaves chambers that are not in use empty', () => {
    const inUse = [true, true, true, true, true, false];
    const grid = { ...doors(10), cylinders: doors(10).cylinders.map((c) => ({ ...c, inUse })) };
    for (const { chambers } of solved(grid).cylinders) expect(chambers[5]).toBe(-1);
  });

  it('gives a key without a mark a bitting that operates nothing, and pins a cylinder without one for nobody', () => {
    const answer = solved(plainGrid(spec, 3, [[0], [0, 1], []]));
    expect(answer.unmarked).toEqual(['C3']);
    expect(answer.cylinders[2]!.chambers).toEqual([0, 0, 0, 0, 0, 0]);
  });

  it('counts the cost', () => {
    const { cost } = solved(plainGrid(spec, 2, [[0], [0, 1]]));
    const [single, shared] = cost.perCylinder;
    expect(single).toMatchObject({ combinations: 1, masterPins: 0, incidental: 0 });
    expect(shared!.combinations).toBe(2 ** shared!.masterPins);
    expect(cost.extraMasterPins).toBe(0);
  });
});

describe('extending what exists', () => {
  const first = solved(doors(10));
  const grown: Grid = {
    spec,
    keys: [
      ...first.keys.map(({ symbol, bitting }) => ({ symbol, bitting })),
      { symbol: 'N1' },
      { symbol: 'N2' },
    ],
    cylinders: [...first.cylinders.map(({ id, chambers }) => ({ id, chambers })), { id: 'D1' }, { id: 'D2' }],
    marks: [...doors(10).marks, [0, 11], [0, 11, 12]],
  };

  it('fits in new keys and doors and leaves the existing ones untouched', () => {
    const answer = solved(grown);
    first.keys.forEach(({ bitting }, k) => expect(answer.keys[k]!.bitting).toEqual(bitting));
    first.cylinders.forEach(({ chambers }, c) => expect(answer.cylinders[c]!.chambers).toEqual(chambers));
    expect(answer.keys.map((k) => k.fixed)).toEqual([...first.keys.map(() => true), false, false]);
  });

  it('names the one cylinder to re-pin when a new key must open two existing doors', () => {
    // Doors 3 and 5 have only the master's cuts in common, so a key for both would open every door.
    const grid = { ...grown, marks: grown.marks.map((m, c) => (c === 2 || c === 4 ? [...m, 11] : m)) };
    const answer = runToEnd(solveGrid(grid));
    expect(answer).toMatchObject({
      kind: 'impossible',
      reason: { code: 'no-bitting-for-key', key: 'N1' },
      cylinders: ['C3', 'C5'],
      repin: { kind: 'proved-smallest', atLeast: 1 },
    });
    if (answer.kind !== 'impossible') return;
    expect(answer.repin!.cylinders).toHaveLength(1);
    expect(['C3', 'C5']).toContain(answer.repin!.cylinders[0]);
    const freed = {
      ...grid,
      cylinders: grid.cylinders.map((c) => (answer.repin!.cylinders.includes(c.id) ? { id: c.id } : c)),
    };
    solved(freed);
    expect(sayRepin(answer.repin!)).toMatch(/^Re-pinning C[35] makes it fit\. Proved smallest/);
  });

  it('names existing keys and cylinders that contradict the marks', () => {
    const out = { ...grown, marks: grown.marks.map((m, c) => (c === 4 ? [...m, 1] : m)) };
    expect(runToEnd(solveGrid(out))).toMatchObject({
      kind: 'impossible',
      reason: { code: 'fixed-lock-out', key: 'K2', cylinder: 'C5' },
      repin: { cylinders: ['C5'], kind: 'proved-smallest' },
    });
    const inside = { ...grown, marks: grown.marks.map((m, c) => (c === 4 ? [0] : m)) };
    expect(runToEnd(solveGrid(inside))).toMatchObject({
      kind: 'impossible',
      reason: { code: 'fixed-interchange', key: 'K6', cylinder: 'C5' },
    });
  });

  it('proves that existing keys of a new door let another in', () => {
    const small = smallSpec(4, 2);
    const keys = [
      [0, 0, 1, 1],
      [0, 0, 0, 0],
      [0, 0, 0, 1],
    ].map((cuts, k) => ({
      symbol: `E${k + 1}`,
      bitting: bittingOf(small, cuts),
    }));
    const answer = runToEnd(
      solveGrid({ spec: small, keys, cylinders: [{ id: 'New' }], marks: [[0, 1]] }, { rules: noRules }),
    );
    expect(answer).toMatchObject({
      kind: 'impossible',
      reason: { code: 'fixed-keys-admit', key: 'E3', cylinder: 'New' },
    });
  });
});

describe('proofs', () => {
  it('by counting: more keys than bittings', () => {
    const grid = plainGrid(
      smallSpec(4, 2),
      17,
      Array.from({ length: 17 }, (_, k) => [k]),
    );
    expect(runToEnd(solveGrid(grid, { rules: noRules }))).toMatchObject({
      kind: 'impossible',
      scope: 'any',
      reason: { code: 'too-many-keys', needed: 17, possible: 16 },
    });
    const fits = plainGrid(
      smallSpec(4, 2),
      16,
      Array.from({ length: 16 }, (_, k) => [k]),
    );
    expect(solved(fits, { rules: noRules }).keys).toHaveLength(16);
  });

  it('says which levels are skipped, and solves such a grid without dealing levels where it can', () => {
    // Master K2 over K3 to K8; the door of K3 must admit K1 (top) and K3, but not K2.
    const marks = [[0, 2], ...[3, 4, 5, 6, 7].map((k) => [0, 1, k]), [0, 1, 2], [0, 1, 2, 3], [0, 8]];
    const grid = plainGrid(spec, 9, marks);
    expect(skippedLevels(grid)).toContainEqual({ code: 'skips-level', key: 'K2', cylinder: 'C1' });
    solved(grid);
  });
});

describe('dealing positions to levels', () => {
  it('says so when no dealing has room for a group, and that this is no proof', () => {
    // Four positions of three depths: two masters need one position, which leaves 2³ = 8 changes under each.
    const group = (master: number, first: number) =>
      Array.from({ length: 16 }, (_, n) => [0, master, first + n]);
    const grid = plainGrid(smallSpec(4, 3), 35, [...group(1, 3), ...group(2, 19)]);
    const answer = runToEnd(solveGrid(grid, { rules: noRules, budget: 60_000 }));
    expect(answer.kind).toBe('not-found');
    if (answer.kind !== 'not-found') return;
    expect(answer.hints[0]).toMatchObject({ code: 'no-dealing-fits', needed: 16, possible: 8 });
    expect(sayAnswer(answer)[1]).toMatch(/rules out total position progression only/);
  });
});
