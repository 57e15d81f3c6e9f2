/**
 * Key inventory: what was counted at one place, a holder's or the cabinet's, against what the ledger says is there.
 * It serves the published control for physical access devices: they are inventoried at an interval that the
 * organization sets (NIST SP 800-53 Rev. 5, PE-3 f); where one is missing its keys are changed (PE-3 g).
 */
import { copyId } from './ledger.ts';
import type { CopyState, LedgerState } from './ledgerReplay.ts';
import type { WantedKey } from './keyList.ts';
import { foldName } from './specTable.ts';

export const INVENTORY_CONTROL =
  'NIST SP 800-53 Rev. 5, PE-3: keys are inventoried at a set interval, and changed when they are lost or when their holders are transferred or leave';

/** Where keys are counted: in one holder's hands, on one hook, or all that are in the cabinet. */
export type CountPlace =
  | { readonly kind: 'holder'; readonly holder: string }
  | { readonly kind: 'hook'; readonly hook: string }
  | { readonly kind: 'stock' };

/** Copies that the ledger expects at a place. */
export function expectedAt({ copies }: LedgerState, place: CountPlace): CopyState[] {
  return copies.filter((c) => {
    switch (place.kind) {
      case 'holder':
        return c.where === 'held' && foldName(c.holder ?? '') === foldName(place.holder);
      case 'hook':
        return c.where === 'stock' && foldName(c.hook ?? '') === foldName(place.hook);
      case 'stock':
        return c.where === 'stock';
    }
  });
}

/** Hooks that a key hangs on by the ledger, in order. */
export const hooksOf = ({ copies }: LedgerState): string[] =>
  [...new Set(copies.flatMap((c) => (c.where === 'stock' && c.hook ? [c.hook] : [])))].sort((a, b) =>
    a.localeCompare(b, 'en', { numeric: true }),
  );

export type CountDifference =
  /** Expected, and not counted. */
  | { readonly kind: 'missing'; readonly copy: CopyState }
  /** Counted, though the ledger has it elsewhere. */
  | { readonly kind: 'elsewhere'; readonly copy: CopyState }
  | { readonly kind: 'unknown'; readonly symbol: string; readonly copyNumber: number }
  | { readonly kind: 'twice'; readonly symbol: string; readonly copyNumber: number }
  /** Counted without a copy number, and no copy of it is expected or left to match. */
  | { readonly kind: 'unnumbered'; readonly symbol: string };

export interface CountResult {
  readonly expected: number;
  readonly found: number;
  readonly differences: readonly CountDifference[];
}

/**
 * Compares a count with the ledger. A key counted without its copy number stands for the next expected copy of its
 * symbol. With several systems `system` says which one the symbols are of.
 */
export function compareCount(
  state: LedgerState,
  system: string,
  place: CountPlace,
  counted: readonly WantedKey[],
): CountResult {
  const ofSystem = (c: CopyState): boolean => foldName(c.system) === foldName(system);
  const expected = expectedAt(state, place).filter(ofSystem);
  const left = new Map(expected.map((c) => [copyId(c.system, c.symbol, c.copy), c]));
  const all = new Map(state.copies.filter(ofSystem).map((c) => [copyId(c.system, c.symbol, c.copy), c]));
  const seen = new Set<string>();
  const differences: CountDifference[] = [];
  let found = 0;
  for (const { symbol, copy } of counted) {
    if (copy === undefined) continue;
    const id = copyId(system, symbol, copy);
    const known = all.get(id);
    if (seen.has(id)) differences.push({ kind: 'twice', symbol, copyNumber: copy });
    else if (left.delete(id)) found++;
    else if (known) differences.push({ kind: 'elsewhere', copy: known });
    else differences.push({ kind: 'unknown', symbol, copyNumber: copy });
    seen.add(id);
  }
  for (const { symbol, copy, count } of counted) {
    if (copy !== undefined) continue;
    for (let n = 0; n < count; n++) {
      const next = [...left].find(([, c]) => foldName(c.symbol) === foldName(symbol));
      if (next) {
        left.delete(next[0]);
        found++;
      } else differences.push({ kind: 'unnumbered', symbol });
    }
  }
  return {
    expected: expected.length,
    found,
    differences: [...[...left.values()].map((copy) => ({ kind: 'missing' as const, copy })), ...differences],
  };
}

/** Where a copy is by the ledger, in words. */
export function whereIs({ where, holder, hook }: CopyState): string {
  switch (where) {
    case 'stock':
      return hook ? `in the cabinet, hook ${hook}` : 'in the cabinet';
    case 'held':
      return holder ? `with ${holder}` : 'in somebody’s hands';
    case 'lost':
      return holder ? `lost by ${holder}` : 'lost';
    case 'destroyed':
      return 'destroyed';
  }
}

/** A difference as a sentence with what to do. */
export function sayDifference(difference: CountDifference): string {
  switch (difference.kind) {
    case 'missing':
      return `${difference.copy.symbol} / ${difference.copy.copy} is missing: by the ledger it is ${whereIs(difference.copy)}. Search for it; if it stays away, record it as lost.`;
    case 'elsewhere':
      return `${difference.copy.symbol} / ${difference.copy.copy} was counted here, but by the ledger it is ${whereIs(difference.copy)}. Record how it came here.`;
    case 'unknown':
      return `${difference.symbol} / ${difference.copyNumber} was counted, but no such copy is known. Check the stamping; if it is real, somebody cut it.`;
    case 'twice':
      return `${difference.symbol} / ${difference.copyNumber} was counted twice. Two keys of one number mean that one of them is a copy nobody recorded.`;
    case 'unnumbered':
      return `One more ${difference.symbol} was counted than the ledger has here. Read its copy number.`;
  }
}
