/**
 * Rules for a usable bitting. Each rule has a name, a switch and, where it has one, a limit; what it finds carries
 * the numbers and `wording.ts` the reason. The defaults are common practice, except where a header says otherwise.
 * Length and known depths have no switch: without them no other rule can be worked out.
 */
import { packBitting, type Bitting } from './bitting.ts';
import { operates } from './cylinder.ts';
import { popCount } from './depthSet.ts';
import { gradeLimits, type Grade } from './en1303.ts';
import type { BittingFinding } from './findings.ts';
import { neverRisesToTip } from './geometry.ts';
import { entersKeyway, type Entering } from './keyways.ts';
import { nearMissOf, nearMissOfKey } from './nearMiss.ts';
import { positions, type Specification } from './specification.ts';
import type { CylinderRecord, Status } from './system.ts';
import { inches, type Length } from './units.ts';

export interface Rules {
  /** Neighbours within the spec's MACS. */
  readonly macs: boolean;
  /** At least `leastDepths` different depths, on keys of `leastDepthsFrom` cuts and more. */
  readonly fewDepths: boolean;
  readonly leastDepths: number;
  readonly leastDepthsFrom: number;
  /** At most `mostEqualRun` equal cuts side by side. */
  readonly equalRun: boolean;
  readonly mostEqualRun: number;
  /** Deeper, or shallower, all along: a warning. */
  readonly stair: boolean;
  /** The blade nowhere rises towards the tip, so that the key could be drawn out turned: a warning. */
  readonly pullsOutTurned: boolean;
  /** Grade of EN 1303 that the bitting has to meet; 0 = not checked. */
  readonly grade: Grade | 0;
  /** Twice in the list. */
  readonly duplicate: boolean;
  /** Used in the system, whatever its status; `free` is not used. */
  readonly alreadyUsed: boolean;
  readonly equalsMaster: boolean;
  /** A whole number of the spec's steps from the top master key at every cut. */
  readonly parity: boolean;
  /** Operates a cylinder that it should not. */
  readonly operatesExisting: boolean;
  /** Fails at exactly one chamber, there by less than `nearMissWithin`: a warning. */
  readonly nearMiss: boolean;
  readonly nearMissWithin: Length;
}

/** The switches by name, for a list of rules in a panel. */
export const RULE_NAMES = [
  'macs',
  'fewDepths',
  'equalRun',
  'stair',
  'pullsOutTurned',
  'grade',
  'duplicate',
  'alreadyUsed',
  'equalsMaster',
  'parity',
  'operatesExisting',
  'nearMiss',
] as const satisfies readonly (keyof Rules)[];
export type RuleName = (typeof RULE_NAMES)[number];

export const DEFAULT_RULES: Rules = {
  macs: true,
  fewDepths: true,
  leastDepths: 3,
  leastDepthsFrom: 5,
  equalRun: true,
  mostEqualRun: 3,
  stair: true,
  pullsOutTurned: false,
  grade: 0,
  duplicate: true,
  alreadyUsed: true,
  equalsMaster: true,
  parity: true,
  operatesExisting: true,
  nearMiss: true,
  nearMissWithin: inches(0.02),
};

/** Every switch off, with the default limits: to see what one rule costs alone. */
export const NO_RULES: Rules = {
  ...DEFAULT_RULES,
  macs: false,
  fewDepths: false,
  equalRun: false,
  stair: false,
  duplicate: false,
  alreadyUsed: false,
  equalsMaster: false,
  parity: false,
  operatesExisting: false,
  nearMiss: false,
};

export interface NamedBitting {
  readonly symbol: string;
  readonly bitting: Bitting;
}

/** What a bitting is checked against. All of it belongs to one system: others never count. */
export interface BittingContext {
  /** The key's own symbol, so that it is not found to clash with itself. */
  readonly self?: string;
  /** The keyway section of its blank; none = the system's only one. */
  readonly keyway?: string;
  /** Keyways that blanks enter besides their own. */
  readonly enters?: Entering;
  /** The top master key, which parity is counted from. */
  readonly master?: NamedBitting;
  /** Further masters that it may not equal. */
  readonly masters?: readonly NamedBitting[];
  /** Bittings in use, by `packBitting`. */
  readonly used?: ReadonlyMap<number, { readonly symbol: string; readonly status: Status }>;
  /** Cylinders that it should not operate. */
  readonly cylinders?: readonly CylinderRecord[];
  /** Other keys, for near misses of key against key. */
  readonly keys?: readonly NamedBitting[];
}

/**
 * Checks a bitting against every rule that is switched on and can be checked in the context, and returns all that
 * is wrong. `notChecked` names the rules for which the context has nothing.
 * @example checkBitting(spec, bitting of '128345') → one finding: macs, 2 and 8 at cut 2, 6 steps, 5 allowed
 */
export function checkBitting(
  spec: Specification,
  bitting: readonly number[],
  rules: Rules = DEFAULT_RULES,
  context: BittingContext = {},
): BittingFinding[] {
  const found: BittingFinding[] = [];
  checkForm(spec, bitting, found);
  if (found.length > 0) return found;
  if (rules.macs) checkMacs(spec, bitting, found);
  if (rules.fewDepths) checkFewDepths(bitting, rules, found);
  if (rules.equalRun) checkEqualRun(spec, bitting, rules.mostEqualRun, found);
  if (rules.stair) checkStair(bitting, found);
  if (rules.pullsOutTurned && neverRisesToTip(spec, bitting)) found.push({ code: 'pulls-out-turned' });
  if (rules.grade !== 0) checkGrade(bitting, rules.grade, found);
  checkUse(spec, bitting, rules, context, found);
  if (rules.parity && context.master) checkParity(spec, bitting, context.master, found);
  checkCylinders(spec, bitting, rules, context, found);
  return found;
}

/**
 * Whether a bitting has no fault of its own: `checkBitting` without a context finds nothing but warnings. Allocates
 * nothing, since it is the inner loop of every search and count.
 */
export function isUsable(
  spec: Specification,
  bitting: readonly number[],
  rules: Rules = DEFAULT_RULES,
): boolean {
  if (bitting.length !== positions(spec)) return false;
  const limits = rules.grade === 0 ? undefined : gradeLimits(rules.grade);
  const mostRun = Math.min(
    rules.equalRun ? rules.mostEqualRun : Infinity,
    limits?.equalNeighbours ?? Infinity,
  );
  let seen = 0;
  let distinct = 0;
  let run = 0;
  for (let i = 0; i < bitting.length; i++) {
    const index = bitting[i]!;
    if (spec.depths[index] === undefined) return false;
    if (i > 0) {
      const steps = Math.abs(index - bitting[i - 1]!);
      if (rules.macs && steps > spec.macs) return false;
      run = steps === 0 ? run + 1 : 1;
    } else run = 1;
    if (run > mostRun) return false;
    if (((seen >>> index) & 1) === 0) distinct++;
    seen |= 1 << index;
  }
  if (rules.fewDepths && bitting.length >= rules.leastDepthsFrom && distinct < rules.leastDepths)
    return false;
  return limits === undefined || mostOfOneDepth(bitting) * 100 <= limits.equalShare * bitting.length;
}

/** Switched-on rules that the context has nothing to check against: shown as "not checked", never as passed. */
export function notChecked(rules: Rules, context: BittingContext): RuleName[] {
  const missing: Partial<Record<RuleName, boolean>> = {
    alreadyUsed: !context.used,
    equalsMaster: !context.master && !context.masters,
    parity: !context.master,
    operatesExisting: !context.cylinders,
    nearMiss: !context.cylinders && !context.keys,
  };
  return RULE_NAMES.filter((name) => rules[name] && missing[name]);
}

function checkForm(spec: Specification, bitting: readonly number[], found: BittingFinding[]): void {
  const expected = positions(spec);
  if (bitting.length !== expected) found.push({ code: 'length', found: bitting.length, expected });
  for (let i = 0; i < bitting.length; i++) {
    if (spec.depths[bitting[i]!]) continue;
    const allowed = spec.depths.map((d) => d.symbol);
    found.push({ code: 'unknown-depth', symbol: String(bitting[i]), at: i + 1, allowed });
  }
}

const symbolAt = (spec: Specification, index: number): string => spec.depths[index]!.symbol;

function checkMacs(spec: Specification, bitting: readonly number[], found: BittingFinding[]): void {
  for (let i = 1; i < bitting.length; i++)
    if (Math.abs(bitting[i]! - bitting[i - 1]!) > spec.macs)
      found.push(macsFinding(spec, i, bitting[i - 1]!, bitting[i]!));
}

const macsFindings = new WeakMap<Specification, BittingFinding[]>();

/** Made once for each pair of depths at each place: a list of 100,000 codes has as many of them, and they are alike. */
function macsFinding(spec: Specification, first: number, a: number, b: number): BittingFinding {
  const width = spec.depths.length;
  let made = macsFindings.get(spec);
  if (!made) {
    made = [];
    macsFindings.set(spec, made);
  }
  return (made[(first * width + a) * width + b] ??= {
    code: 'macs',
    first,
    from: symbolAt(spec, a),
    to: symbolAt(spec, b),
    steps: Math.abs(a - b),
    allowed: spec.macs,
  });
}

function checkFewDepths(bitting: readonly number[], rules: Rules, found: BittingFinding[]): void {
  if (bitting.length < rules.leastDepthsFrom) return;
  let seen = 0;
  for (let i = 0; i < bitting.length; i++) seen |= 1 << bitting[i]!;
  const distinct = popCount(seen);
  if (distinct < rules.leastDepths)
    found.push({ code: 'few-depths', found: distinct, least: rules.leastDepths });
}

/** Where the run of equal cuts that starts at a place ends: the place after its last cut. */
function endOfRun(bitting: readonly number[], start: number): number {
  let end = start + 1;
  while (end < bitting.length && bitting[end] === bitting[start]) end++;
  return end;
}

function checkEqualRun(
  spec: Specification,
  bitting: readonly number[],
  most: number,
  found: BittingFinding[],
): void {
  for (let start = 0, end = 0; start < bitting.length; start = end) {
    end = endOfRun(bitting, start);
    const length = end - start;
    if (length <= most) continue;
    found.push({
      code: 'equal-run',
      symbol: symbolAt(spec, bitting[start]!),
      first: start + 1,
      length,
      most,
    });
  }
}

function checkStair(bitting: readonly number[], found: BittingFinding[]): void {
  const sign = Math.sign(bitting[1]! - bitting[0]!);
  if (sign === 0) return;
  for (let i = 2; i < bitting.length; i++) if (Math.sign(bitting[i]! - bitting[i - 1]!) !== sign) return;
  found.push({ code: 'stair', direction: sign > 0 ? 'deeper' : 'shallower' });
}

function mostOfOneDepth(bitting: readonly number[]): number {
  let most = 0;
  for (const a of bitting) {
    let same = 0;
    for (const b of bitting) if (a === b) same++;
    if (same > most) most = same;
  }
  return most;
}

function checkGrade(bitting: readonly number[], grade: Grade, found: BittingFinding[]): void {
  const { equalShare, equalNeighbours } = gradeLimits(grade);
  const same = mostOfOneDepth(bitting);
  if (same * 100 > equalShare * bitting.length) {
    const percent = Math.round((same * 1000) / bitting.length) / 10;
    found.push({ code: 'grade-equal-share', grade, percent, most: equalShare });
  }
  let longest = 0;
  for (let start = 0, end = 0; start < bitting.length; start = end) {
    end = endOfRun(bitting, start);
    longest = Math.max(longest, end - start);
  }
  if (equalNeighbours !== undefined && longest > equalNeighbours)
    found.push({ code: 'grade-equal-neighbours', grade, found: longest, most: equalNeighbours });
}

function checkUse(
  spec: Specification,
  bitting: readonly number[],
  rules: Rules,
  { self, used, master, masters = [] }: BittingContext,
  found: BittingFinding[],
): void {
  const use = rules.alreadyUsed ? used?.get(packBitting(spec, bitting)) : undefined;
  if (use && use.symbol !== self && use.status !== 'free')
    found.push({ code: 'already-used', symbol: use.symbol, status: use.status });
  if (!rules.equalsMaster) return;
  const others = master && masters.every((m) => m.symbol !== master.symbol) ? [master, ...masters] : masters;
  for (const other of others)
    if (other.symbol !== self && other.bitting.every((index, i) => index === bitting[i]))
      found.push({ code: 'equals-master', symbol: other.symbol });
}

/** What parity says about a depth at a cut (from 0) under a master; nothing where it is a whole number of steps away. */
export function parityFinding(
  { step }: Specification,
  master: NamedBitting,
  cut: number,
  depth: number,
): BittingFinding | undefined {
  const steps = Math.abs(depth - master.bitting[cut]!);
  if (steps % step === 0) return undefined;
  return { code: 'parity', at: cut + 1, steps, step, master: master.symbol };
}

function checkParity(
  spec: Specification,
  bitting: readonly number[],
  master: NamedBitting,
  found: BittingFinding[],
): void {
  for (let i = 0; i < bitting.length; i++) {
    const finding = parityFinding(spec, master, i, bitting[i]!);
    if (finding) found.push(finding);
  }
}

function checkCylinders(
  spec: Specification,
  bitting: readonly number[],
  rules: Rules,
  { self, keyway, enters, cylinders = [], keys = [] }: BittingContext,
  found: BittingFinding[],
): void {
  for (const cylinder of cylinders) {
    if (!entersKeyway(enters, keyway, cylinder.keyway)) continue;
    if (operates(cylinder.chambers, bitting)) {
      if (rules.operatesExisting) found.push({ code: 'operates-existing', cylinder: cylinder.id });
    } else if (rules.nearMiss) {
      const near = nearMissOf(spec, bitting, cylinder.chambers, rules.nearMissWithin);
      if (near) found.push({ code: 'near-miss', other: cylinder.id, ...near });
    }
  }
  if (!rules.nearMiss) return;
  for (const other of keys) {
    if (other.symbol === self) continue;
    const near = nearMissOfKey(spec, bitting, other.bitting, rules.nearMissWithin);
    if (near) found.push({ code: 'near-miss', other: other.symbol, ...near });
  }
}
