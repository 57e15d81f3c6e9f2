/**
 * Solving key-by-door grids, ours and a general SAT solver alone (MiniSat compiled to JavaScript); extra lines for
 * sizes at which the general solver no longer comes back.
 */
import { runToEnd } from '../../src/keying/system.ts';
import { DEFAULT_BUDGET, keyedDifferentPool, solveGrid, type Grid } from '../../src/keying/grid/index.ts';
import { isUsable } from '../../src/keying/rules.ts';
import { starterSpec } from '../../src/keying/starters.ts';
import { solveBySat } from '../outside/gridSat.ts';
import { hierarchyChart, irregularChart } from './gridCharts.ts';
import { randomOf } from './random.ts';
import type { Comparison } from './table.ts';

const spec = starterSpec('T-018-7')!;
/** A building has so many trades and cleaners, however many rooms. */
const MOST_HEAVY = 24;

export const heavyShare = (n: number): number => Math.min(0.08, MOST_HEAVY / n);

const solves = (grid: Grid): boolean => runToEnd(solveGrid(grid)).kind === 'solved';

const pairs = (grid: Grid): number => grid.keys.length * grid.cylinders.length;

export function gridComparisons(): Comparison[] {
  const irregular = irregularChart(spec, 60, 1);
  return [
    {
      what: 'irregular grid, 60 keys',
      items: pairs(irregular),
      unit: 'pairs',
      ours: () => solves(irregular),
      naive: () => solveBySat(irregular) !== undefined,
      against: 'general SAT solver alone',
      same: (a, b) => a === b,
    },
    {
      what: 'pool of 2,000 bittings, two cuts apart',
      items: 2000,
      unit: 'bittings',
      ours: () => runToEnd(keyedDifferentPool({ spec, count: 2000, minimumDifference: 2 })).bittings.length,
      naive: naivePool,
      against: 'drawn at random, each compared with all before',
      same: (a, b) => a === b,
    },
  ];
}

function naivePool(): number {
  const random = randomOf(5);
  const found: number[][] = [];
  while (found.length < 2000) {
    const cuts = spec.centres.map(() => random(spec.depths.length));
    if (!isUsable(spec, cuts)) continue;
    if (found.every((other) => other.filter((cut, i) => cut !== cuts[i]).length >= 2)) found.push(cuts);
  }
  return found.length;
}

/** One line of a table of times: median over seeds, and how many of them were solved. */
export interface GridRow {
  readonly what: string;
  readonly solved: string;
  readonly medianMs: number;
  readonly worstMs: number;
  readonly medianSteps: number;
  readonly megabytes: number;
}

export const irregularCase = (n: number, share = heavyShare(n)): unknown =>
  solves(irregularChart(spec, n, 1, share));
export const hierarchyCase = (levels: 3 | 4): unknown => solves(hierarchyChart(spec, levels, 2000, 0.05, 1));

/** Progressed in two steps, so half as many depths. */
const twoStep = starterSpec('T-0125-7')!;

const LARGE: readonly { what: string; seeds: number; chart: (seed: number) => Grid }[] = [
  ...[60, 200, 400, 600, 1000].map((n) => ({
    what: `irregular, ${n} keys, at most ${MOST_HEAVY} heavy`,
    seeds: n === 1000 ? 20 : 5,
    chart: (seed: number) => irregularChart(spec, n, seed, heavyShare(n)),
  })),
  ...[400, 600].map((n) => ({
    what: `irregular, ${n} keys, 8 % heavy, as many marks as the metal bears`,
    seeds: 5,
    chart: (seed: number) => irregularChart(spec, n, seed),
  })),
  ...[0.05, 0.08].map((share) => ({
    what: `irregular, 1,000 keys, ${share * 100} % heavy, as many marks as the metal bears`,
    // not found as yet, so each takes the whole budget
    seeds: 2,
    chart: (seed: number) => irregularChart(spec, 1000, seed, share),
  })),
  {
    what: `irregular, 1,000 keys in two steps, at most ${MOST_HEAVY} heavy`,
    seeds: 20,
    chart: (seed: number) => irregularChart(twoStep, 1000, seed, heavyShare(1000)),
  },
  ...([3, 4] as const).map((levels) => ({
    what: `${levels} levels, 2,000 doors, 5 % cross-keyed`,
    seeds: 5,
    chart: (seed: number) => hierarchyChart(spec, levels, 2000, 0.05, seed),
  })),
];

export function gridTimes(budget = DEFAULT_BUDGET): GridRow[] {
  return LARGE.map(({ what, seeds, chart }) => {
    const runs = Array.from({ length: seeds }, (_, n) => {
      const grid = chart(n + 1);
      const start = performance.now();
      const answer = runToEnd(solveGrid(grid, { budget }));
      return { ms: performance.now() - start, solved: answer.kind === 'solved', steps: answer.steps };
    });
    const median = (list: number[]): number => list.sort((a, b) => a - b)[Math.floor(list.length / 2)]!;
    return {
      what,
      solved: `${runs.filter((run) => run.solved).length} of ${seeds}`,
      medianMs: median(runs.map((run) => run.ms)),
      worstMs: Math.max(...runs.map((run) => run.ms)),
      medianSteps: median(runs.map((run) => run.steps)),
      megabytes: Math.round(process.memoryUsage().rss / 1e6),
    };
  });
}

export function printTimes(rows: readonly GridRow[]): void {
  console.table(
    rows.map((r) => ({
      what: r.what,
      solved: r.solved,
      'ms (median)': Number(r.medianMs.toPrecision(3)),
      'ms (worst)': Number(r.worstMs.toPrecision(3)),
      'steps (median)': r.medianSteps,
      'process MB': r.megabytes,
    })),
  );
}
