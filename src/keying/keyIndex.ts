/**
 * Which of many keys operate a cylinder, without trying each: the keys are kept as a tree with one level a chamber,
 * and a cylinder is walked down it along the depths that its chambers shear at. The work follows the keys that fit
 * so far, not the number of keys, so 16,384 keys × 10,000 cylinders take milliseconds. The same walk with one
 * chamber allowed to fail finds the near misses.
 */
import { carries, reachOf } from './blankReach.ts';
import { EVERY } from './depthSet.ts';
import type { Specification } from './specification.ts';
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
}

/** A key as the index wants it: its number in the caller's list and its code. */
export interface IndexedKey {
  readonly number: number;
  readonly cuts: readonly number[];
}

/**
 * An index of keys whose blanks carry `onBlank` cuts. A key is passed over by chambers pinned beyond them.
 * @example keyIndexOf(spec, 6, [{ number: 0, cuts: [2, 7, 4, 1, 5, 3] }])
 */
export function keyIndexOf(spec: Specification, onBlank: number, keys: readonly IndexedKey[]): KeyIndex {
  const width = spec.depths.length;
  const reach = reachOf(spec, onBlank);
  // the chambers that the blanks have cuts for, a level of the tree each
  const chamberAt = spec.centres.map((_, i) => i).filter((i) => carries(reach, i));
  const length = chamberAt.length;
  const { children, masks, first, next } = growTree(width, chamberAt, keys);
  // What the walk under way works on: kept here, since making a closure for every cylinder costs more than the walk.
  let sets: Chambers = [];
  let close: readonly number[] = [];
  let onOperating: (key: number) => void = () => undefined;
  let onNear: (key: number, chamber: number) => void = () => undefined;

  function walk(node: number, level: number): void {
    if (level === length) {
      for (let at = first[node]!; at !== NOBODY; at = next[at]!) onOperating(keys[at]!.number);
      return;
    }
    let bits = masks[node]! & sets[chamberAt[level]!]!;
    while (bits !== 0) {
      walk(children[node * width + lowest(bits)]!, level + 1);
      bits &= bits - 1;
    }
  }

  function walkNear(node: number, level: number, failing: number): void {
    if (level === length) {
      if (failing >= 0)
        for (let at = first[node]!; at !== NOBODY; at = next[at]!) onNear(keys[at]!.number, failing);
      return;
    }
    const chamber = chamberAt[level]!;
    const near = failing >= 0 ? 0 : masks[node]! & close[chamber]! & ~sets[chamber]!;
    let bits = (masks[node]! & sets[chamber]!) | near;
    while (bits !== 0) {
      const failed = (near & bits & -bits) !== 0;
      walkNear(children[node * width + lowest(bits)]!, level + 1, failed ? chamber : failing);
      bits &= bits - 1;
    }
  }

  const beyond = (chambers: Chambers): boolean => {
    for (let i = 0; i < chambers.length; i++) if (!carries(reach, i) && chambers[i] !== EVERY) return true;
    return false;
  };

  return {
    eachOperating(chambers, found) {
      if (beyond(chambers)) return;
      sets = chambers;
      onOperating = found;
      walk(0, 0);
    },
    eachNear(chambers, near, found) {
      if (beyond(chambers)) return;
      sets = chambers;
      close = near;
      onNear = found;
      walkNear(0, 0, -1);
    },
  };
}

const NOBODY = -1;

/** The lowest depth among bits. */
const lowest = (bits: number): number => 31 - Math.clz32(bits & -bits);

interface Tree {
  /** Node of each depth below a node, `width` to a node. */
  readonly children: Int32Array;
  /** Depths below a node, as bits. */
  readonly masks: Int32Array;
  /** The last key that ends at a node, and for each key the one before it there. */
  readonly first: Int32Array;
  readonly next: Int32Array;
}

function growTree(width: number, chamberAt: readonly number[], keys: readonly IndexedKey[]): Tree {
  const length = chamberAt.length;
  const most = keys.length * length + 1;
  const children = new Int32Array(most * width);
  const masks = new Int32Array(most);
  const first = new Int32Array(most).fill(NOBODY);
  const next = new Int32Array(keys.length).fill(NOBODY);
  let nodes = 1;
  keys.forEach(({ cuts }, at) => {
    let node = 0;
    for (const chamber of chamberAt) {
      const depth = cuts[chamber]!;
      const slot = node * width + depth;
      if (children[slot] === 0) {
        children[slot] = nodes++;
        masks[node] = masks[node]! | (1 << depth);
      }
      node = children[slot]!;
    }
    next[at] = first[node]!;
    first[node] = at;
  });
  return { children, masks, first, next };
}
