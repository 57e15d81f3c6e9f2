/** Complete search and the proofs before it, against trying every bitting of every key by the plain definition. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { tooFarApart } from '../../../src/keying/grid/apart.ts';
import { tooMany } from '../../../src/keying/grid/bounds.ts';
import type { Grid, SolveOptions } from '../../../src/keying/grid/chart.ts';
import { searchEverything } from '../../../src/keying/grid/everything.ts';
import { fixedProblem } from '../../../src/keying/grid/fixed.ts';
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
    const seen = new Map<string, number>();
    const saw = (name: string) => seen.set(name, (seen.get(name) ?? 0) + 1);
    fc.assert(
      fc.property(fc.nat(1e6), (seed) => {
        const grid = tinyGrid(seed, kind);
        const options = { ...tinyOptions(seed, grid), rules: noRules };
        const prepared = prepareGrid(grid, options, wholeDomain(grid));
        const possible = canBeSolved(grid, options);
        const proofs = [
          fixedProblem(grid, prepared.instance, prepared)?.reason.code,
          tooFarApart(grid, options, prepared)?.reason.code,
          tooMany(prepared.instance)?.code,
        ].filter((code) => code !== undefined);
        for (const code of proofs) saw(code);
        if (proofs.length > 0) expect(possible).toBe(false);
        // what stands already may be wrong by itself, which is looked at before
        if (fixedProblem(grid, prepared.instance, prepared)) return;
        const found = drain(searchEverything(grid, options, { steps: 0 }, 1e6));
        saw(found.kind);
        expect(found.kind).toBe(possible ? 'solved' : 'none');
        if (found.kind !== 'solved') return;
        const cuts = found.prepared.keyClass.map((k) => found.state.cutsOf(k));
        expect(isRight(grid, options, cuts)).toBe(true);
      }),
      { numRuns: 30 },
    );
    for (const name of ['solved', 'none']) expect(seen.get(name), name).toBeGreaterThan(0);
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
