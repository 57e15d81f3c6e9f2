/** From a grid to what the search works on, by hand. */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { depthSetOf, EVERY } from '../../../src/keying/depthSet.ts';
import type { Grid, GridCylinder, GridKey, SolveOptions } from '../../../src/keying/grid/chart.ts';
import { fixedFaults, prepareGrid, usedBits, wholeDomain } from '../../../src/keying/grid/prepare.ts';
import { plainSpec } from '../../support/systems.ts';
import { noRules, smallSpec } from './charts.ts';
import { allCuts } from './plain.ts';

const spec = smallSpec(4, 3);
const bitting = (code: string) => bittingOf(spec, [...code].map(Number));
const chambers = (...depths: string[]) =>
  depths.map((d) => (d === '*' ? EVERY : depthSetOf([...d].map(Number))));

type Key = Omit<GridKey, 'symbol'>;
type Cylinder = Omit<GridCylinder, 'id'> & { readonly marks: readonly number[] };
const gridOf = (keys: readonly Key[], cylinders: readonly Cylinder[], of = spec): Grid => ({
  spec: of,
  keys: keys.map((key, k) => ({ symbol: `K${k}`, ...key })),
  cylinders: cylinders.map((cylinder, c) => ({ id: `C${c}`, ...cylinder })),
  marks: cylinders.map(({ marks }) => marks),
});
const prepare = (grid: Grid, options: SolveOptions = {}, domain = wholeDomain(grid)) =>
  prepareGrid(grid, { rules: noRules, ...options }, domain);

describe('classes', () => {
  it('are keys with the same marks and blank, unless each is to have its own bitting', () => {
    const grid = gridOf(
      [{}, {}, {}, { keyway: 'k1' }, { keyway: ' K1' }, { cuts: 3 }, {}],
      [{ marks: [0, 1, 3, 4, 5] }, { marks: [0, 1, 2, 3, 4, 5] }],
    );
    const alike = prepare(grid);
    expect(alike.keyClass).toEqual([0, 0, 1, 2, 2, 3, 4]);
    expect(alike.keysIn).toEqual([[0, 1], [2], [3, 4], [5], [6]]);
    expect(alike.instance).toMatchObject({
      keys: 5,
      distinct: false,
      cylindersOf: [[0, 1], [1], [0, 1], [0, 1], []],
      keysOf: [
        [0, 2, 3],
        [0, 1, 2, 3],
      ],
    });
    const lengths = gridOf([{ cuts: 3 }, { cuts: 2 }, {}], [{ marks: [0, 1, 2] }]);
    expect(prepare(lengths).keyClass).toEqual([0, 1, 2]);
    const different = prepare(grid, { sameMarks: 'different' });
    expect(different.keyClass).toEqual([0, 1, 2, 3, 4, 5, 6]);
    expect(different.instance.distinct).toBe(true);
  });

  it('are existing keys by their cuts as well, even where new ones are to differ', () => {
    const [a, b] = [{ bitting: bitting('0120') }, { bitting: bitting('0121') }];
    const grid = gridOf([a, b, {}, a], [{ marks: [0, 1, 2, 3] }]);
    for (const sameMarks of ['alike', 'different'] as const) {
      const { keysIn, instance } = prepare(grid, { sameMarks });
      expect(keysIn).toEqual([[0, 3], [1], [2]]);
      expect(instance.fixedCuts).toEqual([a.bitting, b.bitting, undefined]);
    }
  });

  it('are cylinders of the same keys and metal; a new one without a mark is in none', () => {
    const there = chambers('0', '01', '2', '*');
    const short = [true, true, true, false];
    const one: Cylinder = { marks: [0, 1] };
    const grid = gridOf(
      [{}, {}],
      [
        one,
        { marks: [] },
        one,
        { ...one, inUse: short },
        { ...one, chambers: there },
        { ...one, keyway: 'k1' },
        { ...one, keyway: 'K1 ' },
        { ...one, control: bitting('0000') },
        { marks: [], chambers: there },
        { marks: [1] },
        { ...one, inUse: [true, true, true, true] },
        { ...one, chambers: chambers('0', '01', '2', '2') },
        { ...one, control: bitting('0001') },
      ],
    );
    const { cylinderClass, cylindersIn, instance } = prepare(grid);
    expect(cylinderClass).toEqual([0, -1, 0, 1, 2, 3, 3, 4, 5, 6, 0, 7, 8]);
    expect(cylindersIn).toEqual([[0, 2, 10], [3], [4], [5, 6], [7], [8], [9], [11], [12]]);
    expect(instance.cylinders).toBe(9);
    expect(instance.inUse).toEqual([15, 7, 7, 15, 15, 7, 15, 15, 15]);
    expect(instance.fixedSets.map(Boolean)).toEqual([
      false,
      false,
      true,
      false,
      false,
      true,
      false,
      true,
      false,
    ]);
    expect(instance.fixedSets[2]).toEqual(there);
  });

  it('are avoided bittings and control cuts once each, if no existing key has them', () => {
    const grid = gridOf(
      [{ bitting: bitting('0120') }, {}],
      [
        { marks: [0, 1], control: bitting('1111') },
        { marks: [1], control: bitting('2222') },
      ],
    );
    const avoid = ['0120', '0000', '2222', '0000'].map(bitting);
    const { keysIn, instance } = prepare(grid, { avoid });
    expect(keysIn).toEqual([[0], [1], [], [], []]);
    expect(instance.fixedCuts).toEqual([
      bitting('0120'),
      undefined,
      bitting('0000'),
      bitting('2222'),
      bitting('1111'),
    ]);
    expect(instance.avoided).toEqual([false, false, true, true, true]);
    expect(instance.cylindersOf).toEqual([[0], [0, 1], [], [], []]);
    expect(instance.reach.slice(2)).toEqual([-1, -1, -1]);
  });
});

describe('depths', () => {
  it('are all of the spec, or those asked for; an existing key has its own, whatever is asked', () => {
    const grid = gridOf([{}, { bitting: bitting('0212') }], [{ marks: [0, 1] }]);
    expect(wholeDomain(grid)).toEqual([7, 7, 7, 7]);
    expect([...prepare(grid, {}, [1, 3, 7, 2]).instance.domain]).toEqual([1, 3, 7, 2, 1, 4, 2, 4]);
  });

  it('of a new key are those at which each of its existing cylinders shears', () => {
    const grid = gridOf(
      [{}, {}, { bitting: bitting('2222') }],
      [
        { marks: [0, 1, 2], chambers: chambers('01', '12', '*', '2') },
        { marks: [0], chambers: chambers('12', '12', '0', '*') },
        { marks: [0, 1] },
      ],
    );
    expect([...prepare(grid).instance.domain]).toEqual([2, 6, 1, 4, 3, 6, 7, 4, 4, 4, 4, 4]);
  });

  it('of a new core are those that its control cuts leave room for, where it is pinned', () => {
    // over depth d the control cut c leaves c + 5 − d of build-up: two steps at least
    const core = plainSpec({
      positions: 4,
      depths: 8,
      increment: 0.0125,
      macs: 7,
      step: 2,
      core: { total: 12, addition: 5 },
    });
    const control = bittingOf(core, [0, 1, 2, 3]);
    const up = (n: number): number => 2 ** n - 1;
    const inUse = [true, true, false, true];
    const marks = [0];
    const domain = (cylinder: Cylinder) => [
      ...prepare(gridOf([{}], [cylinder], core)).instance.domain.slice(0, 4),
    ];
    expect(domain({ marks, control })).toEqual([up(4), up(5), up(6), up(7)]);
    expect(domain({ marks, control, inUse })).toEqual([up(4), up(5), up(8), up(7)]);
    const there = Array.from({ length: 4 }, () => depthSetOf([6, 7]));
    expect(domain({ marks, control, chambers: there })).toEqual([192, 192, 192, 192]);
    // control cuts of a spec that is none of cores limit nothing
    const flat = gridOf([{}], [{ marks, control: bitting('0000') }]);
    expect([...prepare(flat).instance.domain.slice(0, 4)]).toEqual([7, 7, 7, 7]);
  });

  it('too near each other are those nearer than a step, and matter where two of them may meet', () => {
    const near = (step: number, domain: number[], keys: Key[] = [{}]) => {
      const { instance } = prepare(gridOf(keys, [{ marks: [0] }], smallSpec(4, 4, step)), {}, domain);
      return [[...instance.near], instance.thinMatters];
    };
    expect(near(1, [15, 15, 15, 15])).toEqual([[0, 0, 0, 0], false]);
    expect(near(2, [15, 15, 15, 15])).toEqual([[2, 5, 10, 4], true]);
    expect(near(3, [9, 9, 9, 9])).toEqual([[6, 13, 11, 6], false]);
    expect(near(2, [5, 5, 5, 10])[1]).toBe(false);
    expect(near(2, [5, 5, 5, 11])[1]).toBe(true);
    const there = (...cuts: number[]) => [{}, { bitting: bittingOf(smallSpec(4, 4), cuts) }];
    expect(near(2, [5, 5, 5, 5], there(0, 2, 0, 0))[1]).toBe(false);
    expect(near(2, [5, 5, 5, 5], there(0, 2, 3, 0))[1]).toBe(true);
  });
});

describe('what a blank shuts out', () => {
  it('is kept by key and cylinder, where there are blanks', () => {
    const keys: Key[] = [{ keyway: 'K1' }, { cuts: 3 }, {}];
    const grid = gridOf(keys, [
      { marks: [2], keyway: 'K2' },
      { marks: [0], keyway: 'K1' },
      { marks: [1], inUse: [true, true, true, false] },
    ]);
    const { instance } = prepare(grid, { avoid: [bitting('0000')] });
    expect([...instance.shut!]).toEqual([1, 0, 0, 1, 1, 0, 0, 0, 0, 0, 0, 0]);
    expect(instance.reach.map((bits) => bits & 15)).toEqual([15, 7, 15, 15]);
    const plain = gridOf(
      [{}, {}, {}],
      grid.marks.map((marks) => ({ marks })),
    );
    expect(prepare(plain).instance.shut).toBeUndefined();
  });
});

describe('options', () => {
  const grid = gridOf([{}, {}], [{ marks: [0], control: bitting('0101') }, { marks: [1] }]);

  it('are handed on, or stand at a difference of one and every depth', () => {
    expect(prepare(grid).instance).toMatchObject({
      spec,
      positions: 4,
      depths: 3,
      mostDepths: 3,
      minimumDifference: 1,
    });
    const given = { mostDepths: 2, minimumDifference: 3 };
    expect(prepare(grid, given).instance).toMatchObject(given);
  });

  it('say which bittings are usable: those that the rules let pass, are not avoided and pull no core', () => {
    const { usable } = prepare(grid, {
      avoid: [bitting('2222')],
      rules: { ...noRules, macs: true },
    }).instance;
    const barred = allCuts(spec).filter((cuts) => !usable(cuts));
    expect(barred.map((cuts) => cuts.join(''))).toEqual(['0101', '2222']);
    const tight = { ...grid, spec: smallSpec(4, 3, 1, 1) };
    const passed = allCuts(spec).filter((cuts) =>
      prepare(tight, { rules: { ...noRules, macs: true } }).instance.usable(cuts),
    );
    expect(passed.map((cuts) => cuts.join(''))).toEqual(
      allCuts(spec)
        .filter((cuts) => cuts.every((cut, i) => i === 0 || Math.abs(cut - cuts[i - 1]!) < 2))
        .map((cuts) => cuts.join(''))
        .filter((code) => code !== '0101'),
    );
    // a core of three chambers is pulled whatever the fourth cut
    const inUse = [true, true, true, false];
    const short = { ...grid, cylinders: [{ ...grid.cylinders[0]!, inUse }, grid.cylinders[1]!] };
    const pulling = allCuts(spec).filter((cuts) => !prepare(short).instance.usable(cuts));
    expect(pulling.map((cuts) => cuts.join(''))).toEqual(['0100', '0101', '0102']);
  });

  it('left out are the rules that hold without a word: four equal cuts are none', () => {
    const { instance } = prepareGrid(grid, {}, wholeDomain(grid));
    expect(instance.usable(bitting('2222'))).toBe(false);
    expect(instance.usable(bitting('0121'))).toBe(true);
  });
});

describe('chambers in use', () => {
  it('are those asked for, or those of an existing cylinder that are not empty', () => {
    const marks = [0];
    const of = (cylinder: Omit<Cylinder, 'marks'>) => usedBits(gridOf([{}], [{ marks, ...cylinder }]), 0);
    expect(of({})).toBe(15);
    expect(of({ inUse: [false, true, true, false] })).toBe(6);
    expect(of({ inUse: [true, false] })).toBe(13);
    expect(of({ chambers: chambers('0', '*', '12', '*') })).toBe(5);
    // an existing one's pins are what counts
    expect(of({ chambers: chambers('0', '*', '12', '*'), inUse: [true, true, true, false] })).toBe(5);
  });
});

describe('existing keys against existing cylinders', () => {
  it('are wrong where one opens without a mark, or has one and does not', () => {
    const keys: Key[] = [{ bitting: bitting('0000') }, {}, { bitting: bitting('1111') }];
    const cylinders: Cylinder[] = [
      { marks: [0, 1], chambers: chambers('0', '0', '0', '01') },
      { marks: [0, 2] },
      { marks: [1, 2], chambers: chambers('0', '0', '*', '01') },
    ];
    const grid = gridOf(keys, cylinders);
    expect(fixedFaults(grid)).toEqual([
      { key: 0, cylinder: 2, operates: true },
      { key: 2, cylinder: 2, operates: false },
    ]);
    // on a blank of another keyway it opens nothing
    const named = gridOf(
      keys.map((key, k) => (k === 0 ? { ...key, keyway: 'K1' } : key)),
      cylinders.map((cylinder, c) => (c === 2 ? { ...cylinder, keyway: 'K2' } : cylinder)),
    );
    expect(fixedFaults(named)).toEqual([{ key: 2, cylinder: 2, operates: false }]);
  });
});
