/**
 * Key bitting specification: the dimensions that turn a code into cuts. Pin tumbler keys with one row of cuts.
 *
 * Depths are kept from the shallowest cut (largest root depth) to the deepest; the index in that list is the
 * number of **steps**, and MACS, progression, parity and pin stacks all count steps, never symbols: in some systems
 * the larger symbol is the shallower cut, in others symbols are letters.
 */
import { err, ok, type Result } from './result.ts';
import { lengthOf, type Length, type Unit } from './units.ts';

export const GAUGES = ['shoulder', 'tip'] as const;
/** The stop that cut positions are measured from. */
export type Gauge = (typeof GAUGES)[number];

export const ORDERS = ['bow-to-tip', 'tip-to-bow'] as const;
/** The direction in which the code is read. */
export type Order = (typeof ORDERS)[number];

export interface Depth {
  readonly symbol: string;
  /** Blade bottom to the bottom of the cut: what a caliper reads. */
  readonly root: Length;
  /** Length of the bottom pin for this depth where the shop's table overrides plug diameter − root depth. */
  readonly pin?: Length;
}

/** Interchangeable core: two shear lines, counted in steps (index units). */
export interface CoreStack {
  /** Sum of all pins in a chamber, in steps. */
  readonly total: number;
  /** What the control cut adds: control sleeve height in steps. */
  readonly addition: number;
}

export interface Specification {
  readonly name: string;
  readonly title: string;
  readonly unit: Unit;
  readonly gauge: Gauge;
  readonly order: Order;
  /** Centre of each cut from the gauge's stop; index 0 is position 1, nearest to that stop. */
  readonly centres: readonly Length[];
  /** From the shallowest cut to the deepest. */
  readonly depths: readonly Depth[];
  readonly rootWidth: Length;
  /** Included angle of the cut, degrees. */
  readonly angle: number;
  /** Maximum adjacent cut specification, in steps. */
  readonly macs: number;
  /** Fewest steps between two cuts that share a chamber (thinnest master pin). */
  readonly step: number;
  /** Root depth tolerance for decoding. */
  readonly tolerance: Length;
  readonly bladeHeight?: Length;
  readonly plugDiameter?: Length;
  /** Sum of the pins of a chamber, which the top pin fills up to. */
  readonly targetStack?: Length;
  readonly core?: CoreStack;
  /** Where the numbers come from; shown wherever metal is cut by them. */
  readonly source?: string;
}

/** Everything a shop types for a spec, before it is checked; lengths are already lengths. */
export interface SpecificationDraft extends Omit<Specification, 'centres' | 'depths' | 'step' | 'tolerance'> {
  readonly positions: number;
  readonly first?: Length;
  readonly spacing?: Length;
  /** Explicit centres, instead of first and spacing. */
  readonly centres?: readonly Length[];
  readonly depths: readonly Depth[];
  readonly step?: number;
  readonly tolerance?: Length;
}

export type SpecificationFault =
  | {
      readonly code: 'positions-out-of-range';
      readonly found: number;
      readonly least: number;
      readonly most: number;
    }
  | { readonly code: 'centres-missing' }
  | { readonly code: 'centres-count'; readonly found: number; readonly expected: number }
  | { readonly code: 'centres-not-rising'; readonly position: number }
  | { readonly code: 'depths-too-few'; readonly found: number }
  | { readonly code: 'depths-too-many'; readonly found: number; readonly most: number }
  | { readonly code: 'depth-symbol-repeated'; readonly symbol: string }
  | { readonly code: 'depth-symbol-bad'; readonly symbol: string }
  | { readonly code: 'depth-root-repeated'; readonly symbol: string; readonly other: string }
  | { readonly code: 'depth-root-bad'; readonly symbol: string }
  | { readonly code: 'depth-above-blade'; readonly symbol: string }
  | { readonly code: 'depth-below-plug'; readonly symbol: string }
  | {
      readonly code: 'not-positive';
      readonly field: 'rootWidth' | 'angle' | 'tolerance' | 'bladeHeight' | 'plugDiameter' | 'targetStack';
    }
  | { readonly code: 'angle-too-wide'; readonly found: number }
  | { readonly code: 'macs-bad'; readonly found: number; readonly most: number }
  | { readonly code: 'step-bad'; readonly found: number; readonly most: number }
  | { readonly code: 'core-bad'; readonly field: 'total' | 'addition' }
  /** A core's pins are made in whole steps, so all its steps must be of one height. */
  | { readonly code: 'core-depths-uneven'; readonly from: string; readonly to: string }
  | { readonly code: 'name-missing' };

export const LEAST_POSITIONS = 4;
export const MOST_POSITIONS = 8;
/** A depth index fits in a bit of a 32-bit word, which the audit relies on. */
export const MOST_DEPTHS = 26;

/** ±0.002 in: common practice, no published source seen. */
export const DEFAULT_TOLERANCE = lengthOf(50_800);

/** Thinnest master pin in general: 0.023 in, from a trade-association magazine, July/August 2017. */
export const THINNEST_MASTER_PIN = lengthOf(584_200);

/** Smallest difference between neighbouring root depths: the one that decides how thin a master pin gets. */
export function increment(depths: readonly Depth[]): Length {
  const gaps = sortDepths(depths).map((d, i, all) => (i === 0 ? Infinity : all[i - 1]!.root - d.root));
  return lengthOf(Math.min(...gaps));
}

/**
 * Fewest steps between two cuts in one chamber: ceil(thinnest master pin ÷ increment).
 * @example increments of 0.018 in → 2 (two-step); 0.025 in → 1 (single-step)
 */
export function defaultStep(depths: readonly Depth[], thinnest: Length = THINNEST_MASTER_PIN): number {
  return Math.max(1, Math.ceil(thinnest / increment(depths)));
}

/** From the shallowest cut to the deepest. */
export function sortDepths(depths: readonly Depth[]): Depth[] {
  return [...depths].sort((a, b) => b.root - a.root);
}

/** Evenly spaced centres: first, first + spacing, … */
export function evenCentres(first: Length, spacing: Length, positions: number): Length[] {
  return Array.from({ length: positions }, (_, i) => lengthOf(first + i * spacing));
}

/**
 * Checks a draft and makes a specification of it, or returns every fault found.
 * Interchangeable cores default to a step that matches their kit: the thinnest master pin published for them is
 * lower, so 0.018 in and 0.021 in progress in one step (published) and 0.0125 in in two.
 */
export function makeSpecification(
  draft: SpecificationDraft,
): Result<Specification, readonly SpecificationFault[]> {
  const faults = findSpecificationFaults(draft);
  if (faults.length > 0) return err(faults);
  const { positions, first, spacing, centres, step, tolerance, ...rest } = draft;
  const depths = sortDepths(draft.depths);
  return ok({
    ...rest,
    centres: centres ?? evenCentres(first!, spacing!, positions),
    depths,
    step: step ?? defaultStep(depths, draft.core ? THINNEST_CORE_PIN : THINNEST_MASTER_PIN),
    tolerance: tolerance ?? DEFAULT_TOLERANCE,
  });
}

/** Lets cores at 0.018 in and 0.021 in progress in one step and 0.0125 in in two, as published. */
const THINNEST_CORE_PIN = lengthOf(457_200);

function findSpecificationFaults(draft: SpecificationDraft): SpecificationFault[] {
  const faults: SpecificationFault[] = [];
  if (draft.name.trim() === '') faults.push({ code: 'name-missing' });
  return [...faults, ...positionFaults(draft), ...depthFaults(draft), ...ruleFaults(draft)];
}

function positionFaults({ positions, first, spacing, centres }: SpecificationDraft): SpecificationFault[] {
  const faults: SpecificationFault[] = [];
  if (!Number.isInteger(positions) || positions < LEAST_POSITIONS || positions > MOST_POSITIONS)
    faults.push({
      code: 'positions-out-of-range',
      found: positions,
      least: LEAST_POSITIONS,
      most: MOST_POSITIONS,
    });
  if (centres) {
    if (centres.length !== positions)
      faults.push({ code: 'centres-count', found: centres.length, expected: positions });
    centres.forEach((c, i) => {
      if (c <= (i === 0 ? 0 : centres[i - 1]!)) faults.push({ code: 'centres-not-rising', position: i + 1 });
    });
  } else if (first === undefined || spacing === undefined) faults.push({ code: 'centres-missing' });
  else if (first <= 0 || spacing <= 0)
    faults.push({ code: 'centres-not-rising', position: first <= 0 ? 1 : 2 });
  return faults;
}

function depthFaults({ depths, bladeHeight, plugDiameter }: SpecificationDraft): SpecificationFault[] {
  const faults: SpecificationFault[] = [];
  if (depths.length < 2) faults.push({ code: 'depths-too-few', found: depths.length });
  if (depths.length > MOST_DEPTHS)
    faults.push({ code: 'depths-too-many', found: depths.length, most: MOST_DEPTHS });
  const symbols = new Set<string>();
  const roots = new Map<number, string>();
  for (const { symbol, root } of depths) {
    const folded = symbol.toUpperCase();
    if (!/^[0-9A-Za-z]{1,2}$/.test(symbol)) faults.push({ code: 'depth-symbol-bad', symbol });
    else if (symbols.has(folded)) faults.push({ code: 'depth-symbol-repeated', symbol });
    symbols.add(folded);
    const other = roots.get(root);
    if (root <= 0) faults.push({ code: 'depth-root-bad', symbol });
    else if (other !== undefined) faults.push({ code: 'depth-root-repeated', symbol, other });
    roots.set(root, symbol);
    if (bladeHeight !== undefined && root > bladeHeight) faults.push({ code: 'depth-above-blade', symbol });
    if (plugDiameter !== undefined && root >= plugDiameter) faults.push({ code: 'depth-below-plug', symbol });
  }
  return faults;
}

function ruleFaults(draft: SpecificationDraft): SpecificationFault[] {
  const faults: SpecificationFault[] = [];
  for (const field of [
    'rootWidth',
    'angle',
    'tolerance',
    'bladeHeight',
    'plugDiameter',
    'targetStack',
  ] as const) {
    const value = draft[field];
    if (value !== undefined && !(value > 0)) faults.push({ code: 'not-positive', field });
  }
  if (draft.angle >= 180) faults.push({ code: 'angle-too-wide', found: draft.angle });
  const most = Math.max(1, draft.depths.length - 1);
  if (!Number.isInteger(draft.macs) || draft.macs < 1 || draft.macs > most)
    faults.push({ code: 'macs-bad', found: draft.macs, most });
  if (draft.step !== undefined && (!Number.isInteger(draft.step) || draft.step < 1 || draft.step > most))
    faults.push({ code: 'step-bad', found: draft.step, most });
  if (draft.core) {
    for (const field of ['total', 'addition'] as const)
      if (!Number.isInteger(draft.core[field]) || draft.core[field] < 1)
        faults.push({ code: 'core-bad', field });
    const sorted = sortDepths(draft.depths);
    const gap = (i: number): number => sorted[i - 1]!.root - sorted[i]!.root;
    for (let i = 2; i < sorted.length; i++)
      if (gap(i) !== gap(1)) {
        faults.push({ code: 'core-depths-uneven', from: sorted[i - 1]!.symbol, to: sorted[i]!.symbol });
        break;
      }
  }
  return faults;
}

/** Number of cuts. */
export const positions = (spec: Specification): number => spec.centres.length;

/**
 * Position of the code's s-th symbol, counted from the gauge's stop (both from 1).
 * @example shoulder + bow-to-tip: 1 → 1; tip + bow-to-tip on six cuts: 1 → 6
 */
export function positionOfSymbol(spec: Specification, s: number): number {
  const same = (spec.gauge === 'shoulder') === (spec.order === 'bow-to-tip');
  return same ? s : positions(spec) + 1 - s;
}
