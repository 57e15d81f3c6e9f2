/** What an audit works on, as plain data: keys, cylinders and which should operate which. */
import type { Entering } from './keyways.ts';
import type { Specification } from './specification.ts';
import type { Chambers, Status } from './system.ts';

export interface AuditKey {
  readonly symbol: string;
  readonly bitting: readonly number[];
  /** Cuts that the blank carries, at the positions from its stop on; all when left out. */
  readonly cuts?: number;
  /** Keyway section of the blank; blank or left out = the system's only one. */
  readonly keyway?: string;
  /** A `free` bitting has no key and is passed over; every other status counts, lost keys included. */
  readonly status?: Status;
  /** Symbol of the key above, checked to exist where given. */
  readonly parent?: string;
  /** A control key of interchangeable cores: where it is intended, it should work the control line only. */
  readonly control?: boolean;
}

export interface AuditCylinder {
  readonly id: string;
  readonly symbol?: string;
  readonly chambers: Chambers;
  readonly control?: readonly number[];
  readonly keyway?: string;
}

export interface AuditInput {
  readonly spec: Specification;
  readonly keys: readonly AuditKey[];
  readonly cylinders: readonly AuditCylinder[];
  /** For each cylinder the numbers of the keys that should operate it. */
  readonly intended: readonly (readonly number[])[];
  readonly enters?: Entering;
}

/** Whether the bitting has a key in somebody's use: issued or about to be. No status counts as issued. */
export const isLive = ({ status }: Pick<AuditKey, 'status'>): boolean =>
  status === undefined || status === 'issued' || status === 'reserved';
