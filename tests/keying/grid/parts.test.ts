/** The small parts of grid solving, each by itself: figures by hand, or against writing everything out. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { depthSetOf, EVERY, NONE } from '../../../src/keying/depthSet.ts';
import {
  fixedCylinder,
  fixedKey,
  gridOf,
  type Grid,
  type SolveOptions,
} from '../../../src/keying/grid/chart.ts';
import { controlLines, controlProblem, depthsUnder, pullsOne } from '../../../src/keying/grid/controls.ts';
import { openDomains, searchEverything } from '../../../src/keying/grid/everything.ts';
import { bitCount, isFixedKey, lowestBit } from '../../../src/keying/grid/instance.ts';
import { skippedLevels } from '../../../src/keying/grid/levels.ts';
import { prepareGrid, wholeDomain } from '../../../src/keying/grid/prepare.ts';
import { createRandom } from '../../../src/keying/grid/random.ts';
import { partGrid, shrink } from '../../../src/keying/grid/shrink.ts';
import { hasBlanks, reachOfKey, whyShut } from '../../../src/keying/grid/shut.ts';
import { firstOfLots } from '../../../src/keying/grid/symmetry.ts';
import { pinsOf } from '../../../src/keying/grid/verify.ts';
import { partOf } from '../../../src/keying/grid/wide.ts';
import { plainSpec } from '../../support/systems.ts';
import { noRules, plainGrid, smallSpec } from './charts.ts';
import { allCuts } from './plain.ts';

const spec = smallSpec(4, 3);
const cuts = (code: string) => bittingOf(spec, [...code].map(Number));
const drain = <T>(steps: Generator<number, T, void>): T => {
  for (;;) {
    const next = steps.next();
    if (next.done) return next.value;
  }
};

describe('a grid from records', () => {
  it('takes keys and cylinders whole or by name, a mark once, in the order of the keys', () => {
    const marks = ['B D1', 'a d1 ', 'B D1', 'A D2', 'A nowhere', 'nobody D1'].map((mark) => {
      const [key, cylinder] = mark.split(' ') as [string, string];
      return { key, cylinder };
    });
    const grid = gridOf(spec, ['A', { symbol: 'B', cuts: 3 }], [{ id: 'D1', keyway: 'K1' }, 'D2'], marks);
    expect(grid).toEqual({
      spec,
      keys: [{ symbol: 'A' }, { symbol: 'B', cuts: 3 }],
      cylinders: [{ id: 'D1', keyway: 'K1' }, { id: 'D2' }],
      marks: [[0, 1], [0]],
    });
    expect(gridOf(spec, [], [], [], { K1: ['K2'] }).enters).toEqual({ K1: ['K2'] });
  });

  it('holds existing ones with what a blank and a core have, and nothing more', () => {
    const key = { symbol: 'A', bitting: cuts('0120') };
    expect(fixedKey({ ...key, level: 'CK', status: 'issued' } as never)).toEqual(key);
    expect(fixedKey({ ...key, keyway: 'K1', cuts: 3 })).toEqual({ ...key, keyway: 'K1', cuts: 3 });
    const cylinder = { id: 'D1', chambers: [EVERY, EVERY, EVERY, EVERY] };
    expect(fixedCylinder({ ...cylinder, symbol: 'A' } as never)).toEqual(cylinder);
    const core = { ...cylinder, keyway: 'K1', control: cuts('0000') };
    expect(fixedCylinder(core)).toEqual(core);
  });
});

describe('bits', () => {
  it('are counted and found as a string of them shows', () => {
    fc.assert(
      fc.property(fc.integer(), (bits) => {
        const text = (bits >>> 0).toString(2);
        expect(bitCount(bits)).toBe([...text].filter((sign) => sign === '1').length);
        if (bits !== 0) expect(lowestBit(bits)).toBe(text.length - 1 - text.lastIndexOf('1'));
      }),
    );
  });
});

describe('seeded numbers', () => {
  /** xorshift with the shifts 13, 17 and 5 on words of 32 bits: Marsaglia, Xorshift RNGs, 2003, by plain arithmetic. */
  const marsaglia = (word: bigint): bigint => {
    const cut = (n: bigint): bigint => n & 0xffff_ffffn;
    const a = cut(word ^ (word << 13n));
    const b = a ^ (a >> 17n);
    return cut(b ^ (b << 5n));
  };

  it('are those of the paper from one to the next, and repeat with the seed', () => {
    for (const seed of [1, 2, 77]) {
      const { below } = createRandom(seed);
      const again = createRandom(seed);
      let last = below(2 ** 32);
      expect(again.below(2 ** 32)).toBe(last);
      for (let n = 0; n < 50; n++) {
        const next = below(2 ** 32);
        expect(BigInt(next)).toBe(marsaglia(BigInt(last)));
        expect(again.below(2 ** 32)).toBe(next);
        last = next;
      }
    }
    expect(createRandom(1).below(2 ** 32)).not.toBe(createRandom(2).below(2 ** 32));
  });

  it('stay below their limit and come to each number; a shuffled list has every item, and the old one stays', () => {
    const random = createRandom(5);
    expect(new Set(Array.from({ length: 200 }, () => random.below(5)))).toEqual(new Set([0, 1, 2, 3, 4]));
    const items = [0, 1, 2, 3];
    const orders = Array.from({ length: 600 }, () => random.shuffled(items).join(''));
    expect(items).toEqual([0, 1, 2, 3]);
    expect(random.shuffled(items)).toHaveLength(4);
    // all 4! orders, the rarest of them no less than a third of its share of 25
    const counts = new Map<string, number>();
    for (const order of orders) counts.set(order, (counts.get(order) ?? 0) + 1);
    expect(counts.size).toBe(24);
    expect(Math.min(...counts.values())).toBeGreaterThan(8);
    for (const order of counts.keys()) expect([...order].sort().join('')).toBe('0123');
  });
});

describe('blanks of a grid', () => {
  const named = (key: object, cylinder: object): Grid => ({
    ...plainGrid(spec, 2, [[0], [1]]),
    keys: [{ symbol: 'A', ...key }, { symbol: 'B' }],
    cylinders: [{ id: 'D1', ...cylinder }, { id: 'D2' }],
  });

  it('matter where one is short, or keyways are named on both sides', () => {
    expect(hasBlanks(named({}, {}))).toBe(false);
    expect(hasBlanks(named({ keyway: 'K1' }, {}))).toBe(false);
    expect(hasBlanks(named({}, { keyway: 'K1' }))).toBe(false);
    expect(hasBlanks(named({ keyway: 'K1' }, { keyway: 'K1' }))).toBe(true);
    expect(hasBlanks(named({ cuts: 3 }, {}))).toBe(true);
  });

  it('say why they never turn: the first pinned chamber in the order of the code without a cut', () => {
    const tip = plainSpec({ positions: 4, depths: 5, increment: 0.025, macs: 4, order: 'tip-to-bow' });
    for (const [order, from, to] of [
      [spec, 3, 4],
      [tip, 1, 2],
    ] as const) {
      const grid = { ...named({ cuts: 2, keyway: 'K1' }, { keyway: 'K1' }), spec: order };
      const why = (pinned: number) => whyShut(grid, 0, 0, pinned);
      const short = (chamber: number) => ({ code: 'blank-too-short', key: 'A', cylinder: 'D1', chamber });
      expect(why(0b1111)).toEqual(short(from));
      expect(why(0b1111 & ~(1 << (from - 1)))).toEqual(short(to));
      expect(why(0b1111 & ~(1 << (from - 1)) & ~(1 << (to - 1)))).toBeUndefined();
      expect(why(1 << (from - 1))).toEqual(short(from));
      expect(reachOfKey(grid, 0)).toBe(0b1111 & ~(1 << (from - 1)) & ~(1 << (to - 1)));
    }
    const other = named({ keyway: 'K2' }, { keyway: 'K1' });
    const doesNot = { code: 'blank-does-not-enter', key: 'A', cylinder: 'D1' };
    expect(whyShut(other, 0, 0, 0b1111)).toEqual(doesNot);
    expect(whyShut({ ...other, enters: { K2: ['K1'] } }, 0, 0, 0b1111)).toBeUndefined();
    expect(whyShut(other, 1, 0, 0b1111)).toBeUndefined();
  });
});

describe('control lines', () => {
  // total 12, addition 5, two steps: over depth d the control cut c leaves c + 5 − d of build-up and 7 − c on top
  const core = plainSpec({
    positions: 4,
    depths: 8,
    increment: 0.0125,
    macs: 7,
    step: 2,
    core: { total: 12, addition: 5 },
  });
  const control = (code: string) => bittingOf(core, [...code].map(Number));
  const depthsBits = (n: number): number => 2 ** n - 1;

  it('leave room over depths by the stack’s sum', () => {
    expect([0, 1, 2, 3, 4, 5, 6, 7].map((c) => depthsUnder(core, c))).toEqual(
      [4, 5, 6, 7, 8, 8, 0, 0].map(depthsBits),
    );
    expect(depthsUnder(spec, 0)).toBe(depthsBits(3));
  });

  it('are one for each control bitting and set of pinned chambers', () => {
    const grid: Grid = {
      ...plainGrid(core, 1, [[0], [0], [0], [0]]),
      cylinders: [
        { id: 'D1', control: control('1234') },
        { id: 'D2', control: control('1234') },
        { id: 'D3', control: control('1235') },
        { id: 'D4' },
      ],
    };
    const lines = (pinned: (c: number) => number) => controlLines(grid, pinned);
    expect(lines(() => 15)).toEqual([
      { control: control('1234'), pinned: 15 },
      { control: control('1235'), pinned: 15 },
    ]);
    expect(lines((c) => (c === 1 ? 7 : 15))).toHaveLength(3);
    const one = lines(() => 0b0111);
    expect(pullsOne(one, control('1237'))).toBe(true);
    expect(pullsOne(one, control('1247'))).toBe(false);
    expect(
      pullsOne(
        lines(() => 15),
        control('1235'),
      ),
    ).toBe(true);
    expect(pullsOne([], control('1235'))).toBe(false);
  });

  it('are wrong where a pinned chamber has no room, or an existing key has the cuts', () => {
    const grid = (cylinder: object, key: object = {}): Grid => ({
      ...plainGrid(core, 1, [[0]]),
      keys: [{ symbol: 'A', ...key }],
      cylinders: [{ id: 'D1', ...cylinder }],
    });
    const problem = (g: Grid, pinned = 15) => controlProblem(g, () => pinned);
    expect(problem(grid({ control: control('1264') }))).toEqual({
      code: 'control-without-room',
      cylinder: 'D1',
      chamber: 3,
    });
    expect(problem(grid({ control: control('1264') }), 0b1011)).toBeUndefined();
    expect(problem(grid({}))).toBeUndefined();
    const taken = grid({ control: control('1234') }, { bitting: control('1235') });
    expect(problem(taken)).toBeUndefined();
    expect(problem(taken, 0b0111)).toEqual({ code: 'control-is-a-key', key: 'A', cylinder: 'D1' });
    const existing = { control: control('1264'), chambers: [EVERY, EVERY, EVERY, EVERY] };
    expect(problem(grid(existing))).toBeUndefined();
  });
});

describe('depths open to new keys', () => {
  const grid = plainGrid(spec, 1, [[0]]);

  it('are tried once for each way to choose the constant cuts', () => {
    expect(openDomains(grid, {})).toEqual([[7, 7, 7, 7]]);
    const ways = openDomains(grid, { constant: [1, 3, 1] })!;
    const plain = [1, 2, 4].flatMap((b) => [1, 2, 4].map((d) => [7, b, 7, d].join()));
    expect(ways.map(String).sort()).toEqual(plain.sort());
    expect(openDomains(grid, { topMaster: cuts('0120'), constant: [2] })).toEqual([[7, 7, 4, 7]]);
  });

  it('are too many ways beyond 512', () => {
    const of = (depths: number) =>
      openDomains(plainGrid(smallSpec(4, depths), 1, [[0]]), { constant: [0, 1, 2] });
    expect(of(8)).toHaveLength(512);
    expect(of(9)).toBeUndefined();
  });
});

describe('trying everything', () => {
  const narrow = smallSpec(4, 2);
  const own = (keys: number) =>
    plainGrid(
      narrow,
      keys,
      Array.from({ length: keys }, (_, k) => [k]),
    );
  const everything = (grid: Grid, options: SolveOptions, until = 100_000) =>
    drain(searchEverything(grid, { rules: noRules, ...options }, { steps: 0 }, until));

  it('goes on to the next way to choose the constant cuts, and ends where one does', () => {
    const constant = [0, 1, 2];
    // both bittings that begin with 000 are taken
    const avoid = [0, 1].map((d) => bittingOf(narrow, [0, 0, 0, d]));
    const found = everything(own(2), { constant, avoid });
    if (found.kind !== 'solved') throw new Error(found.kind);
    const cutsOf = [0, 1].map((k) => found.state.cutsOf(k));
    expect(cutsOf.map((c) => c.slice(0, 3).join(''))).not.toContain('000');
    expect(cutsOf[0]!.slice(0, 3)).toEqual(cutsOf[1]!.slice(0, 3));
    expect(found.prepared.keysIn.slice(0, 2)).toEqual([[0], [1]]);
    expect(everything(own(3), { constant })).toEqual({ kind: 'none' });
  });

  it('gives up where the ways are too many or the steps used up', () => {
    expect(everything(plainGrid(smallSpec(4, 9), 1, [[0]]), { constant: [0, 1, 2] })).toEqual({
      kind: 'gave-up',
    });
    expect(everything(own(3), {}, 0)).toEqual({ kind: 'gave-up' });
  });
});

describe('skipped levels', () => {
  const names = (grid: Grid) =>
    skippedLevels(grid).map((found) =>
      found.code === 'skips-level' ? `${found.key} at ${found.cylinder}` : '',
    );
  // K1 over all doors, K2 over those of K3 to K7, K8 over those of K9 to K13
  const doors = [
    ...[2, 3, 4, 5, 6].map((k) => [0, 1, k]),
    ...[8, 9, 10, 11, 12].map((k) => [0, 7, k]),
    // shared doors, so that a master opens the greater part of a key's doors beside one that it does not
    [0, 1, 2, 3],
    [0, 7, 9, 10],
  ];
  const grid = (...more: number[][]) => plainGrid(smallSpec(6, 4), 13, [...doors, ...more]);

  it('are those between two keys that a door is marked for', () => {
    expect(names(grid())).toEqual([]);
    expect(names(grid([0, 2]))).toEqual(['K2 at C13']);
    expect(names(grid([0, 9], [0, 3]))).toEqual(['K8 at C13', 'K2 at C14']);
    // whatever the order of the keys
    const turned = grid([0, 2]);
    const marks = turned.marks.map((list) => list.map((k) => (k < 2 ? 1 - k : k)).sort((a, b) => a - b));
    expect(names({ ...turned, marks })).toEqual(['K1 at C13']);
    // nothing above is skipped where no key above opens the door, or the one between does
    expect(names(grid([2]))).toEqual([]);
    expect(names(grid([1, 2]))).toEqual([]);
    expect(names(grid([0, 1]))).toEqual([]);
  });

  it('are so under the widest key too where it opens few of a master’s doors', () => {
    // K2 opens seven doors, of which K1 opens three; K3 has two of those and one with K1 alone
    const plain = Array.from({ length: 40 }, (_, n) => [0, 7 + n]);
    const few = [
      [1, 3],
      [1, 4],
      [1, 5],
      [1, 6],
      [0, 1, 2],
      [0, 1, 2],
      [0, 2],
    ];
    const inUse = [false, true, true, true];
    const wide = plainGrid(smallSpec(4, 4), 47, [...plain, ...few]);
    // two doors alike would be one, so one of them has a chamber less
    const cylinders = wide.cylinders.map((c, n) => (n === 44 ? { ...c, inUse } : c));
    expect(names({ ...wide, cylinders })).toEqual(['K2 at C47']);
  });
});

describe('part of a grid', () => {
  it('keeps its marks under the new numbers', () => {
    const grid = plainGrid(spec, 4, [[0, 3], [1], [1, 2, 3]]);
    expect(partGrid(grid, [3, 1], [2, 0])).toEqual({
      spec,
      keys: [{ symbol: 'K4' }, { symbol: 'K2' }],
      cylinders: [{ id: 'C3' }, { id: 'C1' }],
      marks: [[1, 0], [0]],
    });
  });

  it('of wide keys has one cylinder for each set of them, and those that stand already', () => {
    const there = { chambers: [depthSetOf([0]), depthSetOf([1]), EVERY, EVERY] };
    const grid: Grid = {
      ...plainGrid(spec, 5, [[0, 2], [0, 3], [0, 1, 4], [3], [4], [0, 1, 2]]),
      cylinders: [
        { id: 'C1', keyway: 'K1' },
        { id: 'C2', keyway: 'K1' },
        { id: 'C3' },
        { id: 'C4', ...there },
        { id: 'C5' },
        { id: 'C6', inUse: [true, true, true, false] },
      ],
      keys: [
        { symbol: 'K1', bitting: cuts('0000') },
        { symbol: 'K2', cuts: 3, keyway: 'K2' },
        { symbol: 'K3' },
        { symbol: 'K4' },
        { symbol: 'K5' },
      ],
    };
    const { instance: whole } = prepareGrid(grid, { rules: noRules, avoid: [cuts('2222')] }, [7, 3, 7, 7]);
    const part = partOf(whole, [1, 0]);
    expect(part.keys).toEqual([1, 0]);
    // C2 is C1 without ordinary keys; C5 is for an ordinary key alone; C4 stands
    expect(part.cylinders).toEqual([0, 2, 3, 5]);
    expect(part.instance).toMatchObject({
      keys: 2,
      cylinders: 4,
      keysOf: [[1], [1, 0], [], [1, 0]],
      cylindersOf: [
        [1, 3],
        [0, 1, 3],
      ],
      fixedCuts: [undefined, cuts('0000')],
      fixedSets: [undefined, undefined, there.chambers, undefined],
      inUse: [15, 15, 3, 7],
      avoided: [false, false],
      reach: [7, -1],
    });
    // K2's blank is short everywhere but in C4 and C6, and doesn't enter K1
    expect([...part.instance.shut!]).toEqual([1, 1, 0, 0, 0, 0, 0, 0]);
    expect([...part.instance.domain]).toEqual([7, 3, 7, 7, 1, 1, 1, 1]);
  });
});

describe('the grid of wide keys', () => {
  it('keeps doors apart that a blank enters and that it does not', () => {
    const grid: Grid = {
      ...plainGrid(spec, 4, [[0, 2], [0, 3], [0]]),
      keys: [{ symbol: 'K1' }, { symbol: 'K2', keyway: 'A' }, { symbol: 'K3' }, { symbol: 'K4' }],
      cylinders: [
        { id: 'C1', keyway: 'A' },
        { id: 'C2', keyway: 'B' },
        { id: 'C3', keyway: 'A' },
      ],
    };
    const { instance } = prepareGrid(grid, { rules: noRules }, wholeDomain(grid));
    const part = partOf(instance, [0, 1]);
    expect(part.cylinders).toEqual([0, 1]);
    expect([...part.instance.shut!]).toEqual([0, 0, 0, 1]);
  });
});

describe('a conflict', () => {
  // only the last position may differ, by two depths
  const narrow = smallSpec(4, 2);
  const options = { rules: noRules, constant: [0, 1, 2] };

  it('is narrowed down to what is needed', () => {
    const own = plainGrid(narrow, 4, [[0], [1], [2], [3]]);
    const work = { steps: 0 };
    // without C1 and C2 nobody's are the last two cuts but K3's and K4's, and any third key opens one of their doors
    expect(drain(shrink(own, options, work, 1_000_000))).toEqual({
      keys: [1, 2, 3],
      cylinders: [2, 3],
      minimal: true,
    });
    expect(work.steps).toBeGreaterThan(0);
  });

  it('is found in two thousand steps for each try at least, and is not called the smallest where those are too few', () => {
    const own = (keys: number) =>
      plainGrid(
        narrow,
        keys,
        Array.from({ length: keys }, (_, k) => [k]),
      );
    expect(drain(shrink(own(4), options, { steps: 0 }, 0)).minimal).toBe(true);
    // 17 keys and 16 bittings: nobody tries all ways to give them out
    expect(drain(shrink(own(17), { rules: noRules }, { steps: 0 }, 0))).toMatchObject({ minimal: false });
  });

  it('may be of keys alone, and makes no avoided bitting of an existing key that it leaves out', () => {
    // three keys of three cuts and two depths can't all differ in two of them, if one cut is the same for all
    const alone: Grid = {
      ...plainGrid(narrow, 3, [[0]]),
      keys: ['A', 'B', 'C'].map((symbol) => ({ symbol, cuts: 3 })),
      cylinders: [{ id: 'D1', inUse: [true, true, true, false] }],
    };
    const apart = { rules: noRules, constant: [0], minimumDifference: 2, sameMarks: 'different' as const };
    expect(drain(shrink(alone, apart, { steps: 0 }, 1_000_000))).toEqual({
      keys: [0, 1, 2],
      cylinders: [],
      minimal: true,
    });
    // beside C's used cuts one bitting is left: A or B would open C's door, or both are alike and A opens B's
    const used = bittingOf(narrow, [0, 0, 0, 0]);
    const grid: Grid = {
      ...plainGrid(narrow, 3, [[0], [1], [2]]),
      keys: [{ symbol: 'A' }, { symbol: 'B' }, { symbol: 'C', bitting: used }],
    };
    const avoid = allCuts(narrow)
      .slice(0, 15)
      .map((of) => bittingOf(narrow, of));
    expect(drain(shrink(grid, { rules: noRules, avoid }, { steps: 0 }, 1_000_000))).toEqual({
      keys: [0, 1, 2],
      cylinders: [1, 2],
      minimal: true,
    });
    // A must have C's cuts and may not, because they are used: which no part shows, so that all is named
    const both: Grid = { ...grid, marks: [[0, 2], [], []] };
    expect(
      drain(shrink(both, { rules: noRules, avoid: [used], mostDepths: 1 }, { steps: 0 }, 1_000_000)),
    ).toEqual({ keys: [0, 1, 2], cylinders: [0], minimal: false });
  });

  it('leaves out cylinders that none of its keys is marked for, unless they stand already', () => {
    const chambers = ['0', '0', '0', '01'].map((depths) => depthSetOf([...depths].map(Number)));
    const grid: Grid = {
      ...plainGrid(narrow, 1, [[], []]),
      cylinders: [{ id: 'D1', chambers }, { id: 'D2' }],
    };
    // the only key opens D1 whatever its cuts, if its constant cuts are those
    const under = { ...options, topMaster: bittingOf(narrow, [0, 0, 0, 0]) };
    expect(drain(shrink(grid, under, { steps: 0 }, 1_000_000))).toEqual({
      keys: [0],
      cylinders: [0],
      minimal: true,
    });
  });
});

describe('bittings as good as one another', () => {
  const all = (positions: number, depths: number): number[][] =>
    Array.from({ length: depths ** positions }, (_, n) =>
      Array.from({ length: positions }, (__, i) => Math.floor(n / depths ** (positions - 1 - i)) % depths),
    );
  const instanceOf = (grid: Grid, domain = wholeDomain(grid)) =>
    prepareGrid(grid, { rules: noRules }, domain).instance;
  const lots = (grid: Grid, list: number[][], domain?: number[]) =>
    firstOfLots(instanceOf(grid, domain), list).filter(Boolean).length;

  it('are all one lot where any two depths may be swapped', () => {
    const grid = plainGrid(smallSpec(4, 3), 2, [[0], [1]]);
    expect(firstOfLots(instanceOf(grid), all(4, 3)).indexOf(true)).toBe(0);
    expect(lots(grid, all(4, 3))).toBe(1);
  });

  it('are five lots of four depths in two steps: so many cuts at the rim, in whatever chambers', () => {
    // 0-1-2-3 with neighbours too near: only turning it round keeps that, so 0 and 3 are alike, and 1 and 2
    const grid = plainGrid(smallSpec(4, 4, 2), 2, [[0], [1]]);
    expect(lots(grid, all(4, 4))).toBe(5);
    // a chamber that some cylinder leaves empty is like no other: rim or not there, and 0 to 3 at the rim
    const cylinders = [{ id: 'C1', inUse: [true, false, true, true] }, { id: 'C2' }];
    expect(lots({ ...grid, cylinders }, all(4, 4))).toBe(8);
    // read backwards the two that differ change places: pairs of the outer and of the inner chambers, 3 of each
    const ends = [{ id: 'C1', inUse: [false, true, true, false] }, { id: 'C2' }];
    expect(lots({ ...grid, cylinders: ends }, all(4, 4))).toBe(9);
  });

  it('are carried by such changes only as keep the list', () => {
    // neighbours at most one step apart: of all changes only reading backwards and turning the depths keep that
    const list = all(4, 4).filter((c) => c.every((cut, i) => i === 0 || Math.abs(cut - c[i - 1]!) <= 1));
    const grid = plainGrid(smallSpec(4, 4, 2), 2, [[0], [1]]);
    const images = list.map((c) => {
      const turned = c.map((cut) => 3 - cut);
      return [c, turned, [...c].reverse(), [...turned].reverse()].map((image) => image.join()).sort()[0]!;
    });
    expect(lots(grid, list)).toBe(new Set(images).size);
  });

  it('may swap two depths where those alone are too near, and turn none round', () => {
    const plain = instanceOf(plainGrid(smallSpec(4, 4, 2), 2, [[0], [1]]));
    // 0 and 1 too near each other, 2 and 3 not
    const uneven = { ...plain, near: Int32Array.from([2, 1, 0, 0]) };
    const number = (instance: typeof plain) => firstOfLots(instance, all(4, 4)).filter(Boolean).length;
    expect(number(uneven)).toBe(5);
    // 0 too near 1, 1 too near 2: 0 and 2 may be swapped, 1 and 3 are like no other
    expect(number({ ...plain, near: Int32Array.from([2, 5, 2, 0]) })).toBe(15);
  });

  it('are each a lot where something stands already, blanks differ, or depths differ from key to key', () => {
    const grid = plainGrid(smallSpec(4, 3), 2, [[0], [1]]);
    const list = all(4, 3);
    const fixed = { ...grid, keys: [{ symbol: 'A', bitting: cuts('0120') }, { symbol: 'B' }] };
    expect(lots(fixed, list)).toBe(list.length);
    const there = { id: 'C1', chambers: [depthSetOf([0]), EVERY, EVERY, EVERY] };
    expect(lots({ ...grid, cylinders: [there, { id: 'C2' }] }, list)).toBe(list.length);
    const unmarked = { id: 'C3', chambers: [depthSetOf([0]), EVERY, EVERY, EVERY] };
    expect(lots({ ...grid, cylinders: [...grid.cylinders, unmarked], marks: [[0], [1], []] }, list)).toBe(
      list.length,
    );
    const domain = Int32Array.from([3, 7, 7, 7, 7, 7, 7, 7]);
    expect(firstOfLots({ ...instanceOf(grid), domain }, list)).not.toContain(false);
    const short = { ...grid, keys: [{ symbol: 'A', cuts: 3 }, { symbol: 'B' }] };
    expect(lots(short, list)).toBe(list.length);
    // chambers of other depths: not swapped with one another, though their own depths are
    expect(
      lots(
        grid,
        list.filter((c) => c[0]! < 2),
        [3, 7, 7, 7],
      ),
    ).toBe(1);
  });
});

describe('master pins', () => {
  it('are those beyond the first of a chamber; extra ones beyond the second', () => {
    const chambers = [EVERY, NONE, depthSetOf([1]), depthSetOf([0, 2]), depthSetOf([0, 1, 2, 3])];
    expect(pinsOf(chambers, 4)).toEqual({ masterPins: 4, extra: 2 });
    expect(pinsOf([], 4)).toEqual({ masterPins: 0, extra: 0 });
  });
});

describe('a key of a class', () => {
  it('is fixed where it has a bitting', () => {
    const grid = {
      ...plainGrid(spec, 2, [[0], [1]]),
      keys: [{ symbol: 'A', bitting: cuts('0120') }, { symbol: 'B' }],
    };
    const { instance } = prepareGrid(grid, {}, wholeDomain(grid));
    expect([0, 1].map((k) => isFixedKey(instance, k))).toEqual([true, false]);
  });
});
