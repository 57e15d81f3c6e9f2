/** Formulas of ours put back and frozen, through the real front half of Excel's API. */
import { describe, expect, it } from 'vitest';
import { functionsMetadata, type FunctionsMetadata } from '../../src/build/functionsMetadata.ts';
import { ONE_CELL } from '../../src/workbook/planFreeze.ts';
import {
  brokenFormulas,
  describePlan,
  freezableTables,
  freezeTable,
  planFreeze,
  planRepair,
  readFreezeSource,
  sayBroken,
  undoPlan,
  type BookReading,
} from '../../src/workbook/index.ts';
import { openBook } from '../support/office.ts';
import { at, picture, reading, write, writeSystem } from './book.ts';
import { school } from './school.ts';

/** The school's keys stand in rows 5 to 11 of Keys; Check is column K. */
async function written() {
  const opened = openBook();
  await writeSystem(school());
  const check = (row: number) => opened.model.cell('Keys', row - 1, 10);
  return { ...opened, check };
}
const frozen = (book: BookReading, table: string) => planFreeze(book, freezeTable(book, table)!);

describe('formulas gone wrong', () => {
  it('are none in a system as it was written', async () => {
    await written();
    const book = await reading();
    expect(brokenFormulas(book)).toEqual([]);
    expect(describePlan(planRepair(book)).sentence).toBe('There is nothing to write.');
  });

  it('are found each with its cell, its kind and what it holds', async () => {
    const { host, model, check } = await written();
    host.userEdit('Keys', 'K5', 'good');
    host.userEdit('Keys', 'K7', '');
    host.userEdit('Keys', 'K8', '=KEYROW.WHY(#REF!,J8,KeyrowSpecs)');
    model.setResult('Keys', 8, 10, '#NAME?');
    // somebody's own formula is no fault
    host.userEdit('Keys', 'K10', '=LEN(E10)');
    model.setResult('Keys', 9, 10, 6);
    expect(check(9)?.formula).toContain('KEYROW.WHY');
    const found = brokenFormulas(await reading());
    expect(found.map((b) => [b.at.address, b.why, b.holds])).toEqual([
      ['K5', 'overwritten', 'good'],
      ['K7', 'missing', ''],
      ['K8', 'reference', expect.any(String)],
      ['K9', 'name', '#NAME?'],
    ]);
    expect(sayBroken(found[0]!)).toBe('Check holds “good” where a formula was.');
  });

  it('are put back with the headings as they stand, and undo brings back what was there', async () => {
    const { host, model, check } = await written();
    const whole = check(5)!.formula;
    host.userEdit('Keys', 'K5', 'good');
    host.userEdit('Keys', 'K6', 'note');
    host.userEdit('Keys', 'K9', '');
    const before = picture(model);
    const plan = planRepair(await reading());
    expect(describePlan(plan).sentence).toBe('Changes 3 cells of Keys; touches nothing else.');
    const undo = await write(plan);
    expect([5, 6, 9].map((row) => check(row)?.formula)).toEqual([whole, whole, whole]);
    expect(brokenFormulas(await reading())).toEqual([]);
    expect((await undoPlan(undo)).outcome).toBe('done');
    expect(picture(model)).toEqual(before);
  });

  it('follow a renamed heading, and say which column is gone', async () => {
    const { host, check, run } = await written();
    host.userEdit('Keys', 'K5', 'good');
    host.userEdit('Keys', 'E4', 'Bitting ');
    await write(planRepair(await reading()));
    expect(check(5)?.formula).toContain('KeyrowKeys[@[Bitting ]]');
    host.userEdit('Keys', 'K5', 'good');
    await run(async (context) => {
      context.workbook.tables.getItem('KeyrowKeys').columns.getItem('Spec').delete();
      await context.sync();
    });
    const plan = planRepair(await reading());
    expect(plan.steps).toEqual([]);
    expect(plan.conflicts.map((c) => c.sentence).join(' ')).toContain('no column “Spec”');
  });
});

describe('freezing to values', () => {
  it('turns the formulas of a table into what they show, and undo brings them back', async () => {
    const { model, check } = await written();
    for (let row = 4; row <= 10; row++)
      model.setResult('Keys', row, 10, row === 6 ? '#NAME?' : `007 in ${row}`);
    const before = picture(model);
    const { plan, left } = frozen(await reading(), 'KeyrowKeys');
    // an error would stay for good
    expect(left).toEqual([{ sheet: 'Keys', address: 'K7' }]);
    expect(describePlan(plan).sentence).toBe('Changes 6 cells of Keys; touches nothing else.');
    const undo = await write(plan);
    expect(at(model, 'Keys', 'K5')).toBe('007 in 4');
    expect(check(5)?.formula).toBeUndefined();
    expect(check(7)?.formula).toContain('KEYROW.WHY');
    expect((await undoPlan(undo)).outcome).toBe('done');
    for (let row = 4; row <= 10; row++)
      model.setResult('Keys', row, 10, row === 6 ? '#NAME?' : `007 in ${row}`);
    expect(picture(model)).toEqual(before);
  });

  it('keeps zeros of codes and numbers as numbers, and leaves formulas of the shop’s and those that fill cells', async () => {
    const { host, model } = await written();
    host.userEdit('Sheet1', 'A1', [
      ['=KEYROW.BITTING("027413","S-018-6")', '=KEYROW.CUTCENTRE(1,"S-018-6")'],
      ['=LEN(KEYROW.BITTING("027413","S-018-6"))', '=KEYROW.ROOTDEPTHS("027413","S-018-6")'],
    ]);
    model.setResult('Sheet1', 0, 0, '027413');
    model.setResult('Sheet1', 0, 1, 0.237);
    model.setResult('Sheet1', 1, 0, 6);
    model.setResult('Sheet1', 1, 1, 0.279);
    host.userSelect('Sheet1', 'A1:D9');
    const source = await readFreezeSource();
    if (!source.ok) throw new Error(source.error.sentence);
    const { plan, left } = planFreeze(await reading(), source.value);
    await write(plan);
    expect(at(model, 'Sheet1', 'A1')).toBe('027413');
    expect(at(model, 'Sheet1', 'B1')).toBe(0.237);
    expect(model.cell('Sheet1', 1, 0)?.formula).toContain('LEN');
    expect(model.cell('Sheet1', 1, 1)?.formula).toContain('ROOTDEPTHS');
    expect(left).toEqual([{ sheet: 'Sheet1', address: 'B2' }]);
  });

  it('is barred by a protected sheet, and says so of an empty selection', async () => {
    const { host, model, run } = await written();
    model.setResult('Keys', 4, 10, 'wrong');
    await run(async (context) => {
      context.workbook.worksheets.getItem('Keys').protection.protect();
      await context.sync();
    });
    const { plan } = frozen(await reading(), 'KeyrowKeys');
    expect(plan.conflicts.map((c) => c.sentence).join(' ')).toContain('protected');
    expect(plan.steps).toEqual([]);
    host.userSelect('Sheet1', 'Z99');
    const source = await readFreezeSource();
    expect(source.ok ? '' : source.error.sentence).toContain('There is nothing in these cells');
  });

  it('offers the tables that have something to freeze', async () => {
    await written();
    expect(freezableTables(await reading()).map(({ sheet }) => sheet)).toEqual(
      expect.arrayContaining(['Keys', 'Cylinders']),
    );
  });

  it('knows every function that answers in one cell', async () => {
    const { functions } = JSON.parse(
      await functionsMetadata('https://keys.example.org/keyrow'),
    ) as FunctionsMetadata;
    for (const { id, result } of functions)
      expect(ONE_CELL.test(`=KEYROW.${id}(1)`), id).toBe(result.dimensionality !== 'matrix');
  });
});
