/**
 * Grids against a general SAT solver: logic-solver 2.0.1 (https://www.npmjs.com/package/logic-solver), MiniSat
 * compiled to JavaScript. Same yes or no on random grids, in single and in two-step progression, with a MACS.
 */
import { describe, expect, it } from 'vitest';
import { solveGrid } from '../../src/keying/grid/index.ts';
import { NO_RULES } from '../../src/keying/rules.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { randomGrid, smallSpec, wrongWith } from '../keying/grid/charts.ts';
import { solveBySat } from './gridSat.ts';

const rules = { ...NO_RULES, macs: true };

describe('grids against a general SAT solver', () => {
  const families = [
    { name: '2 depths', spec: smallSpec(4, 2), keys: 7, cylinders: 5, percent: 40 },
    { name: '2 depths, dense', spec: smallSpec(4, 2), keys: 5, cylinders: 6, percent: 60 },
    {
      name: '3 depths in two steps within MACS 1',
      spec: smallSpec(4, 3, 2, 1),
      keys: 5,
      cylinders: 5,
      percent: 50,
    },
    { name: '4 depths in two steps', spec: smallSpec(4, 4, 2), keys: 6, cylinders: 6, percent: 50 },
  ];
  it.each(families)(
    'same yes or no: $name',
    ({ spec, keys, cylinders, percent }) => {
      const answers = { solved: 0, impossible: 0 };
      for (let seed = 1; seed <= 40; seed++) {
        const grid = randomGrid(spec, keys, cylinders, percent, seed);
        const ours = runToEnd(solveGrid(grid, { rules }));
        const theirs = solveBySat(grid);
        expect(ours.kind, `seed ${seed}`).toBe(theirs ? 'solved' : 'impossible');
        if (ours.kind === 'solved') expect(wrongWith(grid, ours)).toEqual([]);
        if (ours.kind !== 'not-found') answers[ours.kind]++;
      }
      // Neither answer is rare, or the comparison would mean little.
      expect(Math.min(answers.solved, answers.impossible)).toBeGreaterThan(3);
    },
    60_000,
  );

  it('what is named as a conflict is one by itself', () => {
    const spec = smallSpec(4, 2);
    let checked = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const grid = randomGrid(spec, 7, 5, 40, seed);
      const ours = runToEnd(solveGrid(grid, { rules }));
      if (ours.kind !== 'impossible' || ours.reason.code !== 'search-exhausted') continue;
      const keys = grid.keys.flatMap(({ symbol }, k) => (ours.keys.includes(symbol) ? [k] : []));
      const cylinders = grid.cylinders.flatMap(({ id }, c) => (ours.cylinders.includes(id) ? [c] : []));
      const part = {
        spec,
        keys: keys.map((k) => grid.keys[k]!),
        cylinders: cylinders.map((c) => grid.cylinders[c]!),
        marks: cylinders.map((c) =>
          grid.marks[c]!.flatMap((k) => (keys.includes(k) ? [keys.indexOf(k)] : [])),
        ),
      };
      expect(solveBySat(part), `seed ${seed}`).toBeUndefined();
      checked++;
    }
    expect(checked).toBeGreaterThan(3);
  });
});
