/** What cores without control cuts and blanks of several keyways are, through the front half of Excel's API. */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import { pinnedFor } from '../../src/keying/cylinder.ts';
import { auditInputOf, auditSystem } from '../../src/keying/index.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { auditInput, planPinning, planShop } from '../../src/workbook/index.ts';
import { openBook } from '../support/office.ts';
import { MADE, reading, write, writeSystem } from './book.ts';
import { school, starter } from './school.ts';

describe('a core without control cuts', () => {
  const spec = starter('T-0125-7');
  const bitting = bittingOf(spec, [2, 4, 6, 8, 2, 4, 6]);

  it.each([
    ['refused without', undefined, 1],
    ['pinned with', bittingOf(spec, [3, 5, 7, 5, 3, 5, 7]), 0],
  ] as const)('is %s', async (_, control, conflicts) => {
    openBook();
    await writeSystem({
      system: {
        name: 'Cores',
        spec,
        keys: [{ symbol: 'A1', level: 'single', bitting, status: 'issued' }],
        cylinders: [
          { id: 'C1', symbol: 'A1', chambers: pinnedFor(spec, [bitting]), ...(control && { control }) },
        ],
      },
      marks: [{ key: 'A1', cylinder: 'C1' }],
    });
    const plan = planPinning(await reading(), { ...MADE, system: 'Cores', kitList: true });
    expect(plan.conflicts.map((c) => c.sentence.includes('has no control cuts'))).toEqual(
      Array.from({ length: conflicts }, () => true),
    );
  });
});

describe('a blank that enters several keyways', () => {
  it('lets its keys into all of them', async () => {
    openBook();
    const made = school();
    const keys = made.system.keys.map((key) => ({ ...key, keyway: 'K12' }));
    const cylinders = made.system.cylinders.map((cylinder) => ({ ...cylinder, keyway: 'K1' }));
    await writeSystem({ ...made, system: { ...made.system, keys, cylinders } });
    const counts = async () => {
      const asked = auditInput(await reading(), 'School')!;
      return runToEnd(auditSystem(auditInputOf(asked.system, asked.marks), { near: false })).counts;
    };
    expect((await counts())['wrong-keyway']).toBeGreaterThan(0);
    await write(planShop(await reading(), ['Blanks']));
    await Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Blanks');
      sheet.getRangeByIndexes(4, 0, 1, 2).values = [['B12', 'K12, k1']];
      await context.sync();
    });
    expect(await counts()).toEqual({});
  });
});
