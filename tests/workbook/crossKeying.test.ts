/** Cross-keying a door in the sheets: what it costs, what is written, and that the audit knows it was meant. */
import { describe, expect, it } from 'vitest';
import { auditSystem } from '../../src/keying/audit.ts';
import { crossKeyingCost } from '../../src/keying/grid/index.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { auditInput, planCrossKeying, undoPlan } from '../../src/workbook/index.ts';
import { openBook } from '../support/office.ts';
import { at, picture, reading, write, writeSystem } from './book.ts';
import { school } from './school.ts';

async function cost(keys: readonly string[]) {
  const asked = auditInput(await reading(), 'School')!;
  const found = crossKeyingCost(asked.system, 'C1', keys, asked.marks);
  if (!found.ok) throw new Error(JSON.stringify(found.error));
  return found.value;
}

async function counts() {
  const asked = auditInput(await reading(), 'School')!;
  return runToEnd(auditSystem(auditInputOf(asked.system, asked.marks), { near: false })).counts;
}

describe('cross-keying a door', () => {
  it('changes the chambers named and the mark, and is taken back', async () => {
    const { model } = openBook();
    await writeSystem(school());
    const before = picture(model);
    // AA1 5 3 6 4 5 3 under AA and A; AA2 differs from it in the last chamber alone: 7 beside 3 and 5
    const { before: was, after, getIn, control } = await cost(['AA2']);
    expect([was.combinations, after.combinations]).toEqual([64, 96]);
    expect(getIn).toEqual([]);
    expect(control).toBe('controlled');
    const { plan, changes } = planCrossKeying(await reading(), {
      system: 'School',
      cylinder: 'C1',
      keys: ['AA2'],
      chambers: after.chambers,
    });
    expect(changes.map((c) => [c.at.sheet, c.at.address, c.from, c.to])).toEqual([
      ['Cylinders', 'L5', '3 5', '3 5 7'],
      ['Grid', 'H5', '', '●'],
    ]);
    const undo = await write(plan);
    expect(at(model, 'Cylinders', 'L5')).toBe('3 5 7');
    expect(await counts()).toEqual({});
    expect((await undoPlan(undo)).outcome).toBe('done');
    expect(picture(model)).toEqual(before);
  });

  it('gives a key that has no column one, with the doors that are its own', async () => {
    const { model, run } = openBook();
    await writeSystem(school());
    // as in a large system: the change key AB2 has no column
    await run(async (context) => {
      context.workbook.tables.getItem('KeyrowGrid1').columns.getItem('AB2').delete();
      await context.sync();
    });
    expect(await counts()).toEqual({});
    const { after } = await cost(['AB2']);
    const { plan } = planCrossKeying(await reading(), {
      system: 'School',
      cylinder: 'C1',
      keys: ['AB2'],
      chambers: after.chambers,
    });
    expect(plan.conflicts).toEqual([]);
    await write(plan);
    expect(['J4', 'J5', 'J6', 'J7', 'J8'].map((a) => at(model, 'Grid', a))).toEqual([
      'AB2',
      '●',
      null,
      null,
      '●',
    ]);
    const found = await counts();
    expect(found['lock-out']).toBeUndefined();
  });

  it('is refused where the grid could not say that it is meant', async () => {
    const { run } = openBook();
    await writeSystem(school());
    await run(async (context) => {
      context.workbook.worksheets.getItem('Systems').getRange('Q5').values = [['']];
      await context.sync();
    });
    const book = await reading();
    const { after } = await cost(['AA2']);
    const { plan } = planCrossKeying(book, {
      system: 'School',
      cylinder: 'C1',
      keys: ['AA2'],
      chambers: after.chambers,
    });
    expect(plan.steps).toEqual([]);
    expect(plan.conflicts[0]!.sentence).toMatch(/has no row for C1, so the new keys could not be marked/);
  });
});
