/**
 * Many keys as a tree with one level a chamber. Keys are put in order of their cuts (counting sort from the last
 * chamber to the first), so that the nodes of a level stand side by side and the children of a node follow each
 * other: a node needs the depths below it, as bits, and the number of the first. Keys with the same cuts share a leaf.
 */

/** A key as the index wants it: its number in the caller's list and its code. */
export interface IndexedKey {
  readonly number: number;
  readonly cuts: readonly number[];
}

export interface KeyTree {
  /** Depths that lead on from a node, as bits. */
  readonly masks: Int32Array;
  /** Where the lowest of them leads to; the others lead to the nodes that follow. */
  readonly first: Int32Array;
  /** Number of the first leaf. The leaves are the last nodes. */
  readonly leaves: number;
  /** For each leaf, from 0, where its keys begin in `order`; one more for the end. */
  readonly starts: Int32Array;
  /** Places in the list of keys, by their cuts, and the keys' numbers in the same order. */
  readonly order: Int32Array;
  readonly numbers: Int32Array;
  /** Nodes on the broadest level. */
  readonly broadest: number;
}

/** @example growTree(10, [0, 1, 2], [{ number: 0, cuts: [2, 7, 4] }]).leaves → 3, one node on each level before it */
export function growTree(width: number, chamberAt: readonly number[], keys: readonly IndexedKey[]): KeyTree {
  const length = chamberAt.length;
  const cuts = flatCuts(chamberAt, keys);
  const order = inOrderOfCuts(width, length, cuts, keys.length);
  const { turns, sizes } = levelsOf(length, cuts, order);
  const at = new Int32Array(length + 1);
  let nodes = 0;
  sizes.forEach((size, level) => {
    at[level] = nodes - 1;
    nodes += size;
  });
  const leaves = nodes - sizes[length]!;
  const masks = new Int32Array(nodes);
  const first = new Int32Array(nodes);
  const starts = new Int32Array(sizes[length]! + 1);
  at[0] = 0;
  for (let s = 0; s < order.length; s++) {
    const from = order[s]! * length;
    for (let level = turns[s]!; level < length; level++) {
      const node = at[level]!;
      const child = at[level + 1]! + 1;
      at[level + 1] = child;
      if (masks[node] === 0) first[node] = child;
      masks[node] = masks[node]! | (1 << cuts[from + level]!);
    }
    if (turns[s]! < length) starts[at[length]! - leaves] = s;
  }
  starts[sizes[length]!] = order.length;
  const numbers = order.map((place) => keys[place]!.number);
  return { masks, first, leaves, starts, order, numbers, broadest: Math.max(...sizes) };
}

/** The cuts at the tree's chambers, one key after the other: sorting goes through them over and over. */
function flatCuts(chamberAt: readonly number[], keys: readonly IndexedKey[]): Uint8Array {
  const flat = new Uint8Array(keys.length * chamberAt.length);
  let to = 0;
  for (const { cuts } of keys) for (const chamber of chamberAt) flat[to++] = cuts[chamber]!;
  return flat;
}

/** Places of the keys in ascending order of their cuts; equal ones in the order of the list. */
function inOrderOfCuts(width: number, length: number, cuts: Uint8Array, keys: number): Int32Array {
  let order = new Int32Array(keys);
  for (let at = 0; at < keys; at++) order[at] = at;
  let sorted = new Int32Array(keys);
  const begin = new Int32Array(width + 1);
  for (let level = length - 1; level >= 0; level--) {
    begin.fill(0);
    for (let at = level; at < cuts.length; at += length) {
      const after = cuts[at]! + 1;
      begin[after] = begin[after]! + 1;
    }
    for (let depth = 0; depth < width; depth++) begin[depth + 1] = begin[depth + 1]! + begin[depth]!;
    for (let n = 0; n < keys; n++) {
      const at = order[n]!;
      const depth = cuts[at * length + level]!;
      const to = begin[depth]!;
      sorted[to] = at;
      begin[depth] = to + 1;
    }
    [order, sorted] = [sorted, order];
  }
  return order;
}

/** For each key in order the level at which it leaves the one before it, and how many nodes each level has. */
function levelsOf(
  length: number,
  cuts: Uint8Array,
  order: Int32Array,
): { turns: Uint8Array; sizes: number[] } {
  const turns = new Uint8Array(order.length);
  const leaving = new Array<number>(length + 1).fill(0);
  for (let s = 0; s < order.length; s++) {
    let level = 0;
    if (s > 0) {
      const before = order[s - 1]! * length;
      const from = order[s]! * length;
      while (level < length && cuts[from + level] === cuts[before + level]) level++;
    }
    turns[s] = level;
    leaving[level] = leaving[level]! + 1;
  }
  const sizes = [1];
  let sum = 0;
  for (let level = 0; level < length; level++) sizes.push((sum += leaving[level]!));
  return { turns, sizes };
}
