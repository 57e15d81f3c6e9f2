/**
 * What a General cell makes of typed text, en-US: numbers, per cents, money, dates, times, booleans, errors and
 * formulas. A cell formatted `@` keeps every text as it stands. From memory of Excel's behaviour; the doubtful
 * cases are listed in `../host/UNVERIFIED.md`.
 */
import { dateSerial, fullYear, monthNumber } from './dates.ts';
import type { CellValue, ErrorCode } from './types.ts';

export interface Entered {
  value: CellValue;
  formula?: string;
  /** The number format a General cell takes on with this value. */
  numberFormat?: string;
}

export interface InputContext {
  numberFormat: string;
  /** The year a date without one falls in. */
  year: number;
}

export const ERROR_CODES: readonly ErrorCode[] = [
  '#VALUE!',
  '#N/A',
  '#REF!',
  '#NAME?',
  '#DIV/0!',
  '#NUM!',
  '#NULL!',
  '#SPILL!',
  '#CALC!',
  '#BUSY!',
];

/** `'01234'` → 1234 in a General cell, `'01234'` in a text cell. */
export function readInput(input: string | number | boolean, context: InputContext): Entered {
  if (input === '') return { value: null };
  if (context.numberFormat === '@') {
    if (typeof input === 'string') return { value: input };
    return { value: typeof input === 'boolean' ? String(input).toUpperCase() : String(input) };
  }
  if (typeof input !== 'string') return { value: input };
  if (input.startsWith("'")) return { value: input.slice(1) };
  const text = input.trim();
  if (text === '') return { value: input };
  if (text.startsWith('=') && text.length > 1) return { value: null, formula: text };
  const upper = text.toUpperCase();
  if (upper === 'TRUE' || upper === 'FALSE') return { value: upper === 'TRUE' };
  const error = ERROR_CODES.find((code) => code === upper);
  if (error) return { value: { error } };
  const number = readNumber(text) ?? readFraction(text) ?? readMoment(text, context.year);
  if (number) return number;
  if (/^[+-]./.test(text) || /^@./.test(text)) return { value: null, formula: `=${text}` };
  return { value: input };
}

/** Excel keeps 15 significant digits; later ones become zeros. */
function digits15(text: string): number {
  let seen = 0;
  let started = false;
  let out = '';
  for (const ch of text) {
    if (ch >= '0' && ch <= '9') {
      if (ch !== '0') started = true;
      if (started) seen++;
      out += seen > 15 ? '0' : ch;
    } else {
      if (ch === 'e' || ch === 'E') return Number(out + text.slice(out.length));
      out += ch;
    }
  }
  return Number(out);
}

const NUMBER =
  /^(\()?([+-])?\s?(\$)?([+-])?((?:\d{1,3}(?:,\d{3})+|\d+)(\.\d*)?|\.\d+)(e[+-]?\d{1,3})?(%)?(\))?$/i;

function readNumber(text: string): Entered | null {
  const match = NUMBER.exec(text.replace(/\s+%$/, '%'));
  if (!match) return null;
  const [, open, sign1, money, sign2, digits = '', , exponent = '', percent, close] = match;
  if ((open === undefined) !== (close === undefined) || (sign1 && sign2) || (open && (sign1 || sign2)))
    return null;
  let value = digits15(digits.replaceAll(',', '') + exponent);
  if (!Number.isFinite(value)) return null;
  if (percent) value = Number((value / 100).toPrecision(15));
  if (open || sign1 === '-' || sign2 === '-') value = value === 0 ? 0 : -value;
  const decimals = digits.includes('.') && !digits.endsWith('.');
  if (money)
    return { value, numberFormat: decimals ? '$#,##0.00_);[Red]($#,##0.00)' : '$#,##0_);[Red]($#,##0)' };
  if (percent) return { value, numberFormat: decimals ? '0.00%' : '0%' };
  if (exponent) return { value, numberFormat: '0.00E+00' };
  if (digits.includes(',')) return { value, numberFormat: decimals ? '#,##0.00' : '#,##0' };
  return { value };
}

/** `1 3/4`; a bare `3/4` is a date. */
function readFraction(text: string): Entered | null {
  const match = /^([+-])?(\d+) (\d+)\/(\d+)$/.exec(text);
  if (!match || Number(match[4]) === 0) return null;
  const value = Number(match[2]) + Number(match[3]) / Number(match[4]);
  return {
    value: match[1] === '-' ? -value : value,
    numberFormat: Number(match[4]) > 9 ? '# ??/??' : '# ?/?',
  };
}

function readMoment(text: string, year: number): Entered | null {
  const time = readTime(text);
  if (time) return time;
  const split = /^(.*\S)\s+(\d{1,2}:\d{2}.*)$/.exec(text);
  if (split) {
    const day = readDate(split[1] ?? '', year);
    const clock = readTime(split[2] ?? '');
    if (!day || !clock) return null;
    return { value: Number(day.value) + Number(clock.value), numberFormat: 'm/d/yyyy h:mm' };
  }
  return readDate(text, year);
}

function readTime(text: string): Entered | null {
  const match = /^(\d{1,4}):(\d{1,2})(?::(\d{1,2}))?\s?(am|pm|a|p)?$/i.exec(text);
  if (!match) return null;
  const [, h = '', m = '', s, half] = match;
  let hours = Number(h);
  if (Number(m) > 59 || Number(s ?? 0) > 59) return null;
  if (half) {
    if (hours < 1 || hours > 12) return null;
    hours = (hours % 12) + (/^p/i.test(half) ? 12 : 0);
  }
  const value = (hours * 3600 + Number(m) * 60 + Number(s ?? 0)) / 86_400;
  const base = s === undefined ? 'h:mm' : 'h:mm:ss';
  return { value, numberFormat: hours > 23 ? '[h]:mm:ss' : half ? `${base} AM/PM` : base };
}

function dated(year: number, month: number, day: number, numberFormat: string): Entered | null {
  const serial = dateSerial(year, month, day);
  return serial === null ? null : { value: serial, numberFormat };
}

function readDate(text: string, year: number): Entered | null {
  return readNumericDate(text, year) ?? readNamedDate(text, year);
}

function readNumericDate(text: string, thisYear: number): Entered | null {
  const three = /^(\d{1,4})([-/])(\d{1,2})\2(\d{1,4})$/.exec(text);
  if (three) {
    const [a, b, c] = [Number(three[1]), Number(three[3]), Number(three[4])];
    if ((three[1] ?? '').length > 2) return dated(a, b, c, 'm/d/yyyy');
    if ((three[4] ?? '').length === 3) return null;
    return dated(fullYear(c), a, b, 'm/d/yyyy');
  }
  const two = /^(\d{1,4})[-/](\d{1,4})$/.exec(text);
  if (!two) return null;
  const [first = '', second = ''] = [two[1], two[2]];
  if (first.length === 4) return second.length > 2 ? null : dated(Number(first), Number(second), 1, 'mmm-yy');
  if (first.length > 2 || second.length === 3) return null;
  const month = Number(first);
  const asDay = second.length <= 2 ? dated(thisYear, month, Number(second), 'd-mmm') : null;
  return asDay ?? dated(fullYear(Number(second)), month, 1, 'mmm-yy');
}

function readNamedDate(text: string, thisYear: number): Entered | null {
  const dayFirst = /^(\d{1,2})[-\s/]?([a-z]{3,9})(?:[-\s/,]+(\d{2}|\d{4}))?$/i.exec(text);
  if (dayFirst) {
    const month = monthNumber(dayFirst[2] ?? '');
    if (month === null) return null;
    if (dayFirst[3] === undefined) return dated(thisYear, month, Number(dayFirst[1]), 'd-mmm');
    return dated(fullYear(Number(dayFirst[3])), month, Number(dayFirst[1]), 'd-mmm-yy');
  }
  const monthFirst = /^([a-z]{3,9})[-\s/]?(\d{1,4})(?:(?:,\s*|\s+)(\d{4}))?$/i.exec(text);
  if (!monthFirst) return null;
  const month = monthNumber(monthFirst[1] ?? '');
  const number = Number(monthFirst[2]);
  if (month === null) return null;
  if (monthFirst[3] !== undefined) return dated(Number(monthFirst[3]), month, number, 'd-mmm-yy');
  const asDay = (monthFirst[2] ?? '').length <= 2 ? dated(thisYear, month, number, 'd-mmm') : null;
  return asDay ?? ((monthFirst[2] ?? '').length === 3 ? null : dated(fullYear(number), month, 1, 'mmm-yy'));
}
