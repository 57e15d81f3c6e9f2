/** What the metal asks of a grid besides marks: blanks, keyways, cores, pins; and proofs by counting alone. */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { coreFaults } from '../../../src/keying/core.ts';
import { sayAnswer, solveGrid, type Grid, type SolveOptions } from '../../../src/keying/grid/index.ts';
import { starterSpec } from '../../../src/keying/starters.ts';
import { runToEnd } from '../../../src/keying/system.ts';
import { irregularChart } from '../../bench/gridCharts.ts';
import { plainSpec } from '../../support/systems.ts';
import { noRules, plainGrid, smallSpec, wrongWith } from './charts.ts';

const answer = (grid: Grid, options: SolveOptions = {}) => runToEnd(solveGrid(grid, options));
const doors = (changeKeys: number, spec = starterSpec('S-018-6')!): Grid =>
  plainGrid(
    spec,
    changeKeys + 1,
    Array.from({ length: changeKeys }, (_, n) => [0, n + 1]),
  );
const reasonOf = (grid: Grid, options?: SolveOptions) => {
  const found = answer(grid, options);
  if (found.kind !== 'impossible') throw new Error(found.kind);
  // Whatever the proof, there are words for it.
  expect(sayAnswer(found)[0]).toMatch(/^[A-Z0-9].*\.$/);
  return found.reason;
};

describe('blanks', () => {
  it('names a mark for a keyway that the blank does not enter, unless the table of blanks has it enter', () => {
    const grid: Grid = {
      ...plainGrid(smallSpec(4, 3), 2, [[0, 1]]),
      keys: [{ symbol: 'A', keyway: 'K1' }, { symbol: 'B' }],
      cylinders: [{ id: 'D1', keyway: 'K2' }],
    };
    expect(reasonOf(grid)).toEqual({ code: 'blank-does-not-enter', key: 'A', cylinder: 'D1' });
    expect(answer({ ...grid, enters: { k1: ['K2'] } }, { rules: noRules }).kind).toBe('solved');
  });

  it('names a mark for a cylinder with more pinned chambers than the blank has cuts', () => {
    const grid: Grid = {
      ...plainGrid(smallSpec(4, 3), 1, [[0]]),
      keys: [{ symbol: 'A', cuts: 3 }],
    };
    expect(reasonOf(grid)).toEqual({ code: 'blank-too-short', key: 'A', cylinder: 'C1', chamber: 4 });
    const empty = { ...grid, cylinders: [{ id: 'C1', inUse: [true, true, true, false] }] };
    expect(answer(empty, { rules: noRules }).kind).toBe('solved');
  });

  it('lets keys of two keyways share bittings, so that more are possible', () => {
    // 24 keys, 16 bittings
    const plain = plainGrid(
      smallSpec(4, 2),
      24,
      Array.from({ length: 24 }, (_, k) => [k]),
    );
    expect(reasonOf(plain, { rules: noRules })).toMatchObject({ code: 'too-many-keys', possible: 16 });
    const keyway = (k: number): { keyway: string } => ({ keyway: k % 2 === 0 ? 'K1' : 'K2' });
    const two: Grid = {
      ...plain,
      keys: plain.keys.map((key, k) => ({ ...key, ...keyway(k) })),
      cylinders: plain.cylinders.map((cylinder, c) => ({ ...cylinder, ...keyway(c) })),
    };
    expect(answer(two, { rules: noRules }).kind).toBe('solved');
  });
});

describe('interchangeable cores', () => {
  const spec = plainSpec({
    positions: 6,
    depths: 10,
    increment: 0.0125,
    macs: 7,
    step: 2,
    core: { total: 23, addition: 10 },
  });
  const control = bittingOf(spec, [1, 3, 1, 3, 1, 5]);

  it('leaves room for the pins of both lines, and no key pulls a core', () => {
    const grid = { ...doors(20, spec), cylinders: doors(20, spec).cylinders.map((c) => ({ ...c, control })) };
    const found = answer(grid);
    if (found.kind !== 'solved') throw new Error(sayAnswer(found).join(' '));
    expect(wrongWith(grid, found)).toEqual([]);
    for (const { chambers } of found.cylinders) expect(coreFaults(spec, chambers, control)).toEqual([]);
    for (const { bitting } of found.keys) expect(bitting).not.toEqual(control);
  });

  it('names an existing key that has the control cuts, and a control cut without room', () => {
    const one = plainGrid(spec, 2, [[0, 1]]);
    const cut = { ...one, cylinders: [{ id: 'C1', control }] };
    expect(reasonOf({ ...cut, keys: [{ symbol: 'Old', bitting: control }, { symbol: 'New' }] })).toEqual({
      code: 'control-is-a-key',
      key: 'Old',
      cylinder: 'C1',
    });
    // total 16 − control 5 − addition 10 leaves one step on top, thinner than the thinnest of two
    const low = plainSpec({
      positions: 6,
      depths: 10,
      increment: 0.0125,
      macs: 7,
      step: 2,
      core: { total: 16, addition: 10 },
    });
    expect(reasonOf({ ...cut, spec: low })).toEqual({
      code: 'control-without-room',
      cylinder: 'C1',
      chamber: 6,
    });
  });
});

describe('proofs by counting', () => {
  it('one depth a chamber, several keys on one door', () => {
    const reason = reasonOf(plainGrid(starterSpec('T-018-7')!, 3, [[0, 1], [0], [2]]), { mostDepths: 1 });
    expect(reason).toEqual({ code: 'too-many-on-door', cylinder: 'C1', needed: 2, possible: 1 });
  });

  it('keys of one door so far apart that its chambers cannot tell them apart', () => {
    // Singleton: of 2^7 bittings no more than 2^(7 − 6 + 1) differ in six chambers
    const all = Array.from({ length: 9 }, (_, k) => k);
    const grid = plainGrid(starterSpec('T-018-7')!, 9, [all, ...all.map((k) => [k])]);
    expect(reasonOf(grid, { mostDepths: 2, minimumDifference: 6 })).toMatchObject({
      code: 'too-many-on-door',
      needed: 9,
      possible: 4,
    });
  });

  it('a difference larger than there are positions, or than are left', () => {
    const grid = doors(3);
    expect(reasonOf(grid, { minimumDifference: 7 })).toEqual({
      code: 'difference-too-large',
      asked: 7,
      possible: 6,
    });
    expect(reasonOf(grid, { minimumDifference: 5, constant: [0, 3] })).toMatchObject({ possible: 4 });
  });

  it('more keys that differ in every chamber than there are depths', () => {
    const grid = plainGrid(smallSpec(6, 4), 5, [[0], [1], [2], [3], [4]]);
    expect(reasonOf(grid, { minimumDifference: 6, rules: noRules })).toEqual({
      code: 'too-many-apart',
      needed: 5,
      possible: 4,
      difference: 6,
    });
  });

  it('existing keys with more cuts in a chamber than a new door may hold', () => {
    const spec = smallSpec(4, 3);
    const keys = [0, 1, 2].map((d) => ({ symbol: `E${d}`, bitting: bittingOf(spec, [d, d, 0, 0]) }));
    const grid: Grid = { spec, keys, cylinders: [{ id: 'New' }], marks: [[0, 1, 2]] };
    expect(reasonOf(grid, { mostDepths: 2, rules: noRules })).toMatchObject({
      code: 'fixed-keys-crowd',
      chamber: 1,
      most: 2,
    });
  });

  it('complete search goes on under a top master and constant positions, and says what it holds for', () => {
    // Doors for {1, 2}, {2, 3} and {1, 3}, each key also alone with the fourth: one free position of two depths.
    const spec = smallSpec(4, 2);
    const grid = plainGrid(spec, 4, [
      [0, 1],
      [1, 2],
      [0, 2],
      [0, 3],
      [1, 3],
    ]);
    const found = answer(grid, { rules: noRules, constant: [0, 1, 2] });
    expect(found).toMatchObject({ kind: 'impossible', scope: 'this-deal' });
    const under = answer(grid, {
      rules: noRules,
      topMaster: bittingOf(spec, [0, 0, 0, 0]),
      constant: [0, 1],
    });
    expect(under).toMatchObject({ kind: 'impossible', scope: 'this-deal' });
  });
});

describe('what it costs', () => {
  it('is lowered afterwards, and every pair is still right', () => {
    const grid = irregularChart(starterSpec('T-018-7')!, 80, 3);
    const found = answer(grid);
    if (found.kind !== 'solved') throw new Error(sayAnswer(found).join(' '));
    expect(wrongWith(grid, found)).toEqual([]);
    expect(found.cost.extraMasterPins).toBeLessThan(found.cost.asFound.extraMasterPins * 0.7);
    expect(sayAnswer(found)[1]).toMatch(/to save \d+ extra master pins/);
  });

  it('is not lowered by moving change keys closer to the master', () => {
    const found = answer(doors(20));
    if (found.kind !== 'solved') throw new Error(sayAnswer(found).join(' '));
    const { asFound, masterPins, extraMasterPins } = found.cost;
    expect({ masterPins, extraMasterPins }).toEqual(asFound);
  });
});
