/**
 * Days against two calendars that are not ours: the language's own Date in UTC and, for how people write dates,
 * Intl.DateTimeFormat.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addDays,
  calendarDate,
  dayOf,
  formatDay,
  formatMinutes,
  parseMoment,
  sayDayFault,
  type Day,
} from '../../../src/keying/calendar.ts';

const DAY_MS = 86_400_000;
/** ISO/IEC 29500-1, 18.17.4: the 1900 date system counts from 30 December 1899 on. */
const serialOf = (year: number, month: number, day: number): number =>
  (Date.UTC(year, month - 1, day) - Date.UTC(1899, 11, 30)) / DAY_MS;

const anyDay = fc.integer({ min: serialOf(1901, 1, 1), max: serialOf(2199, 12, 31) }).map((n) => n as Day);

describe('day numbers', () => {
  it('are those of a spreadsheet: 1 January 2000 is 36526', () => {
    expect(dayOf({ year: 2000, month: 1, day: 1 })).toBe(36_526);
  });

  it('agree with Date over every day of three centuries', () => {
    let wrong = 0;
    for (let n = serialOf(1901, 1, 1); n <= serialOf(2199, 12, 31); n++) {
      const date = new Date(Date.UTC(1899, 11, 30) + n * DAY_MS);
      const [year, month, day] = [date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate()];
      const back = calendarDate(n as Day);
      if (dayOf({ year, month, day }) !== n || back.year !== year || back.month !== month || back.day !== day)
        wrong++;
    }
    expect(wrong).toBe(0);
  });

  it('know the leap days: 2000 and 2024 have one, 2100 and 2026 have none', () => {
    const last = (year: number): boolean => dayOf({ year, month: 2, day: 29 }) !== undefined;
    expect([2000, 2024, 2100, 2026].map(last)).toEqual([true, true, false, false]);
    const end = dayOf({ year: 2024, month: 2, day: 28 })!;
    expect([1, 2].map((n) => formatDay(addDays(end, n)))).toEqual(['2024-02-29', '2024-03-01']);
  });

  it('don’t move with the clocks: a day is a day across the change to summer time', () => {
    const before = dayOf({ year: 2026, month: 3, day: 28 })!;
    expect(formatDay(addDays(before, 2))).toBe('2026-03-30');
  });
});

describe('dates as people type them', () => {
  it.each<Intl.DateTimeFormatOptions & { locale: string }>([
    { locale: 'sv-SE', year: 'numeric', month: '2-digit', day: '2-digit' },
    { locale: 'en-GB', year: 'numeric', month: 'short', day: 'numeric' },
    { locale: 'en-GB', year: 'numeric', month: 'long', day: 'numeric' },
    { locale: 'en-US', year: 'numeric', month: 'long', day: 'numeric' },
  ])('are read as Intl writes them in $locale with month $month', ({ locale, ...options }) => {
    const format = new Intl.DateTimeFormat(locale, { ...options, timeZone: 'UTC' });
    fc.assert(
      fc.property(anyDay, (day) => {
        const text = format.format(new Date(Date.UTC(1899, 11, 30) + day * DAY_MS));
        expect(parseMoment(text)).toEqual({ ok: true, value: { day } });
      }),
    );
  });

  it('come back as they were written', () => {
    fc.assert(
      fc.property(anyDay, fc.nat({ max: 1439 }), (day, minutes) => {
        const text = `${formatDay(day)} ${formatMinutes(minutes)}`;
        expect(parseMoment(text)).toEqual({ ok: true, value: { day, minutes } });
        expect(parseMoment(day + minutes / 1440)).toEqual({
          ok: true,
          value: { day, ...(minutes > 0 && { minutes }) },
        });
      }),
    );
  });

  it.each([
    ['3/4/2026', '“3/4/2026” may be 2026-04-03 or 2026-03-04. Type it year first.'],
    ['2026-02-30', 'There is no day “2026-02-30” in the calendar. Correct it.'],
    ['soon', '“soon” is not a date. Type it year first, such as 2026-03-14.'],
    ['2026-03-14 25:00', '“2026-03-14 25:00” is not a date. Type it year first, such as 2026-03-14.'],
    ['', '“” is not a date. Type it year first, such as 2026-03-14.'],
  ])('%s is refused with a sentence', (text, sentence) => {
    const read = parseMoment(text);
    expect(read.ok ? '' : sayDayFault(read.error)).toBe(sentence);
  });

  it('are taken where only one way round is a day', () => {
    expect(parseMoment('14/3/2026')).toEqual(parseMoment('2026-03-14'));
    expect(parseMoment('3/14/2026')).toEqual(parseMoment('2026-03-14'));
    expect(parseMoment('5.5.2026')).toEqual(parseMoment('2026-05-05'));
  });
});
