/**
 * The locksmith's morning with real clicks: an ugly list is pasted, read, counted by reason and put on a cutting
 * sheet; the same list comes as .xlsx; pins and a picture go into the sheet; a key
 * is decoded. The saved file is read back by a general-purpose library.
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

const primary = (name: string | RegExp) => preview.primary(name);
const paneText = (): Promise<string> => preview.pane.getByRole('main').innerText();
const picture = async (name: string): Promise<void> => {
  await preview.page
    .locator('iframe[title="Keyrow"]')
    .screenshot({ path: `artifacts/screenshots/codes-${name}.png` });
};

/** Whatever comes by mail: spaces, look-alikes, full-width digits, a date, a lost zero, a blind code, a copy. */
const UGLY = [
  ['Mark', 'Code', 'Qty'],
  ['A1', '2-7-4-1-5-3', '2'],
  ['A2', ' 352416 ', '1'],
  ['A3', '35241O', '1'],
  ['A4', '3524l6', '3'],
  ['A5', '４５３２１６', '1'],
  ['A6', '03/02/2001', '1'],
  ['A7', '41536', '1'],
  ['A8', 'KX 1042', '1'],
  ['A9', '190919', '1'],
  ['A10', '274153', '1'],
  ['A11', '', '1'],
  ['A12', '463524', 'some'],
] as const;

const pasted = UGLY.map((row) => row.join('\t')).join('\n');

async function sheetOf(name: string): Promise<ExcelJS.Worksheet> {
  const book = new ExcelJS.Workbook();
  await book.xlsx.load(Buffer.from(await preview.saved()) as unknown as ArrayBuffer);
  return book.getWorksheet(name)!;
}

async function readList(): Promise<void> {
  await preview.pane.getByLabel('Spec', { exact: true }).selectOption('S-018-6');
  await primary('Read and check the list').click();
  await primary('Plan the cutting sheet').waitFor();
}

describe('the shop', () => {
  it('says what its own cutters and blanks are good for', async () => {
    await preview.openTask('Shop tables');
    await picture('shop-empty');
    await primary('Plan the four sheets').click();
    await primary('Add the sheets').click();
    await primary('Done').click();
    await preview.pane.getByText('The sheet Cutters is empty.').waitFor();
    const rows: Record<string, string[][]> = {
      Cutters: [
        ['Narrow wheel', '0.04', '90'],
        ['Wide wheel', '0.09', '90'],
        ['Right wheel', '0.054', '90'],
      ],
      Setups: [['S-018-6', 'Narrow wheel', 'blade in jaw B, bow out', 'shoulder against the plate']],
      Blanks: [
        ['B12', 'K1, K2', '6'],
        ['B1-5', 'K1', '5', 'B1-brass'],
      ],
    };
    for (const [sheet, lines] of Object.entries(rows))
      for (const [i, line] of lines.entries())
        for (const [c, text] of line.entries())
          await preview.call('type', sheet, `${'ABCD'[c]!}${5 + i}`, text);
    await primary('Read again').click();
    await preview.pane.getByLabel('Spec', { exact: true }).selectOption('S-018-6');
    await preview.pane.getByText('Wide wheel.', { exact: false }).first().waitFor();
    await preview.pane.getByLabel('Keyway', { exact: true }).selectOption('K1');
    await picture('shop');
    const text = (await paneText()).replace(/\s+/g, ' ');
    // worked by hand for cuts of 90°, 0.054 in flats, 0.156 in apart, 0.018 in steps:
    // 5 × 0.018 + (0.09 + 0.054) / 2 − 0.156 = 0.006; a step fewer leaves 0.012 of flat between
    expect(text).toContain('Right wheel. Makes the root width in one pass.');
    expect(text).toContain(
      'Narrow wheel. 0.014 in narrower than the root width: widens in 2 passes at -0.007 and 0.007.',
    );
    expect(text).toContain('Too wide by 0.036 in');
    expect(text).toContain(
      'From 5 steps between neighbours on it eats the shallower flat, by 0.006 in at first.',
    );
    expect(text).toContain('blade in jaw B, bow out');
    expect(text).toContain('B12 enters the keyway.');
    expect(text).toContain('B1-5 enters the keyway, but has room for 1 cut too few.');
    await preview.pane.getByLabel('Spec', { exact: true }).scrollIntoViewIfNeeded();
    await preview.pane.getByText('B1-brass', { exact: false }).first().scrollIntoViewIfNeeded();
    await picture('shop-blanks');
  });
});

describe('a list from a mail', () => {
  it('is read as it came, with a count for each reason', async () => {
    await preview.openTask('Cut from a list');
    await picture('source');
    await preview.pane.getByLabel('Pasted list').fill(pasted);
    await primary('Take the pasted list').click();
    await primary('Read and check the list').waitFor();
    await picture('columns');
    await readList();
    await picture('result');
    const text = await paneText();
    expect(text).toContain('12 rows');
    expect(text).toMatch(/^1 is a blind code/m);
    const reasons = await preview.pane.getByLabel('Show the rows that').locator('option').allInnerTexts();
    expect(reasons).toEqual(
      expect.arrayContaining([
        expect.stringMatching(/^1 is a date that may have been a code/),
        expect.stringMatching(/^1 is a blind code/),
        expect.stringMatching(/look-alike letters/),
        expect.stringMatching(/^1 has full-width characters/),
        expect.stringMatching(/^1 has no readable quantity/),
        expect.stringMatching(/adjacent-cut limit/),
        expect.stringMatching(/^1 has probably lost leading zeros/),
        expect.stringMatching(/^1 has stray spaces/),
      ]),
    );
  });

  it('is filtered to what can’t be cut', async () => {
    await preview.pane.getByLabel('Show the rows that').selectOption({ label: 'can’t be cut' });
    const list = preview.pane.getByRole('list', { name: 'Rows with something to look at' });
    const lines = (await list.innerText()).replaceAll('\n', ' ');
    for (const mark of ['A6', 'A7', 'A8', 'A9', 'A11']) expect(lines).toMatch(new RegExp(`\\b${mark}\\b`));
    expect(lines).not.toMatch(/\bA1 ·/);
    // rows are numbered as they were pasted, the headings being row 1
    expect(lines).toContain('Row 7: A6');
    await picture('barred');
  });

  it('goes onto a cutting sheet that drops nothing, with a tick to choose for the first article', async () => {
    await primary('Plan the cutting sheet').click();
    await primary('Write the cutting sheet').waitFor();
    await picture('plan');
    await primary('Write the cutting sheet').click();
    await primary('Done').waitFor();
    await preview.call('settle');
    const sheet = await sheetOf('Cutting');
    const came: string[] = [];
    sheet.getColumn(2).eachCell((cell) => came.push(String(cell.value)));
    for (const [, code] of UGLY.slice(1)) if (code) expect(came.join('|')).toContain(code.trim());
    const first = 5;
    expect(await preview.call('value', 'Cutting', first - 1, 2)).toBe('274153');
    const tick = (await sheetOf('Cutting')).getCell(`M${first}`).dataValidation;
    expect(tick).toMatchObject({ type: 'list', formulae: ['"✓ good,✗ recut,proved in the lock"'] });
    const above =
      String(await preview.call('value', 'Cutting', 2, 0)) +
      String(await preview.call('value', 'Cutting', 1, 0));
    expect(above).toContain('Cutter Narrow wheel');
    expect(above).toContain('Held: blade in jaw B, bow out. Stopped: shoulder against the plate.');
    await preview.call('select', 'Cutting', 'A1');
    await preview.screenshot('codes-cutting-sheet');
    await primary('Done').click();
  });

  it('judges a first article as its cuts are read', async () => {
    const judged = () => preview.call('value', 'Cutting', 4, 20);
    const read = async (readings: Readonly<Record<string, string>>): Promise<unknown> => {
      for (const [cell, text] of Object.entries(readings)) await preview.call('type', 'Cutting', cell, text);
      await preview.call('settle');
      return judged();
    };
    expect(await judged()).toBe('');
    // the spec's depths are 0.315 in less 0.018 in a step, so cut 1 of 274153 is 0.279
    expect(await read({ O5: '0.28' })).toBe('Good so far. 5 cuts not read yet.');
    expect(await read({ P5: '0.189', Q5: '0.225', R5: '0.297', S5: '0.225', T5: '0.261' })).toBe(
      'Cut 3 reads 0.225, 0.018 too deep: that is a 5, and it should be a 4 (0.243).',
    );
    await preview.call('select', 'Cutting', 'O5');
    await preview.screenshot('codes-judged');
  });

  it('comes as an .xlsx file too, one sheet of which is chosen', async () => {
    await preview.openTask('Cut from a list');
    const book = new ExcelJS.Workbook();
    book.addWorksheet('Letter').getCell('A1').value = 'Please cut these';
    book.addWorksheet('Codes').addRows(UGLY.map((row) => [...row]));
    await preview.pane.getByLabel('File with codes').setInputFiles({
      name: 'order.xlsx',
      mimeType: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
      buffer: Buffer.from(await book.xlsx.writeBuffer()),
    });
    await preview.pane.getByRole('button', { name: 'Codes: 13 rows' }).waitFor();
    await picture('sheets');
    await preview.pane.getByRole('button', { name: 'Codes: 13 rows' }).click();
    expect(await paneText()).toContain('order.xlsx, sheet Codes: 12 rows');
    await readList();
    expect(await paneText()).toContain('12 rows');
  });

  it('says what is wrong with a file that is cut off', async () => {
    await preview.openTask('Cut from a list');
    await preview.pane.getByLabel('File with codes').setInputFiles({
      name: 'order.xlsx',
      mimeType: 'application/octet-stream',
      buffer: Buffer.from([0x50, 0x4b, 3, 4, 20, 0]),
    });
    await preview.pane
      .getByText('order.xlsx is damaged or only a part of it arrived', { exact: false })
      .waitFor();
    await picture('damaged');
  });
});

describe('pins and pictures', () => {
  it('writes the pinning sheet and puts the drawing into the sheet, once', async () => {
    await preview.openTask('Pin cylinders');
    await picture('pin');
    await primary('Plan the pinning sheet and kit list').click();
    await primary('Write the pinning sheet').click();
    await primary('Done').click();
    for (const verb of ['Adds the sheet Pictures', 'Replaces the picture']) {
      await preview.pane
        .getByRole('main')
        .getByRole('button', { name: 'Put this picture into the sheet' })
        .click();
      await primary('Put the picture in').waitFor();
      expect(await paneText()).toContain(verb);
      expect(await paneText()).toContain('Bittings are secrets');
      await picture('picture-plan');
      await primary('Put the picture in').click();
      await primary('Done').click();
      await preview.pane.getByRole('heading', { level: 1, name: 'Pin cylinders' }).waitFor();
    }
    const sheet = await sheetOf('Pictures');
    const images = sheet.getImages();
    expect(images).toHaveLength(1);
    const { buffer } = sheet.workbook.getImage(Number(images[0]!.imageId));
    const png = Buffer.from(buffer as unknown as Uint8Array);
    // three pixels of the picture for one of the drawing (PNG 3rd edition, 11.2.1: the width stands at byte 16)
    expect([png.subarray(1, 4).toString(), png.readUInt32BE(16)]).toEqual(['PNG', 3 * 560]);
  });

  it('decodes readings', async () => {
    await preview.openTask('Decode a key');
    await preview.pane.getByLabel('Root depths, along the code').fill('0.28 0.189 0.242 0.297 0.225 0.261');
    await preview.pane.getByText('274153', { exact: false }).first().waitFor();
    await picture('decode');
    // worn smooth: only where the cuts lie can still be measured
    await preview.pane.getByLabel('Root depths, along the code').fill('');
    await preview.pane
      .getByLabel('Centres from the stop, if measured')
      .fill('0.237 0.393 0.549 0.706 0.861 1.017');
    await preview.pane.getByText('The spaces alone give no code', { exact: false }).waitFor();
    const best = preview.pane.getByLabel('Spec, best first').locator('option').first();
    expect(await best.innerText()).toBe('S-018-6: fits well');
    await preview.pictured('codes-spaces');
  });

  it('compares specs', async () => {
    await preview.openTask('Specs');
    await preview.pane.getByRole('button', { name: 'Compare with another spec' }).click();
    await preview.pane.getByLabel('Compare with').selectOption('M-050-5');
    await preview.pane.getByLabel('And with').selectOption('T-0125-7');
    expect(await paneText()).toMatch(/\d+ dimensions of \d+ differ/);
    await picture('compare');
  });

  it('asked nobody but itself and had no errors', () => {
    expect(preview.outside).toEqual([]);
    expect(preview.errors).toEqual([]);
  });
});
