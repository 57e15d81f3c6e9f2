/** The book on a day that the user types; today until then. */
import { useMemo } from 'react';
import { formatDay, parseMoment, sayDayFault, type Day } from '../../src/keying/calendar.ts';
import { standingOn, type BookReading, type Standing } from '../../src/workbook/index.ts';
import { today } from '../shared/today.ts';

export interface OnDay {
  readonly day: Day;
  /** Set where the typed date can't be read; today is taken instead. */
  readonly fault?: string;
}

/** A typed date, or today where it is blank or wrong. @example readDay('') → { day: … } */
export function readDay(text: string, now: string = today()): OnDay {
  const current = parseMoment(now);
  if (!current.ok) throw new Error('today is not a date');
  if (text.trim() === '') return { day: current.value.day };
  const read = parseMoment(text);
  return read.ok ? { day: read.value.day } : { day: current.value.day, fault: sayDayFault(read.error) };
}

export const todayText = (): string => formatDay(readDay('').day);

export function useStanding(book: BookReading | undefined, day: Day): Standing | undefined {
  return useMemo(() => book && standingOn(book, day), [book, day]);
}
