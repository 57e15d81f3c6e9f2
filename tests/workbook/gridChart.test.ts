/** Marked grids in layouts that shops make, read through the real front half of Excel's API. */
import { describe, expect, it } from 'vitest';
import { auditSystem } from '../../src/keying/audit.ts';
import { gridOf, solveGrid } from '../../src/keying/grid/index.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import { systemOfSolved } from '../../src/keying/solvedSystem.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { auditInput, chartOf, planNewSystem, readGridSource, yesWords } from '../../src/workbook/index.ts';
import type { CellValue } from '../../src/workbook/reading.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { MADE, reading, write } from './book.ts';
import { starter } from './school.ts';

const GRID: CellValue[][] = [
  ['Annexe, who opens what', '', '', '', '', '', '', ''],
  ['', '', '', '', '', '', '', ''],
  ['', '', 'Whole house', 'Cleaner', 'Office', 'Store', 'Plant', ''],
  ['Cyl.', 'Door', 'M', 'CL', 'K1', 'K2', 'K3', 'Qty'],
  [101, 'Front', '●', 'x', 'X', '1', '', 1],
  [102, 'Office', 'x', 'yes', 'x', '', '', 1],
  [103, 'Store', 'x', '', '', '✓', '', 2],
  ['', '', '', '', '', '', '', ''],
  [104, 'Plant room', 'M', '', '', 'x', 'x', 1],
];

async function sheetWith(cells: CellValue[][], address = 'B3'): Promise<OpenBook> {
  const book = openBook();
  await book.run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.getRange(address).getResizedRange(cells.length - 1, cells[0]!.length - 1).values = cells;
    await context.sync();
  });
  return book;
}

async function chart(request: Parameters<typeof readGridSource>[0] = { sheet: 'Sheet1' }, yes = '') {
  const source = await readGridSource(request);
  if (!source.ok) throw new Error(source.error.sentence);
  const read = chartOf(source.value, { yes: yesWords(yes) });
  if (!read) throw new Error('no grid found');
  return read;
}

describe('a grid in the shop’s own layout', () => {
  it('is found below its title, with two heading rows and a column of numbers beside it', async () => {
    await sheetWith(GRID);
    const read = await chart();
    expect(read.problems).toEqual([]);
    expect(read.keys.map((k) => [k.symbol, k.at.address])).toEqual([
      ['M', 'D6'],
      ['CL', 'E6'],
      ['K1', 'F6'],
      ['K2', 'G6'],
      ['K3', 'H6'],
    ]);
    expect(read.cylinders.map((c) => [c.id, c.door, c.at.address])).toEqual([
      ['101', 'Front', 'B7'],
      ['102', 'Office', 'B8'],
      ['103', 'Store', 'B9'],
      ['104', 'Plant room', 'B11'],
    ]);
    expect(read.marks.map((m) => `${m.key} ${m.cylinder} ${m.at.address}`)).toEqual([
      'M 101 D7',
      'CL 101 E7',
      'K1 101 F7',
      'K2 101 G7',
      'M 102 D8',
      'CL 102 E8',
      'K1 102 F8',
      'M 103 D9',
      'K2 103 G9',
      'M 104 D11',
      'K2 104 G11',
      'K3 104 H11',
    ]);
  });

  it('is the selection, or the block around one selected cell', async () => {
    const book = await sheetWith([
      ['', 'M', 'A'],
      ['1', 'x', 'x'],
      ['2', 'x', ''],
    ]);
    await book.run(async (context) => {
      context.workbook.worksheets.getItem('Sheet1').getRange('C4').select();
      await context.sync();
    });
    const read = await chart('selection');
    expect(read.keys.map((k) => k.symbol)).toEqual(['M', 'A']);
    expect(read.marks.map((m) => m.at.address)).toEqual(['C4', 'D4', 'C5']);
  });

  it('says which cells are no marks, and takes further words for yes', async () => {
    const cells: CellValue[][] = [
      ['Door', 'M', 'A', 'B'],
      ['D1', 'x', 'x', ''],
      ['D2', 'x', 'ja', '?'],
      ['D3', 'x', '', 'x'],
    ];
    await sheetWith(cells, 'A1');
    const read = await chart();
    expect(read.problems.map((p) => [p.address, p.severity])).toEqual([
      ['C3', 'fault'],
      ['D3', 'fault'],
    ]);
    expect(read.problems[0]!.sentence).toMatch(/^“ja” is no mark\. Type ● or x where A must open D2/);
    const more = await chart(undefined, 'ja, open');
    expect(more.problems.map((p) => p.address)).toEqual(['D3']);
    expect(more.marks.map((m) => m.at.address)).toContain('C3');
  });

  it('says which names stand twice, are missing or have no marks', async () => {
    await sheetWith(
      [
        ['Door', 'M', 'A', 'a', 'N'],
        ['D1', 'x', 'x', '', ''],
        ['', 'x', '', '', ''],
        ['d1', 'x', '', 'x', ''],
        ['D2', 'x', '', '', ''],
      ],
      'A1',
    );
    const read = await chart();
    expect(read.problems.map((p) => [p.address, p.severity])).toEqual([
      ['A3', 'fault'],
      ['A4', 'fault'],
      ['D1', 'fault'],
      ['E1', 'warning'],
    ]);
  });

  it('refuses marks in merged cells, where one mark would stand for two doors', async () => {
    const book = await sheetWith([
      ['Door', 'M', 'A'],
      ['D1', 'x', 'x'],
      ['D2', '', ''],
    ]);
    await book.run(async (context) => {
      context.workbook.worksheets.getItem('Sheet1').getRange('C4:C5').merge();
      await context.sync();
    });
    const read = await chart();
    expect(read.problems.map((p) => [p.address, p.sentence.slice(0, 17)])).toEqual([
      ['C4', 'C4:C5 are merged,'],
    ]);
  });

  it('may list each cylinder’s keys in one column', async () => {
    await sheetWith([
      ['Door', 'Opened by'],
      ['D1', 'M, Cleaner 1; A'],
      ['D2', 'm, A'],
    ]);
    const read = await chart();
    expect(read.keys.map((k) => k.symbol)).toEqual(['M', 'Cleaner 1', 'A']);
    expect(read.marks.map((m) => `${m.key} ${m.cylinder}`)).toEqual([
      'M D1',
      'Cleaner 1 D1',
      'A D1',
      'M D2',
      'A D2',
    ]);
  });

  it('is nothing where nothing is marked', async () => {
    await sheetWith([
      ['Door', 'Colour'],
      ['D1', 'grey'],
    ]);
    const source = await readGridSource({ sheet: 'Sheet1' });
    expect(source.ok && chartOf(source.value)).toBeUndefined();
  });
});

describe.each(['S-018-6', 'T-021-7'])('a grid solved under %s and written', (specName) => {
  it('is read back with its marks and passes the exhaustive audit', async () => {
    await sheetWith(GRID);
    const read = await chart();
    const spec = starter(specName);
    const grid = gridOf(
      spec,
      read.keys.map((k) => k.symbol),
      read.cylinders.map((c) => c.id),
      read.marks,
    );
    const answer = runToEnd(solveGrid(grid, { sameMarks: 'different' }));
    if (answer.kind !== 'solved') throw new Error(answer.kind);
    const made = systemOfSolved(grid, answer, {
      name: 'Annexe',
      doors: new Map(read.cylinders.map((c) => [c.id, c.door ?? ''])),
    });
    if (!made.ok) throw new Error('no control key');
    await write(planNewSystem(await reading(), made.value, MADE));
    const book = await reading();
    expect(book.problems).toEqual([]);
    expect(book.systems[0]?.array).toHaveLength(spec.centres.length);
    const asked = auditInput(book, 'Annexe')!;
    expect(new Set(asked.marks.map((m) => `${m.key} ${m.cylinder}`))).toEqual(
      new Set(made.value.marks.map((m) => `${m.key} ${m.cylinder}`)),
    );
    const report = runToEnd(auditSystem(auditInputOf(asked.system, asked.marks), { near: false }));
    expect(report.counts).toEqual({});
    expect(asked.system.keys.find((k) => k.symbol === 'M')?.level).toBe('MK');
    expect(asked.system.cylinders.map((c) => [c.id, c.symbol])).toEqual([
      ['101', 'CL'],
      ['102', 'CL'],
      ['103', 'K2'],
      ['104', 'K3'],
    ]);
  });
});
