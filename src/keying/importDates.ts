/**
 * Codes that a spreadsheet took for dates. `11-12-13` typed into a General cell becomes 12 November 2013, and what was
 * typed is gone; several codes may have been it. They are offered, never chosen. Serial dates count days from
 * 30 December 1899, the 1900 date system of spreadsheets (ISO/IEC 29500-1, 18.17.4).
 */
import { formatBitting, parseBitting } from './bitting.ts';
import type { Specification } from './specification.ts';

export interface WrittenDate {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const DAY_MS = 86_400_000;
const EPOCH = Date.UTC(1899, 11, 30);

/** A serial number as a date. @example dateOfSerial(41590) → { year: 2013, month: 11, day: 12 } */
export function dateOfSerial(serial: number): WrittenDate {
  const date = new Date(EPOCH + Math.floor(serial) * DAY_MS);
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() };
}

const isDay = (year: number, month: number, day: number): boolean =>
  month >= 1 && month <= 12 && day >= 1 && day <= new Date(Date.UTC(year, month, 0)).getUTCDate();

/**
 * Text that can only be a date: with the name of a month, or with a year of this or the last century written out.
 * @example readDate('12-Nov-2013') → { year: 2013, month: 11, day: 12 }
 * @example readDate('11-12-13') → undefined, since that may well be a code
 */
export function readDate(text: string): WrittenDate | undefined {
  const iso = /^((?:19|20)\d\d)[-/.](\d{1,2})[-/.](\d{1,2})(?:[ T][\d:.]+Z?)?$/.exec(text);
  if (iso) return dateFrom(Number(iso[1]), Number(iso[2]), Number(iso[3]));
  const written = /^(\d{1,2})[-/.](\d{1,2})[-/.]((?:19|20)\d\d)(?: [\d:.]+)?$/.exec(text);
  if (written) {
    const [a, b, year] = [Number(written[1]), Number(written[2]), Number(written[3])];
    return dateFrom(year, a, b) ?? dateFrom(year, b, a);
  }
  const named = /^(\d{1,2})[-/. ]([A-Za-z]{3})[a-z]*(?:[-/. ](\d{2}|\d{4}))?$/.exec(text);
  const month = named ? MONTHS.indexOf(named[2]!.toLowerCase()) + 1 : 0;
  if (named && month > 0) {
    const year = named[3] === undefined ? 2000 : Number(named[3]);
    return dateFrom(year < 100 ? 2000 + year : year, month, Number(named[1]));
  }
  const monthYear = /^([A-Za-z]{3})[a-z]*[-/. ](\d{2}|\d{4})$/.exec(text);
  const only = monthYear ? MONTHS.indexOf(monthYear[1]!.toLowerCase()) + 1 : 0;
  if (!monthYear || only === 0) return undefined;
  const year = Number(monthYear[2]);
  return dateFrom(year < 100 ? 2000 + year : year, only, 1);
}

const dateFrom = (year: number, month: number, day: number): WrittenDate | undefined =>
  isDay(year, month, day) ? { year, month, day } : undefined;

/**
 * Codes of a spec that somebody may have typed where a date stands now, each once.
 * @example codesBehind(spec of six cuts, { year: 2013, month: 11, day: 12 }) → ['111213', '121113', '131112']
 */
export function codesBehind(spec: Specification, { year, month, day }: WrittenDate): string[] {
  const short = String(year % 100).padStart(2, '0');
  const [m, d] = [String(month), String(day)];
  const typed = [
    m + d + short,
    d + m + short,
    short + m + d,
    short + m.padStart(2, '0') + d.padStart(2, '0'),
    m.padStart(2, '0') + d.padStart(2, '0') + short,
    d.padStart(2, '0') + m.padStart(2, '0') + short,
    ...(day === 1 ? [m + String(year), m.padStart(2, '0') + String(year)] : []),
  ];
  const found = typed.flatMap((code) => {
    const read = parseBitting(spec, code);
    return read.ok ? [formatBitting(spec, read.value)] : [];
  });
  return [...new Set(found)];
}
