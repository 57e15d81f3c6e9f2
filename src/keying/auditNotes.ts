/**
 * What is remembered of an audit, so that the next one can say what changed: which findings there were, which keys and
 * cylinders, and what each cylinder was keyed to. No bitting and nothing made from one is among them, not even a
 * digest: the bittings of a system are few enough to be tried one by one against any digest. A name that holds a
 * bitting is left out too. Which bittings and pins changed is told from two readings in memory alone.
 */
import type { AuditReport } from './audit.ts';
import type { FindingCode } from './auditFindings.ts';
import type { SystemFinding } from './findings.ts';
import { givesAway, type Secrets } from './secrecy.ts';
import { foldSymbol, type KeySystem } from './system.ts';

/** What a finding is about: its code, key, cylinder, and the chamber, other key or rules. */
export type FindingNote = readonly [code: string, key: string, cylinder: string, about: string];

/** A name beside what is said of it: a key's statuses, a cylinder's keyset. */
export type NameNote = readonly [name: string, of: string];

export interface AuditNotes {
  /** Rows audited. */
  readonly keys: number;
  readonly cylinders: number;
  readonly counts: Readonly<Record<string, number>>;
  /** Left out where there are too many, or where the audit's own list was cut short. */
  readonly findings?: readonly FindingNote[];
  /** Left out where there are too many. */
  readonly names?: { readonly keys: readonly NameNote[]; readonly cylinders: readonly NameNote[] };
  /** Names that hold a bitting, so that nothing is remembered of them. */
  readonly withheld: number;
}

/** A workbook's settings are no place for long lists. */
const MOST_NAMES = 3000;
const MOST_FINDINGS = 500;

type Audited = Pick<KeySystem, 'keys' | 'cylinders'>;

/** @example noteAudit(system, report, secrets).names?.cylinders[0] → ['101', 'AA1'] */
export function noteAudit(system: Audited, report: AuditReport, secrets: Secrets): AuditNotes {
  const may = (names: readonly string[]): boolean => !names.some((name) => givesAway(secrets, name));
  const keys = keyNotes(system);
  const cylinders = system.cylinders.map(({ id, symbol }): NameNote => [id, symbol]);
  const kept = { keys: keys.filter(may), cylinders: cylinders.filter(may) };
  const findings = report.findings.map(noteFinding);
  return {
    keys: report.keys,
    cylinders: report.cylinders,
    counts: { ...report.counts },
    ...(kept.keys.length + kept.cylinders.length <= MOST_NAMES && { names: kept }),
    ...(report.complete && findings.length <= MOST_FINDINGS && { findings: findings.filter(may) }),
    withheld: keys.length + cylinders.length - kept.keys.length - kept.cylinders.length,
  };
}

/** Keys by symbol with the statuses of their rows; free bittings are no keys yet. */
function keyNotes({ keys }: Audited): NameNote[] {
  const statuses = new Map<string, { readonly symbol: string; readonly of: string[] }>();
  for (const { symbol, status } of keys) {
    if (status === 'free') continue;
    const known = statuses.get(foldSymbol(symbol));
    if (known) known.of.push(status);
    else statuses.set(foldSymbol(symbol), { symbol, of: [status] });
  }
  return [...statuses.values()].map(({ symbol, of }) => [symbol, of.sort().join(', ')]);
}

/**
 * A finding without its cuts. @example noteFinding({ code: 'lock-out', key: 'AA3', cylinder: '12', chamber: 2, … })
 *   → ['lock-out', 'AA3', '12', '2']
 */
export function noteFinding(finding: SystemFinding): FindingNote {
  const key = 'key' in finding ? finding.key : 'symbol' in finding ? finding.symbol : '';
  return [finding.code, key, 'cylinder' in finding ? finding.cylinder : '', aboutOf(finding)];
}

function aboutOf(finding: SystemFinding): string {
  if ('chamber' in finding) return String(finding.chamber);
  if ('other' in finding) return finding.other;
  if ('parent' in finding) return finding.parent;
  return 'reasons' in finding ? finding.reasons.map((reason) => reason.code).join(' ') : '';
}

export interface NamesChange {
  readonly added: readonly string[];
  readonly gone: readonly string[];
  readonly changed: readonly { readonly name: string; readonly from: string; readonly to: string }[];
}

export interface AuditChange {
  /** Undefined where one of the two lists is not whole. */
  readonly findings?: {
    /** Places in the report's list. */
    readonly fresh: readonly number[];
    readonly gone: readonly FindingNote[];
    readonly same: number;
  };
  /** Kinds of findings whose number changed. */
  readonly counts: readonly {
    readonly code: FindingCode;
    readonly before: number;
    readonly now: number;
  }[];
  /** A key's change is of its statuses. */
  readonly keys?: NamesChange;
  /** A cylinder's change is of what it is keyed to. */
  readonly cylinders?: NamesChange;
}

/** What is other now than in the audit before. */
export function compareAudits(
  before: AuditNotes,
  now: AuditNotes,
  { findings }: Pick<AuditReport, 'findings'>,
): AuditChange {
  const codes = [...new Set([...Object.keys(before.counts), ...Object.keys(now.counts)])] as FindingCode[];
  return {
    ...(before.findings &&
      now.findings && { findings: compareFindings(before.findings, now.findings, findings) }),
    counts: codes
      .map((code) => ({ code, before: countOf(before, code), now: countOf(now, code) }))
      .filter((count) => count.before !== count.now),
    ...(before.names &&
      now.names && {
        keys: compareNames(before.names.keys, now.names.keys),
        cylinders: compareNames(before.names.cylinders, now.names.cylinders),
      }),
  };
}

/** Notes come from a workbook: a code may be a name that every object has. */
const countOf = ({ counts }: AuditNotes, code: string): number =>
  Object.hasOwn(counts, code) ? (counts[code] ?? 0) : 0;

const idOf = (note: readonly string[]): string => JSON.stringify(note.map(foldSymbol));

function compareFindings(
  before: readonly FindingNote[],
  now: readonly FindingNote[],
  findings: readonly SystemFinding[],
): NonNullable<AuditChange['findings']> {
  const left = new Map<string, FindingNote[]>();
  for (const note of before) left.set(idOf(note), [...(left.get(idOf(note)) ?? []), note]);
  // those about a withheld name were remembered of neither audit
  const remembered = new Set(now.map(idOf));
  const fresh: number[] = [];
  let same = 0;
  findings.forEach((finding, i) => {
    const id = idOf(noteFinding(finding));
    if (!remembered.has(id)) return;
    if (left.get(id)?.pop()) same++;
    else fresh.push(i);
  });
  return { fresh, gone: [...left.values()].flat(), same };
}

function compareNames(before: readonly NameNote[], now: readonly NameNote[]): NamesChange {
  const was = new Map(before.map(([name, of]) => [foldSymbol(name), { name, of }]));
  const is = new Set(now.map(([name]) => foldSymbol(name)));
  return {
    added: now.filter(([name]) => !was.has(foldSymbol(name))).map(([name]) => name),
    gone: before.filter(([name]) => !is.has(foldSymbol(name))).map(([name]) => name),
    changed: now.flatMap(([name, to]) => {
      const from = was.get(foldSymbol(name))?.of;
      return from === undefined || foldSymbol(from) === foldSymbol(to) ? [] : [{ name, from, to }];
    }),
  };
}

/** Keys of another bitting and cylinders of other pins than before, by name; only for two readings in memory. */
export function compareMetal(
  before: Audited,
  now: Audited,
): { readonly recut: readonly string[]; readonly repinned: readonly string[] } {
  const cuts = ({ keys }: Audited): Map<string, string> => {
    const of = new Map<string, string[]>();
    for (const { symbol, bitting, status } of keys)
      if (status !== 'free')
        of.set(foldSymbol(symbol), [...(of.get(foldSymbol(symbol)) ?? []), bitting.join()]);
    return new Map([...of].map(([symbol, bittings]) => [symbol, bittings.sort().join(';')]));
  };
  const pins = ({ cylinders }: Audited): Map<string, string> =>
    new Map(cylinders.map((c) => [foldSymbol(c.id), `${c.chambers.join()} ${c.control?.join() ?? ''}`]));
  const other = (was: Map<string, string>, is: Map<string, string>, name: string): boolean =>
    was.has(foldSymbol(name)) && was.get(foldSymbol(name)) !== is.get(foldSymbol(name));
  const [oldCuts, newCuts, oldPins, newPins] = [cuts(before), cuts(now), pins(before), pins(now)];
  const symbols = now.keys.filter(({ status }) => status !== 'free').map(({ symbol }) => symbol);
  return {
    recut: [...new Set(symbols)].filter((symbol) => other(oldCuts, newCuts, symbol)),
    repinned: now.cylinders.map(({ id }) => id).filter((id) => other(oldPins, newPins, id)),
  };
}
