/**
 * Keyset symbols as people type them into a schedule: in small letters, with blanks, with a letter O for a zero, or
 * pasted with letters of another alphabet that only look Latin. A better spelling is offered where the coding knows
 * it or the sheet Keys has it; a shop's own symbol is never respelt but to the spelling of its own key.
 */
import { formatPlace, parseKeySymbol, type KeySymbol, type SymbolOptions } from './symbolText.ts';
import type { UntidyWhy } from './scheduleFindings.ts';
import type { SystemLevels } from './symbolText.ts';

/** Capitals of the Cyrillic and Greek alphabets that are drawn like Latin ones, from the Unicode charts. */
const LOOK_ALIKES: Readonly<Record<string, string>> = {
  А: 'A', В: 'B', С: 'C', Е: 'E', Н: 'H', К: 'K', М: 'M', О: 'O', Р: 'P', Т: 'T', Х: 'X', У: 'Y',
  Α: 'A', Β: 'B', Ε: 'E', Η: 'H', Κ: 'K', Μ: 'M', Ν: 'N', Ο: 'O', Ρ: 'P', Τ: 'T', Χ: 'X', Υ: 'Y', Ζ: 'Z',
}; // prettier-ignore

const latin = (text: string): string =>
  [...text.normalize('NFKC')].map((c) => LOOK_ALIKES[c.toUpperCase()] ?? c).join('');

const INVISIBLE = /[\u00AD\u200B-\u200D\u2060\uFEFF]/g;

/** The form in which symbols are compared: the coded spelling, else capitals without blanks at the ends. */
export function symbolKey(text: string, options: SymbolOptions = {}): string {
  const parsed = parseKeySymbol(text, options);
  if (!parsed.ok) return '';
  return ownKeyOf(parsed.value) ?? text.trim().normalize('NFKC').toUpperCase().replace(/\s+/g, ' ');
}

/**
 * The key that a keyset is keyed to by itself, without what stands behind it in brackets.
 * @example `AA1 (ENG)` → 'AA1'; `XAA3 (operated by AA1)` → 'AA3'; `X1X` → undefined
 */
export function ownKeyOf(symbol: KeySymbol): string | undefined {
  if (symbol.kind === 'cross-keyed') return formatPlace(symbol.own);
  if (symbol.kind !== 'hierarchy') return undefined;
  const { kind, letters, series, number, numberFirst } = symbol;
  return formatPlace({ kind, letters, series, numberFirst, ...(number !== undefined && { number }) });
}

const isCoded = (text: string, options: SymbolOptions): boolean => {
  const parsed = parseKeySymbol(text, options);
  return parsed.ok && parsed.value.kind !== 'own' && parsed.value.notes === undefined;
};

const isCrossKeyed = (text: string, options: SymbolOptions): boolean => {
  const parsed = parseKeySymbol(text, options);
  return parsed.ok && parsed.value.kind === 'cross-keyed';
};

export interface TidySymbol {
  readonly to: string;
  readonly why: UntidyWhy;
}

/**
 * A better spelling of a symbol, or undefined where there is none to offer. `known` holds the symbols of the sheet
 * Keys by `symbolKey`, with their own spelling.
 * @example tidySymbol(' aa1') → { to: 'AA1', why: 'case' }; tidySymbol('AA1O') → { to: 'AA10', why: 'look-alike' }
 */
export function tidySymbol(
  text: string,
  options: SymbolOptions = {},
  known: ReadonlyMap<string, string> = new Map(),
): TidySymbol | undefined {
  const [, head = '', aside = ''] = /^([^(]*)(\(.*)?$/s.exec(text) ?? [];
  const tail = aside === '' ? '' : ` ${aside.trim().replace(/\s+/g, ' ')}`;
  const clean = latin(head).replace(INVISIBLE, '').replace(/\s+/g, ' ').trim();
  if (clean === '') return undefined;
  const offer = (main: string): TidySymbol | undefined => {
    const to = main + tail;
    return to === text ? undefined : { to, why: whyOf(head, main) };
  };
  // the X of a cross-keyed cylinder is no slip: its own key is spelt without it
  const speltAs = (main: string): string | undefined =>
    isCrossKeyed(main, options) ? undefined : known.get(symbolKey(main, options));
  const spelt = speltAs(clean);
  if (spelt !== undefined) return offer(spelt);
  for (const main of candidates(clean, options.levels ?? 3)) {
    const better = speltAs(main) ?? (isCoded(main, options) ? main : undefined);
    if (better !== undefined) return offer(better);
  }
  return offer(clean);
}

/** Spellings to try, the mildest first. */
function candidates(clean: string, levels: SystemLevels): string[] {
  const capital = clean.toUpperCase();
  const compact = capital.replace(/ /g, '');
  return [capital, compact, withDigits(clean.replace(/ /g, ''), levels)];
}

/** O, I and l where the coding has a number: behind the letters, or before them in two levels. */
function withDigits(text: string, levels: SystemLevels): string {
  const digits = (part: string): string => part.replace(/[Oo]/g, '0').replace(/[Il|]/g, '1');
  // the digit is looked for ahead: sought from both sides it would take a long cell the square of its length
  const first = /^(?=[OoIl|]*\d)([\dOoIl|]+)([A-Za-z]{2})$/.exec(text);
  if (first && levels === 2) return digits(first[1]!) + first[2]!.toUpperCase();
  const letters = levels <= 4 ? 2 : levels - 2;
  const last = new RegExp(`^([A-Za-z]{${letters}}|[A-Za-z]\\d+[A-Za-z])([\\dOoIl|]+)$`).exec(text);
  return last ? last[1]!.toUpperCase() + digits(last[2]!) : text;
}

function whyOf(from: string, to: string): UntidyWhy {
  const plain = (text: string): string => text.replace(/\s/g, '');
  if (plain(from) === plain(to)) return 'spaces';
  return plain(from).toUpperCase() === plain(to).toUpperCase() ? 'case' : 'look-alike';
}

/**
 * Levels of the system that a set of symbols belongs to, as far as they tell: GGMK or several grand masters mean four
 * or more, a number in front means two, one grand master three.
 * @example levelsOfSymbols(['A', 'AA', 'AA1']) → 3; levelsOfSymbols(['AA', '1AA', '2AA']) → 2
 */
export function levelsOfSymbols(symbols: readonly string[]): SystemLevels {
  const upper = symbols.map((s) => s.trim().toUpperCase());
  if (upper.includes('GGGMK') || upper.includes('GGGM'))
    return upper.some((s) => /^[A-Z]{4}\d/.test(s)) ? 6 : 5;
  if (upper.includes('GGMK') || upper.includes('GGM')) return 4;
  const first = upper.filter((s) => /^\d+[A-Z]{2}\b/.test(s)).length;
  const last = upper.filter((s) => /^[A-Z]{2}\d+\b/.test(s)).length;
  return first > last ? 2 : 3;
}
