/** A whole book read through office.js: what is ours in it, wherever it is, and the state of its sheets. */
import { describe, expect, it } from 'vitest';
import { openBook as readOpenBook } from '../../src/workbook/readBook.ts';
import { cellAddress } from '../../src/workbook/places.ts';
import { openBook } from '../support/office.ts';
import { put, reading, writeSystem } from './book.ts';
import { school } from './school.ts';

describe('a book of ours', () => {
  it('has its tables with their cells, and counts what is in them', async () => {
    openBook();
    await writeSystem(school());
    const book = await reading();
    expect(book.problems).toEqual([]);
    expect(book.summary).toEqual({
      specs: 1,
      systems: 1,
      keys: 7,
      cylinders: 4,
      marks: 12,
      faults: 0,
      warnings: 0,
    });
    const keys = book.tables.find(({ name }) => name === 'KeyrowKeys')!;
    expect(keys).toMatchObject({ sheet: 'Keys', totals: false, filtered: false });
    expect(keys.box).toEqual({ sheet: 'Keys', row: 3, column: 0, rows: 8, columns: 12 });
    expect(keys.headers.slice(0, 5)).toEqual(['System', 'Symbol', 'Level', 'Parent', 'Bitting']);
    expect(keys.values[0]!.slice(0, 5)).toEqual(['School', 'A', 'GMK', '', '354635']);
    expect([keys.values.length, keys.formulas.length]).toEqual([7, 7]);
    expect(keys.formulas[0]![10]).toMatch(/^=KEYROW\.WHY\(/);
    expect(book.specs.map(({ name, at }) => [name, at.sheet, at.address])).toEqual([
      ['S-018-6', 'Specs', 'A5'],
    ]);
    expect(book.tableNames).toContain('KeyrowGrid1');
    expect(book.structureProtected).toBe(false);
  });

  it('is found wherever it was moved, with columns of the shop’s between', async () => {
    const book = openBook();
    await writeSystem(school());
    await book.run(async (context) => {
      const { worksheets, tables } = context.workbook;
      const keys = tables.getItem('KeyrowKeys');
      keys.columns.add(1, undefined, ' Mine ');
      worksheets.getItem('Keys').name = 'Our keys';
      worksheets.getItem('Cylinders').visibility = 'Hidden';
      worksheets.getItem('Grid').protection.protect();
      worksheets.add('Empty');
      await context.sync();
    });
    await put(book, 'Sheet1', { B2: 'of the shop' });
    book.model.addTable('Sheet1', { row: 1, column: 1, rows: 2, columns: 1 }, true, 'user', 'Mine');
    const read = await reading();
    expect(read.summary).toMatchObject({ keys: 7, cylinders: 4, marks: 12 });
    const state = Object.fromEntries(read.sheets.map((sheet) => [sheet.name, sheet]));
    expect(state['Our keys']).toMatchObject({ visible: true, protected: false });
    expect(state['Cylinders']).toMatchObject({ visible: false, protected: false });
    expect(state['Grid']).toMatchObject({ visible: true, protected: true });
    expect(read.tables.map(({ name }) => name)).not.toContain('Mine');
    expect(read.tableNames).toContain('Mine');
    // sheets without a table of ours are not read, only where they are used
    expect(state['Sheet1']).toEqual({
      name: 'Sheet1',
      visible: true,
      protected: false,
      used: { sheet: 'Sheet1', row: 1, column: 1, rows: 1, columns: 1 },
    });
    expect(state['Empty']).toEqual({ name: 'Empty', visible: true, protected: false });
    // the first two cells of the sheet are its title and the line under it
    expect(state['Our keys']!.values![0]![0]).toContain('Keys');
    expect(read.tables.find(({ name }) => name === 'KeyrowKeys')!.headers).toContain('Mine');
  });

  it('leaves out totals rows and tells of filters', async () => {
    const book = openBook();
    await writeSystem(school());
    await book.run(async (context) => {
      const { tables } = context.workbook;
      tables.getItem('KeyrowKeys').showTotals = true;
      tables.getItem('KeyrowCylinders').autoFilter.apply('A4:R8', 1, { filterOn: 'Values', values: ['C1'] });
      await context.sync();
    });
    const { tables, summary } = await reading();
    const of = (wanted: string) => tables.find(({ name }) => name === wanted)!;
    expect(of('KeyrowKeys')).toMatchObject({ totals: true, filtered: false, box: { rows: 8 } });
    expect(of('KeyrowKeys').values).toHaveLength(7);
    expect(of('KeyrowCylinders')).toMatchObject({ totals: false, filtered: true });
    expect(summary).toMatchObject({ keys: 7, cylinders: 4 });
  });

  it('says what is wrong with a spec at its cell, and counts faults and warnings apart', async () => {
    const book = openBook();
    await writeSystem(school());
    const specs5 = (await reading()).tables.find(({ name }) => name === 'KeyrowSpecs')!;
    const macs = cellAddress(4, specs5.headers.indexOf('MACS'));
    await put(book, 'Specs', { [macs]: 'many' });
    const one = (await reading()).problems.filter(({ sheet }) => sheet === 'Specs');
    expect(one.map(({ address, severity }) => [address, severity])).toEqual([[macs, 'fault']]);
    await put(book, 'Keys', { E5: '' });
    await put(book, 'Specs', { A5: '' });
    const { problems, summary, specs } = await reading();
    expect(problems.some(({ sheet, severity }) => sheet === 'Specs' && severity === 'fault')).toBe(true);
    expect(problems.find(({ sheet }) => sheet === 'Specs')!.address).toMatch(/^[A-Z]+5$/);
    expect(specs.filter(({ spec }) => spec !== undefined)).toEqual([]);
    expect(problems).toContainEqual(
      expect.objectContaining({ sheet: 'Keys', address: 'E5', severity: 'warning' }),
    );
    expect(summary.faults).toBe(problems.filter(({ severity }) => severity === 'fault').length);
    expect([summary.faults > 0, summary.warnings]).toEqual([
      true,
      problems.filter(({ severity }) => severity === 'warning').length,
    ]);
  });

  it('has no marks where a system has no grid', async () => {
    const book = openBook();
    await writeSystem(school());
    const systems = (await reading()).tables.find(({ name }) => name === 'KeyrowSystems')!;
    await put(book, 'Systems', { [cellAddress(4, systems.headers.indexOf('Grid'))]: '' });
    expect((await reading()).summary).toMatchObject({ systems: 1, keys: 7, marks: 0, faults: 0 });
  });

  it('cuts a sentence that quotes a long cell', async () => {
    const book = openBook();
    await writeSystem(school());
    await put(book, 'Keys', { C5: 'x'.repeat(5_000) });
    const { problems } = await reading();
    expect(problems.find(({ address }) => address === 'C5')!.sentence.length).toBeLessThan(1_000);
  });

  it('is trouble while a cell is being edited', async () => {
    const { host } = openBook();
    host.setCellEditMode(true);
    expect(await readOpenBook()).toMatchObject({ ok: false });
  });

  it('is empty in an empty workbook, protected or not', async () => {
    const book = openBook();
    await book.run(async (context) => {
      context.workbook.protection.protect();
      await context.sync();
    });
    expect(await reading()).toMatchObject({
      specs: [],
      systems: [],
      problems: [],
      tables: [],
      tableNames: [],
      structureProtected: true,
      summary: { specs: 0, systems: 0, keys: 0, cylinders: 0, marks: 0, faults: 0, warnings: 0 },
    });
  });
});
