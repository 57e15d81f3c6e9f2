/**
 * Proposed control keys of interchangeable cores, against trying every bitting there is by the definitions: the pins
 * of both shear lines as the core service manual stacks them, and no key that pulls or no control that turns a core.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { proposeControl, type ControlContext } from '../../src/keying/controlKey.ts';
import { pinnedFor } from '../../src/keying/cylinder.ts';
import { hasDepth } from '../../src/keying/depthSet.ts';
import { DEFAULT_RULES, NO_RULES } from '../../src/keying/rules.ts';
import { cutsOf, plainSpec } from '../support/systems.ts';

const POSITIONS = 4;
const DEPTHS = 5;
const MACS = 2;

/** Every bitting of four cuts and five depths. */
const ALL = Array.from({ length: DEPTHS ** POSITIONS }, (_, n) =>
  Array.from({ length: POSITIONS }, (_unused, i) => Math.floor(n / DEPTHS ** i) % DEPTHS),
);

interface Case {
  readonly total: number;
  readonly addition: number;
  readonly step: number;
  readonly top: readonly number[];
  readonly choices: readonly (readonly number[])[];
  readonly groups: readonly (readonly number[])[];
  readonly taken: readonly number[];
  readonly macs: boolean;
  readonly seed: number;
}

const cases: fc.Arbitrary<Case> = fc.record({
  total: fc.integer({ min: 6, max: 12 }),
  addition: fc.integer({ min: 2, max: 5 }),
  step: fc.constantFrom(1, 2),
  top: fc.array(fc.nat({ max: DEPTHS - 1 }), { minLength: POSITIONS, maxLength: POSITIONS }),
  choices: fc.array(fc.subarray([0, 1, 2, 3, 4]), { minLength: POSITIONS, maxLength: POSITIONS }),
  groups: fc.array(fc.array(fc.nat({ max: ALL.length - 1 }), { minLength: 1, maxLength: 3 }), {
    maxLength: 4,
  }),
  taken: fc.array(fc.nat({ max: ALL.length - 1 }), { maxLength: 40 }),
  macs: fc.boolean(),
  seed: fc.integer(),
});

function contextOf({ total, addition, step, top, choices, groups, taken, macs, seed }: Case): ControlContext {
  const core = { total, addition };
  const spec = plainSpec({ positions: POSITIONS, depths: DEPTHS, increment: 0.0125, macs: MACS, step, core });
  const bitting = (n: number) => cutsOf(spec, ALL[n]!.join(''));
  return {
    spec,
    topMaster: cutsOf(spec, top.join('')),
    array: choices,
    cores: groups.map((group) => pinnedFor(spec, group.map(bitting))),
    keys: taken.map(bitting),
    rules: { ...NO_RULES, macs },
    seed,
  };
}

/** By the definitions: what may pull these cores. */
function possible(
  { total, addition, step, top, choices, macs, taken }: Case,
  cores: ControlContext['cores'],
) {
  const held = choices.map((list, i) => [top[i]!, ...list]);
  const stacks = (cut: number, i: number): boolean =>
    cut + addition - Math.max(...held[i]!) >= step && total - cut - addition >= step;
  const good = ALL.filter(
    (cuts) =>
      cuts.every(stacks) &&
      !taken.some((n) => ALL[n]!.join() === cuts.join()) &&
      !cores.some((core) => core.every((set, i) => hasDepth(set, cuts[i]!))) &&
      (!macs || cuts.every((cut, i) => i === 0 || Math.abs(cut - cuts[i - 1]!) <= MACS)),
  );
  const everywhere = held.every((_, i) => [0, 1, 2, 3, 4].some((cut) => stacks(cut, i)));
  const isApart = (cuts: readonly number[]): boolean => cuts.some((cut, i) => !held[i]!.includes(cut));
  const canBeApart = held.some((own, i) =>
    [0, 1, 2, 3, 4].some((cut) => stacks(cut, i) && !own.includes(cut)),
  );
  return { good: canBeApart ? good.filter(isApart) : good, everywhere };
}

describe('a proposed control key', () => {
  it('is one that may be, and there is one wherever trying every bitting finds one', () => {
    fc.assert(
      fc.property(cases, (given) => {
        const context = contextOf(given);
        const { good, everywhere } = possible(given, context.cores);
        const found = proposeControl(context);
        if (good.length === 0)
          expect(found).toEqual({
            ok: false,
            error: { code: 'no-control-key', tried: everywhere ? 20_000 : 0 },
          });
        else {
          expect(found.ok).toBe(true);
          if (found.ok) expect(good).toContainEqual([...found.value]);
        }
      }),
      { numRuns: 150 },
    );
  });

  it('keeps the rules, is the same for the same seed, and is another for another', () => {
    const core = { total: 23, addition: 10 };
    const spec = plainSpec({ positions: 7, depths: 10, increment: 0.0125, macs: 9, step: 2, core });
    const of = (seed: number): string => {
      const found = proposeControl({
        spec,
        topMaster: cutsOf(spec, '2468246'),
        array: [[0], [2], [4], [6], [0], [2], [4]],
        cores: [],
        keys: [],
        rules: { ...DEFAULT_RULES, leastDepths: 6 },
        seed,
      });
      return found.ok ? found.value.join('') : '';
    };
    const seeds = Array.from({ length: 30 }, (_, seed) => of(seed));
    expect(seeds).toEqual(Array.from({ length: 30 }, (_, seed) => of(seed)));
    expect(new Set(seeds).size).toBeGreaterThan(25);
    for (const control of seeds) expect(new Set(control).size).toBeGreaterThanOrEqual(6);
  });
});
