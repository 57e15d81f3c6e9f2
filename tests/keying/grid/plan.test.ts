/** What a grid is made of, against the definitions of each part, and a hierarchy by hand. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import type { Grid } from '../../../src/keying/grid/chart.ts';
import { planOf } from '../../../src/keying/grid/plan.ts';
import { prepareGrid, wholeDomain } from '../../../src/keying/grid/prepare.ts';
import { noRules, plainGrid, randomOf, smallSpec } from './charts.ts';

const spec = smallSpec(4, 4);
const numbers = (n: number, from = 0): number[] => Array.from({ length: n }, (_, k) => from + k);
const instanceOf = (grid: Grid, avoid: number[][] = []) =>
  prepareGrid(grid, { rules: noRules, avoid: avoid.map((cuts) => bittingOf(spec, cuts)) }, wholeDomain(grid))
    .instance;
const plan = (marks: number[][], keys: number) => planOf(instanceOf(plainGrid(spec, keys, marks)));

/** Ordinary keys with a door each, wide ones over stretches of them, some doors of two ordinary keys. */
function randomMarks(seed: number): { keys: number; marks: number[][] } {
  const random = randomOf(seed);
  const wide = 2 + random(7);
  const ordinary = 6 + random(20);
  const stretches = numbers(wide).map(() => {
    const from = random(ordinary);
    return [from, from + (random(4) === 0 ? ordinary : 4 + random(12))] as const;
  });
  const doors = [
    ...numbers(ordinary).map((k) => [k]),
    ...numbers(random(6)).map(() => [random(ordinary), random(ordinary)]),
  ];
  const marks = doors.map((own) => {
    const above = numbers(wide).filter((w) => {
      const [from, to] = stretches[w]!;
      return own.some((k) => k >= from && k < to) ? random(25) > 0 : random(40) === 0;
    });
    return [...new Set([...above, ...own.map((k) => wide + k)])].sort((a, b) => a - b);
  });
  return { keys: wide + ordinary, marks };
}

describe('a plan', () => {
  it('tells tops, heavy and ordinary keys apart, and who stands above and beside whom', () => {
    const seen = { tops: 0, heavy: 0, levels: 0, crossing: 0, linked: 0 };
    fc.assert(
      fc.property(fc.nat(1e6), (seed) => {
        const { keys, marks } = randomMarks(seed);
        // what exists is planned like the rest
        const grid = plainGrid(spec, keys, marks);
        const bitting = bittingOf(spec, [0, 1, 2, 3]);
        const standing = grid.keys.map((key, k) =>
          seed % 3 === 0 && k % 4 === 0 ? { ...key, bitting } : key,
        );
        const instance = instanceOf({ ...grid, keys: standing });
        const made = planOf(instance);
        const { cylindersOf, keysOf, cylinders } = instance;
        const all = numbers(instance.keys);
        const size = (k: number): number => cylindersOf[k]!.length;
        const common = (a: number, b: number): number =>
          cylindersOf[a]!.filter((c) => cylindersOf[b]!.includes(c)).length;
        const narrowest = (list: readonly number[]): number =>
          list.reduce((best, k) => (size(k) < size(best) ? k : best));
        const wider = (list: number[]): number[] => list.sort((a, b) => size(b) - size(a) || a - b);

        const tops = wider(all.filter((k) => cylinders > 3 && size(k) >= 0.9 * cylinders));
        const othersDoors = (k: number): number =>
          new Set(cylindersOf[k]!.map((c) => narrowest(keysOf[c]!)).filter((owner) => owner !== k)).size;
        const heavy = wider(all.filter((k) => !tops.includes(k) && othersDoors(k) > 3));
        // one that exists and opens nothing is only kept out
        const stands = (k: number): boolean => size(k) === 0 && instance.fixedCuts[k] !== undefined;
        const ordinary = all.filter((k) => !tops.includes(k) && !heavy.includes(k) && !stands(k));
        expect(made.tops).toEqual(tops);
        expect(made.heavy).toEqual(heavy);
        expect([...made.ordinary].sort((a, b) => a - b)).toEqual(ordinary);

        const wide = [...tops, ...heavy];
        for (const k of all) {
          const above = tops.includes(k)
            ? []
            : wide.filter((h) => size(h) > size(k) && common(k, h) * 2 > size(k));
          const parent = made.parent[k]!;
          if (above.length === 0) expect(parent).toBe(-1);
          else {
            expect(above).toContain(parent);
            expect(size(parent)).toBe(size(narrowest(above)));
          }
          if (!heavy.includes(k)) expect(made.level[k]).toBe(0);
          else expect(made.level[k]).toBe(parent < 0 || tops.includes(parent) ? 1 : made.level[parent]! + 1);
          const beside = ordinary.filter((o) => o !== k && ordinary.includes(k) && common(o, k) > 0);
          expect([...made.partners[k]!].sort((a, b) => a - b)).toEqual(beside);
        }
        expect(made.levels).toBe(Math.max(0, ...heavy.map((k) => made.level[k]!)));

        const groups = (list: readonly number[]): number[] => {
          const parents = list.map((k) => made.parent[k]!);
          return parents.map((parent) => parents.filter((other) => other === parent).length);
        };
        const levels = [
          ...numbers(made.levels, 1).map((n) => heavy.filter((k) => made.level[k] === n)),
          ordinary,
        ];
        expect(made.widest).toEqual(levels.map((list) => Math.max(1, ...groups(list))));
        levels.forEach((list, n) => {
          const under = list.filter((k) => made.parent[k] === made.widestUnder[n]);
          if (list.length === 0) expect(made.widestUnder[n]).toBe(-1);
          else expect(under.length).toBe(made.widest[n]);
        });

        let crossings = 0;
        heavy.forEach((k, n) => {
          for (const h of heavy.slice(0, n)) {
            const share = common(k, h) / size(k);
            if (share > 0.1 && share < 0.9) crossings++;
          }
        });
        const pairs = (heavy.length * (heavy.length - 1)) / 2;
        expect(made.crossing).toBeCloseTo(pairs === 0 ? 0 : crossings / pairs, 9);

        // linked ones follow each other: each is linked to one before it, or begins a lot that no one before is linked to
        made.ordinary.forEach((k, n) => {
          const before = made.ordinary.slice(0, n);
          const last = before.filter((o) => made.partners[k]!.includes(o));
          if (last.length > 0) seen.linked++;
          else
            for (const o of made.ordinary.slice(n))
              expect(before.some((b) => made.partners[o]!.includes(b))).toBe(false);
        });
        // the lots of most partners come first, keys without any are together under one parent
        const starts = made.ordinary.filter(
          (k, n) => !made.ordinary.slice(0, n).some((o) => made.partners[k]!.includes(o)),
        );
        const partners = starts.map((k) => made.partners[k]!.length);
        expect(partners).toEqual([...partners].sort((a, b) => b - a));
        const parents = starts.filter((k) => made.partners[k]!.length === 0).map((k) => made.parent[k]!);
        expect(parents).toEqual([...parents].sort((a, b) => a - b));
        seen.tops += tops.length;
        seen.heavy += heavy.length;
        seen.levels += made.levels;
        seen.crossing += crossings;
      }),
      { numRuns: 50, examples: [[650_073]] },
    );
    for (const count of Object.values(seen)) expect(count).toBeGreaterThan(0);
  });

  it('of a hierarchy has its levels, groups and no crossing', () => {
    // K1 over all; K2 over K4 to K8, K3 over K9 to K14; K15 and K16 under K1 alone
    const made = plan(
      [...numbers(5, 3).map((k) => [0, 1, k]), ...numbers(6, 8).map((k) => [0, 2, k]), [0, 14], [0, 15]],
      16,
    );
    expect([made.tops, made.heavy]).toEqual([[0], [2, 1]]);
    expect([...made.parent]).toEqual([-1, 0, 0, 1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2, 0, 0]);
    expect([...made.level]).toEqual([0, 1, 1, ...numbers(13).map(() => 0)]);
    expect(made).toMatchObject({ levels: 1, widest: [2, 6], widestUnder: [0, 2], crossing: 0 });
  });

  it('of few cylinders has no top', () => {
    expect(
      plan(
        [
          [0, 1],
          [0, 2],
          [0, 3],
        ],
        4,
      ).tops,
    ).toEqual([]);
    expect(
      plan(
        [
          [0, 1],
          [0, 2],
          [0, 3],
          [0, 4],
        ],
        5,
      ).tops,
    ).toEqual([0]);
    // nine of ten doors are nearly all, eight are not
    const nine = (n: number) => numbers(10).map((c) => (c < n ? [0, 1 + c] : [1 + c]));
    expect(plan(nine(9), 11)).toMatchObject({ tops: [0], heavy: [] });
    expect(plan(nine(8), 11)).toMatchObject({ tops: [], heavy: [0] });
  });

  it('has the avoided bittings and existing keys without a mark in none of its parts, new ones among the ordinary', () => {
    const grid = plainGrid(spec, 4, [[0], [1]]);
    const keys = grid.keys.map((key, k) =>
      k === 2 ? { ...key, bitting: bittingOf(spec, [3, 3, 3, 3]) } : key,
    );
    const made = planOf(instanceOf({ ...grid, keys }, [[0, 0, 0, 0]]));
    expect([...made.ordinary].sort()).toEqual([0, 1, 3]);
    expect([...made.tops, ...made.heavy]).toEqual([]);
  });
});
