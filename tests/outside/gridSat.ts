/**
 * A key-by-door grid as a question to a general SAT solver (logic-solver, which is MiniSat compiled to JavaScript):
 * one variable for each key, position and depth. Written from the meaning of the grid alone, independently of how we
 * solve it. Used by a test as the second opinion, and by the bench as what a general solver needs alone.
 */
import Logic from 'logic-solver';
import type { Grid } from '../../src/keying/grid/index.ts';

/** Bittings for a grid, or undefined when the solver proves that there are none. Rules: MACS and `step` only. */
export function solveBySat({ spec, keys, marks }: Grid): number[][] | undefined {
  const solver = new Logic.Solver();
  const depths = spec.depths.map((_, d) => d);
  const chambers = spec.centres.map((_, i) => i);
  const cut = (k: number, i: number, d: number): string => `k${k}_${i}_${d}`;
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
  });
  marks.forEach((marked, c) => {
    const admitted = (i: number, d: number): string => `c${c}_${i}_${d}`;
    for (const i of chambers)
      for (const d of depths) {
        for (const k of marked) solver.require(Logic.or(Logic.not(cut(k, i, d)), admitted(i, d)));
        for (let near = 1; near < spec.step; near++)
          if (d + near < depths.length)
            solver.require(Logic.or(Logic.not(admitted(i, d)), Logic.not(admitted(i, d + near))));
      }
    keys.forEach((_, k) => {
      if (marked.includes(k)) return;
      const blocked = (i: number): string => `b${k}_${c}_${i}`;
      solver.require(Logic.or(chambers.map(blocked)));
      for (const i of chambers)
        for (const d of depths)
          solver.require(Logic.or(Logic.not(blocked(i)), Logic.not(cut(k, i, d)), Logic.not(admitted(i, d))));
    });
  });
  const solution = solver.solve();
  return solution
    ? keys.map((_, k) => chambers.map((i) => depths.find((d) => solution.evaluate(cut(k, i, d)))!))
    : undefined;
}
