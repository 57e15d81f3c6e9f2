/**
 * The wide keys of a grid alone: tops and heavy keys, and one cylinder for each different set of them on a door. It
 * is a small grid, and a grid can only be solved if this part can, so it is solved first.
 */
import type { Instance } from './instance.ts';

export interface Part {
  readonly instance: Instance;
  /** The key of the whole grid for each of the part. */
  readonly keys: readonly number[];
  /** The cylinder of the whole grid for each of the part. */
  readonly cylinders: readonly number[];
}

/** The grid of some of the keys; cylinders that differ only in the others become one. */
export function partOf(whole: Instance, keys: readonly number[]): Part {
  const p = whole.positions;
  const number = new Map(keys.map((k, n) => [k, n]));
  const seen = new Map<string, number>();
  const chosen: number[] = [];
  const keysOf: number[][] = [];
  whole.keysOf.forEach((marked, c) => {
    const inside = marked.flatMap((k) => number.get(k) ?? []);
    const fixed = whole.fixedSets[c];
    if (inside.length === 0 && !fixed) return;
    const blanks = whole.shut ? keys.map((k) => whole.shut![k * whole.cylinders + c]!).join('') : '';
    const name = `${inside.join()} ${whole.inUse[c]!} ${fixed?.join() ?? ''} ${blanks}`;
    if (seen.has(name)) return;
    seen.set(name, chosen.length);
    chosen.push(c);
    keysOf.push(inside);
  });
  const cylindersOf = keys.map((): number[] => []);
  keysOf.forEach((inside, c) => {
    for (const n of inside) cylindersOf[n]!.push(c);
  });
  const shut =
    whole.shut &&
    Uint8Array.from(keys.flatMap((k) => chosen.map((c) => whole.shut![k * whole.cylinders + c]!)));
  const domain = new Int32Array(keys.length * p);
  keys.forEach((k, n) => domain.set(whole.domain.subarray(k * p, (k + 1) * p), n * p));
  return {
    keys,
    cylinders: chosen,
    instance: {
      ...whole,
      keys: keys.length,
      cylinders: chosen.length,
      fixedCuts: keys.map((k) => whole.fixedCuts[k]),
      fixedSets: chosen.map((c) => whole.fixedSets[c]),
      inUse: chosen.map((c) => whole.inUse[c]!),
      keysOf,
      cylindersOf,
      domain,
      shut,
      avoided: keys.map((k) => whole.avoided[k]!),
      reach: keys.map((k) => whole.reach[k]!),
    },
  };
}
