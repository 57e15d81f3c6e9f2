/**
 * Formulas as a file stores them ↔ as the user sees them. The one place that knows both forms.
 *
 * | user sees                | file holds                                    |
 * | ------------------------ | --------------------------------------------- |
 * | `KEYROW.CUTS(A1)`        | `_xldudf_KEYROW_CUTS(A1)`, at times `[1]!_xldudf_…` |
 * | `FILTER(…)`              | `_xlfn._xlws.FILTER(…)`                       |
 * | `LET(x,1,x)`             | `_xlfn.LET(_xlpm.x,1,_xlpm.x)`                |
 * | `[@Cut]`, `Keys[@Cut]`   | `Keys[[#This Row],[Cut]]`                     |
 * | `A1#`                    | `_xlfn.ANCHORARRAY(A1)`                       |
 *
 * Sources: [MS-XLSX] for `_xlfn`, ECMA-376 part 1, 18.17 for the grammar; `_xldudf_` is not documented and was
 * taken from reports of files made by add-ins, the dot becoming an underscore.
 */
import { mapCode, scanFormula } from './formulaScan.ts';
import { filePrefix } from './futureFunctions.ts';

const ADDIN_CALL = /(?:\[\d+\]!)?_xldudf_([A-Za-z0-9]+)_([A-Za-z0-9_.]+)(?=\s*\()/g;

/**
 * A stored formula (without `=`) in the user's form (with `=`).
 *
 * @param table the table the cell stands in, whose name is then left out of `[@Column]`
 * @example fromFileFormula('_xldudf_KEYROW_CUTS(Keys[[#This Row],[Bitting]])', 'Keys') // "=KEYROW.CUTS([@Bitting])"
 */
export function fromFileFormula(stored: string, table?: string): string {
  let formula = stored;
  if (formula.includes('_xl')) {
    // `[1]!` would be scanned as a structured piece, so it goes before the text is cut up.
    formula = formula.replace(/\[\d+\]!(?=_xldudf_)/g, '');
    formula = mapCode(formula, (code) =>
      code
        .replace(ADDIN_CALL, (_, space: string, name: string) => `${space}.${name}`)
        .replace(/_xlfn\.ANCHORARRAY\((\$?[A-Za-z]{1,3}\$?\d+)\)/g, '$1#')
        .replace(/_xl(?:fn|ws|pm|udf)\./g, ''),
    );
  }
  if (/\[#this row\]/i.test(formula)) formula = shortenThisRow(formula, table);
  return `=${formula}`;
}

const THIS_ROW = /^\[\s*\[#this row\]\s*,\s*([\s\S]*)\]$/i;
const PLAIN_COLUMN = /^[\p{L}\p{N}_.]+$/u;

function shortenThisRow(formula: string, table: string | undefined): string {
  const pieces = scanFormula(formula).map((piece) => ({ ...piece }));
  pieces.forEach((piece, i) => {
    if (piece.kind !== 'structured') return;
    const body = /^\[#this row\]$/i.test(piece.text) ? '' : THIS_ROW.exec(piece.text)?.[1]?.trim();
    if (body === undefined) return;
    const single = /^\[((?:'.|[^[\]'])*)\]$/.exec(body)?.[1];
    piece.text = single !== undefined && PLAIN_COLUMN.test(single) ? `[@${single}]` : `[@${body}]`;
    const before = pieces[i - 1];
    if (table !== undefined && before?.kind === 'code')
      before.text = before.text.replace(/([\p{L}_\\][\p{L}\p{N}_.\\]*)$/u, (name) =>
        name.toLowerCase() === table.toLowerCase() ? '' : name,
      );
  });
  return pieces.map((piece) => piece.text).join('');
}

/**
 * Spells `[@Column]` and `Keys[@Column]` out as `Keys[[#This Row],[Column]]`.
 *
 * @param table the table the cell stands in; without one a bare `[@Column]` is left as it is
 */
export function spellThisRow(formula: string, table?: string): string {
  const pieces = scanFormula(formula);
  return pieces
    .map((piece, i) => {
      if (piece.kind !== 'structured') return piece.text;
      const before = pieces[i - 1];
      const named = before?.kind === 'code' && /[\p{L}\p{N}_.\\]$/u.test(before.text);
      const owner = named ? '' : (table ?? '');
      if (!named && table === undefined) return piece.text;
      const body = /^\[\s*@([\s\S]*)\]$/.exec(piece.text)?.[1]?.trim();
      if (body === undefined) return owner + piece.text;
      if (body === '') return `${owner}[#This Row]`;
      return `${owner}[[#This Row],${body.startsWith('[') ? body : `[${body}]`}]`;
    })
    .join('');
}

/**
 * The user's formula (with `=`) as a file stores it (without).
 *
 * @param table the table the cell stands in
 * @param namespaces the add-in's namespaces, upper case
 * @example toFileFormula('=KEYROW.CUTS([@Bitting])', 'Keys') // "_xldudf_KEYROW_CUTS(Keys[[#This Row],[Bitting]])"
 */
export function toFileFormula(
  formula: string,
  table?: string,
  namespaces: readonly string[] = ['KEYROW'],
): string {
  const bare = formula.startsWith('=') ? formula.slice(1) : formula;
  const parameters = localNames(bare);
  const spelled = bare.includes('[') ? spellThisRow(bare, table) : bare;
  return mapCode(spelled, (code) =>
    code
      .replace(/(?<![\p{L}\p{N}_.!])([A-Za-z][A-Za-z0-9_.]*)(?=\()/gu, (name) => fileName(name, namespaces))
      .replace(/(?<![\p{L}\p{N}_.])[\p{L}_\\][\p{L}\p{N}_.]*(?![\p{L}\p{N}_.(!])/gu, (name) =>
        parameters.has(name.toLowerCase()) ? `_xlpm.${name}` : name,
      )
      .replace(/(\$?[A-Za-z]{1,3}\$?\d+)#/g, '_xlfn.ANCHORARRAY($1)'),
  );
}

function fileName(name: string, namespaces: readonly string[]): string {
  const upper = name.toUpperCase();
  const dot = upper.indexOf('.');
  if (dot > 0 && namespaces.includes(upper.slice(0, dot))) return `_xldudf_${upper.replace('.', '_')}`;
  return filePrefix(upper) + name;
}

/** The names that LET and LAMBDA bind, lower case. */
function localNames(formula: string): Set<string> {
  const names = new Set<string>();
  for (const call of formula.matchAll(/(?<![\p{L}\p{N}_.])(LET|LAMBDA)\(/giu)) {
    const parts = splitArguments(formula, call.index + call[0].length);
    const isLet = call[1]?.toUpperCase() === 'LET';
    parts.slice(0, -1).forEach((part, i) => {
      const name = part.trim();
      if ((!isLet || i % 2 === 0) && /^[\p{L}_\\][\p{L}\p{N}_.]*$/u.test(name)) names.add(name.toLowerCase());
    });
  }
  return names;
}

function splitArguments(formula: string, from: number): string[] {
  const parts: string[] = [''];
  let depth = 0;
  for (const piece of scanFormula(formula.slice(from))) {
    if (piece.kind !== 'code') {
      parts.push((parts.pop() ?? '') + piece.text);
      continue;
    }
    for (const c of piece.text) {
      if (c === '(' || c === '{') depth++;
      if ((c === ')' || c === '}') && depth-- === 0) return parts;
      if (c === ',' && depth === 0) parts.push('');
      else parts.push((parts.pop() ?? '') + c);
    }
  }
  return parts;
}
