/**
 * The ledger of keys in hand: dated rows, each one event of one copy of a key. Nothing in it is edited away: a
 * mistake is corrected by a further row that names the row it stands for. What holds on any date follows from the
 * rows alone (`ledgerReplay.ts`).
 *
 * A row has what a published key register asks for: key, date and time, who gave and who took, and the same for the
 * return (US Army correspondence course MP1001, The Physical Security Plan, p. 3-2).
 */
import type { Day } from './calendar.ts';
import { foldName } from './specTable.ts';
import type { KeyRecord, Status } from './system.ts';

export const LEDGER_EVENTS = [
  'issued',
  'returned',
  'transferred',
  'lost',
  'found',
  'destroyed',
  'struck',
] as const;
/** `struck` takes back the row that it corrects and puts nothing in its place. */
export type LedgerEvent = (typeof LEDGER_EVENTS)[number];

export const SIGNATURES = ['required', 'signed'] as const;
export type Signature = (typeof SIGNATURES)[number];

export interface LedgerEntry {
  /** Running number, by which a later row can correct this one. */
  readonly number?: number;
  readonly day: Day;
  readonly minutes?: number;
  readonly event: LedgerEvent;
  readonly system: string;
  readonly symbol: string;
  /** From 1. */
  readonly copy: number;
  /** Who has the key after the event; for a return or a loss, who had it. */
  readonly holder?: string;
  readonly due?: Day;
  readonly givenBy?: string;
  readonly takenBy?: string;
  readonly signature?: Signature;
  /** Cabinet hook on which a returned or found key hangs. */
  readonly hook?: string;
  readonly corrects?: number;
}

/** One row of the list of keys. A symbol may have several: bittings that were retired, then the one in use. */
export interface LedgerKey {
  readonly system: string;
  readonly symbol: string;
  readonly level: KeyRecord['level'];
  readonly status: Status;
  /** Copies cut; unknown when left out. */
  readonly copies?: number;
}

export interface Holder {
  readonly name: string;
  readonly department?: string;
  readonly contact?: string;
  /** Last day of the person, tenant or firm here. */
  readonly left?: Day;
}

/** One name for a key of a system. */
export const keyId = (system: string, symbol: string): string =>
  `${foldName(system)}\u0000${foldName(symbol)}`;

/** One name for a copy. */
export const copyId = (system: string, symbol: string, copy: number): string =>
  `${keyId(system, symbol)}\u0000${copy}`;

/** How a copy is stamped and spoken of: symbol and copy, never a bitting. @example copyName('AA1', 2) → 'AA1 / 2' */
export const copyName = (symbol: string, copy: number): string => `${symbol} / ${copy}`;

/** A bitting that is no longer to be used, though keys cut to it may still be about. */
export const isRetired = ({ status }: Pick<LedgerKey, 'status'>): boolean =>
  status === 'retired' || status === 'void';

/** Levels above the change key, and control keys: the loss of one concerns many doors. */
export const isMasterLevel = ({ level }: Pick<LedgerKey, 'level'>): boolean =>
  level !== 'CK' && level !== 'single';

/** A row whose keys were cut: spares and free bittings have none yet. */
const isCut = ({ status }: LedgerKey): boolean =>
  status === 'issued' || status === 'retired' || status === 'void';

/** The rows of one symbol and how many copies are known of. */
export interface KeyCopies {
  /** Indices of the rows, retired ones first, since copy numbers run on from one bitting to the next. */
  readonly rows: readonly number[];
  /** Copies cut of all rows; undefined where a row doesn't say. */
  readonly cut: number | undefined;
  /** Index of the row that a copy was cut to. */
  readonly rowOf: (copy: number) => number | undefined;
}

/** The keys by `keyId`. Copy numbers of a symbol run on over its rows: 1–3 of the old bitting, 4–6 of the new. */
export function copiesByKey(keys: readonly LedgerKey[]): ReadonlyMap<string, KeyCopies> {
  const groups = new Map<string, number[]>();
  keys.forEach(({ system, symbol }, k) => {
    const id = keyId(system, symbol);
    const group = groups.get(id);
    if (group) group.push(k);
    else groups.set(id, [k]);
  });
  return new Map(
    [...groups].map(([id, group]) => {
      const rows = group
        .filter((k) => keys[k]!.status !== 'free')
        .sort((a, b) => Number(!isRetired(keys[a]!)) - Number(!isRetired(keys[b]!)));
      const cut = rows.filter((k) => isCut(keys[k]!));
      const unknown = cut.some((k) => keys[k]!.copies === undefined);
      const total = cut.reduce((sum, k) => sum + (keys[k]!.copies ?? 0), 0);
      return [
        id,
        { rows, cut: unknown || cut.length === 0 ? undefined : total, rowOf: rowFinder(keys, rows) },
      ];
    }),
  );
}

function rowFinder(keys: readonly LedgerKey[], rows: readonly number[]): KeyCopies['rowOf'] {
  return (copy) => {
    let last = 0;
    for (const k of rows) {
      last += keys[k]!.copies ?? Infinity;
      if (copy <= last) return k;
    }
    return rows.at(-1);
  };
}
