/**
 * Keys whose bitting can't be read, beside a change that has nothing to do with them. A system is never extended
 * blind: a bitting in use that nobody can read might be given out again, or open what is pinned anew. Where part of a
 * code is legible, though, it can stand for a limited number of bittings only, and it is enough to shut every one of
 * them out. Where it could be anything, or the key belongs to what changes, its row has to be mended first.
 */
import { bittingOf, parseBitting, type Bitting } from './bitting.ts';
import { intendedByHierarchy, type Mark } from './intended.ts';
import { entersKeyway } from './keyways.ts';
import { positions, type Specification } from './specification.ts';
import { foldSymbol, isInUse, type KeyRecord, type KeySystem, type Status } from './system.ts';

/** A key by what could be read of its row. */
export interface UnreadKey {
  readonly symbol: string;
  /** The code as it stands there. */
  readonly code: string;
  readonly level?: KeyRecord['level'];
  /** Left out where it can't be read; the key then counts as issued. */
  readonly status?: Status;
  readonly keyway?: string;
}

/** A key with all bittings that it may have. */
export interface DoubtfulKey {
  readonly symbol: string;
  readonly keyway?: string;
  readonly bittings: readonly Bitting[];
}

export type Doubt =
  /** Nobody has such a key, or its blank enters nothing that changes. */
  | { readonly kind: 'unrelated' }
  /** Safe once every one of its bittings is shut out. */
  | { readonly kind: 'limited'; readonly key: DoubtfulKey }
  /** A key above others, the lost one itself, one for a door that changes, or one that could be anything. */
  | { readonly kind: 'bars'; readonly why: 'above' | 'lost' | 'meant' | 'anything' };

/** More bittings than these are as good as any. */
const MOST = 2_000;

/**
 * All bittings that a code may stand for when one or two of its cuts are missing or can't be read; undefined where
 * there are more than can be shut out. What is legible keeps its order.
 * @example possibleBittings(spec, '27413')?.length → 55 with six cuts of ten depths
 */
export function possibleBittings(spec: Specification, code: string): Bitting[] | undefined {
  const whole = parseBitting(spec, code);
  if (whole.ok) return [whole.value];
  const indexOf = new Map(spec.depths.map(({ symbol }, i) => [symbol.toUpperCase(), i]));
  if (spec.depths.some(({ symbol }) => symbol.length !== 1)) return undefined;
  const cuts = [...code.normalize('NFKC').toUpperCase()]
    .filter((sign) => /[0-9A-Z]/.test(sign))
    .map((sign) => indexOf.get(sign));
  const missing = positions(spec) - cuts.length;
  const open = missing + cuts.filter((cut) => cut === undefined).length;
  if (missing < 0 || open > 2) return undefined;
  let found: (number | undefined)[][] = [cuts];
  for (let n = 0; n < missing; n++)
    found = found.flatMap((list) =>
      Array.from({ length: list.length + 1 }, (_, at) => [
        ...list.slice(0, at),
        undefined,
        ...list.slice(at),
      ]),
    );
  const bittings = new Map<string, Bitting>();
  for (const pattern of found)
    for (const indices of filled(pattern, spec.depths.length)) {
      bittings.set(indices.join(), bittingOf(spec, indices));
      if (bittings.size > MOST) return undefined;
    }
  return [...bittings.values()];
}

/** A pattern with every depth in its open places. */
function filled(pattern: readonly (number | undefined)[], depths: number): number[][] {
  let lists: number[][] = [[]];
  for (const cut of pattern)
    lists = lists.flatMap((list) =>
      cut === undefined ? Array.from({ length: depths }, (_, d) => [...list, d]) : [[...list, cut]],
    );
  return lists;
}

/**
 * What an unread key means for a change of the cylinders numbered in `changing`. `lost` is the symbol of the lost key.
 * @example doubtOf(system, marks, { lost: 'AB', changing }, { symbol: 'SKD4', code: '27413' }).kind → 'limited'
 */
export function doubtOf(
  system: KeySystem,
  marks: readonly Mark[],
  change: { readonly lost: string; readonly changing: readonly number[] },
  { symbol, code, level, status, keyway }: UnreadKey,
): Doubt {
  if (status === 'free') return { kind: 'unrelated' };
  const { spec, keys, cylinders, enters } = system;
  const name = foldSymbol(symbol);
  const live = status === undefined || status === 'issued' || status === 'reserved';
  const changing = new Set(change.changing);
  if (live) {
    if (name === foldSymbol(change.lost)) return { kind: 'bars', why: 'lost' };
    if (name === '' || keys.some((key) => isInUse(key) && foldSymbol(key.parent ?? '') === name))
      return { kind: 'bars', why: 'above' };
    const ids = new Set([...changing].map((c) => foldSymbol(cylinders[c]!.id)));
    const hierarchy = intendedByHierarchy([...keys, { symbol, status: 'issued' }], cylinders);
    if (
      marks.some((mark) => foldSymbol(mark.key) === name && ids.has(foldSymbol(mark.cylinder))) ||
      [...changing].some((c) => hierarchy[c]!.includes(keys.length)) ||
      (level === 'control' && [...changing].some((c) => cylinders[c]!.control))
    )
      return { kind: 'bars', why: 'meant' };
  }
  if (![...changing].some((c) => entersKeyway(enters, keyway, cylinders[c]!.keyway)))
    return { kind: 'unrelated' };
  const bittings = possibleBittings(spec, code);
  return bittings
    ? { kind: 'limited', key: { symbol, bittings, ...(keyway !== undefined && { keyway }) } }
    : { kind: 'bars', why: 'anything' };
}

/** Why a row has to be mended before the change, to be said behind what is wrong with it. */
export function sayDoubt({ why }: Extract<Doubt, { kind: 'bars' }>): string {
  switch (why) {
    case 'above':
      return 'Other keys stand under it, so none can be changed until it can be read.';
    case 'lost':
      return 'It has the symbol of the lost key, so what was lost isn’t certain.';
    case 'meant':
      return 'It is meant for a door that changes, which can’t be pinned for it until it can be read.';
    case 'anything':
      return 'It could be any bitting, so a new one might open its door, or it a new one.';
  }
}

/** The bittings of doubtful keys as keys that nobody may have or open anything with. */
export const recordsOf = (doubtful: readonly DoubtfulKey[]): KeyRecord[] =>
  doubtful.flatMap(({ symbol, keyway, bittings }) =>
    bittings.map((bitting) => ({
      symbol,
      level: 'single' as const,
      status: 'void' as const,
      bitting,
      ...(keyway !== undefined && { keyway }),
    })),
  );
