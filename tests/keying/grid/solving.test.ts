/** Whole answers for tiny grids, against trying every bitting of every key by the plain definition. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partGrid } from '../../../src/keying/grid/shrink.ts';
import { solveGrid } from '../../../src/keying/grid/solve.ts';
import { runToEnd } from '../../../src/keying/system.ts';
import { noRules } from './charts.ts';
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
    const seen = new Map<string, number>();
    const saw = (name: string) => seen.set(name, (seen.get(name) ?? 0) + 1);
    fc.assert(
      fc.property(fc.nat(1e6), fc.constantFrom(...KINDS), (seed, kind) => {
        const grid = tinyGrid(seed, kind);
        const options = { ...tinyOptions(seed, grid), rules: noRules };
        const answer = runToEnd(solveGrid(grid, options));
        const possible = canBeSolved(grid, options);
        expect(answer.kind).toBe(possible ? 'solved' : 'impossible');
        if (answer.kind === 'solved') {
          saw('solved');
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
        saw(answer.reason.code);
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
      { numRuns: 60 },
    );
    for (const name of ['solved', 'search-exhausted', 'too-many-on-door', 'no-bitting-for-key'])
      expect(seen.get(name), name).toBeGreaterThan(0);
  });
});
