import { ProgrammerError } from '../keying/result.ts';

/** A failure of Excel's in one sentence: what happened and what to do. */
export interface ExcelTrouble {
  readonly code: string;
  readonly sentence: string;
}
/** Any thrown value to a sentence. Rethrows a programmer's error. */
export function explain(_error: unknown): ExcelTrouble {
  throw new ProgrammerError('not written yet');
}
