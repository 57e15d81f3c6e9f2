/**
 * A long list of bittings against every rule, against itself and against the keys and cylinders that the workbook has.
 * As `checkBitting` and `checkBittings` row by row (a test holds that), but everything that compares goes through an
 * index: 100,000 rows take less than a second. Only rows with a finding are kept.
 */
import { packBitting, type Bitting } from './bitting.ts';
import { bittingIndexOf, nearFinder } from './bittingIndex.ts';
import { depthSetOf, depthsIn, NONE, type DepthSet } from './depthSet.ts';
import { severityOf, type BittingFinding } from './findings.ts';
import { keyIndexOf } from './keyIndex.ts';
import { inThousandths, nearMissOf, sayUnit } from './nearMiss.ts';
import {
  checkBitting,
  notChecked,
  parityFinding,
  type BittingContext,
  type NamedBitting,
  type RuleName,
  type Rules,
} from './rules.ts';
import { positions, type Specification } from './specification.ts';
import type { CylinderRecord, Status, Steps } from './system.ts';

/** What the workbook has already, of one system. */
export interface KnownKeys {
  readonly keys: readonly (NamedBitting & { readonly status: Status; readonly master?: boolean })[];
  readonly cylinders: readonly CylinderRecord[];
  /** The top master key, which parity is counted from. */
  readonly master?: NamedBitting;
}

export interface ListInput {
  readonly spec: Specification;
  readonly list: readonly NamedBitting[];
  readonly rules: Rules;
  readonly known?: KnownKeys;
}

export interface ListReport {
  /** What is wrong with each row of the list; undefined where nothing is. */
  readonly findings: readonly (readonly BittingFinding[] | undefined)[];
  readonly good: number;
  /** Places with a warning but no fault. */
  readonly warned: number;
  readonly faulty: number;
  /** Number of places for each kind of finding, most first. */
  readonly reasons: readonly { readonly code: BittingFinding['code']; readonly places: number }[];
  /** Rules that are on but have nothing to be checked against. */
  readonly notChecked: readonly RuleName[];
}

/** Rows between two looks at the clock. */
const BATCH = 4_000;

/** @example runToEnd(checkList({ spec, list, rules: DEFAULT_RULES })).reasons → [{ code: 'macs', places: 3 }] */
export function* checkList({ spec, list, rules, known }: ListInput): Steps<ListReport> {
  const findings = new Array<BittingFinding[] | undefined>(list.length).fill(undefined);
  const nearMiss = nearMissesOf(spec);
  const add = (place: number, finding: BittingFinding): void => {
    const there = findings[place];
    if (there) there.push(finding);
    else findings[place] = [finding];
  };
  yield* checkEach(spec, list, rules, known, findings);
  const bittings = list.map((row) => row.bitting);
  const index = bittingIndexOf(spec, bittings);
  if (rules.duplicate)
    for (let place = 0; place < list.length; place++) {
      const first = index.first(index.packed[place]!);
      if (first !== place) add(place, { code: 'duplicate', of: list[first]!.symbol });
      else if (index.next(place) >= 0) add(place, { code: 'duplicate', of: list[index.next(place)]!.symbol });
    }
  if (rules.nearMiss) {
    const near = nearFinder(spec, index, rules.nearMissWithin);
    yield* eachNear('Comparing codes', bittings, near, (place, other, chamber, apart) =>
      add(place, nearMiss(list[other]!.symbol, chamber, apart)),
    );
  }
  if (known) {
    if (rules.nearMiss) yield* nearKnown(spec, list, rules, known, add);
    yield* againstCylinders(spec, list, rules, known.cylinders, add);
  }
  return reportOf(findings, unchecked(rules, known));
}

/** Each bitting by itself, its use in the system and the masters. */
function* checkEach(
  spec: Specification,
  list: readonly NamedBitting[],
  rules: Rules,
  known: KnownKeys | undefined,
  findings: (BittingFinding[] | undefined)[],
): Steps<void> {
  // masters are looked up, and what parity says of each depth: all other rules together cost less than these would
  const own = { ...rules, equalsMaster: false, parity: false };
  const top = rules.parity ? known?.master : undefined;
  const parity = top && spec.centres.map((_, i) => spec.depths.map((_, d) => parityFinding(spec, top, i, d)));
  const used = new Map((known?.keys ?? []).map((key) => [packBitting(spec, key.bitting), key] as const));
  const masters = new Map<number, NamedBitting[]>();
  for (const key of mastersOf(known)) {
    const packed = packBitting(spec, key.bitting);
    masters.set(packed, [...(masters.get(packed) ?? []), key]);
  }
  // one object for all rows: a new one each would cost as much as the rules
  const context: BittingContext & { self: string } = { self: '', ...(known && { used }) };
  for (let place = 0; place < list.length; place++) {
    if (place % BATCH === 0) yield { stage: 'Checking codes', done: place, total: list.length };
    const { symbol, bitting } = list[place]!;
    context.self = symbol;
    const found = checkBitting(spec, bitting, own, context);
    if (parity && bitting.length === parity.length)
      for (let i = 0; i < bitting.length; i++) {
        const finding = parity[i]![bitting[i]!];
        if (finding) found.push(finding);
      }
    if (rules.equalsMaster && masters.size > 0)
      for (const master of masters.get(packBitting(spec, bitting)) ?? [])
        if (master.symbol !== symbol) found.push({ code: 'equals-master', symbol: master.symbol });
    if (found.length > 0) findings[place] = found;
  }
}

function mastersOf(known: KnownKeys | undefined): NamedBitting[] {
  const masters: NamedBitting[] = (known?.keys ?? []).filter((key) => key.master === true);
  const top = known?.master;
  return top && masters.every((m) => m.symbol !== top.symbol) ? [top, ...masters] : masters;
}

function* eachNear(
  stage: string,
  bittings: readonly Bitting[],
  near: ReturnType<typeof nearFinder>,
  found: (place: number, other: number, chamber: number, apart: number) => void,
): Steps<void> {
  let place = 0;
  const report = (other: number, chamber: number, apart: number): void => found(place, other, chamber, apart);
  for (; place < bittings.length; place++) {
    if (place % BATCH === 0) yield { stage, done: place, total: bittings.length };
    near(bittings[place]!, report);
  }
}

type NearMissOf = (other: string, chamber: number, apart: number) => BittingFinding;

/** Near misses as findings, chambers counted from 0; without a spread for each where the unit goes without saying. */
function nearMissesOf(spec: Specification): NearMissOf {
  const { unit } = sayUnit(spec);
  if (unit === undefined)
    return (other, chamber, apart) => ({
      code: 'near-miss',
      other,
      chamber: chamber + 1,
      thousandths: inThousandths(apart),
    });
  return (other, chamber, apart) => ({
    code: 'near-miss',
    other,
    chamber: chamber + 1,
    thousandths: inThousandths(apart),
    unit,
  });
}

function* nearKnown(
  spec: Specification,
  list: readonly NamedBitting[],
  rules: Rules,
  { keys }: KnownKeys,
  add: (place: number, finding: BittingFinding) => void,
): Steps<void> {
  const index = bittingIndexOf(
    spec,
    keys.map((key) => key.bitting),
  );
  const nearMiss = nearMissesOf(spec);
  const near = nearFinder(spec, index, rules.nearMissWithin);
  yield* eachNear(
    'Comparing with the workbook’s keys',
    list.map((row) => row.bitting),
    near,
    (place, other, chamber, apart) => {
      const { symbol } = keys[other]!;
      if (symbol === list[place]!.symbol) return;
      add(place, nearMiss(symbol, chamber, apart));
    },
  );
}

/** Cylinders walk down a tree of the list, so the work follows the rows that fit. */
function* againstCylinders(
  spec: Specification,
  list: readonly NamedBitting[],
  rules: Rules,
  cylinders: readonly CylinderRecord[],
  add: (place: number, finding: BittingFinding) => void,
): Steps<void> {
  if (cylinders.length === 0 || (!rules.operatesExisting && !rules.nearMiss)) return;
  const tree = keyIndexOf(
    spec,
    positions(spec),
    list.map(({ bitting }, number) => ({ number, cuts: bitting })),
  );
  for (const [done, cylinder] of cylinders.entries()) {
    if (done % 100 === 0) yield { stage: 'Trying cylinders', done, total: cylinders.length };
    const { id, chambers } = cylinder;
    if (rules.operatesExisting)
      tree.eachOperating(chambers, (place) => {
        // a cylinder's own key is meant to operate it
        if (list[place]!.symbol !== cylinder.symbol) add(place, { code: 'operates-existing', cylinder: id });
      });
    if (rules.nearMiss)
      tree.eachNear(chambers, nearDepths(spec, chambers, rules), (place) => {
        const near = nearMissOf(spec, list[place]!.bitting, chambers, rules.nearMissWithin);
        if (near) add(place, { code: 'near-miss', other: id, ...near });
      });
  }
}

/** Depths outside each chamber's own that lie close to one of them. */
const nearDepths = (spec: Specification, chambers: readonly DepthSet[], rules: Rules): DepthSet[] =>
  chambers.map((set) => {
    if (set === NONE) return NONE;
    const own = depthsIn(set, spec.depths.length).map((i) => spec.depths[i]!.root);
    return depthSetOf(
      spec.depths.flatMap(({ root }, i) =>
        own.some((o) => o !== root && Math.abs(o - root) < rules.nearMissWithin) ? [i] : [],
      ),
    );
  });

const unchecked = (rules: Rules, known: KnownKeys | undefined): RuleName[] =>
  notChecked(rules, {
    ...(known && {
      used: new Map(),
      masters: [],
      cylinders: known.cylinders,
      ...(known.master && { master: known.master }),
    }),
    // near misses within the list are always looked for
    keys: [],
  });

function reportOf(
  findings: readonly (readonly BittingFinding[] | undefined)[],
  unchecked: readonly RuleName[],
): ListReport {
  const places = new Map<BittingFinding['code'], number>();
  let [good, faulty] = [0, 0];
  for (const found of findings) {
    if (!found) {
      good++;
      continue;
    }
    let fault = false;
    for (let i = 0; i < found.length; i++) {
      const { code } = found[i]!;
      fault ||= severityOf(found[i]!) === 'fault';
      // once a row: rows have few findings, and a set for each would cost more
      let before = 0;
      while (found[before]!.code !== code) before++;
      if (before === i) places.set(code, (places.get(code) ?? 0) + 1);
    }
    if (fault) faulty++;
  }
  return {
    findings,
    good,
    warned: findings.length - good - faulty,
    faulty,
    reasons: [...places]
      .map(([code, n]) => ({ code, places: n }))
      .sort((a, b) => b.places - a.places || a.code.localeCompare(b.code)),
    notChecked: unchecked,
  };
}
