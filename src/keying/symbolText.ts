/**
 * Key symbols by the published key coding (ANSI/BHMA A156.28 and the trade's level tables: its rules, not its
 * wording). The first letter names the grand master, the second the master, the number the change key; in systems of
 * two levels the number comes first. I and O are avoided, X is kept for cross-keying; when the letters of one grand
 * are used up a series number goes between them: A2A, A2B …
 *
 * | levels | symbols, top to bottom |
 * | --- | --- |
 * | 2 | AA, 1AA |
 * | 3 | A, AA, AA1 |
 * | 4 | GGMK (also printed GGM), A, AA, AA1 |
 * | 5 | GGGMK, A, AA, AAA, AAA1 |
 * | 6 | GGGMK, A, AA, AAA, AAAA, AAAA1 |
 *
 * A shop's own symbols are accepted, reported as `own` and never rewritten.
 */
import { err, ok, type Result } from './result.ts';

export type SystemLevels = 2 | 3 | 4 | 5 | 6;

/** A place in the hierarchy. `AA1` → letters `AA`, number 1; `A2A` → letters `AA`, series 2. */
export interface HierarchySymbol {
  readonly kind: 'hierarchy';
  readonly letters: string;
  /** 1 where nothing is written between the letters. */
  readonly series: number;
  /** Number of the change key; none for masters. */
  readonly number?: number;
  readonly numberFirst: boolean;
  /** `(NMK)`: no master operates this cylinder. */
  readonly notMasterKeyed?: true;
  /** `(ENG)`: a selective key that operates it besides. */
  readonly selective?: string;
}

export type KeySymbol = (
  | HierarchySymbol
  /** The top of four levels and more, as printed. */
  | { readonly kind: 'top'; readonly text: 'GGMK' | 'GGM' | 'GGGMK' | 'GGGM' }
  | { readonly kind: 'single-keyed'; readonly number?: number }
  | { readonly kind: 'control'; readonly number?: number }
  /** `KA1` is a group; `KA/2` a quantity keyed alike. */
  | { readonly kind: 'keyed-alike'; readonly number?: number; readonly quantity?: number }
  /** `XAA3`: cross-keyed and keeps its own change key. `operatedBy` where it is written behind it. */
  | {
      readonly kind: 'cross-keyed';
      readonly own: HierarchySymbol;
      readonly operatedBy?: readonly string[];
    }
  /** `X1X`: cross-keyed with no change key of its own. */
  | {
      readonly kind: 'cross-keyed-only';
      readonly number: number;
      readonly operatedBy?: readonly string[];
    }
  /** A shop's own symbol, kept as written. */
  | { readonly kind: 'own'; readonly text: string }
) & { readonly notes?: readonly SymbolNote[] };

/** What the coding would rather not see in an otherwise good symbol. */
export type SymbolNote =
  | { readonly code: 'avoided-letter'; readonly symbol: string; readonly letter: string }
  | { readonly code: 'reserved-letter'; readonly symbol: string; readonly letter: string };

export type SymbolFault =
  | { readonly code: 'symbol-empty' }
  | { readonly code: 'symbol-too-long'; readonly length: number; readonly most: number };

export interface SymbolOptions {
  /** Levels of the system; 3 where it isn't known. */
  readonly levels?: SystemLevels;
  /** Letters never used; I and O (some sources also Q). */
  readonly avoid?: string;
}

const MOST_CHARACTERS = 60;
/** Letters avoided by all sources. */
export const AVOIDED = 'IO';
/** Kept for cross-keying, never a grand master. */
export const RESERVED = 'X';

/**
 * Reads a key symbol. Letters in either case; anything outside the coding is the shop's `own`.
 * @example parseKeySymbol('aa10') → ok({ kind: 'hierarchy', letters: 'AA', series: 1, number: 10, numberFirst: false })
 */
export function parseKeySymbol(text: string, options: SymbolOptions = {}): Result<KeySymbol, SymbolFault> {
  const trimmed = text.trim();
  if (trimmed === '') return err({ code: 'symbol-empty' });
  if (trimmed.length > MOST_CHARACTERS)
    return err({ code: 'symbol-too-long', length: trimmed.length, most: MOST_CHARACTERS });
  return ok(readCoded(trimmed, options) ?? { kind: 'own', text: trimmed });
}

function readCoded(text: string, options: SymbolOptions): KeySymbol | undefined {
  const match = /^([0-9A-Za-z/]+)(?:\s*\((.+)\))?$/.exec(text);
  if (!match) return undefined;
  const main = match[1]!.toUpperCase();
  const aside = match[2]?.trim();
  const cross = readCrossKeyed(main, aside, options);
  if (cross) return cross;
  if (aside === undefined) {
    const special = readSpecial(main);
    if (special) return special;
  }
  const place = readHierarchy(main, options);
  if (!place || (aside !== undefined && !/^[A-Za-z]{2,6}$/.test(aside))) return undefined;
  const marked: HierarchySymbol =
    aside === undefined
      ? place
      : aside.toUpperCase() === 'NMK'
        ? { ...place, notMasterKeyed: true }
        : { ...place, selective: aside.toUpperCase() };
  return withNotes(marked, main, options);
}

function readSpecial(main: string): KeySymbol | undefined {
  if (main === 'GGMK' || main === 'GGM' || main === 'GGGMK' || main === 'GGGM')
    return { kind: 'top', text: main };
  const numbered = /^(SKD|CTR|KA)([1-9]\d{0,5})?$/.exec(main);
  if (numbered) {
    const kind = numbered[1] === 'SKD' ? 'single-keyed' : numbered[1] === 'CTR' ? 'control' : 'keyed-alike';
    return numbered[2] === undefined
      ? kind === 'keyed-alike'
        ? undefined
        : { kind }
      : { kind, number: Number(numbered[2]) };
  }
  const alike = /^KA\/([1-9]\d{0,5})$/.exec(main);
  return alike ? { kind: 'keyed-alike', quantity: Number(alike[1]) } : undefined;
}

function readCrossKeyed(
  main: string,
  aside: string | undefined,
  options: SymbolOptions,
): KeySymbol | undefined {
  const operatedBy = aside === undefined ? undefined : readOperatedBy(aside);
  if (aside !== undefined && operatedBy === undefined) return undefined;
  const by = operatedBy === undefined ? {} : { operatedBy };
  const only = /^X([1-9]\d{0,5})X$/.exec(main);
  if (only) return { kind: 'cross-keyed-only', number: Number(only[1]), ...by };
  if (!main.startsWith(RESERVED)) return undefined;
  const own = readHierarchy(main.slice(1), options);
  return own?.number === undefined ? undefined : { kind: 'cross-keyed', own, ...by };
}

/** `operated by AA1, AA2, AA and A` → the four symbols. */
function readOperatedBy(aside: string): string[] | undefined {
  const match = /^(?:operated|opr?\.?)\s+by\s+(.+)$/i.exec(aside);
  return match?.[1]!.split(/\s*,\s*|\s+and\s+|\s*&\s*/i).filter((s) => s !== '');
}

/** How many letters a symbol of so many levels has at most: those of its lowest master. */
export const mostLetters = (levels: SystemLevels): number => (levels <= 4 ? 2 : levels - 2);

function readHierarchy(main: string, { levels = 3 }: SymbolOptions): HierarchySymbol | undefined {
  const most = mostLetters(levels);
  const match = /^([1-9]\d{0,5})?([A-Z]{1,4}|[A-Z]{1,3}[1-9]\d{0,2}[A-Z])([1-9]\d{0,5})?$/.exec(main);
  if (!match) return undefined;
  const [, before, place, after] = match;
  if (before !== undefined && after !== undefined) return undefined;
  const parts = /^([A-Z]+?)(?:(\d+)([A-Z]))?$/.exec(place!)!;
  const letters = parts[1]! + (parts[3] ?? '');
  const series = parts[2] === undefined ? 1 : Number(parts[2]);
  if (letters.length > most || (parts[2] !== undefined && series < 2)) return undefined;
  const written = before ?? after;
  if (written !== undefined && letters.length !== most) return undefined;
  const numberFirst = before !== undefined;
  if (numberFirst && most !== 2) return undefined;
  return {
    kind: 'hierarchy',
    letters,
    series,
    numberFirst,
    ...(written === undefined ? {} : { number: Number(written) }),
  };
}

function withNotes(symbol: HierarchySymbol, text: string, { avoid = AVOIDED }: SymbolOptions): KeySymbol {
  const notes: SymbolNote[] = [];
  for (const letter of new Set(symbol.letters))
    if (avoid.includes(letter)) notes.push({ code: 'avoided-letter', symbol: text, letter });
  if (symbol.letters.startsWith(RESERVED))
    notes.push({ code: 'reserved-letter', symbol: text, letter: RESERVED });
  return notes.length > 0 ? { ...symbol, notes } : symbol;
}

/** The canonical way to write a symbol; the shop's own stays as written. */
export function formatKeySymbol(symbol: KeySymbol): string {
  switch (symbol.kind) {
    case 'hierarchy':
      return formatPlace(symbol);
    case 'top':
    case 'own':
      return symbol.text;
    case 'single-keyed':
      return `SKD${symbol.number ?? ''}`;
    case 'control':
      return `CTR${symbol.number ?? ''}`;
    case 'keyed-alike':
      return symbol.quantity === undefined ? `KA${symbol.number ?? ''}` : `KA/${symbol.quantity}`;
    case 'cross-keyed':
      return `X${formatPlace(symbol.own)}${formatOperatedBy(symbol.operatedBy)}`;
    case 'cross-keyed-only':
      return `X${symbol.number}X${formatOperatedBy(symbol.operatedBy)}`;
  }
}

/** A place in the hierarchy as it is written. @example letters `AA`, series 2 → `A2A` */
export function formatPlace({ letters, series, number, numberFirst, ...marks }: HierarchySymbol): string {
  const last = letters.length - 1;
  const place = series === 1 ? letters : `${letters.slice(0, last)}${series}${letters.slice(last)}`;
  const digits = number ?? '';
  const aside = marks.notMasterKeyed ? ' (NMK)' : marks.selective ? ` (${marks.selective})` : '';
  return (numberFirst ? `${digits}${place}` : `${place}${digits}`) + aside;
}

function formatOperatedBy(symbols: readonly string[] | undefined): string {
  if (!symbols || symbols.length === 0) return '';
  const head = symbols.slice(0, -1).join(', ');
  return ` (operated by ${head === '' ? '' : `${head} and `}${symbols.at(-1)})`;
}
