import { ProgrammerError } from '../keying/result.ts';
import type { WritePlan } from './plan.ts';
import type { BookReading } from './reading.ts';
import type { TargetReading } from './target.ts';
export interface CheckColumn {
  /** Index of the column with the codes in the target's headers. */
  readonly codes: number;
  /** Name of a spec in the book. */
  readonly spec: string;
  /** Heading of the new column; default "Bitting check". */
  readonly heading?: string;
}
/** Adds a column of check formulas just right of the target. Cells there that aren't empty are conflicts. */
export function planCheckColumn(_book: BookReading, _target: TargetReading, _column: CheckColumn): WritePlan {
  throw new ProgrammerError('not written yet');
}
