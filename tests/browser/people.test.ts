/**
 * The facility manager's walks with real clicks: keys are given out against a receipt, the cabinet is counted, a door
 * is asked about as of a past day, a lost master is changed and taken back, and both reports are written.
 */
import ExcelJS from 'exceljs';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { startStage, type Preview, type Stage } from './preview.ts';

let stage: Stage;
let preview: Preview;

beforeAll(async () => {
  stage = await startStage();
  preview = await stage.open();
});
afterAll(() => stage.close());
afterEach(() => {
  expect(preview.errors).toEqual([]);
  expect(preview.outside).toEqual([]);
});

const button = (name: string | RegExp) => preview.pane.getByRole('button', { name });
const field = (label: string | RegExp) => preview.pane.getByLabel(label, { exact: true });
const primary = () => preview.pane.getByRole('contentinfo').locator('.primary');
const said = (words: RegExp) => preview.pane.getByRole('main').getByText(words).first();

async function written(): Promise<string> {
  await said(/^Adds|^Changes|^Replaces/).waitFor();
  const plan = await said(/^Adds|^Changes|^Replaces/).innerText();
  await primary().click();
  await said(/^Added|^Changed|^Replaced/).waitFor();
  return plan;
}

async function sheet(name: string): Promise<string[]> {
  const book = new ExcelJS.Workbook();
  await book.xlsx.load(Buffer.from(await preview.saved()) as unknown as ArrayBuffer);
  const texts: string[] = [];
  book.getWorksheet(name)?.eachRow((row) => row.eachCell((cell) => void texts.push(cell.text)));
  return texts;
}

describe('keys and people in the browser', () => {
  it('start by saying to which day the ledger goes', async () => {
    await said(/ledger to 2026-03-06/).waitFor();
  });

  it('gives two keys to a new tenant and prints the receipt', async () => {
    await preview.openTask('Hand out and take back');
    await field('Keys').fill('AC1-AC2');
    await field('To').fill('Pottery circle');
    await field('Department').fill('Guests');
    await field('On').fill('2026-03-12');
    await preview.screenshot('people-issue');
    await primary().click();
    expect(await written()).toMatch(/^Adds 1 row to Holders; adds 2 rows to Ledger/);
    await button('Receipt to sign').click();
    expect(await written()).toMatch(/^Adds the sheet Receipt with 2 rows/);
    await preview.screenshot('people-receipt');
    const texts = await sheet('Receipt');
    expect(texts).toContain('Receipt for keys: Pottery circle');
    expect(texts.filter((t) => /^AC[12]$/.test(t))).toEqual(['AC1', 'AC2']);
    await button('Done').click();
  });

  it('asks who could open a door before that, and after', async () => {
    await preview.openTask('Keys and people');
    await field('Door').fill('401');
    await field('As of').fill('2026-03-11');
    await said(/can open 401/).waitFor();
    const people = preview.pane.getByRole('list', { name: 'Who can open 401' });
    await people.getByText('Workshop technician').waitFor();
    expect(await people.getByText('Pottery circle').count()).toBe(0);
    await preview.screenshot('people-door');
    await field('As of').fill('2026-03-12');
    await people.getByText('Pottery circle').waitFor();
  });

  it('counts what a holder has by typing, and lists the differences', async () => {
    await preview.openTask('Count the keys');
    await field('Where').selectOption({ label: 'Pottery circle' });
    await said(/^2 keys should be here/).waitFor();
    await field('Counted').fill('AC1/1\nAB4/2');
    await said(/1 key found of 2; 2 differences/).waitFor();
    await preview.screenshot('people-count');
    await primary().click();
    expect(await written()).toMatch(/with 3 rows/);
    const texts = await sheet('Key count, Pottery circle');
    expect(texts).toContain('missing');
    expect(texts.join(' ')).toContain('PE-3');
    await button('Done').click();
  });

  it('takes a lost master to its plan, with the padlock that can’t be read shut out, and back', async () => {
    await preview.openTask('A key is lost');
    await said(/^By the ledger lost: AB \/ 1/).waitFor();
    expect(await field('Lost key').inputValue()).toBe('AB');
    await said(/SKD4 can’t be read and has nothing to do with these doors/).waitFor();
    await preview.screenshot('lost-scope');
    await button('Put the zero back').click();
    await said(/^Changes 1 cell of Keys/).waitFor();
    await said(/27413 → 027413/).waitFor();
    await preview.screenshot('lost-mend');
    await button('Back to the lost key').click();
    await primary().click();
    await said(/new bittings for .* cylinders: .* audited, and the lost key opens none/).waitFor();
    await preview.screenshot('lost-found');
    await primary().click();
    await said(/^Changes .* cells of Keys; .*Work order/).waitFor();
    const bittings = preview.pane.getByRole('list', { name: 'New bittings' }).getByRole('listitem');
    expect(await bittings.first().innerText()).toMatch(/^AB: \d{6} → \d{6}$/);
    await preview.screenshot('lost-plan');
    const before = await sheet('Keys');
    expect(await written()).toMatch(/adds the sheet Keys to call back with \d+ rows/);
    const after = await sheet('Keys');
    expect(after.filter((t) => t === 'retired').length).toBeGreaterThan(
      before.filter((t) => t === 'retired').length,
    );
    expect(await sheet('Work order, tenant')).toContain('SPORTS HALL');
    await preview.screenshot('lost-written');
    await button('Undo').click();
    await said(/^Taken back/).waitFor();
    expect(await sheet('Keys')).toEqual(before);
    await button('Leave it').click();
  });

  it('writes the report for the customer, without a column of bittings, and the shop’s', async () => {
    await preview.openTask('Reports and privacy');
    await preview.screenshot('people-reports');
    await primary().click();
    await written();
    expect((await sheet('Customer keys')).join(' ')).not.toMatch(/Bitting\b(?!s)/);
    await button('Done').click();
    await preview.pane.getByRole('radio', { name: /^The shop/ }).check();
    await primary().click();
    await written();
    expect(await sheet('Shop keys')).toContain('Bitting');
    await button('Done').click();
  });
});
