/**
 * A key is lost: what it opens, which cylinders have to change, and in which order. Every cylinder that the key
 * really operates must change, meant or not. Which further keys need new bittings follows from the pins: a cylinder
 * still lets the lost key in as long as the keys that stay hold its cut in every chamber. So a lost change key leaves
 * its masters as they are; with a lost master under a grand master the change keys of its group go too, since in
 * total position progression each of them still holds the old master's cuts where the grand master doesn't.
 *
 * That keys are changed when they are lost is asked for by published key control (NIST SP 800-53 Rev. 5, PE-3 g).
 */
import type { AccessMap } from './access.ts';
import { doorOf } from './access.ts';
import { pinnedFor } from './cylinder.ts';
import { EVERY } from './depthSet.ts';
import { foldName } from './specTable.ts';
import { isInUse, LEVELS, type Chambers, type KeyRecord, type KeySystem } from './system.ts';

export interface LostKeyScope {
  /** Number of the lost key in the system's list. */
  readonly lost: number;
  /** Keys that get new bittings, the lost one first, then from the top down. */
  readonly replaced: readonly number[];
  /** Cylinders that the lost key operates, meant or not. */
  readonly exposed: readonly number[];
  /** Cylinders that change although the lost key doesn't open them: their key gets a new bitting. */
  readonly along: readonly number[];
}

/** A key of a symbol that is in use: a symbol may stand on retired bittings as well. */
export const liveKey = (system: Pick<KeySystem, 'keys'>, symbol: string): number =>
  system.keys.findIndex((key) => foldName(key.symbol) === foldName(symbol) && isInUse(key));

const rankOf = ({ level }: KeyRecord): number => (level === 'single' ? 0 : LEVELS.indexOf(level as 'CK'));

/**
 * What follows from the loss of a key. `access` is the system's map; its keys and cylinders are numbered as the
 * system's.
 * @example lostKeyScope(system, access, keyNumberOfAA1).replaced → [keyNumberOfAA1]
 */
export function lostKeyScope(system: KeySystem, access: AccessMap, lost: number): LostKeyScope {
  const { keys } = system;
  const { intended } = access.input;
  const bitting = keys[lost]!.bitting;
  const exposed = access.ofKey[lost]!.map(({ cylinder }) => cylinder);
  const replaced = new Set([lost]);
  const waiting = [...exposed];
  const changing = new Set<number>();
  while (waiting.length > 0) {
    const c = waiting.pop()!;
    if (changing.has(c)) continue;
    changing.add(c);
    const meant = [...(intended[c] ?? [])].sort((a, b) => rankOf(keys[a]!) - rankOf(keys[b]!));
    for (const next of [undefined, ...meant]) {
      if (next !== undefined && !replaced.has(next)) {
        if (keys[next]!.level === 'control') continue;
        replaced.add(next);
        // a key that changes takes all its cylinders along
        intended.forEach((list, other) => list.includes(next) && waiting.push(other));
      }
      const staying = meant.filter((k) => !replaced.has(k) && keys[k]!.level !== 'control');
      if (
        !admits(
          system.cylinders[c]!.chambers,
          staying.map((k) => keys[k]!.bitting),
          bitting,
        )
      )
        break;
    }
  }
  for (const spare of sparesAdmitting(keys, replaced, bitting)) replaced.add(spare);
  const isExposed = new Set(exposed);
  return {
    lost,
    exposed,
    replaced: [...replaced].sort(
      (a, b) => Number(b === lost) - Number(a === lost) || rankOf(keys[b]!) - rankOf(keys[a]!) || a - b,
    ),
    along: [...changing].filter((c) => !isExposed.has(c)).sort((a, b) => a - b),
  };
}

/** Keys without a cylinder yet whose cylinder, pinned for them and the keys above, would let the bitting in. */
function sparesAdmitting(
  keys: readonly KeyRecord[],
  replaced: ReadonlySet<number>,
  bitting: readonly number[],
): number[] {
  const numbers = new Map(
    keys.flatMap((key, k) => (isInUse(key) ? [[foldName(key.symbol), k] as const] : [])),
  );
  return [...numbers.values()].filter((k) => {
    if (replaced.has(k) || keys[k]!.level === 'control') return false;
    const chain: number[] = [];
    for (let at: number | undefined = k; at !== undefined && !chain.includes(at);)
      at = numbers.get(foldName(keys[chain[chain.push(at) - 1]!]!.parent ?? ''));
    const staying = chain.filter((n) => !replaced.has(n)).map((n) => keys[n]!.bitting);
    return (
      chain.some((n) => replaced.has(n)) && bitting.every((cut, i) => staying.some((cuts) => cuts[i] === cut))
    );
  });
}

/** Whether a cylinder pinned for these keys would still let the bitting in. */
function admits(
  chambers: Chambers,
  staying: readonly (readonly number[])[],
  bitting: readonly number[],
): boolean {
  return chambers.every((set, i) => set === EVERY || staying.some((cuts) => cuts[i] === bitting[i]));
}

/** Chambers of a cylinder for other keys: those that were empty stay empty. */
export const repinned = (
  system: Pick<KeySystem, 'spec'>,
  chambers: Chambers,
  bittings: readonly KeyRecord['bitting'][],
): Chambers =>
  pinnedFor(
    system.spec,
    bittings,
    chambers.map((set) => set !== EVERY),
  );

export interface Phase {
  readonly title: string;
  readonly cylinders: readonly number[];
  readonly doors: number;
  /** Cylinders and doors that the lost key still opens when this phase is done. */
  readonly stillExposed: { readonly cylinders: number; readonly doors: number };
}

/**
 * The cylinders in phases, riskiest first. `riskOf` gives a rank from 0 for the riskiest; `titles` name the ranks.
 * Cylinders that only change along come last of all, since the lost key doesn't open them.
 * @example phasesOf(system, scope, { titles: ['Outside doors', 'All others'], riskOf })[0]
 *   → { title: 'Outside doors', doors: 19, stillExposed: { doors: 42, … }, … }
 */
export function phasesOf(
  { cylinders }: Pick<KeySystem, 'cylinders'>,
  { exposed, along }: LostKeyScope,
  { titles, riskOf }: { readonly titles: readonly string[]; readonly riskOf: (cylinder: number) => number },
): Phase[] {
  const doorCount = (list: readonly number[]): number =>
    new Set(list.map((c) => foldName(doorOf(cylinders[c]!)))).size;
  const ranked = titles.map((title, rank) => ({
    title,
    cylinders: exposed.filter((c) => Math.min(Math.max(riskOf(c), 0), titles.length - 1) === rank),
  }));
  const phases = [
    ...ranked,
    { title: 'Not opened by the lost key, but their key changes', cylinders: along },
  ];
  let done = new Set<number>();
  return phases.flatMap(({ title, cylinders: mine }): Phase[] => {
    if (mine.length === 0) return [];
    done = new Set([...done, ...mine]);
    const left = exposed.filter((c) => !done.has(c));
    return [
      {
        title,
        cylinders: mine,
        doors: doorCount(mine),
        stillExposed: { cylinders: left.length, doors: doorCount(left) },
      },
    ];
  });
}
