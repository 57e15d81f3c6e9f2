/** The pinning sheet with the shop's sizes, and the kit list, through the real front half of Excel's API. */
import { describe, expect, it } from 'vitest';
import { describePlan, planPinning, planShop } from '../../src/workbook/index.ts';
import { openBook } from '../support/office.ts';
import { at, MADE, reading, write, writeSystem } from './book.ts';
import { school } from './school.ts';

async function withPins(rows: (string | number)[][]): Promise<void> {
  await write(planShop(await reading(), ['Pins']));
  await Excel.run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Pins');
    sheet.getRangeByIndexes(4, 0, rows.length, rows[0]!.length).values = rows;
    const table = context.workbook.tables.getItem('KeyrowPins');
    table.resize(table.getRange().getResizedRange(rows.length - 1, 0));
    await context.sync();
  });
}

const INPUT = { ...MADE, system: 'School', kitList: true } as const;

describe('the pinning sheet', () => {
  it('rounds to the kit and shows the error of the worst shear line', async () => {
    const { model } = openBook();
    await writeSystem(school());
    await withPins([
      ['B220', 'bottom', 0.22, 'in', 1],
      ['B240', 'bottom', 0.24, 'in', 50],
      ['M035', 'master', 0.035, 'in', ''],
      ['M070', 'master', 0.07, 'in', ''],
      ['T200', 'top', 0.2, 'in', ''],
    ]);
    await write(planPinning(await reading(), INPUT));
    const heading = 'ABCDEFGHIJKLMNOPQRST'.split('').map((c) => String(at(model, 'Pinning', `${c}4`)));
    const cell = (name: string, row: number) =>
      at(model, 'Pinning', `${'ABCDEFGHIJKLMNOPQRST'[heading.indexOf(name)]!}${row}`);
    // chamber 1 of C1: depths 3 and 5. Bottom 0.5 − 0.261 = 0.239 → 0.240; master 0.036 → 0.035; errors +0.001 and 0
    expect(cell('Cuts', 5)).toBe('3 5');
    expect(cell('Bottom length', 5)).toBe(0.239);
    expect(cell('Kit bottom', 5)).toBe(0.24);
    expect(cell('Kit masters', 5)).toBe('0.035');
    expect(cell('Line error', 5)).toBe(0.001);
    expect(cell('Kit top', 5)).toBe(0.2);
  });

  it('counts the pins of the job, and what is short', async () => {
    const { model } = openBook();
    await writeSystem(school());
    await withPins([['only', 'bottom', 0.24, 'in', 5]]);
    const plan = planPinning(await reading(), INPUT);
    expect(describePlan(plan).sentence).toMatch(/adds the sheet Kit with \d+ rows/);
    await write(plan);
    const rows = Array.from({ length: model.table('KeyrowKit').area.rows - 1 }, (_, r) =>
      'ABCDEFGHIJ'.split('').map((c) => at(model, 'Kit', `${c}${r + 5}`)),
    );
    // four cylinders of six chambers: 24 bottom pins, and a top pin each
    const count = (kind: string) =>
      rows.filter((r) => r[0] === kind).reduce((sum, r) => sum + Number(r[7]), 0);
    expect(count('bottom')).toBe(24);
    expect(count('top')).toBe(24);
    expect(count('master')).toBe(school().system.cylinders.flatMap((c) => c.chambers).length);
    // 0.24 for 0.239 is within ±0.002; for any other bottom pin of the steps of 0.018 it is far off
    const remark = (length: number) => rows.find((r) => r[0] === 'bottom' && r[2] === length)?.[9];
    expect(remark(0.239)).toBe('19 short of this size in all');
    expect(remark(0.257)).toBe(
      'Off by more than the tolerance: get a nearer size; 19 short of this size in all',
    );
    expect(rows.find((r) => r[0] === 'top')?.[9]).toBe('The kit has no size of this kind');
  });

  it('prints one page wide, the pins that are picked in large digits', async () => {
    const { model } = openBook();
    await writeSystem(school());
    await write(planPinning(await reading(), INPUT));
    for (const sheet of ['Pinning', 'Kit'])
      expect(model.sheet(sheet).layout.page).toMatchObject({ zoom: { horizontalFitToPages: 1 } });
    // G: bottom length, H: steps of the master pins
    expect(model.cell('Pinning', 4, 6)?.style).toMatchObject({ fontSize: 16, bold: true });
    expect(model.cell('Pinning', 4, 7)?.style?.fontSize).toBeUndefined();
    expect(model.sheet('Pinning').layout.merges).toEqual([{ row: 1, column: 0, rows: 1, columns: 12 }]);
  });

  it('writes millimetres when asked, exactly 25.4 to the inch', async () => {
    const { model } = openBook();
    await writeSystem(school());
    await write(planPinning(await reading(), { ...INPUT, unit: 'mm' }));
    // 0.239 in × 25.4 = 6.0706 mm
    expect(at(model, 'Pinning', 'G5')).toBe(6.0706);
    expect(at(model, 'Pinning', 'K5')).toBe('mm');
    expect(model.cell('Pinning', 4, 6)?.style?.numberFormat).toBe('0.00');
  });
});
