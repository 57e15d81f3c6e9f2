/**
 * The records that keying works on: keys, cylinders and the system that they belong to. Keys and cylinders of
 * different systems or keyways never count as interchanging, nor as "already used".
 */
import type { Bitting } from './bitting.ts';
import type { DepthSet } from './depthSet.ts';
import type { Entering } from './keyways.ts';
import type { Specification } from './specification.ts';

/** From the bottom up: change key, master, grand master, great grand master. */
export const LEVELS = ['CK', 'MK', 'GMK', 'GGMK'] as const;
export type Level = (typeof LEVELS)[number];

/** A bitting that was lost or re-pinned away is retired: never issued again. */
export const STATUSES = ['free', 'reserved', 'issued', 'void', 'retired'] as const;
export type Status = (typeof STATUSES)[number];

export interface KeyRecord {
  readonly symbol: string;
  /** Operating key of a level, a control key of interchangeable cores, or a key outside any hierarchy. */
  readonly level: Level | 'control' | 'single';
  /** Symbol of the key above; none for the top master and single keys. */
  readonly parent?: string;
  readonly bitting: Bitting;
  readonly status: Status;
  /** The keyway section of the blank it is cut on; none = the system's only one. */
  readonly keyway?: string;
  /** Cuts on the blank, counted from its stop on; none = all of the spec's. */
  readonly cuts?: number;
}

/** One chamber is EVERY when empty or not in use; index = code order. */
export type Chambers = readonly DepthSet[];

export interface CylinderRecord {
  readonly id: string;
  /** Keyset symbol: the change key (or cross-keyed symbol) that the cylinder is pinned to. */
  readonly symbol: string;
  readonly door?: string;
  readonly keyway?: string;
  readonly chambers: Chambers;
  /** Interchangeable core: the control cut of each chamber, as depth indices. */
  readonly control?: Bitting;
}

export interface KeySystem {
  readonly name: string;
  readonly spec: Specification;
  readonly topMaster?: Bitting;
  /** Key bitting array: for each chamber the change depths, in the sequence of progression, without the TMK's own. */
  readonly array?: readonly (readonly number[])[];
  readonly keys: readonly KeyRecord[];
  readonly cylinders: readonly CylinderRecord[];
  /** Which blanks enter more keyways than their own, by the shop's blanks; none = no blank does. */
  readonly enters?: Entering;
}

/** Whether a key may be in somebody's hands, now or soon. */
export const isInUse = ({ status }: Pick<KeyRecord, 'status'>): boolean =>
  status === 'issued' || status === 'reserved';

/** Symbols and cylinder ids are the same name in either case, with or without blanks around them. */
export const foldSymbol = (name: string): string => name.trim().toUpperCase();

/** A symbol without what stands in brackets at its end. @example withoutAside('XAA3 (operated by A)') → 'XAA3' */
export function withoutAside(symbol: string): string {
  const open = symbol.indexOf('(');
  return open >= 0 && symbol.endsWith(')') ? symbol.slice(0, open).trimEnd() : symbol;
}

/** Progress of long work: the room yields it and never looks at a clock. */
export interface Progress {
  readonly stage: string;
  readonly done: number;
  readonly total: number;
}

/** Long work is a generator: whoever drives it decides when to look up, show progress and stop. */
export type Steps<T> = Generator<Progress, T, void>;

/** Runs long work to its end at once. */
export function runToEnd<T>(steps: Steps<T>): T {
  for (;;) {
    const next = steps.next();
    if (next.done) return next.value;
  }
}
