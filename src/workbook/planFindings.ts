import type { Finding } from '../keying/findings.ts';
import { ProgrammerError } from '../keying/result.ts';
import type { WritePlan } from './plan.ts';
import type { BookReading } from './reading.ts';

export interface FindingsInput {
  readonly made: string;
  /** Findings of each audited system. */
  readonly audits: readonly { readonly system: string; readonly findings: readonly Finding[] }[];
}
/** Replaces the content of our Findings table, or adds the sheet. Reading problems of the book go in too. */
export function planFindings(_book: BookReading, _input: FindingsInput): WritePlan {
  throw new ProgrammerError('not written yet');
}
