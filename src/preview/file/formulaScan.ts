/**
 * Cuts a formula into stretches that may be rewritten and stretches that may not: text in double quotes and
 * quoted sheet names are left alone by every rewriting in this folder.
 */

export interface FormulaPiece {
  readonly kind: 'code' | 'text' | 'sheet' | 'structured';
  readonly text: string;
}

/**
 * Splits a formula. A bracketed stretch (`[[#This Row],[Cut 1]]`, with `'` as escape) is one `structured` piece.
 *
 * @example scanFormula('A1&"x"') // [{ kind: 'code', text: 'A1&' }, { kind: 'text', text: '"x"' }]
 */
export function scanFormula(formula: string): FormulaPiece[] {
  const pieces: FormulaPiece[] = [];
  let from = 0;
  const flush = (to: number): void => {
    if (to > from) pieces.push({ kind: 'code', text: formula.slice(from, to) });
  };
  let at = 0;
  while (at < formula.length) {
    const c = formula[at];
    if (c !== '"' && c !== "'" && c !== '[') {
      at++;
      continue;
    }
    const end = c === '[' ? bracketEnd(formula, at) : quoteEnd(formula, at, c);
    flush(at);
    pieces.push({
      kind: c === '"' ? 'text' : c === "'" ? 'sheet' : 'structured',
      text: formula.slice(at, end),
    });
    from = at = end;
  }
  flush(at);
  return pieces;
}

function quoteEnd(formula: string, start: number, quote: string): number {
  let at = start + 1;
  while (at < formula.length) {
    if (formula[at] === quote) {
      if (formula[at + 1] !== quote) return at + 1;
      at++;
    }
    at++;
  }
  return formula.length;
}

function bracketEnd(formula: string, start: number): number {
  let depth = 0;
  for (let at = start; at < formula.length; at++) {
    const c = formula[at];
    if (c === "'") at++;
    else if (c === '[') depth++;
    else if (c === ']' && --depth === 0) return at + 1;
  }
  return formula.length;
}

/** Rewrites only the code pieces of a formula. */
export function mapCode(formula: string, rewrite: (code: string) => string): string {
  return scanFormula(formula)
    .map((piece) => (piece.kind === 'code' ? rewrite(piece.text) : piece.text))
    .join('');
}
