/** Collects what an audit finds: every finding is counted, a capped number of each code is listed. */
import type { SystemFinding } from './findings.ts';

export type FindingCode = SystemFinding['code'];

export interface AuditFindings {
  readonly add: (finding: SystemFinding) => void;
  /** Counts findings of one code and says how many of them are to be listed: for codes that come in thousands. */
  readonly count: (code: FindingCode, more: number) => number;
  /** Lists a finding that was counted. */
  readonly list: (finding: SystemFinding) => void;
  readonly report: () => {
    readonly counts: Readonly<Partial<Record<FindingCode, number>>>;
    readonly findings: readonly SystemFinding[];
    readonly complete: boolean;
  };
}

export function createFindings(cap: number): AuditFindings {
  const counts: Partial<Record<FindingCode, number>> = {};
  const findings: SystemFinding[] = [];
  let complete = true;
  const list = (finding: SystemFinding): void => {
    findings.push(finding);
  };
  const count = (code: FindingCode, more: number): number => {
    const before = counts[code] ?? 0;
    counts[code] = before + more;
    const room = Math.max(0, cap - before);
    if (room < more) complete = false;
    return Math.min(room, more);
  };
  return {
    add(finding) {
      if (count(finding.code, 1) > 0) list(finding);
    },
    count,
    list,
    report: () => ({ counts, findings, complete }),
  };
}
