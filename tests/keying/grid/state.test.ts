/**
 * The state of a search against the plain definition, all keys by all cylinders after every change: a key operates a
 * cylinder if each of its cuts is a depth of that chamber, and a chamber that is pinned anew has the cuts of the keys
 * that are marked for it and have any.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { depthSetOf } from '../../../src/keying/depthSet.ts';
import type { Grid, SolveOptions } from '../../../src/keying/grid/index.ts';
import type { Instance } from '../../../src/keying/grid/instance.ts';
import { costIf, costOfMoves } from '../../../src/keying/grid/moveCosts.ts';
import { prepareGrid, wholeDomain } from '../../../src/keying/grid/prepare.ts';
import { GridState } from '../../../src/keying/grid/state.ts';
import { depthFits, farEnough, fits } from '../../../src/keying/grid/stateRules.ts';
import { noRules, randomGrid, randomOf, smallSpec } from './charts.ts';

const DEPTHS = 4;
const POSITIONS = 4;

interface Case {
  readonly seed: number;
  readonly keys: number;
  readonly cylinders: number;
  readonly fixed: boolean;
  readonly blanks: boolean;
  readonly options: SolveOptions;
}

const cases: fc.Arbitrary<Case> = fc.record({
  seed: fc.nat(100_000),
  // beyond 32 of either a second word of bits is begun
  keys: fc.constantFrom(2, 5, 9, 36),
  cylinders: fc.constantFrom(1, 4, 8, 34),
  fixed: fc.boolean(),
  blanks: fc.boolean(),
  options: fc.record({
    mostDepths: fc.constantFrom(2, 3, DEPTHS),
    minimumDifference: fc.constantFrom(1, 2),
    sameMarks: fc.constantFrom('alike' as const, 'different' as const),
  }),
});

/** Some keys and cylinders of the grid stand already, some blanks are short or of another keyway. */
function gridFor({ seed, keys, cylinders, fixed, blanks }: Case): Grid {
  const spec = smallSpec(POSITIONS, DEPTHS, 2);
  const random = randomOf(seed);
  const grid = randomGrid(spec, keys, cylinders, 25, seed);
  const cuts = () => spec.centres.map(() => random(DEPTHS));
  const keyway = () => (blanks ? [{}, { keyway: 'K1' }, { keyway: 'K2' }][random(3)]! : {});
  return {
    ...grid,
    keys: grid.keys.map((key) => ({
      ...key,
      ...(fixed && random(4) === 0 && { bitting: bittingOf(spec, cuts()) }),
      ...keyway(),
      ...(blanks && random(4) === 0 && { cuts: 3 }),
    })),
    cylinders: grid.cylinders.map((cylinder) => ({
      ...cylinder,
      ...(fixed && random(4) === 0
        ? { chambers: spec.centres.map(() => depthSetOf([random(DEPTHS), random(DEPTHS)])) }
        : random(4) === 0 && { inUse: [true, random(2) === 0, true, false] }),
      ...keyway(),
    })),
  };
}

/** The state as plain lists, and what follows from them. */
class Plain {
  readonly cuts: (readonly number[] | undefined)[];
  readonly weights = new Map<string, number>();
  constructor(readonly instance: Instance) {
    this.cuts = [...instance.fixedCuts];
  }
  used = (c: number, i: number): boolean => ((this.instance.inUse[c]! >>> i) & 1) === 1;
  /** Depths of a chamber, with other cuts for one key. */
  depths(c: number, i: number, but?: number, cuts?: readonly number[]): number[] {
    const fixed = this.instance.fixedSets[c];
    const all = Array.from({ length: DEPTHS }, (_, d) => d);
    if (!this.used(c, i)) return all;
    if (fixed) return all.filter((d) => (fixed[i]! >>> d) & 1);
    const held = this.instance.keysOf[c]!.map((k) => (k === but ? cuts : this.cuts[k])?.[i]);
    return all.filter((d) => held.includes(d));
  }
  isWrong(k: number, c: number, but?: number, cuts?: readonly number[]): boolean {
    const { keysOf, shut, cylinders, fixedCuts, fixedSets } = this.instance;
    const own = k === but ? cuts : this.cuts[k];
    if (!own || keysOf[c]!.includes(k) || shut?.[k * cylinders + c] === 1) return false;
    if (fixedCuts[k] && fixedSets[c]) return false;
    return own.every((cut, i) => this.depths(c, i, but, cuts).includes(cut));
  }
  weight = (k: number, c: number): number => this.weights.get(`${k} ${c}`) ?? 1;
  wrongPairs(): [number, number][] {
    const { keys, cylinders } = this.instance;
    const pairs: [number, number][] = [];
    for (let k = 0; k < keys; k++)
      for (let c = 0; c < cylinders; c++) if (this.isWrong(k, c)) pairs.push([k, c]);
    return pairs;
  }
  /** Weighted wrong pairs in a key's row and in the columns of its cylinders, if it had these cuts. */
  cost(k: number, cuts: readonly number[]): number {
    const { keys, cylinders, cylindersOf, fixedSets } = this.instance;
    let sum = 0;
    for (let c = 0; c < cylinders; c++) if (this.isWrong(k, c, k, cuts)) sum += this.weight(k, c);
    for (const c of cylindersOf[k]!)
      for (let other = 0; other < keys; other++)
        if (!fixedSets[c] && this.isWrong(other, c, k, cuts)) sum += this.weight(other, c);
    return sum;
  }
  fitsAt(k: number, i: number, depth: number): boolean {
    const { domain, cylindersOf, fixedSets, mostDepths } = this.instance;
    if (((domain[k * POSITIONS + i]! >>> depth) & 1) === 0) return false;
    return cylindersOf[k]!.every((c) => {
      if (fixedSets[c] || !this.used(c, i)) return true;
      const others = this.depths(c, i, k);
      // two steps are the thinnest master pin
      const thin = others.some((d) => Math.abs(d - depth) === 1);
      return !thin && new Set([...others, depth]).size <= mostDepths;
    });
  }
  isFar(k: number, cuts: readonly number[]): boolean {
    const { avoided, reach, minimumDifference, distinct } = this.instance;
    const least = distinct ? minimumDifference : minimumDifference > 1 ? minimumDifference : 0;
    return this.cuts.every((other, o) => {
      if (o === k || !other || avoided[o]) return true;
      const both = reach[k]! & reach[o]!;
      return cuts.filter((cut, i) => (both >>> i) & 1 && cut !== other[i]).length >= least;
    });
  }
}

describe('a state of the search', () => {
  it('knows every wrong pair after each change, and what any other cuts would cost', () => {
    let wrong = 0;
    fc.assert(
      fc.property(cases, (asked) => {
        const grid = gridFor(asked);
        const avoid = [bittingOf(grid.spec, [0, 0, 0, 0]), bittingOf(grid.spec, [0, 2, 0, 2])];
        const options = { ...asked.options, rules: noRules, avoid };
        const { instance } = prepareGrid(grid, options, wholeDomain(grid));
        const state = new GridState(instance);
        const plain = new Plain(instance);
        const random = randomOf(asked.seed + 1);
        const open = instance.fixedCuts.flatMap((cuts, k) => (cuts ? [] : [k]));
        const anyCuts = () => Array.from({ length: POSITIONS }, () => random(DEPTHS));
        for (let n = 0; n < 14 && open.length > 0; n++) {
          const k = open[random(open.length)]!;
          const own = plain.cuts[k];
          const act = random(6);
          if (act === 0) {
            state.lift(k);
            plain.cuts[k] = undefined;
          } else if (act === 1 && own) {
            const [i, depth] = [random(POSITIONS), random(DEPTHS)];
            state.move(k, i, depth);
            plain.cuts[k] = own.map((cut, at) => (at === i ? depth : cut));
          } else if (act === 2) {
            for (const [key, c] of plain.wrongPairs()) {
              if (random(3) === 0) continue;
              state.raiseWeight(key * instance.cylinders + c);
              plain.weights.set(`${key} ${c}`, plain.weight(key, c) + 1);
            }
          } else {
            const cuts = anyCuts();
            state.place(k, cuts);
            plain.cuts[k] = cuts;
          }
          const pairs = plain.wrongPairs();
          wrong += pairs.length;
          expect([...state.conflicts].sort((a, b) => a - b)).toEqual(
            pairs.map(([key, c]) => key * instance.cylinders + c),
          );
          expect(state.unplaced).toBe(plain.cuts.filter((cuts) => !cuts).length);

          const m = open[random(open.length)]!;
          const cuts = anyCuts();
          const cost = plain.cost(m, cuts);
          expect(costIf(state, m, cuts, Infinity)).toBe(cost);
          for (const limit of [0, 1, 3]) expect(costIf(state, m, cuts, limit) > limit).toBe(cost > limit);
          expect(farEnough(state, m, cuts)).toBe(plain.isFar(m, cuts));
          const allFit = cuts.every((depth, i) => plain.fitsAt(m, i, depth));
          expect(cuts.every((depth, i) => depthFits(state, m, i, depth))).toBe(allFit);
          expect(fits(state, m, cuts)).toBe(allFit && instance.usable(cuts) && plain.isFar(m, cuts));
          const placed = plain.cuts[m];
          if (!placed) continue;
          expect(state.cutsOf(m)).toEqual(placed);
          expect(state.costOf(m)).toBe(plain.cost(m, placed));
          const chambers = random(1 << POSITIONS);
          const costs = new Float64Array(POSITIONS * DEPTHS).fill(99);
          costOfMoves(state, m, chambers, costs);
          placed.forEach((_, i) => {
            if (((chambers >>> i) & 1) === 1)
              for (let depth = 0; depth < DEPTHS; depth++)
                expect(costs[i * DEPTHS + depth]).toBe(
                  plain.cost(
                    m,
                    placed.map((cut, at) => (at === i ? depth : cut)),
                  ),
                );
          });
        }
      }),
      { numRuns: 80 },
    );
    expect(wrong).toBeGreaterThan(100);
  });
});
