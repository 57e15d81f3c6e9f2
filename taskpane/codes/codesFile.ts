/** A chosen file → the lists that it holds, or a sentence that says why not. The file itself is never changed. */
import type { ImportCell } from '../../src/keying/importCode.ts';
import { splitPasted } from '../../src/keying/importText.ts';
import { err, ok, type Result } from '../../src/keying/result.ts';
import { grouped } from '../pictures/numbers.ts';
import { shownFileName } from '../shared/fileName.ts';
import { openArchive } from './unzip.ts';
import { MOST_COLUMNS, MOST_ROWS, sheetsOf, type SheetsFault } from './xlsxSheets.ts';

export interface FileList {
  /** "codes.csv", or "codes.xlsx, sheet Keys". */
  readonly name: string;
  /** The sheet alone; '' for a file of text. */
  readonly sheet: string;
  readonly above: number;
  readonly rows: readonly (readonly ImportCell[])[];
}

/** A list of 100,000 codes has some 3 MB. */
export const MOST_FILE_BYTES = 30_000_000;

const startsWith = (bytes: Uint8Array, ...head: number[]): boolean => head.every((b, i) => bytes[i] === b);

/**
 * Reads a .csv, .txt, .tsv or .xlsx file; which one it is, its first bytes tell, not its name.
 * @example (await readListFile('codes.csv', bytes)).value → [{ name: 'codes.csv', sheet: '', above: 0, rows: [['AA1', '274153']] }]
 */
export async function readListFile(given: string, bytes: Uint8Array): Promise<Result<FileList[], string>> {
  const name = shownFileName(given);
  if (bytes.length > MOST_FILE_BYTES)
    return err(
      `${name} has ${grouped(Math.round(bytes.length / 1e6))} MB; up to ${MOST_FILE_BYTES / 1e6} MB are read here. Save the list alone in a file of its own.`,
    );
  if (startsWith(bytes, 0xd0, 0xcf, 0x11, 0xe0))
    return err(
      `${name} is locked with a password, or is a workbook of the old .xls kind. Open it in Excel and save it as .xlsx without a password.`,
    );
  if (startsWith(bytes, 0x50, 0x4b)) {
    const archive = openArchive(bytes);
    const sheets = archive.ok ? await sheetsOf(archive.value) : archive;
    if (!sheets.ok) return err(sayFault(name, sheets.error));
    if (sheets.value.length === 0) return err(`${name} has no sheet with anything on it.`);
    return ok(
      sheets.value.map((sheet) => ({
        ...sheet,
        name: `${name}, sheet ${shownFileName(sheet.name, 'without a name')}`,
        sheet: shownFileName(sheet.name, 'Without a name'),
      })),
    );
  }
  if (/\.xls[xmb]?$/i.test(given))
    return err(`${name} is no Excel workbook, or only a part of one arrived. Ask for it again.`);
  const text = decodeText(bytes);
  if (text.includes('\0')) return err(`${name} is no file of text. Choose a .csv or an .xlsx file.`);
  // looked at before it is split, since the cells take far more room than the text
  if (linesOf(text) > MOST_ROWS) return err(sayFault(name, 'too-many'));
  const { rows } = splitPasted(text);
  if (rows.some((row) => row.length > MOST_COLUMNS)) return err(sayFault(name, 'too-many'));
  return rows.length === 0 ? err(`${name} has nothing in it.`) : ok([{ name, sheet: '', above: 0, rows }]);
}

/** Lines, without making any. */
function linesOf(text: string): number {
  let lines = 1;
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) lines++;
  return lines;
}

const sayFault = (name: string, fault: SheetsFault): string =>
  ({
    broken: `${name} is damaged or only a part of it arrived. Ask for it again, or open it in Excel and save it anew.`,
    'too-much': `${name} unpacks to far more than a list of codes can need, so it was not read. Save the list alone in a new workbook.`,
    old: 'This version of Office can’t unpack .xlsx files. Open the file in Excel and select the codes there, or save it as .csv.',
    'no-workbook': `${name} holds no Excel workbook. Save it as .xlsx or .csv.`,
    'too-many': `${name} has cells beyond row ${grouped(MOST_ROWS)} or column ${MOST_COLUMNS}, more than are read here. Save the list alone in a new workbook.`,
  })[fault];

/**
 * The characters of a file of text: UTF-16 and UTF-8 by their marks, else UTF-8 where it is valid, else Windows-1252,
 * which spreadsheets in Europe and America still write.
 */
export function decodeText(bytes: Uint8Array): string {
  if (startsWith(bytes, 0xff, 0xfe)) return new TextDecoder('utf-16le').decode(bytes);
  if (startsWith(bytes, 0xfe, 0xff)) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}
