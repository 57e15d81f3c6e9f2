/**
 * Single cells of the `Specs` table: text and numbers to domain values, each with the fault that a cell can have.
 * Lists are one readable cell (`0=0.315; 1=0.297`), since a shop copies them from a data sheet as one line.
 */
import { err, ok, type Result } from './result.ts';
import { parseLength, toUnit, type Length, type Unit } from './units.ts';

export type Cell = string | number | boolean | null;

export type CellFault =
  | { readonly code: 'cell-blank' }
  | { readonly code: 'cell-not-length'; readonly text: string }
  | { readonly code: 'cell-not-number'; readonly text: string }
  | { readonly code: 'cell-not-choice'; readonly text: string; readonly choices: readonly string[] }
  | { readonly code: 'list-not-lengths'; readonly text: string }
  | { readonly code: 'list-not-depths'; readonly text: string }
  | { readonly code: 'list-symbol-repeated'; readonly symbol: string };

type Read<T> = Result<T, CellFault>;

export const isBlank = (cell: Cell | undefined): boolean =>
  cell === null || cell === undefined || (typeof cell === 'string' && cell.trim() === '');

/** What the cell shows, trimmed. */
export const cellText = (cell: Cell | undefined): string => (isBlank(cell) ? '' : String(cell).trim());

/** A length in the table's unit; a unit written in the cell wins. */
export function readLengthCell(cell: Cell, unit: Unit): Read<Length> {
  if (typeof cell === 'boolean' || cell === null) return err({ code: 'cell-not-length', text: String(cell) });
  const parsed = parseLength(cell, unit);
  return parsed.ok ? parsed : err({ code: 'cell-not-length', text: cellText(cell) });
}

/** A plain number: `7`, `'7'`, `'90°'`, `'22,5'`. */
export function readNumberCell(cell: Cell): Read<number> {
  if (typeof cell === 'number' && Number.isFinite(cell)) return ok(cell);
  const match = /^([+-]?\d+(?:[.,]\d+)?)\s*(?:°|deg|degrees)?$/i.exec(cellText(cell));
  if (typeof cell !== 'string' || !match) return err({ code: 'cell-not-number', text: cellText(cell) });
  return ok(Number(match[1]!.replace(',', '.')));
}

/** One of a few words, whatever the case, with spaces or hyphens. */
export function readChoiceCell<T extends string>(
  cell: Cell,
  choices: readonly T[],
  aliases: Readonly<Record<string, T>> = {},
): Read<T> {
  const folded = cellText(cell)
    .toLowerCase()
    .replace(/[\s_–-]+/g, '-');
  // own words only: every record also answers to "constructor"
  const alias = Object.hasOwn(aliases, folded) ? aliases[folded] : undefined;
  const found = choices.find((c) => c === folded) ?? alias;
  return found === undefined ? err({ code: 'cell-not-choice', text: cellText(cell), choices }) : ok(found);
}

const entriesOf = (cell: Cell): string[] =>
  cellText(cell)
    .split(/[;\n]/)
    .map((e) => e.trim())
    .filter((e) => e !== '');

/** `0.237; 0.393; 0.549` → lengths. */
export function readLengthList(cell: Cell, unit: Unit): Read<Length[]> {
  const lengths: Length[] = [];
  for (const entry of entriesOf(cell)) {
    const parsed = parseLength(entry, unit);
    if (!parsed.ok) return err({ code: 'list-not-lengths', text: entry });
    lengths.push(parsed.value);
  }
  return ok(lengths);
}

/** `0=0.315; 1=0.297` → pairs in the order written. Symbols may be letters, differences may be uneven. */
export function readSymbolList(cell: Cell, unit: Unit): Read<[symbol: string, length: Length][]> {
  const pairs: [string, Length][] = [];
  const seen = new Set<string>();
  for (const entry of entriesOf(cell)) {
    const match = /^([^\s=:]+)\s*[=:]\s*(.+)$/.exec(entry);
    const length = match && parseLength(match[2]!, unit);
    if (!match || !length?.ok) return err({ code: 'list-not-depths', text: entry });
    const symbol = match[1]!;
    if (seen.has(symbol.toUpperCase())) return err({ code: 'list-symbol-repeated', symbol });
    seen.add(symbol.toUpperCase());
    pairs.push([symbol, length.value]);
  }
  return ok(pairs);
}

/** Digits that hold a nanometre in each unit, so that what is written reads back as the same length. */
const DIGITS: Record<Unit, number> = { in: 9, mm: 6 };

/** The length as short exact text, without its unit: `0.315`, `0.0125`. */
export function lengthText(length: Length, unit: Unit): string {
  return toUnit(length, unit)
    .toFixed(DIGITS[unit])
    .replace(/\.?0+$/, '');
}
