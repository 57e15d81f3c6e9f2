/**
 * Which of many keys operate a cylinder, without trying each: the keys are kept as a tree with one level a chamber,
 * and a cylinder is walked down it along the depths that its chambers shear at, a level at a time. The work follows
 * the keys that fit so far, not the number of keys, so 16,384 keys × 10,000 cylinders take milliseconds; where only
 * their number is asked for, the last level is counted by its bits. The same walk with one chamber allowed to fail
 * finds the near misses.
 */
import { carries, reachOf, type Reach } from './blankReach.ts';
import { isWithinMacs } from './count.ts';
import { EVERY, popCount } from './depthSet.ts';
import { growTree, type IndexedKey } from './keyTree.ts';
import type { Specification } from './specification.ts';
import type { Chambers } from './system.ts';

export type { IndexedKey };

/** How many keys operate a cylinder; written over by each count. */
export interface Tally {
  keys: number;
  /** Different bittings of those keys that keep within MACS; of blanks that carry every cut. */
  cuttable: number;
}

export interface KeyIndex {
  /** Chambers that the blanks have cuts for. */
  readonly reach: Reach;
  /** Calls back with the number of each key that operates the chambers. */
  readonly eachOperating: (chambers: Chambers, found: (key: number) => void) => void;
  /** Counts them without looking at each. */
  readonly count: (chambers: Chambers, into: Tally) => void;
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

/**
 * An index of keys whose blanks carry `onBlank` cuts. A key is passed over by chambers pinned beyond them.
 * @example keyIndexOf(spec, 6, [{ number: 0, cuts: [2, 7, 4, 1, 5, 3] }])
 */
export function keyIndexOf(spec: Specification, onBlank: number, keys: readonly IndexedKey[]): KeyIndex {
  const reach = reachOf(spec, onBlank);
  // the chambers that the blanks have cuts for, a level of the tree each
  const chamberAt = spec.centres.map((_, i) => i).filter((i) => carries(reach, i));
  const length = chamberAt.length;
  const { masks, first, leaves, starts, order, numbers, broadest } = growTree(
    spec.depths.length,
    chamberAt,
    keys,
  );
  const alone = starts.length - 1 === keys.length;
  // worked out at the first count: who only looks for keys has no use for it
  let cuttable: Int32Array | undefined;
  // Nodes that the walk has come to, and those of the level below. Kept here, since every cylinder uses them anew.
  let here = new Int32Array(broadest);
  let below = new Int32Array(broadest);
  // Those of the near walk: the chamber at which a node's path has failed, −1 for none yet.
  let failing = new Int8Array(broadest);
  let failingBelow = new Int8Array(broadest);

  /** Goes down to a level along the chambers' depths; the nodes are in `here`, their number comes back. */
  function walk(chambers: Chambers, to: number): number {
    let count = 1;
    here[0] = 0;
    for (let level = 0; level < to; level++) {
      const set = chambers[chamberAt[level]!]!;
      let found = 0;
      for (let n = 0; n < count; n++) {
        const node = here[n]!;
        const mask = masks[node]!;
        for (let bits = mask & set; bits !== 0; bits &= bits - 1)
          below[found++] = first[node]! + popCount(mask & ((bits & -bits) - 1));
      }
      [here, below] = [below, here];
      count = found;
    }
    return count;
  }

  /** For the nodes above the leaves, the depths that lead to a bitting within MACS. */
  function cuttableMasks(): Int32Array {
    const found = new Int32Array(masks.length);
    for (let node = 0; node < leaves; node++) {
      if (first[node]! < leaves) continue;
      let leaf = first[node]! - leaves;
      for (let bits = masks[node]!; bits !== 0; bits &= bits - 1)
        if (isWithinMacs(spec, keys[order[starts[leaf++]!]!]!.cuts))
          found[node] = found[node]! | (bits & -bits);
    }
    return found;
  }

  function walkNear(chambers: Chambers, near: readonly number[]): number {
    let count = 1;
    here[0] = 0;
    failing[0] = NOWHERE;
    for (let level = 0; level < length; level++) {
      const chamber = chamberAt[level]!;
      const set = chambers[chamber]!;
      const close = near[chamber]! & ~set;
      let found = 0;
      for (let n = 0; n < count; n++) {
        const node = here[n]!;
        const mask = masks[node]!;
        const failed = failing[n]!;
        for (let bits = mask & (failed === NOWHERE ? set | close : set); bits !== 0; bits &= bits - 1) {
          const lowest = bits & -bits;
          below[found] = first[node]! + popCount(mask & (lowest - 1));
          failingBelow[found++] = (lowest & set) === 0 ? chamber : failed;
        }
      }
      [here, below] = [below, here];
      [failing, failingBelow] = [failingBelow, failing];
      count = found;
    }
    return count;
  }

  const beyond = (chambers: Chambers): boolean => {
    for (let i = 0; i < chambers.length; i++) if (!carries(reach, i) && chambers[i] !== EVERY) return true;
    return false;
  };

  return {
    reach,
    eachOperating(chambers, found) {
      if (beyond(chambers)) return;
      const count = walk(chambers, length);
      for (let n = 0; n < count; n++) {
        const leaf = here[n]! - leaves;
        for (let at = starts[leaf]!; at < starts[leaf + 1]!; at++) found(numbers[at]!);
      }
    },
    count(chambers, into) {
      into.keys = 0;
      into.cuttable = 0;
      if (beyond(chambers)) return;
      if (length === 0) {
        into.keys = keys.length;
        return;
      }
      const withinMacs = (cuttable ??= cuttableMasks());
      const count = walk(chambers, length - 1);
      const set = chambers[chamberAt[length - 1]!]!;
      for (let n = 0; n < count; n++) {
        const node = here[n]!;
        into.cuttable += popCount(withinMacs[node]! & set);
        const mask = masks[node]!;
        if (alone) into.keys += popCount(mask & set);
        else
          for (let bits = mask & set; bits !== 0; bits &= bits - 1) {
            const leaf = first[node]! - leaves + popCount(mask & ((bits & -bits) - 1));
            into.keys += starts[leaf + 1]! - starts[leaf]!;
          }
      }
    },
    eachNear(chambers, near, found) {
      if (beyond(chambers)) return;
      const count = walkNear(chambers, near);
      for (let n = 0; n < count; n++) {
        if (failing[n] === NOWHERE) continue;
        const leaf = here[n]! - leaves;
        for (let at = starts[leaf]!; at < starts[leaf + 1]!; at++) found(numbers[at]!, failing[n]!);
      }
    },
  };
}

/** Marks a path that has not failed yet. */
const NOWHERE = -1;
