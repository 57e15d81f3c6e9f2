/** Dates in cells: typed as text, or a cell's number. Dates that we write are text, year first (`2026-03-14`): they
 * mean the same under every country's settings and in both of a workbook's date systems, and sort as they stand. */
import { z } from 'zod';
import { parseMoment, sayDayFault, type Moment } from '../keying/calendar.ts';
import { isBlank } from './fields.ts';
import type { CellValue } from './reading.ts';

const cell: z.ZodType<CellValue, CellValue> = z.union([z.string(), z.number(), z.boolean()]);

function moment(value: CellValue, ctx: z.RefinementCtx): Moment | undefined {
  if (isBlank(value)) return undefined;
  const read = parseMoment(typeof value === 'boolean' ? String(value) : value);
  if (read.ok) return read.value;
  ctx.addIssue({ code: 'custom', message: sayDayFault(read.error) });
  return undefined;
}

/** A day, with its minute where the cell has one; blank gives undefined. */
export const dayField: z.ZodType<Moment | undefined, CellValue> = cell.transform(moment);

/** As `dayField`, but a blank cell is a fault. */
export const neededDay: z.ZodType<Moment | undefined, CellValue> = cell.transform((value, ctx) => {
  if (isBlank(value))
    ctx.addIssue({ code: 'custom', message: 'There is no date here. Type one, year first.' });
  return moment(value, ctx);
});

/** A time of day as minutes: `9:30`, `09:30`, or a cell's fraction of a day; blank gives undefined. */
export const timeField: z.ZodType<number | undefined, CellValue> = cell.transform((value, ctx) => {
  if (isBlank(value)) return undefined;
  if (typeof value === 'number' && value >= 0 && value < 1) return Math.min(1439, Math.round(value * 1440));
  const [, hour, minute] = /^(\d{1,2})[:.](\d{2})(?::\d{2})?$/.exec(String(value).trim()) ?? [];
  const minutes = Number(hour) * 60 + Number(minute);
  // without a match both are NaN, which is less than nothing
  if (minutes < 1440 && Number(minute) < 60) return minutes;
  ctx.addIssue({ code: 'custom', message: `“${String(value)}” is not a time of day, such as 09:30.` });
  return undefined;
});
