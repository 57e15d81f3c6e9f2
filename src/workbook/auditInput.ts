import type { Finding } from '../keying/findings.ts';
import { ProgrammerError } from '../keying/result.ts';
import type { KeySystem } from '../keying/system.ts';
import type { Place } from './places.ts';
import type { BookReading, SystemReading } from './reading.ts';

/** A system ready for the audit, as plain data that can be posted to a worker. */
export interface SystemAudit {
  readonly system: KeySystem;
  /** Which key must operate which cylinder: the grid's marks; where the grid has no column or row, the hierarchy. */
  readonly marks: readonly { readonly key: string; readonly cylinder: string }[];
  /** Rows left out because they could not be read. */
  readonly leftOut: { readonly keys: readonly string[]; readonly cylinders: readonly string[] };
}
/** Undefined where the system's spec could not be read. */
export function auditInput(_book: BookReading, _name: string): SystemAudit | undefined {
  throw new ProgrammerError('not written yet');
}
/** Cells that a finding is about, the one to go to first. */
export function placesOf(_system: SystemReading, _finding: Finding): Place[] {
  throw new ProgrammerError('not written yet');
}
