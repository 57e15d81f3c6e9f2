/**
 * Dealing the positions to the levels. The key of a level carries the top master's cut in the positions of the
 * levels below it, so each chamber of a cylinder holds two depths at most (the top master's and one other), and a
 * key of another group differs in a position of the group's level, where it fits neither: no key operates another
 * group's cylinder.
 */
import type { KeyBittingArray } from './array.ts';
import type { Bitting } from './bitting.ts';
import type { CapacityProblem } from './capacityProblem.ts';
import {
  rotatingConstantChanges,
  rotatingSpace,
  totalSpace,
  type ChangeSpace,
  type Progression,
} from './progression.ts';
import type { Level } from './system.ts';

/** For each chamber in code order the level whose keys differ there; `constant` stays the top master's. */
export type Deal = readonly (Level | 'constant')[];

/** Levels below the top, from the top down: those that positions are dealt to. */
export function levelsDealt(levels: 2 | 3 | 4): readonly Level[] {
  return levels === 2 ? ['CK'] : levels === 3 ? ['MK', 'CK'] : ['GMK', 'MK', 'CK'];
}

export interface DealContext {
  readonly levels: 2 | 3 | 4;
  readonly topMaster: Bitting;
  readonly array: KeyBittingArray;
  readonly progression: Progression;
  /** Chambers in the sequence of progression. */
  readonly sequence: readonly number[];
  /** Chambers in which two keys of one level differ at least. */
  readonly minimumDifference: number;
}

/** Chambers that can be dealt: those with choices that the progression doesn't keep constant. */
function dealable({ array, progression }: DealContext): boolean[] {
  return array.map(
    (choices, i) =>
      choices.length > 0 && !(progression.kind === 'partial' && progression.constant.includes(i)),
  );
}

/** The changes that a level has under one key of the level above. */
export function levelSpace(context: DealContext, deal: Deal, level: Level): ChangeSpace {
  const { topMaster, array, progression, sequence } = context;
  const over = sequence
    .filter((chamber) => deal[chamber] === level)
    .map((chamber) => ({ chamber, master: topMaster[chamber]!, choices: array[chamber]! }));
  return level === 'CK' && progression.kind === 'rotating'
    ? rotatingSpace(over, progression.constants)
    : totalSpace(over);
}

/** Number of changes of a level, without making them. */
export function levelChanges({ array, progression }: DealContext, deal: Deal, level: Level): number {
  const counts = array.filter((_, i) => deal[i] === level).map((choices) => choices.length);
  return level === 'CK' && progression.kind === 'rotating'
    ? rotatingConstantChanges(counts, progression.constants)
    : counts.reduce((product, count) => product * count, 1);
}

/**
 * Most keys of a level that can differ in so many chambers: the Singleton bound of coding theory. Keys that differ
 * in d chambers still differ after any d − 1 of them are left out, so the narrowest remaining ones limit them.
 */
export function mostApart(context: DealContext, deal: Deal, level: Level): number {
  const rotating = level === 'CK' && context.progression.kind === 'rotating';
  const counts = context.array
    .filter((_, i) => deal[i] === level)
    .map((choices) => choices.length + (rotating ? 1 : 0))
    .sort((a, b) => a - b);
  const kept = counts.slice(0, Math.max(0, counts.length - context.minimumDifference + 1));
  const bound = kept.reduce((product, count) => product * count, 1);
  return Math.min(bound, levelChanges(context, deal, level));
}

/** What is wrong with a deal that was asked for: its length, levels without positions, chambers without choices. */
export function dealProblem(context: DealContext, deal: Deal): CapacityProblem | undefined {
  const expected = context.array.length;
  if (deal.length !== expected) return { code: 'deal-length', found: deal.length, expected };
  const can = dealable(context);
  const levels = levelsDealt(context.levels);
  for (const [i, level] of deal.entries())
    if (level !== 'constant' && (!levels.includes(level) || !can[i])) return { code: 'deal-bad', level };
  const without = levels.find((level) => !deal.includes(level));
  return without === undefined ? undefined : { code: 'deal-bad', level: without };
}

/** Keys wanted of each level under one key of the level above: the largest group decides. */
export type Wanted = Readonly<Partial<Record<Level, number>>>;

/**
 * Every deal in which each level has a position, the roomiest first: ordered by how many times over the scarcest
 * level has what is wanted of it. Deals that are short even before any rule come last in `short`.
 */
export function dealCandidates(context: DealContext, wanted: Wanted): { fitting: Deal[]; short: Deal[] } {
  const levels = levelsDealt(context.levels);
  const can = dealable(context);
  const rated: { deal: Deal; room: number; breaks: number }[] = [];
  const deal: (Level | 'constant')[] = can.map(() => 'constant');
  const place = (i: number): void => {
    if (i === can.length) {
      if (!levels.every((level) => deal.includes(level))) return;
      const rooms = levels.map(
        (level) => levelChanges(context, deal, level) / Math.max(1, wanted[level] ?? 1),
      );
      rated.push({ deal: [...deal], room: Math.min(...rooms), breaks: breaksIn(deal, levels) });
      return;
    }
    for (const level of can[i] ? levels : (['constant'] as const)) {
      deal[i] = level;
      place(i + 1);
    }
  };
  place(0);
  // Sorting is stable, so that equal deals keep the order in which they were found.
  rated.sort((a, b) => b.room - a.room || a.breaks - b.breaks);
  return {
    fitting: rated.filter(({ room }) => room >= 1).map((r) => r.deal),
    short: rated.filter(({ room }) => room < 1).map((r) => r.deal),
  };
}

/** Neighbouring positions of different levels, more for an order other than from the top down: tidy deals first. */
function breaksIn(deal: Deal, levels: readonly Level[]): number {
  let breaks = 0;
  let last: number | undefined;
  for (const level of deal) {
    if (level === 'constant') continue;
    const rank = levels.indexOf(level);
    if (last !== undefined && rank !== last) breaks += rank > last ? 1 : 2;
    last = rank;
  }
  return breaks;
}

/**
 * The first chamber (from 1) at which a master that exists already doesn't follow a deal under the key above it:
 * it must have a change depth in its own positions and that key's cut in all others.
 */
export function offDeal(
  { array }: DealContext,
  deal: Deal,
  level: Level,
  above: readonly number[],
  bitting: readonly number[],
): number | undefined {
  const wrong = bitting.findIndex((cut, i) =>
    deal[i] === level ? !array[i]!.includes(cut) : cut !== above[i],
  );
  return wrong < 0 ? undefined : wrong + 1;
}
