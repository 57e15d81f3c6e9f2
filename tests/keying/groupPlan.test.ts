/**
 * Keys for every group against what total position progression is: a key of a level has the key's above it but in its
 * own positions, where it has changes of the array. Which groups fit is held against all masters there are, each with
 * the number of its usable change keys: sorted by room and by need, master for group, the best there is.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf, type Bitting } from '../../src/keying/bitting.ts';
import type { Deal } from '../../src/keying/deal.ts';
import { planGroups, type GroupPlan, type PlanContext } from '../../src/keying/groupPlan.ts';
import { runToEnd } from '../../src/keying/system.ts';
import type { GrandRequest } from '../../src/keying/systemRequest.ts';
import { plainSpec } from '../support/systems.ts';

const SPEC = plainSpec({ positions: 6, depths: 4, increment: 0.025, macs: 3 });
const TOP = bittingOf(SPEC, [0, 0, 0, 0, 0, 0]);
const DEALS: Record<2 | 3 | 4, Deal> = {
  2: ['constant', 'constant', 'constant', 'CK', 'CK', 'constant'],
  3: ['MK', 'MK', 'constant', 'CK', 'CK', 'constant'],
  4: ['GMK', 'MK', 'MK', 'CK', 'CK', 'constant'],
};
/** Two changes in each position: 2 or 4 keys of a level under one of the level above. */
const ARRAY = SPEC.centres.map(() => [1, 3]);

function contextOf(
  levels: 2 | 3 | 4,
  grands: readonly GrandRequest[],
  over: Partial<PlanContext> = {},
): PlanContext {
  return {
    levels,
    grands,
    spec: SPEC,
    topMaster: TOP,
    array: ARRAY,
    progression: { kind: 'total' },
    sequence: [0, 1, 2, 3, 4, 5],
    minimumDifference: 1,
    usable: () => true,
    order: 'progression',
    seed: 1,
    avoid: [],
    budget: { left: 100_000 },
    ...over,
  };
}

const plan = (context: PlanContext, deal: Deal = DEALS[context.levels]): GroupPlan =>
  runToEnd(planGroups(context, deal));
const cutsOf = (code: string): Bitting => bittingOf(SPEC, [...code].map(Number));
const code = (cuts: readonly number[]): string => cuts.join('');

/** Every change of a level's positions under a key. */
function changesUnder(base: readonly number[], deal: Deal, level: string): number[][] {
  return base.reduce<number[][]>(
    (heads, cut, i) =>
      heads.flatMap((head) => (deal[i] === level ? [1, 3] : [cut]).map((to) => [...head, to])),
    [[]],
  );
}

/** Usable or not, by lot but always the same. */
const usableBy = (seed: number, share: number) => (cuts: readonly number[]) =>
  (cuts.reduce((sum, cut, i) => (sum * 31 + cut * 7 + i) % 1009, seed) * 37) % 100 < share;

const master = fc.record({ changeKeys: fc.nat({ max: 4 }), spares: fc.nat({ max: 1 }) });
const wantedOf = (m: GrandRequest['masters'][number]): number => m.changeKeys + (m.spares ?? 0);

describe('a plan of groups', () => {
  it('gives each group its keys where there are masters with room for them, and else says what is short', () => {
    const seen = { ok: 0, CK: 0, MK: 0 };
    fc.assert(
      fc.property(
        fc.constantFrom(2 as const, 3 as const),
        fc.array(master, { minLength: 1, maxLength: 4 }),
        fc.nat({ max: 1 }),
        fc.nat(1000),
        fc.constantFrom(40, 70, 100),
        fc.constantFrom('progression' as const, 'scattered' as const),
        (levels, drawn, spares, seed, share, order) => {
          const masters = levels === 2 ? drawn.slice(0, 1) : drawn;
          const grand = { masters, ...(levels === 3 && { spares }) };
          const usable = usableBy(seed, share);
          const made = plan(contextOf(levels, [grand], { usable, order, seed }));
          const deal = DEALS[levels];
          const roomOf = (cuts: readonly number[]): number =>
            changesUnder(cuts, deal, 'CK').filter(usable).length;
          const needs = masters.map(wantedOf);
          if (levels === 3) needs.push(...new Array<number>(spares).fill(Math.max(1, Math.min(...needs))));
          needs.sort((a, b) => b - a);
          const above = levels === 2 ? [[...TOP]] : changesUnder(TOP, deal, 'MK').filter(usable);
          const rooms = above.map(roomOf).sort((a, b) => b - a);
          // how many of the groups can be served: the largest first, each by the smallest master that has room
          const left = [...rooms];
          const served = needs.filter((need) => {
            const at = left.map((room) => room >= need).lastIndexOf(true);
            if (at >= 0) left.splice(at, 1);
            return at >= 0;
          });
          if (served.length < needs.length) {
            if (made.ok) throw new Error('more than there is room for');
            const { problem } = made;
            if (problem.code !== 'group-too-small') throw new Error(problem.code);
            seen[problem.level as 'CK' | 'MK']++;
            const largest = Math.max(0, ...rooms);
            if (problem.level === 'CK') {
              expect(problem.possible).toBe(largest);
              expect(problem.needed).toBe(needs[0]);
              expect(problem.needed).toBeGreaterThan(largest);
            } else {
              expect(problem).toMatchObject({ needed: needs.length, possible: served.length });
              expect(needs[0]).toBeLessThanOrEqual(largest);
            }
            return;
          }
          if (!made.ok) throw new Error(JSON.stringify(made.problem));
          seen.ok++;
          const [only] = made.grands;
          expect(made.deal).toBe(deal);
          expect(made.grands).toHaveLength(1);
          expect(only!.bitting).toBe(TOP);
          expect(only!.masters.map((m) => m.changeKeys.length)).toEqual(masters.map(wantedOf));
          expect(only!.spares).toHaveLength(levels === 3 ? spares : 0);
          const under = [...only!.masters.map((m) => m.bitting), ...only!.spares];
          if (levels === 2) expect(under).toEqual([TOP]);
          else expect(above.map(code)).toEqual(expect.arrayContaining(under.map(code)));
          expect(new Set(under.map(code)).size).toBe(under.length);
          for (const spare of only!.spares)
            expect(roomOf(spare)).toBeGreaterThanOrEqual(Math.max(1, Math.min(...masters.map(wantedOf))));
          for (const { bitting, changeKeys } of only!.masters) {
            const possible = changesUnder(bitting, deal, 'CK').filter(usable).map(code);
            expect(possible).toEqual(expect.arrayContaining(changeKeys.map(code)));
            expect(new Set(changeKeys.map(code)).size).toBe(changeKeys.length);
          }
        },
      ),
      { numRuns: 250 },
    );
    expect(Math.min(seen.ok, seen.CK, seen.MK)).toBeGreaterThan(0);
  });

  it('of grands gives each its masters and keys under one grand master, and none of them to another', () => {
    let fitted = 0;
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            masters: fc.array(master, { minLength: 1, maxLength: 3 }),
            spares: fc.nat({ max: 1 }),
          }),
          {
            minLength: 1,
            maxLength: 3,
          },
        ),
        fc.nat(1000),
        (grands, seed) => {
          const usable = usableBy(seed, 90);
          const made = plan(contextOf(4, grands, { usable, seed, order: 'scattered' }));
          const deal = DEALS[4];
          if (!made.ok) {
            expect(made.problem.code).toBe('group-too-small');
            return;
          }
          fitted++;
          expect(made.grands).toHaveLength(grands.length);
          const tops = changesUnder(TOP, deal, 'GMK').filter(usable).map(code);
          expect(tops).toEqual(expect.arrayContaining(made.grands.map((g) => code(g.bitting))));
          expect(new Set(made.grands.map((g) => code(g.bitting))).size).toBe(grands.length);
          made.grands.forEach((grand, g) => {
            expect(grand.masters.map((m) => m.changeKeys.length)).toEqual(grands[g]!.masters.map(wantedOf));
            expect(grand.spares).toHaveLength(grands[g]!.spares);
            const masters = [...grand.masters.map((m) => m.bitting), ...grand.spares];
            const possible = changesUnder(grand.bitting, deal, 'MK').filter(usable).map(code);
            expect(possible).toEqual(expect.arrayContaining(masters.map(code)));
            expect(new Set(masters.map(code)).size).toBe(masters.length);
            for (const { bitting, changeKeys } of grand.masters)
              expect(changesUnder(bitting, deal, 'CK').filter(usable).map(code)).toEqual(
                expect.arrayContaining(changeKeys.map(code)),
              );
          });
        },
      ),
      { numRuns: 100 },
    );
    expect(fitted).toBeGreaterThan(8);
  });
});

describe('grand masters', () => {
  const one = (changeKeys: number, masters = 1): GrandRequest => ({
    masters: Array.from({ length: masters }, () => ({ changeKeys })),
  });

  it('are short where there are more grands than changes, and the shortage below is named where none fits at all', () => {
    expect(plan(contextOf(4, [one(1), one(1), one(1)]))).toEqual({
      ok: false,
      problem: { code: 'group-too-small', level: 'GMK', needed: 3, possible: 2 },
    });
    expect(plan(contextOf(4, [one(5)]))).toEqual({
      ok: false,
      problem: { code: 'group-too-small', level: 'CK', needed: 5, possible: 4 },
    });
    expect(plan(contextOf(4, [one(1, 5)]))).toEqual({
      ok: false,
      problem: { code: 'group-too-small', level: 'MK', needed: 5, possible: 4 },
    });
    // one of the two fits, so that it is a grand master that is missing
    expect(plan(contextOf(4, [one(1), one(5)]))).toEqual({
      ok: false,
      problem: { code: 'group-too-small', level: 'GMK', needed: 2, possible: 1 },
    });
    // no grand master may be used at all
    expect(plan(contextOf(4, [one(1)], { usable: (cuts) => cuts[0] === 0 }))).toEqual({
      ok: false,
      problem: { code: 'group-too-small', level: 'GMK', needed: 1, possible: 0 },
    });
  });

  it('go to the grand that needs most room: by its largest group, then by its groups', () => {
    // under a grand master's 1 all four changes are usable, under its 3 those with a 1 in the fourth position
    const usable = (cuts: readonly number[]): boolean => cuts[0] !== 3 || cuts[3] !== 3;
    const grands = [one(2), one(4)];
    const made = plan(contextOf(4, grands, { usable }));
    expect(made.ok && made.grands.map((g) => g.bitting[0])).toEqual([3, 1]);
    // and with masters that only one of them has
    const fewer = (cuts: readonly number[]): boolean => cuts[0] !== 3 || cuts[1] !== 3;
    const more = plan(contextOf(4, [one(1, 2), one(1, 4)], { usable: fewer }));
    expect(more.ok && more.grands.map((g) => g.bitting[0])).toEqual([3, 1]);
    const alike = plan(contextOf(4, [one(1), one(1)]));
    expect(alike.ok && alike.grands.map((g) => g.bitting[0])).toEqual([1, 3]);
  });

  it('that exist are kept, and new ones are not theirs', () => {
    const old = cutsOf('100000');
    const made = plan(contextOf(4, [one(1), { ...one(2), symbol: 'B', bitting: old }]));
    expect(made.ok && made.grands.map((g) => code(g.bitting))).toEqual(['300000', '100000']);
    const off = plan(contextOf(4, [{ ...one(1), symbol: 'B', bitting: cutsOf('110000') }]));
    expect(off).toEqual({ ok: false, problem: { code: 'master-off-deal', symbol: 'B', chamber: 2 } });
    const nameless = plan(contextOf(4, [{ ...one(1), bitting: cutsOf('200000') }]));
    expect(nameless).toEqual({ ok: false, problem: { code: 'master-off-deal', symbol: '', chamber: 1 } });
    const small = plan(contextOf(4, [{ ...one(5), symbol: 'B', bitting: old }]));
    expect(small).toMatchObject({ ok: false, problem: { level: 'CK', needed: 5, possible: 4 } });
    // all of them exist: there is nothing to be chosen
    const every = [
      { ...one(1), bitting: old },
      { ...one(1), bitting: cutsOf('300000') },
    ];
    const steps = [...planGroups(contextOf(4, every), DEALS[4])];
    expect(steps).toEqual([]);
    expect([...planGroups(contextOf(4, [one(1), one(1)]), DEALS[4])]).toEqual(
      [0, 1].map((done) => ({ stage: 'choosing-keys', done, total: 2 })),
    );
  });

  it('of one shape are tried once for a bitting, whatever they are called', () => {
    const tries = (grands: GrandRequest[]): number => {
      const budget = { left: 1000 };
      expect(plan(contextOf(4, grands, { budget })).ok).toBe(false);
      return 1000 - budget.left;
    };
    const alike = tries([
      { ...one(5), symbol: 'P' },
      { ...one(5), symbol: 'Q' },
    ]);
    expect(alike).toBe(tries([one(5)]));
    expect(tries([one(5), one(6)])).toBeGreaterThan(alike);
  });
});

describe('a spare master', () => {
  it('has room for one key at least, also where a group wants none', () => {
    // only under the cuts 33 is any change key usable
    const usable = (cuts: readonly number[]): boolean =>
      cuts.slice(3).every((cut) => cut === 0) || cuts.slice(0, 2).every((cut) => cut === 3);
    const made = plan(contextOf(3, [{ masters: [{ changeKeys: 0 }], spares: 1 }], { usable }));
    expect(made.ok && made.grands[0]!.spares.map(code)).toEqual(['330000']);
  });
});

describe('masters that exist', () => {
  const grand = (...masters: GrandRequest['masters']): GrandRequest[] => [{ masters }];

  it('are kept and get their change keys, and new ones are others', () => {
    const made = plan(
      contextOf(3, grand({ changeKeys: 1 }, { symbol: 'AB', bitting: cutsOf('110000'), changeKeys: 3 }), {
        usable: (cuts) => cuts[0] === cuts[1],
      }),
    );
    expect(made.ok && made.grands[0]!.masters.map((m) => [code(m.bitting), m.changeKeys.map(code)])).toEqual([
      ['330000', ['330110']],
      ['110000', ['110110', '110130', '110310']],
    ]);
  });

  it('are named where they depart from the deal, or have no room', () => {
    const bad = (symbol: string | undefined, cuts: string, changeKeys = 1) =>
      plan(
        contextOf(3, grand({ bitting: cutsOf(cuts), changeKeys, ...(symbol !== undefined && { symbol }) })),
      );
    expect(bad('AB', '130200')).toEqual({
      ok: false,
      problem: { code: 'master-off-deal', symbol: 'AB', chamber: 4 },
    });
    expect(bad(undefined, '100000')).toEqual({
      ok: false,
      problem: { code: 'master-off-deal', symbol: '', chamber: 2 },
    });
    expect(bad('AB', '130000', 5)).toEqual({
      ok: false,
      problem: { code: 'group-too-small', level: 'CK', needed: 5, possible: 4 },
    });
  });
});

describe('a difference of two cuts', () => {
  it('is kept between the keys of a level under one key', () => {
    const two = { minimumDifference: 2 };
    // of four changes in two positions, two differ in both
    const keys = plan(contextOf(2, [{ masters: [{ changeKeys: 2 }] }], two));
    expect(keys.ok && keys.grands[0]!.masters[0]!.changeKeys.map(code)).toEqual(['000110', '000330']);
    expect(plan(contextOf(2, [{ masters: [{ changeKeys: 3 }] }], two))).toMatchObject({
      problem: { level: 'CK', needed: 3, possible: 2 },
    });
    const masters = plan(contextOf(3, [{ masters: [{ changeKeys: 1 }, { changeKeys: 1 }] }], two));
    expect(masters.ok && masters.grands[0]!.masters.map((m) => code(m.bitting))).toEqual([
      '110000',
      '330000',
    ]);
    const three = { masters: [{ changeKeys: 1 }, { changeKeys: 1 }, { changeKeys: 1 }] };
    expect(plan(contextOf(3, [three], two))).toMatchObject({
      problem: { level: 'MK', needed: 3, possible: 2 },
    });
    const deal: Deal = ['GMK', 'GMK', 'MK', 'CK', 'CK', 'constant'];
    const grand = { masters: [{ changeKeys: 1 }] };
    const grands = plan(contextOf(4, [grand, grand], two), deal);
    expect(grands.ok && grands.grands.map((g) => code(g.bitting))).toEqual(['110000', '330000']);
    expect(plan(contextOf(4, [grand, grand, grand], two), deal)).toMatchObject({
      problem: { level: 'GMK', needed: 3, possible: 2 },
    });
  });
});

describe('avoided bittings', () => {
  it('get into no new cylinder, unless they are its own keys’', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(2 as const, 3 as const, 4 as const),
        fc.array(fc.tuple(...SPEC.centres.map(() => fc.constantFrom(0, 0, 1, 3))), { maxLength: 4 }),
        (levels, avoided) => {
          const avoid = avoided.map((cuts) => bittingOf(SPEC, cuts));
          const grand = { masters: [{ changeKeys: 2 }] };
          const made = plan(contextOf(levels, [grand], { avoid }));
          // each avoided bitting bars changes, and there are four of each level
          if (!made.ok) return;
          for (const { bitting, masters } of made.grands)
            for (const { bitting: over, changeKeys } of masters)
              for (const key of changeKeys) {
                const chain = [TOP, bitting, over, key];
                for (const cuts of avoid) {
                  const gets = cuts.every((cut, i) => chain.some((own) => own[i] === cut));
                  if (gets) expect(chain.slice(0, 3).map(code)).toContain(code(cuts));
                }
              }
        },
      ),
      { numRuns: 200 },
    );
  });

  it('bar only the changes that would let them in', () => {
    const made = (avoid: string[], changeKeys: number) =>
      plan(contextOf(2, [{ masters: [{ changeKeys }] }], { avoid: avoid.map(cutsOf) }));
    const keys = (avoid: string[], changeKeys: number) => {
      const found = made(avoid, changeKeys);
      return found.ok ? found.grands[0]!.masters[0]!.changeKeys.map(code) : found.problem;
    };
    expect(keys(['000110'], 3)).toEqual(['000130', '000310', '000330']);
    // with the top master's cut where a key has none of its own it gets in by both
    expect(keys(['000100'], 2)).toEqual(['000310', '000330']);
    expect(keys(['000100'], 3)).toEqual({ code: 'group-too-small', level: 'CK', needed: 3, possible: 2 });
    // the top master itself is in every line, and what differs elsewhere gets in nowhere
    expect(keys(['000000', '100110'], 4)).toHaveLength(4);
    // nor does a master bar the keys under it
    const master = { bitting: cutsOf('110000'), changeKeys: 4 };
    const under = plan(contextOf(3, [{ masters: [master] }], { avoid: [TOP, cutsOf('110000')] }));
    expect(under.ok && under.grands[0]!.masters[0]!.changeKeys).toHaveLength(4);
  });
});

describe('a budget', () => {
  it('is what may be looked at: with one change less the last key is not found', () => {
    const asked = (left: number) => {
      const budget = { left };
      return [plan(contextOf(2, [{ masters: [{ changeKeys: 4 }] }], { budget })), budget.left] as const;
    };
    expect(asked(4)[0].ok).toBe(true);
    expect(asked(4)[1]).toBe(0);
    expect(asked(3)[0]).toMatchObject({ ok: false, problem: { needed: 4, possible: 3 } });
    expect(asked(9)[1]).toBe(5);
  });

  it('is not touched where nothing is wanted', () => {
    const budget = { left: 7 };
    expect(plan(contextOf(2, [{ masters: [{ changeKeys: 0 }] }], { budget })).ok).toBe(true);
    expect(budget.left).toBe(7);
  });
});
