/**
 * The cells of an .xlsx workbook as a list of codes wants them: text to the letter, numbers that the sheet shows with
 * leading zeros or as dates told apart, results in the place of formulas. Element names and attributes are those of
 * ECMA-376 part 1, 18.3 (cells), 18.4 (shared strings), 18.8 (styles); whatever else a workbook holds is passed over.
 */
import type { ImportCell } from '../../src/keying/importCode.ts';
import { err, ok, type Result } from '../../src/keying/result.ts';
import { isDateFormat } from '../../src/workbook/index.ts';
import type { Archive, ArchiveFault } from './unzip.ts';

export interface FileSheet {
  readonly name: string;
  /** Blank rows above the list: a title or a logo stood there, or nothing. */
  readonly above: number;
  readonly rows: readonly (readonly ImportCell[])[];
}

export type SheetsFault = ArchiveFault | 'no-workbook' | 'too-many';

/** More than any list of codes: beyond it something else is meant. */
export const MOST_ROWS = 200_000;
export const MOST_COLUMNS = 200;

/** The sheets that hold anything, in their order; hidden ones are left out. */
export async function sheetsOf(archive: Archive): Promise<Result<FileSheet[], SheetsFault>> {
  const texts = new Map<string, string>();
  const read = async (name: string): Promise<SheetsFault | undefined> => {
    const text = await archive.text(name);
    if (!text.ok) return text.error;
    if (text.value !== undefined) texts.set(name, text.value);
    return undefined;
  };
  for (const part of ['workbook', '_rels/workbook', 'sharedStrings', 'styles']) {
    const trouble = await read(`xl/${part}.xml${part.startsWith('_') ? '.rels' : ''}`);
    if (trouble) return err(trouble);
  }
  const workbook = texts.get('xl/workbook.xml');
  if (workbook === undefined) return err('no-workbook');
  const strings = sharedStrings(texts.get('xl/sharedStrings.xml') ?? '');
  const formats = cellFormats(texts.get('xl/styles.xml') ?? '');
  const from1904 = /<(?:\w+:)?workbookPr\b[^>]*\bdate1904="(?:1|true)"/.test(workbook);
  const targets = relations(texts.get('xl/_rels/workbook.xml.rels') ?? '');
  const sheets: FileSheet[] = [];
  for (const [tag] of workbook.matchAll(/<(?:\w+:)?sheet\b[^>]*>/g)) {
    const [id, name] = [attribute(tag, 'id'), attribute(tag, 'name')];
    const target = targets.get(id ?? '');
    if (target === undefined || /\bstate="(?:h|veryH)idden"/.test(tag)) continue;
    const trouble = await read(target);
    if (trouble) return err(trouble);
    const rows = rowsOf(texts.get(target) ?? '', strings, formats, from1904 ? 1462 : 0);
    texts.delete(target);
    if (rows === undefined) return err('too-many');
    const above = rows.findIndex((row) => row.length > 0);
    if (above >= 0) sheets.push({ name: name ?? '', above, rows: trimmed(rows.slice(above)) });
  }
  return ok(sheets);
}

const attribute = (tag: string, name: string): string | undefined => {
  const match = new RegExp(`(?:^|[\\s:])${name}\\s*=\\s*(?:"([^"]*)"|'([^']*)')`).exec(tag);
  return match ? decoded(match[1] ?? match[2] ?? '') : undefined;
};

const ENTITIES: ReadonlyMap<string, string> = new Map([
  ['amp', '&'],
  ['lt', '<'],
  ['gt', '>'],
  ['quot', '"'],
  ['apos', "'"],
]);

/** Character references, and the `_x000D_` by which a spreadsheet writes characters that XML can't hold. */
const decoded = (text: string): string =>
  text
    .replace(
      /&(?:#x([0-9a-f]{1,6})|#(\d{1,7})|(\w+));/gi,
      (whole, hex?: string, digits?: string, name?: string) => {
        if (name !== undefined) return ENTITIES.get(name) ?? whole;
        const point = hex === undefined ? Number(digits) : parseInt(hex, 16);
        return point <= 0x10ffff ? String.fromCodePoint(point) : whole;
      },
    )
    .replace(/_x([0-9A-F]{4})_/gi, (_, hex: string) => String.fromCharCode(parseInt(hex, 16)));

const relations = (xml: string): Map<string, string> =>
  new Map(
    [...xml.matchAll(/<(?:\w+:)?Relationship\b[^>]*>/g)].map(([tag]) => {
      const target = attribute(tag, 'Target') ?? '';
      return [attribute(tag, 'Id') ?? '', target.startsWith('/') ? target.slice(1) : `xl/${target}`] as const;
    }),
  );

/** The text of an item: all its runs, without the reading aids of East Asian text. */
const textIn = (xml: string): string =>
  [
    ...xml
      .replace(/<(?:\w+:)?rPh\b[\s\S]*?<\/(?:\w+:)?rPh>/g, '')
      .matchAll(/<(?:\w+:)?t\b[^>]*>([\s\S]*?)<\/(?:\w+:)?t>/g),
  ]
    .map((match) => decoded(match[1]!))
    .join('');

const sharedStrings = (xml: string): string[] =>
  [...xml.matchAll(/<(?:\w+:)?si\b[^>]*?(?:\/>|>([\s\S]*?)<\/(?:\w+:)?si>)/g)].map((match) =>
    textIn(match[1] ?? ''),
  );

/** Formats that have a number instead of a code: 14 to 22 and 45 to 47 are dates and times (18.8.30). */
const isBuiltInDate = (id: number): boolean => (id >= 14 && id <= 22) || (id >= 45 && id <= 47);

/** How a cell's number is shown, as far as it matters here. */
type Shown = 'number' | 'date' | { readonly digits: number };

function cellFormats(xml: string): Shown[] {
  const codes = new Map(
    [...xml.matchAll(/<(?:\w+:)?numFmt\b[^>]*>/g)].map(([tag]) => [
      Number(attribute(tag, 'numFmtId')),
      attribute(tag, 'formatCode') ?? '',
    ]),
  );
  const list = /<(?:\w+:)?cellXfs\b[^>]*>([\s\S]*?)<\/(?:\w+:)?cellXfs>/.exec(xml)?.[1] ?? '';
  return [...list.matchAll(/<(?:\w+:)?xf\b[^>]*>/g)].map(([tag]): Shown => {
    const id = Number(attribute(tag, 'numFmtId'));
    const code = codes.get(id) ?? '';
    if (/^0{2,}$/.test(code)) return { digits: code.length };
    return isBuiltInDate(id) || isDateFormat(code) ? 'date' : 'number';
  });
}

/** Rows from the first on, blank ones too, so that they keep their numbers; undefined where there are too many. */
function rowsOf(
  xml: string,
  strings: readonly string[],
  formats: readonly Shown[],
  daysOn: number,
): ImportCell[][] | undefined {
  const rows: ImportCell[][] = [];
  let row = -1;
  for (const match of xml.matchAll(
    /<(?:\w+:)?row\b([^>]*)>|<(?:\w+:)?c\b((?:[^>"]|"[^"]*")*?)(?:\/>|>([\s\S]*?)<\/(?:\w+:)?c>)/g,
  )) {
    if (match[1] !== undefined) {
      row = Number(attribute(match[1], 'r') ?? row + 2) - 1;
      if (!(row >= 0 && row < MOST_ROWS)) return undefined;
      continue;
    }
    const [tag, body] = [match[2] ?? '', match[3] ?? ''];
    const cells = (rows[row] ??= []);
    const column = columnIn(attribute(tag, 'r')) ?? cells.length;
    const cell = cellIn(
      attribute(tag, 't') ?? 'n',
      body,
      strings,
      formats[Number(attribute(tag, 's') ?? 0)],
      daysOn,
    );
    if (cell === '') continue;
    if (column >= MOST_COLUMNS) return undefined;
    while (cells.length < column) cells.push('');
    cells[column] = cell;
  }
  return Array.from(rows, (cells: ImportCell[] | undefined) => cells ?? []);
}

/** Without the columns at the left that are blank all the way down. */
function trimmed(rows: readonly ImportCell[][]): ImportCell[][] {
  const first = rows.reduce((least, row) => {
    const at = row.findIndex((cell) => cell !== '');
    return at < 0 ? least : Math.min(least, at);
  }, MOST_COLUMNS);
  return rows.map((row) => row.slice(first));
}

/** @example columnIn('AB12') → 27 */
function columnIn(address: string | undefined): number | undefined {
  const letters = /^([A-Z]{1,3})\d/.exec(address ?? '')?.[1];
  return letters === undefined
    ? undefined
    : [...letters].reduce((n, letter) => n * 26 + letter.charCodeAt(0) - 64, 0) - 1;
}

function cellIn(
  type: string,
  body: string,
  strings: readonly string[],
  shown: Shown | undefined,
  daysOn: number,
): ImportCell {
  if (type === 'inlineStr') return textIn(body);
  const value = /<(?:\w+:)?v\b[^>]*>([\s\S]*?)<\/(?:\w+:)?v>/.exec(body)?.[1];
  if (value === undefined) return '';
  if (type === 's') return strings[Number(value)] ?? '';
  if (type === 'b') return value.trim() === '1';
  const number = Number(value);
  if (type !== 'n' || value.trim() === '' || Number.isNaN(number)) return decoded(value);
  if (shown === 'date') {
    const serial = number + daysOn;
    return { serial, shown: dayText(serial) };
  }
  return typeof shown === 'object' ? value.trim().padStart(shown.digits, '0') : number;
}

/** A serial day as text; how the sheet's own format writes it is not worked out. @example dayText(37653) → '2003-02-01' */
const dayText = (serial: number): string => {
  const day = new Date(Date.UTC(1899, 11, 30) + Math.floor(serial) * 86_400_000);
  return Number.isNaN(day.getTime()) ? String(serial) : day.toISOString().slice(0, 10);
};
