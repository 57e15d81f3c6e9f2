/** The shop's half of the sample: an untidy door schedule and an old list of codes, as a general library writes them. */
import ExcelJS from 'exceljs';
import { OLD_CODES, SECTIONS } from './sampleDoors.ts';

const HEADERS = ['Door No.', 'Room / location', 'HW set', 'Key set', 'Cyl qty', 'Hand', 'Remarks'];
const HEADER_ROW = 5;

function addSchedule(book: ExcelJS.Workbook): void {
  const sheet = book.addWorksheet('Door schedule', { views: [{ state: 'frozen', ySplit: HEADER_ROW }] });
  [11, 30, 9, 10, 8, 7, 40].forEach((width, i) => (sheet.getColumn(i + 1).width = width));
  sheet.mergeCells('A1:G1');
  sheet.getCell('A1').value = 'TARN HOLLOW SCHOOL – DOOR AND KEYING SCHEDULE';
  sheet.getCell('A1').font = { bold: true, size: 14 };
  sheet.getCell('A2').value = 'Rev. C';
  sheet.getCell('B2').value = new Date(Date.UTC(2026, 2, 14));
  sheet.getCell('B2').numFmt = 'd mmm yyyy';
  sheet.getCell('B2').alignment = { horizontal: 'left' };
  sheet.getCell('A3').value = 'Invented data for trying Keyrow; no such school.';
  sheet.getCell('A3').font = { italic: true };
  const header = sheet.getRow(HEADER_ROW);
  header.values = HEADERS;
  header.font = { bold: true };
  header.eachCell((cell) => {
    cell.fill = { type: 'pattern', pattern: 'solid', fgColor: { argb: 'FFE2E8EC' } };
    cell.border = { bottom: { style: 'medium' } };
  });
  let row = HEADER_ROW + 1;
  const first = row;
  for (const { title, doors } of SECTIONS) {
    sheet.mergeCells(row, 1, row, HEADERS.length);
    sheet.getCell(row, 1).value = title;
    sheet.getCell(row, 1).font = { bold: true };
    row++;
    for (const door of doors) {
      // an office types some door numbers as numbers, some symbols in small letters, some with a blank behind
      const number = /^\d+$/.test(door.door) && row % 3 === 0 ? Number(door.door) : door.door;
      const symbol =
        row % 17 === 0 ? door.symbol.toLowerCase() : row % 11 === 0 ? `${door.symbol} ` : door.symbol;
      sheet.getRow(row).values = [
        number,
        door.location,
        door.hardware,
        symbol || null,
        1,
        door.hand,
        door.remarks ?? null,
      ];
      row++;
    }
    row++;
  }
  sheet.getCell(row, 4).value = 'Total';
  sheet.getCell(row, 5).value = { formula: `SUM(E${first}:E${row - 1})`, result: count() };
  sheet.getRow(row).font = { bold: true };
  sheet.autoFilter = { from: { row: HEADER_ROW, column: 1 }, to: { row: row - 2, column: HEADERS.length } };
}

const count = (): number => SECTIONS.reduce((sum, { doors }) => sum + doors.length, 0);

function addOldCodes(book: ExcelJS.Workbook): void {
  const sheet = book.addWorksheet('Old codes');
  sheet.getColumn(1).width = 8;
  sheet.getColumn(2).width = 14;
  sheet.getColumn(3).width = 26;
  sheet.getRow(1).values = ['Mark', 'Code', 'Where'];
  sheet.getRow(1).font = { bold: true };
  OLD_CODES.forEach(([mark, code, where], i) => {
    sheet.getRow(i + 2).values = [mark, code, where];
    if (typeof code === 'string') sheet.getCell(i + 2, 2).numFmt = '@';
  });
}

/** The shop's workbook before the add-in ever saw it, as a file. */
export async function shopWorkbook(): Promise<Uint8Array> {
  const book = new ExcelJS.Workbook();
  book.created = new Date(Date.UTC(2026, 2, 14));
  book.modified = book.created;
  addSchedule(book);
  addOldCodes(book);
  return new Uint8Array(await book.xlsx.writeBuffer());
}
