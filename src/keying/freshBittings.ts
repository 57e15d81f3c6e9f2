/**
 * New bittings for the keys that a lost key takes along, under the masters that stay, and the cylinders pinned for
 * them. They come from the same progression as the system; a lost top master moves in the positions of the level
 * right below it, so that every key below can stay. Nothing is proposed that the audit has not passed: the lost key
 * opens nothing any more, and no key opens or fails where it didn't before.
 *
 * A system without a valid key bitting array and a full list of the bittings in use is never extended (trade
 * association's technical standard 11).
 */
import { accessMap, type AccessMap } from './access.ts';
import { auditSystem } from './audit.ts';
import { reachOf } from './blankReach.ts';
import { operates } from './cylinder.ts';
import type { Bitting } from './bitting.ts';
import { levelsDealt, type Deal } from './deal.ts';
import { recordsOf, type DoubtfulKey } from './doubtfulKeys.ts';
import type { Finding, SystemFinding } from './findings.ts';
import { keyedDifferentPool } from './grid/pool.ts';
import { generateSystem } from './hierarchy.ts';
import { auditInputOf, type Mark } from './intended.ts';
import { lostKeyScope, repinned, type LostKeyScope } from './lostKey.ts';
import { freshTop } from './freshTop.ts';
import { foldName } from './specTable.ts';
import { isInUse, type KeyRecord, type KeySystem, type Level, type Steps } from './system.ts';
import type { GrandRequest, MasterRequest, SystemRequest } from './systemRequest.ts';

export interface LostKeyRequest {
  readonly system: KeySystem;
  /** Which key must operate which cylinder. */
  readonly marks: readonly Mark[];
  /** Number of the lost key in the system's list. */
  readonly lost: number;
  /** Keys that can't be read, with every bitting that they may have: all of them are shut out. */
  readonly doubtful?: readonly DoubtfulKey[];
  readonly seed?: number;
}

/** Other choices that are tried where a doubtful key happens to open what the first one pinned. */
const MOST_SEEDS = 5;

export type LostKeyProblem =
  /** Neither the array nor the top master is known: the system isn't extended blind. */
  | { readonly code: 'no-array' }
  /** Control keys work another line; every core's control cut would change. */
  | { readonly code: 'control-lost' }
  /** The key isn't in use: its bitting is free, void or retired already. */
  | { readonly code: 'not-in-use'; readonly symbol: string }
  /** Positions can't be told apart by level, so no top master fits the keys that stay. */
  | { readonly code: 'levels-mixed' }
  | { readonly code: 'no-bitting'; readonly symbol: string }
  /** What was found doesn't pass: usually a cylinder cross-keyed by hand. */
  | { readonly code: 'audit-failed'; readonly findings: readonly SystemFinding[] };

export interface FreshCylinder {
  readonly cylinder: number;
  readonly chambers: KeySystem['cylinders'][number]['chambers'];
}

export type FreshResult =
  | {
      readonly ok: true;
      readonly scope: LostKeyScope;
      /** New rows: the same symbols with new bittings. */
      readonly keys: readonly { readonly replaces: number; readonly record: KeyRecord }[];
      readonly cylinders: readonly FreshCylinder[];
      /** The top master, where it is new: the array has to lose its cuts. */
      readonly topMaster?: Bitting;
      readonly array?: readonly (readonly number[])[];
      readonly pairsAudited: number;
    }
  | {
      readonly ok: false;
      readonly scope?: LostKeyScope;
      readonly problems: readonly (LostKeyProblem | Finding)[];
    };

/**
 * Finds the new bittings, or says why there are none. Yields its progress.
 * @example runToEnd(freshBittings({ system, marks, lost })).keys → [{ replaces: 3, record: { symbol: 'AA1', … } }]
 */
export function* freshBittings(request: LostKeyRequest): Steps<FreshResult> {
  const { system, doubtful = [], seed = 1 } = request;
  const all: LostKeyRequest = {
    ...request,
    system: { ...system, keys: [...system.keys, ...recordsOf(doubtful)] },
  };
  const names = new Set(doubtful.map(({ symbol }) => symbol));
  let result = yield* proposal({ ...all, seed });
  for (let n = 1; n < MOST_SEEDS && !result.ok && result.problems.every(byDoubt); n++)
    result = yield* proposal({ ...all, seed: seed + n });
  return result;

  function byDoubt(problem: LostKeyProblem | Finding): boolean {
    return problem.code === 'audit-failed' && problem.findings.every((f) => 'key' in f && names.has(f.key));
  }
}

function* proposal(request: LostKeyRequest): Steps<FreshResult> {
  const { system, marks, lost } = request;
  const key = system.keys[lost]!;
  if (key.status !== 'issued' && key.status !== 'reserved')
    return { ok: false, problems: [{ code: 'not-in-use', symbol: key.symbol }] };
  if (key.level === 'control') return { ok: false, problems: [{ code: 'control-lost' }] };
  const access = accessMap(auditInputOf(system, marks));
  const scope = lostKeyScope(system, access, lost);
  const found = yield* findKeys(request, scope, access);
  if (!found.ok) return { ...found, scope };
  const records = found.keys;
  const bittings = new Map(records.map(({ replaces, record }) => [replaces, record.bitting]));
  const cylinders = [...scope.exposed, ...scope.along].map((c): FreshCylinder => ({
    cylinder: c,
    chambers: repinned(
      system,
      system.cylinders[c]!.chambers,
      operatingKeys(system, access, c).map((k) => bittings.get(k) ?? system.keys[k]!.bitting),
    ),
  }));
  const audit = yield* newFaults(request, access, scope, records, cylinders);
  if (audit.findings.length > 0)
    return { ok: false, scope, problems: [{ code: 'audit-failed', findings: audit.findings }] };
  const { topMaster, array } = found;
  return {
    ok: true,
    scope,
    keys: records,
    cylinders,
    pairsAudited: audit.pairs,
    ...(topMaster && { topMaster }),
    ...(array && { array }),
  };
}

/** Keys that a cylinder is pinned for: control keys work another line. */
export const operatingKeys = (system: KeySystem, access: AccessMap, cylinder: number): number[] =>
  (access.input.intended[cylinder] ?? []).filter((k) => system.keys[k]!.level !== 'control');

type Found =
  | {
      readonly ok: true;
      readonly keys: { readonly replaces: number; readonly record: KeyRecord }[];
      readonly topMaster?: Bitting;
      readonly array?: readonly (readonly number[])[];
    }
  | { readonly ok: false; readonly problems: readonly (LostKeyProblem | Finding)[] };

function* findKeys(request: LostKeyRequest, scope: LostKeyScope, access: AccessMap): Steps<Found> {
  const { system, lost, seed = 1 } = request;
  const { spec, keys, topMaster, array } = system;
  const top = topOf(system);
  const used = keys.filter(({ status }) => status !== 'free').map(({ bitting }) => bitting);
  const changing = new Set([...scope.exposed, ...scope.along]);
  const kept = system.cylinders.filter((_, c) => !changing.has(c));
  const renew = (k: number, bitting: Bitting) => ({
    replaces: k,
    record: { ...keys[k]!, bitting },
  });
  const outside = scope.replaced.filter(
    (k) => keys[k]!.level === 'single' || (keys[k]!.level === 'CK' && !keys[k]!.parent),
  );
  const inside = scope.replaced.filter((k) => !outside.includes(k));
  const renewed: { readonly replaces: number; readonly record: KeyRecord }[] = [];
  let avoid = used;
  if (inside.length > 0) {
    if (!topMaster || !array || !top) return { ok: false, problems: [{ code: 'no-array' }] };
    if (keys[lost]!.bitting.join() === topMaster.join()) {
      const below = levelsDealt(top.levels)[0]!;
      const deal = dealOf(system, top.levels);
      if (!deal) return { ok: false, problems: [{ code: 'levels-mixed' }] };
      const fresh = yield* freshTop({
        system,
        access,
        top: lost,
        scope,
        moving: deal.map((l) => l === below),
        seed,
      });
      if (!fresh) return { ok: false, problems: [{ code: 'no-bitting', symbol: keys[lost]!.symbol }] };
      return {
        ok: true,
        keys: [renew(lost, fresh)],
        topMaster: fresh,
        array: array.map((choices, i) => choices.filter((depth) => depth !== fresh[i])),
      };
    }
    const tree = treeOf(system, top.levels, inside);
    const base: SystemRequest = {
      name: system.name,
      spec,
      levels: top.levels,
      grands: tree,
      topMaster,
      topSymbol: keys[top.key]!.symbol,
      array,
      order: 'scattered',
      seed,
      avoid: used,
      cylinders: kept,
      ...controlOf(system),
    };
    const made = yield* generateUnder(base, system, top.levels);
    if (!made.ok) return made;
    for (const k of inside) {
      const bitting = made.bittingOf(keys[k]!);
      if (!bitting) return { ok: false, problems: [{ code: 'no-bitting', symbol: keys[k]!.symbol }] };
      renewed.push(renew(k, bitting));
    }
    avoid = [...used, ...renewed.map(({ record }) => record.bitting)];
  }
  if (outside.length > 0) {
    const pool = yield* keyedDifferentPool({
      spec,
      count: outside.length,
      used: avoid,
      cylinders: kept,
      seed,
    });
    for (const [n, k] of outside.entries()) {
      const bitting = pool.bittings[n];
      if (!bitting) return { ok: false, problems: [{ code: 'no-bitting', symbol: keys[k]!.symbol }] };
      renewed.push(renew(k, bitting));
    }
  }
  return { ok: true, keys: renewed };
}

interface Top {
  readonly key: number;
  readonly levels: 2 | 3 | 4;
}

/** The top master among the keys, which tells how many levels there are. */
function topOf({ keys, topMaster }: KeySystem): Top | undefined {
  const key = keys.findIndex(
    (k) =>
      topMaster !== undefined && k.bitting.join() === topMaster.join() && k.level !== 'control' && isInUse(k),
  );
  const levels = { MK: 2, GMK: 3, GGMK: 4 } as const;
  const level = keys[key]?.level;
  return level === 'MK' || level === 'GMK' || level === 'GGMK' ? { key, levels: levels[level] } : undefined;
}

function controlOf({ keys }: KeySystem): { readonly control?: Bitting } {
  const control = keys.find((k) => k.level === 'control' && isInUse(k));
  return control ? { control: control.bitting } : {};
}

/**
 * To which level each position belongs, as the keys show: where masters differ from the key above them, where
 * change keys do. Undefined where one position shows two levels. A position that no key has moved yet is free.
 */
export function dealOf(
  system: KeySystem,
  levels: 2 | 3 | 4,
  free: Level | 'constant' = 'constant',
): Deal | undefined {
  const bySymbol = new Map(system.keys.filter(isInUse).map((key) => [foldName(key.symbol), key]));
  const found = system.spec.centres.map(() => new Set<Level>());
  for (const key of bySymbol.values()) {
    const parent = bySymbol.get(foldName(key.parent ?? ''));
    if (!parent || key.level === 'control' || key.level === 'single') continue;
    const level = levels === 2 ? 'CK' : key.level;
    key.bitting.forEach((cut, i) => cut !== parent.bitting[i] && found[i]!.add(level));
  }
  if (found.some((set) => set.size > 1)) return undefined;
  return found.map((set, i) => [...set][0] ?? (system.array?.[i]?.length ? free : 'constant'));
}

/** Existing masters with their bittings, those to be replaced without; change keys only where new ones are wanted. */
function treeOf(
  { keys, topMaster }: KeySystem,
  levels: 2 | 3 | 4,
  replaced: readonly number[],
): GrandRequest[] {
  const isNew = new Set(replaced.map((k) => keys[k]!));
  const under = (symbol: string, level: Level): KeyRecord[] =>
    keys.filter((k) => isInUse(k) && k.level === level && foldName(k.parent ?? '') === foldName(symbol));
  const given = (key: KeyRecord): { readonly bitting?: Bitting } =>
    isNew.has(key) ? {} : { bitting: key.bitting };
  const newUnder = (symbol: string): number => under(symbol, 'CK').filter((k) => isNew.has(k)).length;
  const top = keys.find((k) => isInUse(k) && k.bitting.join() === topMaster?.join())!;
  const mastersOf = (symbol: string): MasterRequest[] =>
    under(symbol, 'MK').map((key) => ({
      symbol: key.symbol,
      ...given(key),
      // a master without change keys of its own needs room for one, or the group would count as nothing wanted
      changeKeys: Math.max(newUnder(key.symbol), isNew.has(key) ? 1 : 0),
    }));
  if (levels === 2) return [{ masters: [{ symbol: top.symbol, changeKeys: newUnder(top.symbol) }] }];
  if (levels === 3) return [{ symbol: top.symbol, masters: mastersOf(top.symbol) }];
  return under(top.symbol, 'GMK').map((key) => ({
    symbol: key.symbol,
    ...given(key),
    masters: mastersOf(key.symbol),
  }));
}

type Made =
  | { readonly ok: true; readonly bittingOf: (key: KeyRecord) => Bitting | undefined }
  | { readonly ok: false; readonly problems: readonly Finding[] };

/** Tries the deal that the keys show, with unmoved positions left alone, then given to the change keys, then any. */
function* generateUnder(base: SystemRequest, system: KeySystem, levels: 2 | 3 | 4): Steps<Made> {
  const all = levelsDealt(levels);
  const deals = (['constant', 'CK'] as const)
    .map((free) => dealOf(system, levels, free))
    .filter((deal): deal is Deal => deal !== undefined && all.every((level) => deal.includes(level)));
  let first: Made | undefined;
  for (const deal of [...deals, undefined]) {
    const made = yield* generateSystem({ ...base, ...(deal && { deal }) });
    if (made.ok) return { ok: true, bittingOf: taker(made.system.keys) };
    first ??= { ok: false, problems: made.problems };
  }
  return first!;
}

/** Gives out the generated keys: masters by symbol, change keys of a master one after the other. */
function taker(made: readonly KeyRecord[]): (key: KeyRecord) => Bitting | undefined {
  const bySymbol = new Map(made.map((k) => [foldName(k.symbol), k.bitting]));
  const under = new Map<string, Bitting[]>();
  for (const { parent = '', bitting } of made) {
    const list = under.get(foldName(parent));
    if (list) list.push(bitting);
    else under.set(foldName(parent), [bitting]);
  }
  return (key) =>
    key.level === 'CK' ? under.get(foldName(key.parent ?? ''))?.shift() : bySymbol.get(foldName(key.symbol));
}

const FAULTS: ReadonlySet<string> = new Set([
  'interchange',
  'lock-out',
  'thin-master-pin',
  'thin-build-up',
  'stack-too-tall',
  'control-operates',
  'control-is-incidental',
  'control-locked-out',
  'same-bitting',
  'unusable-bitting',
]);

/** The system as it would be, audited; faults that stand there today are not held against the new keys. */
function* newFaults(
  { system, marks }: LostKeyRequest,
  access: AccessMap,
  scope: LostKeyScope,
  records: readonly { readonly replaces: number; readonly record: KeyRecord }[],
  cylinders: readonly FreshCylinder[],
): Steps<{ readonly findings: readonly SystemFinding[]; readonly pairs: number }> {
  const after = systemAfter(system, scope, records, cylinders);
  const options = { near: false, cap: Infinity };
  const before = new Set<string>();
  yield* auditSystem(access.input, { ...options, take: (f) => before.add(JSON.stringify(f)) });
  const fresh: SystemFinding[] = [];
  const take = (f: SystemFinding): void => {
    if (FAULTS.has(f.code) && !before.has(JSON.stringify(f))) fresh.push(f);
  };
  const { pairs } = yield* auditSystem(auditInputOf(after, marks), { ...options, take });
  const lost = system.keys[scope.lost]!;
  // an interchange of the lost symbol is told apart from one of the new key of that symbol
  const reach = reachOf(system.spec, lost.cuts);
  const still = after.cylinders.filter((c) => operates(c.chambers, lost.bitting, reach)).map((c) => c.id);
  return {
    pairs,
    findings: [
      ...fresh,
      ...still.map((cylinder) => ({ code: 'interchange' as const, key: lost.symbol, cylinder })),
    ],
  };
}

/** The system with the old bittings retired, the new ones below them and the cylinders pinned anew. */
export function systemAfter(
  system: KeySystem,
  scope: LostKeyScope,
  records: readonly { readonly record: KeyRecord }[],
  cylinders: readonly FreshCylinder[],
): KeySystem {
  const retired = new Set(scope.replaced);
  const chambers = new Map(cylinders.map((c) => [c.cylinder, c.chambers]));
  return {
    ...system,
    keys: [
      ...system.keys.map((key, k) => (retired.has(k) ? { ...key, status: 'retired' as const } : key)),
      ...records.map(({ record }) => record),
    ],
    cylinders: system.cylinders.map((cylinder, c) => ({
      ...cylinder,
      chambers: chambers.get(c) ?? cylinder.chambers,
    })),
  };
}
