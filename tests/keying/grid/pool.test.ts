import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { pinnedFor } from '../../../src/keying/cylinder.ts';
import { keyedAlike, keyedDifferentPool } from '../../../src/keying/grid/index.ts';
import { isUsable } from '../../../src/keying/rules.ts';
import { starterSpec } from '../../../src/keying/starters.ts';
import { runToEnd } from '../../../src/keying/system.ts';
import { noRules, smallSpec } from './charts.ts';
import { allCuts } from './plain.ts';

const spec = starterSpec('S-018-6')!;
const differing = (a: readonly number[], b: readonly number[]) => a.filter((cut, i) => cut !== b[i]).length;

describe('pools of keyed-different bittings', () => {
  it.each([1, 2, 3])('are usable, new and differ in %i cuts', (minimumDifference) => {
    const used = runToEnd(keyedDifferentPool({ spec, count: 30, seed: 9 })).bittings;
    const { bittings, short } = runToEnd(keyedDifferentPool({ spec, count: 100, minimumDifference, used }));
    expect(short).toBe(false);
    bittings.forEach((a, n) => {
      expect(isUsable(spec, a)).toBe(true);
      for (const b of [...used, ...bittings.slice(0, n)])
        expect(differing(a, b)).toBeGreaterThanOrEqual(minimumDifference);
    });
  });

  it('follow the seed', () => {
    const draw = (seed: number) => runToEnd(keyedDifferentPool({ spec, count: 5, seed })).bittings;
    expect(draw(1)).toEqual(draw(1));
    expect(draw(1)).not.toEqual(draw(2));
  });

  it('keep a parity if asked', () => {
    const parityOf = runToEnd(keyedDifferentPool({ spec, count: 1 })).bittings[0]!;
    const { bittings } = runToEnd(keyedDifferentPool({ spec, count: 50, parityOf }));
    for (const cuts of bittings)
      cuts.forEach((cut, i) => expect(Math.abs(cut - parityOf[i]!) % spec.step).toBe(0));
  });

  it('operate no existing cylinder', () => {
    const small = smallSpec(4, 2);
    const all = runToEnd(keyedDifferentPool({ spec: small, count: 99, rules: noRules }));
    expect(all).toMatchObject({ short: true, exhausted: true, looked: 16 });
    const cylinders = [{ chambers: pinnedFor(small, [all.bittings[0]!, all.bittings[1]!]) }];
    const left = runToEnd(keyedDifferentPool({ spec: small, count: 99, rules: noRules, cylinders })).bittings;
    expect(left).toHaveLength(16 - 2 ** differing(all.bittings[0]!, all.bittings[1]!));
  });

  it('of two differing cuts are as large as any can be: d^(n − 1), the Singleton bound', () => {
    const pool = runToEnd(
      keyedDifferentPool({ spec: smallSpec(4, 3), count: 27, minimumDifference: 2, rules: noRules }),
    );
    expect(pool.bittings).toHaveLength(27);
  });
});

describe('a pool of a small spec, against looking at every bitting', () => {
  const asked = fc.record({
    depths: fc.constantFrom(3, 3, 3, 3, 4),
    step: fc.constantFrom(1, 2),
    count: fc.integer({ min: 0, max: 90 }),
    least: fc.constantFrom(undefined, 1, 2, 3, 4),
    used: fc.array(fc.nat(255), { maxLength: 3 }),
    stands: fc.array(fc.tuple(fc.nat(255), fc.nat(255)), { maxLength: 2 }),
    parity: fc.option(fc.nat(255), { nil: undefined }),
    rules: fc.constantFrom(noRules, { ...noRules, fewDepths: true, leastDepths: 2, leastDepthsFrom: 4 }),
    seed: fc.constantFrom(undefined, 1, 7),
  });
  type Asked = typeof asked extends fc.Arbitrary<infer T> ? T : never;
  const requestOf = ({ depths, step, count, least, used, stands, parity, rules, seed }: Asked) => {
    const small = smallSpec(4, depths, step);
    const all = allCuts(small).map((cuts) => bittingOf(small, cuts));
    const at = (n: number) => all[n % all.length]!;
    return {
      all,
      request: {
        spec: small,
        count,
        rules,
        used: used.map(at),
        cylinders: stands.map(([a, b]) => ({ chambers: pinnedFor(small, [at(a), at(b)]) })),
        ...(least !== undefined && { minimumDifference: least }),
        ...(parity !== undefined && { parityOf: at(parity) }),
        ...(seed !== undefined && { seed }),
      },
    };
  };

  const HOLES: Asked = {
    depths: 3,
    step: 2,
    count: 3,
    least: 2,
    used: [213],
    stands: [],
    parity: 110,
    rules: noRules,
    seed: undefined,
  };

  const BETWEEN: Asked = { ...HOLES, step: 1, count: 24, used: [0, 1], parity: undefined };

  it('has only such as may be in it, as many as asked for or so many that no other fits between them', () => {
    let shorter = 0;
    fc.assert(
      fc.property(asked, (of) => {
        const { all, request } = requestOf(of);
        const { spec: small, used, cylinders, rules } = request;
        const pool = runToEnd(keyedDifferentPool(request));
        const least = of.least ?? 1;
        const inParity = all.filter((cuts) =>
          cuts.every((cut, i) => !request.parityOf || (cut - request.parityOf[i]!) % of.step === 0),
        );
        const may = inParity.filter(
          (cuts) =>
            isUsable(small, cuts, rules) &&
            used.every((other) => differing(other, cuts) >= least) &&
            !cylinders.some(({ chambers }) => chambers.every((set, i) => (set >>> cuts[i]!) & 1)),
        );
        const names = may.map(String);
        pool.bittings.forEach((cuts, n) => {
          expect(names).toContain(String(cuts));
          for (const other of pool.bittings.slice(0, n))
            expect(differing(other, cuts)).toBeGreaterThanOrEqual(least);
        });
        expect(pool.bittings.length).toBeLessThanOrEqual(of.count);
        expect(pool.short).toBe(pool.bittings.length < of.count);
        expect(pool.exhausted).toBe(pool.looked === inParity.length);
        expect(pool.looked).toBeLessThanOrEqual(inParity.length);
        if (!pool.short) return;
        shorter++;
        expect(pool.exhausted).toBe(true);
        const fit = may.filter((cuts) => pool.bittings.every((other) => differing(other, cuts) >= least));
        expect(fit).toEqual([]);
      }),
      // one used bitting bars some of each remainder, and another one fits beside the rest
      { numRuns: 30, examples: [[HOLES], [BETWEEN]] },
    );
    expect(shorter).toBeGreaterThan(0);
  });

  it('says how far it is every twenty thousand bittings looked at', () => {
    const nobody = { ...noRules, fewDepths: true, leastDepths: 9, leastDepthsFrom: 1 };
    const steps = [...keyedDifferentPool({ spec: smallSpec(8, 4), count: 3, rules: nobody })];
    // 4^8 bittings are 65,536
    expect(steps).toEqual(
      Array.from({ length: 4 }, () => ({ stage: 'drawing bittings', done: 0, total: 3 })),
    );
  });
});

describe('keyed alike', () => {
  it('gives each group one bitting and pins its cylinders for it', () => {
    const groups = [
      { name: 'KA1', cylinders: ['Front', 'Back'] },
      { name: 'KA2', cylinders: ['Shed'] },
    ];
    const made = runToEnd(keyedAlike(groups, { spec, minimumDifference: 2 }));
    expect(made.without).toEqual([]);
    expect(differing(made.groups[0]!.bitting, made.groups[1]!.bitting)).toBeGreaterThanOrEqual(2);
    for (const { bitting, cylinders } of made.groups)
      for (const { chambers } of cylinders) expect(chambers).toEqual(pinnedFor(spec, [bitting]));
  });

  it('names the groups for which nothing is left', () => {
    const groups = Array.from({ length: 18 }, (_, n) => ({ name: `KA${n + 1}`, cylinders: [] }));
    expect(runToEnd(keyedAlike(groups, { spec: smallSpec(4, 2), rules: noRules })).without).toEqual([
      'KA17',
      'KA18',
    ]);
  });
});
