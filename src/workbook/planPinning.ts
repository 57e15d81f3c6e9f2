import { ProgrammerError } from '../keying/result.ts';
import type { WritePlan } from './plan.ts';
import type { BookReading } from './reading.ts';
export interface PinningInput {
  readonly made: string;
  readonly system: string;
  /** Cylinder ids; none = all of the system's. */
  readonly cylinders?: readonly string[];
}
export function planPinning(_book: BookReading, _input: PinningInput): WritePlan {
  throw new ProgrammerError('not written yet');
}
