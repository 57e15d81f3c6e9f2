/**
 * A key-by-door grid as a question to a general SAT solver (logic-solver, which is MiniSat compiled to JavaScript):
 * one variable for each key, position and depth. Written from the meaning of the grid alone, independently of how we
 * solve it. Used by a test as the second opinion, and by the bench as what a general solver needs alone.
 */
import Logic from 'logic-solver';
import type { Grid, SolveOptions } from '../../src/keying/grid/index.ts';

/** What is asked for beyond the marks; each key is to have a bitting of its own where `minimumDifference` is given. */
export type SatOptions = Pick<SolveOptions, 'minimumDifference' | 'mostDepths' | 'avoid' | 'constant'>;

/**
 * Bittings for a grid, or undefined when the solver proves that there are none. Rules: MACS and `step` only. Blanks are
 * taken to be read from the stop, so one of n cuts has the first n chambers.
 */
export function solveBySat(
  { spec, keys, cylinders, marks }: Grid,
  { minimumDifference = 0, mostDepths, avoid = [], constant = [] }: SatOptions = {},
): number[][] | undefined {
  const solver = new Logic.Solver();
  const depths = spec.depths.map((_, d) => d);
  const chambers = spec.centres.map((_, i) => i);
  const cut = (k: number, i: number, d: number): string => `k${k}_${i}_${d}`;
  const controls = cylinders.flatMap(({ control }) => (control ? [control] : []));
  const carried = (k: number): number => keys[k]!.cuts ?? chambers.length;
  keys.forEach(({ bitting }, k) => {
    for (const i of chambers) {
      solver.require(Logic.exactlyOne(depths.map((d) => cut(k, i, d))));
      if (bitting) solver.require(cut(k, i, bitting[i]!));
      if (i === 0) continue;
      for (const a of depths)
        for (const b of depths)
          if (Math.abs(a - b) > spec.macs)
            solver.require(Logic.or(Logic.not(cut(k, i - 1, a)), Logic.not(cut(k, i, b))));
    }
    for (const cuts of [...avoid, ...controls])
      solver.require(Logic.or(chambers.map((i) => Logic.not(cut(k, i, cuts[i]!)))));
    for (const i of constant)
      for (const d of depths) if (k > 0) solver.require(Logic.equiv(cut(0, i, d), cut(k, i, d)));
    for (let other = 0; other < k && minimumDifference > 0; other++) {
      const differs = (i: number): string => `d${k}_${other}_${i}`;
      const both = chambers.filter((i) => i < Math.min(carried(k), carried(other)));
      for (const i of both)
        for (const d of depths)
          solver.require(
            Logic.or(Logic.not(differs(i)), Logic.not(cut(k, i, d)), Logic.not(cut(other, i, d))),
          );
      const enough = Logic.greaterThanOrEqual(
        Logic.sum(both.map(differs)),
        Logic.constantBits(minimumDifference),
      );
      solver.require(both.length < minimumDifference ? Logic.FALSE : enough);
    }
  });
  marks.forEach((marked, c) => {
    const { inUse, keyway } = cylinders[c]!;
    const used = chambers.filter((i) => inUse?.[i] !== false);
    const turns = (k: number): boolean =>
      (keys[k]!.keyway === undefined || keyway === undefined || keys[k]!.keyway === keyway) &&
      used.every((i) => i < carried(k));
    const admitted = (i: number, d: number): string => `c${c}_${i}_${d}`;
    for (const i of used) {
      for (const d of depths) {
        for (const k of marked) solver.require(Logic.or(Logic.not(cut(k, i, d)), admitted(i, d)));
        for (let near = 1; near < spec.step; near++)
          if (d + near < depths.length)
            solver.require(Logic.or(Logic.not(admitted(i, d)), Logic.not(admitted(i, d + near))));
      }
      if (mostDepths !== undefined)
        solver.require(
          Logic.lessThanOrEqual(Logic.sum(depths.map((d) => admitted(i, d))), Logic.constantBits(mostDepths)),
        );
    }
    for (const cuts of [...avoid, ...controls])
      solver.require(Logic.or(used.map((i) => Logic.not(admitted(i, cuts[i]!)))));
    keys.forEach((_, k) => {
      if (marked.includes(k)) {
        if (!turns(k)) solver.require(Logic.FALSE);
        return;
      }
      if (!turns(k)) return;
      const blocked = (i: number): string => `b${k}_${c}_${i}`;
      solver.require(Logic.or(used.map(blocked)));
      for (const i of used)
        for (const d of depths)
          solver.require(Logic.or(Logic.not(blocked(i)), Logic.not(cut(k, i, d)), Logic.not(admitted(i, d))));
    });
  });
  const solution = solver.solve();
  return solution
    ? keys.map((_, k) => chambers.map((i) => depths.find((d) => solution.evaluate(cut(k, i, d)))!))
    : undefined;
}
