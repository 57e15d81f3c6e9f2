/**
 * Which column of a list is what: by its heading first, by its content where headings say nothing. A guess is shown
 * before it is used, with how sure it is; a column that is nothing we need stays in view as a note.
 */
import { shownText, readCode, type ImportCell } from './importCode.ts';
import type { Sureness } from './importSpec.ts';
import { MOST_POSITIONS, positions, type Order, type Specification } from './specification.ts';

export const COLUMN_ROLES = ['code', 'mark', 'quantity', 'blank', 'reference', 'note', 'none'] as const;
/** `code` on several columns in a row: a cut in each. `reference`: blind codes, order numbers and the like. */
export type ColumnRole = (typeof COLUMN_ROLES)[number];

export interface ColumnsGuess {
  /** 1 where the first row holds headings. */
  readonly headerRows: 0 | 1;
  readonly roles: readonly ColumnRole[];
  readonly sure: Sureness;
  /** Direction that the heading of the codes states, as in "Code (tip to bow)". */
  readonly order?: Order;
}

type Rows = readonly (readonly ImportCell[])[];

const WORDS: readonly (readonly [ColumnRole, RegExp])[] = [
  ['reference', /\b(blind|indirect|series|order no|ref(erence)?)\b/i],
  ['code', /\b(bittings?|cuts|direct code|key code|codes?|combination|depths)\b/i],
  ['quantity', /\b(qty|quantity|pcs|pieces|copies|count|number of keys|how many)\b/i],
  ['blank', /\b(blank|keyway|section|profile)\b/i],
  ['mark', /\b(mark|marking|symbol|key ?set|stamp|key|id|name)\b/i],
  ['note', /\b(note|remark|comment|door|room|location|hardware)\b/i],
];

const SAMPLE = 200;

/**
 * @example guessColumns([['Mark', 'Code', 'Qty'], ['AA1', '274153', '2']], specs)
 *   → { headerRows: 1, roles: ['mark', 'code', 'quantity'], sure: 'sure' }
 */
export function guessColumns(rows: Rows, specs: readonly Specification[]): ColumnsGuess {
  const width = rows.reduce((most, row) => Math.max(most, row.length), 0);
  const headed = isHeaded(rows, specs);
  const header = headed ? (rows[0] ?? []).map(shownText) : [];
  const body = rows.slice(headed ? 1 : 0, SAMPLE + 1);
  const columns = Array.from({ length: width }, (_, c) => body.map((row) => row[c] ?? ''));
  const facts = columns.map((cells, c) => factsOf(cells, header[c] ?? '', specs));
  const roles: ColumnRole[] = facts.map(roleOf);
  const codes = codeColumns(facts, columns, specs);
  roles.forEach((role, c) => {
    if (codes.columns.includes(c)) roles[c] = 'code';
    else if (role === 'code') roles[c] = 'note';
  });
  keepOne(roles, 'mark', facts, (f) => f.unique);
  keepOne(roles, 'quantity', facts, (f) => f.counts);
  keepOne(roles, 'blank', facts, (f) => -f.unique);
  keepOne(roles, 'reference', facts, (f) => f.unique);
  const order = orderIn(codes.columns.map((c) => header[c] ?? '').join(' '));
  return { headerRows: headed ? 1 : 0, roles, sure: codes.sure, ...(order && { order }) };
}

/** @example orderIn('Bitting, tip to bow') → 'tip-to-bow' */
function orderIn(heading: string): Order | undefined {
  if (/tip\s*(to|-|>|→)+\s*bow/i.test(heading)) return 'tip-to-bow';
  return /bow\s*(to|-|>|→)+\s*tip/i.test(heading) ? 'bow-to-tip' : undefined;
}

/** The first row is headings where each cell of it has words in it and none is a code. */
function isHeaded(rows: Rows, specs: readonly Specification[]): boolean {
  const [first = [], second] = rows;
  if (!second) return false;
  const filled = first.map(shownText).filter((text) => text.trim() !== '');
  if (filled.length === 0 || filled.some((text) => isCode(text, specs))) return false;
  const known = filled.filter((text) => WORDS.some(([, words]) => words.test(text))).length;
  const wordy = filled.every((text) => /\p{L}{2}/u.test(text) && !/\d{3}/.test(text));
  return known > 0 ? wordy : wordy && second.some((cell) => isCode(cell, specs));
}

const isCode = (cell: ImportCell, specs: readonly Specification[]): boolean =>
  specs.some((spec) => readCode(spec, cell).kind === 'bitting');

interface ColumnFacts {
  readonly filled: number;
  readonly heading: ColumnRole | undefined;
  /** Shares of the filled cells. */
  readonly codes: number;
  readonly counts: number;
  readonly symbols: number;
  readonly references: number;
  readonly unique: number;
}

function factsOf(
  cells: readonly ImportCell[],
  heading: string,
  specs: readonly Specification[],
): ColumnFacts {
  const filled = cells.filter((cell) => shownText(cell).trim() !== '');
  const texts = filled.map((cell) => shownText(cell).trim());
  const share = (n: number): number => (filled.length === 0 ? 0 : n / filled.length);
  const matching = (pattern: RegExp): number => share(texts.filter((text) => pattern.test(text)).length);
  const codes = specs.map((spec) => filled.filter((cell) => readCode(spec, cell).kind === 'bitting').length);
  return {
    filled: filled.length,
    heading: WORDS.find(([, words]) => words.test(heading))?.[0],
    codes: share(Math.max(0, ...codes)),
    counts: matching(/^\d{1,3}$/),
    symbols: matching(/^[0-9A-Za-z]{1,2}$/),
    references: matching(/^(?=.*\p{L})(?=.*\d)[\p{L}\d .-]{2,12}$/u),
    unique: share(new Set(texts).size),
  };
}

function roleOf(facts: ColumnFacts): ColumnRole {
  if (facts.filled === 0) return 'none';
  if (facts.heading) return facts.heading;
  if (facts.codes >= 0.5) return 'code';
  if (facts.counts >= 0.8) return 'quantity';
  if (facts.references >= 0.6) return facts.unique >= 0.7 ? 'mark' : 'blank';
  return 'note';
}

/** The column of the codes, or the columns that hold a cut each. */
function codeColumns(
  facts: readonly ColumnFacts[],
  columns: readonly (readonly ImportCell[])[],
  specs: readonly Specification[],
): { readonly columns: readonly number[]; readonly sure: Sureness } {
  let best = -1;
  facts.forEach((f, c) => {
    if (f.codes < 0.2 && !(f.heading === 'code' && f.filled > 0 && f.symbols < 0.5)) return;
    if (best < 0 || rank(f) > rank(facts[best]!)) best = c;
  });
  if (best >= 0) {
    const { heading, codes } = facts[best]!;
    const others = facts.filter((f, c) => c !== best && f.codes >= 0.8).length;
    const sure = others > 0 && heading !== 'code' ? 'doubtful' : codes >= 0.8 ? 'sure' : 'likely';
    return { columns: [best], sure: codes < 0.5 ? 'doubtful' : sure };
  }
  const run = cutColumns(facts, columns, specs);
  return run.length > 0 ? { columns: run, sure: 'likely' } : { columns: [], sure: 'doubtful' };
}

const rank = (f: ColumnFacts): number =>
  f.codes + (f.heading === 'code' ? 1 : f.heading === undefined ? 0 : -0.5);

/** A run of columns with one symbol each that together are codes of a spec; the longest first. */
function cutColumns(
  facts: readonly ColumnFacts[],
  columns: readonly (readonly ImportCell[])[],
  specs: readonly Specification[],
): number[] {
  const lengths = [...new Set(specs.map(positions))].sort((a, b) => b - a);
  for (const length of lengths)
    for (let start = 0; start + length <= Math.min(columns.length, MOST_POSITIONS * 4); start++) {
      const run = Array.from({ length }, (_, i) => start + i);
      if (!run.every((c) => facts[c]!.symbols >= 0.9)) continue;
      const rows = columns[start]!.map((_, r) => joinCuts(run.map((c) => columns[c]![r]!)));
      const filled = rows.filter((code) => code !== '');
      const best = Math.max(
        ...specs
          .filter((spec) => positions(spec) === length)
          .map((spec) => filled.filter((code) => readCode(spec, code).kind === 'bitting').length),
      );
      if (filled.length > 0 && best >= filled.length / 2) return run;
    }
  return [];
}

/** The cuts of one key from cells side by side. @example joinCuts([2, '7', 4]) → '2-7-4' */
export function joinCuts(cells: readonly ImportCell[]): string {
  const texts = cells.map((cell) => shownText(cell).trim());
  return texts.every((text) => text === '') ? '' : texts.join('-');
}

/** Leaves a role to the one column that has most of what makes it; a heading goes before content. */
function keepOne(
  roles: ColumnRole[],
  role: ColumnRole,
  facts: readonly ColumnFacts[],
  measure: (facts: ColumnFacts) => number,
): void {
  const having = roles.flatMap((r, c) => (r === role ? [c] : []));
  const weight = (c: number): number => (facts[c]!.heading === role ? 10 : 0) + measure(facts[c]!);
  for (const c of having.sort((a, b) => weight(b) - weight(a)).slice(1)) roles[c] = 'note';
}
