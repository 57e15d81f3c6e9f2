import { ProgrammerError, type Result } from '../keying/result.ts';
import type { ExcelTrouble } from './excelErrors.ts';
import type { Place } from './places.ts';
import type { CellValue, Problem } from './reading.ts';

/** Headings of the shop's own sheet, zero-based columns from the left of the block. */
export interface ScheduleColumns {
  readonly headerRow: number;
  readonly door: number;
  readonly location?: number;
  readonly symbol?: number;
  readonly quantity?: number;
  readonly cylinder?: number;
}
export interface ScheduleGuess {
  readonly sheet: string;
  readonly columns: ScheduleColumns;
  readonly headers: readonly string[];
  /** Headings of the guessed columns, for the user to confirm. */
  readonly rows: number;
}
export interface ScheduleRow {
  readonly door: string;
  readonly location?: string;
  readonly symbol?: string;
  readonly cylinder?: string;
  readonly quantity: number;
  readonly at: Place;
}
/** Finds a header row in the values of a sheet, also below a title block. Rows and columns count from the block's first cell. */
export function findSchedule(
  _values: readonly (readonly CellValue[])[],
): { readonly columns: ScheduleColumns; readonly headers: readonly string[] } | undefined {
  throw new ProgrammerError('not written yet');
}
/** Reads a sheet of the shop's; columns are guessed when not given. */
export async function readSchedule(
  _sheet: string,
  _columns?: ScheduleColumns,
): Promise<
  Result<
    {
      readonly guess: ScheduleGuess;
      readonly rows: readonly ScheduleRow[];
      readonly problems: readonly Problem[];
    },
    ExcelTrouble
  >
> {
  throw new ProgrammerError('not written yet');
}
