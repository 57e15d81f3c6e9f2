/**
 * A list of codes in the sheet, cell by cell as it stands there, with those numbers told apart that the sheet shows as
 * dates: a date that was a code looks like any number otherwise.
 */
import type { DateCell, ImportCell } from '../keying/importCode.ts';
import { err, ok, type Result } from '../keying/result.ts';
import { rangeOf, rowBlocks, toCells } from './cells.ts';
import { runReading, type ExcelTrouble } from './excelErrors.ts';
import { readTarget, type TargetReading, type TargetRequest } from './target.ts';

export interface CodeRows {
  readonly target: TargetReading;
  /** From the first row of the target's box on, its header row included. */
  readonly rows: readonly (readonly ImportCell[])[];
}

/** Reads a block of cells as `readTarget` does, with dates told apart. */
export async function readCodeRows(request: TargetRequest): Promise<Result<CodeRows, ExcelTrouble>> {
  const found = await readTarget(request);
  if (!found.ok) return found;
  const target = found.value;
  const rows: ImportCell[][] = [
    ...(target.values.length < target.box.rows ? [[...target.headers]] : []),
    ...target.values.map((row) => [...row]),
  ];
  const dates = await runReading((context) => markDates(context, target, rows));
  return dates.ok ? ok({ target, rows }) : err(dates.error);
}

async function markDates(
  context: Excel.RequestContext,
  { box }: TargetReading,
  rows: ImportCell[][],
): Promise<void> {
  if (!rows.some((row) => row.some((cell) => typeof cell === 'number'))) return;
  for (const { start, count } of rowBlocks(box.rows, box.columns)) {
    const range = rangeOf(context, { ...box, row: box.row + start, rows: count });
    range.load('numberFormat,text');
    // eslint-disable-next-line office-addins/no-context-sync-in-loop -- a block is as much as one answer may hold
    await context.sync();
    const [formats, texts] = [toCells(range.numberFormat), toCells(range.text)];
    rows.slice(start, start + count).forEach((row, r) => {
      row.forEach((cell, c) => {
        if (typeof cell !== 'number') return;
        const format = String(formats[r]?.[c] ?? '');
        const shown = String(texts[r]?.[c] ?? cell);
        if (isDateFormat(format)) row[c] = { serial: cell, shown } satisfies DateCell;
        // a number that the sheet shows with its leading zeros is a code to the person who reads it
        else if (/^0{2,}$/.test(format)) row[c] = shown;
      });
    });
  }
}

/**
 * Whether a number format shows dates: it has a day, a month or a year outside quotes, escapes and brackets.
 * @example isDateFormat('d-mmm-yy') → true; isDateFormat('General') → false; isDateFormat('0.00 "dm"') → false
 */
export function isDateFormat(format: string): boolean {
  const bare = format.replace(/"[^"]*"|\\.|_.|\*.|\[[^\]]*\]|general/gi, '');
  return /[dy]/i.test(bare) || /m{3}/i.test(bare);
}
