/**
 * Grids with real clicks: keys made by an array that is edited in its sheet, and why a key opens a door, chamber by
 * chamber. Each walk has a page of its own; each state is pictured at the pane's width in light and dark.
 */
import type { Locator } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { startStage, type Preview, type Stage } from './preview.ts';

let stage: Stage;
let preview: Preview;
beforeAll(async () => {
  stage = await startStage();
});
beforeEach(async () => {
  preview = await stage.open();
  await preview.page.getByRole('button', { name: 'Empty workbook' }).click();
  await preview.pane.getByText('Nothing of Keyrow’s in this workbook', { exact: false }).first().waitFor();
});
afterEach(async () => {
  await preview.page.context().close();
  expect(preview.outside).toEqual([]);
  expect(preview.errors).toEqual([]);
});
afterAll(() => stage.close());

const primary = (name: string | RegExp) => preview.primary(name);
const paneText = (): Promise<string> => preview.pane.locator('main').innerText();
const button = (name: string | RegExp) => preview.pane.getByRole('button', { name });
const pictured = (name: string, inView?: Locator): Promise<void> => preview.pictured(`grids-${name}`, inView);

async function write(action: string): Promise<void> {
  await primary(action).click();
  // sheets and tables, one request after the other, on whatever machine this runs
  await primary('Done').waitFor({ timeout: 150_000 });
}

/** Writes the action's plan and goes on to the start screen. */
async function writeAndLeave(action: string): Promise<void> {
  await write(action);
  await primary('Done').click();
  await primary('Read again').waitFor();
}

/** A grid typed into the only sheet: keys across, doors down. */
async function typeGrid(keys: readonly string[], doors: Readonly<Record<string, string>>): Promise<void> {
  const [sheet] = (await preview.call('sheets')) as string[];
  const cell = (column: number, row: number): string => `${String.fromCharCode(65 + column)}${row}`;
  await preview.call('type', sheet!, 'A1', 'Door');
  for (const [k, key] of keys.entries()) await preview.call('type', sheet!, cell(k + 1, 1), key);
  for (const [d, [door, marks]] of Object.entries(doors).entries()) {
    await preview.call('type', sheet!, cell(0, d + 2), door);
    for (const [k, mark] of [...marks].entries())
      if (mark === 'x') await preview.call('type', sheet!, cell(k + 1, d + 2), 'x');
  }
  await preview.call('select', sheet!, 'B2');
}

describe('grids of any shape, clicked through', { timeout: 400_000 }, () => {
  it('makes keys by an array edited in its sheet, with a chamber kept and a master in reserve', async () => {
    await preview.openTask('Make keys');
    await preview.pane.getByLabel('Name of the system').fill('Hall');
    await preview.pane.getByLabel('Masters', { exact: true }).fill('2');
    await preview.pane.getByLabel('Change keys under each master').fill('3');
    await preview.pane.getByText('Reserve for later').click();
    await preview.pane.getByLabel('Spare masters', { exact: true }).fill('1');
    await preview.pane.getByText('Key bitting array and levels').click();
    await preview.pane.getByLabel('Level of chamber 5').selectOption('constant');
    await button('Put it on a sheet to edit').click();
    await write('Put it on the sheet');
    await primary('Done').click();
    const [, depths] = (await preview.pane
      .getByRole('table', { name: /^Kept:/ })
      .getByRole('row')
      .nth(1)
      .getByRole('cell')
      .allInnerTexts()) as string[];
    await preview.call('type', 'Array', 'E5', `${depths} ${depths}`);
    await preview.pane
      .getByText(/stands there twice/)
      .first()
      .waitFor();
    await button('Show them').click();
    await pictured('array-fault');
    await preview.call('type', 'Array', 'E5', [...depths!.split(' ')].reverse().join(' '));
    await preview.pane.getByText(depths!.split(' ').reverse().join(' '), { exact: true }).waitFor();
    await pictured('array', preview.pane.getByRole('table', { name: /^Kept:/ }));
    await primary('Make the keys').click();
    await primary('Write the system').waitFor();
    expect(await paneText()).toContain('1 master in reserve.');
    expect(await paneText()).toContain('Chamber 5 is kept at the top master’s cut');
    await pictured('made');
    await writeAndLeave('Write the system');
  });

  it('says why a key opens a door, chamber by chamber, on hover and by keyboard', async () => {
    await typeGrid(['M', 'K1', 'K2'], { Office: 'xx.', Store: 'x.x', Entrance: 'xxx' });
    await preview.openTask('Solve a grid');
    await primary('Solve the grid').click();
    await primary('Write the system').waitFor();
    const why = preview.pane.getByText(/^M opens Office/).first();
    await why.waitFor();
    const grid = preview.pane.getByRole('grid');
    await grid.focus();
    await preview.page.keyboard.press('ArrowRight');
    await preview.page.keyboard.press('ArrowRight');
    await preview.pane
      .getByText(/K2 does not open Office|K2 doesn’t open Office/)
      .first()
      .waitFor();
    await pictured('solved');
  });
});
