/**
 * A published trade figure on common doors: of 64 progression keys, four on one door typically let in eighteen, and
 * ten let in all. Reproduced by trying every set of four out of three chambers of four choices each (4³ = 64 keys).
 */
import { describe, expect, it } from 'vitest';
import { operatingCount, pinnedFor } from '../../src/keying/cylinder.ts';
import { bittingOf } from '../../src/keying/bitting.ts';
import { randomOf, smallSpec } from '../keying/grid/charts.ts';

const spec = smallSpec(4, 5);
// The first chamber is constant; the others take one of four depths.
const keys = Array.from({ length: 64 }, (_, n) =>
  bittingOf(spec, [0, 1 + (n >> 4), 1 + ((n >> 2) & 3), 1 + (n & 3)]),
);
const letIn = (some: readonly number[]): number =>
  operatingCount(
    spec,
    pinnedFor(
      spec,
      some.map((k) => keys[k]!),
    ),
  );

describe('keys that get in at a common door', () => {
  it('four of 64: eighteen is the median and the most frequent', () => {
    const times = new Map<number, number>();
    let sets = 0;
    for (let a = 0; a < 64; a++)
      for (let b = a + 1; b < 64; b++)
        for (let c = b + 1; c < 64; c++)
          // The last key of each set is one in seven, so that the whole takes a second; the sets stay spread evenly.
          for (let d = c + 1 + ((a + b + c) % 7); d < 64; d += 7) {
            const count = letIn([a, b, c, d]);
            times.set(count, (times.get(count) ?? 0) + 1);
            sets++;
          }
    let below = 0;
    let median = 0;
    for (const [count, n] of [...times].sort(([a], [b]) => a - b)) {
      if (below < sets / 2 && below + n >= sets / 2) median = count;
      below += n;
    }
    expect(sets).toBeGreaterThan(80_000);
    expect(median).toBe(18);
    expect(Math.max(...times.values())).toBe(times.get(18));
  });

  it('ten of 64: all of them, more often than not', () => {
    const random = randomOf(3);
    const counts = Array.from({ length: 2001 }, () => {
      const some = new Set<number>();
      while (some.size < 10) some.add(random(64));
      return letIn([...some]);
    }).sort((a, b) => a - b);
    // the median
    expect(counts[1000]).toBe(64);
  });
});
