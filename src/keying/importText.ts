/**
 * Pasted text → rows of cells. The delimiter is found from the text itself: the one that cuts (nearly) every line into
 * the same number of cells, two or more. A code may be written with commas or spaces of its own (`2,7,4,1,5,3`), so
 * what would cut every line into single symbols is no delimiter. Quoted cells as in RFC 4180 (CSV). Cells keep every
 * character that they came with.
 */

export const DELIMITERS = ['tab', 'semicolon', 'bar', 'comma', 'spaces', 'space', 'none'] as const;
export type Delimiter = (typeof DELIMITERS)[number];

export interface PastedRows {
  readonly delimiter: Delimiter;
  /** Lines that hold something, in their order. */
  readonly rows: readonly (readonly string[])[];
}

const CHARACTERS = { tab: '\t', semicolon: ';', bar: '|', comma: ',' } as const;

/** Share of the lines that must have the usual number of cells. */
const REGULAR = 0.8;
const SAMPLE = 200;

/**
 * Splits pasted text, or the text of a `.csv` file.
 * @example splitPasted('Mark;Code\nAA1;2-7-4-1-5-3').rows → [['Mark', 'Code'], ['AA1', '2-7-4-1-5-3']]
 */
export function splitPasted(text: string, delimiter: Delimiter = findDelimiter(text)): PastedRows {
  const clean = text.replace(/^\uFEFF/, '');
  const rows = cellsOf(clean, delimiter).filter((row) => row.some((cell) => cell.trim() !== ''));
  return { delimiter, rows };
}

function cellsOf(text: string, delimiter: Delimiter): string[][] {
  switch (delimiter) {
    case 'none':
      return text.split(/\r\n|\r|\n/).map((line) => [line]);
    case 'spaces':
      return text.split(/\r\n|\r|\n/).map((line) => line.trim().split(/[ \u00A0]{2,}/));
    case 'space':
      return text.split(/\r\n|\r|\n/).map((line) => line.trim().split(/[ \u00A0]+/));
    default:
      return parseDelimited(text, CHARACTERS[delimiter]);
  }
}

/** The delimiter that most likely separates the cells of a text. @example findDelimiter('AA1;274153') → 'semicolon' */
export function findDelimiter(text: string): Delimiter {
  const lines = text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\r|\n/, SAMPLE * 2)
    .filter((line) => line.trim() !== '')
    .slice(0, SAMPLE)
    .join('\n');
  for (const delimiter of DELIMITERS) {
    if (delimiter === 'none') break;
    const rows = cellsOf(lines, delimiter);
    const usual = usualWidth(rows);
    if (usual.width < 2 || usual.share < REGULAR) continue;
    if (delimiter === 'tab' || !cutsUpCodes(rows, delimiter)) return delimiter;
  }
  return 'none';
}

function usualWidth(rows: readonly (readonly string[])[]): { width: number; share: number } {
  const counts = new Map<number, number>();
  for (const { length } of rows) counts.set(length, (counts.get(length) ?? 0) + 1);
  let best = { width: 0, share: 0 };
  for (const [width, n] of counts) if (n / rows.length > best.share) best = { width, share: n / rows.length };
  return best;
}

/** Would this delimiter cut codes into their symbols? `2,7,4,1,5,3`, and `AA1 2,7,4,1,5,3` with a space before. */
function cutsUpCodes(rows: readonly (readonly string[])[], delimiter: Delimiter): boolean {
  const single = (cell: string): boolean => /^\s*[\p{L}\p{N}]{1,2}\s*$/u.test(cell);
  const cut = rows.filter((row) => {
    const [first = '', ...rest] = row;
    if (rest.length < 3 || !rest.every(single)) return false;
    return single(first) || (delimiter !== 'space' && /\s[\p{L}\p{N}]{1,2}$/u.test(first));
  });
  // single spaces also set apart the groups of one code: `274 153`
  const groups =
    delimiter === 'space' && rows.every((row) => row.every((cell) => /^\p{N}{2,4}$/u.test(cell)));
  return groups || cut.length >= rows.length / 2;
}

/** RFC 4180: quotes around a cell, doubled inside it; a cell may then hold the delimiter and line breaks. */
function parseDelimited(text: string, delimiter: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let at = 0;
  const endOfCell = new RegExp(`[${delimiter}\\r\\n]`, 'g');
  while (at <= text.length) {
    const quoted = text[at] === '"' ? readQuoted(text, at) : { cell: '', end: at };
    endOfCell.lastIndex = quoted.end;
    at = endOfCell.exec(text)?.index ?? text.length;
    row.push(quoted.cell + text.slice(quoted.end, at));
    if (text[at] === delimiter) {
      at++;
      continue;
    }
    rows.push(row);
    row = [];
    at += text.startsWith('\r\n', at) ? 2 : 1;
  }
  return rows;
}

/** What stands in the quotes that a cell starts with, and where the text after them goes on: it belongs to the cell. */
function readQuoted(text: string, start: number): { cell: string; end: number } {
  let at = start + 1;
  let cell = '';
  for (;;) {
    const quote = text.indexOf('"', at);
    // a quote that is never closed is a character like any other
    if (quote < 0) return { cell: '', end: start };
    cell += text.slice(at, quote);
    if (text[quote + 1] !== '"') return { cell, end: quote + 1 };
    cell += '"';
    at = quote + 2;
  }
}
