/**
 * Collects what an audit finds: every finding is counted, a capped number of each code is listed. Interchanges may
 * come in hundreds of thousands, so they are listed as two numbers each; they become findings when somebody reads.
 */
import type { SystemFinding } from './findings.ts';

export type FindingCode = SystemFinding['code'];

export interface AuditFindings {
  readonly add: (finding: SystemFinding) => void;
  /** Counts interchanges and says how many of them are to be listed. */
  readonly countInterchanges: (more: number) => number;
  /** Lists one that was counted: a key and a cylinder by their numbers in the input. */
  readonly listInterchange: (key: number, cylinder: number) => void;
  readonly report: () => FindingsReport;
}

export interface FindingsReport {
  readonly counts: Readonly<Partial<Record<FindingCode, number>>>;
  /** How many are listed. */
  readonly listed: number;
  /** Every finding is listed: no cap was reached. */
  readonly complete: boolean;
  /** The list, in the order in which they were found. */
  readonly read: () => readonly SystemFinding[];
}

interface Names {
  readonly keys: readonly { readonly symbol: string }[];
  readonly cylinders: readonly { readonly id: string }[];
}

export function createFindings(cap: number, { keys, cylinders }: Names): AuditFindings {
  const counts: Partial<Record<FindingCode, number>> = {};
  /** Key and cylinder in turn. */
  const interchanges: number[] = [];
  const others: SystemFinding[] = [];
  /** For each of the others how long `interchanges` was when it was found. */
  const after: number[] = [];
  let complete = true;
  const count = (code: FindingCode, more: number): number => {
    const before = counts[code] ?? 0;
    counts[code] = before + more;
    const room = Math.max(0, cap - before);
    if (room < more) complete = false;
    return Math.min(room, more);
  };
  const read = (): SystemFinding[] => {
    const findings: SystemFinding[] = [];
    let next = 0;
    for (let at = 0; at <= interchanges.length; at += 2) {
      while (next < others.length && after[next]! <= at) findings.push(others[next++]!);
      if (at === interchanges.length) break;
      const [key, cylinder] = [keys[interchanges[at]!]!, cylinders[interchanges[at + 1]!]!];
      findings.push({ code: 'interchange', key: key.symbol, cylinder: cylinder.id });
    }
    return findings;
  };
  return {
    add(finding) {
      if (count(finding.code, 1) === 0) return;
      others.push(finding);
      after.push(interchanges.length);
    },
    countInterchanges: (more) => count('interchange', more),
    listInterchange(key, cylinder) {
      interchanges.push(key, cylinder);
    },
    report: () => ({ counts, listed: interchanges.length / 2 + others.length, complete, read }),
  };
}
