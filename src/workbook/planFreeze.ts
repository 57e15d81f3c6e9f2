/**
 * Formulas of ours become the values that they show now, in a table of ours or in the selection. Only cells that are
 * nothing but one call of ours are frozen. Left as they are: errors, which would stay for good, and calls that fill
 * the cells around them, which would empty those.
 */
import { err, ok, type Result } from '../keying/result.ts';
import { isSheetError } from '../keying/sheetError.ts';
import { isFormula, loadBox } from './cells.ts';
import { runReading, type ExcelTrouble } from './excelErrors.ts';
import { findTable } from './find.ts';
import { place, type Box, type Place } from './places.ts';
import type { ColumnFormat, WritePlan } from './plan.ts';
import { reportObstacles } from './planRows.ts';
import { PlanBuilder } from './planTable.ts';
import type { BookReading, CellValue } from './reading.ts';

/** Cells that may hold formulas of ours, values beside formulas. */
export interface FreezeSource {
  readonly box: Box;
  readonly values: readonly (readonly CellValue[])[];
  readonly formulas: readonly (readonly CellValue[])[];
  readonly protected: boolean;
}

export interface Freeze {
  readonly plan: WritePlan;
  /** Formulas of ours that stay formulas: they show an error, or fill the cells around them. */
  readonly left: readonly Place[];
}

/** Functions of ours that answer in one cell. */
export const ONE_CELL =
  /^=\s*(?:@\s*)?KEYROW\.(?:BITTING|CHANGES|CHECK|CORESTACK|CORESTACKWHY|CUTCENTRE|DECODE|DECODEWHY|FITSPEC|GEOMETRICMACS|JUDGE|OPERATES|OPERATESWHY|OPERATINGCOUNT|PASSES|PINSTACK|PINSTACKWHY|ROOTDEPTH|USABLECHANGES|WHY)\(/i;
const OURS = /^=\s*(?:@\s*)?KEYROW\./i;
const NOTHING: ExcelTrouble = {
  code: 'NothingSelected',
  sentence: 'There is nothing in these cells. Select cells with formulas of the add-in.',
};

/** The cells of a table of ours; undefined where it is gone. */
export function freezeTable(book: BookReading, name: string): FreezeSource | undefined {
  const table = findTable(book.tables, name);
  if (!table) return undefined;
  return {
    box: { ...table.box, row: table.box.row + 1, rows: table.box.rows - 1 },
    values: table.values,
    formulas: table.formulas,
    protected: book.sheets.some((sheet) => sheet.name === table.sheet && sheet.protected),
  };
}

/** The selected cells, as far as the sheet is filled. */
export async function readFreezeSource(): Promise<Result<FreezeSource, ExcelTrouble>> {
  const read = await runReading(async (context): Promise<FreezeSource | undefined> => {
    const asked = context.workbook.getSelectedRange();
    const { worksheet } = asked;
    worksheet.load('name');
    worksheet.protection.load('protected');
    const used = worksheet.getUsedRangeOrNullObject(true);
    used.load('address');
    await context.sync();
    if (used.isNullObject) return undefined;
    const range = asked.getIntersectionOrNullObject(used);
    range.load('rowIndex,columnIndex,rowCount,columnCount');
    await context.sync();
    if (range.isNullObject) return undefined;
    const box = {
      sheet: worksheet.name,
      row: range.rowIndex,
      column: range.columnIndex,
      rows: range.rowCount,
      columns: range.columnCount,
    };
    return { box, ...(await loadBox(context, box)), protected: worksheet.protection.protected };
  });
  if (!read.ok) return read;
  return read.value ? ok(read.value) : err(NOTHING);
}

/** Tables of ours with something to freeze, in the order of the workbook. */
export const freezableTables = (book: BookReading): { readonly name: string; readonly sheet: string }[] =>
  book.tables
    .filter((table) => table.formulas.some((row) => row.some((cell) => ONE_CELL.test(String(cell)))))
    .map(({ name, sheet }) => ({ name, sheet }));

/**
 * Text becomes text cells, so that a code keeps its zeros; numbers stay numbers.
 * @example describePlan(planFreeze(book, freezeTable(book, 'KeyrowKeys')!).plan).sentence
 *   → 'Changes 64 cells of Keys; touches nothing else.'
 */
export function planFreeze(book: BookReading, source: FreezeSource): Freeze {
  const builder = new PlanBuilder(book);
  const { box, values, formulas } = source;
  const left: Place[] = [];
  let frozen = 0;
  for (let c = 0; c < box.columns; c++) {
    let run: Run | undefined;
    for (let r = 0; r < box.rows; r++) {
      const value = values[r]?.[c] ?? '';
      const formula = formulas[r]?.[c] ?? '';
      const ours = OURS.test(String(formula)) && isFormula(formula, value);
      if (!ours || !ONE_CELL.test(String(formula)) || isSheetError(String(value))) {
        if (ours) left.push(place(box.sheet, box.row + r, box.column + c));
        run = undefined;
        continue;
      }
      const format = typeof value === 'string' ? 'text' : 'general';
      if (run?.format !== format) {
        run = { row: box.row + r, format, cells: [], expected: [] };
        builder.steps.push({ ...base(box, c, run), formats: [format] });
      }
      run.cells.push([value]);
      run.expected.push([formula]);
      frozen++;
    }
  }
  if (frozen > 0) {
    reportBars(builder, source);
    builder.effects.push({ kind: 'cells', sheet: box.sheet, rows: frozen, what: 'formulas frozen' });
  }
  return { plan: builder.plan('Freeze to values'), left };
}

interface Run {
  readonly row: number;
  readonly format: ColumnFormat;
  readonly cells: CellValue[][];
  readonly expected: CellValue[][];
}

const base = (box: Box, column: number, { row, cells, expected }: Run) =>
  ({ kind: 'write', sheet: box.sheet, row, column: box.column + column, cells, expected }) as const;

function reportBars(builder: PlanBuilder, { box, protected: barred }: FreezeSource): void {
  const meets = builder.book.tables.filter(
    (t) =>
      t.sheet === box.sheet &&
      t.box.row < box.row + box.rows &&
      box.row < t.box.row + t.box.rows &&
      t.box.column < box.column + box.columns &&
      box.column < t.box.column + t.box.columns,
  );
  for (const table of meets) reportObstacles(builder, table);
  if (barred && meets.length === 0)
    builder.conflict(
      `The sheet ${box.sheet} is protected: take the protection off first.`,
      place(box.sheet, box.row, box.column),
    );
}
