/** Faults of the keying room as problems of a cell. The words are the keying room's own. */
import type { BittingFault } from '../keying/bitting.ts';
import type { ChamberFault } from '../keying/chamberText.ts';
import { sayChamberFault } from '../keying/specWording.ts';
import { say } from '../keying/wording.ts';
import type { Place } from './places.ts';
import type { Problem } from './reading.ts';

/** One problem a fault, all at the cell of the code. */
export const bittingProblems = (at: Place, faults: readonly BittingFault[]): Problem[] =>
  faults.map((fault) => ({ ...at, severity: 'fault', sentence: say(fault) }));

/** One problem a fault, all at the cell of the chamber. */
export const chamberProblems = (at: Place, faults: readonly ChamberFault[]): Problem[] =>
  faults.map((fault) => ({ ...at, severity: 'fault', sentence: asSentence(sayChamberFault(fault)) }));

const asSentence = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;

/** The code was read, but as a number it may have lost zeros at the front. */
export const numberProblem = (at: Place): Problem => ({
  ...at,
  severity: 'warning',
  sentence:
    'This code is a number, not text, so zeros at its front are lost. Format the cell as text and type the code again.',
});
