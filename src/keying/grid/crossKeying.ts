/**
 * What cross-keying a door costs, worked out before anything is written: combinations and pins before and after, who
 * else gets in, and what the trade does for common doors instead: chambers left empty, or pinned for the cut that the
 * door's own keys have in common (which locks out the keys that have another).
 */
import type { Bitting } from '../bitting.ts';
import { reachOf } from '../blankReach.ts';
import { isWithinMacs } from '../count.ts';
import { incidentalBittings, operates, operatingCount, operatingCountCuttable } from '../cylinder.ts';
import { depthsIn, depthSetOf, EVERY, hasDepth, withDepth } from '../depthSet.ts';
import { intendedByHierarchy, intendedByMarks, type Mark } from '../intended.ts';
import { entersKeyway } from '../keyways.ts';
import { isThin } from '../pinning.ts';
import { err, ok, type Result } from '../result.ts';
import type { Specification } from '../specification.ts';
import { parentSymbol } from '../symbol.ts';
import {
  foldSymbol,
  isInUse,
  type Chambers,
  type CylinderRecord,
  type KeyRecord,
  type KeySystem,
} from '../system.ts';
import { pinsOf } from './verify.ts';

export interface DoorFigures {
  readonly chambers: Chambers;
  /** Bittings that operate it, issued and incidental. */
  readonly combinations: number;
  /** Those that a blank can carry. */
  readonly cuttable: number;
  readonly masterPins: number;
  /** Listed keys that operate it. */
  readonly keys: readonly string[];
  /** Cuttable bittings that are no listed key's. */
  readonly incidental: number;
}

export interface CrossKeyingAlternative {
  readonly kind: 'empty-chamber' | 'constant-chamber';
  /** Chambers concerned, counted from 1. */
  readonly chambers: readonly number[];
  readonly after: DoorFigures;
  /** Listed keys that get in and are not wanted. */
  readonly getIn: readonly string[];
  /** Wanted keys that no longer operate it. */
  readonly lockedOut: readonly string[];
}

export interface CrossKeyingCost {
  readonly before: DoorFigures;
  readonly after: DoorFigures;
  readonly extraMasterPins: number;
  /** Master pins that would be too thin, by chamber from 1. */
  readonly thin: readonly number[];
  /** Listed keys that get in besides the wanted ones. */
  readonly getIn: readonly string[];
  /** Under the same higher keys or not; unknown where the keys' places in the system aren't. */
  readonly control: 'controlled' | 'uncontrolled' | 'unknown';
  readonly alternatives: readonly CrossKeyingAlternative[];
}

export type CrossKeyingFault =
  | { readonly code: 'cylinder-unknown'; readonly cylinder: string }
  | { readonly code: 'key-unknown'; readonly key: string };

/**
 * The cost of letting further keys operate a cylinder. What it should admit now follows from the marks, or from the
 * hierarchy without any.
 * @example crossKeyingCost(system, 'Boiler room', ['AB7']) → ok({ before: { combinations: 64, … }, after: …, getIn: ['AB8'] … })
 */
export function crossKeyingCost(
  system: KeySystem,
  cylinder: string,
  keys: readonly string[],
  marks?: Iterable<Mark>,
): Result<CrossKeyingCost, readonly CrossKeyingFault[]> {
  const { spec } = system;
  const door = system.cylinders.find(({ id }) => foldSymbol(id) === foldSymbol(cylinder));
  const live = system.keys.filter(isInUse);
  const added = keys.flatMap((symbol) => live.filter((key) => foldSymbol(key.symbol) === foldSymbol(symbol)));
  const faults: CrossKeyingFault[] = keys
    .filter((symbol) => !live.some((key) => foldSymbol(key.symbol) === foldSymbol(symbol)))
    .map((key) => ({ code: 'key-unknown', key }));
  if (!door) return err([{ code: 'cylinder-unknown', cylinder }, ...faults]);
  if (faults.length > 0) return err(faults);

  const intended = marks
    ? intendedByMarks(system.keys, [door], marks)
    : intendedByHierarchy(system.keys, [door]);
  const wanted = new Set([...intended[0]!.map((k) => system.keys[k]!), ...added]);
  const listed = system.keys.filter(
    ({ status, level, keyway }) =>
      status !== 'free' && level !== 'control' && entersKeyway(system.enters, keyway, door.keyway),
  );
  const figures = (chambers: Chambers): DoorFigures => figuresOf(spec, chambers, listed);
  const strangers = (chambers: Chambers): string[] =>
    listed.filter((key) => !wanted.has(key) && opens(spec, chambers, key)).map(({ symbol }) => symbol);

  const widened = widen(door.chambers, added);
  const before = figures(door.chambers);
  const after = figures(widened);
  return ok({
    before,
    after,
    extraMasterPins: after.masterPins - before.masterPins,
    thin: thinChambers(spec, widened),
    getIn: strangers(widened),
    control: controlOf(door, [...wanted]),
    alternatives: alternativesOf(door, [...wanted], widened).map(({ kind, chambers, at }) => ({
      kind,
      chambers: at.map((i) => i + 1),
      after: figures(chambers),
      getIn: strangers(chambers),
      lockedOut: [...wanted].filter((key) => !opens(spec, chambers, key)).map(({ symbol }) => symbol),
    })),
  });
}

function widen(chambers: Chambers, keys: readonly { readonly bitting: Bitting }[]): Chambers {
  return chambers.map((set, i) =>
    set === EVERY ? set : keys.reduce((wider, { bitting }) => withDepth(wider, bitting[i]!), set),
  );
}

const opens = (spec: Specification, chambers: Chambers, { bitting, cuts }: KeyRecord): boolean =>
  operates(chambers, bitting, reachOf(spec, cuts));

function figuresOf(spec: Specification, chambers: Chambers, listed: readonly KeyRecord[]): DoorFigures {
  const inside = listed.filter((key) => opens(spec, chambers, key));
  const cuttable = operatingCountCuttable(spec, chambers);
  const issued = new Set(
    inside.filter(({ bitting }) => isWithinMacs(spec, bitting)).map(({ bitting }) => bitting.join()),
  );
  return {
    chambers,
    combinations: operatingCount(spec, chambers),
    cuttable,
    masterPins: pinsOf(chambers, spec.depths.length).masterPins,
    keys: inside.map(({ symbol }) => symbol),
    incidental: cuttable - issued.size,
  };
}

function thinChambers(spec: Specification, chambers: Chambers): number[] {
  return chambers.flatMap((set, i) => {
    if (set === EVERY) return [];
    const depths = depthsIn(set, spec.depths.length);
    return depths.some((depth, n) => n > 0 && isThin(spec, depths[n - 1]!, depth)) ? [i + 1] : [];
  });
}

/** Lowest keys of the door: those that no other wanted key stands under. */
function lowest(wanted: readonly KeyRecord[]): KeyRecord[] {
  const above = new Set(wanted.map((key) => foldSymbol(parentOf(key) ?? '')));
  return wanted.filter(({ symbol }) => !above.has(foldSymbol(symbol)));
}

function parentOf({ symbol, parent }: KeyRecord): string | undefined {
  if (parent !== undefined && parent.trim() !== '') return parent;
  return parentSymbol(symbol);
}

function controlOf(door: CylinderRecord, wanted: readonly KeyRecord[]): CrossKeyingCost['control'] {
  const parents = lowest(wanted).map(parentOf);
  if (door.symbol.trim() === '' || parents.length === 0 || parents.some((parent) => parent === undefined))
    return 'unknown';
  return new Set(parents.map((parent) => foldSymbol(parent!))).size === 1 ? 'controlled' : 'uncontrolled';
}

interface Variant {
  readonly kind: CrossKeyingAlternative['kind'];
  readonly at: readonly number[];
  readonly chambers: Chambers;
}

/** Each chamber that gains a depth left empty, all of them together; each chamber that could be constant. */
function alternativesOf(door: CylinderRecord, wanted: readonly KeyRecord[], widened: Chambers): Variant[] {
  const gains = widened.flatMap((set, i) => (set !== door.chambers[i] ? [i] : []));
  const emptied = (at: readonly number[]): Variant => ({
    kind: 'empty-chamber',
    at,
    chambers: widened.map((set, i) => (at.includes(i) ? EVERY : set)),
  });
  const variants = gains.map((i) => emptied([i]));
  if (gains.length > 1) variants.push(emptied(gains));
  const own = lowest(wanted);
  widened.forEach((set, i) => {
    const cut = own[0]?.bitting[i];
    if (cut === undefined || set === EVERY || !hasDepth(set, cut)) return;
    const constant = depthSetOf([cut]);
    if (set === constant || own.some(({ bitting }) => bitting[i] !== cut)) return;
    variants.push({
      kind: 'constant-chamber',
      at: [i],
      chambers: widened.map((other, j) => (j === i ? constant : other)),
    });
  });
  return variants;
}

/** Bittings that get in without being issued, for a list in the pane; found as they are asked for. */
export function whoElse(
  { spec, keys }: KeySystem,
  { chambers }: Pick<DoorFigures, 'chambers'>,
): Generator<Bitting, void, void> {
  return incidentalBittings(
    spec,
    chambers,
    keys.filter(({ status }) => status !== 'free').map(({ bitting }) => bitting),
  );
}
