/** An audit after an audit: what changed between them, with real clicks. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startStage, type Preview, type Stage } from './preview.ts';

let stage: Stage;
let preview: Preview;
beforeAll(async () => {
  stage = await startStage();
  preview = await stage.open();
});
afterAll(() => stage.close());

describe('auditing again', () => {
  it('says what is new, and what was re-pinned in this sitting', { timeout: 240_000 }, async () => {
    const { pane, page, pictured } = preview;
    await preview.openTask('Audit a system');
    await preview.primary(/^Audit /).click();
    const again = preview.primary('Audit again');
    await again.waitFor();
    const since = pane.getByRole('region', { name: 'Since the last audit' });
    expect(await since.count()).toBe(0);
    await again.click();
    await since.getByText('Nothing has changed: the same findings, keys and cylinders.').waitFor();
    await pictured('audit-again-same', since);
    // another depth in the first chamber of one cylinder
    const header = (await preview.call('value', 'Cylinders', 3, 0)) as string;
    expect(header).toBe('System');
    await preview.call('type', 'Cylinders', 'G5', '5');
    await preview.call('settle');
    await again.click();
    await since.getByText('1 cylinder with other pins').waitFor();
    await pictured('audit-again-repinned', since);
    // the pane opened anew remembers names and findings, not pins
    await page
      .frames()
      .find((f) => f.url().includes('taskpane.html'))!
      .evaluate(() => location.reload());
    await preview.primary('Read again').waitFor();
    await preview.openTask('Audit a system');
    await preview.primary(/^Audit /).click();
    await since.getByText('Nothing has changed: the same findings, keys and cylinders.').waitFor();
    await since.getByText('hold no bitting to compare with').waitFor();
    await pictured('audit-again-anew', since);
    expect(preview.errors).toEqual([]);
  });
});
