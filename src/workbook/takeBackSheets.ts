/** Taking away sheets that a plan added, and never one with anything on it that isn't the plan's. */
import { arrived, ownThings, type Block, type OwnThings } from './blocks.ts';
import { loadBox } from './cells.ts';
import { isBlank } from './fields.ts';
import { fold } from './names.ts';
import { contains, place, type Box } from './places.ts';
import type { Conflict } from './plan.ts';
import type { CellValue } from './reading.ts';

/** Whether a filled cell is one of ours. */
export type IsOurs = (row: number, column: number, value: CellValue, formula: CellValue) => boolean;

/** Cells that hold just what the blocks of a plan put there. */
export function writtenBy(blocks: readonly Block[]): IsOurs {
  return (row, column, value, formula) =>
    blocks.some(
      ({ box, cells }) =>
        contains(box, row, column) && arrived(cells[row - box.row]![column - box.column]!, value, formula),
    );
}

/** Takes a sheet away, unless there is something of somebody else's on it: that is told, and nothing happens. */
export async function removeSheet(
  context: Excel.RequestContext,
  id: string,
  isOurs: IsOurs,
  own: OwnThings,
): Promise<Conflict[]> {
  const sheet = context.workbook.worksheets.getItemOrNullObject(id);
  sheet.load('name');
  await context.sync();
  if (sheet.isNullObject) return [];
  const strangers = await strangersOn(context, sheet, isOurs, own);
  if (strangers.length > 0) return strangers;
  sheet.delete();
  await context.sync();
  return [];
}

/**
 * The answer to adding this sheet never came, so one of its name may be ours or may be somebody else's. Ours would
 * still be empty, since nothing is written before the answer; a sheet with anything on it is left alone. Ours may even have
 * another name by now: an empty sheet that is not among those that are `known` is told of.
 */
export async function removeUnconfirmed(
  context: Excel.RequestContext,
  name: string,
  known: ReadonlySet<string>,
): Promise<Conflict[]> {
  const sheet = context.workbook.worksheets.getItemOrNullObject(name);
  const { worksheets } = context.workbook;
  sheet.load('id');
  worksheets.load('items/name,items/id');
  await context.sync();
  if (sheet.isNullObject) {
    const kept: Conflict[] = [];
    for (const one of worksheets.items.filter(({ id }) => !known.has(id)))
      if (await isEmpty(context, one)) kept.push(perhapsOurs(one.name));
    return kept;
  }
  if (!(await isEmpty(context, sheet))) return [];
  sheet.delete();
  await context.sync();
  return [];
}

const isEmpty = async (context: Excel.RequestContext, sheet: Excel.Worksheet): Promise<boolean> =>
  (await strangersOn(context, sheet, () => false, ownThings([]))).length === 0;

const perhapsOurs = (name: string): Conflict => ({
  sentence: `The empty sheet ${name} may have been added by this write and renamed since. Delete it if nobody needs it.`,
});

const KEPT = 'so the sheet is kept. Move it, then delete the sheet';

/** Everything on a sheet that isn't ours: filled cells and tables, and charts, pivot tables, pictures and comments in any case. */
export async function strangersOn(
  context: Excel.RequestContext,
  sheet: Excel.Worksheet,
  isOurs: IsOurs,
  own: OwnThings,
): Promise<Conflict[]> {
  const used = sheet.getUsedRangeOrNullObject(true);
  used.load('rowIndex,columnIndex,rowCount,columnCount');
  sheet.load('name');
  sheet.tables.load('items/name');
  sheet.shapes.load('items/name');
  const drawings = [
    ['chart', sheet.charts.getCount()],
    ['comment', sheet.comments.getCount()],
    ['pivot table', sheet.pivotTables.getCount()],
  ] as const;
  await context.sync();
  const found: Conflict[] = sheet.tables.items
    .filter((table) => !own.tables.has(fold(table.name)))
    .map((table) => ({ sentence: `The table ${table.name} on ${sheet.name} isn’t ours, ${KEPT}.` }));
  if (!used.isNullObject) {
    const box: Box = {
      sheet: sheet.name,
      row: used.rowIndex,
      column: used.columnIndex,
      rows: used.rowCount,
      columns: used.columnCount,
    };
    const { values, formulas } = await loadBox(context, box);
    formulas.forEach((row, r) =>
      row.forEach((formula, c) => {
        const at = { row: box.row + r, column: box.column + c };
        if (isBlank(formula) || isOurs(at.row, at.column, values[r]?.[c] ?? '', formula)) return;
        found.push({
          at: place(sheet.name, at.row, at.column),
          holds: String(formula),
          sentence: `This cell was filled or changed meanwhile, ${KEPT}.`,
        });
      }),
    );
  }
  for (const { name } of sheet.shapes.items)
    if (!own.pictures.has(fold(name)))
      found.push({
        sentence: `“${name}” was put on the sheet ${sheet.name} since; taking the sheet away would lose it. Move it first.`,
      });
  for (const [what, count] of drawings)
    if (count.value > 0) found.push({ sentence: `There is a ${what} on ${sheet.name}, ${KEPT}.` });
  return found;
}
