/**
 * Searches with real clicks: a grid that isn't solved in the time that it was given, searched on until it is; and
 * keys without a master, drawn apart from one another. Results are read from the saved file by the plain definition.
 */
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { opensIn, rowsOf } from './hallBook.ts';
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

const primary = (name: string | RegExp) =>
  preview.pane.getByRole('contentinfo').getByRole('button', { name });
const paneText = (): Promise<string> => preview.pane.locator('main').innerText();
const openTask = (name: string): Promise<void> =>
  preview.pane.getByRole('navigation', { name: 'Tasks' }).getByRole('button', { name }).click();

async function write(action: string): Promise<void> {
  await primary(action).click();
  // one request after the other, on whatever machine this runs
  await primary('Done').waitFor({ timeout: 150_000 });
}

/** Twelve keys, each for three doors of a ring: no hierarchy, so that it takes some searching. */
const RING: Readonly<Record<string, readonly string[]>> = Object.fromEntries(
  Array.from({ length: 12 }, (_, d) => [`D${d + 1}`, [0, 1, 5].map((n) => `K${((d + n) % 12) + 1}`).sort()]),
);

describe('searches in the browser', () => {
  it('says how far it got where nothing was found in the time, and searches on', async () => {
    const [sheet] = (await preview.call('sheets')) as string[];
    // a list of keys a door: fewer cells to type than a mark each
    await preview.call('type', sheet!, 'A1', 'Cylinder');
    await preview.call('type', sheet!, 'B1', 'Keys');
    for (const [d, [door, list]] of Object.entries(RING).entries()) {
      await preview.call('type', sheet!, `A${d + 2}`, door);
      await preview.call('type', sheet!, `B${d + 2}`, list.join(', '));
    }
    await preview.call('select', sheet!, 'A2');
    await openTask('Solve a grid');
    await preview.pane.getByText('More: differences, depths, seed, rules').click();
    await preview.pane.getByLabel('Search steps').fill('1000');
    await primary('Solve the grid').click();
    await preview.pane.getByRole('heading', { name: 'Not found' }).waitFor();
    expect(await paneText()).toMatch(/Nothing was found in 1,\d{3} steps, and nothing is proved/);
    expect(await paneText()).toContain('Nothing was written.');
    await preview.pictured('searches-not-found');
    // four times as long is enough here
    await primary('Search on').click();
    await primary('Write the system').waitFor();
    expect(await paneText()).toContain('12 keys against 12 cylinders, every pair audited');
    await preview.pictured('searches-found');
  });

  it('draws a pool of bittings apart from one another and from those that stand', async () => {
    await openTask('Keys without a master');
    await preview.pane.getByLabel('Name', { exact: true }).fill('Padlocks');
    await preview.pane.getByLabel('Keys', { exact: true }).fill('12');
    await preview.pane.getByText('More: difference, seed, rules').click();
    await preview.pane.getByLabel('Chambers that keys differ in').fill('3');
    await preview.pictured('searches-pool');
    await primary('Draw the bittings').click();
    await primary('Write the keys').waitFor();
    expect(await paneText()).toContain(
      '12 bittings, any two apart in 3 chambers at least. None were used before.',
    );
    await preview.pictured('searches-pool-plan');
    await write('Write the keys');
    await preview.pictured('searches-pool-written');

    await preview.call('settle');
    const saved = await preview.saved();
    const bittings = (await rowsOf(saved, 'Keys', 'Bitting')).map((row) => row['Bitting']!);
    expect(bittings).toHaveLength(12);
    for (const [n, a] of bittings.entries())
      for (const b of bittings.slice(n + 1))
        expect([...a].filter((cut, i) => cut !== b[i]).length, `${a} and ${b}`).toBeGreaterThanOrEqual(3);
    // each cylinder opens for its own key and no other
    for (const [cylinder, keys] of Object.entries(await opensIn(saved, 'Padlocks')))
      expect(keys).toEqual([cylinder.replace(/-1$/, '')]);

    // a second pool keeps away from the first
    await primary('Done').click();
    await openTask('Keys without a master');
    await preview.pane.getByLabel('Name', { exact: true }).fill('Lockers');
    await primary('Draw the bittings').click();
    await primary('Write the keys').waitFor();
    expect(await paneText()).toContain('and from 12 bittings used before');
  });
});
