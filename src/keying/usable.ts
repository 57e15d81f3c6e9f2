/**
 * Whether a bitting of a system may be used: the rules for a bitting of its own, the bittings ever used, and the
 * cylinders that exist. Searches and counts ask it for the same bitting again and again (every deal of positions
 * visits the same keys), so what was found out is kept in a table over the array where that is small enough.
 */
import type { KeyBittingArray } from './array.ts';
import { packBitting, type Bitting } from './bitting.ts';
import { operates } from './cylinder.ts';
import { entersKeyway, type Entering } from './keyways.ts';
import { DEFAULT_RULES, isUsable, NO_RULES, type RuleName, type Rules } from './rules.ts';
import type { Specification } from './specification.ts';
import type { CylinderRecord } from './system.ts';

export interface UsableContext {
  readonly spec: Specification;
  readonly rules?: Rules;
  readonly avoid?: readonly Bitting[];
  readonly cylinders?: readonly CylinderRecord[];
  readonly keyway?: string;
  /** Keyways that blanks enter besides their own. */
  readonly enters?: Entering;
}

export type UsableTest = (cuts: readonly number[]) => boolean;

const MOST_CELLS = 4_000_000;

/** The test of all rules together. */
export function createUsable(context: UsableContext): UsableTest {
  const tests = usableTests(context).map(({ passes }) => passes);
  return (cuts) => tests.every((passes) => passes(cuts));
}

/** The same with a memory, for bittings whose every cut is the top master's or a choice of the array. */
export function remembering(
  test: UsableTest,
  { depths }: Specification,
  topMaster: Bitting,
  array: KeyBittingArray,
): UsableTest {
  const cells = array.reduce((product, choices) => product * (choices.length + 1), 1);
  if (cells > MOST_CELLS) return test;
  const known = new Uint8Array(cells);
  const digits = array.map((choices, i) => {
    const row = new Int32Array(depths.length).fill(-1);
    [topMaster[i]!, ...choices].forEach((depth, digit) => (row[depth] = digit));
    return row;
  });
  return (cuts) => {
    let cell = 0;
    for (let i = 0; i < cuts.length; i++) {
      const digit = digits[i]![cuts[i]!]!;
      if (digit < 0) return test(cuts);
      cell = cell * (array[i]!.length + 1) + digit;
    }
    if (known[cell] === 0) known[cell] = test(cuts) ? 1 : 2;
    return known[cell] === 1;
  };
}

export interface NamedTest {
  readonly rule: RuleName;
  readonly passes: UsableTest;
}

/** The same rules one by one, in the order in which they are applied. */
export function usableTests({
  spec,
  rules = DEFAULT_RULES,
  avoid = [],
  cylinders = [],
  keyway,
  enters,
}: UsableContext): NamedTest[] {
  const tests: NamedTest[] = [];
  for (const rule of ['macs', 'fewDepths', 'equalRun', 'grade'] as const) {
    if (!rules[rule]) continue;
    const alone: Rules = { ...rules, ...OFF, [rule]: rules[rule] };
    tests.push({ rule, passes: (cuts) => isUsable(spec, cuts, alone) });
  }
  if (rules.alreadyUsed && avoid.length > 0) {
    const used = new Set(avoid.map((cuts) => packBitting(spec, cuts)));
    tests.push({ rule: 'alreadyUsed', passes: (cuts) => !used.has(packBitting(spec, cuts)) });
  }
  if (rules.operatesExisting && cylinders.length > 0) {
    const same = cylinders.filter((c) => entersKeyway(enters, keyway, c.keyway));
    tests.push({
      rule: 'operatesExisting',
      passes: (cuts) => !same.some(({ chambers }) => operates(chambers, cuts)),
    });
  }
  return tests;
}

/** Switches of `NO_RULES` without its limits. */
const OFF: Partial<Rules> = {
  macs: NO_RULES.macs,
  fewDepths: NO_RULES.fewDepths,
  equalRun: NO_RULES.equalRun,
  grade: NO_RULES.grade,
};
