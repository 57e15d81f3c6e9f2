/**
 * Days as whole numbers, so that a ledger can be replayed without a clock, a time zone or a Date. A day's number is
 * the one that spreadsheets use from 1 March 1900 on (days from 30 December 1899, ISO/IEC 29500-1, 18.17.4), so that
 * a cell with a date needs no conversion. From and to the calendar by counting whole eras of 400 years, with the
 * year starting in March so that the leap day comes last (Hinnant, chrono-compatible low-level date algorithms).
 */
import { err, ok, type Result } from './result.ts';

declare const day: unique symbol;
/** Whole days from 30 December 1899. */
export type Day = number & { readonly [day]: true };

export interface CalendarDate {
  readonly year: number;
  /** From 1. */
  readonly month: number;
  readonly day: number;
}

export type DayFault =
  | { readonly code: 'not-a-day'; readonly text: string }
  | { readonly code: 'no-such-day'; readonly text: string }
  /** Day and month could be either way round. `either` and `or` are the two readings, year first. */
  | { readonly code: 'day-or-month'; readonly text: string; readonly either: string; readonly or: string };

/** A day and, where it was given, the minute of that day. */
export interface Moment {
  readonly day: Day;
  readonly minutes?: number;
}

const FIRST_YEAR = 1901;
const LAST_YEAR = 2199;
const DAYS_IN_ERA = 146_097;
/** From 1 March of the year 0 to 30 December 1899. */
const FROM_ERA = 693_899;
const MINUTES_A_DAY = 1440;

const isLeap = (year: number): boolean => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
const LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;
const daysIn = (year: number, month: number): number =>
  month === 2 && isLeap(year) ? 29 : (LENGTHS[month - 1] ?? 0);

/**
 * The number of a calendar day, or undefined where there is no such day.
 * @example dayOf({ year: 2026, month: 3, day: 14 }) → 46095; dayOf({ year: 2026, month: 2, day: 29 }) → undefined
 */
export function dayOf({ year, month, day: date }: CalendarDate): Day | undefined {
  if (![year, month, date].every(Number.isInteger) || year < FIRST_YEAR || year > LAST_YEAR) return undefined;
  if (date < 1 || date > daysIn(year, month)) return undefined;
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + date - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return (era * DAYS_IN_ERA + dayOfEra - FROM_ERA) as Day;
}

/** The calendar day of a number. @example calendarDate(46095) → { year: 2026, month: 3, day: 14 } */
export function calendarDate(number: Day): CalendarDate {
  const shifted = number + FROM_ERA;
  const era = Math.floor(shifted / DAYS_IN_ERA);
  const dayOfEra = shifted - era * DAYS_IN_ERA;
  const yearOfEra = Math.floor(
    (dayOfEra -
      Math.floor(dayOfEra / 1460) +
      Math.floor(dayOfEra / 36_524) -
      Math.floor(dayOfEra / (DAYS_IN_ERA - 1))) /
      365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shiftedMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const month = shiftedMonth + (shiftedMonth < 10 ? 3 : -9);
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    day: dayOfYear - Math.floor((153 * shiftedMonth + 2) / 5) + 1,
  };
}

const two = (n: number): string => String(n).padStart(2, '0');

/** Year first, which means the same everywhere and sorts as text. @example formatDay(46095) → '2026-03-14' */
export function formatDay(number: Day): string {
  const { year, month, day: date } = calendarDate(number);
  return `${year}-${two(month)}-${two(date)}`;
}

/** @example formatMinutes(570) → '09:30' */
export const formatMinutes = (minutes: number): string =>
  `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;

/** So many days later; earlier where negative. @example addDays(day, 14) */
export const addDays = (from: Day, days: number): Day => (from + days) as Day;

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

/** Twice the longest way to write one, so that a long cell isn't searched for a time from each of its characters. */
const LONGEST_DATE = 60;

/**
 * Reads a date as people type it or as a cell holds it: `2026-03-14`, `14 Mar 2026`, `March 14, 2026`, `14/3/2026`,
 * with a time behind it or not, or a cell's number. `3/4/2026` is refused, since it is March here and April there.
 * @example parseMoment('2026-03-14 09:30') → ok({ day: 46095, minutes: 570 })
 */
export function parseMoment(input: string | number): Result<Moment, DayFault> {
  if (typeof input === 'number') return momentOfSerial(input);
  const text = input.normalize('NFKC').trim();
  if (text.length > LONGEST_DATE) return err({ code: 'not-a-day', text });
  const [, date, hour, minute] = /^(.*?)(?:[T ,]+(\d{1,2}):(\d{2})(?::\d{2})?)?$/s.exec(text) ?? [];
  const minutes = hour === undefined ? undefined : Number(hour) * 60 + Number(minute);
  if (minutes !== undefined && (minutes >= MINUTES_A_DAY || Number(minute) > 59))
    return err({ code: 'not-a-day', text });
  const read = readDate(date ?? '', text);
  return read.ok ? ok({ day: read.value, ...(minutes !== undefined && { minutes }) }) : read;
}

function momentOfSerial(serial: number): Result<Moment, DayFault> {
  const text = String(serial);
  const whole = Math.floor(serial);
  const first = dayOf({ year: FIRST_YEAR, month: 1, day: 1 })!;
  const last = dayOf({ year: LAST_YEAR, month: 12, day: 31 })!;
  if (!(whole >= first && whole <= last)) return err({ code: 'not-a-day', text });
  const minutes = Math.round((serial - whole) * MINUTES_A_DAY);
  return ok({
    day: whole as Day,
    ...(minutes > 0 && { minutes: Math.min(minutes, MINUTES_A_DAY - 1) }),
  });
}

function readDate(date: string, text: string): Result<Day, DayFault> {
  const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(date);
  if (iso) return existing(Number(iso[1]), Number(iso[2]), Number(iso[3]), text);
  const named =
    /^(\d{1,2})[. -]*([a-z]{3,9})[., -]*(\d{4})$/i.exec(date) ??
    swapped(/^([a-z]{3,9})[. -]*(\d{1,2})[., -]+(\d{4})$/i.exec(date));
  const month = named ? MONTHS.indexOf(named[2]!.slice(0, 3).toLowerCase()) + 1 : 0;
  if (named && month > 0) return existing(Number(named[3]), month, Number(named[1]), text);
  const numbers = /^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4})$/.exec(date);
  if (!numbers) return err({ code: 'not-a-day', text });
  const [a, b, year] = [Number(numbers[1]), Number(numbers[2]), Number(numbers[3])];
  const either = dayOf({ year, month: b, day: a });
  const or = dayOf({ year, month: a, day: b });
  if (either !== undefined && or !== undefined && either !== or)
    return err({ code: 'day-or-month', text, either: formatDay(either), or: formatDay(or) });
  const only = either ?? or;
  return only === undefined ? err({ code: 'no-such-day', text }) : ok(only);
}

const swapped = (match: RegExpExecArray | null): string[] | undefined =>
  match ? [match[0], match[2]!, match[1]!, match[3]!] : undefined;

function existing(year: number, month: number, date: number, text: string): Result<Day, DayFault> {
  const found = dayOf({ year, month, day: date });
  return found === undefined ? err({ code: 'no-such-day', text }) : ok(found);
}

/** What is wrong with a date, in a sentence. */
export function sayDayFault(fault: DayFault): string {
  switch (fault.code) {
    case 'not-a-day':
      return `“${fault.text}” is not a date. Type it year first, such as 2026-03-14.`;
    case 'no-such-day':
      return `There is no day “${fault.text}” in the calendar. Correct it.`;
    case 'day-or-month':
      return `“${fault.text}” may be ${fault.either} or ${fault.or}. Type it year first.`;
  }
}
