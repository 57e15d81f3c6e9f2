/**
 * Which of many keys operate a cylinder, without trying each: the keys are kept as a tree with one level a chamber,
 * and a cylinder is walked down it along the depths that its chambers shear at. The work follows the keys that fit
 * so far, not the number of keys, so 16,384 keys × 10,000 cylinders take milliseconds. The same walk with one
 * chamber allowed to fail finds the near misses.
 */
import { EVERY } from './depthSet.ts';
import { MOST_DEPTHS, type Specification } from './specification.ts';
import type { Chambers } from './system.ts';

export interface KeyIndex {
  /** Calls back with the number of each key that operates the chambers. */
  readonly eachOperating: (chambers: Chambers, found: (key: number) => void) => void;
  /**
   * Calls back with each key that fails at exactly one chamber (from 0), where its depth is one of `near` there.
   * `near[i]` are bits of depths outside the chamber's own.
   */
  readonly eachNear: (
    chambers: Chambers,
    near: readonly number[],
    found: (key: number, chamber: number) => void,
  ) => void;
  /** Calls back with each set of two keys or more that have the same cuts. */
  readonly eachShared: (found: (keys: readonly number[]) => void) => void;
}

/** A key as the index wants it: its number in the caller's list, its cuts and how many its blank carries. */
export interface IndexedKey {
  readonly number: number;
  readonly cuts: readonly number[];
}

/**
 * An index of keys whose blanks carry `length` cuts. A key is passed over by chambers pinned beyond them.
 * @example keyIndexOf(spec, 6, [{ number: 0, cuts: [2, 7, 4, 1, 5, 3] }])
 */
export function keyIndexOf(spec: Specification, length: number, keys: readonly IndexedKey[]): KeyIndex {
  const width = Math.min(spec.depths.length, MOST_DEPTHS);
  const { children, masks, leaves } = growTree(width, length, keys);

  const beyond = (chambers: Chambers): boolean => {
    for (let i = length; i < chambers.length; i++) if (chambers[i] !== EVERY) return true;
    return false;
  };

  return {
    eachOperating(chambers, found) {
      if (beyond(chambers)) return;
      const walk = (node: number, level: number): void => {
        if (level === length) {
          for (const key of leaves[node]!) found(key);
          return;
        }
        let bits = masks[node]! & chambers[level]!;
        while (bits !== 0) {
          const depth = 31 - Math.clz32(bits & -bits);
          walk(children[node * width + depth]!, level + 1);
          bits &= bits - 1;
        }
      };
      walk(0, 0);
    },
    eachNear(chambers, near, found) {
      if (beyond(chambers)) return;
      const walk = (node: number, level: number, failing: number): void => {
        if (level === length) {
          if (failing >= 0) for (const key of leaves[node]!) found(key, failing);
          return;
        }
        const exact = masks[node]! & chambers[level]!;
        const close = failing >= 0 ? 0 : masks[node]! & near[level]! & ~chambers[level]!;
        let bits = exact | close;
        while (bits !== 0) {
          const bit = bits & -bits;
          const child = children[node * width + 31 - Math.clz32(bit)]!;
          walk(child, level + 1, (close & bit) !== 0 ? level : failing);
          bits &= bits - 1;
        }
      };
      walk(0, 0, -1);
    },
    eachShared(found) {
      for (const leaf of leaves) if (leaf && leaf.length > 1) found(leaf);
    },
  };
}

interface Tree {
  /** Node of each depth below a node, `width` to a node. */
  readonly children: Int32Array;
  /** Depths below a node, as bits. */
  readonly masks: Int32Array;
  /** Keys at a node of the last level. */
  readonly leaves: readonly (readonly number[] | undefined)[];
}

function growTree(width: number, length: number, keys: readonly IndexedKey[]): Tree {
  const most = keys.length * length + 1;
  const children = new Int32Array(most * width);
  const masks = new Int32Array(most);
  const leaves: (number[] | undefined)[] = [];
  let nodes = 1;
  if (length === 0) leaves[0] = [];
  for (const { number, cuts } of keys) {
    let node = 0;
    for (let level = 0; level < length; level++) {
      const depth = cuts[level]!;
      const slot = node * width + depth;
      if (children[slot] === 0) {
        children[slot] = nodes++;
        masks[node] = masks[node]! | (1 << depth);
      }
      node = children[slot]!;
    }
    const leaf = leaves[node];
    if (leaf) leaf.push(number);
    else leaves[node] = [number];
  }
  return { children, masks, leaves };
}
