/** A column of check formulas beside the shop's own codes: the one plan that touches a sheet of the shop's. */
import { starterSpec } from '../keying/starters.ts';
import { specNamed } from './find.ts';
import { isBlank } from './fields.ts';
import { checkCode, headerReference } from './formulas.ts';
import { boxAddress, cellAddress, place, type Box } from './places.ts';
import type { WritePlan } from './plan.ts';
import { addSpecs } from './planSpecs.ts';
import { PlanBuilder } from './planTable.ts';
import type { BookReading } from './reading.ts';
import type { TargetReading } from './target.ts';

export interface CheckColumn {
  /** Index of the column with the codes in the target's headers. */
  readonly codes: number;
  /** Name of a spec in the book, or of a starter spec, which is then added to the book. */
  readonly spec: string;
  /** Heading of the new column; default "Bitting check". */
  readonly heading?: string;
  /** Date for the sheet Specs, where it has to be added. */
  readonly made?: string;
}

/** Adds a column of check formulas just right of the target. Cells there that aren't empty are conflicts. */
export function planCheckColumn(book: BookReading, target: TargetReading, column: CheckColumn): WritePlan {
  const builder = new PlanBuilder(book);
  const heading = column.heading ?? 'Bitting check';
  const { box, table, values } = target;
  const spec = specNamed(book.specs, column.spec) ?? starterSpec(column.spec);
  if (!spec) builder.conflict(`There is no sound spec ${column.spec} in this workbook. Add or correct it.`);
  else addSpecs(builder, [spec], column.made ?? 'for a bitting check');
  reportObstacles(builder, target);
  const headed = values.length < box.rows;
  const at: Box = { ...box, column: box.column + box.columns, columns: 1 };
  const first = at.row + at.rows - values.length;
  target.right.forEach((cell, r) => {
    if (!isBlank(cell))
      builder.conflict(
        'The check would go here, but the cell is not empty. Move its content or insert an empty column.',
        place(box.sheet, box.row + r, at.column),
        String(cell),
      );
  });
  if (headed)
    builder.steps.push({
      kind: 'write',
      sheet: box.sheet,
      row: at.row,
      column: at.column,
      cells: [[heading]],
      formats: ['text'],
      expected: 'empty',
    });
  if (table !== undefined)
    builder.steps.push({
      kind: 'resize-table',
      name: table,
      from: box,
      to: { ...box, columns: box.columns + 1 },
    });
  const code = (row: number): string =>
    table === undefined
      ? cellAddress(first + row, box.column + column.codes)
      : `${table}[@[${headerReference(target.headers[column.codes] ?? '')}]]`;
  builder.steps.push({
    kind: 'write',
    sheet: box.sheet,
    row: first,
    column: at.column,
    cells: values.map((_, r) => [{ formula: checkCode(code(r), column.spec) }]),
    formats: ['general'],
    expected: 'empty',
  });
  builder.effects.push({
    kind: 'column',
    sheet: box.sheet,
    rows: values.length,
    heading,
    what: 'new column',
    beside: table ?? `${box.sheet}!${boxAddress(box)}`,
  });
  return builder.plan(`Add the column ${heading}`);
}

function reportObstacles(builder: PlanBuilder, target: TargetReading): void {
  const at = place(target.box.sheet, target.box.row, target.box.column);
  if (target.values.length === 0)
    builder.conflict('There are no codes here. Select the cells with the codes.', at);
  if (target.protected)
    builder.conflict(`The sheet ${at.sheet} is protected: take the protection off first.`, at);
  if (target.filtered) builder.conflict('The cells are filtered: clear the filter first.', at);
  if (target.merged) builder.conflict('There are merged cells among these. Unmerge them first.', at);
  if (target.totals) builder.conflict('The table has a totals row: switch it off first.', at);
}
