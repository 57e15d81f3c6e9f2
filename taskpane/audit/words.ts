/** What an audit found, in counts and one verdict. */
import type { AuditReport } from '../../src/keying/audit.ts';
import { severityOf, type Finding, type SystemFinding } from '../../src/keying/findings.ts';
import { counted, grouped } from '../pictures/numbers.ts';

const NOUNS: Record<SystemFinding['code'], readonly [one: string, many: string]> = {
  interchange: ['key interchange', 'key interchanges'],
  'lock-out': ['lock-out', 'lock-outs'],
  'near-interchange': ['near miss', 'near misses'],
  'thin-master-pin': ['master pin too thin', 'master pins too thin'],
  'thin-build-up': ['build-up pin too thin', 'build-up pins too thin'],
  'stack-too-tall': ['pin stack too tall', 'pin stacks too tall'],
  'control-operates': ['key that works a control line', 'keys that work a control line'],
  'control-is-incidental': ['control key that operates its core', 'control keys that operate their core'],
  'control-locked-out': [
    'control key that does not pull its core',
    'control keys that do not pull their core',
  ],
  'wrong-keyway': ['key on a blank that does not enter', 'keys on a blank that does not enter'],
  'too-few-cuts': ['key with too few cuts', 'keys with too few cuts'],
  'control-missing': [
    'control key at a cylinder without control cuts',
    'control keys at cylinders without control cuts',
  ],
  'core-without-control': ['core without control cuts', 'cores without control cuts'],
  'key-missing': ['cylinder without its key', 'cylinders without their key'],
  'unusable-bitting': ['bitting that breaks a rule', 'bittings that break a rule'],
  'same-bitting': ['bitting given twice', 'bittings given twice'],
  'bitting-reissued': ['lost bitting issued again', 'lost bittings issued again'],
  'parent-missing': ['key without the key above it', 'keys without the key above them'],
};

/** One and many of a kind of finding; a code kept in a workbook may be none of ours. */
export const codeWords = (code: string): readonly [string, string] | undefined =>
  Object.hasOwn(NOUNS, code) ? NOUNS[code as SystemFinding['code']] : undefined;

export interface AuditCount {
  readonly code: SystemFinding['code'];
  readonly severity: 'fault' | 'warning';
  readonly words: string;
  readonly count: number;
}

/** Faults first, then warnings; most first. @example → [{ words: '3 key interchanges', … }] */
export function auditCounts({ counts }: Pick<AuditReport, 'counts'>): AuditCount[] {
  return (Object.keys(NOUNS) as SystemFinding['code'][])
    .flatMap((code) => {
      const count = counts[code] ?? 0;
      const [one, many] = NOUNS[code];
      // severity depends on the code alone
      const severity =
        severityOf({ code } as Finding) === 'fault' ? ('fault' as const) : ('warning' as const);
      return count === 0 ? [] : [{ code, severity, count, words: counted(count, one, many) }];
    })
    .sort((a, b) => Number(a.severity === 'warning') - Number(b.severity === 'warning') || b.count - a.count);
}

/**
 * What a stopped audit has to say first; undefined of a whole one.
 * @example partSentence({ cylinders: 312, unaudited: 688 })
 *   → 'Stopped after 312 of 1,000 cylinders; nothing is said of the rest.'
 */
export function partSentence({
  cylinders,
  unaudited,
}: Pick<AuditReport, 'cylinders' | 'unaudited'>): string | undefined {
  return unaudited === undefined
    ? undefined
    : `Stopped after ${grouped(cylinders)} of ${counted(cylinders + unaudited, 'cylinder')}; nothing is said of the rest.`;
}

/** @example auditSentence(report) → '148 keys against 60 cylinders, 8,880 pairs: no fault, 2 warnings.' */
export function auditSentence(report: Pick<AuditReport, 'keys' | 'cylinders' | 'pairs' | 'counts'>): string {
  const all = auditCounts(report);
  const sum = (severity: AuditCount['severity']): number =>
    all.filter((c) => c.severity === severity).reduce((total, c) => total + c.count, 0);
  const [faults, warnings] = [sum('fault'), sum('warning')];
  return [
    `${counted(report.keys, 'key')} against ${counted(report.cylinders, 'cylinder')}, ${counted(report.pairs, 'pair')}: `,
    faults > 0 ? counted(faults, 'fault') : 'no fault',
    warnings > 0 ? `, ${counted(warnings, 'warning')}.` : '.',
  ].join('');
}
