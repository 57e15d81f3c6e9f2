/**
 * The office's walk with real clicks: the schedule that exists is read, its spellings corrected, an order and the
 * customer's report written, and the saved file read back by a general-purpose library.
 */
import ExcelJS from 'exceljs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startStage, type Preview, type Stage } from './preview.ts';

let stage: Stage;
let preview: Preview;

beforeAll(async () => {
  stage = await startStage();
  preview = await stage.open();
});
afterAll(() => stage.close());

const primary = () => preview.pane.getByRole('contentinfo').locator('.primary');
const heading = (name: string | RegExp) => preview.pane.getByRole('heading', { name });
const said = (words: RegExp) => preview.pane.getByRole('main').getByText(words).first();

async function written(): Promise<void> {
  await said(/^Adds|^Changes/).waitFor();
  await primary().click();
  await said(/^Added|^Changed/).waitFor();
}

describe('the schedule in the browser', () => {
  it('is found below its title, checked, and its spellings corrected when told to', async () => {
    await preview.pane.getByRole('button', { name: 'Look after the schedule' }).click();
    await primary().click();
    await heading('Columns of the schedule').waitFor();
    expect(await preview.pane.getByLabel('Keyset symbol').inputValue()).toBe('3');
    await primary().click();
    await heading('Check of Door schedule').waitFor();
    expect(await said(/warnings? in 60 rows/).innerText()).toMatch(/^12 warnings/);
    await preview.screenshot('schedule-check');
    await primary().click();
    await written();
    await preview.pane.getByRole('button', { name: 'Done' }).click();
    await said(/^4 warnings in 60 rows/).waitFor();
  });

  it('gives an order, stamping and a report without bittings', async () => {
    await preview.pane.getByRole('button', { name: 'Order totals' }).click();
    await primary().click();
    await written();
    await preview.pane.getByRole('button', { name: 'Done' }).click();
    for (const name of ['Back to the check', 'Back to the choice of sheet', 'Back to start'])
      await preview.pane.getByRole('button', { name, exact: true }).click();
    await preview.pane.getByRole('button', { name: 'Reports and privacy' }).click();
    await primary().click();
    await written();
    await preview.screenshot('customer-report');

    const book = new ExcelJS.Workbook();
    await book.xlsx.load(Buffer.from(await preview.saved()) as unknown as ArrayBuffer);
    const texts = (name: string): string[] => {
      const found: string[] = [];
      book.getWorksheet(name)!.eachRow((row) => row.eachCell((cell) => void found.push(cell.text)));
      return found;
    };
    expect(texts('Door schedule')).toContain('AA8');
    expect(texts('Order')).toContain('Not keyed yet.');
    expect(texts('Stamping')).toContain('AA1-3');
    const keys = book.getWorksheet('Keys')!;
    const column = (keys.getRow(4).values as unknown[]).indexOf('Bitting');
    const bittings: string[] = [];
    keys.getColumn(column).eachCell((cell, row) => {
      if (row > 4) bittings.push(cell.text.replace(/\W/g, ''));
    });
    expect(bittings.length).toBeGreaterThan(40);
    for (const name of ['Order', 'Stamping', 'Customer doors', 'Customer keys']) {
      const squeezed = texts(name).map((text) => text.replace(/\W/g, ''));
      expect(
        squeezed.filter((text) => bittings.some((bitting) => text.includes(bitting))),
        name,
      ).toEqual([]);
    }
    const { pageSetup, headerFooter } = book.getWorksheet('Customer doors')!;
    expect(pageSetup).toMatchObject({
      fitToPage: true,
      fitToWidth: 1,
      fitToHeight: 0,
      printTitlesRow: '1:4',
    });
    expect(headerFooter.oddFooter).toContain('Page &P of &N');
    expect(preview.errors).toEqual([]);
    expect(preview.outside).toEqual([]);
  });
});
