/**
 * The audit of a system: every key against every cylinder. It finds each interchange (a key operates a cylinder that
 * it should not), each lock-out (it doesn't operate one that it should), near misses, pins that are too thin, both
 * shear lines of interchangeable cores, and bittings that are there twice. What should operate what comes as data
 * (`intended`), so a grid marked by hand and one that follows from the hierarchy are audited alike.
 *
 * Exhaustive by construction: the index of keys finds for each cylinder exactly the keys that operate it, and the
 * result is compared with what is intended. A test holds it against a plain double loop.
 */
import { createChamberChecks } from './auditChambers.ts';
import { checkShared } from './auditBittings.ts';
import { createCoreChecks } from './auditCores.ts';
import { packBitting } from './bitting.ts';
import { reachOf } from './blankReach.ts';
import { createFindings, type AuditFindings, type FindingCode } from './auditFindings.ts';
import { isLive, type AuditCylinder, type AuditInput, type AuditKey } from './auditInput.ts';
import { worksControlLine } from './core.ts';
import { operatingCount, operatingCountCuttable, whyNotOperates } from './cylinder.ts';
import { NONE } from './depthSet.ts';
import { severityOf, type SystemFinding } from './findings.ts';
import { keyClassesOf } from './keyClasses.ts';
import { entersKeyway } from './keyways.ts';
import { checkBitting, DEFAULT_RULES, isUsable, type Rules } from './rules.ts';
import type { Specification } from './specification.ts';
import { parseKeySymbol } from './symbol.ts';
import { foldSymbol, type Status, type Steps } from './system.ts';
import { inches, type Length } from './units.ts';

export type { AuditCylinder, AuditInput, AuditKey };

export interface AuditOptions {
  /** Look for near misses; on when left out. */
  readonly near?: boolean;
  /** A root depth nearer than this to one that shears is a near miss; 0.020 in when left out. */
  readonly nearWithin?: Length;
  /** What a bitting in use must keep to by itself; the usual rules when left out. */
  readonly rules?: Rules;
  /** Most findings listed for each code; all are counted. 1,000 when left out. */
  readonly cap?: number;
}

/** What operates one cylinder, in the order of the input. */
export interface CylinderCount {
  readonly id: string;
  /** Listed keys that operate it. */
  readonly keys: number;
  /** Bittings that operate it, issued and incidental: Π of the chambers. */
  readonly operating: number;
  /** Those that a blank can carry (MACS). */
  readonly cuttable: number;
  /** Those of the cuttable ones that are no listed key's. */
  readonly incidental: number;
}

export interface AuditReport {
  readonly keys: number;
  readonly cylinders: number;
  /** Key and cylinder pairs decided: all of them. */
  readonly pairs: number;
  /** True totals for each code found, whatever the cap. */
  readonly counts: Readonly<Partial<Record<FindingCode, number>>>;
  readonly findings: readonly SystemFinding[];
  /** Every finding is listed: no cap was reached. */
  readonly complete: boolean;
  readonly perCylinder: readonly CylinderCount[];
}

/** Near miss: less than 0.020 in, common practice. */
const NEAR_WITHIN = inches(0.02);
const CAP = 1000;
const CYLINDERS_A_STEP = 256;

/**
 * Audits a system. Yields its progress in cylinders.
 * @example runToEnd(auditSystem({ spec, keys, cylinders, intended })).counts → {} when nothing is wrong
 */
export function* auditSystem(input: AuditInput, options: AuditOptions = {}): Steps<AuditReport> {
  const { spec, keys, cylinders, intended } = input;
  const findings = createFindings(options.cap ?? CAP);
  const classes = keyClassesOf(input);
  const live = new Set(keys.filter(isLive).map((key) => foldSymbol(key.symbol)));
  checkParents(keys, new Set(keys.map((key) => foldSymbol(key.symbol))), findings);
  checkShared(input, findings);
  checkBittings(spec, keys, options.rules ?? DEFAULT_RULES, findings);
  const { factsOf, distance } = createChamberChecks(spec, options.nearWithin ?? NEAR_WITHIN);
  const cores = createCoreChecks(input, findings);
  const bittings = numberBittings(spec, keys);
  // The last cylinder for which a key was intended, a key was found to operate, a bitting was counted.
  const intendedAt = new Int32Array(keys.length).fill(-1);
  const operatesAt = new Int32Array(keys.length).fill(-1);
  const countedAt = new Int32Array(keys.length).fill(-1);
  const perCylinder: CylinderCount[] = [];
  let c = 0;
  let cylinder: AuditCylinder;
  let operating = 0;
  let issued = 0;

  const foundOperating = (k: number): void => {
    const key = keys[k]!;
    operatesAt[k] = c;
    operating++;
    const bitting = bittings.of[k]!;
    if (countedAt[bitting] !== c) {
      countedAt[bitting] = c;
      if (bittings.cuttable[k]) issued++;
    }
    if (intendedAt[k] === c && !(key.control && !pulls(spec, cylinder, key))) return;
    findings.add({ code: 'interchange', key: key.symbol, cylinder: cylinder.id });
  };

  const foundNear = (k: number, i: number): void => {
    const key = keys[k]!;
    if (intendedAt[k] === c || key.control) return;
    const thousandths = distance(cylinder.chambers[i]!, key.bitting[i]!);
    const pair = { key: key.symbol, cylinder: cylinder.id };
    findings.add({ code: 'near-interchange', ...pair, chamber: i + 1, thousandths });
  };

  for (c = 0; c < cylinders.length; c++) {
    if (c % CYLINDERS_A_STEP === 0) yield { stage: 'auditing', done: c, total: cylinders.length };
    cylinder = cylinders[c]!;
    operating = 0;
    issued = 0;
    const { id, chambers } = cylinder;
    const wanted = intended[c] ?? [];
    const entering = classes.filter((k) => entersKeyway(input.enters, k.keyway, cylinder.keyway));
    for (const k of wanted) intendedAt[k] = c;
    checkSymbol(cylinder, live, findings);
    for (const { index } of entering) index.eachOperating(chambers, foundOperating);
    for (const k of wanted)
      if (operatesAt[k] !== c && !keys[k]!.control) findings.add(lockOut(input, keys[k]!, cylinder));
    const facts = chambers.map(factsOf);
    if (options.near !== false && facts.some(({ near }) => near !== NONE)) {
      const near = facts.map((chamber) => chamber.near);
      for (const { index } of entering) index.eachNear(chambers, near, foundNear);
    }
    facts.forEach(({ thin, tooTall }, i) => {
      for (const steps of thin)
        findings.add({ code: 'thin-master-pin', cylinder: id, chamber: i + 1, steps, step: spec.step });
      if (tooTall && !cylinder.control)
        findings.add({ code: 'stack-too-tall', cylinder: id, chamber: i + 1 });
    });
    cores.check(cylinder, wanted, entering);
    const cuttable = operatingCountCuttable(spec, chambers);
    const incidental = cuttable - issued;
    perCylinder.push({
      id,
      keys: operating,
      operating: operatingCount(spec, chambers),
      cuttable,
      incidental,
    });
  }
  yield { stage: 'auditing', done: cylinders.length, total: cylinders.length };
  return {
    keys: keys.length,
    cylinders: cylinders.length,
    pairs: keys.length * cylinders.length,
    ...findings.report(),
    perCylinder,
  };
}

function checkParents(keys: readonly AuditKey[], names: ReadonlySet<string>, findings: AuditFindings): void {
  for (const { symbol, parent } of keys)
    if (parent !== undefined && !names.has(parent) && !names.has(foldSymbol(parent)) && parent.trim() !== '')
      findings.add({ code: 'parent-missing', key: symbol, parent });
}

/** Each bitting in use against the rules that need nothing but itself. */
function checkBittings(
  spec: Specification,
  keys: readonly AuditKey[],
  rules: Rules,
  findings: AuditFindings,
): void {
  for (const { symbol, bitting, status } of keys) {
    if ((status !== undefined && OUT_OF_USE.has(status)) || isUsable(spec, bitting, rules)) continue;
    const reasons = checkBitting(spec, bitting, rules).filter((f) => severityOf(f) === 'fault');
    findings.add({ code: 'unusable-bitting', key: symbol, reasons });
  }
}

const OUT_OF_USE: ReadonlySet<Status> = new Set<Status>(['free', 'void', 'retired']);

/** The key that a cylinder is named after must be issued or reserved; `X1X` has none, and `XAA3` has `AA3`. */
function checkSymbol(
  { id, symbol }: AuditCylinder,
  names: ReadonlySet<string>,
  findings: AuditFindings,
): void {
  if (symbol === undefined || names.has(symbol) || names.has(foldSymbol(symbol)) || symbol.trim() === '')
    return;
  const parsed = parseKeySymbol(symbol);
  if (parsed.ok && parsed.value.kind === 'cross-keyed-only') return;
  const bare = foldSymbol(symbol).replace(/\s*\(.*\)$/, '');
  if (names.has(bare) || (/^X/.test(bare) && names.has(bare.slice(1)))) return;
  findings.add({ code: 'key-missing', symbol, cylinder: id });
}

function lockOut(input: AuditInput, key: AuditKey, cylinder: AuditCylinder): SystemFinding {
  const { spec } = input;
  const names = { key: key.symbol, cylinder: cylinder.id };
  if (!entersKeyway(input.enters, key.keyway, cylinder.keyway))
    return { code: 'wrong-keyway', ...names, found: key.keyway ?? '', expected: cylinder.keyway ?? '' };
  const failing = whyNotOperates(spec, cylinder.chambers, key.bitting, key.cuts);
  const wrong = failing.find(({ cut }) => cut !== undefined) ?? failing[0];
  const symbol = (index: number): string => spec.depths[index]?.symbol ?? '?';
  // A key whose bitting is marked free has no key at all: every chamber might fit.
  if (wrong === undefined) return { code: 'key-missing', symbol: key.symbol, cylinder: cylinder.id };
  if (wrong.cut === undefined)
    return { code: 'too-few-cuts', ...names, cuts: key.cuts ?? key.bitting.length, chamber: wrong.chamber };
  return {
    code: 'lock-out',
    ...names,
    chamber: wrong.chamber,
    cut: symbol(wrong.cut),
    shears: wrong.shears.map(symbol),
  };
}

/** That a core's own control bitting also operates it is found by the check of the core. */
function pulls(
  spec: Specification,
  { chambers, control }: AuditCylinder,
  { bitting, cuts }: AuditKey,
): boolean {
  return control !== undefined && worksControlLine(chambers, control, bitting, reachOf(spec, cuts));
}

/** A number for each different bitting, and whether a blank can carry it. */
function numberBittings(
  spec: Specification,
  keys: readonly AuditKey[],
): { readonly of: Int32Array; readonly cuttable: readonly boolean[] } {
  const numbers = new Map<number, number>();
  const of = new Int32Array(keys.length);
  keys.forEach(({ bitting }, k) => {
    const packed = packBitting(spec, bitting);
    const number = numbers.get(packed) ?? numbers.size;
    numbers.set(packed, number);
    of[k] = number;
  });
  return { of, cuttable: keys.map(({ bitting }) => withinMacs(spec, bitting)) };
}

function withinMacs(spec: Specification, cuts: readonly number[]): boolean {
  for (let i = 1; i < cuts.length; i++) if (Math.abs(cuts[i]! - cuts[i - 1]!) > spec.macs) return false;
  return true;
}
