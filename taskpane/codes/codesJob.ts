/** A list of codes from elsewhere: read row by row, then checked as a list and against a system of the workbook. */
import type { BittingFinding } from '../../src/keying/findings.ts';
import { severityOf } from '../../src/keying/findings.ts';
import { barsCutting } from '../../src/keying/cutting.ts';
import { checkList, type KnownKeys } from '../../src/keying/importCheck.ts';
import { readImport, rowName, type ImportInput, type ImportRow } from '../../src/keying/importRows.ts';
import type { NamedBitting, Rules, RuleName } from '../../src/keying/rules.ts';
import type { Steps } from '../../src/keying/system.ts';

export interface CodesInput {
  readonly list: ImportInput;
  readonly rules: Rules;
  readonly known?: KnownKeys;
  /** Number of the first row of the list, as the person counts it. */
  readonly firstRow: number;
}

/** What a row can be listed for: a finding, or how its cells were read. */
export type Reason =
  | BittingFinding['code']
  | 'blind-code'
  | 'was-date'
  | 'empty'
  | 'quantity'
  | 'look-alike'
  | 'zero-restored'
  | 'full-width'
  | 'stray-space';

export interface CodesReport {
  readonly rows: readonly ImportRow[];
  /** Beside `rows`; undefined where nothing was found. */
  readonly findings: readonly (readonly BittingFinding[] | undefined)[];
  /** Rows that can be cut and have nothing to look at; that can, but have; that can't. */
  readonly plain: number;
  readonly doubtful: number;
  readonly barred: number;
  /** Rows for each reason, most first. */
  readonly reasons: readonly { readonly reason: Reason; readonly rows: number }[];
  readonly notChecked: readonly RuleName[];
}

export function* readCodes({ list, rules, known, firstRow }: CodesInput): Steps<CodesReport> {
  const rows = yield* readImport(list);
  const places: number[] = [];
  const named: NamedBitting[] = [];
  rows.forEach((row, place) => {
    const { bitting } = row.code;
    if (!bitting) return;
    places.push(place);
    named.push({ symbol: rowName(row, firstRow), bitting });
  });
  const report = yield* checkList({ spec: list.spec, list: named, rules, ...(known && { known }) });
  const findings = new Array<readonly BittingFinding[] | undefined>(rows.length).fill(undefined);
  report.findings.forEach((found, i) => (findings[places[i]!] = found));
  const counts = new Map<Reason, number>();
  let [plain, barred] = [0, 0];
  // one list for all rows, of which there may be 100,000
  const reasons: Reason[] = [];
  rows.forEach((row, place) => {
    reasons.length = 0;
    addReasons(reasons, row, findings[place]);
    for (const reason of reasons) counts.set(reason, (counts.get(reason) ?? 0) + 1);
    if (isBarred(row, findings[place])) barred++;
    else if (reasons.length === 0) plain++;
  });
  return {
    rows,
    findings,
    plain,
    barred,
    doubtful: rows.length - plain - barred,
    reasons: [...counts].map(([reason, n]) => ({ reason, rows: n })).sort((a, b) => b.rows - a.rows),
    notChecked: report.notChecked,
  };
}

/** A row that gets no cuts on the cutting sheet. */
export const isBarred = (row: ImportRow, findings: readonly BittingFinding[] = []): boolean =>
  row.code.bitting === undefined || barsCutting(findings);

/** Every reason of a row, each once. */
export function reasonsOf(row: ImportRow, findings: readonly BittingFinding[] = []): Reason[] {
  const reasons: Reason[] = [];
  addReasons(reasons, row, findings);
  return reasons;
}

function addReasons(
  reasons: Reason[],
  { code: { kind, notes, faults }, quantity }: ImportRow,
  findings: readonly BittingFinding[] = [],
): void {
  if (kind === 'empty') addOnce(reasons, 'empty');
  let date = false;
  for (const note of notes) {
    date ||= note.code === 'was-date';
    addOnce(reasons, note.code);
  }
  if (!date) for (const fault of faults) addOnce(reasons, fault.code);
  for (const finding of findings) addOnce(reasons, finding.code);
  if (quantity === undefined) addOnce(reasons, 'quantity');
}

function addOnce(reasons: Reason[], reason: Reason): void {
  if (!reasons.includes(reason)) reasons.push(reason);
}

/** How much a row matters: it can't be cut, it has a fault, or it is only to be looked at. */
export function severityOfRow(
  row: ImportRow,
  findings: readonly BittingFinding[] = [],
): 'fault' | 'warning' | 'note' {
  if (isBarred(row, findings) || findings.some((f) => severityOf(f) === 'fault')) return 'fault';
  return findings.length > 0 || row.quantity === undefined ? 'warning' : 'note';
}
