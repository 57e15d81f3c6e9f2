/**
 * Who refers to a sheet without a formula in a cell: rules of data validation, conditional formats, charts, pivot tables.
 * What this version of Excel, or anyone, can't tell is said too: it is for the person to look at.
 */
import { explain } from './excelErrors.ts';
import type { Conflict } from './plan.ts';
import { parseAddress, place } from './places.ts';

/** Whether a formula refers to what would be taken away. */
export type Refers = (formula: unknown) => boolean;

export interface Beside {
  readonly found: readonly Conflict[];
  /** Sentences about what could not be looked into. */
  readonly doubts: readonly string[];
}

const FIRST = 'Change or delete it first.';
const supports = (version: string): boolean =>
  Office.context.requirements.isSetSupported('ExcelApi', version);

/** Looks through the sheets that stay. Only reads. */
export async function referencesBeside(
  context: Excel.RequestContext,
  staying: readonly Excel.Worksheet[],
  refers: Refers,
): Promise<Beside> {
  const parts = [
    await inFormats(context, staying, refers),
    await inValidations(context, staying, refers),
    await inCharts(context, staying, refers),
    await inPivots(context, staying, refers),
  ];
  return { found: parts.flatMap(({ found }) => found), doubts: parts.flatMap(({ doubts }) => doubts) };
}

async function inFormats(
  context: Excel.RequestContext,
  staying: readonly Excel.Worksheet[],
  refers: Refers,
): Promise<Beside> {
  if (!supports('1.6')) return { found: [], doubts: [] };
  const formats = staying.map((sheet) => sheet.getRange().conditionalFormats);
  for (const list of formats) list.load('items/type');
  await context.sync();
  const rules = formats.flatMap((list, s) =>
    list.items.flatMap((format) => {
      const { name } = staying[s]!;
      if (format.type === 'Custom') {
        format.custom.rule.load('formula');
        return [{ name, formulas: (): unknown[] => [format.custom.rule.formula] }];
      }
      if (format.type !== 'CellValue') return [];
      format.cellValue.load('rule');
      const { cellValue } = format;
      return [{ name, formulas: (): unknown[] => [cellValue.rule.formula1, cellValue.rule.formula2] }];
    }),
  );
  if (rules.length > 0) await context.sync();
  return {
    doubts: [],
    found: rules.flatMap(({ name, formulas }) => {
      const holds = formulas().find(refers);
      return holds === undefined
        ? []
        : [
            {
              holds: String(holds),
              sentence: `A conditional format on ${name} refers to a sheet that would be taken away. ${FIRST}`,
            },
          ];
    }),
  };
}

/** Cells with rules of several kinds side by side are asked one by one, up to so many. */
const MOST_CELLS = 2_000;

async function inValidations(
  context: Excel.RequestContext,
  staying: readonly Excel.Worksheet[],
  refers: Refers,
): Promise<Beside> {
  if (!supports('1.9')) return { found: [], doubts: [] };
  const ruled = staying.map((sheet) => {
    const areas = sheet.getRange().getSpecialCellsOrNullObject('DataValidations');
    areas.load('areaCount');
    return { sheet, areas };
  });
  await context.sync();
  const some = ruled.filter(({ areas }) => !areas.isNullObject);
  if (some.length === 0) return { found: [], doubts: [] };
  for (const { areas } of some) areas.areas.load('items/address,items/rowCount,items/columnCount');
  await context.sync();
  const ranges = some.flatMap(({ sheet, areas }) => areas.areas.items.map((range) => ({ sheet, range })));
  for (const { range } of ranges) range.dataValidation.load('type,rule');
  await context.sync();
  const mixed = ranges.filter(({ range }) => /Inconsistent|MixedCriteria/.test(range.dataValidation.type));
  const cells = mixed.flatMap(({ sheet, range }) =>
    range.rowCount * range.columnCount > MOST_CELLS
      ? []
      : Array.from({ length: range.rowCount * range.columnCount }, (_, n) => {
          const cell = range.getCell(Math.floor(n / range.columnCount), n % range.columnCount);
          cell.load('address');
          cell.dataValidation.load('rule');
          return { sheet, range: cell };
        }),
  );
  if (cells.length > 0) await context.sync();
  return {
    found: [...ranges.filter((one) => !mixed.includes(one)), ...cells].flatMap(({ sheet, range }) => {
      const holds = formulasIn(range.dataValidation.rule).find(refers);
      if (holds === undefined) return [];
      const corner = parseAddress(range.address.slice(range.address.lastIndexOf('!') + 1).split(':')[0]!);
      return [
        {
          ...(corner && { at: place(sheet.name, corner.row, corner.column) }),
          holds: String(holds),
          sentence: `The list or rule of these cells refers to a sheet that would be taken away. ${FIRST}`,
        },
      ];
    }),
    doubts: mixed
      .filter(({ range }) => range.rowCount * range.columnCount > MOST_CELLS)
      .map(
        ({ range }) =>
          `The lists and rules of ${range.address} are too many to be looked through. Check them.`,
      ),
  };
}

/** `{ list: { source } }`, `{ custom: { formula } }`, `{ wholeNumber: { formula1, formula2 } }` and the like. */
const formulasIn = (rule: unknown): unknown[] =>
  Object.values((rule ?? {}) as object).flatMap((part: unknown) =>
    typeof part === 'object' && part !== null ? Object.values(part as object) : [],
  );

/** What can't be told is for the person to look at, on these sheets. */
const lookedAt = (what: string, on: readonly { readonly sheet: Excel.Worksheet }[]): string =>
  `${what} Check those on ${[...new Set(on.map(({ sheet }) => sheet.name))].join(', ')}.`;

/** A source as Excel gives it, with or without its sign. */
const asFormula = (source: string): string => (source.startsWith('=') ? source : `=${source}`);

async function inCharts(
  context: Excel.RequestContext,
  staying: readonly Excel.Worksheet[],
  refers: Refers,
): Promise<Beside> {
  for (const sheet of staying) sheet.charts.load('items/name');
  await context.sync();
  const charts = staying.flatMap((sheet) => sheet.charts.items.map((chart) => ({ sheet, chart })));
  if (charts.length === 0) return { found: [], doubts: [] };
  const untold = (what: string): Beside => ({ found: [], doubts: [lookedAt(what, charts)] });
  if (!supports('1.15')) return untold('This version of Excel doesn’t tell what its charts show.');
  for (const { chart } of charts) chart.series.load('items/name');
  await context.sync();
  const sources = charts.map(({ sheet, chart }) => ({
    sheet,
    chart,
    from: chart.series.items.flatMap((series) =>
      (['Values', 'Categories'] as const).map((which) => series.getDimensionDataSourceString(which)),
    ),
  }));
  try {
    await context.sync();
  } catch (error) {
    // some kinds of charts have no source that can be asked for
    explain(error);
    return untold('Excel doesn’t tell what some charts show.');
  }
  return {
    doubts: [],
    found: sources.flatMap(({ sheet, chart, from }) => {
      const holds = from.map(({ value }) => asFormula(value)).find(refers);
      return holds === undefined
        ? []
        : [
            {
              holds,
              sentence: `The chart ${chart.name} on ${sheet.name} shows cells of a sheet that would be taken away. ${FIRST}`,
            },
          ];
    }),
  };
}

async function inPivots(
  context: Excel.RequestContext,
  staying: readonly Excel.Worksheet[],
  refers: Refers,
): Promise<Beside> {
  for (const sheet of staying) sheet.pivotTables.load('items/name');
  await context.sync();
  const pivots = staying.flatMap((sheet) => sheet.pivotTables.items.map((pivot) => ({ sheet, pivot })));
  if (pivots.length === 0) return { found: [], doubts: [] };
  const untold = (what: string): Beside => ({ found: [], doubts: [lookedAt(what, pivots)] });
  if (!supports('1.15'))
    return untold('This version of Excel doesn’t tell where its pivot tables take their data.');
  const some = 'Excel doesn’t tell where some pivot tables take their data.';
  const sources = pivots.map((one) => ({ ...one, from: one.pivot.getDataSourceString() }));
  try {
    await context.sync();
  } catch (error) {
    explain(error);
    return untold(some);
  }
  // of a data model or another workbook Excel gives nothing
  const dark = sources.filter(({ from }) => from.value === '');
  return {
    doubts: dark.length > 0 ? [lookedAt(some, dark)] : [],
    found: sources.flatMap(({ sheet, pivot, from }) => {
      const holds = asFormula(from.value);
      if (!refers(holds)) return [];
      const sentence = `The pivot table ${pivot.name} on ${sheet.name} takes its data from a sheet that would be taken away. ${FIRST}`;
      return [{ holds, sentence }];
    }),
  };
}
