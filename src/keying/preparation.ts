/**
 * From a request to a plan that can be carried out: top master, array, deal and a key for every group, or the reason
 * why there is none. What the request leaves open is chosen so that every group fits.
 */
import { arrayFaults, defaultArray, theoreticalChanges, type KeyBittingArray } from './array.ts';
import type { Bitting } from './bitting.ts';
import type { CapacityProblem } from './capacityProblem.ts';
import {
  dealCandidates,
  dealProblem,
  levelsDealt,
  mostApart,
  offDeal,
  type Deal,
  type Wanted,
} from './deal.ts';
import type { Finding } from './findings.ts';
import { planGroups, type GroupPlan, type PlanContext, type PlannedGrand } from './groupPlan.ts';
import { assert } from './result.ts';
import { checkBitting, DEFAULT_RULES } from './rules.ts';
import { grandSymbol } from './symbol.ts';
import type { Level, Steps } from './system.ts';
import { grandsWanted, roomNeeded, wantedKeys, type SystemRequest } from './systemRequest.ts';
import { MOST_DRAWS, topMasterProposals } from './topMaster.ts';
import { createUsable, remembering } from './usable.ts';

export type Preparation =
  | {
      readonly ok: true;
      readonly context: PlanContext;
      readonly deal: Deal;
      readonly grands: readonly PlannedGrand[];
    }
  | {
      readonly ok: false;
      readonly problems: readonly Finding[];
      /** As far as it got, to show figures for it. */
      readonly context?: PlanContext;
      readonly deal?: Deal;
    };

const TOP_MASTERS_TRIED = 4;
/** Changes looked at before a search is given up: some seconds of work. */
const BUDGET = 2_000_000;
const DEALS_TRIED = 100;

/** Prepares a request. Throws where the tree doesn't match the number of levels: that is our mistake. */
export function* prepare(request: SystemRequest): Steps<Preparation> {
  const { levels, spec, seed = 1, rules = DEFAULT_RULES } = request;
  const grands = grandsWanted(request);
  assert(levels === 4 || grands.length === 1, `a system of ${levels} levels has one grand in its request`);
  assert(
    levels !== 2 || grands[0]!.masters.length === 1,
    'a system of 2 levels has one master in its request',
  );
  assert(!request.array || request.topMaster, 'an array belongs to a top master');
  const shape = shapeProblem(request);
  if (shape) return { ok: false, problems: [shape] };
  const budget = { left: BUDGET };
  const usable = createUsable(request);
  const contextOf = (topMaster: Bitting, array: KeyBittingArray): PlanContext => ({
    levels,
    topMaster,
    array,
    progression: request.progression ?? { kind: 'total' },
    sequence: request.sequence ?? spec.centres.map((_, i) => i),
    spec,
    usable: remembering(usable, spec, topMaster, array),
    grands,
    order: request.order ?? 'progression',
    seed,
    minimumDifference: request.minimumDifference ?? 1,
    avoid: request.control ? [...(request.avoid ?? []), request.control] : (request.avoid ?? []),
    budget,
  });

  if (request.topMaster) {
    const topMaster = request.topMaster;
    const array = request.array ?? defaultArray(spec, topMaster);
    const faults = arrayFaults(spec, topMaster, array);
    if (faults.length > 0) return { ok: false, problems: faults };
    const broken = checkBitting(spec, topMaster, rules).filter(({ code }) => BLOCKING.has(code));
    // A top master in use can't be changed, so only a new system is held to the rules.
    if (broken.length > 0 && !topInUse(request))
      return {
        ok: false,
        problems: [{ code: 'top-master-unusable' }, ...broken],
      };
    return yield* dealAndPlan(request, contextOf(topMaster, array));
  }
  const proposals = topMasterProposals(spec, usable, seed);
  let first: Preparation | undefined;
  for (const topMaster of proposals.slice(0, TOP_MASTERS_TRIED)) {
    const attempt = yield* dealAndPlan(request, contextOf(topMaster, defaultArray(spec, topMaster)));
    if (attempt.ok) return attempt;
    first ??= attempt;
  }
  return first ?? { ok: false, problems: [{ code: 'no-top-master', tried: MOST_DRAWS }] };
}

const BLOCKING: ReadonlySet<string> = new Set([
  'macs',
  'few-depths',
  'equal-run',
  'grade-equal-share',
  'grade-equal-neighbours',
]);

function shapeProblem(request: SystemRequest): CapacityProblem | undefined {
  const { levels, avoidLetters } = request;
  const grands = grandsWanted(request);
  if (!grands.some(({ masters }) => masters.some((m) => wantedKeys(m) > 0)))
    return { code: 'nothing-wanted' };
  const possible = grands.findIndex(
    (grand, g) => !grand.symbol && grandSymbol(g, avoidLetters) === undefined,
  );
  if (levels === 4 && possible >= 0) return { code: 'letters-used-up', level: 'GMK', possible };
  const symbols = new Set<string>();
  for (const named of grands.flatMap((grand) => [grand, ...grand.masters])) {
    if (named.symbol === undefined) continue;
    const symbol = named.symbol.trim().toUpperCase();
    if (symbols.has(symbol)) return { code: 'symbol-repeated', symbol: named.symbol };
    symbols.add(symbol);
  }
  return undefined;
}

/** Whether keys are added to a system that works already: bittings of lost keys alone don't make it one. */
export function topInUse({ topMaster, avoid = [], cylinders = [] }: SystemRequest): boolean {
  if (!topMaster) return false;
  return cylinders.length > 0 || avoid.some((cuts) => cuts.join() === topMaster.join());
}

/** What each level needs at most under one key of the level above. */
export function wantedOf(request: SystemRequest): Wanted {
  const { levels } = request;
  const grands = grandsWanted(request);
  return {
    ...(levels === 4 ? { GMK: grands.length } : {}),
    ...(levels >= 3 ? { MK: Math.max(...grands.map((g) => roomNeeded(g).length)) } : {}),
    CK: Math.max(...grands.flatMap((g) => roomNeeded(g))),
  };
}

function* dealAndPlan(request: SystemRequest, context: PlanContext): Steps<Preparation> {
  if (request.deal) {
    const problem = dealProblem(context, request.deal);
    if (problem) return { ok: false, problems: [problem], context };
    const plan = yield* planEitherWay(context, request.deal);
    if (plan.ok) return { ok: true, context, deal: plan.deal, grands: plan.grands };
    return { ok: false, problems: [plan.problem], context, deal: request.deal };
  }
  const needed = grandsWanted(request)
    .flatMap(({ masters }) => masters)
    .reduce((sum, m) => sum + wantedKeys(m), 0);
  const possible = theoreticalChanges(context.array);
  if (needed > possible)
    return { ok: false, problems: [{ code: 'too-few-changes', needed, possible }], context };
  const wanted = wantedOf(request);
  const candidates = dealCandidates(context, wanted);
  const { fitting } = candidates;
  const suited = fitting.filter((deal) => followsExisting(context, request, deal));
  let best: { problem: CapacityProblem; deal: Deal } | undefined;
  let tried = 0;
  for (const deal of suited) {
    if (tried === DEALS_TRIED || context.budget.left < 0) break;
    yield { stage: 'choosing-keys', done: tried, total: suited.length };
    tried++;
    const plan = yield* planEitherWay(context, deal);
    if (plan.ok) return { ok: true, context, deal, grands: plan.grands };
    best ??= { problem: plan.problem, deal };
  }
  const deal = best?.deal ?? (fitting.length > 0 ? fitting[0] : candidates.short[0]);
  if (deal === undefined) return { ok: false, problems: [{ code: 'deal-bad', level: 'CK' }], context };
  const off = best || fitting.length === 0 ? undefined : offDealProblem(context, request, deal);
  if (off) return { ok: false, problems: [off], context, deal };
  const shortfall =
    best?.problem.code === 'group-too-small' ? best.problem : theoreticalShortfall(context, deal, wanted);
  const all = tried === suited.length && context.budget.left >= 0;
  const proven = all && (tried === 0 || isExact(context));
  return { ok: false, problems: [{ ...shortfall, code: 'no-deal-fits', tried, proven }], context, deal };
}

/**
 * Far-apart keys taken in scattered order leave gaps; in progression order they pack closely, so that is tried
 * where the scattered order falls short.
 */
function* planEitherWay(context: PlanContext, deal: Deal): Steps<GroupPlan> {
  const plan = yield* planGroups(context, deal);
  if (plan.ok || context.order === 'progression' || context.minimumDifference <= 1) return plan;
  return yield* planGroups({ ...context, order: 'progression' }, deal);
}

/** Whether trying all deals proves that none fits: keys kept apart and unlike grands are given out without a proof. */
const isExact = ({ minimumDifference, grands }: PlanContext): boolean =>
  minimumDifference <= 1 && new Set(grands.map((grand) => roomNeeded(grand).join())).size === 1;

/** The level that is scarcest before any rule. */
function theoreticalShortfall(
  context: PlanContext,
  deal: Deal,
  wanted: Wanted,
): { level: Level; needed: number; possible: number } {
  const rated = levelsDealt(context.levels).map((level) => ({
    level,
    needed: wanted[level] ?? 1,
    possible: mostApart(context, deal, level),
  }));
  return rated.reduce((worst, next) =>
    next.possible / next.needed < worst.possible / worst.needed ? next : worst,
  );
}

const followsExisting = (context: PlanContext, request: SystemRequest, deal: Deal): boolean =>
  offDealProblem(context, request, deal) === undefined;

/** The first existing master that a deal doesn't suit. */
function offDealProblem(
  context: PlanContext,
  { grands }: SystemRequest,
  deal: Deal,
): CapacityProblem | undefined {
  for (const grand of grands) {
    if (grand.bitting) {
      const chamber = offDeal(context, deal, 'GMK', context.topMaster, grand.bitting);
      if (chamber !== undefined) return { code: 'master-off-deal', symbol: grand.symbol ?? '', chamber };
    }
    const above = grand.bitting ?? (context.levels === 4 ? undefined : context.topMaster);
    for (const master of grand.masters) {
      if (!master.bitting || !above) continue;
      const chamber = offDeal(context, deal, 'MK', above, master.bitting);
      if (chamber !== undefined) return { code: 'master-off-deal', symbol: master.symbol ?? '', chamber };
    }
  }
  return undefined;
}
