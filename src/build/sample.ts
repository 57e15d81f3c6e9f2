/**
 * Builds the sample workbook on the very road that a shop goes: the shop's file is opened, a system is generated for
 * the doors in its schedule, the plan is applied through office.js, the formulas are calculated, the file is saved.
 * Then somebody types over a few cells, as happens, so that the audit has something to find.
 *
 * Use: `tsx src/build/sample.ts FILE`
 */
import { writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { formatDepthSet } from '../keying/chamberText.ts';
import { generateSystem, type GenerateResult } from '../keying/hierarchy.ts';
import { starterSpec } from '../keying/starters.ts';
import { runToEnd } from '../keying/system.ts';
import { withDepth } from '../keying/depthSet.ts';
import { openXlsx, saveXlsx, type XlsxBook } from '../preview/file/index.ts';
import { openBook as openInHost } from '../preview/host/node.ts';
import { applyPlan, openBook, planLedger, planNewSystem } from '../workbook/index.ts';
import { SECTIONS } from './sampleDoors.ts';
import { SAMPLE_HOLDERS, sampleEntries } from './sampleLedger.ts';
import { shopWorkbook } from './sampleShop.ts';

export const SAMPLE_SYSTEM = 'Tarn Hollow';
const MADE = '14 Mar 2026';

type Generated = Extract<GenerateResult, { ok: true }>;

/** Doors by change key, under the masters AA, AB and AC. */
function doorsOf(master: string): string[][] {
  const byNumber: string[][] = [];
  for (const { door, symbol } of SECTIONS.flatMap((s) => s.doors)) {
    const match = new RegExp(`^${master}(\\d+)$`).exec(symbol);
    if (match) (byNumber[Number(match[1]) - 1] ??= []).push(door);
  }
  return byNumber;
}

function generate(): Generated {
  const masters = ['AA', 'AB', 'AC'].map((symbol) => {
    const doors = doorsOf(symbol);
    return { symbol, changeKeys: doors.length, spares: 2, doors };
  });
  const spec = starterSpec('S-018-6')!;
  const made = runToEnd(
    generateSystem({ name: SAMPLE_SYSTEM, spec, levels: 3, grands: [{ masters }], seed: 7 }),
  );
  if (!made.ok) throw new Error(`the sample system does not fit: ${JSON.stringify(made.problems)}`);
  return made;
}

async function writeSystem(made: Generated): Promise<void> {
  const book = await openBook();
  if (!book.ok) throw new Error(book.error.sentence);
  const locations = new Map(SECTIONS.flatMap((s) => s.doors.map((d) => [d.door, d.location] as const)));
  const copies = new Map(made.system.keys.map((k) => [k.symbol, k.level === 'CK' ? 3 : 2] as const));
  const plan = planNewSystem(
    book.value,
    {
      system: made.system,
      marks: made.marks,
      locations,
      copies,
      seed: 7,
      note: 'Main building, sports hall, workshops',
    },
    { made: MADE },
  );
  const outcome = await applyPlan(plan);
  if (outcome.outcome !== 'done') throw new Error(outcome.sentence);
}

/** The first weeks of the key ledger. */
async function writeLedger(): Promise<void> {
  const book = await openBook();
  if (!book.ok) throw new Error(book.error.sentence);
  const entries = sampleEntries(SAMPLE_SYSTEM);
  const plan = planLedger(book.value, { made: MADE, title: 'Ledger', entries, holders: SAMPLE_HOLDERS });
  const outcome = await applyPlan(plan);
  if (outcome.outcome !== 'done') throw new Error(`${outcome.sentence} ${JSON.stringify(plan.conflicts)}`);
}

/** What people did to the sheets since: each of these the audit must find. */
async function typeOver(made: Generated): Promise<void> {
  const { spec, keys, cylinders } = made.system;
  // Two change keys of one master that differ in exactly one chamber: a pin put into the lock of one lets in the other.
  const changes = keys.filter((k) => k.level === 'CK' && k.parent === 'AA' && k.status === 'issued');
  const pair = changes
    .flatMap((a) =>
      changes.map((b) => ({ a, b, at: a.bitting.flatMap((d, i) => (d === b.bitting[i] ? [] : [i])) })),
    )
    .find(({ at }) => at.length === 1);
  if (!pair) throw new Error('no two change keys differ in one chamber only');
  const chamber = pair.at[0]!;
  const cylinder = cylinders.find((c) => c.symbol === pair.a.symbol)!;
  const opened = withDepth(cylinder.chambers[chamber]!, pair.b.bitting[chamber]!);

  await Excel.run(async (context) => {
    const tables = context.workbook.tables;
    const table = tables.getItem('KeyrowCylinders');
    const body = table.getDataBodyRange().load('values');
    const headers = table.getHeaderRowRange().load('values');
    const keyTable = tables.getItem('KeyrowKeys');
    const keyHeaders = keyTable.getHeaderRowRange().load('values');
    const keyRange = keyTable.getRange().load('rowCount,rowIndex,columnIndex');
    await context.sync();
    const column = (name: string): number => (headers.values[0] as unknown[]).indexOf(name);
    const row = body.values.findIndex((r) => String(r[column('Cylinder')]) === cylinder.id);
    body.getCell(row, column(`Ch ${chamber + 1}`)).values = [[formatDepthSet(spec, opened)]];

    // Padlock keys added by hand below the table's last row: adjacent cuts too far apart, one bitting twice, and one
    // typed as a number, which cost it its leading zero.
    const added: [string, string | number][] = [
      ['SKD1', '283456'],
      ['SKD2', '241536'],
      ['SKD3', '241536'],
      ['SKD4', 27413],
    ];
    const names = (keyHeaders.values[0] as unknown[]).map(String);
    const below = keyTable.worksheet.getRangeByIndexes(
      keyRange.rowIndex + keyRange.rowCount,
      keyRange.columnIndex,
      added.length,
      names.length,
    );
    added.forEach(([symbol, code], i) => {
      const put = (name: string, value: string | number, text: boolean): void => {
        const cell = below.getCell(i, names.indexOf(name));
        cell.numberFormat = [[text ? '@' : 'General']];
        cell.values = [[value]];
      };
      put('System', SAMPLE_SYSTEM, true);
      put('Symbol', symbol, true);
      put('Level', 'single', true);
      put('Bitting', code, typeof code === 'string');
      put('Status', 'issued', true);
      put('Spec', spec.name, true);
    });
    keyTable.resize(keyRange.getResizedRange(added.length, 0));
    context.workbook.worksheets.getItem('Door schedule').activate();
    await context.sync();
  });
}

/** The sample as a file, and the book that it was saved from. */
export async function sampleWorkbook(): Promise<{ readonly bytes: Uint8Array; readonly book: XlsxBook }> {
  const opened = openXlsx(await shopWorkbook(), 'Tarn Hollow School.xlsx');
  if (!opened.ok) throw new Error(`the shop's workbook does not open: ${opened.problem.code}`);
  const { host } = openInHost(opened.book.model);
  const made = generate();
  await writeSystem(made);
  await writeLedger();
  await typeOver(made);
  host.dispose();
  return { bytes: saveXlsx(opened.book), book: opened.book };
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const file = process.argv[2];
  if (file === undefined) throw new Error('name the file to write');
  writeFileSync(file, (await sampleWorkbook()).bytes);
}
