/** Which bittings are tried for a key, and that the best of those that fit is taken. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { depthSetOf } from '../../../src/keying/depthSet.ts';
import type { Grid, SolveOptions } from '../../../src/keying/grid/chart.ts';
import {
  choicesOf,
  construct,
  dealingOf,
  placeBest,
  presentAt,
  type Dealing,
} from '../../../src/keying/grid/construct.ts';
import { costIf } from '../../../src/keying/grid/moveCosts.ts';
import { planOf, type Plan } from '../../../src/keying/grid/plan.ts';
import { prepareGrid, wholeDomain } from '../../../src/keying/grid/prepare.ts';
import { createRandom } from '../../../src/keying/grid/random.ts';
import { GridState } from '../../../src/keying/grid/state.ts';
import { fits } from '../../../src/keying/grid/stateRules.ts';
import { noRules, plainGrid, randomGrid, randomOf, smallSpec } from './charts.ts';

const spec = smallSpec(6, 4);
const TOP = [0, 1, 2, 3, 0, 1];
const numbers = (n: number, from = 0): number[] => Array.from({ length: n }, (_, k) => from + k);
const instanceOf = (grid: Grid, options: SolveOptions = {}, domain = wholeDomain(grid)) =>
  prepareGrid(grid, { rules: noRules, ...options }, domain).instance;

/** K0 over all; K1 over K4 to K8 and K2 over K9 to K13; K3 opens the doors of K4 and K9 and one with each. */
const hierarchy = plainGrid(spec, 14, [
  ...numbers(5, 4).map((k) => [0, 1, k]),
  ...numbers(5, 9).map((k) => [0, 2, k]),
  [0, 3],
  [0, 1, 4, 5],
]);

/** Every bitting that is tried for each key, in turn: none passes as usable, so that each is gone on from. */
function tried(
  grid: Grid,
  dealing: Dealing,
  placed: Record<number, readonly number[]> = {},
  change: Partial<Plan> = {},
) {
  const instance = instanceOf(grid);
  let lists: number[][] = [];
  const barred = {
    ...instance,
    usable(cuts: ArrayLike<number>) {
      lists.push(Array.from(cuts));
      return false;
    },
  };
  const state = new GridState(barred);
  for (const [k, cuts] of Object.entries(placed)) state.place(Number(k), cuts);
  const whole = { ...planOf(instance), ...change };
  const none = { tops: [], heavy: [], ordinary: [] };
  const of = (part: Partial<Plan>): number[][] => {
    lists = [];
    construct(state, { ...whole, ...none, ...part }, TOP, dealing, createRandom(3), { steps: 0 });
    return lists;
  };
  return {
    state,
    plan: whole,
    top: (k: number) => of({ tops: [k] }),
    heavy: (k: number) => of({ heavy: [k] }),
    ordinary: (k: number) => of({ ordinary: [k] }),
  };
}

/** In how many chambers, and that the top master's cut is in none of those. */
function changes(cuts: readonly number[], base: readonly number[]): number {
  const at = cuts.flatMap((cut, i) => (cut === base[i] ? [] : [i]));
  for (const i of at) expect(cuts[i]).not.toBe(TOP[i]);
  return at.length;
}
const chambersIn = (lists: readonly (readonly number[])[], base: readonly number[]): Set<number> =>
  new Set(lists.flatMap((cuts) => cuts.flatMap((cut, i) => (cut === base[i] ? [] : [i]))));
const ANY: Dealing = { chambers: undefined, deviations: 3 };

describe('what is tried', () => {
  it('is for a top the top master’s cuts, then cuts that differ in up to three chambers', () => {
    const lists = tried(hierarchy, ANY).top(0);
    expect(lists).toHaveLength(400);
    lists.forEach((cuts, n) => expect(changes(cuts, TOP)).toBeLessThanOrEqual(n === 0 ? 0 : 1 + (n % 3)));
    expect(new Set(lists.map((cuts) => changes(cuts, TOP)))).toEqual(new Set([0, 1, 2, 3]));
    expect(lists.filter((_, n) => n > 0 && n % 3 === 0).every((cuts) => changes(cuts, TOP) === 1)).toBe(true);
    expect(chambersIn(lists, TOP).size).toBe(6);
  });

  it('is for a heavy key cuts that differ from the top master’s in so many chambers', () => {
    for (const deviations of [1, 2, 4]) {
      const lists = tried(hierarchy, { chambers: undefined, deviations }, { 0: [3, 3, 3, 0, 3, 3] }).heavy(1);
      expect(lists).toHaveLength(400);
      const found = lists.map((cuts) => changes(cuts, TOP));
      expect(Math.max(...found)).toBe(deviations);
      // the same chamber may be drawn twice
      expect(Math.min(...found)).toBeGreaterThan(0);
      expect(chambersIn(lists, TOP).size).toBe(6);
    }
  });

  it('is for a heavy key of dealt chambers the cuts of the key above it but in its own level’s', () => {
    const dealing = { chambers: [[1, 2], [4], [0, 3, 5]], deviations: 0 };
    const above = [0, 1, 3, 3, 0, 1];
    const level = Int32Array.from([0, 1, 2, ...numbers(11).map(() => 0)]);
    const asked = tried(hierarchy, dealing, { 0: above }, { level });
    for (const [k, own] of [
      [1, [1, 2]],
      [2, [4]],
    ] as const) {
      const lists = asked.heavy(k);
      for (const cuts of lists)
        cuts.forEach((cut, i) =>
          (own as readonly number[]).includes(i) ? expect(cut).not.toBe(TOP[i]) : expect(cut).toBe(above[i]),
        );
      for (const i of own) expect(new Set(lists.map((cuts) => cuts[i])).size).toBe(3);
    }
    // nobody above has cuts yet, or nobody is above: the top master's stand
    const alone = tried(hierarchy, dealing, {}, { level }).heavy(1);
    const orphan = tried(
      hierarchy,
      dealing,
      { 0: above },
      { level, parent: new Int32Array(14).fill(-1) },
    ).heavy(1);
    for (const cuts of [...alone, ...orphan]) expect(changes(cuts, [0, cuts[1]!, cuts[2]!, 3, 0, 1])).toBe(0);
  });

  it('is for an ordinary key any cuts but the top master’s, in dealt chambers under the key above it', () => {
    const lists = tried(hierarchy, ANY).ordinary(9);
    expect(lists).toHaveLength(160);
    for (const cuts of lists) expect(cuts.filter((cut, i) => cut === TOP[i])).toEqual([]);
    numbers(6).forEach((i) => expect(new Set(lists.map((cuts) => cuts[i])).size).toBe(3));
    const dealing = {
      chambers: [
        [1, 2, 4],
        [0, 3, 5],
      ],
      deviations: 0,
    };
    const above = [0, 3, 1, 3, 2, 1];
    for (const cuts of tried(hierarchy, dealing, { 2: above }).ordinary(9)) {
      expect([cuts[1], cuts[2], cuts[4]]).toEqual([3, 1, 2]);
      for (const i of [0, 3, 5]) expect(cuts[i]).not.toBe(TOP[i]);
    }
  });

  it('takes mostly depths that its doors have already, and others too', () => {
    const there = [1, 2, 3, 0, 1, 2];
    const { state, ordinary } = tried(hierarchy, ANY, { 0: TOP, 2: there });
    const lists = ordinary(9);
    expect(presentAt(state, 9, choicesOf(state.instance, TOP))).toEqual(there.map((depth) => [depth]));
    const following = lists.flatMap((cuts) => cuts.filter((cut, i) => cut === there[i])).length / (160 * 6);
    // three of five, and a third of the others
    expect(following).toBeGreaterThan(0.6);
    expect(following).toBeLessThan(0.9);
  });

  it('is near a key that it shares a door with at first, further off from try to try, then anywhere', () => {
    const near = [1, 2, 3, 0, 1, 2];
    const lists = tried(hierarchy, ANY, { 4: near }).ordinary(5);
    lists.slice(0, 120).forEach((cuts, n) => {
      expect(changes(cuts, near)).toBeLessThanOrEqual(1 + Math.floor(n / 40));
    });
    for (const [from, most] of [
      [0, 1],
      [40, 2],
      [80, 3],
    ] as const)
      expect(Math.max(...lists.slice(from, from + 40).map((cuts) => changes(cuts, near)))).toBe(most);
    expect(chambersIn(lists.slice(0, 40), near).size).toBe(6);
    expect(Math.max(...lists.slice(120).map((cuts) => changes(cuts, near)))).toBeGreaterThan(3);
    // one without cuts is nobody to be near to
    expect(
      Math.max(
        ...tried(hierarchy, ANY)
          .ordinary(5)
          .slice(0, 40)
          .map((cuts) => changes(cuts, near)),
      ),
    ).toBeGreaterThan(3);
  });

  it('is near it in dealt chambers alone, the others as the key above has them', () => {
    const dealing = {
      chambers: [
        [1, 2, 4],
        [0, 3, 5],
      ],
      deviations: 0,
    };
    const [above, near] = [
      [0, 3, 1, 3, 2, 1],
      [1, 0, 0, 1, 3, 3],
    ];
    const lists = tried(hierarchy, dealing, { 1: above, 4: near }).ordinary(5).slice(0, 40);
    const base = [1, 3, 1, 1, 2, 3];
    for (const cuts of lists) expect(changes(cuts, base)).toBeLessThanOrEqual(1);
    expect(chambersIn(lists, base)).toEqual(new Set([0, 3, 5]));
  });
});

describe('a first solution', () => {
  it('gives every key cuts, those that have some keep them, and the top has the top master’s', () => {
    const fixed = {
      ...hierarchy,
      keys: hierarchy.keys.map((key, k) =>
        k === 7 ? { ...key, bitting: bittingOf(spec, [2, 2, 1, 1, 1, 3]) } : key,
      ),
    };
    for (const dealing of [
      ANY,
      {
        chambers: [
          [1, 2],
          [0, 3, 4, 5],
        ],
        deviations: 0,
      },
    ]) {
      const instance = instanceOf(fixed);
      const state = new GridState(instance);
      const [one, heavy] = [
        [3, 2, 1, 1, 2, 2],
        [0, 3, 2, 3, 0, 1],
      ];
      state.place(12, one);
      state.place(2, heavy);
      const work = { steps: 0 };
      construct(state, planOf(instance), TOP, dealing, createRandom(1), work);
      expect(state.unplaced).toBe(0);
      expect(state.cutsOf(0)).toEqual(TOP);
      expect([state.cutsOf(12), state.cutsOf(2), state.cutsOf(7)]).toEqual([one, heavy, [2, 2, 1, 1, 1, 3]]);
      expect(work.steps).toBeGreaterThanOrEqual(11);
    }
    const state = new GridState(instanceOf(hierarchy));
    construct(state, planOf(state.instance), TOP, ANY, createRandom(1), { steps: 0 });
    expect(state.conflicts).toEqual([]);
    // a top that has cuts already keeps them as well
    const there = new GridState(instanceOf(hierarchy));
    there.place(0, [3, 3, 3, 2, 1, 0]);
    construct(there, planOf(there.instance), TOP, ANY, createRandom(1), { steps: 0 });
    expect(there.cutsOf(0)).toEqual([3, 3, 3, 2, 1, 0]);
  });
});

describe('chambers dealt to levels', () => {
  it('are listed level by level', () => {
    expect(dealingOf(['MK', 'CK', 'constant', 'CK', 'GMK', 'MK'], ['GMK', 'MK', 'CK'])).toEqual({
      deviations: 0,
      chambers: [[4], [0, 5], [1, 3]],
    });
  });
});

describe('depths to choose from', () => {
  it('are those open to some key but the top master’s, or that alone where no other is', () => {
    expect(choicesOf(instanceOf(hierarchy), TOP)).toEqual([
      [1, 2, 3],
      [0, 2, 3],
      [0, 1, 3],
      [0, 1, 2],
      [1, 2, 3],
      [0, 2, 3],
    ]);
    const keys = hierarchy.keys.map((key, k) =>
      k === 5 ? { ...key, bitting: bittingOf(spec, [3, 1, 2, 3, 0, 1]) } : key,
    );
    const instance = instanceOf({ ...hierarchy, keys }, {}, [1, 2, 4 + 1, 8 + 2, 1, 15]);
    expect(choicesOf(instance, TOP)).toEqual([[3], [1], [0], [1], [0], [0, 2, 3]]);
  });

  it('are present where each new door of the key has them', () => {
    fc.assert(
      fc.property(fc.nat(1e6), (seed) => {
        const random = randomOf(seed);
        const grid = randomGrid(spec, 6, 5, 40, seed);
        const cylinders = grid.cylinders.map((cylinder) =>
          random(4) === 0
            ? { ...cylinder, chambers: spec.centres.map(() => depthSetOf([random(4)])) }
            : cylinder,
        );
        const instance = instanceOf({ ...grid, cylinders });
        const state = new GridState(instance);
        for (let k = 1; k < instance.keys; k++)
          if (random(3) > 0)
            state.place(
              k,
              spec.centres.map(() => random(4)),
            );
        const choices = choicesOf(instance, TOP);
        const doors = instance.cylindersOf[0]!.filter((c) => !instance.fixedSets[c]);
        const present = choices.map((depths, i) =>
          depths.filter((depth) =>
            doors.every((c) =>
              instance.keysOf[c]!.some((k) => state.isPlaced(k) && state.cutsOf(k)[i] === depth),
            ),
          ),
        );
        expect(presentAt(state, 0, choices)).toEqual(present);
      }),
    );
  });
});

describe('the best of the bittings tried', () => {
  it('is the first that costs least of those that fit, and nothing is tried after one without a conflict', () => {
    let seen = 0;
    fc.assert(
      fc.property(fc.nat(1e6), (seed) => {
        const random = randomOf(seed);
        const three = smallSpec(4, 3, 1 + random(2));
        const grid = randomGrid(three, 5, 4, 40, seed);
        const options = { minimumDifference: 1 + random(2), mostDepths: 2 + random(2) };
        const instance = instanceOf(grid, options);
        const anyCuts = () => three.centres.map(() => random(3));
        const state = new GridState(instance);
        for (let k = 1; k < instance.keys; k++) {
          const cuts = anyCuts();
          if (fits(state, k, cuts)) state.place(k, cuts);
        }
        const tries = 1 + random(6);
        const lists = numbers(tries).map(anyCuts);
        const costs = lists.map((cuts) =>
          fits(state, 0, cuts) ? costIf(state, 0, cuts, Infinity) : Infinity,
        );
        const least = Math.min(...costs);
        const work = { steps: 10 };
        const found = placeBest(state, 0, tries, work, (n, to) =>
          lists[n]!.forEach((cut, i) => (to[i] = cut)),
        );
        expect(found).toBe(least);
        expect(work.steps).toBe(10 + (costs.includes(0) ? costs.indexOf(0) + 1 : tries));
        expect(state.isPlaced(0)).toBe(least < Infinity);
        if (least < Infinity) {
          expect(state.cutsOf(0)).toEqual(lists[costs.indexOf(least)]);
          if (least > 0) seen++;
        }
      }),
      { numRuns: 200 },
    );
    expect(seen).toBeGreaterThan(0);
  });
});
