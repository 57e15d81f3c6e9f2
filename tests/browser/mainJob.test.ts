/**
 * The main job with real clicks: the sample opens, what is wrong with it is found, a system is made and written, a
 * cell is typed over and found out, and the saved file is read back by a general-purpose library.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ExcelJS from 'exceljs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startStage, type Preview, type Stage } from './preview.ts';

/** LibreOffice, where it is installed: .ci/run brings it. */
const OFFICE = '/usr/bin/soffice';

let stage: Stage;
let preview: Preview;

beforeAll(async () => {
  stage = await startStage();
  preview = await stage.open();
});
afterAll(() => stage.close());

const primary = (name: string | RegExp) => preview.primary(name);

async function auditSystem(name: string): Promise<void> {
  await preview.pane.getByRole('button', { name: /^Audit a system/ }).click();
  const system = preview.pane.getByLabel('System', { exact: true });
  if (await system.count()) await system.selectOption({ label: await optionStarting(name) });
  await primary(/^Audit /).click();
  await preview.pane.getByRole('heading', { name: `Audit of ${name}` }).waitFor();
}

async function optionStarting(name: string): Promise<string> {
  const labels = await preview.pane.getByLabel('System', { exact: true }).locator('option').allInnerTexts();
  return labels.find((label) => label.startsWith(name))!;
}

const paneText = (): Promise<string> => preview.pane.locator('main').innerText();

async function cellsOf(bytes: Uint8Array, sheet: string): Promise<string[][]> {
  const book = new ExcelJS.Workbook();
  await book.xlsx.load(Buffer.from(bytes) as unknown as ArrayBuffer);
  const rows: string[][] = [];
  book.getWorksheet(sheet)!.eachRow((row) => {
    rows.push((row.values as unknown[]).slice(1).map((value) => textOf(value)));
  });
  return rows;
}

function textOf(value: unknown): string {
  if (value === null || value === undefined) return '';
  if (typeof value === 'object' && 'result' in value) return String(value.result);
  if (typeof value === 'object' && 'text' in value) return String(value.text);
  return String(value);
}

describe('the main job in the browser', () => {
  it('opens the sample and calculates its functions', async () => {
    await preview.call('settle');
    expect(await preview.call('sheets')).toEqual([
      'Door schedule',
      'Old codes',
      'Specs',
      'Systems',
      'Keys',
      'Cylinders',
      'Grid',
      'Holders',
      'Ledger',
    ]);
    await expect.poll(() => preview.call('value', 'Keys', 4, 10), { timeout: 30_000 }).toBe('OK');
    // an ordinary formula of the shop's own: the number of doors
    const doors = await preview.call('value', 'Door schedule', 75, 4);
    expect(doors).toBe(60);
    await preview.screenshot('start');
  });

  it('computes what is typed into a cell', async () => {
    await preview.call('type', 'Old codes', 'E2', '=KEYROW.WHY(B2,"S-018-6")');
    await preview.call('type', 'Old codes', 'E6', '=KEYROW.WHY(B6,"S-018-6")');
    await preview.call('type', 'Old codes', 'F2', '=KEYROW.CUTCENTRE(2,"S-018-6")');
    await preview.call('type', 'Old codes', 'H2', '=KEYROW.ROOTDEPTHS(B2,"S-018-6")');
    await preview.call('settle');
    await expect.poll(() => preview.call('value', 'Old codes', 1, 4)).toBe('OK');
    expect(await preview.call('value', 'Old codes', 5, 4)).toMatch(/differ by 6 steps; this spec allows 5/);
    // first cut 0.237 in, spacing 0.156 in: common practice
    expect(await preview.call('value', 'Old codes', 1, 5)).toBeCloseTo(0.393, 10);
    // 241536 by 0.018 in from 0.315 in
    expect(await preview.call('value', 'Old codes', 1, 7)).toBeCloseTo(0.279, 10);
    expect(await preview.call('value', 'Old codes', 1, 12)).toBeCloseTo(0.207, 10);
  });

  it('finds every fault of the sample', async () => {
    await auditSystem('Tarn Hollow');
    const found = await paneText();
    expect(found).toMatch(/Key AA\d+ operates cylinder 101, which it should not/);
    expect(found).toContain('Keys SKD3 and SKD2 have the same bitting');
    expect(found).toMatch(/Key SKD1: The 2 and 8 at cuts 1 and 2 differ by 6 steps; this spec allows 5/);
    expect(found).toContain('SKD4');
    await preview.screenshot('audit-sample');
    await preview.toStart();
    await preview.pane.getByRole('button', { name: 'Show', exact: true }).click();
    expect(await paneText()).toMatch(/027413/);
    await preview.screenshot('start-faults');
  });

  it('makes a system and writes it beside the other', async () => {
    const before = await preview.saved();
    const { pane } = preview;
    await pane.getByRole('button', { name: /^Make keys/ }).click();
    await pane.getByLabel('Name of the system').fill('New wing');
    await pane.getByLabel('Masters', { exact: true }).fill('2');
    await pane.getByLabel('Change keys under each master').fill('6, 8');
    await pane.getByText('It fits.').waitFor();
    await preview.screenshot('make');
    await primary('Make the keys').click();
    await primary('Write the system').waitFor();
    expect(await paneText()).toContain('adds 17 rows to Keys');
    expect(await paneText()).toContain('touches nothing else');
    await preview.screenshot('make-plan');
    await primary('Write the system').click();
    await primary('Done').waitFor();
    await preview.screenshot('make-done');
    await preview.call('settle');

    const after = await preview.saved();
    for (const sheet of ['Door schedule', 'Old codes', 'Grid'])
      expect(await cellsOf(after, sheet), sheet).toEqual(await cellsOf(before, sheet));
    const keys = await cellsOf(after, 'Keys');
    expect(keys.slice(0, -17)).toEqual(await cellsOf(before, 'Keys'));
    const added = keys.slice(-17);
    expect(added.map((row) => row[1])).toEqual([
      'A',
      'AA',
      ...[1, 2, 3, 4, 5, 6].map((n) => `AA${n}`),
      'AB',
      ...[1, 2, 3, 4, 5, 6, 7, 8].map((n) => `AB${n}`),
    ]);
    for (const row of added) {
      expect(row[4]).toMatch(/^\d{6}$/);
      expect(row[10]).toBe('OK');
    }
    expect(await preview.call('sheets')).toContain('Grid New wing');
    await primary('Done').click();
  });

  it('audits what stands in the sheet, not what was made', async () => {
    await preview.toStart();
    await auditSystem('New wing');
    expect(await paneText()).toContain('Every key opens what it should and nothing else');
    await preview.toStart();

    const row = await rowOfKey('New wing', 'AB8');
    const bitting = String(await preview.call('value', 'Keys', row, 4));
    const other = bitting.startsWith('0') ? '2' : '0';
    await preview.call('type', 'Keys', `E${row + 1}`, other + bitting.slice(1));
    await auditSystem('New wing');
    expect(await paneText()).toMatch(/Key AB8 does not operate cylinder/);
    await primary('Write the findings to a sheet').click();
    await primary(/^Write/).click();
    await primary('Done').waitFor();
    const findings = await cellsOf(await preview.saved(), 'Findings');
    const lockOut = findings.find((r) => r[1] === 'Lock-out' && r[4] === 'AB8')!;
    expect(lockOut[0]).toBe('Fault');
    expect(lockOut[6]).toMatch(/Key AB8 does not operate cylinder/);
    await preview.screenshot('findings');
  });

  it.skipIf(!existsSync(OFFICE))(
    'saves a file that another office program opens',
    { timeout: 120_000 },
    async () => {
      const folder = mkdtempSync(join(tmpdir(), 'keyrow-'));
      writeFileSync(join(folder, 'saved.xlsx'), await preview.saved());
      // every sheet as a .csv file, UTF-8
      const filter = 'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1';
      execFileSync(OFFICE, [
        '--headless',
        '--convert-to',
        filter,
        '--outdir',
        folder,
        join(folder, 'saved.xlsx'),
      ]);
      const csv = (sheet: string): string => readFileSync(join(folder, `saved-${sheet}.csv`), 'utf8');
      expect(csv('Door schedule')).toContain('TARN HOLLOW SCHOOL – DOOR AND KEYING SCHEDULE');
      // still a date: the filter writes dates its own way
      expect(csv('Door schedule')).toContain('Rev. C,03/14/2026');
      const row = await rowOfKey('New wing', 'AA1');
      const bitting = String(await preview.call('value', 'Keys', row, 4));
      expect(csv('Keys')).toContain(`New wing,AA1,CK,AA,${bitting},issued`);
      expect(
        csv('Grid New wing')
          .split('\n')
          .filter((line) => line.includes('●')),
      ).toHaveLength(14);
    },
  );

  it('asked nobody but itself and had no errors', () => {
    expect(preview.outside).toEqual([]);
    expect(preview.errors).toEqual([]);
  });
});

async function rowOfKey(system: string, symbol: string): Promise<number> {
  for (let row = 4; row < 200; row++) {
    const [s, k] = [await preview.call('value', 'Keys', row, 0), await preview.call('value', 'Keys', row, 1)];
    if (s === system && k === symbol) return row;
  }
  throw new Error(`no key ${symbol}`);
}

describe('files that are no workbooks', () => {
  it('says so and keeps what is open', async () => {
    const other = await stage.open();
    await other.page.getByLabel('Workbook file').setInputFiles({
      name: 'codes.xlsx',
      mimeType: 'application/octet-stream',
      buffer: Buffer.from('not a workbook'),
    });
    await other.page.getByRole('alert').waitFor();
    expect(await other.page.getByRole('alert').innerText()).toBe(
      'codes.xlsx was not opened. This is not an Excel workbook. Choose a file saved as .xlsx.',
    );
    expect(await other.call('sheets')).toContain('Door schedule');
    await other.page.context().close();
  });
});
