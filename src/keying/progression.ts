/**
 * Progressions: which change bittings a key bitting array gives, in which order, without listing them first.
 *
 * Total position progression takes a change depth at every position; partial position progression leaves some
 * positions at the TMK's cut (chambers without choices); a rotating constant keeps the TMK's cut in exactly c
 * positions of every key, the same c for all, so that no key's changes contain another's.
 *
 * Changes are numbered 0 … size − 1 (mixed radix over the positions in their sequence, the last one moving fastest),
 * so that the n-th is found directly, and a repeatable scattered order is a permutation of the numbers: a Feistel
 * network over the next power of four, walked until it falls inside (Black & Rogaway, Ciphers with arbitrary finite
 * domains, 2002). Nothing is stored, whatever the size.
 */
import { assert } from './result.ts';

export type Progression =
  | { readonly kind: 'total' }
  /** These chambers (from 0 in code order) stay the top master's on every key. */
  | { readonly kind: 'partial'; readonly constant: readonly number[] }
  /** Every change key keeps the top master's cut in exactly so many of the change keys' positions. */
  | { readonly kind: 'rotating'; readonly constants: number };

/** The changes of one set of positions. `at(n)` writes the cuts of the n-th into `cuts` at those positions. */
export interface ChangeSpace {
  readonly size: number;
  readonly at: (n: number, cuts: number[]) => void;
}

/** One position that progresses: its chamber (from 0 in code order), the TMK's cut there and the change depths. */
export interface ProgressingPosition {
  readonly chamber: number;
  readonly master: number;
  readonly choices: readonly number[];
}

/** Total position progression over the given positions, the last one moving fastest. */
export function totalSpace(over: readonly ProgressingPosition[]): ChangeSpace {
  const size = over.reduce((product, { choices }) => product * choices.length, 1);
  return {
    size,
    at(n, cuts) {
      let rest = n;
      for (let k = over.length - 1; k >= 0; k--) {
        const { chamber, choices } = over[k]!;
        cuts[chamber] = choices[rest % choices.length]!;
        rest = Math.floor(rest / choices.length);
      }
    },
  };
}

/** Rotating constant: exactly `constants` of the positions keep the TMK's cut, in every possible way. */
export function rotatingSpace(over: readonly ProgressingPosition[], constants: number): ChangeSpace {
  const blocks = combinations(over.length, constants).map((kept) => {
    const moving = over.filter((_, k) => !kept.includes(k));
    return { kept: kept.map((k) => over[k]!), space: totalSpace(moving) };
  });
  return {
    size: blocks.reduce((sum, { space }) => sum + space.size, 0),
    at(n, cuts) {
      let rest = n;
      for (const { kept, space } of blocks) {
        if (rest >= space.size) {
          rest -= space.size;
          continue;
        }
        for (const { chamber, master } of kept) cuts[chamber] = master;
        space.at(rest, cuts);
        return;
      }
      assert(false, `change ${n} is outside the progression`);
    },
  };
}

/** All ways to take `k` of 0 … n−1, in ascending order. */
function combinations(n: number, k: number): number[][] {
  if (k === 0) return [[]];
  if (k < 0 || k > n) return [];
  return Array.from({ length: n - k + 1 }, (_, first) => first).flatMap((first) =>
    combinations(n - first - 1, k - 1).map((rest) => [first, ...rest.map((r) => r + first + 1)]),
  );
}

/**
 * Changes of a rotating constant: the sum over all sets of c positions of the product of the other choices.
 * @example rotatingConstantChanges([4, 3, 4, 3, 4, 3], 2) → 2196
 */
export function rotatingConstantChanges(choices: readonly number[], constants: number): number {
  // Elementary symmetric sums of the choices, by adding one position at a time.
  const chosen = choices.length - constants;
  if (constants < 0 || chosen < 0) return 0;
  const sums = [1, ...new Array<number>(choices.length).fill(0)];
  for (const count of choices)
    for (let k = choices.length; k >= 1; k--) sums[k] = sums[k]! + sums[k - 1]! * count;
  return sums[chosen]!;
}

export const CHANGE_ORDERS = ['progression', 'scattered'] as const;
export type ChangeOrder = (typeof CHANGE_ORDERS)[number];

/** The numbers 0 … size − 1 in progression order or scattered by a seed; the same seed gives the same order. */
export function* inOrder(size: number, order: ChangeOrder, seed: number): Generator<number, void, void> {
  if (order === 'progression') for (let n = 0; n < size; n++) yield n;
  else {
    const scatter = scatterOf(size, seed);
    for (let n = 0; n < size; n++) yield scatter(n);
  }
}

const ROUNDS = 6;

/** A permutation of 0 … size − 1 fixed by a seed. @example scatterOf(4096, 7)(0) is always the same number */
export function scatterOf(size: number, seed: number): (n: number) => number {
  if (size <= 1) return (n) => n;
  let half = 1;
  while (4 ** half < size) half++;
  const width = 2 ** half;
  const once = (n: number): number => {
    let left = Math.floor(n / width);
    let right = n % width;
    for (let round = 0; round < ROUNDS; round++)
      [left, right] = [right, (left ^ mix(right, seed, round)) & (width - 1)];
    return left * width + right;
  };
  return (n) => {
    let walked = once(n);
    while (walked >= size) walked = once(walked);
    return walked;
  };
}

/** A well-mixed 32-bit word of three numbers (the finaliser of MurmurHash3). */
export function mix(value: number, seed: number, round: number): number {
  let h = Math.imul(value + 0x9e3779b9, 0x85ebca6b) ^ Math.imul(seed + round * 0x27d4eb2f, 0xc2b2ae35);
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}
