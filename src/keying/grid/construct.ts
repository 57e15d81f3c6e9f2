/**
 * A first solution from the structure of the grid, right or nearly so. The widest keys come first and keep the top
 * master's cuts in all but a few chambers; ordinary keys avoid the top master's cuts, follow the heavy key above them
 * where positions are dealt to levels, and are tried near the keys that they share a door with. A bitting is taken
 * when it operates nothing that it must not and lets nobody in.
 */
import { costIf } from './moveCosts.ts';
import { fits } from './stateRules.ts';
import type { Deal } from '../deal.ts';
import type { Instance } from './instance.ts';
import type { Plan } from './plan.ts';
import type { Random } from './random.ts';
import type { GridState } from './state.ts';

export interface Dealing {
  /** Chambers of each level of heavy keys, the last entry that of ordinary keys; undefined = any. */
  readonly chambers: readonly (readonly number[])[] | undefined;
  /** Cuts in which a heavy key differs from the key above it, where chambers aren't dealt. */
  readonly deviations: number;
}

/** Bittings tried for one key before the best of them is taken. */
const TRIES_HEAVY = 400;
const TRIES = 160;
/** Percent of the cuts that follow a depth which the door has already. */
const FOLLOW = 60;

export interface Work {
  steps: number;
}

export function dealingOf(deal: Deal, levels: readonly string[]): Dealing {
  return {
    deviations: 0,
    chambers: levels.map((level) => deal.flatMap((at, i) => (at === level ? [i] : []))),
  };
}

/** Places every key that has no cuts yet; those for which nothing fits stay without. */
export function construct(
  state: GridState,
  plan: Plan,
  topCuts: readonly number[],
  dealing: Dealing,
  random: Random,
  work: Work,
): void {
  const choices = choicesOf(state.instance, topCuts);
  for (const k of plan.tops) if (!state.isPlaced(k)) placeTop(state, k, topCuts, choices, random, work);
  for (const k of plan.heavy)
    if (!state.isPlaced(k))
      placeBest(state, k, TRIES_HEAVY, work, heavyDraw(state, plan, k, topCuts, choices, dealing, random));
  for (const k of plan.ordinary)
    if (!state.isPlaced(k))
      placeBest(state, k, TRIES, work, ordinaryDraw(state, plan, k, choices, dealing, random));
}

/** Depths at each chamber other than the top master's. */
export function choicesOf(instance: Instance, topCuts: readonly number[]): number[][] {
  let domain = new Array<number>(instance.positions).fill(0);
  for (let k = 0; k < instance.keys; k++)
    domain = domain.map((bits, i) => bits | instance.domain[k * instance.positions + i]!);
  return domain.map((bits, i) => {
    const found: number[] = [];
    for (let depth = 0; depth < instance.depths; depth++)
      if ((bits >>> depth) & 1 && depth !== topCuts[i]) found.push(depth);
    return found.length > 0 ? found : [topCuts[i]!];
  });
}

/** The first top takes the top master's cuts; a further one differs in a chamber or two. */
function placeTop(
  state: GridState,
  k: number,
  topCuts: readonly number[],
  choices: readonly (readonly number[])[],
  random: Random,
  work: Work,
): void {
  placeBest(state, k, TRIES_HEAVY, work, (attempt, cuts) => {
    topCuts.forEach((cut, i) => (cuts[i] = cut));
    for (let n = attempt === 0 ? 0 : 1 + (attempt % 3); n > 0; n--) {
      const i = random.below(cuts.length);
      cuts[i] = choices[i]![random.below(choices[i]!.length)]!;
    }
  });
}

type Draw = (attempt: number, cuts: number[]) => void;

function heavyDraw(
  state: GridState,
  plan: Plan,
  k: number,
  topCuts: readonly number[],
  choices: readonly (readonly number[])[],
  { chambers, deviations }: Dealing,
  random: Random,
): Draw {
  const above = plan.parent[k]!;
  const base = above >= 0 && state.isPlaced(above) && chambers ? state.cutsOf(above) : topCuts;
  const own = chambers?.[plan.level[k]! - 1];
  return (_, cuts) => {
    for (let i = 0; i < cuts.length; i++) cuts[i] = base[i]!;
    if (own) for (const i of own) cuts[i] = choices[i]![random.below(choices[i]!.length)]!;
    else
      for (let n = 0; n < deviations; n++) {
        const i = random.below(cuts.length);
        cuts[i] = choices[i]![random.below(choices[i]!.length)]!;
      }
  };
}

function ordinaryDraw(
  state: GridState,
  plan: Plan,
  k: number,
  choices: readonly (readonly number[])[],
  { chambers }: Dealing,
  random: Random,
): Draw {
  const above = plan.parent[k]!;
  const base = above >= 0 && state.isPlaced(above) && chambers ? state.cutsOf(above) : undefined;
  const own = chambers ? chambers[chambers.length - 1]! : choices.map((_, i) => i);
  const near = plan.partners[k]!.filter((other) => state.isPlaced(other)).map((other) => state.cutsOf(other));
  const present = presentAt(state, k, choices);
  return (attempt, cuts) => {
    const from = near.length > 0 && attempt < TRIES * 0.75 ? near[random.below(near.length)] : undefined;
    if (from === undefined) {
      if (base) for (let i = 0; i < cuts.length; i++) cuts[i] = base[i]!;
      for (const i of own) {
        const there = present[i]!;
        const list = there.length > 0 && random.below(100) < FOLLOW ? there : choices[i]!;
        cuts[i] = list[random.below(list.length)]!;
      }
      return;
    }
    for (let i = 0; i < cuts.length; i++) cuts[i] = base && !own.includes(i) ? base[i]! : from[i]!;
    for (let n = 1 + Math.floor((attempt * 4) / TRIES); n > 0; n--) {
      const i = own[random.below(own.length)]!;
      cuts[i] = choices[i]![random.below(choices[i]!.length)]!;
    }
  };
}

/** Depths that the doors of a key have already, the top master's left out: taking one lets nobody else in. */
export function presentAt(state: GridState, k: number, choices: readonly (readonly number[])[]): number[][] {
  const { positions: p, cylindersOf, fixedSets } = state.instance;
  return choices.map((depths, i) => {
    let bits = -1;
    for (const c of cylindersOf[k]!) if (!fixedSets[c]) bits &= state.sets[c * p + i]!;
    return depths.filter((depth) => (bits >>> depth) & 1);
  });
}

/** Tries bittings until one has no conflict, and places the best. */
export function placeBest(state: GridState, k: number, tries: number, work: Work, draw: Draw): number {
  const cuts = new Array<number>(state.instance.positions).fill(0);
  let best: number[] | undefined;
  let least = Infinity;
  for (let attempt = 0; attempt < tries && least > 0; attempt++) {
    work.steps++;
    draw(attempt, cuts);
    if (!fits(state, k, cuts)) continue;
    const cost = costIf(state, k, cuts, least);
    if (cost >= least) continue;
    least = cost;
    best = [...cuts];
  }
  if (best) state.place(k, best);
  return least;
}
