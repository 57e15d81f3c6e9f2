/** What an audit works on, as plain data: keys, cylinders and which should operate which. */
import type { Specification } from './specification.ts';
import type { Chambers, Status } from './system.ts';

export interface AuditKey {
  readonly symbol: string;
  readonly bitting: readonly number[];
  /** Cuts that the blank carries, from the code's first symbol on; all when left out. */
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
  /** Keyways that a blank enters besides its own, by the blank's keyway. */
  readonly enters?: Readonly<Record<string, readonly string[]>>;
}

/** Whether a blank enters a cylinder. Without a keyway on either side there is only one. */
export function enters({ enters: others }: AuditInput, blank: string, cylinder: string | undefined): boolean {
  if (blank === '' || cylinder === undefined || cylinder === '') return true;
  if (blank === cylinder) return true;
  // own keyways only: every record also answers to "constructor"
  const more = others && Object.hasOwn(others, blank) ? others[blank] : undefined;
  return more?.includes(cylinder) ?? false;
}
