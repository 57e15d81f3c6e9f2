/** Seeded numbers for the search (xorshift, Marsaglia 2003): the same seed gives the same answer on any machine. */
import { mix } from '../progression.ts';

export interface Random {
  /** A whole number from 0 up to, not including, `n`. */
  readonly below: (n: number) => number;
  /** The items in a random order, as a new list. */
  readonly shuffled: <T>(items: readonly T[]) => T[];
}

export function createRandom(seed: number): Random {
  let state = mix(seed, 0x51ed27, 1) || 1;
  const below = (n: number): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return Math.floor(((state >>> 0) / 4294967296) * n);
  };
  return {
    below,
    shuffled(items) {
      const list = [...items];
      for (let i = list.length - 1; i > 0; i--) {
        const j = below(i + 1);
        [list[i], list[j]] = [list[j]!, list[i]!];
      }
      return list;
    },
  };
}
