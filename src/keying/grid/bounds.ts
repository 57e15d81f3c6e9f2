/**
 * Proofs by counting, before any search. Keys with different marks need different bittings. And under a master g, if
 * each key k of a set has a door with g that no other key of the set opens, then no key's cuts may lie within
 * {k's cut, g's cut} at every chamber: the keys form an antichain of the order "keeps g's cut or agrees". That order
 * is a product of stars (g's cut below all others), which are log-concave with the LYM property, so the largest
 * antichain is the largest rank (Harper 1974; Hsieh and Kleitman 1973): the best rotating constant. It holds for any
 * bittings whatever, not only for progressions.
 */
import { rotatingConstantChanges } from '../progression.ts';
import { bitCount, type Instance } from './instance.ts';
import { partOf } from './wide.ts';

export interface TooMany {
  readonly code: 'too-many-keys' | 'too-many-under-master';
  readonly needed: number;
  readonly possible: number;
  /** Key classes that need different bittings, or stand under the master. */
  readonly keys: readonly number[];
  readonly master?: number;
  /** A cylinder class for each of the keys, under a master. */
  readonly cylinders: readonly number[];
}

/** Bittings are counted one by one up to so many. */
const MOST_COUNTED = 2_000_000;
const MASTERS_TRIED = 4;

export function tooMany(instance: Instance): TooMany | undefined {
  if (!instance.shut) return tooManyKeys(instance) ?? tooManyUnderMaster(instance);
  // Keys of different blanks may share a bitting, so they are counted blank by blank.
  for (const keys of keysByBlank(instance, instance.shut)) {
    const part = partOf(instance, keys);
    const found = tooManyKeys(part.instance) ?? tooManyUnderMaster(part.instance);
    if (found)
      return {
        ...found,
        keys: found.keys.map((n) => part.keys[n]!),
        cylinders: found.cylinders.map((n) => part.cylinders[n]!),
        ...(found.master !== undefined && { master: part.keys[found.master]! }),
      };
  }
  return undefined;
}

/** Keys that turn in the same cylinders as far as their blanks go, and have a cut for the same chambers. */
function keysByBlank({ keys, cylinders, reach }: Instance, shut: Uint8Array): number[][] {
  const groups = new Map<string, number[]>();
  for (let k = 0; k < keys; k++) {
    const name = `${reach[k]!} ${shut.subarray(k * cylinders, (k + 1) * cylinders).join('')}`;
    const group = groups.get(name);
    if (group) group.push(k);
    else groups.set(name, [k]);
  }
  return [...groups.values()];
}

function tooManyKeys(instance: Instance): TooMany | undefined {
  const { cylindersOf, fixedCuts, distinct, minimumDifference } = instance;
  // Keys of different blanks with the same marks are classes of their own, and may share a bitting.
  const alone = distinct || minimumDifference > 1;
  const rows = new Set<string>();
  const marked = cylindersOf.flatMap((row, k) => {
    if (row.length === 0 || fixedCuts[k] || (!alone && rows.has(row.join()))) return [];
    rows.add(row.join());
    return [k];
  });
  const possible = usableCount(instance, marked.length);
  if (possible === undefined || possible >= marked.length) return undefined;
  return {
    code: 'too-many-keys',
    needed: marked.length,
    possible,
    keys: marked.slice(0, possible + 1),
    cylinders: [],
  };
}

/** Usable bittings within the keys' domains, or undefined when there are certainly `enough` or too many to count. */
function usableCount(instance: Instance, enough: number): number | undefined {
  const { positions: p, keys, domain, fixedCuts } = instance;
  const bits = new Array<number>(p).fill(0);
  for (let k = 0; k < keys; k++)
    if (!fixedCuts[k]) for (let i = 0; i < p; i++) bits[i] = bits[i]! | domain[k * p + i]!;
  if (bits.reduce((product, set) => product * bitCount(set), 1) > MOST_COUNTED) return undefined;
  let count = 0;
  const cuts = new Array<number>(p).fill(0);
  const from = (i: number): boolean => {
    if (i === p) {
      if (instance.usable(cuts)) count++;
      return count >= enough;
    }
    for (let depth = 0; depth < instance.depths; depth++) {
      if (((bits[i]! >>> depth) & 1) === 0) continue;
      cuts[i] = depth;
      if (from(i + 1)) return true;
    }
    return false;
  };
  return from(0) ? undefined : count;
}

function tooManyUnderMaster(instance: Instance): TooMany | undefined {
  const { keys, cylindersOf } = instance;
  const wide = Array.from({ length: keys }, (_, k) => k)
    .sort((a, b) => cylindersOf[b]!.length - cylindersOf[a]!.length || a - b)
    .slice(0, MASTERS_TRIED);
  for (const master of wide) {
    const possible = largestRank(instance, master);
    if (possible >= cylindersOf[master]!.length) continue;
    const { under, doors } = keysUnder(instance, master, possible + 1);
    if (under.length > possible)
      return {
        code: 'too-many-under-master',
        master,
        needed: under.length,
        possible,
        keys: under,
        cylinders: doors,
      };
  }
  return undefined;
}

/** The largest rank: c chambers keep the master's cut, for the best c. */
function largestRank(instance: Instance, master: number): number {
  const { positions: p, depths, domain, near, inUse, cylindersOf, fixedSets } = instance;
  const choices: number[] = [];
  for (let i = 0; i < p; i++) {
    // Whatever the master's cut will be: the most other depths that may share a chamber with one.
    let most = 0;
    let all = 0;
    for (let at = i; at < domain.length; at += p) all |= domain[at]!;
    // In a door without this chamber two cuts never meet, however near.
    const meet = cylindersOf[master]!.every((c) => fixedSets[c] !== undefined || (inUse[c]! >>> i) & 1);
    for (let depth = 0; depth < depths; depth++)
      if ((domain[master * p + i]! >>> depth) & 1)
        most = Math.max(most, bitCount(all & ~(meet ? near[depth]! : 0) & ~(1 << depth)));
    choices.push(most);
  }
  return Math.max(...choices.map((_, c) => rotatingConstantChanges(choices, c)), 1);
}

/** Keys with a door of the master's that none of the others opens. */
function keysUnder(
  { keysOf, cylindersOf, fixedSets }: Instance,
  master: number,
  enough: number,
): { under: number[]; doors: number[] } {
  const under: number[] = [];
  const doors: number[] = [];
  const barred = new Set<number>([master]);
  const taken = new Set<number>();
  const byWidth = [...cylindersOf[master]!]
    .filter((c) => !fixedSets[c])
    .sort((a, b) => keysOf[a]!.length - keysOf[b]!.length || a - b);
  for (const c of byWidth) {
    if (keysOf[c]!.some((k) => taken.has(k))) continue;
    const own = keysOf[c]!.filter((k) => !barred.has(k));
    const k = own.sort((a, b) => cylindersOf[a]!.length - cylindersOf[b]!.length)[0];
    if (k === undefined) continue;
    under.push(k);
    doors.push(c);
    taken.add(k);
    for (const other of keysOf[c]!) barred.add(other);
    if (under.length >= enough) break;
  }
  return { under, doors };
}
