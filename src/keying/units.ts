/**
 * Lengths. Inside the program a length is a whole number of nanometres, because both of the trade's units are
 * exact in it (1 in = 25.4 mm = 25,400,000 nm; 0.0001 in = 2,540 nm; 0.0125 in = 317,500 nm) and binary
 * fractions of an inch are not. This file is the only place that may cast to the brand.
 * Source of 25.4: the international yard and pound agreement of 1959, kept by ISO 80000-3.
 */
import { assert, err, ok, type Result } from './result.ts';

declare const nanometres: unique symbol;
export type Length = number & { readonly [nanometres]: true };

export const UNITS = ['in', 'mm'] as const;
export type Unit = (typeof UNITS)[number];

/** A unit in words, which are also the names of our number formats. */
export const UNIT_NAMES = { in: 'inches', mm: 'millimetres' } as const satisfies Record<Unit, string>;

const PER_UNIT: Record<Unit, number> = { in: 25_400_000, mm: 1_000_000 };

/** `1,000` is a thousand to some and one to others. */
const AMBIGUOUS = /^[+-]?[1-9]\d*,\d{3}$/;

/** A metre: far more than any key, so that a code typed where a length belongs is caught. */
const LONGEST = 1_000_000_000;

export type LengthFault = { readonly code: 'not-a-length'; readonly text: string };

/** Whole nanometres to a Length. `lengthOf(317_500)` is 0.0125 in. Throws on a fraction: that is our mistake. */
export function lengthOf(nm: number): Length {
  assert(Number.isSafeInteger(nm), `not a whole number of nanometres: ${nm}`);
  return nm as Length;
}

/** `inches(0.237)` → 6,019,800 nm. For constants in code and tests; user input goes through `parseLength`. */
export const inches = (value: number): Length => lengthOf(Math.round(value * PER_UNIT.in));

/** `millimetres(2.5)` → 2,500,000 nm. */
export const millimetres = (value: number): Length => lengthOf(Math.round(value * PER_UNIT.mm));

/**
 * Reads a length in a unit from a cell: a number, or text such as `0.237`, `.237`, `0,237`, `0.237 in`, `6.02mm`.
 * A unit that is written wins over the one asked for. Rounded to the nanometre.
 * @example parseLength('0.0125', 'in') → ok(317_500)
 */
export function parseLength(input: string | number, unit: Unit): Result<Length, LengthFault> {
  if (typeof input === 'number') return fromNumber(input, unit, String(input));
  const match = /^([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*(in|mm|"|″)?$/i.exec(input.trim());
  if (!match || AMBIGUOUS.test(match[1]!)) return err({ code: 'not-a-length', text: input });
  const written = match[2]?.toLowerCase();
  const actual: Unit = written === undefined ? unit : written === 'mm' ? 'mm' : 'in';
  return fromNumber(Number(match[1]!.replace(',', '.')), actual, input);
}

function fromNumber(value: number, unit: Unit, text: string): Result<Length, LengthFault> {
  const nm = Math.round(value * PER_UNIT[unit]);
  if (!Number.isFinite(value) || Math.abs(nm) > LONGEST) return err({ code: 'not-a-length', text });
  return ok(lengthOf(nm === 0 ? 0 : nm));
}

/** The length as a plain number of a unit, for a cell or a drawing. `toUnit(inches(0.237), 'in')` → 0.237. */
export function toUnit(length: Length, unit: Unit): number {
  return length / PER_UNIT[unit];
}

/**
 * The way a shop writes it: thousandths of an inch, ten-thousandths where that digit isn't zero, hundredths of a
 * millimetre. @example formatLength(inches(0.0125), 'in') → '0.0125 in'
 */
export function formatLength(length: Length, unit: Unit): string {
  return `${formatNumber(length, unit)} ${unit}`;
}

/** As `formatLength`, without the unit. @example formatNumber(inches(0.3), 'in') → '0.300' */
export function formatNumber(length: Length, unit: Unit): string {
  const sign = length < 0 ? '-' : '';
  const size = Math.abs(length);
  if (unit === 'mm') {
    const hundredths = Math.round(size / 10_000);
    return unsignedZero(sign, hundredths) + `${Math.floor(hundredths / 100)}.${pad(hundredths % 100, 2)}`;
  }
  const tenThousandths = Math.round(size / 2_540);
  const whole = Math.floor(tenThousandths / 10_000);
  const digits = pad(tenThousandths % 10_000, 4);
  return (
    unsignedZero(sign, tenThousandths) + `${whole}.${digits.endsWith('0') ? digits.slice(0, 3) : digits}`
  );
}

const unsignedZero = (sign: string, size: number): string => (size === 0 ? '' : sign);
const pad = (n: number, width: number): string => String(n).padStart(width, '0');

export const add = (a: Length, b: Length): Length => lengthOf(a + b);
export const subtract = (a: Length, b: Length): Length => lengthOf(a - b);
export const times = (a: Length, n: number): Length => lengthOf(a * n);
