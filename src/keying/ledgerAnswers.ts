/** The everyday questions to a ledger as it stands on a day. */
import type { Day } from './calendar.ts';
import { isMasterLevel, isRetired, keyId, type Holder, type LedgerKey } from './ledger.ts';
import type { CopyState, LedgerState } from './ledgerReplay.ts';
import { foldName } from './specTable.ts';

/** Copies in somebody's hands. */
export const inHands = ({ copies }: LedgerState): CopyState[] => copies.filter((c) => c.where === 'held');

/** Copies that one holder has. */
export const heldBy = (state: LedgerState, holder: string): CopyState[] =>
  inHands(state).filter((c) => foldName(c.holder ?? '') === foldName(holder));

/** Copies due back before the day, longest overdue first. A key due today is not overdue yet. */
export const overdue = (state: LedgerState): (CopyState & { readonly due: Day })[] =>
  inHands(state)
    .filter((c): c is CopyState & { readonly due: Day } => c.due !== undefined && c.due < state.asOf)
    .sort((a, b) => a.due - b.due);

/** Copies in the hands of people whose last day is past, or is this day. */
export function keysOfLeavers(
  state: LedgerState,
  holders: readonly Holder[],
): (CopyState & { readonly left: Day })[] {
  const left = new Map(
    holders.flatMap((h) => (h.left === undefined ? [] : [[foldName(h.name), h.left] as const])),
  );
  return inHands(state).flatMap((c) => {
    const day = left.get(foldName(c.holder ?? ''));
    return day !== undefined && day <= state.asOf ? [{ ...c, left: day }] : [];
  });
}

/** Masters and control keys that aren't in stock: in hands or lost. */
export const mastersOut = (state: LedgerState, keys: readonly LedgerKey[]): CopyState[] =>
  state.copies.filter(
    (c) => c.key !== undefined && isMasterLevel(keys[c.key]!) && (c.where === 'held' || c.where === 'lost'),
  );

/** Copies that are lost, or in hands without a name: nobody can say where they are. */
export const unaccounted = ({ copies }: LedgerState): CopyState[] =>
  copies.filter((c) => c.where === 'lost' || (c.where === 'held' && (c.holder ?? '') === ''));

/** Copies of retired bittings that were not destroyed yet: to be called back. */
export const retiredAbout = (state: LedgerState, keys: readonly LedgerKey[]): CopyState[] =>
  state.copies.filter((c) => c.where === 'held' && c.key !== undefined && isRetired(keys[c.key]!));

export interface KeyAccount {
  readonly system: string;
  readonly symbol: string;
  /** Copies known of: `stock + held + lost + destroyed`. */
  readonly copies: number;
  readonly stock: number;
  readonly held: number;
  readonly lost: number;
  readonly destroyed: number;
}

/** Copies in stock against those given out, a row a symbol, in the order of the copies. */
export function accounts({ copies }: LedgerState): KeyAccount[] {
  const found = new Map<string, { -readonly [K in keyof KeyAccount]: KeyAccount[K] }>();
  for (const { system, symbol, where } of copies) {
    const id = keyId(system, symbol);
    let account = found.get(id);
    if (!account) {
      account = { system, symbol, copies: 0, stock: 0, held: 0, lost: 0, destroyed: 0 };
      found.set(id, account);
    }
    account.copies++;
    account[where]++;
  }
  return [...found.values()];
}
