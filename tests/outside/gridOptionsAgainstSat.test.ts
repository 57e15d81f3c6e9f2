/**
 * Grids with options, blanks and cores against a general SAT solver: logic-solver 2.0.1
 * (https://www.npmjs.com/package/logic-solver), MiniSat compiled to JavaScript. Same yes or no on random grids.
 */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import { solveGrid, type Grid, type SolveOptions } from '../../src/keying/grid/index.ts';
import { NO_RULES } from '../../src/keying/rules.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { randomGrid, randomOf, smallSpec, wrongWith } from '../keying/grid/charts.ts';
import { solveBySat, type SatOptions } from './gridSat.ts';

const rules = { ...NO_RULES, macs: true };
const spec = smallSpec(4, 3);
const SEEDS = 24;

interface Family {
  readonly name: string;
  readonly keys: number;
  readonly percent: number;
  readonly options: (seed: number) => SatOptions;
  readonly blanks?: (grid: Grid, seed: number) => Grid;
}

const drawn = (seed: number, count: number) => {
  const random = randomOf(seed);
  return Array.from({ length: count }, () =>
    bittingOf(
      spec,
      spec.centres.map(() => random(spec.depths.length)),
    ),
  );
};

/** Two keyways, some blanks of three cuts, some cylinders with three pinned chambers. */
function withBlanks(grid: Grid, seed: number): Grid {
  const random = randomOf(seed + 1000);
  const keyway = (): { keyway?: string } => [{}, { keyway: 'K1' }, { keyway: 'K2' }][random(3)]!;
  const keys = grid.keys.map((key) => ({ ...key, ...keyway(), ...(random(3) === 0 && { cuts: 3 }) }));
  const cylinders = grid.cylinders.map((cylinder) => ({
    ...cylinder,
    ...keyway(),
    ...(random(2) === 0 && { inUse: [true, true, true, false] }),
  }));
  // Mostly marks that can be met, else nearly every grid would fall to the first of them.
  const marks = grid.marks.map((marked, c) =>
    marked.filter((k) => {
      const [key, cylinder] = [keys[k]!, cylinders[c]!];
      const enters = !key.keyway || !cylinder.keyway || key.keyway === cylinder.keyway;
      return (enters && (!key.cuts || cylinder.inUse)) || random(40) === 0;
    }),
  );
  return { ...grid, keys, cylinders, marks };
}

const withCores = (grid: Grid, seed: number): Grid => ({
  ...grid,
  cylinders: grid.cylinders.map((cylinder, c) =>
    c % 2 === 0 ? { ...cylinder, control: drawn(seed * 31 + c, 1)[0]! } : cylinder,
  ),
});

const FAMILIES: readonly Family[] = [
  { name: 'two depths a chamber', keys: 6, percent: 60, options: () => ({ mostDepths: 2 }) },
  { name: 'one depth a chamber', keys: 4, percent: 40, options: () => ({ mostDepths: 1 }) },
  { name: 'three cuts apart', keys: 5, percent: 30, options: () => ({ minimumDifference: 3 }) },
  { name: 'four cuts apart', keys: 3, percent: 50, options: () => ({ minimumDifference: 4 }) },
  { name: 'bittings in reserve', keys: 5, percent: 60, options: (seed) => ({ avoid: drawn(seed, 12) }) },
  { name: 'constant positions', keys: 5, percent: 45, options: () => ({ constant: [1, 2] }) },
  { name: 'keyways and short blanks', keys: 6, percent: 70, options: () => ({}), blanks: withBlanks },
  { name: 'cores', keys: 5, percent: 70, options: () => ({}), blanks: withCores },
];

const answers = { solved: 0, impossible: 0 };

describe('grids with options against a general SAT solver', () => {
  it.each(FAMILIES)(
    'same yes or no: $name',
    ({ keys, percent, options, blanks }) => {
      for (let seed = 1; seed <= SEEDS; seed++) {
        const plain = randomGrid(spec, keys, 5, percent, seed);
        const grid = blanks ? blanks(plain, seed) : plain;
        const asked = options(seed);
        const ours: SolveOptions = { rules, sameMarks: 'different', ...asked };
        const answer = runToEnd(solveGrid(grid, ours));
        const theirs = solveBySat(grid, { minimumDifference: 1, ...asked });
        expect(answer.kind, `seed ${seed}`).toBe(theirs ? 'solved' : 'impossible');
        if (answer.kind === 'solved' && !blanks) expect(wrongWith(grid, answer)).toEqual([]);
        if (answer.kind !== 'not-found') answers[answer.kind]++;
      }
    },
    120_000,
  );

  it('both answers are common among them, or the comparison would mean little', () => {
    expect(Math.min(answers.solved, answers.impossible)).toBeGreaterThan(SEEDS);
  });
});
