/** A small hierarchy in a workbook, and what opens what in a saved file, read by a general-purpose library. */
import ExcelJS from 'exceljs';
import { evenTree, generateSystem } from '../../src/keying/hierarchy.ts';
import { starterSpec } from '../../src/keying/starters.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { newXlsx, saveXlsx } from '../../src/preview/file/index.ts';
import { openBook as openInHost } from '../../src/preview/host/node.ts';
import { applyPlan, openBook, planNewSystem } from '../../src/workbook/index.ts';
import type { Preview } from './preview.ts';

/** Keys that open each cylinder of the hall, by what a hierarchy is: the top master, the master above, its own key. */
export const HALL: Readonly<Record<string, readonly string[]>> = {
  C1: ['A', 'AA', 'AA1'],
  C2: ['A', 'AA', 'AA2'],
  C3: ['A', 'AA', 'AA3'],
  C4: ['A', 'AB', 'AB1'],
  C5: ['A', 'AB', 'AB2'],
  C6: ['A', 'AB', 'AB3'],
};

/** The hall's workbook, written on the road that the pane takes. */
export async function hallBook(): Promise<Uint8Array> {
  const file = newXlsx('Hall.xlsx');
  const { host } = openInHost(file.model);
  const made = runToEnd(
    generateSystem({
      name: 'Hall',
      spec: starterSpec('S-018-6')!,
      levels: 3,
      grands: evenTree(3, { masters: 2, changeKeys: 3 }),
      order: 'scattered',
      seed: 5,
    }),
  );
  if (!made.ok) throw new Error(`the hall does not fit: ${JSON.stringify(made.problems)}`);
  const book = await openBook();
  if (!book.ok) throw new Error(book.error.sentence);
  const outcome = await applyPlan(planNewSystem(book.value, made, { made: '24 Nov 2026' }));
  if (outcome.outcome !== 'done') throw new Error(outcome.sentence);
  host.dispose();
  return saveXlsx(file);
}

export async function openHall(preview: Preview, bytes: Uint8Array): Promise<void> {
  await preview.page.getByLabel('Workbook file').setInputFiles({
    name: 'Hall.xlsx',
    mimeType: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
    buffer: Buffer.from(bytes),
  });
  await preview.pane.getByText('9 keys', { exact: false }).first().waitFor();
}

export type Row = Readonly<Record<string, string>>;

/** The rows below the first row that holds this heading, by their headings. */
export async function rowsOf(bytes: Uint8Array, sheet: string, heading: string): Promise<Row[]> {
  const book = new ExcelJS.Workbook();
  await book.xlsx.load(Buffer.from(bytes) as unknown as ArrayBuffer);
  const cells: string[][] = [];
  book.getWorksheet(sheet)!.eachRow((row) => {
    cells.push(Array.from(row.values as unknown[], (value) => (typeof value === 'string' ? value : '')));
  });
  const at = cells.findIndex((row) => row.includes(heading));
  const headings = cells[at]!;
  return cells
    .slice(at + 1)
    .map((row) => Object.fromEntries(headings.map((name, c) => [name, row[c] ?? ''])));
}

/**
 * Keys that open each cylinder of a system, by the plain definition: every cut of the key is one of the depths in
 * that chamber's cell, and an empty chamber ("any") takes each.
 */
export async function opensIn(bytes: Uint8Array, system: string): Promise<Record<string, string[]>> {
  const of = (row: Row): boolean => row['System'] === system;
  const keys = (await rowsOf(bytes, 'Keys', 'Bitting')).filter(of);
  const cylinders = (await rowsOf(bytes, 'Cylinders', 'Ch 1')).filter(of);
  return Object.fromEntries(
    cylinders.map((cylinder) => [
      cylinder['Cylinder']!,
      keys
        .filter((key) =>
          [...key['Bitting']!].every((cut, i) => {
            const depths = cylinder[`Ch ${i + 1}`]!;
            return depths === 'any' || depths.split(' ').includes(cut);
          }),
        )
        .map((key) => key['Symbol']!),
    ]),
  );
}
