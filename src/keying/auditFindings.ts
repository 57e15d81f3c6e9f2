/** Collects what an audit finds: every finding is counted, a capped number of each code is listed. */
import type { SystemFinding } from './findings.ts';

export type FindingCode = SystemFinding['code'];

export interface AuditFindings {
  readonly add: (finding: SystemFinding) => void;
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
  return {
    add(finding) {
      const count = (counts[finding.code] ?? 0) + 1;
      counts[finding.code] = count;
      if (count <= cap) findings.push(finding);
      else complete = false;
    },
    report: () => ({ counts, findings, complete }),
  };
}
