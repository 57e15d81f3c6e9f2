/** Structured references name columns as they stand, and only columns that are there. */
import { describe, expect, it } from 'vitest';
import { planCheckColumn, planNewSystem, readTarget } from '../../src/workbook/index.ts';
import { openBook } from '../support/office.ts';
import { MADE, reading, write, writeSystem } from './book.ts';
import { school, SPEC } from './school.ts';

const planAnnex = async () => planNewSystem(await reading(), school('Annex'), MADE);

describe('a structured reference', () => {
  it('has the spaces that stand in the heading', async () => {
    const { host, model } = openBook();
    host.userEdit('Sheet1', 'A1', [[' Key code '], ["'354635"]]);
    model.addTable('Sheet1', { row: 0, column: 0, rows: 2, columns: 1 }, true, 'user', 'Doors');
    host.userSelect('Sheet1', 'A2');
    const read = await readTarget('selection');
    if (!read.ok) throw new Error(read.error.sentence);
    await write(planCheckColumn(await reading(), read.value, { codes: 0, spec: SPEC.name }));
    expect(model.cell('Sheet1', 1, 1)?.formula).toContain('Doors[@[ Key code ]]');
  });

  it('of our own formula has them too', async () => {
    const { host, model } = openBook();
    await writeSystem(school());
    host.userEdit('Keys', 'E4', 'Bitting ');
    await write(await planAnnex());
    expect(model.cell('Keys', 11, 10)?.formula).toContain('KeyrowKeys[@[Bitting ]]');
  });
});

describe('a formula of ours is refused', () => {
  it('where a column that it names is gone', async () => {
    const { model, run } = openBook();
    await writeSystem(school());
    await run(async (context) => {
      context.workbook.tables.getItem('KeyrowCylinders').columns.getItem('Ch 8').delete();
      await context.sync();
    });
    expect(model.findTable('KeyrowCylinders')).toBeDefined();
    const { steps, conflicts } = await planAnnex();
    expect(steps).toEqual([]);
    expect(conflicts.map((c) => c.sentence)).toEqual([
      'The table on Cylinders has no column “Ch 8”, which a formula in it needs. Add it, or give the renamed column its name back.',
    ]);
  });

  it('where another column stands among its chambers', async () => {
    const { run } = openBook();
    await writeSystem(school());
    await run(async (context) => {
      context.workbook.tables.getItem('KeyrowCylinders').columns.add(8, undefined, 'Remark');
      await context.sync();
    });
    const { steps, conflicts } = await planAnnex();
    expect(steps).toEqual([]);
    expect(conflicts.map((c) => c.sentence)).toEqual([
      'The column “Ch 3” on Cylinders doesn’t stand right after “Ch 2”, and a formula would count in what stands between. Move it back.',
    ]);
  });
});
