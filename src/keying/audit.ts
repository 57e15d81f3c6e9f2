/**
 * The audit of a system: every key against every cylinder. It finds each interchange (a key operates a cylinder that
 * it should not), each lock-out (it doesn't operate one that it should), near misses, pins that are too thin, both
 * shear lines of interchangeable cores, and bittings that are there twice. What should operate what comes as data
 * (`intended`), so a grid marked by hand and one that follows from the hierarchy are audited alike.
 *
 * Exhaustive by construction: the index of keys finds for each cylinder exactly the keys that operate it, and the
 * result is compared with what is intended. A test holds it against a plain double loop.
 */
import { checkShared } from './auditBittings.ts';
import { createChamberChecks } from './auditChambers.ts';
import { createCoreChecks } from './auditCores.ts';
import { createFindings, type AuditFindings, type FindingCode } from './auditFindings.ts';
import type { AuditCylinder, AuditInput, AuditKey } from './auditInput.ts';
import { createPairChecks } from './auditPairs.ts';
import { checkParents, createSymbolCheck } from './auditSymbols.ts';
import { operatingCount, operatingCountCuttable } from './cylinder.ts';
import { NONE, type DepthSet } from './depthSet.ts';
import { severityOf, type SystemFinding } from './findings.ts';
import { keyClassesOf } from './keyClasses.ts';
import { sayUnit } from './nearMiss.ts';
import { checkBitting, DEFAULT_RULES, isUsable, type Rules } from './rules.ts';
import type { Specification } from './specification.ts';
import type { Status, Steps } from './system.ts';
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
  /** Takes every finding below the cap, once all are found, in place of the report's list. */
  readonly take?: (finding: SystemFinding) => void;
  /** Asked after each step; once true, the report covers the cylinders until there. Never when left out. */
  readonly stopped?: () => boolean;
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
  /** Cylinders audited: the first ones of the input. */
  readonly cylinders: number;
  /** Cylinders that a stopped audit did not come to; left out when it came to all. */
  readonly unaudited?: number;
  /** Key and cylinder pairs decided: every key at each cylinder audited. */
  readonly pairs: number;
  /** True totals for each code found, whatever the cap. */
  readonly counts: Readonly<Partial<Record<FindingCode, number>>>;
  /** In the order in which they were found; empty where another took them. */
  readonly findings: readonly SystemFinding[];
  /** Every finding is listed or was taken: no cap was reached. */
  readonly complete: boolean;
  readonly perCylinder: readonly CylinderCount[];
}

/** Near miss: less than 0.020 in, common practice. */
const NEAR_WITHIN = inches(0.02);
const CAP = 1000;
const CYLINDERS_A_STEP = 256;

/**
 * Audits a system. Yields its progress in cylinders. A stopped audit says nothing of the cylinders left.
 * @example runToEnd(auditSystem({ spec, keys, cylinders, intended })).counts → {} when nothing is wrong
 */
export function* auditSystem(input: AuditInput, options: AuditOptions = {}): Steps<AuditReport> {
  const { spec, keys, cylinders, intended } = input;
  const findings = createFindings(options.cap ?? CAP, input);
  checkParents(keys, findings);
  checkShared(input, findings);
  checkBittings(spec, keys, options.rules ?? DEFAULT_RULES, findings);
  const { factsOf, distance } = createChamberChecks(spec, options.nearWithin ?? NEAR_WITHIN);
  const cores = createCoreChecks(input, findings);
  const pairs = createPairChecks(input, keyClassesOf(input), findings);
  const checkSymbol = createSymbolCheck(keys, findings);
  const perCylinder: CylinderCount[] = [];
  const close: DepthSet[] = spec.centres.map(() => NONE);
  let cylinder: AuditCylinder;

  const unit = sayUnit(spec);
  const foundNear = (k: number, i: number): void => {
    const key = keys[k]!;
    if (key.control || pairs.isWanted(k)) return;
    const thousandths = distance(cylinder.chambers[i]!, key.bitting[i]!);
    const pair = { key: key.symbol, cylinder: cylinder.id };
    findings.add({ code: 'near-interchange', ...pair, chamber: i + 1, thousandths, ...unit });
  };

  const check = (c: number): void => {
    cylinder = cylinders[c]!;
    const { id, chambers } = cylinder;
    const entrants = pairs.entrantsOf(cylinder);
    checkSymbol(cylinder);
    const { operating, issued } = pairs.check(cylinder, c, entrants);
    for (let i = 0; i < chambers.length; i++) {
      const { near, thin, tooTall } = factsOf(chambers[i]!);
      close[i] = near;
      for (const steps of thin)
        findings.add({ code: 'thin-master-pin', cylinder: id, chamber: i + 1, steps, step: spec.step });
      if (tooTall && !cylinder.control)
        findings.add({ code: 'stack-too-tall', cylinder: id, chamber: i + 1 });
    }
    if (options.near !== false && close.some((near) => near !== NONE))
      for (const { index } of entrants.classes) index.eachNear(chambers, close, foundNear);
    cores.check(cylinder, intended[c] ?? [], entrants.classes);
    const cuttable = operatingCountCuttable(spec, chambers);
    perCylinder.push({
      id,
      keys: operating,
      operating: operatingCount(spec, chambers),
      cuttable,
      incidental: cuttable - issued,
    });
  };

  let done = 0;
  for (; done < cylinders.length; done++) {
    if (done % CYLINDERS_A_STEP === 0) {
      yield { stage: 'auditing', done, total: cylinders.length };
      if (options.stopped?.()) break;
    }
    check(done);
  }
  if (done === cylinders.length) yield { stage: 'auditing', done, total: done };
  const { counts, complete, each } = findings.report();
  const listed: SystemFinding[] = [];
  each(options.take ?? ((finding) => listed.push(finding)));
  return {
    keys: keys.length,
    cylinders: done,
    ...(done < cylinders.length && { unaudited: cylinders.length - done }),
    pairs: keys.length * done,
    counts,
    findings: listed,
    complete,
    perCylinder,
  };
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
