/**
 * Finds keys for every group of a hierarchy under one deal of the positions: grand masters, masters under each,
 * change keys under each of those. A key is taken only if it and every key above it pass the rules.
 *
 * Groups differ in how many of their changes are usable, so a master found is given to the largest group that it
 * still has room for; since a master with room for a large group has room for every smaller one, no other way of
 * giving them out serves more groups. For grands of unlike groups the same order is used without that proof.
 */
import type { Bitting } from './bitting.ts';
import { bittingOf, packBitting } from './bitting.ts';
import type { CapacityProblem } from './capacityProblem.ts';
import { levelSpace, levelsDealt, offDeal, type Deal, type DealContext } from './deal.ts';
import { inOrder, mix, type ChangeOrder, type ChangeSpace } from './progression.ts';
import type { Specification } from './specification.ts';
import type { Level, Steps } from './system.ts';
import { roomNeeded, spareRoom, wantedKeys, type GrandRequest, type MasterRequest } from './systemRequest.ts';
import type { UsableTest } from './usable.ts';

export interface PlanContext extends DealContext {
  readonly spec: Specification;
  readonly usable: UsableTest;
  readonly grands: readonly GrandRequest[];
  readonly order: ChangeOrder;
  readonly seed: number;
  /** Bittings that may not operate a new cylinder. */
  readonly avoid: readonly Bitting[];
  /** Changes that may still be looked at, shared by all attempts; below zero the search is given up. */
  readonly budget: { left: number };
}

/** A master with its change keys; a spare one has none. */
export interface PlannedMaster {
  readonly bitting: Bitting;
  readonly changeKeys: readonly Bitting[];
}

export interface PlannedGrand {
  readonly bitting: Bitting;
  /** In the order of the request. */
  readonly masters: readonly PlannedMaster[];
  readonly spares: readonly Bitting[];
}

export type GroupPlan =
  | { readonly ok: true; readonly deal: Deal; readonly grands: readonly PlannedGrand[] }
  | { readonly ok: false; readonly problem: CapacityProblem };

/** Plans all groups under a deal, or says which level falls short. Yields its progress in grands. */
export function* planGroups(context: PlanContext, deal: Deal): Steps<GroupPlan> {
  const levels = levelsDealt(context.levels);
  const top = context.topMaster;
  const planner = createPlanner(context, deal);
  if (!levels.includes('GMK')) {
    const grand = planner.fitGrand(top, context.grands[0]!);
    return grand.ok ? { ok: true, deal, grands: [grand.planned] } : grand;
  }
  const planned = new Map<number, PlannedGrand>();
  const waiting = context.grands
    .map((grand, g) => ({ grand, g, needs: roomNeeded(grand) }))
    .sort((a, b) => b.needs[0]! - a.needs[0]! || b.needs.length - a.needs.length || a.g - b.g);
  for (const { grand, g } of waiting) {
    if (!grand.bitting) continue;
    const chamber = offDeal(context, deal, 'GMK', top, grand.bitting);
    if (chamber !== undefined)
      return { ok: false, problem: { code: 'master-off-deal', symbol: grand.symbol ?? '', chamber } };
    const fit = planner.fitGrand(grand.bitting, grand);
    if (!fit.ok) return fit;
    planned.set(g, fit.planned);
  }
  const open = waiting.filter(({ grand }) => !grand.bitting);
  let short: CapacityProblem | undefined;
  if (open.length > 0)
    for (const cuts of planner.changes(
      'GMK',
      top,
      [...planned.values()].map((p) => p.bitting),
    )) {
      yield { stage: 'choosing-keys', done: planned.size, total: waiting.length };
      const bitting = bittingOf(context.spec, cuts);
      const fitting = firstFit(open, ({ grand }) => planner.fitGrand(bitting, grand));
      if (!fitting.fit) {
        short = fitting.problem;
        continue;
      }
      planner.taken(bitting);
      planned.set(open[fitting.at]!.g, fitting.fit);
      open.splice(fitting.at, 1);
      if (open.length === 0) break;
    }
  if (open.length > 0) {
    const needed = waiting.length;
    const possible = planned.size;
    return {
      ok: false,
      problem: possible === 0 && short ? short : { code: 'group-too-small', level: 'GMK', needed, possible },
    };
  }
  return { ok: true, deal, grands: context.grands.map((_, g) => planned.get(g)!) };
}

type GrandFit =
  | { readonly ok: true; readonly planned: PlannedGrand }
  | { readonly ok: false; readonly problem: CapacityProblem };

function firstFit<T>(
  items: readonly T[],
  attempt: (item: T) => GrandFit,
): { fit: PlannedGrand; at: number } | { fit?: undefined; problem?: CapacityProblem } {
  let problem: CapacityProblem | undefined;
  const tried = new Set<string>();
  for (const [at, item] of items.entries()) {
    // Grands of the same shape fit or fail alike.
    const shape = JSON.stringify(item, (key, value: unknown) =>
      key === 'g' || key === 'symbol' ? 0 : value,
    );
    if (tried.has(shape)) continue;
    tried.add(shape);
    const result = attempt(item);
    if (result.ok) return { fit: result.planned, at };
    problem = result.problem;
  }
  return problem ? { problem } : {};
}

interface Planner {
  readonly fitGrand: (bitting: Bitting, grand: GrandRequest) => GrandFit;
  /** Usable keys of a level under a base, far enough from those given and from one another once `taken`. */
  readonly changes: (level: Level, base: readonly number[], given: readonly Bitting[]) => Iterable<number[]>;
  readonly taken: (bitting: Bitting) => void;
}

function createPlanner(context: PlanContext, deal: Deal): Planner {
  const { spec, usable, order, minimumDifference, avoid, budget, topMaster } = context;
  const spaces = new Map<Level, ChangeSpace>();
  const spaceOf = (level: Level): ChangeSpace => {
    const space = spaces.get(level) ?? levelSpace(context, deal, level);
    spaces.set(level, space);
    return space;
  };
  const seedOf = (base: readonly number[]): number =>
    mix(packBitting(spec, base) % 2 ** 31, context.seed, base.length);
  let siblings: Bitting[] = [];

  function* usableChanges(
    level: Level,
    base: readonly number[],
    accept: UsableTest,
  ): Generator<number[], void, void> {
    const space = spaceOf(level);
    const cuts = [...base];
    for (const n of inOrder(space.size, order, seedOf(base))) {
      if (--budget.left < 0) return;
      space.at(n, cuts);
      if (usable(cuts) && accept(cuts)) yield [...cuts];
    }
  }

  function* changes(
    level: Level,
    base: readonly number[],
    given: readonly Bitting[],
  ): Generator<number[], void, void> {
    siblings = [...given];
    const far: UsableTest = (cuts) =>
      siblings.every((other) => differences(other, cuts) >= Math.max(1, minimumDifference));
    yield* usableChanges(level, base, far);
  }

  /** Up to `most` change keys under a master, far enough from one another. */
  function pick(chain: readonly Bitting[], most: number): Bitting[] {
    const base = chain.at(-1)!;
    const strangers = strangersOf(chain, base);
    const picked: Bitting[] = [];
    if (most === 0) return picked;
    for (const cuts of usableChanges('CK', base, (c) => letsNobodyIn(chain, strangers, c))) {
      if (minimumDifference > 1 && picked.some((other) => differences(other, cuts) < minimumDifference))
        continue;
      picked.push(bittingOf(spec, cuts));
      if (picked.length === most) break;
    }
    return picked;
  }

  /** Avoided bittings that a cylinder under this chain might let in: they fit it wherever its keys are the same. */
  function strangersOf(chain: readonly Bitting[], base: Bitting): Bitting[] {
    return avoid.filter(
      (cuts) =>
        !chain.some((key) => differences(key, cuts) === 0) &&
        cuts.every((cut, i) => deal[i] === 'CK' || cut === base[i] || cut === topMaster[i]),
    );
  }

  const letsNobodyIn = (
    chain: readonly Bitting[],
    strangers: readonly Bitting[],
    cuts: readonly number[],
  ): boolean =>
    strangers.every((other) =>
      other.some((cut, i) => cut !== cuts[i] && chain.every((key) => key[i] !== cut)),
    );

  function fitGrand(grandBitting: Bitting, grand: GrandRequest): GrandFit {
    const above = grandBitting === topMaster ? [topMaster] : [topMaster, grandBitting];
    if (context.levels === 2) {
      const master = grand.masters[0]!;
      const changeKeys = pick([topMaster], wantedKeys(master));
      if (changeKeys.length < wantedKeys(master)) return tooFew('CK', wantedKeys(master), changeKeys.length);
      return {
        ok: true,
        planned: { bitting: topMaster, masters: [{ bitting: topMaster, changeKeys }], spares: [] },
      };
    }
    const planned = new Map<number, PlannedMaster>();
    for (const [m, master] of grand.masters.entries()) {
      if (!master.bitting) continue;
      const fit = fitGiven(master, above);
      if (!fit.ok) return fit;
      planned.set(m, fit.planned);
    }
    return fitNew(grandBitting, grand, above, planned);
  }

  function fitGiven(
    master: MasterRequest,
    above: readonly Bitting[],
  ): { ok: true; planned: PlannedMaster } | { ok: false; problem: CapacityProblem } {
    const bitting = master.bitting!;
    const chamber = offDeal(context, deal, 'MK', above.at(-1)!, bitting);
    if (chamber !== undefined)
      return { ok: false, problem: { code: 'master-off-deal', symbol: master.symbol ?? '', chamber } };
    const changeKeys = pick([...above, bitting], wantedKeys(master));
    if (changeKeys.length < wantedKeys(master)) return tooFew('CK', wantedKeys(master), changeKeys.length);
    return { ok: true, planned: { bitting, changeKeys } };
  }

  function fitNew(
    grandBitting: Bitting,
    grand: GrandRequest,
    above: readonly Bitting[],
    planned: Map<number, PlannedMaster>,
  ): GrandFit {
    const waiting = [
      ...grand.masters.flatMap((master, m) => (planned.has(m) ? [] : [{ m, need: wantedKeys(master) }])),
      ...Array.from({ length: grand.spares ?? 0 }, () => ({ m: -1, need: spareRoom(grand) })),
    ].sort((a, b) => b.need - a.need);
    const wanted = planned.size + waiting.length;
    const spares: Bitting[] = [];
    let largest = 0;
    const others: Bitting[] = [...planned.values()].map(({ bitting }) => bitting);
    const far: UsableTest = (cuts) =>
      others.every((other) => differences(other, cuts) >= Math.max(1, minimumDifference));
    if (waiting.length > 0)
      for (const cuts of usableChanges('MK', above.at(-1)!, far)) {
        const bitting = bittingOf(spec, cuts);
        const changeKeys = pick([...above, bitting], waiting[0]!.need);
        largest = Math.max(largest, changeKeys.length);
        const at = waiting.findIndex(({ need }) => need <= changeKeys.length);
        if (at < 0) continue;
        const [{ m, need }] = waiting.splice(at, 1) as [{ m: number; need: number }];
        others.push(bitting);
        if (m < 0) spares.push(bitting);
        else planned.set(m, { bitting, changeKeys: changeKeys.slice(0, need) });
        if (waiting.length === 0) break;
      }
    if (waiting.length > 0)
      return waiting[0]!.need > largest
        ? tooFew('CK', waiting[0]!.need, largest)
        : tooFew('MK', wanted, wanted - waiting.length);
    return {
      ok: true,
      planned: { bitting: grandBitting, masters: grand.masters.map((_, m) => planned.get(m)!), spares },
    };
  }

  return { fitGrand, changes, taken: (bitting) => siblings.push(bitting) };
}

const tooFew = (level: Level, needed: number, possible: number): { ok: false; problem: CapacityProblem } => ({
  ok: false,
  problem: { code: 'group-too-small', level, needed, possible },
});

/** Number of chambers in which two keys differ. */
function differences(a: readonly number[], b: readonly number[]): number {
  let count = 0;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) count++;
  return count;
}
