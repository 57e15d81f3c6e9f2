/** The main job without a mouse: from the start screen to a written system and back, by Tab, Enter and typing. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startStage, type Preview, type Stage } from './preview.ts';

let stage: Stage;
let preview: Preview;

beforeAll(async () => {
  stage = await startStage();
  preview = await stage.open({ viewport: { width: 1000, height: 500 } });
});
afterAll(() => stage.close());

/** What has the focus in the pane: its label or its text. */
async function focused(): Promise<string> {
  const frame = preview.page.frames().find((f) => f.url().includes('taskpane.html'))!;
  return frame.evaluate(() => {
    const element = document.activeElement as HTMLInputElement | null;
    const label = element?.labels?.[0]?.innerText;
    return (element?.getAttribute('aria-label') ?? label ?? element?.innerText ?? '').trim();
  });
}

/** Presses Tab until something of that name has the focus; nobody should need more than forty. */
async function tabTo(name: RegExp): Promise<void> {
  const seen: string[] = [];
  for (let presses = 0; presses < 40; presses++) {
    await preview.page.keyboard.press('Tab');
    const now = await focused();
    if (name.test(now)) return;
    seen.push(now.split('\n')[0]!);
  }
  throw new Error(`Tab never came to ${name}; it went over ${seen.join(' · ')}`);
}

async function retype(text: string): Promise<void> {
  await preview.page.keyboard.press('Control+a');
  await preview.page.keyboard.type(text);
}

describe('the keyboard alone', () => {
  it('makes, writes and takes back a system', { timeout: 240_000 }, async () => {
    const { page, pane } = preview;
    await pane.getByRole('heading', { name: 'Keyrow' }).click();
    await tabTo(/^Make keys/);
    await page.keyboard.press('Enter');
    await pane.getByRole('heading', { name: 'Make keys' }).waitFor();
    // the heading takes the focus, so that a screen reader says where one is
    await expect.poll(focused).toBe('Make keys');
    await tabTo(/^Name of the system/);
    await retype('Annexe');
    await tabTo(/^Masters/);
    await retype('2');
    await tabTo(/^Change keys under each master/);
    await retype('4');
    await pane.getByText('It fits.').waitFor();
    await tabTo(/^Make the keys/);
    await page.keyboard.press('Enter');
    await pane.getByRole('button', { name: 'Write the system' }).waitFor();
    await tabTo(/^Write the system/);
    await page.keyboard.press('Enter');
    await pane.getByRole('button', { name: 'Undo' }).waitFor();
    expect(await preview.call('sheets')).toContain('Grid Annexe');
    await tabTo(/^Undo/);
    await page.keyboard.press('Enter');
    await expect.poll(() => preview.call('sheets'), { timeout: 60_000 }).not.toContain('Grid Annexe');
  });
});
