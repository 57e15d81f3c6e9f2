/** The sample in an open workbook: made on the ordinary road, on sheets of its own, gone again with one undo. */
import { describe, expect, it } from 'vitest';
import { auditSystem } from '../../src/keying/audit.ts';
import { generateSystem } from '../../src/keying/hierarchy.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import { runToEnd } from '../../src/keying/system.ts';
import {
  applyPlan,
  auditInput,
  describePlan,
  planSample,
  readSchedule,
  sampleRequest,
  undoPlan,
} from '../../src/workbook/index.ts';
import { SAMPLE_DOORS, SAMPLE_SYSTEM } from '../../src/workbook/sampleDoors.ts';
import { openBook } from '../support/office.ts';
import { MADE, picture, reading, undoOf, write } from './book.ts';

function made() {
  const system = runToEnd(generateSystem(sampleRequest()));
  if (!system.ok) throw new Error(JSON.stringify(system.problems));
  return system;
}

describe('sample data', () => {
  it('is written beside what is there, audits clean, and is taken back whole', async () => {
    const { model } = openBook();
    await Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getFirst();
      sheet.getRange('A1').values = [['mine']];
      await context.sync();
    });
    const before = picture(model);
    const plan = planSample(await reading(), made(), MADE);
    expect(describePlan(plan).sentence).toContain('touches nothing else');
    const undo = undoOf(await applyPlan(plan));
    const book = await reading();
    expect(book.problems).toEqual([]);
    const audit = auditInput(book, SAMPLE_SYSTEM)!;
    expect(audit.system.cylinders.map((c) => c.door)).toEqual(SAMPLE_DOORS.map(([door]) => door));
    expect(runToEnd(auditSystem(auditInputOf(audit.system, audit.marks))).counts).toEqual({});
    const schedule = await readSchedule('Sample doors');
    expect(schedule.ok && schedule.value.rows.map((row) => row.symbol)).toEqual(
      SAMPLE_DOORS.map(([, , symbol]) => symbol),
    );
    expect((await undoPlan(undo)).outcome).toBe('done');
    expect(picture(model)).toEqual(before);
  });

  it('is refused a second time, with the reason', async () => {
    openBook();
    await write(planSample(await reading(), made(), MADE));
    const again = planSample(await reading(), made(), MADE);
    expect(again.steps).toEqual([]);
    expect(again.conflicts[0]!.sentence).toContain('Sample hall');
  });
});
