/**
 * What a grid is made of, read off its marks: keys that open nearly everything (tops), keys that open many other
 * keys' doors (heavy: masters, cleaners, trades), and ordinary keys with doors of their own. Heavy keys that contain
 * one another or have nothing in common form a hierarchy, and positions can be dealt to its levels.
 */
import type { Instance } from './instance.ts';

export interface Plan {
  /** Keys that open nearly every cylinder, the widest first. */
  readonly tops: readonly number[];
  /** Other keys with many doors that are some other key's own, the widest first. */
  readonly heavy: readonly number[];
  /** All others, linked ones next to each other. */
  readonly ordinary: readonly number[];
  /** The narrowest heavy key (or top) that opens the greater part of a key's doors; −1 for none. */
  readonly parent: Int32Array;
  /** Levels of heavy keys below the top: 1 for those whose parent is a top or nobody. 0 for ordinary keys. */
  readonly level: Int32Array;
  readonly levels: number;
  /** Most keys with the same parent on each level; the last entry is that of ordinary keys. */
  readonly widest: readonly number[];
  /** The key above such a group on each level, −1 for none. */
  readonly widestUnder: readonly number[];
  /** Share of the pairs of heavy keys that cross: neither contains the other, and they have doors in common. */
  readonly crossing: number;
  /** Ordinary keys that share a cylinder with an ordinary key. */
  readonly partners: readonly (readonly number[])[];
}

const NEARLY_ALL = 0.9;
/** A key is heavy if it opens own doors of more other keys than this. */
const OTHERS_DOORS = 3;

export function planOf(instance: Instance): Plan {
  const { keys, cylinders, cylindersOf, keysOf } = instance;
  const size = (k: number): number => cylindersOf[k]!.length;
  const ownerOf = keysOf.map((marked) =>
    marked.reduce((best, k) => (best < 0 || size(k) < size(best) ? k : best), -1),
  );
  const tops: number[] = [];
  const heavy: number[] = [];
  const light: number[] = [];
  for (let k = 0; k < keys; k++) {
    // An avoided bitting stands where it stands; a key without a mark still needs one that operates nothing.
    if (size(k) === 0 && instance.fixedCuts[k]) continue;
    if (cylinders > 3 && size(k) >= NEARLY_ALL * cylinders) tops.push(k);
    else {
      const others = new Set(cylindersOf[k]!.map((c) => ownerOf[c]!));
      others.delete(k);
      if (others.size > OTHERS_DOORS) heavy.push(k);
      else light.push(k);
    }
  }
  const byWidth = (a: number, b: number): number => size(b) - size(a) || a - b;
  tops.sort(byWidth);
  heavy.sort(byWidth);
  const { parent, level, levels, crossing } = heavyTree(instance, tops, heavy, light);
  const wide = new Set([...tops, ...heavy]);
  const partners = cylindersOf.map((_, k) => {
    if (wide.has(k)) return [];
    const found = new Set<number>();
    for (const c of cylindersOf[k]!) for (const other of keysOf[c]!) if (!wide.has(other)) found.add(other);
    found.delete(k);
    return [...found];
  });
  return {
    tops,
    heavy,
    ordinary: linkedOrder(light, partners, parent),
    parent,
    level,
    levels,
    crossing,
    partners,
    ...widestOf(light, heavy, parent, level, levels),
  };
}

function heavyTree(
  { cylinders, cylindersOf, keys }: Instance,
  tops: readonly number[],
  heavy: readonly number[],
  light: readonly number[],
): { parent: Int32Array; level: Int32Array; levels: number; crossing: number } {
  const parent = new Int32Array(keys).fill(-1);
  const level = new Int32Array(keys);
  const size = (k: number): number => cylindersOf[k]!.length;
  const heavyOf: number[][] = Array.from({ length: cylinders }, () => []);
  for (const k of [...tops, ...heavy]) for (const c of cylindersOf[k]!) heavyOf[c]!.push(k);
  const isTop = new Set(tops);
  let pairs = 0;
  let crossings = 0;
  let levels = 0;
  const shared = new Map<number, number>();
  const setParent = (k: number): void => {
    shared.clear();
    for (const c of cylindersOf[k]!)
      for (const h of heavyOf[c]!) if (h !== k) shared.set(h, (shared.get(h) ?? 0) + 1);
    let best = -1;
    for (const [h, count] of shared)
      if (size(h) > size(k) && count * 2 > size(k) && (best < 0 || size(h) < size(best))) best = h;
    parent[k] = best;
  };
  for (const k of heavy) {
    setParent(k);
    for (const [h, count] of shared) {
      if (isTop.has(h) || size(h) < size(k) || (size(h) === size(k) && h > k)) continue;
      if (count * 10 < size(k) * 9 && count * 10 > size(k)) crossings++;
    }
    level[k] = parent[k]! < 0 || isTop.has(parent[k]!) ? 1 : level[parent[k]!]! + 1;
    levels = Math.max(levels, level[k]!);
  }
  for (const k of light) setParent(k);
  pairs = (heavy.length * (heavy.length - 1)) / 2;
  return { parent, level, levels, crossing: pairs === 0 ? 0 : crossings / pairs };
}

function widestOf(
  light: readonly number[],
  heavy: readonly number[],
  parent: Int32Array,
  level: Int32Array,
  levels: number,
): Pick<Plan, 'widest' | 'widestUnder'> {
  const widest = new Array<number>(levels + 1).fill(1);
  const widestUnder = new Array<number>(levels + 1).fill(-1);
  const count = (list: readonly number[], at: (k: number) => number): void => {
    const counts = new Map<string, number>();
    for (const k of list) {
      const name = `${at(k)} ${parent[k]!}`;
      const members = (counts.get(name) ?? 0) + 1;
      counts.set(name, members);
      if (members < widest[at(k)]!) continue;
      widest[at(k)] = members;
      widestUnder[at(k)] = parent[k]!;
    }
  };
  count(heavy, (k) => level[k]! - 1);
  count(light, () => levels);
  return { widest, widestUnder };
}

/** Ordinary keys so that those which share a door follow each other, within the group of their parent. */
function linkedOrder(
  light: readonly number[],
  partners: readonly (readonly number[])[],
  parent: Int32Array,
): number[] {
  const order: number[] = [];
  const seen = new Set<number>();
  const linked = [...light].sort(
    (a, b) => partners[b]!.length - partners[a]!.length || parent[a]! - parent[b]! || a - b,
  );
  for (const start of linked) {
    if (seen.has(start)) continue;
    seen.add(start);
    const queue = [start];
    for (let at = 0; at < queue.length; at++) {
      order.push(queue[at]!);
      for (const next of partners[queue[at]!]!)
        if (!seen.has(next)) {
          seen.add(next);
          queue.push(next);
        }
    }
  }
  return order;
}
