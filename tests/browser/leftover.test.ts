/** The window closed in the middle of a write: what the pane says when it is opened again, and what becomes of it. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startStage, type Preview, type Stage } from './preview.ts';

let stage: Stage;
let preview: Preview;
beforeAll(async () => {
  stage = await startStage();
  preview = await stage.open();
});
afterAll(() => stage.close());

const sheets = async (): Promise<readonly string[]> => (await preview.call('sheets')) as string[];

describe('a window closed in the middle of a write', () => {
  it('is told when the pane is opened again, and taken back', { timeout: 240_000 }, async () => {
    const { pane, page } = preview;
    await page.getByRole('button', { name: 'Empty workbook' }).click();
    await pane.getByRole('region', { name: 'Begin' }).waitFor();
    const before = await sheets();
    await preview.openTask('Make keys');
    await pane.getByText('It fits.').waitFor();
    await preview.primary('Make the keys').click();
    await preview.primary('Write the system').click();
    // the first new sheet is there, the others are not: the pane goes
    await expect
      .poll(async () => (await sheets()).length, { interval: 5, timeout: 60_000 })
      .toBeGreaterThan(1);
    await page
      .frames()
      .find((frame) => frame.url().includes('taskpane.html'))!
      .evaluate(() => location.reload());
    await pane.getByRole('button', { name: 'Take it back' }).waitFor();
    expect(await pane.locator('main').innerText()).toContain(
      'was begun in this workbook, and its end was not noted.',
    );
    await preview.pictured('leftover');
    await pane.getByRole('button', { name: 'Take it back' }).click();
    await pane.getByRole('button', { name: 'Take it back' }).waitFor({ state: 'detached' });
    await preview.call('settle');
    expect(await sheets()).toEqual(before);
    expect(preview.errors).toEqual([]);
  });
});
