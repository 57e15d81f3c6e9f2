/**
 * What a supplier orders from: cylinders by type, length, cam or tailpiece, finish and keyset; keys by symbol; and the
 * text to stamp. A stamp shows the symbol and a copy number, never a bitting: whoever reads it could cut the key.
 * A plain group-by; texts that differ only in blanks or case are one group, written as they first stand.
 */
import type { ScheduleKey } from './scheduleCheck.ts';
import type { ScheduleLine } from './scheduleRead.ts';
import { levelsOfSymbols, symbolKey, tidySymbol } from './scheduleSymbol.ts';
import { sortKeySymbols } from './symbol.ts';

/** By what cylinders are told apart in an order, besides their keyset. */
export const ORDER_ROLES = ['type', 'length', 'cam', 'finish'] as const;
export type OrderRole = (typeof ORDER_ROLES)[number];

export interface CylinderTotal {
  readonly text: Readonly<Record<OrderRole, string>>;
  /** '' = not keyed yet. */
  readonly symbol: string;
  readonly quantity: number;
  readonly doors: readonly string[];
}

export interface KeyTotal {
  readonly symbol: string;
  readonly level?: ScheduleKey['level'];
  /** Left out where neither the sheet Keys nor the schedule says how many. */
  readonly copies?: number;
  readonly from?: 'Keys' | 'schedule';
}

export interface ScheduleTotals {
  readonly cylinders: readonly CylinderTotal[];
  readonly keys: readonly KeyTotal[];
  readonly cylinderCount: number;
  readonly keyCount: number;
}

const fold = (text: string): string => text.normalize('NFKC').toLowerCase().replace(/\s+/g, ' ');

/** @example scheduleTotals(lines, keys).cylinders[0] → { text: { type: 'rim', … }, symbol: 'AA1', quantity: 2, … } */
export function scheduleTotals(lines: readonly ScheduleLine[], keys: readonly ScheduleKey[]): ScheduleTotals {
  const levels = levelsOfSymbols((keys.length > 0 ? keys : lines).map((k) => k.symbol));
  const options = { levels };
  const spelt = new Map(keys.map((key) => [symbolKey(key.symbol, options), key.symbol.trim()] as const));
  const keysetOf = (line: ScheduleLine): string =>
    (tidySymbol(line.symbol, options, spelt)?.to ?? line.symbol).trim();
  const cylinders = cylinderTotals(lines, keysetOf);
  const totals = keyTotals(lines, keys, (symbol) => symbolKey(symbol, options));
  return {
    cylinders: inOrder(cylinders, options),
    keys: totals,
    cylinderCount: cylinders.reduce((sum, c) => sum + c.quantity, 0),
    keyCount: totals.reduce((sum, k) => sum + (k.copies ?? 0), 0),
  };
}

type Counting = { -readonly [K in keyof CylinderTotal]: CylinderTotal[K] } & { doors: string[] };

function cylinderTotals(
  lines: readonly ScheduleLine[],
  keysetOf: (line: ScheduleLine) => string,
): CylinderTotal[] {
  const groups = new Map<string, Counting>();
  for (const line of lines) {
    if (line.quantity === 0) continue;
    const symbol = keysetOf(line);
    const text = Object.fromEntries(ORDER_ROLES.map((role) => [role, line.text[role] ?? ''])) as Record<
      OrderRole,
      string
    >;
    const id = [...ORDER_ROLES.map((role) => text[role]), symbol].map(fold).join('\n');
    const group = groups.get(id);
    if (group) {
      group.quantity += line.quantity;
      group.doors.push(line.door);
    } else groups.set(id, { text, symbol, quantity: line.quantity, doors: [line.door] });
  }
  return [...groups.values()];
}

/** By type, length, cam and finish, then keyset in its natural order. */
function inOrder(
  totals: readonly CylinderTotal[],
  options: Parameters<typeof sortKeySymbols>[1],
): CylinderTotal[] {
  const place = new Map(
    sortKeySymbols([...new Set(totals.map((t) => t.symbol))], options).map(
      (symbol, i) => [symbol, i] as const,
    ),
  );
  const compare = new Intl.Collator('en', { numeric: true }).compare;
  return [...totals].sort((a, b) => {
    for (const role of ORDER_ROLES) {
      const by = compare(a.text[role], b.text[role]);
      if (by !== 0) return by;
    }
    return place.get(a.symbol)! - place.get(b.symbol)!;
  });
}

function keyTotals(
  lines: readonly ScheduleLine[],
  keys: readonly ScheduleKey[],
  idOf: (symbol: string) => string,
): KeyTotal[] {
  const asked = new Map<string, { symbol: string; keys?: number }>();
  for (const line of lines) {
    if (line.symbol.trim() === '') continue;
    const id = idOf(line.symbol);
    const known = asked.get(id) ?? { symbol: line.symbol.trim() };
    asked.set(id, line.keys === undefined ? known : { ...known, keys: (known.keys ?? 0) + line.keys });
  }
  const totals = new Map<string, KeyTotal>();
  for (const { symbol, level, status, copies } of keys) {
    if (status === 'void' || status === 'retired' || status === 'free') continue;
    const id = idOf(symbol);
    if (totals.has(id)) continue;
    const wanted = asked.get(id)?.keys;
    // a spare is not cut until a door needs it
    if (status === 'reserved' && !asked.has(id) && level === 'CK') continue;
    totals.set(id, {
      symbol: symbol.trim(),
      ...(level && { level }),
      ...(copies !== undefined
        ? { copies, from: 'Keys' as const }
        : wanted !== undefined && { copies: wanted, from: 'schedule' as const }),
    });
  }
  for (const [id, { symbol, keys: wanted }] of asked)
    if (!totals.has(id) && (keys.length === 0 || wanted !== undefined))
      totals.set(id, { symbol, ...(wanted !== undefined && { copies: wanted, from: 'schedule' as const }) });
  const order = new Map(
    sortKeySymbols([...totals.values()].map((t) => t.symbol)).map((s, i) => [s, i] as const),
  );
  return [...totals.values()].sort((a, b) => order.get(a.symbol)! - order.get(b.symbol)!);
}

export interface StampLine {
  readonly symbol: string;
  /** On the bow: symbol and copy number, one text a key. Without a number of copies: the symbol. */
  readonly stamps: readonly string[];
}

export interface StampOptions {
  /** Number copies from this one on; 1 where nothing was cut yet. */
  readonly firstCopy?: number;
  /** A word of the shop's before it, such as the customer's short name. */
  readonly before?: string;
}

/** @example stampingOf([{ symbol: 'AA1', copies: 2 }]) → [{ symbol: 'AA1', stamps: ['AA1-1', 'AA1-2'] }] */
export function stampingOf(keys: readonly KeyTotal[], options: StampOptions = {}): StampLine[] {
  const { firstCopy = 1, before = '' } = options;
  return keys.map(({ symbol, copies }) => {
    const text = `${before} ${symbol}`.trim();
    const stamps =
      copies === undefined ? [text] : Array.from({ length: copies }, (_, i) => `${text}-${firstCopy + i}`);
    return { symbol, stamps };
  });
}
