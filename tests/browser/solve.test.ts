/**
 * A grid of no regular shape, typed into an empty workbook: solved, written, audited clean; and checked once more in
 * the saved file, read by a general-purpose library, by the plain definition of what opens what (the keyway is the
 * key's, and every cut of the key is one of the depths in that chamber's cell). A grid that
 * has no solution is said to have none, and why.
 */
import ExcelJS from 'exceljs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startStage, type Preview, type Stage } from './preview.ts';

const KEYS = ['M', 'CL', 'K1', 'K2', 'K3', 'K4', 'K5', 'K6', 'K7'];
/**
 * Plant rooms shared in a ring, a cleaner with odd doors, a common entrance without a hierarchy over it; and a shed of
 * another keyway.
 */
const DOORS: Readonly<Record<string, readonly string[]>> = {
  Entrance: ['M', 'CL', 'K1', 'K2', 'K3', 'K4', 'K5', 'K6'],
  'Plant A': ['M', 'K1', 'K2'],
  'Plant B': ['M', 'K2', 'K3'],
  'Plant C': ['M', 'K3', 'K1'],
  Office: ['M', 'CL', 'K4'],
  Store: ['M', 'K5', 'CL'],
  Archive: ['M', 'K6'],
  Safe: ['K6'],
  Shed: ['K7'],
};

let stage: Stage;
let preview: Preview;

beforeAll(async () => {
  stage = await startStage();
  preview = await stage.open();
  await preview.page.getByRole('button', { name: 'Empty workbook' }).click();
  await preview.pane.getByRole('region', { name: 'Begin' }).waitFor();
});
afterAll(() => stage.close());

const primary = (name: string | RegExp) => preview.primary(name);
const paneText = (): Promise<string> => preview.pane.locator('main').innerText();

async function typeGrid(): Promise<void> {
  const cell = (column: number, row: number): string => `${String.fromCharCode(65 + column)}${row}`;
  const [sheet] = (await preview.call('sheets')) as string[];
  await preview.call('type', sheet!, 'B1', 'North house, who opens what');
  await preview.call('type', sheet!, 'B3', 'Door');
  for (const [k, key] of KEYS.entries()) await preview.call('type', sheet!, cell(k + 2, 3), key);
  for (const [d, [door, keys]] of Object.entries(DOORS).entries()) {
    await preview.call('type', sheet!, cell(1, d + 4), door);
    for (const key of keys) await preview.call('type', sheet!, cell(KEYS.indexOf(key) + 2, d + 4), 'x');
  }
  await preview.call('select', sheet!, 'D6');
}

async function rows(bytes: Uint8Array, sheet: string): Promise<string[][]> {
  const book = new ExcelJS.Workbook();
  await book.xlsx.load(Buffer.from(bytes) as unknown as ArrayBuffer);
  const found: string[][] = [];
  book.getWorksheet(sheet)!.eachRow((row) => {
    const cells = row.values as unknown[];
    found.push(Array.from({ length: 30 }, (_, c) => String(cells[c + 1] ?? '')));
  });
  return found;
}

describe('a grid of any shape', () => {
  it('says which cell is no mark, and goes there', async () => {
    await typeGrid();
    const [sheet] = (await preview.call('sheets')) as string[];
    await preview.call('type', sheet!, 'E5', 'maybe');
    await preview.openTask('Solve a grid');
    await primary('Solve the grid').click();
    await preview.pane.getByText('“maybe” is no mark', { exact: false }).waitFor();
    expect(await paneText()).toMatch(/1 cell can’t be read, so the grid is not solved/);
    await preview.pane.getByRole('button', { name: /^Go to cell .*E5$/ }).click();
    await preview.screenshot('solve-unread');
    await preview.call('type', sheet!, 'E5', 'x');
  });

  it('is proved to have no solution where a door takes more keys than one depth can tell apart', async () => {
    await preview.pane.getByText('More: differences, depths, seed, rules').click();
    await preview.pane.getByLabel('Most depths in a chamber').fill('1');
    await primary('Solve the grid').click();
    await preview.pane.getByRole('heading', { name: 'No solution' }).waitFor();
    expect(await paneText()).toMatch(/keys of .* need different bittings/);
    await preview.pictured('solve-no-solution');
    await preview.pane.getByRole('button', { name: 'Back to the grid' }).click();
    await preview.pane.getByText('More: differences, depths, seed, rules').click();
    await preview.pane.getByLabel('Most depths in a chamber').fill('');
  });

  it('is solved and written, of two keyways that are named by keyboard alone', async () => {
    const [sheet] = (await preview.call('sheets')) as string[];
    await preview.call('select', sheet!, 'D6');
    await preview.pane.getByLabel('Name of the new system').fill('North house');
    await preview.pane.getByText('Keyways, blanks, control key').focus();
    const { keyboard } = preview.page;
    await keyboard.press('Enter');
    await keyboard.press('Tab');
    await keyboard.type('1A');
    await keyboard.press('Tab');
    await keyboard.type('1B: K7, Shad');
    const unknown = preview.pane.getByText('“Shad” is no key and no door of this grid.', { exact: false });
    await unknown.waitFor();
    await preview.pictured('solve-keyways', unknown);
    await keyboard.press('Backspace');
    await keyboard.press('Backspace');
    await keyboard.type('ed');
    await unknown.waitFor({ state: 'detached' });
    await primary('Solve the grid').click();
    await primary('Write the system').waitFor();
    expect(await paneText()).toContain('9 keys against 9 cylinders, every pair audited');
    expect(await paneText()).toContain('touches nothing else');
    await preview.screenshot('solve-solved');
    await primary('Write the system').click();
    // eight sheets and tables, one request after the other, on whatever machine this runs
    await primary('Done').waitFor({ timeout: 150_000 });
    await primary('Done').click();
  });

  it('opens exactly what was marked, in the saved file', async () => {
    await preview.call('settle');
    const saved = await preview.saved();
    const keys = (await rows(saved, 'Keys')).filter((row) => row[0] === 'North house');
    const cylinders = (await rows(saved, 'Cylinders')).filter((row) => row[0] === 'North house');
    expect(keys.map((row) => row[1])).toEqual(KEYS);
    expect(cylinders.map((row) => row[1])).toEqual(Object.keys(DOORS));
    for (const cylinder of cylinders)
      for (const key of keys) {
        const chambers = cylinder.slice(6, 12).map((cell) => cell.split(' '));
        const cuts = [...key[4]!].every((cut, i) => chambers[i]!.includes(cut));
        const opens = cuts && key[6] === cylinder[5];
        expect([cylinder[1], key[1], opens]).toEqual([
          cylinder[1],
          key[1],
          DOORS[cylinder[1]!]!.includes(key[1]!),
        ]);
      }
    expect(new Set(keys.map((row) => row[4])).size).toBe(KEYS.length);
    expect(keys.filter((row) => row[6] === '1B').map((row) => row[1])).toEqual(['K7']);
    expect(cylinders.filter((row) => row[5] === '1B').map((row) => row[1])).toEqual(['Shed']);
  });

  it('passes the audit from the sheets', async () => {
    await primary(/^Audit/).click();
    await primary(/^Audit North house/).click();
    await preview.pane.getByRole('heading', { name: 'Audit of North house' }).waitFor();
    expect(await paneText()).not.toMatch(/which it should not|does not operate/);
    await preview.screenshot('solve-audit');
    expect(preview.outside).toEqual([]);
    expect(preview.errors).toEqual([]);
  });
});
