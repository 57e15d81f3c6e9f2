/** Lists in files: .xlsx as a general-purpose library writes it, .csv in the character sets of spreadsheets. */
import ExcelJS from 'exceljs';
import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { decodeText, readListFile } from '../../taskpane/codes/codesFile.ts';
import { openArchive } from '../../taskpane/codes/unzip.ts';

async function bytesOf(fill: (book: ExcelJS.Workbook) => void): Promise<Uint8Array> {
  const book = new ExcelJS.Workbook();
  fill(book);
  return new Uint8Array(await book.xlsx.writeBuffer());
}

async function listsOf(name: string, bytes: Uint8Array) {
  const read = await readListFile(name, bytes);
  if (!read.ok) throw new Error(read.error);
  return read.value;
}

const sentence = async (name: string, bytes: Uint8Array): Promise<string> => {
  const read = await readListFile(name, bytes);
  return read.ok ? 'read' : read.error;
};

describe('a list in an .xlsx file', () => {
  it('keeps every cell as it came', async () => {
    const bytes = await bytesOf((book) => {
      const sheet = book.addWorksheet('Codes & keys');
      sheet.getCell('B3').value = 'Mark';
      sheet.getCell('C3').value = 'Code';
      sheet.getCell('B4').value = ' <AA1> ';
      sheet.getCell('C4').value = '027415';
      sheet.getCell('C5').value = 27415;
      sheet.getCell('C6').value = 27415;
      sheet.getCell('C6').numFmt = '000000';
      // 1 February 2003 is day 37,653 of the 1900 system (ECMA-376 part 1, 18.17.4.1)
      sheet.getCell('C7').value = 37653;
      sheet.getCell('C7').numFmt = 'd-m-yy';
      sheet.getCell('C8').value = { richText: [{ text: '27' }, { font: { bold: true }, text: '４15' }] };
      sheet.getCell('C9').value = { formula: '"0"&"31524"', result: '031524' };
      sheet.getCell('C10').value = true;
      sheet.getCell('B12').value = 'last';
    });
    expect(await listsOf('codes.xlsx', bytes)).toEqual([
      {
        name: 'codes.xlsx, sheet Codes & keys',
        sheet: 'Codes & keys',
        above: 2,
        rows: [
          ['Mark', 'Code'],
          [' <AA1> ', '027415'],
          ['', 27415],
          ['', '027415'],
          ['', { serial: 37653, shown: '2003-02-01' }],
          ['', '27４15'],
          ['', '031524'],
          ['', true],
          [],
          ['last'],
        ],
      },
    ]);
  });

  it('offers each sheet that holds something, hidden ones not', async () => {
    const bytes = await bytesOf((book) => {
      book.addWorksheet('One').getCell('A1').value = '274153';
      book.addWorksheet('Blank');
      book.addWorksheet('Two').getCell('A1').value = 'AA1';
      book.addWorksheet('Secret', { state: 'hidden' }).getCell('A1').value = 'no';
    });
    expect((await listsOf('a.xlsx', bytes)).map((list) => list.sheet)).toEqual(['One', 'Two']);
  });

  it('says what is wrong with a file, and reads no part of it', async () => {
    const whole = await bytesOf((book) => {
      book.addWorksheet('One').getCell('A1').value = '274153';
    });
    for (const cut of [40, Math.floor(whole.length / 2), whole.length - 1])
      expect(await sentence('a.xlsx', whole.slice(0, cut)), String(cut)).toMatch(/damaged or only a part/);
    expect(await sentence('a.xlsx', strToU8('not a workbook'))).toMatch(/is no Excel workbook/);
    expect(await sentence('a.xlsx', zipSync({ 'word/document.xml': strToU8('<a/>') }))).toMatch(
      /holds no Excel workbook/,
    );
    expect(await sentence('a.xls', Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1))).toMatch(
      /locked with a password/,
    );
    expect(await sentence('a.csv', new Uint8Array(31_000_000))).toMatch(/has 31 MB; up to 30 MB/);
    const far = await bytesOf((book) => {
      book.addWorksheet('One').getCell('A900000').value = '274153';
    });
    expect(await sentence('far.xlsx', far)).toMatch(/beyond row 200,000/);
  });

  it('stops unpacking where a file grows out of all proportion', async () => {
    const bomb = zipSync({ 'xl/workbook.xml': new Uint8Array(3_000_000) }, { level: 9 });
    expect(bomb.length).toBeLessThan(10_000);
    const archive = openArchive(bomb, 1_000_000);
    if (!archive.ok) throw new Error(archive.error);
    expect(await archive.value.text('xl/workbook.xml')).toEqual({ ok: false, error: 'too-much' });
  });

  it('counts all that it unpacks, so that many files within are no way round', async () => {
    const part = new Uint8Array(400_000).fill(32);
    const bomb = zipSync({ a: part, b: part, c: part }, { level: 9 });
    const archive = openArchive(bomb, 1_000_000);
    if (!archive.ok) throw new Error(archive.error);
    const read = [];
    for (const name of ['a', 'b', 'c']) read.push((await archive.value.text(name)).ok);
    expect(read).toEqual([true, true, false]);
  });

  it('never throws on a file with bytes changed', async () => {
    const whole = await bytesOf((book) => {
      book.addWorksheet('One').getCell('A1').value = '274153';
    });
    for (let at = 0; at < whole.length; at += 13) {
      const broken = whole.slice();
      broken[at] = broken[at]! ^ 0xff;
      const read = await readListFile('a.xlsx', broken);
      expect(typeof read.ok).toBe('boolean');
    }
  });
});

describe('a list in a file of text', () => {
  it.each([
    ['UTF-8', Buffer.from('Tür;274153', 'utf8')],
    ['UTF-8 with its mark', Buffer.from('\uFEFFTür;274153', 'utf8')],
    ['UTF-16', Buffer.from('\uFEFFTür;274153', 'utf16le')],
    // 0xFC is ü in Windows-1252 (WHATWG Encoding Standard)
    ['Windows-1252', Buffer.from([0x54, 0xfc, 0x72, 0x3b, ...Buffer.from('274153')])],
  ])('is read in %s', async (_, bytes) => {
    expect(decodeText(bytes).replace('\uFEFF', '')).toBe('Tür;274153');
    expect((await listsOf('list.csv', new Uint8Array(bytes)))[0]!.rows).toEqual([['Tür', '274153']]);
  });

  it('is refused where it is something else, or empty', async () => {
    expect(await sentence('list.csv', Uint8Array.of(1, 0, 2, 0, 3))).toMatch(/no file of text/);
    expect(await sentence('list.csv', strToU8(' \n \n'))).toBe('list.csv has nothing in it.');
    expect(await sentence('list.csv', strToU8('1\n'.repeat(200_001)))).toMatch(/beyond row 200,000/);
    expect(await sentence('list.csv', strToU8(`${'1,'.repeat(300)}\n`.repeat(3)))).toMatch(/or column 200/);
  });
});
