/** Worksheet functions: how many changes a top master key has. */
import { defaultArray, theoreticalChanges } from '../src/keying/array.ts';
import { packBitting, type Bitting } from '../src/keying/bitting.ts';
import { severityOf } from '../src/keying/findings.ts';
import { totalSpace } from '../src/keying/progression.ts';
import { checkBitting, isUsable } from '../src/keying/rules.ts';
import type { Specification } from '../src/keying/specification.ts';
import { say } from '../src/keying/wording.ts';
import { BLANK, isBlank, refuse } from './cells.ts';
import { bittingIn } from './keys.ts';
import { specIn } from './specs.ts';

/** Counting goes through every change: more than this would hold up the whole sheet. */
const MOST_COUNTED = 1_000_000;

/** Counts already made, by spec and packed top master: recalculation asks for the same again. */
const counted = new WeakMap<Specification, Map<number, number>>();

function countUsable(spec: Specification, master: Bitting): number {
  const known = counted.get(spec) ?? new Map<number, number>();
  counted.set(spec, known);
  const packed = packBitting(spec, master);
  let count = known.get(packed);
  if (count !== undefined) return count;
  const array = defaultArray(spec, master);
  const over = array.flatMap((choices, chamber) =>
    choices.length === 0 ? [] : [{ chamber, master: master[chamber]!, choices }],
  );
  const { size, at } = totalSpace(over);
  const cuts: number[] = [...master];
  count = 0;
  for (let n = 0; n < size; n++) {
    at(n, cuts);
    if (isUsable(spec, cuts)) count++;
  }
  known.set(packed, count);
  return count;
}

/**
 * Theoretical changes under a top master key in total position progression: the product of the choices of its chambers, before any rule.
 *
 * A change depth lies a whole number of the spec's steps from the master's cut and is never that cut.
 * @customfunction CHANGES
 * @param master Code of the top master key, best as text.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @returns A count; blank for a blank master.
 * @example =KEYROW.CHANGES("241536","S-018-6") → 4096
 * @errors #VALUE! where the master can't be read.
 * @source Total position progression: six chambers of four choices give 4096 (trade-association magazine; US patent 6,516,644).
 */
export function changes(master: unknown, spec: string, specs?: unknown[][]): number | string {
  if (isBlank(master)) return BLANK;
  const found = specIn(spec, specs);
  return theoreticalChanges(defaultArray(found, bittingIn(found, master, 'The master')));
}

/**
 * Usable changes under a top master key: the theoretical ones less those that break a rule that is on by default.
 *
 * This counts change keys directly under the master. Levels in between leave fewer; the pane shows how many, per group.
 * @customfunction USABLECHANGES
 * @param master Code of the top master key, best as text.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @returns A count; blank for a blank master.
 * @example =KEYROW.USABLECHANGES("12345","S-025-5") → 2256
 * @errors #VALUE! where the master can't be read or breaks a rule itself, or there are more than a million changes to go through.
 * @source Total position progression and the usual rules: common practice.
 */
export function usableChanges(master: unknown, spec: string, specs?: unknown[][]): number | string {
  if (isBlank(master)) return BLANK;
  const found = specIn(spec, specs);
  const cuts = bittingIn(found, master, 'The master');
  const broken = checkBitting(found, cuts).filter((f) => severityOf(f) === 'fault');
  if (broken.length > 0)
    return refuse(`The master breaks a rule itself. ${broken.map((f) => say(f)).join(' ')}`);
  const all = theoreticalChanges(defaultArray(found, cuts));
  if (all > MOST_COUNTED)
    return refuse(
      `There are ${all} changes to go through, too many for a cell; plan the system in the pane, which counts in the background.`,
    );
  return countUsable(found, cuts);
}
