/**
 * Everyday keying without a master: pools of keyed-different bittings, and groups that are keyed alike. Bittings are
 * looked at in a scattered, seeded order without listing them first, and one is taken when it is usable, unused and
 * different enough from all taken so far. Where two cuts must differ and that order ends short, only bittings whose
 * steps sum to the same remainder are taken: any two of those differ in two cuts at least, and no set is larger
 * (Singleton 1964).
 */
import { bittingOf, packBitting, type Bitting } from '../bitting.ts';
import { operates, pinnedFor } from '../cylinder.ts';
import { scatterOf, totalSpace } from '../progression.ts';
import { DEFAULT_RULES, isUsable, type Rules } from '../rules.ts';
import { positions, type Specification } from '../specification.ts';
import type { Chambers, CylinderRecord, Steps } from '../system.ts';

export interface PoolRequest {
  readonly spec: Specification;
  /** Different bittings wanted. */
  readonly count: number;
  readonly rules?: Rules;
  /** Chambers in which any two differ at least, used ones included; 1 when left out. */
  readonly minimumDifference?: number;
  /** Keep a whole number of steps from this bitting. */
  readonly parityOf?: Bitting;
  /** Used before, whatever their status. */
  readonly used?: readonly Bitting[];
  /** Existing cylinders that none may operate. */
  readonly cylinders?: readonly Pick<CylinderRecord, 'chambers'>[];
  readonly seed?: number;
}

export interface Pool {
  readonly bittings: readonly Bitting[];
  /** Fewer than wanted were found. */
  readonly short: boolean;
  /** Every bitting was looked at: with one differing cut there are no more, with two or more none fits between these. */
  readonly exhausted: boolean;
  /** Bittings looked at in the order that gave the pool. */
  readonly looked: number;
}

const MOST_LOOKED = 20_000_000;
const LOOKS_A_STEP = 20_000;

/**
 * @example runToEnd(keyedDifferentPool({ spec, count: 50, minimumDifference: 2 })).bittings.length → 50
 */
export function* keyedDifferentPool(request: PoolRequest): Steps<Pool> {
  const first = yield* draw(request, () => true);
  if (!first.short || request.minimumDifference !== 2) return first;
  const depths = request.spec.depths.length;
  let best = first;
  for (let remainder = 0; remainder < depths && best.short; remainder++) {
    const next = yield* draw(
      request,
      (cuts) => cuts.reduce((sum, cut) => sum + cut, 0) % depths === remainder,
    );
    if (next.bittings.length > best.bittings.length) best = next;
  }
  if (best === first || !best.short) return best;
  // Where some of that remainder are barred, others may fit between the rest.
  const more = yield* draw(
    {
      ...request,
      count: request.count - best.bittings.length,
      used: [...(request.used ?? []), ...best.bittings],
    },
    () => true,
  );
  return { ...more, bittings: [...best.bittings, ...more.bittings] };
}

function* draw(
  {
    spec,
    count,
    rules = DEFAULT_RULES,
    minimumDifference = 1,
    parityOf,
    used = [],
    cylinders = [],
    seed = 1,
  }: PoolRequest,
  among: (cuts: readonly number[]) => boolean,
): Steps<Pool> {
  const space = totalSpace(
    spec.centres.map((_, chamber) => ({ chamber, master: 0, choices: depthsAt(spec, parityOf?.[chamber]) })),
  );
  const scatter = scatterOf(space.size, seed);
  const most = Math.min(space.size, MOST_LOOKED);
  const cuts = new Array<number>(positions(spec)).fill(0);
  const differs = createDifference(spec, minimumDifference, used);
  const bittings: Bitting[] = [];
  let looked = 0;
  for (; looked < most && bittings.length < count; looked++) {
    if (looked % LOOKS_A_STEP === 0) yield { stage: 'drawing bittings', done: bittings.length, total: count };
    space.at(scatter(looked), cuts);
    if (!isUsable(spec, cuts, rules) || !among(cuts) || !differs.fromAll(cuts)) continue;
    if (cylinders.some(({ chambers }) => operates(chambers, cuts))) continue;
    differs.add(cuts);
    bittings.push(bittingOf(spec, [...cuts]));
  }
  return { bittings, short: bittings.length < count, exhausted: looked === space.size, looked };
}

function depthsAt({ depths, step }: Specification, from: number | undefined): number[] {
  return depths.flatMap((_, i) => (from === undefined || (i - from) % step === 0 ? [i] : []));
}

/** Whether cuts differ in `least` chambers from all taken. Up to two by look-up, more one by one. */
function createDifference(
  spec: Specification,
  least: number,
  used: readonly Bitting[],
): { fromAll: (cuts: readonly number[]) => boolean; add: (cuts: readonly number[]) => void } {
  const taken = new Set(used.map((cuts) => packBitting(spec, cuts)));
  const list: (readonly number[])[] = [...used];
  const p = positions(spec);
  const places = Array.from({ length: p }, (_, i) => spec.depths.length ** (p - 1 - i));
  const twoApart = (cuts: readonly number[], packed: number): boolean =>
    cuts.every((cut, i) =>
      spec.depths.every((_, d) => d === cut || !taken.has(packed + (d - cut) * places[i]!)),
    );
  const apart = (a: readonly number[], b: readonly number[]): boolean => {
    let differing = 0;
    for (let i = 0; i < p; i++) if (a[i] !== b[i]) differing++;
    return differing >= least;
  };
  return {
    fromAll(cuts) {
      const packed = packBitting(spec, cuts);
      if (taken.has(packed)) return false;
      if (least >= 2 && !twoApart(cuts, packed)) return false;
      return least <= 2 || list.every((other) => apart(cuts, other));
    },
    add(cuts) {
      taken.add(packBitting(spec, cuts));
      list.push([...cuts]);
    },
  };
}

export interface AlikeGroup {
  readonly name: string;
  readonly cylinders: readonly string[];
}

export interface KeyedAlike {
  readonly groups: readonly {
    readonly name: string;
    readonly bitting: Bitting;
    readonly cylinders: readonly { readonly id: string; readonly chambers: Chambers }[];
  }[];
  /** Groups for which no bitting was left. */
  readonly without: readonly string[];
  readonly pool: Pool;
}

/**
 * One bitting for each group, all groups different, and each cylinder pinned for its group's.
 * @example keyedAlike([{ name: 'KA1', cylinders: ['Front', 'Back'] }], { spec }) → both pinned for one bitting
 */
export function* keyedAlike(
  groups: readonly AlikeGroup[],
  request: Omit<PoolRequest, 'count'>,
): Steps<KeyedAlike> {
  const pool = yield* keyedDifferentPool({ ...request, count: groups.length });
  const served = groups.slice(0, pool.bittings.length);
  return {
    groups: served.map(({ name, cylinders }, g) => {
      const bitting = pool.bittings[g]!;
      const chambers = pinnedFor(request.spec, [bitting]);
      return { name, bitting, cylinders: cylinders.map((id) => ({ id, chambers })) };
    }),
    without: groups.slice(served.length).map(({ name }) => name),
    pool,
  };
}
