import { ProgrammerError } from '../keying/result.ts';
import type { Specification } from '../keying/specification.ts';
import type { WritePlan } from './plan.ts';
import type { BookReading } from './reading.ts';
/** Adds specs to the Specs sheet. A name that is taken with other dimensions is a conflict; the same spec again is nothing to do. */
export function planSpecs(
  _book: BookReading,
  _specs: readonly Specification[],
  _options: { readonly made: string },
): WritePlan {
  throw new ProgrammerError('not written yet');
}
