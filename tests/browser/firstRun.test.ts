/**
 * The first minutes with the add-in, without reading: from an empty workbook, and from a door schedule, to a written
 * and audited grid. Clicks are counted: four are what a newcomer can make in well under two minutes.
 */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import ExcelJS from 'exceljs';
import { startStage, type Preview, type Stage } from './preview.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await startStage();
});
afterAll(() => stage.close());

/** Presses what is named and counts it. */
function clicker({ pane }: Preview): {
  press: (name: string | RegExp) => Promise<void>;
  count: () => number;
} {
  let clicks = 0;
  return {
    press: async (name) => {
      await pane.getByRole('button', { name }).click();
      clicks++;
    },
    count: () => clicks,
  };
}

const empty = async (preview: Preview): Promise<void> => {
  await preview.page.getByRole('button', { name: 'Empty workbook' }).click();
  await preview.pane.getByRole('region', { name: 'Begin' }).waitFor();
};

async function toAudit(press: (name: string | RegExp) => Promise<void>, preview: Preview): Promise<string> {
  await preview.pane.getByText('It fits.').waitFor();
  await press('Make the keys');
  await press('Write the system');
  await press('Audit it');
  await preview.pane.getByRole('heading', { name: /^Audit of / }).waitFor();
  return preview.pane.locator('main').innerText();
}

describe('the first run', () => {
  it('leads from an empty workbook to an audited grid in four clicks', { timeout: 240_000 }, async () => {
    const preview = await stage.open();
    await empty(preview);
    await preview.screenshot('first-run');
    const { press, count } = clicker(preview);
    await press(/^A first system/);
    const verdict = await toAudit(press, preview);
    expect(verdict).toContain('Every key opens what it should and nothing else');
    expect(count()).toBe(4);
    await preview.screenshot('first-run-audited');
    expect(await preview.call('sheets')).toEqual(expect.arrayContaining(['Keys', 'Cylinders', 'Grid']));
    // passed: the start screen now speaks of this workbook, with what comes next
    await preview.pane.getByRole('button', { name: /^Back to/ }).click();
    await preview.pane.getByRole('button', { name: /^Back to/ }).click();
    await preview.pane.getByRole('region', { name: 'Next' }).waitFor();
    expect(await preview.pane.getByRole('region', { name: 'Begin' }).count()).toBe(0);
    expect(await preview.pane.getByRole('region', { name: 'Next' }).innerText()).toContain('pinning sheet');
    expect(preview.errors).toEqual([]);
    await preview.page.context().close();
  });

  it('leads from a door schedule there in four clicks', { timeout: 240_000 }, async () => {
    const preview = await stage.open();
    const book = new ExcelJS.Workbook();
    const sheet = book.addWorksheet('Doors, rev. B');
    sheet.addRow(['Door', 'Room', 'Key set']);
    const sets = ['AA1', 'AA1', 'AA2', 'AA3', 'AB1', 'AB2', 'AB3', 'AB3', 'AC1', 'AC2'];
    sets.forEach((set, i) => sheet.addRow([`D${i + 1}`, `Room ${i + 1}`, set]));
    await preview.page.getByLabel('Workbook file').setInputFiles({
      name: 'doors.xlsx',
      mimeType: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
      buffer: Buffer.from(await book.xlsx.writeBuffer()),
    });
    await preview.pane.getByRole('region', { name: 'Begin' }).waitFor();
    await preview.screenshot('first-run-schedule');
    const { press, count } = clicker(preview);
    await press(/^A system for the doors in “Doors, rev. B”/);
    await preview.pane.getByText('10 doors taken').waitFor({ state: 'attached' });
    const verdict = await toAudit(press, preview);
    expect(verdict).toContain('Every key opens what it should and nothing else');
    expect(count()).toBe(4);
    const saved = new ExcelJS.Workbook();
    await saved.xlsx.load(Buffer.from(await preview.saved()) as unknown as ArrayBuffer);
    const doors: string[] = [];
    saved.getWorksheet('Cylinders')!.eachRow((row, r) => {
      if (r > 4) doors.push(row.getCell(3).text);
    });
    expect(doors.sort()).toEqual(sets.map((_, i) => `D${i + 1}`).sort());
    await preview.page.context().close();
  });

  it('fills in a sample on request and can be skipped for good', { timeout: 240_000 }, async () => {
    const preview = await stage.open();
    await empty(preview);
    const { press } = clicker(preview);
    await press(/^Sample data/);
    await preview.pane.getByRole('button', { name: 'Write the sample' }).waitFor();
    await preview.screenshot('first-run-sample');
    await press('Write the sample');
    await press('Undo');
    await preview.pane.getByText('Taken back').first().waitFor();
    expect(await preview.call('sheets')).not.toContain('Sample doors');
    await preview.pane.getByRole('button', { name: /^Back to start/ }).click();
    await press('Skip this');
    await preview.pane.getByRole('region', { name: 'Next' }).waitFor();
    expect(await preview.pane.getByRole('region', { name: 'Begin' }).count()).toBe(0);
    await preview.page.context().close();
  });
});
