/** Who refers to a sheet without a formula in a cell, asked of Excel directly: what is found, and what can't be told. */
import { describe, expect, it } from 'vitest';
import { referencesBeside, type Beside } from '../../src/workbook/referencesBeside.ts';
import type { WorkbookModel } from '../../src/preview/model/index.ts';
import { openBook, type BookOptions } from '../support/office.ts';

type Layout = Parameters<WorkbookModel['setLayout']>[1];

/** A book of the sheets Sheet1 and Doors; whatever names Keys refers to what goes. */
async function asked(
  layouts: Partial<Record<'Sheet1' | 'Doors', Layout>>,
  ExcelApi = '1.17',
): Promise<Beside> {
  const options: BookOptions = { sets: { ExcelApi } };
  const book = openBook({}, options);
  book.model.addSheet('Doors', 'user');
  for (const [sheet, layout] of Object.entries(layouts)) book.model.setLayout(sheet, layout, 'user');
  return await book.run(async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load('items/name');
    await context.sync();
    return await referencesBeside(context, worksheets.items, (formula) => String(formula).includes('Keys!'));
  });
}
const FIRST = 'Change or delete it first.';
const NONE = { found: [], doubts: [] };
const area = (row: number, column: number, rows: number, columns: number) => ({ row, column, rows, columns });

const format = (rule: object, id = 'C1') => ({
  id,
  areas: [area(0, 0, 9, 1)],
  rule: rule as never,
  style: {},
  priority: 0,
  stopIfTrue: false,
});
const validation = (rule: object, areas = [area(1, 1, 3, 1)], type = 'Custom') => ({
  areas,
  type,
  rule: rule as Readonly<Record<string, unknown>>,
  ignoreBlanks: true,
  errorAlert: null,
  prompt: null,
});
const list = (source: string, areas?: ReturnType<typeof area>[]) =>
  validation({ list: { source, inCellDropDown: true } }, areas, 'List');
const chart = (name: string, values: string, categories = 'Sheet1!$A$1') => ({
  id: name,
  name,
  series: [{ name: 'One', values: 'Sheet1!$B$1', categories: 'Sheet1!$A$1' }, { name: 'Two', values, categories }],
}); // prettier-ignore
const pivot = (name: string, source: string) => ({ id: name, name, source });

describe('conditional formats', () => {
  const sentence = (sheet: string) =>
    `A conditional format on ${sheet} refers to a sheet that would be taken away. ${FIRST}`;

  it('refer by a formula of their own, or by either bound of a value', async () => {
    const found = async (rule: object) =>
      (await asked({ Doors: { conditionalFormats: [format(rule)] } })).found;
    const custom = { kind: 'custom', formula: '=A1=Keys!$A$5' };
    expect(await found(custom)).toEqual([{ holds: custom.formula, sentence: sentence('Doors') }]);
    const bounds = (formula1: string, formula2: string) => ({ kind: 'cellValue', operator: 'Between', formula1, formula2 }); // prettier-ignore
    expect(await found(bounds('=Keys!A1', '=2'))).toMatchObject([{ holds: '=Keys!A1' }]);
    expect(await found(bounds('=1', '=Keys!A2'))).toMatchObject([{ holds: '=Keys!A2' }]);
    expect(await found(bounds('=1', '=2'))).toEqual([]);
    expect(await found({ kind: 'text', operator: 'Contains', text: 'Keys!A1' })).toEqual([]);
  });

  it('are told sheet by sheet', async () => {
    const custom = format({ kind: 'custom', formula: '=Keys!A1' });
    const two = { conditionalFormats: [format({ kind: 'custom', formula: '=A1' }, 'C2'), custom] };
    const { found, doubts } = await asked({ Sheet1: two, Doors: { conditionalFormats: [custom] } });
    expect(found.map((one) => one.sentence)).toEqual([sentence('Sheet1'), sentence('Doors')]);
    expect(doubts).toEqual([]);
  });

  it('are not asked where Excel has no word for them', async () => {
    const layout = { conditionalFormats: [format({ kind: 'custom', formula: '=Keys!A1' })] };
    expect(await asked({ Sheet1: layout }, '1.5')).toEqual(NONE);
    expect((await asked({ Sheet1: layout }, '1.6')).found).toHaveLength(1);
  });
});

describe('rules of data validation', () => {
  const sentence = `The list or rule of these cells refers to a sheet that would be taken away. ${FIRST}`;

  it('refer by a list, a formula or a bound, and are named by their first cell', async () => {
    const found = async (one: ReturnType<typeof validation>) =>
      (await asked({ Doors: { validations: [one] } })).found;
    expect(await found(list('=Keys!$A$5:$A$9'))).toEqual([
      { at: { sheet: 'Doors', address: 'B2' }, holds: '=Keys!$A$5:$A$9', sentence },
    ]);
    expect(await found(validation({ custom: { formula: '=Keys!A1' } }, [area(4, 3, 1, 1)]))).toMatchObject([
      { at: { sheet: 'Doors', address: 'D5' } },
    ]);
    const whole = { wholeNumber: { formula1: 1, formula2: '=Keys!A2', operator: 'Between' } };
    expect(await found(validation(whole, undefined, 'WholeNumber'))).toMatchObject([{ holds: '=Keys!A2' }]);
    expect(await found(list('a,b'))).toEqual([]);
  });

  /** Rules of two kinds side by side, which Excel hands over as one area of so many rows and two columns. */
  const mixed = (rows: number) => ({
    validations: [list('=Keys!$A$1:$A$2', [area(0, 0, 1, 2)]), list('a,b', [area(1, 0, rows - 1, 2)])],
  });

  it('of several kinds within one area are asked cell by cell', async () => {
    const { found, doubts } = await asked({ Sheet1: mixed(2) });
    expect(found.map((one) => one.at!.address)).toEqual(['A1', 'B1']);
    expect(doubts).toEqual([]);
  });

  it('of several kinds on more than 2,000 cells are for the person to look at', async () => {
    const some = await asked({ Sheet1: mixed(1_000) });
    expect([some.found.length, some.doubts]).toEqual([2, []]);
    const many = await asked({ Sheet1: mixed(1_001) });
    expect(many.found).toEqual([]);
    expect(many.doubts).toEqual([
      'The lists and rules of Sheet1!A1:B1001 are too many to be looked through. Check them.',
    ]);
  });

  it('are not asked where Excel has no word for them', async () => {
    const layout = { validations: [list('=Keys!$A$1')] };
    expect((await asked({ Sheet1: layout }, '1.8')).found).toEqual([]);
    expect((await asked({ Sheet1: layout }, '1.9')).found).toHaveLength(1);
  });
});

describe('charts', () => {
  it('show values or categories of other sheets', async () => {
    const found = async (...charts: ReturnType<typeof chart>[]) => (await asked({ Doors: { charts } })).found;
    const sentence = (name: string) =>
      `The chart ${name} on Doors shows cells of a sheet that would be taken away. ${FIRST}`;
    expect(await found(chart('A', 'Keys!$A$5'), chart('B', 'Sheet1!$B$1', 'Keys!$B$5'), chart('C', 'Sheet1!$B$1'))).toEqual([
      { holds: '=Keys!$A$5', sentence: sentence('A') },
      { holds: '=Keys!$B$5', sentence: sentence('B') },
    ]); // prettier-ignore
  });

  it('that can’t be asked are for the person to look at', async () => {
    const layout = { charts: [chart('A', 'Keys!$A$5'), chart('B', 'Keys!$A$5')] };
    expect(await asked({ Sheet1: layout, Doors: layout }, '1.14')).toEqual({
      found: [],
      doubts: ['This version of Excel doesn’t tell what its charts show. Check those on Sheet1, Doors.'],
    });
    expect((await asked({ Sheet1: layout }, '1.15')).found).toHaveLength(2);
    expect(await asked({}, '1.14')).toEqual(NONE);
  });

  it('of a kind without a source are for the person to look at', async () => {
    const book = openBook();
    book.model.setLayout('Sheet1', { charts: [chart('A', 'Keys!$A$5')] }, 'user');
    book.host.intercept = (_, body) =>
      JSON.stringify(body).includes('GetDimensionDataSourceString') ? { error: 'InvalidArgument' } : 'pass';
    const { found, doubts } = await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.load('name');
      await context.sync();
      return await referencesBeside(context, [sheet], () => true);
    });
    expect(found).toEqual([]);
    expect(doubts).toEqual(['Excel doesn’t tell what some charts show. Check those on Sheet1.']);
  });
});

describe('pivot tables', () => {
  it('take their data from cells of other sheets', async () => {
    const pivots = [pivot('A', 'Keys!$A$4:$F$11'), pivot('B', 'Sheet1!$A$1:$B$4')];
    expect(await asked({ Doors: { pivots } })).toEqual({
      found: [
        {
          holds: '=Keys!$A$4:$F$11',
          sentence: `The pivot table A on Doors takes its data from a sheet that would be taken away. ${FIRST}`,
        },
      ],
      doubts: [],
    });
  });

  it('that don’t tell are for the person to look at', async () => {
    const some = 'Excel doesn’t tell where some pivot tables take their data. Check those on Doors.';
    const dark = {
      Sheet1: { pivots: [pivot('A', 'Sheet1!$A$1:$B$4')] },
      Doors: { pivots: [pivot('B', '')] },
    };
    expect(await asked(dark)).toEqual({ found: [], doubts: [some] });
    expect(await asked(dark, '1.14')).toEqual({
      found: [],
      doubts: [
        'This version of Excel doesn’t tell where its pivot tables take their data. Check those on Sheet1, Doors.',
      ],
    });
    const book = openBook();
    book.model.setLayout('Sheet1', { pivots: [pivot('A', 'Keys!$A$4:$F$11')] }, 'user');
    book.host.intercept = (_, body) =>
      JSON.stringify(body).includes('GetDataSourceString') ? { error: 'InvalidArgument' } : 'pass';
    const { doubts } = await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.load('name');
      await context.sync();
      return await referencesBeside(context, [sheet], () => true);
    });
    expect(doubts).toEqual([
      'Excel doesn’t tell where some pivot tables take their data. Check those on Sheet1.',
    ]);
  });
});
