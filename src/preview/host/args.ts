/** Arguments come over the wire as anything at all; these readers refuse what Excel would refuse. */
import { badArgument } from './error.ts';

export function asText(value: unknown): string {
  return typeof value === 'string' ? value : badArgument();
}

export function asNumber(value: unknown): number {
  return typeof value === 'number' && Number.isFinite(value) ? value : badArgument();
}

export function asWhole(value: unknown): number {
  const number = asNumber(value);
  return Number.isInteger(number) ? number : badArgument();
}

export function asFlag(value: unknown): boolean {
  return typeof value === 'boolean' ? value : badArgument();
}

export function isNothing(value: unknown): value is null | undefined {
  return value === null || value === undefined;
}

export function optionalText(value: unknown): string | null {
  return isNothing(value) ? null : asText(value);
}

export function asRecord(value: unknown): Readonly<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return badArgument();
  return value as Readonly<Record<string, unknown>>;
}

/** One of a list of words, whatever its case: Excel's enumerations. */
export function asOneOf<T extends string>(value: unknown, words: readonly T[]): T {
  const wanted = typeof value === 'string' ? value.toLowerCase() : null;
  return words.find((word) => word.toLowerCase() === wanted) ?? badArgument();
}

const SIZE_MESSAGE =
  "The number of rows or columns in the input array doesn't match the size or dimensions of the range.";

/** A matrix of the range's size; a single value stands for all cells. */
export function asMatrix<T>(value: unknown, rows: number, columns: number, cell: (one: unknown) => T): T[][] {
  if (!Array.isArray(value)) {
    const one = cell(value);
    return Array.from({ length: rows }, () => Array.from({ length: columns }, () => one));
  }
  if (value.length !== rows) return badArgument(SIZE_MESSAGE);
  return value.map((row: unknown) => {
    if (!Array.isArray(row) || row.length !== columns) return badArgument(SIZE_MESSAGE);
    return row.map(cell);
  });
}

export function refuseSize(): never {
  return badArgument(SIZE_MESSAGE);
}

/** What may be written into a cell; null leaves the cell as it is. */
export function asInput(value: unknown): string | number | boolean | undefined {
  if (isNothing(value)) return undefined;
  if (typeof value === 'string') return value.length > 32_767 ? badArgument() : value;
  if (typeof value === 'boolean') return value;
  return asNumber(value);
}

const NAMED_COLOURS: Readonly<Record<string, string>> = {
  aqua: '#00FFFF',
  black: '#000000',
  blue: '#0000FF',
  gray: '#808080',
  green: '#008000',
  grey: '#808080',
  lightgray: '#D3D3D3',
  lightgreen: '#90EE90',
  lime: '#00FF00',
  navy: '#000080',
  orange: '#FFA500',
  pink: '#FFC0CB',
  purple: '#800080',
  red: '#FF0000',
  white: '#FFFFFF',
  yellow: '#FFFF00',
};

/** `#rrggbb` or a common colour name → `#RRGGBB`. */
export function asColour(value: unknown): string {
  const text = asText(value);
  if (/^#[0-9a-f]{6}$/i.test(text)) return text.toUpperCase();
  return NAMED_COLOURS[text.toLowerCase()] ?? badArgument();
}
