/** The structured search: what it tries under which top master, by hand, and that it ends as it says. */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import type { Grid, SolveOptions } from '../../../src/keying/grid/chart.ts';
import { dealShortage, domainUnder, searchGrid } from '../../../src/keying/grid/search.ts';
import { noRules, plainGrid, smallSpec } from './charts.ts';
import { allCuts, isRight, solvedGrid } from './plain.ts';

const numbers = (n: number, from = 0): number[] => Array.from({ length: n }, (_, k) => from + k);
const spec = smallSpec(4, 4);
const bitting = (code: string, of = spec) => bittingOf(of, [...code].map(Number));

function search(grid: Grid, options: SolveOptions = {}, until = 40_000, work = { steps: 0 }) {
  const steps = searchGrid(grid, { rules: noRules, ...options }, work, until);
  for (;;) {
    const next = steps.next();
    if (!next.done) continue;
    const found = next.value;
    const cuts = found?.prepared.keyClass.map((k) => found.state.cutsOf(k)) ?? [];
    return { found, cuts, work };
  }
}
/** A master over keys with a door each. */
const doors = (n: number, of = spec): Grid =>
  plainGrid(
    of,
    n + 1,
    numbers(n, 1).map((k) => [0, k]),
  );

describe('the search', () => {
  it('solves most of what was made from a solution, existing keys and blanks included', () => {
    let [tried, solved] = [0, 0];
    for (let seed = 101; tried < 12; seed++) {
      const { grid, options, cuts } = solvedGrid(seed);
      if (!isRight(grid, options, cuts)) continue;
      tried++;
      const { found, cuts: made } = search(grid, options);
      if (!found?.solved) continue;
      solved++;
      expect(isRight(grid, options, made), `seed ${seed}`).toBe(true);
    }
    // the rest has a solution under no top master that was drawn, or is left to complete search
    expect(solved).toBeGreaterThan(7);
  });

  it('solves a hierarchy with two masters, whose keys differ from one another', () => {
    const grid = plainGrid(smallSpec(6, 4), 19, [
      ...numbers(8, 3).map((k) => [0, 1, k]),
      ...numbers(8, 11).map((k) => [0, 2, k]),
    ]);
    const { found, cuts } = search(grid);
    expect(found?.solved).toBe(true);
    expect(isRight(grid, { rules: noRules }, cuts)).toBe(true);
    // the widest key has the top master's cuts
    expect(cuts[0]).toEqual(found!.top);
  });

  it('gives the best attempt when its steps are used up, and none where there is no step', () => {
    // 13 keys under a master and 16 bittings in one step: no more than six can be told apart
    const { found, work } = search(doors(12, smallSpec(4, 2)), {}, 12_000);
    expect(found?.solved).toBe(false);
    expect(found!.state.conflicts.length + found!.state.unplaced).toBeGreaterThan(0);
    expect(work.steps).toBeGreaterThanOrEqual(12_000);
    expect(search(doors(3), {}, 0).found).toBeUndefined();
    expect(search(doors(3), {}, 500, { steps: 500 }).found).toBeUndefined();
  });
});

describe('more steps', () => {
  it('never give a worse attempt', () => {
    const wrong = [1, 11_000, 22_000, 34_000, 50_000].map((until) => {
      const { found } = search(doors(11, smallSpec(4, 2)), {}, until);
      return found!.state.conflicts.length + found!.state.unplaced;
    });
    expect(wrong).toEqual([...wrong].sort((a, b) => b - a));
  });
});

describe('the top master', () => {
  const top = (grid: Grid, options: SolveOptions = {}) => search(grid, options).found?.top.join('');

  it('is the one that is asked for, and keys keep its parity and constant cuts', () => {
    const steps = smallSpec(4, 4, 2);
    const options = { topMaster: bitting('1032', steps), constant: [2] };
    const { found, cuts } = search(doors(3, steps), options);
    expect(found).toMatchObject({ solved: true, top: options.topMaster });
    for (const own of cuts) {
      expect(own[2]).toBe(3);
      own.forEach((cut, i) => expect(Math.abs(cut - options.topMaster[i]!) % 2).toBe(0));
    }
  });

  it('is an existing key that opens two doors at least: the widest, whatever stands first', () => {
    const grid = doors(5);
    const there = (cuts: Record<number, string>, marks = grid.marks): Grid => ({
      ...grid,
      keys: grid.keys.map((key, k) => (cuts[k] ? { ...key, bitting: bitting(cuts[k]) } : key)),
      marks,
    });
    expect(top(there({ 0: '3210' }))).toBe('3210');
    const second = grid.marks.map((marked, c) => (c > 2 ? [...marked, 1].sort((a, b) => a - b) : marked));
    expect(top(there({ 0: '3210', 1: '0123' }, second))).toBe('3210');
    const turned = second.map((marked) => marked.map((k) => (k < 2 ? 1 - k : k)).sort((a, b) => a - b));
    expect(top(there({ 0: '0123', 1: '3210' }, turned))).toBe('3210');
    // one that opens a single door is no master
    expect(top(there({ 2: '3210' }))).not.toBe('3210');
  });

  it('is a usable bitting that is not avoided, where they are few', () => {
    const few = smallSpec(4, 2);
    const all = allCuts(few).map((cuts) => bittingOf(few, cuts));
    for (const left of [3, 9]) {
      const avoid = all.filter((_, n) => n !== left);
      expect(top(plainGrid(few, 1, [[0]]), { avoid })).toBe(all[left]!.join(''));
    }
    expect(top(plainGrid(few, 1, [[0]]), { avoid: all })).toBeUndefined();
    const even = { ...noRules, fewDepths: true, leastDepths: 9, leastDepthsFrom: 1 };
    expect(top(plainGrid(few, 1, [[0]]), { rules: even })).toBeUndefined();
    expect(top(plainGrid(smallSpec(8, 4), 1, [[0]]), { rules: even })).toBeUndefined();
  });

  it('is another for another seed', () => {
    const of = (seed: number, grid: Grid) => top(grid, { seed });
    for (const grid of [doors(3), doors(3, smallSpec(8, 4))]) {
      expect(of(1, grid)).toBe(of(1, grid));
      expect(new Set(numbers(6).map((seed) => of(seed, grid))).size).toBeGreaterThan(1);
      expect(top(grid)).toBe(of(1, grid));
    }
  });
});

describe('depths under a top master', () => {
  it('are whole steps from it, its own at constant positions, and all where an existing key departs from that', () => {
    const steps = smallSpec(4, 5, 2);
    const grid = doors(2, steps);
    const cuts = [0, 1, 2, 3];
    expect(domainUnder(grid, {}, cuts)).toEqual([0b10101, 0b01010, 0b10101, 0b01010]);
    expect(domainUnder(grid, { constant: [0, 3] }, cuts)).toEqual([0b00001, 0b01010, 0b10101, 0b01000]);
    const keys = grid.keys.map((key, k) => (k === 1 ? { ...key, bitting: bitting('4221', steps) } : key));
    expect(domainUnder({ ...grid, keys }, {}, cuts)).toEqual([0b10101, 0b11111, 0b10101, 0b01010]);
    expect(domainUnder(doors(2), {}, cuts)).toEqual([15, 15, 15, 15]);
    // in three steps 1 goes with 4, 2 with 5, and 4 is three from 1
    const three = doors(2, smallSpec(4, 7, 3));
    expect(domainUnder(three, {}, [1, 2, 0, 4])).toEqual([0b0010010, 0b0100100, 0b1001001, 0b0010010]);
    const there = three.keys.map((key, k) =>
      k === 1 ? { ...key, bitting: bitting('4531', three.spec) } : key,
    );
    expect(domainUnder({ ...three, keys: there }, {}, [1, 2, 0, 4])).toEqual([
      0b0010010, 0b0100100, 0b1001001, 0b0010010,
    ]);
  });
});

describe('a hierarchy that no dealing has room for', () => {
  const short = (grid: Grid) => {
    const { found } = search(grid, {}, 10_000);
    return found && dealShortage(grid, found);
  };
  const three = smallSpec(4, 3);
  /** Masters under the top, with so many keys under each. */
  const groups = (of: typeof spec, ...sizes: number[]): Grid => {
    let next = 1 + sizes.length;
    const marks = sizes.flatMap((size, g) => {
      const own = numbers(size, next).map((k) => [0, 1 + g, k]);
      next += size;
      return own;
    });
    return plainGrid(of, next, marks);
  };

  it('is told with the level that is shortest of room, and who stands over it', () => {
    // two masters take one position of two changes, which leaves 2³ = 8 changes under each
    expect(short(groups(three, 16, 15))).toEqual({
      code: 'no-dealing-fits',
      under: 'K2',
      needed: 16,
      possible: 8,
    });
    expect(short(groups(three, 15, 16))).toMatchObject({ under: 'K3', needed: 16 });
    expect(short(groups(three, 8, 8))).toBeUndefined();
    expect(short(groups(three, 9, 8))).toMatchObject({ needed: 9, possible: 8 });
  });

  it('is told of two levels of masters', () => {
    // K2 over K3 and K4 with nine keys each, K5 over twelve: one position tells K2 from K5, one K3 from K4, which leaves
    // two of two changes each
    const marks = [
      ...numbers(9, 5).map((k) => [0, 1, 2, k]),
      ...numbers(9, 14).map((k) => [0, 1, 3, k]),
      ...numbers(12, 23).map((k) => [0, 4, k]),
    ];
    expect(short(plainGrid(three, 35, marks))).toEqual({
      code: 'no-dealing-fits',
      under: 'K5',
      needed: 12,
      possible: 4,
    });
  });

  it('is told of none that is no hierarchy', () => {
    expect(short(doors(9, smallSpec(4, 2)))).toBeUndefined();
    // every master's doors are half of another's
    const ring = numbers(6).flatMap((g) =>
      numbers(3).map((n) => [0, 1 + g, 1 + ((g + 1) % 6), 7 + 3 * g + n]),
    );
    const marks = ring.map((list) => [...list].sort((a, b) => a - b));
    expect(short(plainGrid(smallSpec(4, 2), 25, marks))).toBeUndefined();
  });
});
