/**
 * The audit: every key against every cylinder. Ours, a plain double loop over all chambers, and one that leaves a
 * cylinder at the first chamber that fails. Listing gives every wrong pair in turn as a finding, which the loops do not.
 */
import { auditSystem, type AuditInput, type AuditReport } from '../../src/keying/audit.ts';
import { createFindings } from '../../src/keying/auditFindings.ts';
import { createPairChecks } from '../../src/keying/auditPairs.ts';
import { bittingOf } from '../../src/keying/bitting.ts';
import { depthSetOf, hasDepth } from '../../src/keying/depthSet.ts';
import { keyClassesOf } from '../../src/keying/keyClasses.ts';
import { isUsable } from '../../src/keying/rules.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { plainSpec } from '../support/systems.ts';
import { randomOf } from './random.ts';
import type { Comparison } from './table.ts';

const TOP = 0;
const CHOICES = [2, 4, 6, 8, 10];

/**
 * Keys of one system as a progression makes them, each cut a whole number of steps from the top master's. Each
 * cylinder is pinned for the top master and a key of its own, for a second one and mostly for a third
 * that differ from it in the last chambers, so that some fifteen keys operate a cylinder on average.
 */
export function auditCase(keyCount: number, cylinderCount: number, positions: number): AuditInput {
  const spec = plainSpec({ positions, depths: 12, increment: 0.0125, macs: 9, step: 2 });
  const random = randomOf(7);
  const draw = (): number => CHOICES[random(CHOICES.length)]!;
  const bittings = new Map<string, number[]>();
  while (bittings.size < keyCount) {
    const cuts = spec.centres.map(draw);
    if (isUsable(spec, cuts)) bittings.set(cuts.join(), cuts);
  }
  const keys = [...bittings.values()].map((cuts, k) => ({
    symbol: `AA${k + 1}`,
    bitting: bittingOf(spec, cuts),
  }));
  const cylinders = Array.from({ length: cylinderCount }, (_, c) => {
    const own = keys[c % keyCount]!.bitting;
    const like = (from: number): number[] => own.map((cut, i) => (i < from ? cut : draw()));
    const all = [own, like(2), ...(c % 4 > 0 ? [like(2)] : [])];
    return {
      id: `C${c + 1}`,
      symbol: keys[c % keyCount]!.symbol,
      chambers: own.map((_, i) => depthSetOf([TOP, ...all.map((cuts) => cuts[i]!)])),
    };
  });
  return { spec, keys, cylinders, intended: cylinders.map((_, c) => [c % keyCount]) };
}

type Opens = (chambers: AuditInput['cylinders'][number]['chambers'], cuts: readonly number[]) => boolean;

/** Looks at every chamber, and goes on after one that fails. */
const everyChamber: Opens = (chambers, cuts) => {
  let opens = true;
  for (let i = 0; i < chambers.length; i++) opens = hasDepth(chambers[i]!, cuts[i]!) && opens;
  return opens;
};

const firstMisfit: Opens = (chambers, cuts) => {
  for (let i = 0; i < chambers.length; i++) if (!hasDepth(chambers[i]!, cuts[i]!)) return false;
  return true;
};

/** Pairs that are wrong, as one would first find them. */
export function naivePairs({ keys, cylinders, intended }: AuditInput, opens: Opens): [number, number][] {
  const wrong: [number, number][] = [];
  cylinders.forEach(({ chambers }, c) => {
    const wanted = intended[c]!;
    for (let k = 0; k < keys.length; k++)
      if (opens(chambers, keys[k]!.bitting) !== wanted.includes(k)) wrong.push([k, c]);
  });
  return wrong;
}

/** Interchanges and lock-outs, the index of keys made anew: what the double loops do, with nothing else of an audit. */
function wrongPairs(input: AuditInput, cap: number): number {
  const findings = createFindings(cap, input);
  const pairs = createPairChecks(input, keyClassesOf(input), findings);
  input.cylinders.forEach((cylinder, c) => pairs.check(cylinder, c, pairs.entrantsOf(cylinder)));
  const report = findings.report();
  let read = 0;
  report.each((finding) => {
    if (finding.code !== 'interchange' && finding.code !== 'lock-out') return;
    if (finding.key !== finding.cylinder) read++; // no cylinder is named as a key is: all are read, all are counted
  });
  return cap === 0 ? sum(report.counts) : read;
}

const sum = ({ interchange = 0, 'lock-out': lockOut = 0 }: AuditReport['counts']): number =>
  interchange + lockOut;

export const countWrong = (input: AuditInput): number => wrongPairs(input, 0);
export const listWrong = (input: AuditInput): number => wrongPairs(input, Infinity);

/** With every other check of an audit but near misses: chambers, symbols, bittings, incidental ones. */
export const wholeAudit = (input: AuditInput): number =>
  sum(runToEnd(auditSystem(input, { near: false })).counts);

export function auditComparisons(): Comparison[] {
  const large = auditCase(16_384, 10_000, 7);
  const size = '16,384 keys × 10,000 cylinders × 7 chambers';
  const every = () => naivePairs(large, everyChamber).length;
  const early = () => naivePairs(large, firstMisfit).length;
  const wrong = early().toLocaleString('en-US');
  const line = { items: 16_384 * 10_000, unit: 'pairs', same: (a: unknown, b: unknown) => a === b };
  const [loop, leaving] = ['double loop, every chamber', 'double loop, leaves at the first misfit'];
  return [
    { ...line, what: `pairs of ${size} counted`, ours: () => countWrong(large), naive: every, against: loop },
    { ...line, what: 'the same', ours: () => countWrong(large), naive: early, against: leaving },
    {
      ...line,
      what: `the same, ${wrong} listed`,
      ours: () => listWrong(large),
      naive: early,
      against: leaving,
    },
    {
      ...line,
      what: 'the same, the whole audit',
      ours: () => wholeAudit(large),
      naive: early,
      against: leaving,
    },
  ];
}
