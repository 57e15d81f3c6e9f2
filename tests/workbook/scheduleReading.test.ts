/** The shop's schedule through office.js: cells, merged cells, filters, protection and what is remembered. */
import { describe, expect, it } from 'vitest';
import { headingsOf } from '../../src/keying/scheduleColumns.ts';
import { readSchedule, readSettings, writeSettings } from '../../src/workbook/index.ts';
import { openBook, type OpenBook } from '../support/office.ts';

export async function shopSchedule(): Promise<OpenBook> {
  const book = openBook();
  book.host.userEdit('Sheet1', 'B2', [
    ['TARN HOLLOW', '', '', ''],
    ['', '', '', ''],
    ['Door', 'Room', 'Keyset', 'Qty'],
    ['WEST WING', '', '', ''],
    ["'0101", 'Office', 'aa1', 1],
    ['102', 'Store', 'AB1', 1],
  ]);
  await book.run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.getRange('B2:E2').merge();
    sheet.getRange('B5:E5').merge();
    await context.sync();
  });
  return book;
}

describe('the shop’s schedule', () => {
  it('is read with its cells, also below a title and away from A1', async () => {
    await shopSchedule();
    const read = await readSchedule('Sheet1');
    if (!read.ok) throw new Error(read.error.sentence);
    expect(read.value.guess.columns).toEqual({ headerRow: 2, door: 0, location: 1, symbol: 2, quantity: 3 });
    expect(read.value.rows.map((r) => [r.door, r.at.address, r.symbol])).toEqual([
      ['0101', 'B6', 'aa1'],
      ['102', 'B7', 'AB1'],
    ]);
    expect(read.value.schedule.lines.map((l) => l.text.zone)).toEqual(['WEST WING', 'WEST WING']);
    expect(read.value.sheet.merged).toContainEqual({ row: 0, column: 0, rows: 1, columns: 4 });
  });

  it('finds the columns that were confirmed again after one came in before them', async () => {
    const { run } = await shopSchedule();
    const read = await readSchedule('Sheet1');
    if (!read.ok) throw new Error(read.error.sentence);
    const { columns, headers } = read.value.guess;
    const headings = headingsOf(columns, headers);
    expect(await writeSettings({ schedule: { sheet: 'Sheet1', columns, headings } })).toBe(true);
    await run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.getRange('A1').values = [['x']];
      await context.sync();
    });
    const kept = (await readSettings()).schedule;
    if (!kept?.headings) throw new Error('not kept');
    const again = await readSchedule('Sheet1', { columns: kept.columns, headings: kept.headings });
    if (!again.ok) throw new Error(again.error.sentence);
    expect(again.value.guess.columns).toEqual({ headerRow: 3, door: 1, location: 2, symbol: 3, quantity: 4 });
    expect(again.value.rows.map((r) => r.at.address)).toEqual(['B6', 'B7']);
  });

  it('reads hidden rows of a filter, and says that there is one', async () => {
    const { run } = await shopSchedule();
    await run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.autoFilter.apply('B4:E7', 0, { filterOn: 'Values', values: ['102'] });
      await context.sync();
    });
    const read = await readSchedule('Sheet1');
    if (!read.ok) throw new Error(read.error.sentence);
    expect(read.value.sheet.filtered).toBe(true);
    expect(read.value.rows).toHaveLength(2);
  });

  it('says so where there is nothing, and where no row looks like headings', async () => {
    const book = openBook();
    expect(await readSchedule('Sheet1')).toMatchObject({ ok: false, error: { code: 'NothingThere' } });
    book.host.userEdit('Sheet1', 'A1', [['Colour', 'Price']]);
    expect(await readSchedule('Sheet1')).toMatchObject({ ok: false, error: { code: 'NoSchedule' } });
    expect(await readSchedule('Gone')).toMatchObject({ ok: false, error: { code: 'ItemNotFound' } });
  });
});
