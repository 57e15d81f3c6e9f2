/**
 * Reads everything of ours in a workbook. Tables are found by their names, wherever they are and whatever the sheet
 * is called by now. Three rounds: names, places, contents (in blocks).
 */
import { brief } from '../keying/words.ts';
import { readSpecTable } from '../keying/specTable.ts';
import { saySpecFault } from '../keying/specWording.ts';
import type { Result } from '../keying/result.ts';
import { loadBox, sliceCells, type BoxContent } from './cells.ts';
import { runReading, type ExcelTrouble } from './excelErrors.ts';
import { findTable } from './find.ts';
import { isOurs, TABLES } from './names.ts';
import { place, type Box } from './places.ts';
import type { BookReading, Problem, SheetReading, SpecReading, TableReading } from './reading.ts';
import { readAllSystems } from './assemble.ts';

/** Reads the whole book in a run of its own. */
export const openBook = (): Promise<Result<BookReading, ExcelTrouble>> => runReading(readBook);

/** The same within a run of the caller's. */
export async function readBook(context: Excel.RequestContext): Promise<BookReading> {
  const raw = await loadBook(context);
  const problems: Problem[] = [];
  const specs = readSpecs(raw.tables, problems);
  const systems = readAllSystems(raw.tables, specs, problems);
  const readable = problems.map((one) => ({ ...one, sentence: brief(one.sentence) }));
  return { ...raw, specs, systems, problems: readable, summary: summarise(specs, systems, problems) };
}

type RawBook = Pick<BookReading, 'tables' | 'sheets' | 'structureProtected' | 'tableNames'>;

async function loadBook(context: Excel.RequestContext): Promise<RawBook> {
  const { worksheets, tables, protection } = context.workbook;
  worksheets.load('items/name,items/visibility');
  tables.load('items/name,items/showTotals');
  protection.load('protected');
  await context.sync();

  const ours = tables.items
    .filter((table) => isOurs(table.name))
    .map((table) => {
      const range = table.getRange();
      range.load('rowIndex,columnIndex,rowCount,columnCount');
      table.worksheet.load('name');
      table.autoFilter.load('isDataFiltered');
      return { table, range };
    });
  const sheets = worksheets.items.map((sheet) => {
    sheet.protection.load('protected');
    const used = sheet.getUsedRangeOrNullObject(true);
    used.load('rowIndex,columnIndex,rowCount,columnCount');
    return { sheet, used };
  });
  await context.sync();

  const homes = new Set(ours.map(({ table }) => table.worksheet.name));
  const contents = new Map<string, BoxContent>();
  const readings: SheetReading[] = [];
  for (const { sheet, used } of sheets) {
    const box = used.isNullObject ? undefined : boxOf(sheet.name, used);
    const content = box && homes.has(sheet.name) ? await loadBox(context, box) : undefined;
    if (content) contents.set(sheet.name, content);
    readings.push({
      name: sheet.name,
      visible: sheet.visibility === 'Visible',
      protected: sheet.protection.protected,
      ...(box && { used: box }),
      ...(content && { values: content.values, formulas: content.formulas }),
    });
  }
  return {
    sheets: readings,
    tables: ours.map(({ table, range }): TableReading => {
      const whole = boxOf(table.worksheet.name, range);
      const box = { ...whole, rows: whole.rows - (table.showTotals ? 1 : 0) };
      const from = readings.find((s) => s.name === box.sheet)?.used ?? box;
      const content = contents.get(box.sheet) ?? { values: [], formulas: [] };
      const [header = [], ...values] = sliceCells(content.values, from, box);
      return {
        name: table.name,
        sheet: box.sheet,
        box,
        headers: header.map((h) => String(h).trim()),
        values,
        formulas: sliceCells(content.formulas, from, box).slice(1),
        totals: table.showTotals,
        filtered: table.autoFilter.isDataFiltered,
      };
    }),
    structureProtected: protection.protected,
    tableNames: tables.items.map((table) => table.name),
  };
}

function boxOf(sheet: string, range: Excel.Range): Box {
  return {
    sheet,
    row: range.rowIndex,
    column: range.columnIndex,
    rows: range.rowCount,
    columns: range.columnCount,
  };
}

function readSpecs(tables: readonly TableReading[], problems: Problem[]): SpecReading[] {
  const table = findTable(tables, TABLES.Specs);
  if (!table) return [];
  const read = readSpecTable([table.headers, ...table.values]);
  for (const fault of read.faults)
    problems.push({
      ...place(table.sheet, table.box.row + fault.row, table.box.column + Math.max(0, fault.at)),
      severity: 'fault',
      sentence: saySpecFault(fault),
    });
  return read.rows.map(({ row, name, spec }) => ({
    name,
    at: place(table.sheet, table.box.row + row, table.box.column),
    ...(spec && { spec }),
  }));
}

function summarise(
  specs: readonly SpecReading[],
  systems: BookReading['systems'],
  problems: readonly Problem[],
): BookReading['summary'] {
  const total = (count: (system: BookReading['systems'][number]) => number): number =>
    systems.reduce((sum, system) => sum + count(system), 0);
  return {
    specs: specs.length,
    systems: systems.length,
    keys: total((s) => s.keys.length),
    cylinders: total((s) => s.cylinders.length),
    marks: total((s) => s.grid?.marks.length ?? 0),
    faults: problems.filter((p) => p.severity === 'fault').length,
    warnings: problems.filter((p) => p.severity === 'warning').length,
  };
}
