/** Better spellings for cells of the shop's schedule: only the cells that the user named, old content kept for undo. */
import type { ScheduleFix } from '../keying/scheduleFindings.ts';
import type { ScheduleRole } from '../keying/scheduleWords.ts';
import { isFormula, type Cells } from './cells.ts';
import { formatPlace, type Place } from './places.ts';
import type { WriteBlock, WritePlan } from './plan.ts';
import { PlanBuilder } from './planTable.ts';
import type { BookReading, CellValue } from './reading.ts';
import { scheduleCell, type ScheduleReading } from './schedule.ts';

/** One cell that the user chose to have corrected. */
export interface ChosenFix extends ScheduleFix {
  /** Zero-based row in the schedule's cells. */
  readonly row: number;
  readonly role: ScheduleRole;
}

/**
 * Replaces the content of the chosen cells by the spelling that was offered; refuses where a cell holds a formula or
 * something else by now.
 */
export function planScheduleFixes(
  book: BookReading,
  reading: ScheduleReading,
  fixes: readonly ChosenFix[],
): WritePlan {
  const builder = new PlanBuilder(book);
  const { box } = reading.sheet;
  const { columns } = reading.guess;
  if (reading.sheet.protected)
    builder.conflict(`The sheet ${box.sheet} is protected: take the protection off first.`);
  if (reading.sheet.filtered)
    builder.conflict(
      `The sheet ${box.sheet} is filtered, and writing would miss its hidden rows: clear the filter first.`,
    );
  const sound = fixes.flatMap((fix): Cell[] => {
    const column = columns[fix.role];
    const held = (cells: Cells): CellValue => (column === undefined ? '' : (cells[fix.row]?.[column] ?? ''));
    const [now, value] = [held(reading.sheet.formulas), held(reading.sheet.values)];
    const bar = (sentence: string): Cell[] => {
      builder.conflict(sentence, scheduleCell(box, columns, fix.row, fix.role), String(now));
      return [];
    };
    if (column === undefined || String(value) !== fix.from)
      return bar('This cell has changed since it was checked. Check the schedule again.');
    if (isFormula(now, value))
      return bar('This cell holds a formula, which is not written over. Correct what it refers to.');
    return [{ row: fix.row, column, now, to: fix.to }];
  });
  builder.steps.push(...runsOf(sound).map((run) => blockOf(box, run)));
  if (sound.length > 0)
    builder.effects.push({ kind: 'cells', sheet: box.sheet, rows: sound.length, what: 'cells corrected' });
  return builder.plan(`Correct ${sound.length} ${sound.length === 1 ? 'keyset symbol' : 'keyset symbols'}`);
}

interface Cell {
  readonly row: number;
  readonly column: number;
  readonly now: CellValue;
  readonly to: string;
}

/** Cells below each other, so that they go in one request. */
function runsOf(cells: readonly Cell[]): Cell[][] {
  const runs: Cell[][] = [];
  for (const cell of [...cells].sort((a, b) => a.column - b.column || a.row - b.row)) {
    const last = runs.at(-1)?.at(-1);
    if (last && last.column === cell.column && last.row + 1 === cell.row) runs.at(-1)!.push(cell);
    else runs.push([cell]);
  }
  return runs;
}

const blockOf = (box: ScheduleReading['sheet']['box'], run: readonly Cell[]): WriteBlock => ({
  kind: 'write',
  sheet: box.sheet,
  row: box.row + run[0]!.row,
  column: box.column + run[0]!.column,
  cells: run.map(({ to }) => [to]),
  // a symbol such as 1E5 would turn into a number
  formats: ['text'],
  expected: run.map(({ now }) => [now]),
});

/** Old and new content of the chosen cells, to be shown beside the plan. */
export const fixLines = (
  reading: ScheduleReading,
  fixes: readonly ChosenFix[],
): { readonly at: Place; readonly shown: string; readonly from: string; readonly to: string }[] =>
  fixes.map(({ row, role, from, to }) => {
    const at = scheduleCell(reading.sheet.box, reading.guess.columns, row, role);
    return { at, shown: formatPlace(at), from, to };
  });
