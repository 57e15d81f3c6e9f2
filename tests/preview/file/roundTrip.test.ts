import ExcelJS from 'exceljs';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { newXlsx, openXlsx, saveXlsx, describeFileProblem } from '../../../src/preview/file/index.ts';
import type { XlsxBook } from '../../../src/preview/file/index.ts';
import { PIXEL, uglyWorkbook } from './uglyWorkbook.ts';

function open(bytes: Uint8Array): XlsxBook {
  const opened = openXlsx(bytes);
  if (!opened.ok) throw new Error(describeFileProblem(opened.problem));
  return opened.book;
}

/** The parts of a package; folders, which some writers list, left out. */
function partsOf(bytes: Uint8Array): Map<string, string> {
  return new Map(
    Object.entries(unzipSync(bytes))
      .filter(([name]) => !name.endsWith('/'))
      .map(([name, part]) => [name, strFromU8(part, true)]),
  );
}

/** The names of the parts that differ, either way. */
function changedParts(before: Uint8Array, after: Uint8Array): string[] {
  const [a, b] = [partsOf(before), partsOf(after)];
  return [...new Set([...a.keys(), ...b.keys()])].filter((name) => a.get(name) !== b.get(name)).sort();
}

/** Reads a file back with a library that shares no code with ours. */
async function readBack(bytes: Uint8Array): Promise<ExcelJS.Workbook> {
  const book = new ExcelJS.Workbook();
  await book.xlsx.load(bytes.slice().buffer);
  return book;
}

function sheetOf(book: ExcelJS.Workbook, name: string): ExcelJS.Worksheet {
  const sheet = book.getWorksheet(name);
  if (sheet === undefined) throw new Error(`no sheet ${name}`);
  return sheet;
}

/** A table as the library holds it, which its types leave out. */
function tableOf(
  sheet: ExcelJS.Worksheet,
  name: string,
): { name: string; tableRef: string; columns: { name: string }[] } {
  return (sheet.getTable(name) as unknown as { model: ReturnType<typeof tableOf> }).model;
}

let ugly: Uint8Array;
beforeAll(async () => {
  ugly = await uglyWorkbook();
});

describe('opening', () => {
  it('reads values, formulas and styles as the writing library meant them', () => {
    const { model } = open(ugly);
    expect(model.sheets.map((sheet) => [sheet.name, sheet.layout.visibility])).toEqual([
      ['Plan 1', 'visible'],
      ['Stock', 'visible'],
      ['Hidden', 'veryHidden'],
    ]);
    expect(model.value('Plan 1', 0, 0)).toBe('Keys of the house');
    expect(model.cell('Plan 1', 2, 1)).toMatchObject({ value: '03521', style: { numberFormat: '@' } });
    // 20 February 2024 is day 45342 (ECMA-376 part 1, 18.17.4.1: day 45292 is 1 January 2024, and 31 + 19 follow).
    expect(model.cell('Plan 1', 2, 2)).toMatchObject({
      value: 45_342,
      style: { numberFormat: 'dd/mm/yyyy' },
    });
    expect(model.cell('Plan 1', 5, 3)).toMatchObject({ value: 6, formula: '=LEN(B6)+1' });
    expect(model.value('Plan 1', 2, 4)).toBe(true);
    expect(model.value('Plan 1', 3, 5)).toEqual({ error: '#N/A' });
    expect(model.cell('Plan 1', 6, 5)?.formula).toBe('=KEYROW.CHECK(B3,"a""b")');
    expect(model.cell('Plan 1', 1, 0)?.style).toMatchObject({ bold: true, fontSize: 14, fontName: 'Arial' });
    expect(model.cell('Plan 1', 7, 5)?.style).toMatchObject({
      fill: '#FFFF00',
      locked: false,
      borders: { top: { style: 'thick', color: '#112233' } },
    });
    expect(model.value('Hidden', 0, 0)).toBe(1e-7);
  });

  it('reads the layout', () => {
    const { layout } = open(ugly).model.sheet('Plan 1');
    expect(layout.tabColor).toBe('#00AA55');
    expect(layout.frozen).toEqual({ rows: 2, columns: 1 });
    expect(layout.merges).toEqual([{ row: 0, column: 0, rows: 1, columns: 3 }]);
    expect([...layout.hiddenRows]).toEqual([4]);
    expect([...layout.hiddenColumns]).toEqual([6]);
    expect(layout.columnWidths.get(0)).toBe(22 * 7);
    expect(layout.rowHeights.get(5)).toBe(40);
    expect(layout.autoFilter?.area).toEqual({ row: 1, column: 0, rows: 9, columns: 6 });
    expect(layout.page).toMatchObject({
      orientation: 'landscape',
      titleRows: { start: 0, count: 2 },
      printArea: [{ row: 0, column: 0, rows: 12, columns: 6 }],
      headersFooters: { leftHeader: 'Keys &&c', rightHeader: 'Page &P' },
    });
    expect(layout.validations.map((own) => own.type).sort()).toEqual(['List', 'WholeNumber']);
    expect(layout.conditionalFormats.map((own) => own.rule.kind)).toEqual(['custom', 'other']);
    expect(layout.links[0]?.link.address).toBe('https://example.org/?a=1&b=2');
  });

  it('reads tables, names, protection and XML parts', () => {
    const { model } = open(ugly);
    expect(model.findTable('Blanks')).toMatchObject({
      area: { row: 1, column: 1, rows: 4, columns: 2 },
      columns: [{ name: 'Blank' }, { name: 'On hand' }],
      showTotals: true,
      style: 'TableStyleMedium4',
    });
    expect(model.cell('Stock', 2, 5)?.formula).toBe('=Blanks[@[On hand]]*2');
    expect(model.findName('Bittings', null)?.formula).toBe("='Plan 1'!$B$3:$B$10");
    expect(model.sheet('Stock').protection).toMatchObject({
      sealed: true,
      options: { allowFormatCells: true },
    });
    expect(model.state.xmlParts.map((part) => part.xml)).toEqual([
      '<shop xmlns="urn:example:shop"><name>Ångström &amp; Co</name></shop>',
    ]);
  });
});

describe('saving', () => {
  it('gives every part the same bytes when nothing changed', () => {
    expect(changedParts(ugly, saveXlsx(open(ugly)))).toEqual([]);
  });

  it('gives the same bytes when results came back the same', () => {
    const book = open(ugly);
    book.model.setResult('Plan 1', 2, 3, 6);
    book.model.setResult('Plan 1', 4, 5, { error: '#DIV/0!' });
    expect(changedParts(ugly, saveXlsx(book))).toEqual([]);
  });

  it('keeps a stored result where the engine here does not know the function', () => {
    const book = open(ugly);
    book.model.setResult('Plan 1', 6, 5, { error: '#NAME?' });
    expect(changedParts(ugly, saveXlsx(book))).toEqual([]);
  });

  it('changes three cells and adds a sheet with a table, and leaves the rest', async () => {
    const book = open(ugly);
    const { model } = book;
    model.enter('Plan 1', 2, 1, '00042', 'user');
    model.enter('Plan 1', 2, 3, '=LEN(B3)+2', 'user');
    model.setResult('Plan 1', 2, 3, 7);
    model.enter('Plan 1', 14, 1, 12.5, 'user');
    const sheet = model.addSheet('Cuts & pins', 'addin');
    model.style(sheet, { row: 0, column: 0, rows: 3, columns: 1 }, { numberFormat: '@' }, 'addin');
    model.enterBlock(
      sheet,
      { row: 0, column: 0, rows: 3, columns: 2 },
      [
        ['Key', 'Depth'],
        ['0017', 3],
        ['0018', 4],
      ],
      'addin',
    );
    model.addTable(sheet, { row: 0, column: 0, rows: 3, columns: 2 }, true, 'addin', 'Cuts');
    const bytes = saveXlsx(book);
    expect(changedParts(ugly, bytes)).toEqual([
      '[Content_Types].xml',
      'xl/_rels/workbook.xml.rels',
      'xl/calcChain.xml',
      'xl/styles.xml',
      'xl/tables/table2.xml',
      'xl/workbook.xml',
      'xl/worksheets/_rels/sheet4.xml.rels',
      'xl/worksheets/sheet1.xml',
      'xl/worksheets/sheet4.xml',
    ]);
    const back = await readBack(bytes);
    const plan = sheetOf(back, 'Plan 1');
    expect(plan.getCell('B3').value).toBe('00042');
    expect(plan.getCell('B3').numFmt).toBe('@');
    expect(plan.getCell('D3').value).toEqual({ formula: 'LEN(B3)+2', result: 7 });
    expect(plan.getCell('B15').value).toBe(12.5);
    // The shared formula lost its first member: the others stand on their own now.
    expect(plan.getCell('D4').value).toEqual({ formula: 'LEN(B4)+1', result: 6 });
    expect(plan.getCell('A1').value).toMatchObject({
      richText: [{ text: 'Keys ' }, { text: 'of the house' }],
    });
    expect(plan.getCell('A1').alignment).toMatchObject({ horizontal: 'center', textRotation: 45, indent: 1 });
    expect(plan.getCell('A3').note).toBe('cut by hand');
    expect(plan.getCell('C3').value).toEqual(new Date(Date.UTC(2024, 1, 20)));
    expect(plan.model.merges).toEqual(['A1:C1']);
    expect(plan.getImages()).toHaveLength(1);
    expect(plan.getCell('E3').dataValidation.formulae).toEqual(['"yes,no"']);
    expect(plan.getRow(5).hidden).toBe(true);
    const added = sheetOf(back, 'Cuts & pins');
    expect(added.getCell('A2').value).toBe('0017');
    expect(tableOf(added, 'Cuts')).toMatchObject({ name: 'Cuts', tableRef: 'A1:B3' });
    expect(tableOf(sheetOf(back, 'Stock'), 'Blanks').columns.map((column) => column.name)).toEqual([
      'Blank',
      'On hand',
    ]);
  });

  it('can be saved twice, and undone edits leave no trace', () => {
    const book = open(ugly);
    book.model.enter('Plan 1', 2, 1, 'x', 'user');
    const once = saveXlsx(book);
    expect(saveXlsx(book)).toEqual(once);
    book.model.undo();
    expect(changedParts(ugly, saveXlsx(book))).toEqual([]);
  });

  it('opens what it saved with the same content', () => {
    const book = open(ugly);
    book.model.enter('Stock', 2, 2, 99, 'user');
    const again = open(saveXlsx(book));
    for (const sheet of book.model.sheets) {
      const other = again.model.sheet(sheet.name);
      expect([...other.cells.all()].length).toBe([...sheet.cells.all()].length);
      for (const { row, column, cell } of sheet.cells.all())
        expect([other.cells.get(row, column)?.value, other.cells.get(row, column)?.style]).toEqual([
          cell.value,
          cell.style,
        ]);
    }
  });

  it('moves everything along when rows are inserted above', async () => {
    const book = open(ugly);
    book.model.insertRows('Plan 1', 2, 2, 'user');
    const plan = sheetOf(await readBack(saveXlsx(book)), 'Plan 1');
    expect(plan.getCell('B5').value).toBe('03521');
    expect(plan.getCell('D5').value).toMatchObject({ formula: 'LEN(B5)+1' });
    expect(plan.getCell('D7').value).toMatchObject({ formula: 'LEN(B7)+1' });
    expect(plan.getCell('A5').note).toBe('cut by hand');
    expect(plan.getCell('A1').value).toMatchObject({
      richText: [{ text: 'Keys ' }, { text: 'of the house' }],
    });
    expect(plan.getRow(7).hidden).toBe(true);
    expect(plan.getRow(5).hidden).toBe(false);
    expect(plan.getRow(8).height).toBe(40);
    expect(plan.autoFilter).toBe('A2:F12');
    expect(plan.getCell('E5').dataValidation.formulae).toEqual(['"yes,no"']);
    expect(plan.getCell('F5').value).toMatchObject({ hyperlink: 'https://example.org/?a=1&b=2' });
    expect(plan.getImages()[0]?.range.tl.nativeRow).toBe(14);
    const rules = (plan as unknown as { conditionalFormattings: { ref: string }[] }).conditionalFormattings;
    expect(rules.map((rule) => rule.ref)).toEqual(['D5:D12', 'D5:D12']);
  });

  it('keeps what the model has no word for when a style changes', async () => {
    const book = open(ugly);
    book.model.style(
      'Plan 1',
      { row: 0, column: 0, rows: 1, columns: 1 },
      { bold: true, fill: '#00FF00' },
      'user',
    );
    const cell = sheetOf(await readBack(saveXlsx(book)), 'Plan 1').getCell('A1');
    expect(cell.alignment).toMatchObject({ horizontal: 'center', textRotation: 45, indent: 1 });
    expect(cell.font.bold).toBe(true);
    expect(cell.fill).toMatchObject({ pattern: 'solid', fgColor: { argb: 'FF00FF00' } });
  });

  it('renames, moves, hides and removes sheets', async () => {
    const book = open(ugly);
    book.model.renameSheet('Plan 1', "Bob's plan", 'user');
    book.model.moveSheet('Stock', 0, 'user');
    book.model.removeSheet('Hidden', 'user');
    const bytes = saveXlsx(book);
    const back = await readBack(bytes);
    expect(back.worksheets.map((sheet) => sheet.name)).toEqual(['Stock', "Bob's plan"]);
    expect(partsOf(bytes).has('xl/worksheets/sheet3.xml')).toBe(false);
    expect(partsOf(bytes).get('xl/workbook.xml')).toContain("'Bob''s plan'!$B$3:$B$10");
    expect(open(bytes).model.sheet("Bob's plan").layout.page.titleRows).toEqual({ start: 0, count: 2 });
  });

  it('writes tables that grew, were renamed or removed', async () => {
    const book = open(ugly);
    book.model.protect('Stock', null, 'user');
    book.model.addTableRows('Blanks', null, 1, 'addin');
    book.model.renameTable('Blanks', 'Stocked', 'addin');
    const table = tableOf(sheetOf(await readBack(saveXlsx(book)), 'Stock'), 'Stocked');
    expect(table.tableRef).toBe('B2:C6');
    expect(partsOf(saveXlsx(book)).get('xl/worksheets/sheet2.xml')).toContain('SUM(Stocked[On hand])');
    book.model.removeTable('Stocked', true, 'addin');
    const parts = partsOf(saveXlsx(book));
    expect(parts.has('xl/tables/table1.xml')).toBe(false);
    expect(parts.get('xl/worksheets/sheet2.xml')).not.toContain('tablePart');
    expect(parts.get('[Content_Types].xml')).not.toContain('table1');
  });

  it('writes a workbook made from nothing', async () => {
    const book = newXlsx();
    const { model } = book;
    model.style(
      'Sheet1',
      { row: 0, column: 0, rows: 2, columns: 1 },
      { numberFormat: '@', bold: true },
      'addin',
    );
    model.enterBlock(
      'Sheet1',
      { row: 0, column: 0, rows: 2, columns: 2 },
      [
        ['007', 1.5],
        ['=1+1', true],
      ],
      'addin',
    );
    model.enter('Sheet1', 3, 0, '=KEYROW.CUTS(A1)', 'addin');
    model.setResult('Sheet1', 3, 0, [[1, 2, 'x']]);
    model.setLayout(
      'Sheet1',
      {
        columnWidths: new Map([[0, 140]]),
        hiddenRows: new Set([9]),
        frozen: { rows: 1, columns: 0 },
        merges: [{ row: 6, column: 0, rows: 1, columns: 2 }],
        pictures: [
          {
            id: 'p',
            name: 'Blade',
            base64: PIXEL,
            format: 'PNG',
            left: 50,
            top: 20,
            width: 30,
            height: 15,
            altText: 'a "blade"',
          },
        ],
        page: {
          ...model.sheet('Sheet1').layout.page,
          orientation: 'landscape',
          zoom: { horizontalFitToPages: 1 },
          bag: { leftMargin: 36, paperSize: 'A4' },
        },
      },
      'addin',
    );
    model.setSetting('mapping', '{"a":"<&>"}', 'addin');
    model.addXmlPart('<own xmlns="urn:x"/>', 'addin');
    model.addName({ name: 'Half', sheetId: null, formula: '=0.5', visible: true, comment: '' }, 'addin');
    const bytes = saveXlsx(book);
    const parts = partsOf(bytes);
    expect(parts.get('xl/worksheets/sheet1.xml')).toContain(
      '<c r="A4" cm="1"><f t="array" ref="A4:C4">_xldudf_KEYROW_CUTS(A1)</f><v>1</v></c><c r="B4"><v>2</v></c><c r="C4" t="str"><v>x</v></c>',
    );
    expect(parts.get('xl/metadata.xml')).toContain('XLDAPR');
    const sheet = sheetOf(await readBack(bytes), 'Sheet1');
    expect(sheet.getCell('A1').value).toBe('007');
    expect(sheet.getCell('A2').value).toBe('=1+1');
    expect(sheet.getCell('A1').font.bold).toBe(true);
    expect(sheet.getCell('B2').value).toBe(true);
    expect(sheet.getColumn(1).width).toBe(20);
    expect(sheet.getRow(10).hidden).toBe(true);
    expect(sheet.views[0]).toMatchObject({ state: 'frozen', ySplit: 1 });
    expect(sheet.getImages()).toHaveLength(1);
    expect(sheet.pageSetup).toMatchObject({
      orientation: 'landscape',
      fitToPage: true,
      fitToWidth: 1,
      fitToHeight: 0,
      paperSize: 9,
    });
    const again = open(bytes).model;
    expect(again.cell('Sheet1', 3, 0)).toMatchObject({
      formula: '=KEYROW.CUTS(A1)',
      spill: { rows: 1, columns: 3 },
    });
    expect(again.cell('Sheet1', 3, 2)).toMatchObject({ value: 'x', spilledFrom: { row: 3, column: 0 } });
    expect(again.state.settings).toEqual(new Map([['mapping', '{"a":"<&>"}']]));
    expect(again.state.xmlParts.map((part) => part.xml)).toEqual(['<own xmlns="urn:x"/>']);
    expect(again.findName('Half', null)?.formula).toBe('=0.5');
  });

  it('carries 20,000 rows through, one cell changed', () => {
    const rows = Array.from({ length: 20_000 }, (_, i) => {
      const r = String(i + 1);
      return (
        `<row r="${r}"><c r="A${r}"><v>${r}</v></c><c r="B${r}" t="inlineStr"><is><t>0${r}</t></is></c>` +
        `<c r="C${r}"><v>${String((i + 1) / 7)}</v></c><c r="D${r}" t="b"><v>1</v></c>` +
        `<c r="E${r}"><f>A${r}*2</f><v>${String((i + 1) * 2)}</v></c></row>`
      );
    });
    const parts = unzipSync(saveXlsx(newXlsx('Book1.xlsx', 'Big')));
    const empty = strFromU8(parts['xl/worksheets/sheet1.xml'] ?? new Uint8Array());
    parts['xl/worksheets/sheet1.xml'] = strToU8(
      empty.replace('<sheetData/>', `<sheetData>${rows.join('')}</sheetData>`),
    );
    const bytes = zipSync(parts);
    const book = open(bytes);
    expect(book.model.usedArea('Big')).toEqual({ row: 0, column: 0, rows: 20_000, columns: 5 });
    book.model.enter('Big', 19_999, 0, 5, 'user');
    const again = open(saveXlsx(book)).model;
    expect(again.value('Big', 19_999, 0)).toBe(5);
    expect(again.cell('Big', 19_998, 4)).toMatchObject({ value: 39_998, formula: '=A19999*2' });
    expect(again.value('Big', 12_345, 1)).toBe('012346');
  }, 60_000);
});
