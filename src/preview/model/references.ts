/**
 * Rewrites the A1 references of a formula when cells move, a sheet is renamed or removed, or a table or one of its
 * columns is renamed. A scan, not a parser. Not covered: references built as text (INDIRECT), R1C1 style,
 * three-dimensional references (`First:Last!A1`), other workbooks (`[Book]Sheet!A1`), the union and the
 * implicit-intersection operators beyond leaving them in place.
 */
import { MAX_COLUMNS, MAX_ROWS, columnLetters, columnNumber, quoteSheet } from './address.ts';
import type { Area } from './types.ts';

const TOKEN =
  /("(?:[^"]|"")*")|(?:('(?:[^']|'')+'|[\p{L}_][\p{L}\p{N}_.]*)!)?(\$?[A-Z]{1,3}\$?\d{1,7}(?::\$?[A-Z]{1,3}\$?\d{1,7})?|\$?[A-Z]{1,3}:\$?[A-Z]{1,3}|\$?\d{1,7}:\$?\d{1,7})(?![\p{L}\p{N}_.(!])|([\p{L}_\\][\p{L}\p{N}_.\\]*)|(\d+(?:\.\d*)?(?:E[+-]?\d+)?)/giu;

/** Cuts a formula into stretches inside and outside square brackets, which hold column names. */
function outsideBrackets(formula: string, rewrite: (part: string) => string): string {
  let out = '';
  let start = 0;
  let depth = 0;
  let quoted = false;
  for (let i = 0; i < formula.length; i++) {
    const ch = formula[i];
    if (depth === 0 && ch === '"') quoted = !quoted;
    if (quoted) continue;
    if (ch === "'" && depth > 0) i++;
    else if (ch === '[') {
      if (depth === 0) {
        out += rewrite(formula.slice(start, i));
        start = i;
      }
      depth++;
    } else if (ch === ']' && depth > 0) {
      depth--;
      if (depth === 0) {
        out += formula.slice(start, i + 1);
        start = i + 1;
      }
    }
  }
  return out + (depth === 0 ? rewrite(formula.slice(start)) : formula.slice(start));
}

interface End {
  absoluteColumn: string;
  column: number | null;
  absoluteRow: string;
  row: number | null;
}

function readEnd(text: string): End {
  const match = /^(\$?)([A-Z]*)(\$?)(\d*)$/i.exec(text);
  const letters = match?.[2] ?? '';
  const digits = match?.[4] ?? '';
  return {
    absoluteColumn: letters ? (match?.[1] ?? '') : '',
    column: letters ? columnNumber(letters) : null,
    absoluteRow: letters ? (match?.[3] ?? '') : (match?.[1] ?? '') || (match?.[3] ?? ''),
    row: digits ? Number(digits) - 1 : null,
  };
}

function writeEnd(end: End, row: number, column: number): string {
  const letters = end.column === null ? '' : end.absoluteColumn + columnLetters(column);
  return letters + (end.row === null ? '' : end.absoluteRow + String(row + 1));
}

/** Calls `move` with every referenced area; null becomes `#REF!`, the same object leaves the text untouched. */
export function mapReferences(
  formula: string,
  move: (sheet: string | null, area: Area) => Area | null,
): string {
  return outsideBrackets(formula, (part) =>
    part.replace(TOKEN, (whole: string, text?: string, prefix?: string, reference?: string) => {
      if (text !== undefined || reference === undefined) return whole;
      const [a = '', b] = reference.split(':');
      const first = readEnd(a);
      const last = b === undefined ? first : readEnd(b);
      const [r1, r2] = [first.row ?? 0, last.row ?? MAX_ROWS - 1];
      const [c1, c2] = [first.column ?? 0, last.column ?? MAX_COLUMNS - 1];
      if (r1 > r2 || c1 > c2 || r2 >= MAX_ROWS || c2 >= MAX_COLUMNS || r1 < 0) return whole;
      const area = { row: r1, column: c1, rows: r2 - r1 + 1, columns: c2 - c1 + 1 };
      const sheet = prefix === undefined ? null : prefix.replace(/^'|'$/g, '').replaceAll("''", "'");
      const moved = move(sheet, area);
      if (moved === area) return whole;
      const head = prefix === undefined ? '' : `${prefix}!`;
      if (moved === null) return `${head}#REF!`;
      const from = writeEnd(first, moved.row, moved.column);
      if (b === undefined) return head + from;
      return `${head}${from}:${writeEnd(last, moved.row + moved.rows - 1, moved.column + moved.columns - 1)}`;
    }),
  );
}

/** The references of a formula copied by `down` rows and `right` columns: relative parts move, `$` parts stay. */
export function offsetReferences(formula: string, down: number, right: number): string {
  return outsideBrackets(formula, (part) =>
    part.replace(TOKEN, (whole: string, text?: string, prefix?: string, reference?: string) => {
      if (text !== undefined || reference === undefined) return whole;
      const ends = reference.split(':').map((end) => {
        const e = readEnd(end);
        const row = (e.row ?? 0) + (e.absoluteRow ? 0 : down);
        const column = (e.column ?? 0) + (e.absoluteColumn ? 0 : right);
        const off = e.row !== null && (row < 0 || row >= MAX_ROWS);
        if (off || (e.column !== null && (column < 0 || column >= MAX_COLUMNS))) return null;
        return writeEnd(e, row, column);
      });
      return (prefix === undefined ? '' : `${prefix}!`) + (ends.includes(null) ? '#REF!' : ends.join(':'));
    }),
  );
}

/** Gives a sheet's references its new name; `newName` null turns them into `#REF!`. */
export function renameSheetIn(formula: string, oldName: string, newName: string | null): string {
  return outsideBrackets(formula, (part) =>
    part.replace(
      /("(?:[^"]|"")*")|('(?:[^']|'')+'|[\p{L}_][\p{L}\p{N}_.]*)!(\$?[A-Z]{1,3}\$?\d{1,7}(?::\$?[A-Z]{1,3}\$?\d{1,7})?)?/giu,
      (whole: string, text?: string, prefix?: string, reference?: string) => {
        if (text !== undefined || prefix === undefined) return whole;
        const name = prefix.replace(/^'|'$/g, '').replaceAll("''", "'");
        if (name.toLowerCase() !== oldName.toLowerCase()) return whole;
        return newName === null ? '#REF!' : `${quoteSheet(newName)}!${reference ?? ''}`;
      },
    ),
  );
}

/** Renames a table in the references that start with its name. */
export function renameTableIn(formula: string, oldName: string, newName: string): string {
  return outsideBrackets(formula, (part) =>
    part.replace(/("(?:[^"]|"")*")|([\p{L}_\\][\p{L}\p{N}_.\\]*)/gu, (whole: string, text?: string) =>
      text === undefined && whole.toLowerCase() === oldName.toLowerCase() ? newName : whole,
    ),
  );
}

function escapeColumn(name: string): string {
  return name.replace(/['#@[\]]/g, "'$&");
}

/** Renames a column in `Table[…]` references, and in `[@…]` ones where the formula stands in the table itself. */
export function renameColumnIn(
  formula: string,
  table: string,
  oldName: string,
  newName: string,
  inTable: boolean,
): string {
  const [from, to] = [escapeColumn(oldName).toLowerCase(), escapeColumn(newName)];
  const plain = /^[\p{L}\p{N}_]+$/u.test(newName);
  return formula.replace(
    /("(?:[^"]|"")*")|([\p{L}_\\][\p{L}\p{N}_.\\]*)?(\[(?:'.|[^'[\]]|\[(?:'.|[^'[\]])*\])*\])/gu,
    (whole: string, text?: string, owner?: string, brackets?: string) => {
      if (text !== undefined || brackets === undefined) return whole;
      if (owner === undefined ? !inTable : owner.toLowerCase() !== table.toLowerCase()) return whole;
      const inner = brackets.slice(1, -1);
      const head = owner ?? '';
      if (inner.toLowerCase() === from) return `${head}[${to}]`;
      if (inner.toLowerCase() === `@${from}`) return `${head}[@${plain ? to : `[${to}]`}]`;
      const parts = inner.replace(/\[((?:'.|[^'[\]])*)\]/g, (p: string, name: string) =>
        name.toLowerCase() === from ? `[${to}]` : p,
      );
      return `${head}[${parts}]`;
    },
  );
}

/** What is wrong with a formula's brackets and quotes, or null. Excel refuses such a formula outright. */
export function formulaProblem(formula: string): string | null {
  const bare = formula.replace(/"(?:[^"]|"")*"/g, '""').replace(/'(?:[^']|'')+'!/g, 'S!');
  if ((bare.match(/"/g) ?? []).length % 2 === 1) return 'a quotation mark is missing';
  let round = 0;
  let square = 0;
  for (let i = 0; i < bare.length; i++) {
    const ch = bare[i];
    if (square > 0 && ch === "'") i++;
    else if (ch === '[') square++;
    else if (ch === ']') square--;
    else if (square === 0 && ch === '(') round++;
    else if (square === 0 && ch === ')') round--;
    if (round < 0 || square < 0) return 'a closing bracket has no opening one';
  }
  if (round > 0 || square > 0) return 'a bracket is not closed';
  if (/[-+*/^&=<>,]\s*$/.test(bare.slice(1)) || bare.length < 2) return 'the formula ends too early';
  return null;
}
