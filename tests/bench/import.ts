/**
 * A list of 100,000 codes from elsewhere: read, all rules, duplicates, near misses within the list and against a
 * system; and the comparing alone against every pair on a sample small enough to wait for.
 */
import { DEFAULT_RULES } from '../../src/keying/rules.ts';
import type { KnownKeys } from '../../src/keying/importCheck.ts';
import { findNearPairs } from '../../src/keying/bittingList.ts';
import { bittingOf, type Bitting } from '../../src/keying/bitting.ts';
import { pinnedFor } from '../../src/keying/cylinder.ts';
import { starterSpec } from '../../src/keying/starters.ts';
import { readCodes, type CodesReport } from '../../taskpane/codes/codesJob.ts';
import { randomOf } from './random.ts';
import type { Comparison } from './table.ts';

export const ROWS = 100_000;
const SAMPLE = 4_000;
const spec = starterSpec('S-018-6')!;

const drawn = (count: number, seed: number): number[][] => {
  const random = randomOf(seed);
  return Array.from({ length: count }, () => spec.centres.map(() => random(spec.depths.length)));
};

/** 500 keys and as many cylinders, which the list is held against. */
function system(): KnownKeys {
  const keys = drawn(500, 23).map((cuts, i) => ({
    symbol: `AA${i + 1}`,
    bitting: bittingOf(spec, cuts),
    status: 'issued' as const,
    master: i < 5,
  }));
  const cylinders = keys.map((key, i) => ({
    id: String(i + 1),
    symbol: key.symbol,
    chambers: pinnedFor(spec, [key.bitting, keys[0]!.bitting]),
  }));
  return { keys, cylinders, master: keys[0]! };
}

/** The list and the whole task of the pane on it: reading, rules, duplicates, near misses, reasons. */
export class ImportedList {
  readonly rows = drawn(ROWS, 17).map((cuts, i): readonly string[] => [`M${i + 1}`, cuts.join(''), '1']);
  private readonly known = system();

  /** `step` is called at every step of the work. */
  check(step: () => void = () => undefined): CodesReport {
    const work = readCodes({
      list: { spec, rows: this.rows, roles: ['mark', 'code', 'quantity'], options: {} },
      rules: { ...DEFAULT_RULES, pullsOutTurned: true, grade: 2 },
      known: this.known,
      firstRow: 1,
    });
    for (;;) {
      const { done, value } = work.next();
      if (done) return value;
      step();
    }
  }
}

/** As one would first write it: every pair, chamber by chamber. */
function naivePairs(list: readonly Bitting[]): number {
  let found = 0;
  for (let a = 0; a < list.length; a++)
    for (let b = a + 1; b < list.length; b++) {
      let [differing, apart] = [0, 0];
      for (let i = 0; i < spec.centres.length; i++)
        if (list[a]![i] !== list[b]![i]) {
          differing++;
          apart = Math.abs(spec.depths[list[a]![i]!]!.root - spec.depths[list[b]![i]!]!.root);
        }
      if (differing === 1 && apart < DEFAULT_RULES.nearMissWithin) found++;
    }
  return found;
}

/** Length and MACS of every row by splitting strings: what a column of plain formulas does. */
const lengthAndMacs = (rows: readonly (readonly string[])[]): number =>
  rows.filter(([, code = '']) => {
    const cuts = code.split('').map(Number);
    return cuts.length === 6 && cuts.slice(1).every((cut, i) => Math.abs(cut - cuts[i]!) <= spec.macs);
  }).length;

export function importComparisons(): Comparison[] {
  const list = new ImportedList();
  const sample = drawn(SAMPLE, 19).map((cuts) => bittingOf(spec, cuts));
  return [
    {
      what: `List of ${ROWS.toLocaleString('en-US')} codes, every rule, a system of 500 keys`,
      items: ROWS,
      unit: 'codes',
      ours: () => list.check(),
      naive: () => lengthAndMacs(list.rows),
      against: 'length and MACS alone, strings split',
    },
    {
      what: `Near misses among ${SAMPLE.toLocaleString('en-US')} codes`,
      items: SAMPLE,
      unit: 'codes',
      ours: () => findNearPairs(spec, sample, DEFAULT_RULES.nearMissWithin).length,
      naive: () => naivePairs(sample),
      against: 'every pair compared',
      same: (a, b) => a === b,
    },
  ];
}
