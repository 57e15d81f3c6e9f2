/** An untidy workbook, made by a library of its own (exceljs), for the tests to open and save. */
import ExcelJS from 'exceljs';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';

/** A PNG of one red pixel. */
export const PIXEL =
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8z8DwHwAFBQIAX8jx0gAAAABJRU5ErkJggg==';

export async function uglyWorkbook(): Promise<Uint8Array> {
  const book = new ExcelJS.Workbook();
  book.creator = 'Workshop';
  const sheet = book.addWorksheet('Plan 1', {
    views: [{ state: 'frozen', xSplit: 1, ySplit: 2 }],
    properties: { tabColor: { argb: 'FF00AA55' } },
    pageSetup: { orientation: 'landscape', paperSize: 9, printArea: 'A1:F12', printTitlesRow: '1:2' },
    headerFooter: { oddHeader: '&LKeys &&c&RPage &P' },
  });
  sheet.mergeCells('A1:C1');
  sheet.getCell('A1').value = {
    richText: [
      { text: 'Keys ' },
      { text: 'of the house', font: { bold: true, color: { argb: 'FFFF0000' } } },
    ],
  };
  sheet.getCell('A1').alignment = { horizontal: 'center', textRotation: 45, indent: 1 };
  sheet.getRow(2).values = ['Key', 'Bitting', 'Made', 'Sum', 'Ok', 'Link'];
  sheet.getRow(2).font = { bold: true, size: 14, name: 'Arial' };
  for (let i = 0; i < 8; i++) {
    const row = sheet.getRow(3 + i);
    row.getCell(1).value = `K${String(i)}`;
    row.getCell(2).value = `03${String(521 + i)}`;
    row.getCell(2).numFmt = '@';
    row.getCell(3).value = new Date(Date.UTC(2024, 1, 20 + i));
    row.getCell(3).numFmt = 'dd/mm/yyyy';
    row.getCell(4).value = i === 0 ? { formula: 'LEN(B3)+1', result: 6 } : { sharedFormula: 'D3', result: 6 };
    row.getCell(5).value = i % 2 === 0;
  }
  sheet.getCell('F3').value = { text: 'a page', hyperlink: 'https://example.org/?a=1&b=2', tooltip: 'Look' };
  sheet.getCell('F4').value = { error: '#N/A' };
  sheet.getCell('F5').value = { formula: '1/0', result: { error: '#DIV/0!' } };
  sheet.getCell('F6').value = 'line one\nline <two> & "three"';
  sheet.getCell('F6').alignment = { wrapText: true };
  sheet.getCell('F7').value = { formula: '_xldudf_KEYROW_CHECK(B3,"a""b")', result: 'ok' };
  sheet.getCell('F8').fill = { type: 'pattern', pattern: 'solid', fgColor: { argb: 'FFFFFF00' } };
  sheet.getCell('F8').border = {
    top: { style: 'double', color: { argb: 'FF112233' } },
    diagonal: { up: true, style: 'thin' },
  };
  sheet.getCell('F8').protection = { locked: false };
  sheet.getCell('A3').note = 'cut by hand';
  sheet.getColumn(1).width = 22;
  sheet.getColumn(7).hidden = true;
  sheet.getRow(5).hidden = true;
  sheet.getRow(6).height = 40;
  sheet.autoFilter = 'A2:F10';
  sheet.getCell('E3').dataValidation = {
    type: 'list',
    allowBlank: true,
    formulae: ['"yes,no"'],
    showErrorMessage: true,
  };
  sheet.getCell('B11').dataValidation = {
    type: 'whole',
    operator: 'between',
    formulae: [1, 9],
    showInputMessage: true,
    prompt: 'One to nine',
    promptTitle: 'Depth',
  };
  sheet.addConditionalFormatting({
    ref: 'D3:D10',
    rules: [
      {
        type: 'expression',
        priority: 1,
        formulae: ['$D3>5'],
        style: {
          font: { bold: true },
          fill: { type: 'pattern', pattern: 'solid', bgColor: { argb: 'FFFFC7CE' } },
        },
      },
      {
        type: 'dataBar',
        priority: 2,
        cfvo: [{ type: 'min' }, { type: 'max' }],
        gradient: true,
      } as ExcelJS.DataBarRuleType,
    ],
  });
  const image = book.addImage({ base64: PIXEL, extension: 'png' });
  sheet.addImage(image, { tl: { col: 1, row: 12 }, ext: { width: 40, height: 40 } });
  book.definedNames.add("'Plan 1'!$B$3:$B$10", 'Bittings');

  const second = book.addWorksheet('Stock', { state: 'visible' });
  second.addTable({
    name: 'Blanks',
    ref: 'B2',
    headerRow: true,
    totalsRow: true,
    style: { theme: 'TableStyleMedium4', showRowStripes: true },
    columns: [
      { name: 'Blank', totalsRowLabel: 'Total', filterButton: true },
      { name: 'On hand', totalsRowFunction: 'sum', filterButton: true },
    ],
    rows: [
      ['007', 12],
      ['008', 3],
    ],
  });
  second.getCell('E3').value = { formula: 'SUM(Blanks[On hand])', result: 15 };
  second.getCell('F3').value = { formula: 'Blanks[[#This Row],[On hand]]*2', result: 24 };
  await second.protect('secret', { formatCells: true, selectLockedCells: true });
  book.addWorksheet('Hidden', { state: 'veryHidden' }).getCell('A1').value = 1e-7;
  const raw = new Uint8Array(await book.xlsx.writeBuffer());
  return withCustomXml(raw);
}

/** Adds what the library cannot write: a custom XML part and a calculation chain. */
function withCustomXml(bytes: Uint8Array): Uint8Array {
  const parts = unzipSync(bytes);
  const text = (name: string): string => strFromU8(parts[name] ?? new Uint8Array());
  const relation = (id: string, type: string, target: string): string =>
    `<Relationship Id="${id}" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/${type}" Target="${target}"/>`;
  parts['customXml/item1.xml'] = strToU8(
    '<shop xmlns="urn:example:shop"><name>Ångström &amp; Co</name></shop>',
  );
  parts['xl/calcChain.xml'] = strToU8(
    '<calcChain xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><c r="D3" i="1"/></calcChain>',
  );
  parts['xl/_rels/workbook.xml.rels'] = strToU8(
    text('xl/_rels/workbook.xml.rels').replace(
      '</Relationships>',
      `${relation('rId90', 'customXml', '../customXml/item1.xml')}${relation('rId91', 'calcChain', 'calcChain.xml')}</Relationships>`,
    ),
  );
  return zipSync(parts);
}
