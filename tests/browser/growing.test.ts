/**
 * A system that stands grows with real clicks: a new door and a new key are fitted in, cylinders are re-pinned where
 * it can't be otherwise, a door is cross-keyed, a construction key comes and goes. What opens what is read from the
 * saved file by the plain definition; each later state is pictured at the pane's width in light and dark.
 */
import type { Locator } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { HALL, hallBook, openHall, opensIn, rowsOf } from './hallBook.ts';
import { startStage, type Preview, type Stage } from './preview.ts';

let stage: Stage;
let preview: Preview;
let bytes: Uint8Array;
beforeAll(async () => {
  bytes = await hallBook();
  stage = await startStage();
});
beforeEach(async () => {
  preview = await stage.open();
  await openHall(preview, bytes);
});
afterEach(async () => {
  await preview.page.context().close();
  expect(preview.outside).toEqual([]);
  expect(preview.errors).toEqual([]);
});
afterAll(() => stage.close());

const primary = (name: string | RegExp): Locator =>
  preview.pane.getByRole('contentinfo').getByRole('button', { name });
const paneText = (): Promise<string> => preview.pane.locator('main').innerText();
const pictured = (name: string, inView?: Locator): Promise<void> => preview.pictured(`grows-${name}`, inView);
const openTask = (name: string): Promise<void> =>
  preview.pane.getByRole('navigation', { name: 'Tasks' }).getByRole('button', { name }).click();

async function type(sheet: string, cells: Readonly<Record<string, string>>): Promise<void> {
  for (const [address, text] of Object.entries(cells)) await preview.call('type', sheet, address, text);
}

/** Writes the plan in view and goes back to the start screen. */
async function write(action: string): Promise<void> {
  await primary(action).click();
  // one request after the other, on whatever machine this runs
  await primary('Done').waitFor({ timeout: 150_000 });
  await primary('Done').click();
  await primary('Read again').waitFor();
}

async function auditIsClean(): Promise<void> {
  await openTask('Audit a system');
  await primary('Audit Hall').click();
  await preview.pane.getByRole('heading', { name: 'Audit of Hall' }).waitFor();
  expect(await paneText()).toContain('Every key opens what it should and nothing else');
}

/** Chooses in a list that opens under its field. */
async function choose(label: string, ...options: readonly string[]): Promise<void> {
  const box = preview.pane.getByLabel(label, { exact: true });
  for (const option of options) {
    await box.click();
    // one to choose, or several to tick
    const [one, several] = (['option', 'menuitemcheckbox'] as const).map((role) =>
      preview.pane.getByRole(role, { name: option, exact: true }),
    );
    await one!.or(several!).click();
  }
  await preview.page.keyboard.press('Escape');
}

describe('a system that grows in the browser', () => {
  it('takes a new door and a new key in, and leaves what stands', async () => {
    const before = (await rowsOf(bytes, 'Keys', 'Bitting')).map((row) => row['Bitting']);
    // below and beside the grid of A4:L10, the cylinder of a keyway of its own
    await type('Grid', { A11: 'C7', B11: 'Boiler room', D11: 'x', E11: 'x', M4: 'AA4', M11: 'x' });
    await type('Grid', { N4: 'Keyway', N11: 'K2' });
    await openTask('Extend a system');
    await preview.pane.getByText('New on Grid: 1 key (AA4) and 1 cylinder (Boiler room).').waitFor();
    await pictured('extend');
    await primary('Fit them in').click();
    await primary('Write the extension').waitFor();
    expect(await paneText()).toContain('10 keys against 7 cylinders, every pair audited');
    await pictured('extend-plan');
    await write('Write the extension');

    await preview.call('settle');
    const saved = await preview.saved();
    expect(await opensIn(saved, 'Hall')).toEqual({ ...HALL, C7: ['A', 'AA', 'AA4'] });
    const after = (await rowsOf(saved, 'Keys', 'Bitting')).map((row) => row['Bitting']);
    expect(after.slice(0, -1)).toEqual(before);
    const cylinders = await rowsOf(saved, 'Cylinders', 'Ch 1');
    expect(cylinders.find((row) => row['Cylinder'] === 'C7')?.['Keyway']).toBe('K2');
    await auditIsClean();
  });

  it('names the cylinders to re-pin where a new key can’t be fitted in as they stand', async () => {
    // a porter's key for a door of each wing, and for nothing else
    await type('Grid', { M4: 'HK', M7: 'x', M8: 'x' });
    await openTask('Extend a system');
    await primary('Fit them in').click();
    await preview.pane.getByRole('heading', { name: 'Not as it stands' }).waitFor();
    expect(await paneText()).toContain(
      'Re-pinning C4 makes it fit. Proved smallest: no fewer cylinders will do.',
    );
    await pictured('repin');
    await primary('Re-pin it and fit in').click();
    await primary('Write the extension').waitFor();
    await pictured('repin-plan');
    await write('Write the extension');

    await preview.call('settle');
    const saved = await preview.saved();
    expect(await opensIn(saved, 'Hall')).toEqual({
      ...HALL,
      C3: [...HALL['C3']!, 'HK'],
      C4: [...HALL['C4']!, 'HK'],
    });
    await auditIsClean();
  });

  it('shows what a common door costs before it is written', async () => {
    await openTask('Cross-key a door');
    await choose('Door', 'C1');
    await choose('Keys that shall open it too', 'AB1');
    const table = preview.pane.getByRole('table', { name: 'C1, before and after' });
    const who = preview.pane.getByText('AB would open C1 too, and should not.');
    await who.waitFor();
    // seen without scrolling: above the foot of a pane of the usual size
    const foot = await preview.pane.getByRole('contentinfo').boundingBox();
    for (const part of [table, who]) {
      const box = await part.boundingBox();
      expect(box!.y + box!.height).toBeLessThan(foot!.y);
    }
    await pictured('cross');
    await primary('Show the change').click();
    await primary('Change these cells').waitFor();
    await pictured('cross-plan');
    await write('Change these cells');

    await preview.call('settle');
    const opens = await opensIn(await preview.saved(), 'Hall');
    expect(opens['C1']).toEqual(expect.arrayContaining([...HALL['C1']!, 'AB1']));
    expect(opens).toEqual({ ...HALL, C1: opens['C1'] });
    await openTask('Audit a system');
    await primary('Audit Hall').click();
    await preview.pane.getByRole('heading', { name: 'Audit of Hall' }).waitFor();
    expect(await paneText()).toContain('Key AB operates cylinder C1, which it should not');
  });

  it('gives the builders a key that ends at hand-over', async () => {
    await openTask('Construction keying');
    await pictured('construction');
    await primary('Find a construction key').click();
    await primary('Write the construction key').waitFor();
    await pictured('construction-plan');
    await write('Write the construction key');

    await preview.call('settle');
    const during = await opensIn(await preview.saved(), 'Hall');
    for (const [cylinder, keys] of Object.entries(HALL)) expect(during[cylinder]).toEqual([...keys, 'CON']);
    await auditIsClean();
    await preview.pane.getByRole('button', { name: /^Back to the choice/ }).click();
    await preview.pane.getByRole('button', { name: 'Back to start' }).click();

    await openTask('Construction keying');
    await preview.pane.getByRole('button', { name: 'Show the hand-over' }).waitFor();
    await pictured('hand-over');
    await preview.pane.getByRole('button', { name: 'Show the hand-over' }).click();
    await primary('Write the hand-over').waitFor();
    await pictured('hand-over-plan');
    await write('Write the hand-over');
    await preview.call('settle');
    const saved = await preview.saved();
    expect(await opensIn(saved, 'Hall')).toEqual(HALL);
    expect((await rowsOf(saved, 'Keys', 'Bitting')).find((r) => r['Symbol'] === 'CON')?.['Status']).toBe(
      'retired',
    );
  });
});
