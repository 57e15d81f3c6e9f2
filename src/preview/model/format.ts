/**
 * The text a cell shows, for the number formats this preview meets: General, digits and thousands, per cent,
 * exponent, dates and times, `@`, sections and quoted text. Fractions, colours and conditions fall back to General.
 */
import { MONTHS, WEEKDAYS, dateParts } from './dates.ts';
import type { CellValue } from './types.ts';

/** `(0.5, '0%')` → `50%`; `(null)` → ``. */
export function displayText(value: CellValue, numberFormat = 'General'): string {
  if (value === null) return '';
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (typeof value === 'object') return value.error;
  const sections = numberFormat.split(/;(?=(?:[^"]*"[^"]*")*[^"]*$)/);
  if (typeof value === 'string') {
    const text = sections[3] ?? (sections.length === 1 ? numberFormat : '@');
    return text.includes('@') ? literal(text).replace('@', () => value) : value;
  }
  const section =
    value < 0 ? (sections[1] ?? sections[0]) : value === 0 ? (sections[2] ?? sections[0]) : sections[0];
  const format = section === undefined || section === '' ? 'General' : section;
  const shown = value < 0 && sections[1] !== undefined ? -value : value;
  return formatNumber(
    shown,
    format.replace(/\[(?:Red|Black|Blue|Green|White|Yellow|Cyan|Magenta|\$-?[^\]]*)\]/gi, ''),
  );
}

function literal(format: string): string {
  return format
    .replace(/"([^"]*)"/g, '$1')
    .replace(/\\(.)/g, '$1')
    .replace(/_./g, ' ')
    .replace(/\*./g, '');
}

/** General shows eleven characters at most. */
export function generalText(value: number): string {
  if (Number.isInteger(value) && Math.abs(value) < 1e11) return String(value);
  const size = Math.abs(value);
  if (size >= 1e11 || size < 1e-9) {
    const [mantissa = '', exponent = '0'] = value.toExponential(5).split('e');
    const power = Number(exponent);
    const digits = String(Math.abs(power)).padStart(2, '0');
    return `${String(Number(mantissa))}E${power < 0 ? '-' : '+'}${digits}`;
  }
  const whole = String(Math.trunc(size)).length;
  return String(Number(value.toFixed(Math.max(0, 10 - whole))));
}

function formatNumber(value: number, format: string): string {
  if (format === 'General' || format === '@') return generalText(value);
  const bare = format.replace(/"[^"]*"|\\./g, '');
  if (/[ymdhs]/i.test(bare)) return formatMoment(value, format);
  const digits = /(?:[#0?][#0?,]*(?:\.[#0?]*)?|\.[#0?]+)(?:E[+-]0+)?/i.exec(bare.replace(/_./g, ''))?.[0];
  if (digits === undefined) return literal(format);
  if (bare.includes('/')) return generalText(value);
  const percent = bare.includes('%');
  const body = formatDigits(percent ? value * 100 : value, digits);
  return literal(format).replace(digits, () => body);
}

function formatDigits(value: number, pattern: string): string {
  const [mantissa = '', power] = pattern.split(/E[+-]/i);
  const [whole = '', decimals = ''] = mantissa.split('.');
  const least = decimals.replace(/[^0?]/g, '').length;
  if (power !== undefined) {
    const [m = '', e = '0'] = value.toExponential(decimals.length).split('e');
    return `${m}E${Number(e) < 0 ? '-' : '+'}${String(Math.abs(Number(e))).padStart(power.length, '0')}`;
  }
  // toFixed works on the binary value; rounding the 15-digit decimal first is what Excel shows
  const fixed = Number(Math.abs(value).toPrecision(15)).toFixed(decimals.length);
  let [head = '0', tail = ''] = fixed.split('.');
  while (tail.length > least && tail.endsWith('0')) tail = tail.slice(0, -1);
  head = head.padStart(whole.replace(/[^0]/g, '').length, '0');
  if (/^0*$/.test(head) && !whole.includes('0')) head = '';
  if (whole.includes(',')) head = head.replace(/\B(?=(\d{3})+$)/g, ',');
  const sign = value < 0 && Number(fixed) !== 0 ? '-' : '';
  return `${sign}${head}${tail === '' && !(mantissa.endsWith('.') || least > 0) ? '' : `.${tail}`}`;
}

const MOMENT = /\[h+\]|\[m+\]|y+|m+|d+|h+|s+|AM\/PM|A\/P|"[^"]*"|\\.|./gi;

function formatMoment(value: number, format: string): string {
  if (value < 0) return '###';
  const parts = dateParts(value);
  const tokens = format.match(MOMENT) ?? [];
  const half = /AM\/PM|A\/P/i.test(format);
  const pad = (n: number, width: number): string => String(n).padStart(width, '0');
  const isMinute = (i: number): boolean => {
    const before = tokens.slice(0, i).findLast((t) => /^[ydhs[]/i.test(t));
    const after = tokens.slice(i + 1).find((t) => /^[ydhsm]/i.test(t));
    return /^\[?h/i.test(before ?? '') || /^s/i.test(after ?? '');
  };
  return tokens
    .map((token, i) => {
      const t = token.toLowerCase();
      if (t.startsWith('y')) return t.length > 2 ? String(parts.year) : pad(parts.year % 100, 2);
      if (t.startsWith('d')) {
        if (t.length <= 2) return pad(parts.day, t.length);
        const day = WEEKDAYS[parts.weekday] ?? '';
        return t.length === 3 ? day.slice(0, 3) : day;
      }
      if (t.startsWith('[h')) return String(Math.floor(value * 24 + 1e-9));
      if (t.startsWith('h')) return pad(half ? parts.hours % 12 || 12 : parts.hours, Math.min(2, t.length));
      if (t.startsWith('s')) return pad(parts.seconds, Math.min(2, t.length));
      if (t.startsWith('m')) {
        if (t.length <= 2) return pad(isMinute(i) ? parts.minutes : parts.month, t.length);
        const month = MONTHS[parts.month - 1] ?? '';
        return t.length === 3 ? month.slice(0, 3) : month;
      }
      if (t === 'am/pm') return parts.hours < 12 ? 'AM' : 'PM';
      if (t === 'a/p') return parts.hours < 12 ? 'A' : 'P';
      return literal(token);
    })
    .join('');
}
