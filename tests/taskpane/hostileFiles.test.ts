/** Files that nobody should send: their names, and names of objects and markup within them. Text stays text. */
import ExcelJS from 'exceljs';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { afterEach, describe, expect, it } from 'vitest';
import { guessColumns } from '../../src/keying/importColumns.ts';
import { splitPasted } from '../../src/keying/importText.ts';
import { starterSpec } from '../../src/keying/starters.ts';
import { AuditChanges } from '../../taskpane/audit/AuditChanges.tsx';
import { sayCount, sayGone } from '../../taskpane/audit/changeWords.ts';
import { readListFile } from '../../taskpane/codes/codesFile.ts';
import { fileNameToSave, shownFileName } from '../../taskpane/shared/fileName.ts';
import { render } from './pictures/markup.ts';

const NAMES = ['__proto__', 'constructor', 'toString', 'hasOwnProperty'];
const OWN = Object.getOwnPropertyNames(Object.prototype).sort();

afterEach(() => {
  expect(Object.getOwnPropertyNames(Object.prototype).sort()).toEqual(OWN);
  expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
});

const FILES = [
  '../../x.csv',
  '..\\..\\x.csv',
  '',
  '   ',
  '.csv',
  `${'x'.repeat(5_000)}.csv`,
  'codes\u202Evsc.exe',
  'a\r\nb\0.csv',
  '"><img src=x onerror=alert(1)>.csv',
  "'; drop.csv",
  'CON.csv',
  '__proto__',
  'constructor.csv',
  '\uD800.csv',
  '\u{1F511}'.repeat(200),
  'Schlüssel 2026 – Haus "B".csv',
];
/** Bidirectional controls are those of Unicode Standard Annex 9, table 4. */

const UNSEEN = /[\u0000-\u001F\u007F-\u009F\u2028\u2029\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069\uFEFF]/u;

describe('names of files', () => {
  it.each(FILES)('%j is shown on one line, and its kind is still seen', async (name) => {
    const shown = shownFileName(name);
    expect(shown).not.toMatch(UNSEEN);
    expect(shown).not.toMatch(/\p{Cs}/u);
    expect(shown.trim()).not.toBe('');
    expect([...shown].length).toBeLessThanOrEqual(60);
    if (/^[\x20-\x7e]{0,40}\.csv$/.test(name) && name !== '') expect(shown).toBe(name);
    if (name.endsWith('.csv')) expect(shown.endsWith('.csv')).toBe(true);
    const read = await readListFile(name, strToU8('AA1,274153\n'));
    expect(read).toMatchObject({ ok: true, value: [{ name: shown, rows: [['AA1', '274153']] }] });
    for (const bytes of [new Uint8Array(), strToU8('PK'), new Uint8Array(9), strToU8('\0\0')]) {
      const refused = await readListFile(name, bytes);
      if (refused.ok) throw new Error('read');
      expect(refused.error).toContain(shown);
      expect(refused.error).not.toMatch(UNSEEN);
      expect(refused.error.length).toBeLessThan(300);
    }
  });

  it.each(FILES)('%j is saved under a name without a path', (name) => {
    const saved = fileNameToSave(name);
    expect(saved).not.toMatch(/[<>:"/\\|?*]/);
    expect(saved).not.toMatch(UNSEEN);
    expect(saved).toMatch(/^[^.\s].*[^.\s]$|^[^.\s]$/su);
    expect([...saved].length).toBeLessThanOrEqual(60);
  });

  it('are left alone where nothing is wrong with them', () => {
    expect(shownFileName('Schlüssel 2026 – Haus "B".csv')).toBe('Schlüssel 2026 – Haus "B".csv');
    expect(fileNameToSave('School keys.xlsx')).toBe('School keys.xlsx');
    expect(fileNameToSave('../..')).toBe('Workbook.xlsx');
    expect(fileNameToSave('a/b.xlsx')).toBe('b.xlsx');
  });
});

describe.each(NAMES)('%s in a list', (name) => {
  it('is a heading and a cell of a file of text', () => {
    const { rows } = splitPasted(`${name},Code\n${name},274153\n`);
    expect(rows).toEqual([
      [name, 'Code'],
      [name, '274153'],
    ]);
    expect(guessColumns(rows, [starterSpec('S-018-6')!]).roles[1]).toBe('code');
  });

  it('is a sheet and a cell of a workbook', async () => {
    const book = new ExcelJS.Workbook();
    const sheet = book.addWorksheet(name);
    sheet.addRow([name, 'Code']);
    sheet.addRow([name, '274153']);
    const read = await readListFile('a.xlsx', new Uint8Array(await book.xlsx.writeBuffer()));
    expect(read).toMatchObject({
      ok: true,
      value: [
        {
          name: `a.xlsx, sheet ${name}`,
          sheet: name,
          rows: [
            [name, 'Code'],
            [name, '274153'],
          ],
        },
      ],
    });
  });

  it('is no reference to a character in a workbook’s text, nor a part of its archive', async () => {
    const book = new ExcelJS.Workbook();
    book.addWorksheet('One').getCell('A1').value = 'MARK';
    const parts = unzipSync(new Uint8Array(await book.xlsx.writeBuffer()));
    const changed = Object.entries(parts).map(([part, bytes]): [string, Uint8Array] => [
      part,
      strToU8(new TextDecoder().decode(bytes).replaceAll('MARK', `&${name};&amp;&#65;`)),
    ]);
    // as directories: the library that packs them can't have __proto__ as the whole name
    const evil = Object.fromEntries([
      ...changed,
      [`${name}/x`, strToU8('x')],
      [`../../${name}`, strToU8('x')],
    ]);
    const read = await readListFile('a.xlsx', zipSync(evil));
    expect(read).toMatchObject({ ok: true, value: [{ rows: [[`&${name};&A`]] }] });
  });

  it('is a kind of finding that nobody knows, where the workbook’s notes say so', () => {
    expect(sayCount({ code: name as never, before: 1, now: 2 })).toBe(`2 ${name}, 1 before.`);
    expect(sayGone([name, 'AA3', '12', ''])).toContain(': key AA3, cylinder 12.');
    const markup = render(AuditChanges, {
      since: {
        made: name,
        change: {
          findings: { fresh: [], gone: [[name, name, name, name]], same: 0 },
          counts: [{ code: name as never, before: 1, now: 2 }],
        },
        metal: undefined,
        withheld: 0,
      },
    });
    expect(markup).not.toMatch(/native code|\[object/);
  });
});
