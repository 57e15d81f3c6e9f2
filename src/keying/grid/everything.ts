/**
 * Complete search under what was asked for: the top master's parity, and positions at which all new keys have the same
 * cut. Which cut that is stays open unless the top master is given, so every one is tried.
 */
import type { Grid, SolveOptions } from './chart.ts';
import type { Work } from './construct.ts';
import { searchAll, type ExactAnswer } from './exact.ts';
import { prepareGrid, wholeDomain, type Domain, type Prepared } from './prepare.ts';
import { domainUnder } from './search.ts';

/** More ways to choose the constant cuts than that aren't gone through. */
const MOST_WAYS = 512;

export type EverythingAnswer =
  | {
      readonly kind: 'solved';
      readonly state: (ExactAnswer & { kind: 'solved' })['state'];
      readonly prepared: Prepared;
    }
  | { readonly kind: 'none' | 'gave-up' };

/** Depths open to new keys, once for each way to choose the constant cuts; undefined when they are too many. */
export function openDomains(grid: Grid, options: SolveOptions): Domain[] | undefined {
  if (options.topMaster) return [domainUnder(grid, options, options.topMaster)];
  let ways: number[][] = [wholeDomain(grid)];
  for (const i of new Set(options.constant ?? [])) {
    if (ways.length * grid.spec.depths.length > MOST_WAYS) return undefined;
    ways = ways.flatMap((domain) =>
      grid.spec.depths.map((_, depth) => domain.map((bits, at) => (at === i ? 1 << depth : bits))),
    );
  }
  return ways;
}

export function* searchEverything(
  grid: Grid,
  options: SolveOptions,
  work: Work,
  until: number,
): Generator<number, EverythingAnswer, void> {
  for (const domain of openDomains(grid, options) ?? [undefined]) {
    if (!domain) return { kind: 'gave-up' };
    const prepared = prepareGrid(grid, options, domain);
    const found = yield* searchAll(prepared.instance, work, until);
    if (found.kind === 'solved') return { ...found, prepared };
    if (found.kind === 'gave-up') return found;
  }
  return { kind: 'none' };
}
