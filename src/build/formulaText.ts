/**
 * Reads the formulas and results of the doc comments' examples: text in quotes, numbers, TRUE and FALSE, array
 * constants with commas between columns and semicolons between rows, and arguments left out.
 */
export type Literal = string | number | boolean;

export interface Formula {
  readonly id: string;
  /** null where an argument is left out. */
  readonly args: readonly (Literal | Literal[][] | null)[];
}

/** @example parseFormula('=KEYROW.CHECK("2741",,TRUE)') → { id: 'CHECK', args: ['2741', null, true] } */
export function parseFormula(text: string): Formula {
  const match = /^=KEYROW\.([A-Z]+)\((.*)\)$/.exec(text.trim());
  if (!match) throw new Error(`not a formula of ours: ${text}`);
  const body = match[2]!;
  const args = body.trim() === '' ? [] : split(body, ',').map((a) => (a === '' ? null : parseResult(a)));
  return { id: match[1]!, args };
}

/** @example parseResult('{1,2;"a",TRUE}') → [[1, 2], ['a', true]] */
export function parseResult(text: string): Literal | Literal[][] {
  const array = /^\{(.*)\}$/.exec(text.trim());
  if (!array) return parseLiteral(text);
  return split(array[1]!, ';').map((row) => split(row, ',').map(parseLiteral));
}

function parseLiteral(text: string): Literal {
  const trimmed = text.trim();
  const quoted = /^"((?:[^"]|"")*)"$/.exec(trimmed);
  if (quoted) return quoted[1]!.replaceAll('""', '"');
  if (trimmed === 'TRUE' || trimmed === 'FALSE') return trimmed === 'TRUE';
  const value = Number(trimmed);
  if (trimmed === '' || !Number.isFinite(value)) throw new Error(`not a value: ${text}`);
  return value;
}

/** Splits at a separator outside quotes and braces. */
function split(text: string, separator: ',' | ';'): string[] {
  const parts = [''];
  let quoted = false;
  let depth = 0;
  for (const c of text) {
    if (c === '"') quoted = !quoted;
    if (!quoted && c === '{') depth++;
    if (!quoted && c === '}') depth--;
    if (c === separator && !quoted && depth === 0) parts.push('');
    else parts[parts.length - 1] += c;
  }
  return parts.map((p) => p.trim());
}
