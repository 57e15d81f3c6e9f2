/**
 * The search for large or irregular grids: attempts one after the other until one comes out right or the budget is
 * spent. Each attempt takes a top master, deals positions to the levels where the grid is a hierarchy (or lets heavy
 * keys differ from the top master in a few chambers), solves the heavy keys alone, places the others, and repairs.
 */
import { bittingOf, type Bitting } from '../bitting.ts';
import { dealCandidates, levelChanges, levelsDealt, type DealContext, type Wanted } from '../deal.ts';
import { inOrder, totalSpace } from '../progression.ts';
import { topMasterProposals } from '../topMaster.ts';
import { DEFAULT_RULES, isUsable } from '../rules.ts';
import type { Grid, SolveOptions } from './chart.ts';
import { choicesOf, construct, dealingOf, type Dealing, type Work } from './construct.ts';
import type { Instance } from './instance.ts';
import { planOf, type Plan } from './plan.ts';
import { prepareGrid, wholeDomain, type Prepared } from './prepare.ts';
import { createRandom, type Random } from './random.ts';
import { repair } from './repair.ts';
import type { ProofReason } from './result.ts';
import { GridState } from './state.ts';
import { partOf } from './wide.ts';

export interface Attempt {
  readonly prepared: Prepared;
  readonly state: GridState;
  readonly solved: boolean;
  /** The top master that it was tried under. */
  readonly top: Bitting;
}

/** Above so great a share of crossing pairs the heavy keys are no hierarchy. */
const MOST_CROSSING = 0.3;
const DEALS_TRIED = 3;
const TOPS_TRIED = 8;
const FEW_BITTINGS = 4096;

export function* searchGrid(
  grid: Grid,
  options: SolveOptions,
  work: Work,
  until: number,
): Generator<number, Attempt | undefined, void> {
  const seed = options.seed ?? 1;
  const tops = topMasters(grid, options, seed);
  let best: Attempt | undefined;
  let share = Math.max(10_000, Math.floor((until - work.steps) / 8));
  for (let attempt = 0; work.steps < until; attempt++) {
    const top = tops[attempt % tops.length];
    if (!top) return undefined;
    const prepared = prepareGrid(grid, options, domainUnder(grid, options, top));
    const { instance } = prepared;
    const plan = planOf(instance);
    const dealings = dealingsOf(instance, plan, top);
    const dealing = dealings[attempt % dealings.length]!;
    const random = createRandom(seed * 1_000_003 + attempt);
    const stop = Math.min(until, work.steps + share);
    const state = new GridState(instance);
    yield* placeWide(state, plan, top, dealing, random, work, stop);
    construct(state, plan, top, dealing, random, work);
    yield state.conflicts.length + state.unplaced;
    const choices = choicesOf(instance, top);
    const solved = yield* repair(state, plan, random, work, { until: stop, choices, wide: false });
    const found = { prepared, state, solved, top };
    if (solved) return found;
    if (!best || wrongIn(state) < wrongIn(best.state)) best = found;
    // Later attempts get more, so that a hard grid isn't given up again and again at the same point.
    share = Math.floor(share * 1.3);
  }
  return best;
}

const wrongIn = (state: GridState): number => state.conflicts.length + state.unplaced;

/** Solves tops and heavy keys alone and takes over their cuts. */
function* placeWide(
  state: GridState,
  plan: Plan,
  top: readonly number[],
  dealing: Dealing,
  random: Random,
  work: Work,
  until: number,
): Generator<number, void, void> {
  const wide = [...plan.tops, ...plan.heavy];
  if (wide.length < 2) return;
  const { instance } = state;
  const fixed = instance.fixedCuts.flatMap((cuts, k) => (cuts && !wide.includes(k) ? [k] : []));
  const part = partOf(instance, [...wide, ...fixed]);
  const at = new Map(part.keys.map((k, n) => [k, n]));
  const numbers = (keys: readonly number[]): number[] => keys.map((k) => at.get(k)!);
  const partPlan: Plan = {
    ...plan,
    tops: numbers(plan.tops),
    heavy: numbers(plan.heavy),
    ordinary: [],
    parent: Int32Array.from(part.keys, (k) => at.get(plan.parent[k]!) ?? -1),
    level: Int32Array.from(part.keys, (k) => plan.level[k]!),
    partners: part.keys.map(() => []),
  };
  const small = new GridState(part.instance);
  construct(small, partPlan, top, dealing, random, work);
  const choices = choicesOf(part.instance, top);
  yield* repair(small, { ...partPlan, heavy: [] }, random, work, { until, choices, wide: true });
  part.keys.forEach((k, n) => {
    if (small.isPlaced(n) && !state.isPlaced(k)) state.place(k, small.cutsOf(n));
  });
}

/** Cuts that the widest key has or is to have, in the order in which they are tried. */
function topMasters(grid: Grid, options: SolveOptions, seed: number): Bitting[] {
  if (options.topMaster) return [options.topMaster];
  const width = new Array<number>(grid.keys.length).fill(0);
  for (const marked of grid.marks) for (const k of marked) width[k] = width[k]! + 1;
  let widest = -1;
  grid.keys.forEach(({ bitting }, k) => {
    if (bitting && (widest < 0 || width[k]! > width[widest]!)) widest = k;
  });
  if (widest >= 0 && width[widest]! > 1) return [grid.keys[widest]!.bitting!];
  const rules = options.rules ?? DEFAULT_RULES;
  const used = new Set((options.avoid ?? []).map((cuts) => cuts.join()));
  const usable = (cuts: readonly number[]): boolean =>
    isUsable(grid.spec, cuts, rules) && !used.has(cuts.join());
  const { depths, centres } = grid.spec;
  if (depths.length ** centres.length > FEW_BITTINGS)
    return topMasterProposals(grid.spec, usable, seed).slice(0, TOPS_TRIED);
  // So few that drawing would meet the same ones again and again.
  const space = totalSpace(
    centres.map((_, chamber) => ({ chamber, master: 0, choices: depths.map((__, i) => i) })),
  );
  const found: Bitting[] = [];
  for (const n of inOrder(space.size, 'scattered', seed)) {
    const cuts = centres.map(() => 0);
    space.at(n, cuts);
    if (usable(cuts)) found.push(bittingOf(grid.spec, cuts));
    if (found.length === TOPS_TRIED) break;
  }
  return found;
}

/** Depths a whole number of steps from the top master's, unless existing keys depart from that. */
export function domainUnder(grid: Grid, options: SolveOptions, top: readonly number[]): number[] {
  const { spec } = grid;
  return wholeDomain(grid).map((all, i) => {
    if (options.constant?.includes(i)) return 1 << top[i]!;
    if (grid.keys.some(({ bitting }) => bitting && (bitting[i]! - top[i]!) % spec.step !== 0)) return all;
    let bits = 0;
    for (let depth = 0; depth < spec.depths.length; depth++)
      if ((depth - top[i]!) % spec.step === 0) bits |= 1 << depth;
    return bits;
  });
}

function dealingsOf(instance: Instance, plan: Plan, top: Bitting): Dealing[] {
  const free: Dealing[] = [3, 4, 3, 2].map((deviations) => ({ chambers: undefined, deviations }));
  const levels = dealtLevels(plan);
  if (!levels) return free;
  const names = levelsDealt(levels);
  const { fitting, short } = dealCandidates(contextOf(instance, levels, top), wantedOf(plan, levels));
  const deals = [...fitting, ...short].slice(0, DEALS_TRIED).map((deal) => dealingOf(deal, names));
  return fitting.length > 0 ? [...deals, free[0]!] : [free[0]!, ...deals];
}

/** Levels that positions can be dealt to, where the grid is a hierarchy. */
function dealtLevels(plan: Plan): 3 | 4 | undefined {
  if (plan.heavy.length === 0 || plan.levels > 2 || plan.crossing > MOST_CROSSING) return undefined;
  return plan.levels === 1 ? 3 : 4;
}

const contextOf = (instance: Instance, levels: 3 | 4, top: Bitting): DealContext => ({
  levels,
  topMaster: top,
  array: choicesOf(instance, top).map((depths, i) => depths.filter((depth) => depth !== top[i])),
  progression: { kind: 'total' },
  minimumDifference: instance.minimumDifference,
  sequence: top.map((_, i) => i),
});

const wantedOf = (plan: Plan, levels: 3 | 4): Wanted =>
  Object.fromEntries(levelsDealt(levels).map((name, n) => [name, plan.widest[n] ?? 1]));

/** Where the grid is a hierarchy and no dealing of the positions has room: the level that is shortest of it. */
export function dealShortage(grid: Grid, { prepared, top }: Attempt): ProofReason | undefined {
  const { instance, keysIn } = prepared;
  const plan = planOf(instance);
  const levels = dealtLevels(plan);
  if (!levels) return undefined;
  const context = contextOf(instance, levels, top);
  const { fitting, short } = dealCandidates(context, wantedOf(plan, levels));
  const roomiest = short[0];
  if (fitting.length > 0 || !roomiest) return undefined;
  const shortest = levelsDealt(levels)
    .map((level, n) => ({ n, needed: plan.widest[n] ?? 1, possible: levelChanges(context, roomiest, level) }))
    .reduce((a, b) => (b.possible / b.needed < a.possible / a.needed ? b : a));
  const under = plan.widestUnder[shortest.n] ?? -1;
  return {
    code: 'no-dealing-fits',
    ...(under < 0 ? {} : { under: grid.keys[keysIn[under]![0]!]!.symbol }),
    needed: shortest.needed,
    possible: shortest.possible,
  };
}
