/**
 * Collects what an audit finds: every finding is counted, a capped number of each code is listed. Interchanges may
 * come in hundreds of thousands, so they are listed as two numbers each and become findings when somebody reads: one
 * at a time where they needn't be kept, since room for them all takes longer to get than they take to find.
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
  /** Every finding is listed: no cap was reached. */
  readonly complete: boolean;
  /** Gives every listed finding in turn, in the order in which they were found. */
  readonly each: (visit: (finding: SystemFinding) => void) => void;
}

/** Room to begin with: most audits find few. */
const FEW = 64;

interface Names {
  readonly keys: readonly { readonly symbol: string }[];
  readonly cylinders: readonly { readonly id: string }[];
}

export function createFindings(cap: number, { keys, cylinders }: Names): AuditFindings {
  const counts: Partial<Record<FindingCode, number>> = {};
  /** Key and cylinder in turn; grown by doubling. */
  let pairs = new Int32Array(FEW);
  let filled = 0;
  const others: SystemFinding[] = [];
  /** For each of the others how much of `pairs` was filled when it was found. */
  const after: number[] = [];
  let complete = true;
  const count = (code: FindingCode, more: number): number => {
    const before = counts[code] ?? 0;
    counts[code] = before + more;
    const room = Math.max(0, cap - before);
    if (room < more) complete = false;
    return Math.min(room, more);
  };
  const each = (visit: (finding: SystemFinding) => void): void => {
    let next = 0;
    const visitOthers = (until: number): void => {
      while (next < others.length && after[next]! <= until) visit(others[next++]!);
    };
    for (let at = 0; at < filled; at += 2) {
      visitOthers(at);
      const key = keys[pairs[at]!]!.symbol;
      visit({ code: 'interchange', key, cylinder: cylinders[pairs[at + 1]!]!.id });
    }
    visitOthers(filled);
  };
  return {
    add(finding) {
      if (count(finding.code, 1) === 0) return;
      others.push(finding);
      after.push(filled);
    },
    countInterchanges: (more) => count('interchange', more),
    listInterchange(key, cylinder) {
      if (filled === pairs.length) {
        const more = new Int32Array(2 * filled);
        more.set(pairs);
        pairs = more;
      }
      pairs[filled++] = key;
      pairs[filled++] = cylinder;
    },
    report: () => ({ counts, complete, each }),
  };
}
