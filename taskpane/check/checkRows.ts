/**
 * A column of codes against a spec: each cell parsed, each bitting checked by itself and against the rest of the
 * list. Cells that are empty are passed over; everything else comes back with what is wrong with it.
 */
import { parseBitting, type Bitting } from '../../src/keying/bitting.ts';
import { checkBittings } from '../../src/keying/bittingList.ts';
import { severityOf, type BittingFinding } from '../../src/keying/findings.ts';
import type { Rules } from '../../src/keying/rules.ts';
import type { Specification } from '../../src/keying/specification.ts';
import type { Steps } from '../../src/keying/system.ts';

export interface CodeCell {
  /** Name of the row for sentences about other rows: `row 14`. */
  readonly name: string;
  readonly value: string | number | boolean;
}

export interface CheckInput {
  readonly spec: Specification;
  readonly cells: readonly CodeCell[];
  readonly rules: Rules;
}

export interface CheckedCell {
  /** Index in the cells given. */
  readonly index: number;
  readonly text: string;
  readonly findings: readonly BittingFinding[];
}

export interface CheckReport {
  /** Cells that hold something. */
  readonly codes: number;
  readonly good: number;
  /** Cells with a warning but no fault. */
  readonly warned: number;
  readonly faulty: number;
  readonly empty: number;
  /** Number of cells for each kind of finding, most first. */
  readonly reasons: readonly { readonly code: BittingFinding['code']; readonly cells: number }[];
  /** Cells with a finding, in the order of the column. */
  readonly found: readonly CheckedCell[];
  /** Cuts at each position (code order) by depth index. */
  readonly bittings: readonly Bitting[];
}

/** Cells parsed between two looks at the clock. */
const BATCH = 2_000;

/** Checks the column. The progress counts cells. */
export function* checkRows({ spec, cells, rules }: CheckInput): Steps<CheckReport> {
  const total = cells.length;
  const findings = new Map<number, readonly BittingFinding[]>();
  const read: { index: number; symbol: string; bitting: Bitting }[] = [];
  let empty = 0;
  for (const [index, { name, value }] of cells.entries()) {
    if (index % BATCH === 0) yield { stage: 'Reading codes', done: index, total };
    if (typeof value === 'string' && value.trim() === '') {
      empty++;
      continue;
    }
    const parsed = typeof value === 'boolean' ? undefined : parseBitting(spec, value);
    if (parsed?.ok) read.push({ index, symbol: name, bitting: parsed.value });
    else findings.set(index, parsed?.error ?? [{ code: 'not-a-code', text: String(value) }]);
  }
  yield { stage: 'Comparing codes', done: total - empty, total };
  checkBittings(spec, read, rules).forEach((found, i) => {
    if (found.length > 0) findings.set(read[i]!.index, found);
  });
  const found = [...findings]
    .sort(([a], [b]) => a - b)
    .map(([index, list]) => ({ index, text: String(cells[index]!.value), findings: list }));
  const faulty = found.filter((cell) => cell.findings.some((f) => severityOf(f) === 'fault')).length;
  const codes = total - empty;
  return {
    codes,
    good: codes - found.length,
    warned: found.length - faulty,
    faulty,
    empty,
    reasons: countReasons(found),
    found,
    bittings: read.map((r) => r.bitting),
  };
}

function countReasons(found: readonly CheckedCell[]): CheckReport['reasons'] {
  const cells = new Map<BittingFinding['code'], number>();
  for (const { findings } of found)
    for (const code of new Set(findings.map((f) => f.code))) cells.set(code, (cells.get(code) ?? 0) + 1);
  return [...cells].map(([code, n]) => ({ code, cells: n })).sort((a, b) => b.cells - a.cells);
}

/**
 * The column that most likely holds the codes: the one with the largest share of cells that parse; the first of
 * equals. Undefined where no cell of any column parses.
 */
export function guessCodeColumn(
  spec: Specification,
  values: readonly (readonly (string | number | boolean)[])[],
): number | undefined {
  const width = values[0]?.length ?? 0;
  const sample = values.slice(0, 200);
  let best: { column: number; share: number } | undefined;
  for (let column = 0; column < width; column++) {
    const filled = sample.map((row) => row[column] ?? '').filter((v) => v !== '');
    const good = filled.filter((v) => typeof v !== 'boolean' && parseBitting(spec, v).ok).length;
    const share = filled.length === 0 ? 0 : good / filled.length;
    if (share > (best?.share ?? 0)) best = { column, share };
  }
  return best?.column;
}
