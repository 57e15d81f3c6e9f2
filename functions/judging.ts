/** Worksheet functions: a key that was just cut, held against the code that it was to have. */
import { sayJudgement } from '../src/keying/importWording.ts';
import { judgeReadings } from '../src/keying/judge.ts';
import { shownIn } from '../src/keying/shownIn.ts';
import { positions } from '../src/keying/specification.ts';
import { BLANK, isBlank, lineOf, refuse } from './cells.ts';
import { bittingIn } from './keys.ts';
import { cutsOf, lengthIn, specIn, unitIn } from './specs.ts';

/**
 * Whether a key that was cut is the key that was meant: each caliper reading against the root depth of the code.
 *
 * Readings go along the code, from its first symbol, not from the stop. DECODEWHY would pass a wrong cut that happens to be another depth exactly; this does not. Readings may be typed one by one: those still blank are counted.
 * @customfunction JUDGE
 * @param readings Row or column of root depths, one for each cut in the order of the code.
 * @param code The code that the key was to have, best as text.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [unit] Unit of the readings, "in" or "mm"; the spec's own if left out.
 * @returns OK, or which cut is off, by how much and which way; blank where no reading or no code is there.
 * @example =KEYROW.JUDGE({0.28,0.189,0.242,0.297,0.225,0.261},"274153","S-018-6") → "OK"
 * @example =KEYROW.JUDGE({0.279,0.189,0.225,0.297,0.225,0.261},"274153","S-018-6") → "Cut 3 reads 0.225, 0.018 too deep: that is a 5, and it should be a 4 (0.243)."
 * @errors #VALUE! where the code can't be read, or a reading is not a length.
 * @source Root depth tolerance of ±0.002 in by default: common practice.
 */
export function judge(
  readings: unknown[][],
  code: unknown,
  spec: string,
  specs?: unknown[][],
  unit?: string,
): string {
  const cells = lineOf(readings, 'The readings');
  if (cells.every(isBlank) || isBlank(code)) return BLANK;
  const found = specIn(spec, specs);
  const asked = unitIn(unit, found);
  if (cells.length !== positions(found))
    return refuse(`${cells.length} readings; ${found.name} has ${cutsOf(found)}.`);
  const lengths = cells.map((cell, i) =>
    isBlank(cell) ? undefined : lengthIn(cell, asked, `Reading ${i + 1}`),
  );
  return sayJudgement(shownIn(found, asked), judgeReadings(found, bittingIn(found, code), lengths));
}
