/**
 * How many keys a system has room for. Theoretical changes are the product of the choices; usable ones are those
 * that the rules leave, counted one by one since a change counts only if every key above it passes too. Whether a
 * wanted system fits is decided group by group, so the smallest and largest group are given besides the totals.
 */
import { levelChanges, levelSpace, levelsDealt, type Deal } from './deal.ts';
import type { KeyBittingArray } from './array.ts';
import type { Bitting } from './bitting.ts';
import type { Finding } from './findings.ts';
import type { PlanContext } from './groupPlan.ts';
import { prepare, type Preparation } from './preparation.ts';
import type { RuleName } from './rules.ts';
import { runToEnd } from './system.ts';
import type { SystemRequest } from './systemRequest.ts';
import { usableTests } from './usable.ts';

/** Smallest and largest count over the groups of one level. */
export interface Spread {
  readonly theoretical: number;
  readonly smallest: number;
  readonly largest: number;
}

/** What a rule costs in change keys. */
export interface RuleCost {
  /** `keyAbove`: the change passes, but a key above it doesn't. */
  readonly rule: RuleName | 'keyAbove';
  /** Rejected by this rule alone. */
  readonly alone: number;
  /** Rejected by this rule and by none before it. */
  readonly inOrder: number;
}

export interface CapacityFigures {
  readonly topMaster: Bitting;
  readonly array: KeyBittingArray;
  readonly deal: Deal;
  /** Change keys in total. */
  readonly theoretical: number;
  /** Those left by the rules; missing where there are too many to count one by one. */
  readonly usable?: number;
  readonly grands?: Omit<Spread, 'smallest' | 'largest'> & { readonly usable: number };
  /** Masters under one grand. */
  readonly masters?: Spread;
  /** Change keys under one master. */
  readonly changeKeys?: Spread;
  readonly costs?: readonly RuleCost[];
}

export interface Capacity {
  readonly fits: boolean;
  /** Why it doesn't fit; none when it does. */
  readonly problems: readonly Finding[];
  /** Missing where the request is at fault before anything could be counted. */
  readonly figures?: CapacityFigures;
}

const MOST_COUNTED = 1_000_000;

/**
 * Theoretical and usable changes of a request, what each rule costs, and whether everything wanted fits.
 * @example a six-chamber array of four choices → figures.theoretical 4096
 */
export function capacity(request: SystemRequest): Capacity {
  return capacityOf(request, runToEnd(prepare(request)));
}

/** The same for a request that was prepared already. */
export function capacityOf(request: SystemRequest, prepared: Preparation): Capacity {
  const { context, deal } = prepared;
  const figures = context && deal ? { figures: figuresOf(request, context, deal) } : {};
  return { fits: prepared.ok, problems: prepared.ok ? [] : prepared.problems, ...figures };
}

function figuresOf(request: SystemRequest, context: PlanContext, deal: Deal): CapacityFigures {
  const { topMaster, array } = context;
  const levels = levelsDealt(context.levels);
  const theoretical = levels.reduce((product, level) => product * levelChanges(context, deal, level), 1);
  const head = { topMaster, array, deal, theoretical };
  if (theoretical > MOST_COUNTED) return head;
  const counts = countGroups(context, deal);
  const usable = counts.changeKeys.reduce((sum, n) => sum + n, 0);
  const spread = (level: 'MK' | 'CK', found: readonly number[]): Spread => ({
    theoretical: levelChanges(context, deal, level),
    smallest: found.length === 0 ? 0 : Math.min(...found),
    largest: Math.max(0, ...found),
  });
  return {
    ...head,
    usable,
    ...(levels.includes('GMK')
      ? { grands: { theoretical: levelChanges(context, deal, 'GMK'), usable: counts.masters.length } }
      : {}),
    ...(levels.includes('MK') ? { masters: spread('MK', counts.masters) } : {}),
    changeKeys: spread('CK', counts.changeKeys),
    costs: ruleCosts(request, context, deal),
  };
}

/** Every change under a key of a level, in progression order. Reuses one array of cuts. */
function* changesUnder(
  context: PlanContext,
  deal: Deal,
  level: 'GMK' | 'MK' | 'CK',
  base: readonly number[],
): Generator<number[], void, void> {
  const space = levelSpace(context, deal, level);
  const cuts = [...base];
  for (let n = 0; n < space.size; n++) {
    space.at(n, cuts);
    yield cuts;
  }
}

/** Usable masters under each usable grand, and usable change keys under each usable master. */
function countGroups(context: PlanContext, deal: Deal): { masters: number[]; changeKeys: number[] } {
  const { levels, usable, topMaster } = context;
  const masters: number[] = [];
  const changeKeys: number[] = [];
  const countKeys = (base: readonly number[]): void => {
    let count = 0;
    for (const cuts of changesUnder(context, deal, 'CK', base)) if (usable(cuts)) count++;
    changeKeys.push(count);
  };
  const countMasters = (base: readonly number[]): void => {
    let count = 0;
    for (const cuts of changesUnder(context, deal, 'MK', base))
      if (usable(cuts)) {
        count++;
        countKeys(cuts);
      }
    masters.push(count);
  };
  if (levels === 2) countKeys(topMaster);
  else if (levels === 3) countMasters(topMaster);
  else for (const cuts of changesUnder(context, deal, 'GMK', topMaster)) if (usable(cuts)) countMasters(cuts);
  return { masters, changeKeys };
}

function ruleCosts(request: SystemRequest, context: PlanContext, deal: Deal): RuleCost[] {
  const tests = usableTests(request);
  const costs = tests.map(({ rule }) => ({ rule: rule as RuleCost['rule'], alone: 0, inOrder: 0 }));
  const above = { rule: 'keyAbove' as const, alone: 0, inOrder: 0 };
  const count = (base: readonly number[], aboveUsable: boolean): void => {
    for (const cuts of changesUnder(context, deal, 'CK', base)) {
      let rejected = false;
      tests.forEach(({ passes }, t) => {
        if (passes(cuts)) return;
        costs[t]!.alone++;
        if (!rejected) costs[t]!.inOrder++;
        rejected = true;
      });
      if (aboveUsable) continue;
      above.alone++;
      if (!rejected) above.inOrder++;
    }
  };
  const { levels, usable, topMaster } = context;
  const eachMaster = (base: readonly number[], aboveUsable: boolean): void => {
    for (const cuts of changesUnder(context, deal, 'MK', base)) count(cuts, aboveUsable && usable(cuts));
  };
  if (levels === 2) count(topMaster, true);
  else if (levels === 3) eachMaster(topMaster, true);
  else for (const cuts of changesUnder(context, deal, 'GMK', topMaster)) eachMaster(cuts, usable(cuts));
  return levels === 2 ? costs : [...costs, above];
}
