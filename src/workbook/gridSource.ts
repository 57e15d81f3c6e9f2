/** Reads the cells of a marked grid of the shop's: the selection, or all of a sheet. The sheet is only read. */
import type { MergedCells } from '../keying/scheduleRead.ts';
import { err, ok, type Result } from '../keying/result.ts';
import { sliceCells, type Cells } from './cells.ts';
import type { ExcelTrouble } from './excelErrors.ts';
import type { Box } from './places.ts';
import { readScheduleSheet } from './schedule.ts';
import { readTarget } from './target.ts';

export interface GridSource {
  readonly box: Box;
  readonly values: Cells;
  /** Name of the table, where the selection lies in one. */
  readonly table?: string;
  /** Merged cells, within the box. */
  readonly merged: readonly MergedCells[];
}

/** A single selected cell stands for the filled block around it. */
export async function readGridSource(
  request: 'selection' | { readonly sheet: string },
): Promise<Result<GridSource, ExcelTrouble>> {
  if (request !== 'selection') {
    const sheet = await readScheduleSheet(request.sheet);
    return sheet.ok ? ok(sheet.value) : sheet;
  }
  const target = await readTarget('selection');
  if (!target.ok) return target;
  const { box, table } = target.value;
  const whole = await readScheduleSheet(box.sheet);
  if (!whole.ok) return whole;
  if (box.rows < 2 || box.columns < 2)
    return err({
      code: 'NoGrid',
      sentence:
        'A grid needs a row of keys and a column of cylinders. Select it whole, or one cell inside it.',
    });
  const down = box.row - whole.value.box.row;
  const right = box.column - whole.value.box.column;
  return ok({
    box,
    values: sliceCells(whole.value.values, whole.value.box, box),
    ...(table !== undefined && { table }),
    merged: whole.value.merged
      .map((area) => ({ ...area, row: area.row - down, column: area.column - right }))
      .filter((area) => area.row + area.rows > 0 && area.column + area.columns > 0),
  });
}
