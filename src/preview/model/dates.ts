/**
 * Date serial numbers in the 1900 system: day 1 is 1 January 1900 and day 60 the 29 February 1900 that never was
 * (ECMA-376 part 1, 18.17.4.1), so real dates from March 1900 on count from 30 December 1899.
 */
const DAY_MS = 86_400_000;
const EPOCH = Date.UTC(1899, 11, 30);

/** Year, month 1–12, day → serial, or null where there is no such day. `(2003, 1, 2)` → `37623`. */
export function dateSerial(year: number, month: number, day: number): number | null {
  const ms = Date.UTC(year, month - 1, day);
  const date = new Date(ms);
  if (date.getUTCFullYear() !== year || date.getUTCMonth() !== month - 1 || date.getUTCDate() !== day)
    return null;
  const serial = Math.round((ms - EPOCH) / DAY_MS);
  return serial < 61 ? (serial < 2 ? null : serial - 1) : serial;
}

export interface DateParts {
  year: number;
  month: number;
  day: number;
  weekday: number;
  hours: number;
  minutes: number;
  seconds: number;
}

/** Serial → calendar parts (UTC arithmetic, no time zone). */
export function dateParts(serial: number): DateParts {
  const totalSeconds = Math.round(serial * 86_400);
  const days = Math.floor(totalSeconds / 86_400);
  const rest = totalSeconds - days * 86_400;
  const date = new Date(EPOCH + (days < 60 ? days + 1 : days) * DAY_MS);
  return {
    year: date.getUTCFullYear(),
    month: date.getUTCMonth() + 1,
    day: date.getUTCDate(),
    weekday: date.getUTCDay(),
    hours: Math.floor(rest / 3600),
    minutes: Math.floor((rest % 3600) / 60),
    seconds: rest % 60,
  };
}

export const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

export const WEEKDAYS = [
  'Sunday',
  'Monday',
  'Tuesday',
  'Wednesday',
  'Thursday',
  'Friday',
  'Saturday',
] as const;

/** `jan` or `January` → 1; null for anything else. */
export function monthNumber(text: string): number | null {
  const word = text.toLowerCase();
  const index = MONTHS.findIndex((m) => m.toLowerCase() === word || m.slice(0, 3).toLowerCase() === word);
  return index < 0 ? null : index + 1;
}

/** Two-digit years up to 29 are 20xx, from 30 on 19xx. */
export function fullYear(year: number): number {
  if (year >= 100) return year;
  return year < 30 ? 2000 + year : 1900 + year;
}
