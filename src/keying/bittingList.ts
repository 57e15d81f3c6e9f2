/**
 * A list of bittings checked as a list: what is in it twice, and which are near misses of each other. Both by
 * look-up tables rather than by comparing every pair, since a shop's list may hold tens of thousands.
 */
import { packBitting, type Bitting } from './bitting.ts';
import type { BittingFinding } from './findings.ts';
import { nearMissOfKey } from './nearMiss.ts';
import { checkBitting, DEFAULT_RULES, type BittingContext, type NamedBitting, type Rules } from './rules.ts';
import { positions, type Specification } from './specification.ts';
import type { Length } from './units.ts';

/**
 * Groups of places (from 0) in the list that hold the same bitting, each in rising order, in the order of the first.
 * @example findDuplicates(spec, [a, b, a]) → [[0, 2]]
 */
export function findDuplicates(spec: Specification, bittings: readonly Bitting[]): number[][] {
  return groups(bittings.map((bitting) => packBitting(spec, bitting))).filter((group) => group.length > 1);
}

function groups(keys: readonly number[]): number[][] {
  const byKey = new Map<number, number[]>();
  keys.forEach((key, i) => {
    const group = byKey.get(key);
    if (group) group.push(i);
    else byKey.set(key, [i]);
  });
  return [...byKey.values()];
}

/** Two places in a list (from 0, a < b) and the chamber (from 1) in which alone they differ, by less than the limit. */
export interface NearPair {
  readonly a: number;
  readonly b: number;
  readonly chamber: number;
  readonly thousandths: number;
}

/**
 * Every pair of a list that differs in exactly one chamber, and there by less than `within`. Bittings that agree in
 * all chambers but one share a number once that chamber is blanked out, so each chamber needs one pass.
 */
export function findNearPairs(spec: Specification, bittings: readonly Bitting[], within: Length): NearPair[] {
  const found: NearPair[] = [];
  for (let chamber = 0; chamber < positions(spec); chamber++) {
    const blanked = bittings.map((bitting) =>
      packBitting(
        spec,
        bitting.map((index, i) => (i === chamber ? 0 : index)),
      ),
    );
    for (const group of groups(blanked))
      for (const [i, a] of group.entries())
        for (const b of group.slice(i + 1)) {
          const near = nearMissOfKey(spec, bittings[a]!, bittings[b]!, within);
          if (near) found.push({ a, b, ...near });
        }
  }
  return found;
}

/**
 * Checks every bitting of a list by itself, against the context, and against the rest of the list.
 * Returns the findings of each, in the order of the list.
 */
export function checkBittings(
  spec: Specification,
  list: readonly NamedBitting[],
  rules: Rules = DEFAULT_RULES,
  context: BittingContext = {},
): BittingFinding[][] {
  const found = list.map(({ symbol, bitting }) =>
    checkBitting(spec, bitting, rules, { ...context, self: symbol }),
  );
  const bittings = list.map((key) => key.bitting);
  if (rules.duplicate)
    for (const [first, ...rest] of findDuplicates(spec, bittings)) {
      found[first!]!.push({ code: 'duplicate', of: list[rest[0]!]!.symbol });
      for (const i of rest) found[i]!.push({ code: 'duplicate', of: list[first!]!.symbol });
    }
  if (rules.nearMiss)
    for (const { a, b, chamber, thousandths } of findNearPairs(spec, bittings, rules.nearMissWithin)) {
      found[a]!.push({ code: 'near-miss', other: list[b]!.symbol, chamber, thousandths });
      found[b]!.push({ code: 'near-miss', other: list[a]!.symbol, chamber, thousandths });
    }
  return found;
}
