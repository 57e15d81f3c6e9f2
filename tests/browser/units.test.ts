/** Inches or millimetres: one switch for the workbook, followed by every screen that shows a length. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startStage, type Preview, type Stage } from './preview.ts';

let stage: Stage;
let preview: Preview;
beforeAll(async () => {
  stage = await startStage();
  preview = await stage.open();
});
afterAll(() => stage.close());

describe('the unit of lengths', () => {
  it('is chosen once and followed by specs, pins, decoding and the strip', { timeout: 240_000 }, async () => {
    const { pane, page, pictured } = preview;
    await pane.getByLabel('Show lengths').selectOption('in millimetres');
    await pictured('units-start', pane.getByLabel('Show lengths'));
    await preview.openTask('Specs');
    // 0.054 in and 0.237 in times 25.4: worked out by hand
    await pane.getByText('1.37 mm', { exact: true }).waitFor();
    await pane.getByText('first 6.02 mm, then every 3.96 mm').waitFor();
    await pictured('units-specs');
    await pane.getByRole('button', { name: 'Compare with another spec' }).click();
    await pane.getByText('Only what differs').waitFor();
    await pictured('units-compare');
    await preview.openTask('Decode a key');
    expect(await pane.getByLabel('Unit of the readings').inputValue()).toBe('mm');
    // 0.279 0.189 0.243 0.297 0.225 0.261 in, to the hundredth of a millimetre
    await pane.getByLabel('Root depths, along the code').fill('7.09 4.80 6.17 7.54 5.72 6.63');
    await pane.getByText('274153').first().waitFor();
    await pictured('units-decode', pane.getByText('274153').first());
    await pane.getByLabel('Root depths, along the code').fill('0.279 0.189 0.243 0.297 0.225 0.261 in');
    await pane.getByText('274153').first().waitFor();
    await preview.openTask('Pin cylinders');
    expect(await pane.getByLabel('Lengths here and on the sheet').inputValue()).toBe('mm');
    await pictured('units-pin');
    await pane.getByLabel('Lengths here and on the sheet').selectOption('inches');
    await pictured('units-pin-inches');
    await preview.call('select', 'Keys', 'E7');
    await page.waitForTimeout(1500);
    await pictured('units-strip');
  });

  it('is remembered by the workbook when the pane is opened again', { timeout: 120_000 }, async () => {
    const { pane, page } = preview;
    const frame = page.frames().find((f) => f.url().includes('taskpane.html'))!;
    await frame.evaluate(() => location.reload());
    await pane.getByLabel('Show lengths').waitFor();
    await expect.poll(() => pane.getByLabel('Show lengths').inputValue()).toBe('mm');
    await pane.getByLabel('Show lengths').selectOption('as each spec is written');
    await preview.openTask('Specs');
    await pane.getByText('0.054 in', { exact: true }).waitFor();
    expect(preview.errors).toEqual([]);
  });
});
