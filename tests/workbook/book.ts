/** What the tests of this room share: reading the open workbook, and a picture of everything in it. */
import { applyPlan, openBook, planNewSystem } from '../../src/workbook/index.ts';
import type { ApplyOutcome, BookReading, NewSystem, UndoPlan, WritePlan } from '../../src/workbook/index.ts';
import { parseAddress } from '../../src/workbook/places.ts';
import type { WorkbookModel } from '../../src/preview/model/index.ts';
import type { OpenBook } from '../support/office.ts';

export const MADE = { made: '24 Nov 2026' };

export async function reading(): Promise<BookReading> {
  const read = await openBook();
  if (!read.ok) throw new Error(read.error.sentence);
  return read.value;
}

export async function write(plan: WritePlan): Promise<UndoPlan> {
  return undoOf(await applyPlan(plan));
}

export function undoOf(outcome: ApplyOutcome): UndoPlan {
  if (outcome.outcome !== 'done' || !outcome.undo)
    throw new Error(`${outcome.sentence} ${JSON.stringify('reasons' in outcome ? outcome.reasons : [])}`);
  return outcome.undo;
}

export const writeSystem = async (made: NewSystem): Promise<UndoPlan> =>
  write(planNewSystem(await reading(), made, MADE));

export type Picture = Readonly<Record<string, unknown>>;

/** Every filled cell with its content and format, every table with its place; the looks of sheets are left out. */
export function picture(model: WorkbookModel): Picture {
  const sheets = model.sheets.map((sheet) => {
    const cells = [...sheet.cells.all()]
      .filter(({ cell }) => cell.value !== null || cell.formula !== undefined)
      .map(({ row, column, cell }) => [
        `${row},${column}`,
        {
          value: cell.formula === undefined ? cell.value : undefined,
          formula: cell.formula,
          format: cell.style?.numberFormat,
        },
      ]);
    return [sheet.layout.name, Object.fromEntries(cells)];
  });
  const tables = model.tables.map((table) => [table.name, table.area]);
  return { ...Object.fromEntries(sheets), tables: Object.fromEntries(tables) };
}

/** The value of one cell. */
export function at(model: WorkbookModel, sheet: string, address: string): unknown {
  const box = parseAddress(address);
  if (!box) throw new Error(`no address: ${address}`);
  return model.value(sheet, box.row, box.column);
}

/** Types text into cells, as a person would. */
export async function put(
  book: OpenBook,
  sheet: string,
  cells: Readonly<Record<string, string>>,
): Promise<void> {
  await book.run(async (context) => {
    const target = context.workbook.worksheets.getItem(sheet);
    for (const [address, text] of Object.entries(cells)) target.getRange(address).values = [[text]];
    await context.sync();
  });
}
