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

describe('days that there are not', () => {
  it('are none: outside the years of the calendar, of no month, and parts of days', () => {
    const of = (year: number, month: number, day: number) => dayOf({ year, month, day });
    expect(of(1901, 1, 1)).toBe(serialOf(1901, 1, 1));
    expect(of(2199, 12, 31)).toBe(serialOf(2199, 12, 31));
    for (const [y, m, d] of [
      [1900, 12, 31], [2200, 1, 1], [2026, 0, 10], [2026, 13, 10], [2026, 4, 31], [2026, 1, 32], [2026, 1, 0],
      [2026, 1, -1], [2026.5, 1, 1], [2026, 1.5, 1], [2026, 1, 1.5], [NaN, 1, 1],
    ] as const) expect(of(y, m, d), `${y}-${m}-${d}`).toBeUndefined(); // prettier-ignore
  });

  it('are none as numbers of a cell either', () => {
    const bad = (serial: number) => parseMoment(serial);
    for (const serial of [serialOf(1901, 1, 1) - 0.001, serialOf(2200, 1, 1), 0, -5, NaN, Infinity])
      expect(bad(serial)).toEqual({ ok: false, error: { code: 'not-a-day', text: String(serial) } });
    expect(bad(serialOf(1901, 1, 1))).toEqual({ ok: true, value: { day: serialOf(1901, 1, 1) } });
    // the last half minute of a day is still that day
    expect(bad(serialOf(2199, 12, 31) + 0.99999)).toEqual({
      ok: true,
      value: { day: serialOf(2199, 12, 31), minutes: 1439 },
    });
  });
});

describe('dates in other dress', () => {
  const day = serialOf(2026, 3, 14);
  it.each([
    '2026/3/14', '2026.03.14', '14.03.2026', '14-3-2026', '3/14/2026', '14 Mar 2026', '14. march 2026', '14-MAR-2026',
    '14Mar2026', '14 Mar, 2026', 'Mar 14 2026', 'March 14, 2026', 'MARCH.14.2026', ' ２０２６-03-14 ',
  ])('%s', (text) => {
    expect(parseMoment(text)).toEqual({ ok: true, value: { day } });
  }); // prettier-ignore

  it.each([
    ['2026-03-14T09:30', 570],
    ['2026-03-14, 9:30', 570],
    ['14 Mar 2026   09:30:59', 570],
    ['2026-03-14 00:00', 0],
    ['2026-03-14 23:59', 1439],
  ])('%s has a time', (text, minutes) => {
    expect(parseMoment(text)).toEqual({ ok: true, value: { day, minutes } });
  });

  it.each([
    '2026-03-14 24:00', '2026-03-14 09:60', '2026-03-14 9:3', '2026-03-14 09:30:5', '2026-03-14 09:30 x', 'x 2026-03-14',
    '14 Foo 2026', '14 M 2026', '14 Mar 26', '114 Mar 2026', '2026-3', '14/3/26', '2026-03-144', '09:30',
  ])('%s is not read', (text) => {
    expect(parseMoment(text)).toEqual({ ok: false, error: { code: 'not-a-day', text } });
  }); // prettier-ignore

  it.each(['31 Apr 2026', '2026-13-01', '31/13/2026', '2026-00-10', '29 Feb 2026'])(
    '%s is no day',
    (text) => {
      expect(parseMoment(text)).toEqual({ ok: false, error: { code: 'no-such-day', text } });
    },
  );
});
