/**
 * What key symbols mean to one another: level, parent, successor, order, and the names of a new hierarchy. How they
 * are written is in `symbolText.ts`, with the source of the coding.
 */
import {
  AVOIDED,
  formatKeySymbol,
  formatPlace,
  mostLetters,
  parseKeySymbol,
  RESERVED,
  type HierarchySymbol,
  type KeySymbol,
  type SymbolOptions,
  type SystemLevels,
} from './symbolText.ts';
import { LEVELS, type Level } from './system.ts';

export { formatKeySymbol, parseKeySymbol };
export type { HierarchySymbol, KeySymbol, SymbolOptions, SystemLevels };
export type { SymbolFault, SymbolNote } from './symbolText.ts';

/**
 * Level of a symbol in the hierarchy of a system.
 * @example levelOfSymbol('AA', { levels: 3 }) → 'MK'; levelOfSymbol('X1X') → undefined
 */
export function levelOfSymbol(text: string, options: SymbolOptions = {}): Level | undefined {
  const parsed = parseKeySymbol(text, options);
  if (!parsed.ok) return undefined;
  const symbol = parsed.value;
  const levels = options.levels ?? 3;
  if (symbol.kind === 'top') return symbol.text.startsWith('GGG') ? undefined : 'GGMK';
  const place = placeOf(symbol);
  if (!place) return undefined;
  return place.number !== undefined ? 'CK' : LEVELS[1 + mostLetters(levels) - place.letters.length];
}

const placeOf = (symbol: KeySymbol): HierarchySymbol | undefined =>
  symbol.kind === 'hierarchy' ? symbol : symbol.kind === 'cross-keyed' ? symbol.own : undefined;

/**
 * Symbol of the key above, or undefined at the top and outside the hierarchy.
 * @example parentSymbol('AA1') → 'AA'; parentSymbol('AA', { levels: 2 }) → undefined; parentSymbol('A', { levels: 4 }) → 'GGMK'
 */
export function parentSymbol(text: string, options: SymbolOptions = {}): string | undefined {
  const parsed = parseKeySymbol(text, options);
  const place = parsed.ok ? placeOf(parsed.value) : undefined;
  const levels = options.levels ?? 3;
  if (!place || place.notMasterKeyed) return undefined;
  const { letters, series } = place;
  if (place.number !== undefined)
    return formatPlace({ kind: 'hierarchy', letters, series, numberFirst: false });
  if (levels === 2) return undefined;
  if (letters.length > 1) return letters.slice(0, -1);
  return levels >= 4 ? topSymbol(levels) : undefined;
}

/** Symbol of the top master. @example topSymbol(2) → 'AA'; topSymbol(3) → 'A'; topSymbol(4) → 'GGMK' */
export function topSymbol(levels: SystemLevels): string {
  return levels === 2 ? 'AA' : levels === 3 ? 'A' : levels === 4 ? 'GGMK' : 'GGGMK';
}

const lettersWithout = (avoid: string): string[] =>
  [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'].filter((letter) => !avoid.includes(letter));

/** The n-th grand master (from 0), or undefined when the letters are used up. @example grandSymbol(8) → 'J' */
export function grandSymbol(n: number, avoid: string = AVOIDED): string | undefined {
  return lettersWithout(avoid + RESERVED)[n];
}

/**
 * The n-th master (from 0) under a grand. Grand K has no master KA, since KA1 is a group keyed alike.
 * @example masterSymbol('A', 1) → 'AB'; masterSymbol('A', 24) → 'A2A'; masterSymbol('K', 0) → 'KB'
 */
export function masterSymbol(grand: string, n: number, avoid: string = AVOIDED): string {
  const letters = lettersWithout(avoid);
  const place = grand === 'K' ? n + 1 : n;
  const series = Math.floor(place / letters.length) + 1;
  return `${grand}${series === 1 ? '' : series}${letters[place % letters.length]}`;
}

/** The n-th change key (from 1) under a master. @example changeSymbol('AA', 3) → 'AA3'; with 2 levels '3AA' */
export function changeSymbol(master: string, n: number, levels: SystemLevels = 3): string {
  return levels === 2 ? `${n}${master}` : `${master}${n}`;
}

/**
 * The symbol that follows: the next change key, master or grand master, or the next number of SKD, KA, CTR, X1X and
 * of a shop's own that ends in one. Undefined where nothing follows.
 * @example nextSymbol('AA9') → 'AA10'; nextSymbol('AZ') → 'A2A'; nextSymbol('H') → 'J'
 */
export function nextSymbol(text: string, options: SymbolOptions = {}): string | undefined {
  const parsed = parseKeySymbol(text, options);
  if (!parsed.ok) return undefined;
  const symbol = parsed.value;
  switch (symbol.kind) {
    case 'hierarchy':
      return nextPlace(symbol, options);
    case 'own': {
      const match = /^(.*?)(\d{1,9})$/.exec(symbol.text);
      return match ? match[1]! + String(Number(match[2]) + 1).padStart(match[2]!.length, '0') : undefined;
    }
    case 'single-keyed':
    case 'control':
    case 'cross-keyed-only':
      return formatKeySymbol({ ...symbol, number: (symbol.number ?? 0) + 1 });
    case 'keyed-alike':
      return symbol.number === undefined
        ? undefined
        : formatKeySymbol({ ...symbol, number: symbol.number + 1 });
    case 'top':
    case 'cross-keyed':
      return undefined;
  }
}

function nextPlace(symbol: HierarchySymbol, { avoid = AVOIDED }: SymbolOptions): string | undefined {
  const { letters, series, numberFirst, number } = symbol;
  const kind = 'hierarchy';
  if (number !== undefined) return formatPlace({ kind, letters, series, numberFirst, number: number + 1 });
  const head = letters.slice(0, -1);
  const allowed = lettersWithout(head === '' ? avoid + RESERVED : avoid);
  const following = allowed.find((letter) => letter > letters.at(-1)!);
  if (following !== undefined) return formatPlace({ kind, letters: head + following, series, numberFirst });
  if (head === '') return undefined;
  return formatPlace({ kind, letters: head + allowed[0], series: series + 1, numberFirst });
}

type OrderKey = readonly (string | number)[];

/** Sorting places: the top, then the hierarchy with each grand before its masters and each master before its keys. */
function orderKey(text: string, options: SymbolOptions): OrderKey {
  const parsed = parseKeySymbol(text, options);
  if (!parsed.ok) return [9];
  const symbol = parsed.value;
  const place = placeOf(symbol);
  if (place) {
    const head = place.letters.slice(0, -1);
    const last = place.letters.slice(-1);
    const within = head === '' ? [last, 0, ''] : [head, place.series, last];
    return [1, ...within, place.number ?? 0, symbol.kind === 'hierarchy' ? 0 : 1];
  }
  switch (symbol.kind) {
    case 'top':
      return [0];
    case 'cross-keyed-only':
      return [2, symbol.number];
    case 'keyed-alike':
      return [3, symbol.number ?? 0, symbol.quantity ?? 0];
    case 'single-keyed':
      return [4, symbol.number ?? 0];
    case 'control':
      return [5, symbol.number ?? 0];
    default:
      return [
        6,
        ...text
          .trim()
          .toUpperCase()
          .split(/(\d+)/)
          .map((part, i) => (i % 2 === 1 ? Number(part) : part)),
      ];
  }
}

function compareKeys(a: OrderKey, b: OrderKey): number {
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    const left = a[i]!;
    const right = b[i]!;
    if (left === right) continue;
    if (typeof left === 'number' && typeof right === 'number') return left - right;
    return String(left) < String(right) ? -1 : 1;
  }
  return a.length - b.length;
}

/**
 * Natural order of symbols: `GGMK` < `A` < `AA` < `AA2` < `XAA2` < `AA10` < `AB` < `A2A` < `B` < `X1X` < `KA1` < `SKD1` < `CTR`,
 * the shop's own last.
 */
export function compareKeySymbols(a: string, b: string, options: SymbolOptions = {}): number {
  return compareKeys(orderKey(a, options), orderKey(b, options)) || (a < b ? -1 : a > b ? 1 : 0);
}

/** A sorted copy; each symbol is read once. @example sortKeySymbols(['AA10', 'AA2']) → ['AA2', 'AA10'] */
export function sortKeySymbols(symbols: readonly string[], options: SymbolOptions = {}): string[] {
  return symbols
    .map((text) => ({ text, key: orderKey(text, options) }))
    .sort((a, b) => compareKeys(a.key, b.key) || (a.text < b.text ? -1 : a.text > b.text ? 1 : 0))
    .map(({ text }) => text);
}
