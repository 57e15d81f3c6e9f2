/** Worksheet functions: which key operates which cylinder, and how many keys do. */
import {
  operates as doesOperate,
  operatingCount as countAll,
  operatingCountCuttable,
  whyNotOperates,
} from '../src/keying/cylinder.ts';
import type { Specification } from '../src/keying/specification.ts';
import { BLANK, isBlank, switchIn } from './cells.ts';
import { bittingIn, chambersIn } from './keys.ts';
import { specIn } from './specs.ts';

/**
 * Whether a key operates a cylinder: each of its cuts is one of the depths of that chamber, or the chamber is empty.
 *
 * Key and cylinder belong to one system and keyway; a blank that doesn't enter the keyway is not seen here. Chambers count along the code, from its first symbol, not from the stop.
 * @customfunction OPERATES
 * @param key Code of the key, best as text.
 * @param chambers Row or column with the depths of each chamber in the order of the code, such as "2 6"; "any" for an empty one.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @returns TRUE or FALSE; blank where the key or all chambers are.
 * @example =KEYROW.OPERATES("241536",{"2 6","4","1 3","5","3","6 8"},"S-018-6") → TRUE
 * @example =KEYROW.OPERATES("241536",{"2 6","4","3","5","3","6 8"},"S-018-6") → FALSE
 * @errors #VALUE! where the key or a chamber can't be read.
 * @source Pin tumbler cylinder: every chamber shears at the key's cut.
 */
export function operates(
  key: unknown,
  chambers: unknown[][],
  spec: string,
  specs?: unknown[][],
): boolean | string {
  if (isBlank(key)) return BLANK;
  const found = specIn(spec, specs);
  const cuts = bittingIn(found, key, 'The key');
  const sets = chambersIn(found, chambers);
  return sets ? doesOperate(sets, cuts) : BLANK;
}

/**
 * Why a key does not operate a cylinder, chamber by chamber; "operates" when it does.
 *
 * Chambers count along the code, from its first symbol, not from the stop.
 * @customfunction OPERATESWHY
 * @param key Code of the key, best as text.
 * @param chambers Row or column with the depths of each chamber in the order of the code, such as "2 6"; "any" for an empty one.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @returns "operates" or the chambers that keep the key from turning; blank where the key or all chambers are.
 * @example =KEYROW.OPERATESWHY("241536",{"2 6","4","1 3","5","3","6 8"},"S-018-6") → "operates"
 * @example =KEYROW.OPERATESWHY("241536",{"2 6","4","3","5","3","4 8"},"S-018-6") → "Chamber 3 shears at 3, the key is cut to 1. Chamber 6 shears at 4 8, the key is cut to 6."
 * @errors #VALUE! where the key or a chamber can't be read.
 * @source Pin tumbler cylinder: every chamber shears at the key's cut.
 */
export function operatesWhy(key: unknown, chambers: unknown[][], spec: string, specs?: unknown[][]): string {
  if (isBlank(key)) return BLANK;
  const found = specIn(spec, specs);
  const cuts = bittingIn(found, key, 'The key');
  const sets = chambersIn(found, chambers);
  if (!sets) return BLANK;
  const failing = whyNotOperates(found, sets, cuts);
  const symbols = (indices: readonly number[]): string => indices.map((i) => symbolOf(found, i)).join(' ');
  return (
    failing
      .map(
        ({ chamber, shears }) =>
          `Chamber ${chamber} shears at ${symbols(shears)}, the key is cut to ${symbolOf(found, cuts[chamber - 1]!)}.`,
      )
      .join(' ') || 'operates'
  );
}

const symbolOf = (spec: Specification, index: number): string => spec.depths[index]!.symbol;

/**
 * How many different bittings operate a cylinder, issued or not: the product of its chambers' depths. The more, the weaker the cylinder.
 * @customfunction OPERATINGCOUNT
 * @param chambers Row or column with the depths of each chamber in the order of the code, such as "2 6"; "any" for an empty one.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [cuttable] TRUE: only those that a blank can carry, with neighbours within MACS.
 * @returns A count; blank where all chambers are.
 * @example =KEYROW.OPERATINGCOUNT({"2 6","4","1 3","5","3","6 8"},"S-018-6") → 8
 * @example =KEYROW.OPERATINGCOUNT({"any","any","any","any","any","any"},"S-018-6",,TRUE) → 367826
 * @errors #VALUE! where a chamber can't be read.
 * @source Product of the depths in the chambers; within MACS by running sums (OEIS A126531 for ten depths and a MACS of 5).
 */
export function operatingCount(
  chambers: unknown[][],
  spec: string,
  specs?: unknown[][],
  cuttable?: unknown,
): number | string {
  const found = specIn(spec, specs);
  const sets = chambersIn(found, chambers);
  if (!sets) return BLANK;
  return switchIn(cuttable, 'Cuttable') ? operatingCountCuttable(found, sets) : countAll(found, sets);
}
