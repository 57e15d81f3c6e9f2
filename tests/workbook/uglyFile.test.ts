/**
 * The same workbooks through a file: what is saved holds what stood in the cells, by the reading of a library that
 * shares no code with ours (exceljs), and what is opened again reads as before. A write that is taken back leaves every
 * part of the file that holds the shop's own sheets as it was, byte for byte.
 */
import ExcelJS from 'exceljs';
import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import {
  describeFileProblem,
  newXlsx,
  openXlsx,
  saveXlsx,
  type XlsxBook,
} from '../../src/preview/file/index.ts';
import type { SheetModel } from '../../src/preview/model/index.ts';
import { readSchedule, undoPlan } from '../../src/workbook/index.ts';
import { openBook } from '../support/office.ts';
import { reading, write } from './book.ts';
import { fullBook, WRITE_PATHS, type Shop } from './paths.ts';
import { codesIn } from './readPaths.ts';
import { UGLY_SHEETS } from './uglySheets.ts';

function opened(bytes: Uint8Array): XlsxBook {
  const read = openXlsx(bytes);
  if (!read.ok) throw new Error(describeFileProblem(read.problem));
  return read.book;
}

async function readBack(bytes: Uint8Array): Promise<ExcelJS.Workbook> {
  const book = new ExcelJS.Workbook();
  await book.xlsx.load(bytes.slice().buffer);
  return book;
}

/** A cell as the library has it: a formula by its text, an error by its word. */
function shown(value: ExcelJS.CellValue): unknown {
  // the library leaves escaped characters as they stand in the file (ECMA-376 part 1, 22.9.2.19)
  if (typeof value === 'string') return value.replaceAll('_x000D_', '\r');
  if (typeof value !== 'object' || value === null) return value;
  if ('formula' in value) return `=${value.formula}`;
  if ('error' in value) return value.error;
  if ('richText' in value) return value.richText.map(({ text }) => text).join('');
  // the library makes days of numbers in date formats: back to the number of the day (ECMA-376 part 1, 18.17.4.1)
  if (value instanceof Date) return Math.round(value.getTime() / 86_400_000 + 25_569);
  throw new Error(`unforeseen: ${JSON.stringify(value)}`);
}

const stored = ({ cells }: SheetModel): [number, number, unknown][] =>
  [...cells.all()].flatMap(({ row, column, cell }): [number, number, unknown][] => {
    const { value, formula } = cell;
    if (value === null && formula === undefined) return [];
    return [[row, column, formula ?? (typeof value === 'object' && value !== null ? value.error : value)]];
  });

/** Parts of the package by their names, but for those that list other parts. */
const sheetParts = (bytes: Uint8Array, count: number): string[] =>
  Array.from({ length: count }, (_, n) => `xl/worksheets/sheet${n + 1}.xml`).map((name) =>
    strFromU8(unzipSync(bytes)[name] ?? new Uint8Array()),
  );

describe.each(UGLY_SHEETS.filter(({ doors }) => doors.length < 1000))('$name', ({ lay, doors, codes }) => {
  it('are saved whole, read again alike, and left alone by what is taken back', async () => {
    const file = newXlsx();
    let shop!: Shop;
    await fullBook((empty) => (shop = lay(empty)), openBook(file.model));
    const bytes = saveXlsx(file);
    const other = await readBack(bytes);
    for (const name of [shop.schedule, shop.codes.sheet]) {
      const [sheet, read] = [file.model.sheet(name), other.getWorksheet(name)!];
      const cells = stored(sheet);
      expect(cells.length).toBeGreaterThan(4);
      for (const [row, column, content] of cells)
        expect([row, column, shown(read.getCell(row + 1, column + 1).value)]).toEqual([row, column, content]);
      const { merges, hiddenRows, hiddenColumns } = sheet.layout;
      expect(merges.every(({ row, column }) => read.getCell(row + 1, column + 1).isMerged)).toBe(true);
      expect([...hiddenRows].every((row) => read.getRow(row + 1).hidden)).toBe(true);
      expect([...hiddenColumns].every((column) => read.getColumn(column + 1).hidden)).toBe(true);
      const { sheetProtection } = read as unknown as { sheetProtection: object | null | undefined };
      expect(Boolean(sheetProtection)).toBe(sheet.protection !== null);
    }

    const again = opened(bytes);
    openBook(again.model);
    const schedule = await readSchedule(shop.schedule);
    if (!schedule.ok) throw new Error(schedule.error.sentence);
    expect(schedule.value.rows.map(({ door, symbol = '' }) => `${door} ${symbol}`)).toEqual(doors);
    expect((await codesIn(shop.codes)).codes).toEqual(codes);
    const before = await reading();
    expect(before.systems.map(({ name, keys, cylinders }) => [name, keys.length, cylinders.length])).toEqual([
      ['School', 7, 4],
      ['Hall', expect.any(Number), expect.any(Number)],
    ]);
    const [, further] = WRITE_PATHS.find(([path]) => path === 'a further system')!;
    expect((await undoPlan(await write(await further(before, shop)))).outcome).toBe('done');
    expect(sheetParts(saveXlsx(again), 2)).toEqual(sheetParts(bytes, 2));
  }, 60_000);
});

describe('a sheet that runs from right to left', () => {
  it('still does after one of its cells was changed', async () => {
    const made = new ExcelJS.Workbook();
    const sheet = made.addWorksheet('דלתות', { views: [{ rightToLeft: true }] });
    sheet.addRows([
      ['Door', 'Keyset'],
      ['דלת 1', 'aa1'],
    ]);
    const file = opened(new Uint8Array(await made.xlsx.writeBuffer()));
    const book = openBook(file.model);
    book.host.userEdit('דלתות', 'B2', 'AA1');
    const back = (await readBack(saveXlsx(file))).getWorksheet('דלתות')!;
    expect(back.views[0]).toMatchObject({ rightToLeft: true });
    expect([back.getCell('A2').value, back.getCell('B2').value]).toEqual(['דלת 1', 'AA1']);
  });
});
