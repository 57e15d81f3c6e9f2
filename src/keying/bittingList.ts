/**
 * A list of bittings checked as a list: what is in it twice, and which are near misses of each other. Both by
 * look-up tables rather than by comparing every pair, since a shop's list may hold tens of thousands.
 */
import type { Bitting } from './bitting.ts';
import { bittingIndexOf, nearFinder } from './bittingIndex.ts';
import type { BittingFinding } from './findings.ts';
import { inThousandths, sayUnit } from './nearMiss.ts';
import { checkBitting, DEFAULT_RULES, type BittingContext, type NamedBitting, type Rules } from './rules.ts';
import type { Specification } from './specification.ts';
import type { Length } from './units.ts';

/**
 * Groups of places (from 0) in the list that hold the same bitting, each in rising order, in the order of the first.
 * @example findDuplicates(spec, [a, b, a]) → [[0, 2]]
 */
export function findDuplicates(spec: Specification, bittings: readonly Bitting[]): number[][] {
  const index = bittingIndexOf(spec, bittings);
  const found: number[][] = [];
  bittings.forEach((_, place) => {
    if (index.next(place) < 0 || index.first(index.packed[place]!) !== place) return;
    const group: number[] = [];
    for (let at = place; at >= 0; at = index.next(at)) group.push(at);
    found.push(group);
  });
  return found;
}

/** Two places in a list (from 0, a < b) and the chamber (from 1) in which alone they differ, by less than the limit. */
export interface NearPair {
  readonly a: number;
  readonly b: number;
  readonly chamber: number;
  readonly thousandths: number;
}

/**
 * Every pair of a list that differs in exactly one chamber, and there by less than `within`, in the order of the
 * chambers, then of the places.
 */
export function findNearPairs(spec: Specification, bittings: readonly Bitting[], within: Length): NearPair[] {
  const near = nearFinder(spec, bittingIndexOf(spec, bittings), within);
  const found: NearPair[] = [];
  bittings.forEach((bitting, a) =>
    near(bitting, (b, chamber, apart) => {
      if (a < b) found.push({ a, b, chamber: chamber + 1, thousandths: inThousandths(apart) });
    }),
  );
  return found.sort((x, y) => x.chamber - y.chamber || x.a - y.a || x.b - y.b);
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
  const unit = sayUnit(spec);
  if (rules.nearMiss)
    for (const { a, b, chamber, thousandths } of findNearPairs(spec, bittings, rules.nearMissWithin)) {
      found[a]!.push({ code: 'near-miss', other: list[b]!.symbol, chamber, thousandths, ...unit });
      found[b]!.push({ code: 'near-miss', other: list[a]!.symbol, chamber, thousandths, ...unit });
    }
  return found;
}
