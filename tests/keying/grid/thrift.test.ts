/** Saving extra master pins, against counting the pins of every change that would be right as well. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Grid, SolveOptions } from '../../../src/keying/grid/chart.ts';
import { prepareGrid, wholeDomain } from '../../../src/keying/grid/prepare.ts';
import { GridState } from '../../../src/keying/grid/state.ts';
import { savePins } from '../../../src/keying/grid/thrift.ts';
import { noRules, plainGrid, randomOf, smallSpec } from './charts.ts';
import { isRight, solvedGrid, type Cuts } from './plain.ts';

/** Pins beyond one in a chamber, of all new cylinders, of which each stands for so many. */
const extraPins = (
  { cylinders, marks, spec }: Grid,
  cuts: Cuts,
  number: (c: number) => number = () => 1,
): number =>
  cylinders.reduce((sum, { chambers, inUse }, c) => {
    if (chambers || marks[c]!.length === 0) return sum;
    const extra = spec.centres.map((_, i) =>
      inUse?.[i] === false ? 0 : Math.max(0, new Set(marks[c]!.map((k) => cuts[k]![i]!)).size - 2),
    );
    return sum + number(c) * extra.reduce((a, b) => a + b, 0);
  }, 0);

function stateOf(grid: Grid, options: SolveOptions, cuts: Cuts) {
  const prepared = prepareGrid(grid, options, wholeDomain(grid));
  const state = new GridState(prepared.instance);
  prepared.keysIn.forEach(([k], n) => {
    if (k !== undefined && !state.isPlaced(n)) state.place(n, cuts[k]!);
  });
  const now = (): number[][] => prepared.keyClass.map((n) => state.cutsOf(n));
  const save = (until = Infinity, work = { steps: 0 }, cylindersIn = prepared.cylindersIn): number[] => [
    ...savePins(state, { cylindersIn }, work, until),
  ];
  return { prepared, state, now, save };
}

describe('saving extra pins', () => {
  it('leaves a right solution right, and no change of one cut that would save more', () => {
    let saved = 0;
    const check = (seed: number): void => {
      const { grid, options, cuts } = solvedGrid(seed);
      if (!isRight(grid, options, cuts)) return;
      const { prepared, state, now, save } = stateOf(grid, options, cuts);
      expect(now()).toEqual(cuts);
      // as if each class had so many cylinders
      const random = randomOf(seed);
      const many = prepared.cylindersIn.map(([c]) => Array.from({ length: 1 + random(6) }, () => c!));
      const number = (c: number): number => {
        const at = prepared.cylindersIn.findIndex(([first]) => first === c);
        return at < 0 ? 0 : many[at]!.length;
      };
      const pins = (of: Cuts): number => extraPins(grid, of, number);
      const start = pins(cuts);
      let left = start;
      for (let before = -1; before !== left;) {
        before = left;
        const was = now();
        save(Infinity, { steps: 0 }, many);
        left = pins(now());
        expect(left).toBeLessThanOrEqual(before);
        if (left === before) expect(now()).toEqual(was);
        expect(isRight(grid, options, now())).toBe(true);
        // a further go saves where a key was too like another, or barred by a door of others', that is other now
      }
      saved += start - left;
      grid.keys.forEach(({ bitting }, k) => {
        if (bitting) return expect(now()[k]).toEqual(bitting);
        for (let i = 0; i < 4; i++)
          for (let depth = 0; depth < 5; depth++) {
            const other = now().map((own, o) =>
              prepared.keyClass[o] === prepared.keyClass[k]
                ? own.map((cut, at) => (at === i ? depth : cut))
                : own,
            );
            if (pins(other) < left) expect(isRight(grid, options, other)).toBe(false);
          }
      });
      expect(state.conflicts).toEqual([]);
    };
    // many draws are no solution
    fc.assert(
      fc.property(fc.array(fc.nat(1e6), { minLength: 10, maxLength: 10 }), (seeds) => seeds.forEach(check)),
      { numRuns: 30, examples: [[[44_637]]] },
    );
    expect(saved).toBeGreaterThan(0);
  });
});

describe('by hand', () => {
  const spec = smallSpec(4, 4);
  /** A master, and change keys with a door each and one for all; cuts as codes. */
  const common = (...codes: string[]) => {
    const all = codes.map((_, k) => k);
    const grid = plainGrid(spec, codes.length, [all, ...all.slice(1).map((k) => [0, k])]);
    const cuts = codes.map((code) => [...code].map(Number));
    const { now, ...rest } = stateOf(grid, { rules: noRules }, cuts);
    return {
      ...rest,
      grid,
      codes: () => now().map((own) => own.join('')),
      pins: () => extraPins(grid, now()),
    };
  };

  it('a key takes a depth that its door has already', () => {
    // of 0, 1 and 2 in the first chamber of the common door one may go, and K3 differs from K2 elsewhere
    const { codes, save, pins } = common('0000', '1100', '2010');
    expect(pins()).toBe(1);
    save();
    expect(pins()).toBe(0);
    expect(codes().filter((code, k) => code !== ['0000', '1100', '2010'][k])).toHaveLength(1);
  });

  it('changes nothing where one pin is all there is', () => {
    const { codes, save } = common('0000', '1111', '1000');
    expect(save()).toEqual([3]);
    expect(codes()).toEqual(['0000', '1111', '1000']);
  });

  it('goes on with keys that share a door with one that changed, and stops when its steps are used up', () => {
    const codes = ['0000', '1110', '2210', '3301', '1033'];
    const whole = common(...codes);
    const before = whole.pins();
    whole.save();
    expect(whole.pins()).toBeLessThan(before);
    const none = common(...codes);
    expect(none.save(0)).toEqual([]);
    expect(none.codes()).toEqual(codes);
    const work = { steps: 5 };
    const some = common(...codes);
    some.save(6, work);
    expect(work.steps).toBeGreaterThanOrEqual(6);
    expect(work.steps).toBeLessThan(10);
    expect(some.pins()).toBeGreaterThan(whole.pins());
  });
});
