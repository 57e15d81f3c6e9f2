/**
 * Which spec, and which direction of reading, a list of codes is most likely written by.
 *
 * Spec, by Bayes' rule: a list written by a spec holds bittings that keep its MACS, all about equally likely, plus a
 * few slips. A spec that allows few bittings and explains every code beats one that allows many; so does one that
 * explains more codes. The answer is the share of belief, with the plain figures beside it, so that a person can
 * disagree. Direction: MACS reads the same from both ends, so nothing in a list alone tells it. Only bittings known
 * from the workbook do; without them the spec's own order is assumed, and said to be.
 */
import { packBitting, type Bitting } from './bitting.ts';
import { countWithinMacs, isWithinMacs } from './count.ts';
import { readCode, type ImportCell } from './importCode.ts';
import { ORDERS, positions, type Order, type Specification } from './specification.ts';

export const SURENESSES = ['sure', 'likely', 'doubtful'] as const;
export type Sureness = (typeof SURENESSES)[number];

export interface SpecGuess {
  readonly spec: Specification;
  /** Belief from 0 to 1; all guesses together have 1. */
  readonly belief: number;
  readonly sure: Sureness;
  /** Of the codes looked at: read, and read within MACS. */
  readonly codes: number;
  readonly read: number;
  readonly within: number;
}

/** Share of slips in a list: a guess that only matters where codes contradict a spec. */
const SLIPS = 0.02;
const SAMPLE = 1_000;
/** Letters and digits: what a slip may be made of. */
const SIGNS = 36;

/**
 * Specs in the order of belief. `trusted` are believed in more before anything is read: the workbook's own.
 * @example guessSpecs(cells, specs)[0] → { spec: S-018-6, belief: 0.998, sure: 'sure', codes: 40, read: 40, within: 40 }
 */
export function guessSpecs(
  cells: readonly ImportCell[],
  specs: readonly Specification[],
  trusted: (spec: Specification) => boolean = () => false,
): SpecGuess[] {
  const sample = spread(cells, SAMPLE);
  const weighed = specs.map((spec) => weigh(sample, spec, trusted(spec) ? 3 : 1));
  const best = Math.max(...weighed.map((w) => w.log));
  const total = weighed.reduce((sum, w) => sum + Math.exp(w.log - best), 0);
  return weighed
    .map(({ log, ...rest }): SpecGuess => {
      const belief = Math.exp(log - best) / total;
      return { ...rest, belief, sure: surenessOf(belief, rest.codes, rest.within) };
    })
    .sort((a, b) => b.belief - a.belief);
}

function weigh(cells: readonly ImportCell[], spec: Specification, prior: number) {
  const cuts = positions(spec);
  const bittings = countWithinMacs(spec.depths.length, cuts, spec.macs);
  const regular = Math.log((1 - SLIPS) / bittings);
  const slip = Math.log(SLIPS) - MOST_CUTS * Math.log(SIGNS);
  let [codes, read, within, log] = [0, 0, 0, Math.log(prior)];
  for (const cell of cells) {
    const { kind, bitting } = readCode(spec, cell);
    if (kind === 'empty' || kind === 'reference') continue;
    codes++;
    const fits = bitting !== undefined && isWithinMacs(spec, bitting);
    if (bitting) read++;
    if (fits) within++;
    log += fits ? regular : slip;
  }
  return { spec, codes, read, within, log };
}

/** A slip weighs the same under every spec, whatever its length. */
const MOST_CUTS = 8;

function surenessOf(belief: number, codes: number, within: number): Sureness {
  if (codes === 0 || within === 0) return 'doubtful';
  if (belief >= 0.99 && codes >= 5 && within >= 0.9 * codes) return 'sure';
  return belief >= 0.8 && within >= 0.5 * codes ? 'likely' : 'doubtful';
}

/** At most so many, evenly spread, so that a list sorted by code is seen as a whole. */
function spread<T>(items: readonly T[], most: number): T[] {
  if (items.length <= most) return [...items];
  return Array.from({ length: most }, (_, i) => items[Math.floor((i * items.length) / most)]!);
}

export interface OrderGuess {
  readonly order: Order;
  readonly sure: Sureness;
  /** Codes that are bittings of the workbook when read in the spec's order, and when read the other way. */
  readonly own: number;
  readonly reversed: number;
}

/**
 * The direction in which a list reads its codes, from the bittings (packed) that the workbook has already.
 * `bittings` are read in the spec's order. Codes that read the same both ways tell nothing.
 * @example guessOrder(spec, bittings, known) → { order: 'tip-to-bow', sure: 'sure', own: 0, reversed: 31 }
 */
export function guessOrder(
  spec: Specification,
  bittings: readonly Bitting[],
  known: ReadonlySet<number>,
): OrderGuess {
  let [own, reversed] = [0, 0];
  for (const bitting of bittings) {
    const forward = packBitting(spec, bitting);
    const backward = packBitting(spec, [...bitting].reverse());
    if (forward === backward) continue;
    if (known.has(forward)) own++;
    if (known.has(backward)) reversed++;
  }
  const [more, less] = [Math.max(own, reversed), Math.min(own, reversed)];
  const sure: Sureness = more >= 3 && more >= 10 * less ? 'sure' : more > 2 * less ? 'likely' : 'doubtful';
  const other = ORDERS.find((order) => order !== spec.order)!;
  return { order: reversed > own ? other : spec.order, sure, own, reversed };
}
