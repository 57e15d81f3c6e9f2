/**
 * Construction keying: while a building goes up one more key, the construction key, operates the cylinders; from a
 * one-way change on it doesn't. Two states of the same cylinders, so two grids, of which the later one is what stands
 * in the system already. Two ways of changing are told apart, since they ask for different metal:
 *
 * - `loose-pin`: in one chamber (or in as few as will do) a loose pin or ball lies on top of the pins. With the
 *   construction key, cut deeper there than every key of the cylinder, it stays in the plug. A key of the owner's that
 *   lifts all other pins of that chamber to the shear line carries it out of the plug when it turns, into a pocket from
 *   which it doesn't come back. A key with a shallower cut there turns the plug but leaves the loose pin where it is.
 * - `repin`: somebody re-pins the cylinders, or exchanges them, at hand-over; the cut may lie on either side.
 *
 * A construction bitting has a cut that no key of the cylinder has in each of those chambers and one that all of the
 * cylinders share in every other, passes the rules, opens nothing else, and lets no listed key in that was shut out.
 * The mechanics are common trade practice, from memory; makers' cylinders differ, and the pane says so.
 */
import { auditSystem } from './audit.ts';
import { bittingOf, packBitting, type Bitting } from './bitting.ts';
import { operates } from './cylinder.ts';
import { depthsIn, hasDepth, withDepth } from './depthSet.ts';
import { auditInputOf, intendedByMarks, type Mark } from './intended.ts';
import { entersKeyway, foldKeyway } from './keyways.ts';
import { isThin } from './pinning.ts';
import { inOrder, totalSpace } from './progression.ts';
import { err, ok, type Result } from './result.ts';
import { DEFAULT_RULES, isUsable, type Rules } from './rules.ts';
import { MOST_DEPTHS, type Specification } from './specification.ts';
import {
  foldSymbol,
  type Chambers,
  type CylinderRecord,
  isInUse,
  type KeyRecord,
  type KeySystem,
  type Steps,
} from './system.ts';

export type OneWay = 'loose-pin' | 'repin';

export interface ConstructionRequest {
  /** As it shall be after hand-over: that is what stands now. */
  readonly system: KeySystem;
  readonly marks: readonly Mark[];
  /** Cylinders that the construction key operates until then, by id. */
  readonly cylinders: readonly string[];
  readonly symbol: string;
  readonly oneWay: OneWay;
  readonly rules?: Rules;
  readonly seed?: number;
}

export interface ConstructionCylinder {
  readonly id: string;
  readonly before: Chambers;
  readonly after: Chambers;
  /** What leaves, by chamber (from 1): the pin between the nearest cut of the cylinder's keys and the construction key's. */
  readonly leaves: readonly { readonly chamber: number; readonly from: number; readonly to: number }[];
  /** Keys of the cylinder whose first use makes the change; none where it is re-pinned. */
  readonly changedBy: readonly string[];
  /** Keys that operate it and leave the loose pin where it is. */
  readonly notBy: readonly string[];
}

export type ConstructionFault =
  /** Interchangeable cores are exchanged whole instead. */
  | { readonly code: 'construction-core' }
  | { readonly code: 'construction-symbol-taken'; readonly symbol: string }
  | { readonly code: 'construction-no-cylinder' }
  /** No blank enters all of the cylinders: the names of their keyways. */
  | { readonly code: 'construction-keyways'; readonly keyways: readonly string[] }
  /** The system's own audit finds an interchange or a lock-out: that has to be mended first. */
  | { readonly code: 'construction-system-faulty'; readonly findings: number }
  /** No bitting was found. `all` where every one in up to three chambers was looked at. */
  | { readonly code: 'construction-none'; readonly tried: number; readonly all: boolean };

export type ConstructionResult =
  | {
      readonly ok: true;
      readonly bitting: Bitting;
      /** Keyway of its blank; none = the system's only one. */
      readonly keyway?: string;
      /** Chambers with a pin of their own for the construction key, from 1. */
      readonly chambers: readonly number[];
      readonly cylinders: readonly ConstructionCylinder[];
      /** Pairs audited in each of the two states, all as meant. */
      readonly pairs: number;
    }
  | { readonly ok: false; readonly fault: ConstructionFault };

const MOST_CHAMBERS = 3;
/** Bittings looked at for one choice of chambers. */
const MOST_TRIED = 20_000;
const LOOKS_A_STEP = 1000;

/**
 * Finds a construction bitting with the fewest loose pins, and how each cylinder stands before and after.
 * @example runToEnd(constructionKeying({ system, marks, cylinders: ['C1'], symbol: 'CON', oneWay: 'loose-pin' }))
 *   → { ok: true, chambers: [3], cylinders: [{ id: 'C1', leaves: [{ chamber: 3, from: 4, to: 6 }], … }] }
 */
export function* constructionKeying(request: ConstructionRequest): Steps<ConstructionResult> {
  const { system, symbol, oneWay, rules = DEFAULT_RULES, seed = 1 } = request;
  const { spec } = system;
  const refuse = (fault: ConstructionFault): ConstructionResult => ({ ok: false, fault });
  if (spec.core) return refuse({ code: 'construction-core' });
  if (system.keys.some((key) => isInUse(key) && foldSymbol(key.symbol) === foldSymbol(symbol)))
    return refuse({ code: 'construction-symbol-taken', symbol });
  const wanted = new Set(request.cylinders.map(foldSymbol));
  const chosen = system.cylinders.filter(({ id }) => wanted.has(foldSymbol(id)));
  if (chosen.length === 0) return refuse({ code: 'construction-no-cylinder' });
  const blank = blankFor(system, chosen);
  if (!blank.ok) return refuse(blank.error);
  const wrong = yield* faultsOf(system, request.marks);
  if (wrong > 0) return refuse({ code: 'construction-system-faulty', findings: wrong });

  const owners = ownersOf(system, chosen, request.marks);
  const used = new Set(
    system.keys.flatMap((key) => (key.status === 'free' ? [] : [packBitting(spec, key.bitting)])),
  );
  const others = system.cylinders.filter(
    (cylinder) => !chosen.includes(cylinder) && entersKeyway(system.enters, blank.value, cylinder.keyway),
  );
  let tried = 0;
  let all = true;
  for (const at of chamberChoices(spec, chosen, owners, oneWay)) {
    const space = totalSpace(
      spec.centres.map((_, chamber) => ({
        chamber,
        master: 0,
        choices: at.includes(chamber) ? apart(spec, chosen, chamber, oneWay) : shared(spec, chosen, chamber),
      })),
    );
    const cuts = spec.centres.map(() => 0);
    let looked = 0;
    for (const n of inOrder(space.size, 'scattered', seed)) {
      if (looked++ === MOST_TRIED) {
        all = false;
        break;
      }
      if (++tried % LOOKS_A_STEP === 0)
        yield { stage: 'choosing-keys', done: looked, total: Math.min(space.size, MOST_TRIED) };
      space.at(n, cuts);
      if (!isUsable(spec, cuts, rules) || used.has(packBitting(spec, cuts))) continue;
      if (others.some(({ chambers }) => operates(chambers, cuts))) continue;
      const bitting = bittingOf(spec, [...cuts]);
      const cylinders = chosen.map((cylinder, c) => stateOf(cylinder, owners[c]!, bitting, at, oneWay));
      if (letsStrangersIn(system, chosen, cylinders)) continue;
      const pairs = yield* prove(request, blank.value, bitting, cylinders);
      if (pairs === undefined) continue;
      return {
        ok: true,
        bitting,
        ...(blank.value !== undefined && { keyway: blank.value }),
        chambers: at.map((i) => i + 1),
        cylinders,
        pairs,
      };
    }
  }
  return refuse({ code: 'construction-none', tried, all });
}

/**
 * The keyway of a blank that enters all of the cylinders: one of theirs, else one that the table of blanks has.
 * Undefined where none of them names one.
 */
function blankFor(
  { enters }: KeySystem,
  chosen: readonly CylinderRecord[],
): Result<string | undefined, ConstructionFault> {
  const keyways = new Map(chosen.map(({ keyway = '' }) => [foldKeyway(keyway), keyway.trim()]));
  keyways.delete('');
  if (keyways.size === 0) return ok(undefined);
  const blank = [...keyways.values(), ...Object.keys(enters ?? {})].find((name) =>
    chosen.every(({ keyway }) => entersKeyway(enters, name, keyway)),
  );
  return blank === undefined
    ? err({ code: 'construction-keyways', keyways: [...keyways.values()] })
    : ok(blank);
}

/** The keys that must operate each cylinder. */
function ownersOf(
  system: KeySystem,
  chosen: readonly CylinderRecord[],
  marks: readonly Mark[],
): KeyRecord[][] {
  return intendedByMarks(system.keys, chosen, marks).map((numbers) => numbers.map((k) => system.keys[k]!));
}

/** Depths at which every cylinder shears already. */
const shared = (spec: Specification, chosen: readonly CylinderRecord[], chamber: number): number[] =>
  spec.depths.flatMap((_, d) => (chosen.every(({ chambers }) => hasDepth(chambers[chamber]!, d)) ? [d] : []));

/** Depths at which no cylinder shears and that are far enough from those at which one does. */
function apart(
  spec: Specification,
  chosen: readonly CylinderRecord[],
  chamber: number,
  oneWay: OneWay,
): number[] {
  return spec.depths.flatMap((_, d) => {
    const fits = chosen.every(({ chambers }) => {
      // a depth is no pin away from itself
      const depths = depthsIn(chambers[chamber]!, spec.depths.length);
      return depths.every((other) => !isThin(spec, other, d) && (oneWay === 'repin' || other < d));
    });
    return fits ? [d] : [];
  });
}

/** Sets of up to three chambers, the fewest first; among equals those that the owner's keys change best. */
function chamberChoices(
  spec: Specification,
  chosen: readonly CylinderRecord[],
  owners: readonly (readonly KeyRecord[])[],
  oneWay: OneWay,
): number[][] {
  const possible = spec.centres.flatMap((_, i) => (apart(spec, chosen, i, oneWay).length > 0 ? [i] : []));
  const stays = (i: number): number =>
    chosen.reduce((sum, { chambers }, c) => {
      const deepest = depthsIn(chambers[i]!, spec.depths.length).at(-1);
      return sum + owners[c]!.filter(({ bitting }) => bitting[i] !== deepest).length;
    }, 0);
  const sets: number[][] = [];
  const grow = (from: number, set: readonly number[]): void => {
    if (set.length > 0) sets.push([...set]);
    if (set.length === MOST_CHAMBERS) return;
    for (let n = from; n < possible.length; n++) grow(n + 1, [...set, possible[n]!]);
  };
  grow(0, []);
  const cost = new Map(possible.map((i) => [i, oneWay === 'loose-pin' ? stays(i) : 0]));
  const costOf = (set: readonly number[]): number => set.reduce((sum, i) => sum + cost.get(i)!, 0);
  return sets.sort((a, b) => a.length - b.length || costOf(a) - costOf(b));
}

function stateOf(
  { id, chambers }: CylinderRecord,
  owners: readonly KeyRecord[],
  bitting: Bitting,
  at: readonly number[],
  oneWay: OneWay,
): ConstructionCylinder {
  // the depth of the cylinder that lies next to the construction key's: for a loose pin that is the deepest
  const next = (i: number): number =>
    depthsIn(chambers[i]!, MOST_DEPTHS).reduce((near, depth) =>
      Math.abs(depth - bitting[i]!) < Math.abs(near - bitting[i]!) ? depth : near,
    );
  const leaves = at.map((i) => ({ chamber: i + 1, from: next(i), to: bitting[i]! }));
  const sheds = (key: KeyRecord): boolean =>
    oneWay === 'loose-pin' && leaves.some(({ chamber, from }) => key.bitting[chamber - 1] === from);
  return {
    id,
    before: chambers.map((set, i) => (at.includes(i) ? withDepth(set, bitting[i]!) : set)),
    after: chambers,
    leaves,
    changedBy: owners.filter(sheds).map(({ symbol }) => symbol),
    notBy: oneWay === 'loose-pin' ? owners.filter((key) => !sheds(key)).map(({ symbol }) => symbol) : [],
  };
}

/** A listed key that a cylinder shuts out would get in before hand-over; or a cylinder that no key would change. */
function letsStrangersIn(
  { keys, enters }: KeySystem,
  chosen: readonly CylinderRecord[],
  cylinders: readonly ConstructionCylinder[],
): boolean {
  const listed = keys.filter(({ status }) => status !== 'free');
  return cylinders.some(({ before, after }, c) =>
    listed.some(
      ({ bitting, keyway }) =>
        entersKeyway(enters, keyway, chosen[c]!.keyway) &&
        operates(before, bitting) &&
        !operates(after, bitting),
    ),
  );
}

const WRONG_PAIRS = ['interchange', 'lock-out', 'wrong-keyway', 'too-few-cuts'] as const;

/** Keys that don't open what they should, or open what they should not. */
function* faultsOf(system: KeySystem, marks: readonly Mark[]): Steps<number> {
  const { counts } = yield* auditSystem(auditInputOf(system, marks), { near: false, cap: 1 });
  return WRONG_PAIRS.reduce((sum, code) => sum + (counts[code] ?? 0), 0);
}

/** Audits both states whole; the number of pairs, or undefined where one of them isn't as meant. */
function* prove(
  { system, marks, symbol, oneWay }: ConstructionRequest,
  keyway: string | undefined,
  bitting: Bitting,
  cylinders: readonly ConstructionCylinder[],
): Steps<number | undefined> {
  if (oneWay === 'loose-pin' && cylinders.some(({ changedBy }) => changedBy.length === 0)) return undefined;
  const key: KeyRecord = {
    symbol,
    level: 'single',
    bitting,
    status: 'issued',
    ...(keyway !== undefined && { keyway }),
  };
  const after: KeySystem = { ...system, keys: [...system.keys, key] };
  const states = new Map(cylinders.map((cylinder) => [cylinder.id, cylinder.before]));
  const before: KeySystem = {
    ...after,
    cylinders: system.cylinders.map((c) => ({ ...c, chambers: states.get(c.id) ?? c.chambers })),
  };
  const more = cylinders.map(({ id }) => ({ key: symbol, cylinder: id }));
  if ((yield* faultsOf(before, [...marks, ...more])) > 0) return undefined;
  if ((yield* faultsOf(after, marks)) > 0) return undefined;
  return after.keys.length * after.cylinders.length;
}
