/**
 * Dealing positions to levels, against plain enumeration of every deal and against the Singleton bound as coding
 * theory states it: leave out any d − 1 positions, and words that differ in d still differ.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  dealCandidates,
  dealProblem,
  levelChanges,
  levelsDealt,
  levelSpace,
  mostApart,
  offDeal,
  type Deal,
  type DealContext,
} from '../../src/keying/deal.ts';
import { capacity, type SystemRequest } from '../../src/keying/index.ts';
import { prepare } from '../../src/keying/preparation.ts';
import { NO_RULES } from '../../src/keying/rules.ts';
import { runToEnd, type Level } from '../../src/keying/system.ts';
import { cutsOf, plainSpec } from '../support/systems.ts';

const SPEC = plainSpec({ positions: 5, depths: 8, increment: 0.015, macs: 7, step: 1 });
const TOP = cutsOf(SPEC, '00000');

const levels = fc.constantFrom(2 as const, 3 as const, 4 as const);
const widths = fc.array(fc.nat({ max: 4 }), { minLength: 5, maxLength: 5 });
const context = (
  of: 2 | 3 | 4,
  choices: readonly number[],
  progression: DealContext['progression'] = { kind: 'total' },
  minimumDifference = 1,
): DealContext => ({
  levels: of,
  topMaster: TOP,
  array: choices.map((n) => Array.from({ length: n }, (_, i) => i + 1)),
  progression,
  sequence: [0, 1, 2, 3, 4],
  minimumDifference,
});

/** Every way to give each position a level. */
const everyDeal = (names: readonly Level[], can: readonly boolean[]): Deal[] =>
  can.reduce<Deal[]>(
    (deals, free) =>
      deals.flatMap((deal) =>
        (free ? names : (['constant'] as const)).map((level): Deal => [...deal, level]),
      ),
    [[]],
  );

describe('the deals of a system', () => {
  it('are all there are, those with room first, from the roomiest on, tidy ones before others', () => {
    const wanted = fc.record({
      GMK: fc.integer({ min: 1, max: 4 }),
      MK: fc.integer({ min: 1, max: 6 }),
      CK: fc.nat({ max: 9 }),
    });
    fc.assert(
      fc.property(
        levels,
        widths,
        wanted,
        fc.subarray([0, 1, 2, 3, 4], { maxLength: 2 }),
        (of, choices, want, constant) => {
          const names = levelsDealt(of);
          const given = context(of, choices, { kind: 'partial', constant });
          const { fitting, short } = dealCandidates(given, want);
          const all = everyDeal(
            names,
            choices.map((n, i) => n > 0 && !constant.includes(i)),
          ).filter((deal) => names.every((name) => deal.includes(name)));
          const text = (deals: readonly Deal[]) => deals.map((deal) => deal.join()).sort();
          expect(text([...fitting, ...short])).toEqual(text(all));
          const changes = (deal: Deal, level: Level): number =>
            choices.reduce((product, n, i) => (deal[i] === level ? product * n : product), 1);
          const room = (deal: Deal): number =>
            Math.min(...names.map((name) => changes(deal, name) / Math.max(1, want[name as 'CK'])));
          // neighbours that change the level: one for a step down, two for a step back up
          const untidy = (deal: Deal): number => {
            const ranks = deal.filter((level) => level !== 'constant').map((level) => names.indexOf(level));
            return ranks.reduce((sum, rank, i) => {
              if (i === 0 || rank === ranks[i - 1]) return sum;
              return sum + (rank > ranks[i - 1]! ? 1 : 2);
            }, 0);
          };
          expect(
            fitting.every((deal) => names.every((name) => changes(deal, name) >= want[name as 'CK'])),
          ).toBe(true);
          expect(short.some((deal) => names.every((name) => changes(deal, name) >= want[name as 'CK']))).toBe(
            false,
          );
          for (const list of [fitting, short])
            list.slice(1).forEach((deal, i) => {
              const before = list[i]!;
              expect(room(before)).toBeGreaterThanOrEqual(room(deal));
              if (room(before) === room(deal)) expect(untidy(before)).toBeLessThanOrEqual(untidy(deal));
            });
          for (const deal of all) expect(dealProblem(given, deal)).toBeUndefined();
        },
      ),
      { numRuns: 60 },
    );
  });

  it('that are asked for give nothing to a chamber without choices, nor to one kept constant', () => {
    expect(dealProblem(context(2, [2, 0, 2, 2, 2]), ['CK', 'CK', 'CK', 'CK', 'CK'])).toEqual({
      code: 'deal-bad',
      level: 'CK',
    });
    expect(dealProblem(context(2, [2, 0, 2, 2, 2]), ['CK', 'constant', 'CK', 'CK', 'CK'])).toBeUndefined();
    const kept = context(2, [2, 2, 2, 2, 2], { kind: 'partial', constant: [3] });
    expect(dealProblem(kept, ['CK', 'CK', 'CK', 'CK', 'CK'])).toEqual({ code: 'deal-bad', level: 'CK' });
    expect(dealProblem(kept, ['CK', 'CK', 'CK', 'constant', 'CK'])).toBeUndefined();
  });
});

describe('the changes of a level', () => {
  it('are its positions’ choices, every one of which its space gives once, the others left alone', () => {
    const deal = fc.array(fc.constantFrom('MK' as const, 'CK' as const, 'constant' as const), {
      minLength: 5,
      maxLength: 5,
    });
    fc.assert(
      fc.property(widths, deal, fc.nat({ max: 3 }), (choices, dealt, kept) => {
        const rotating = kept > 0;
        const given = context(
          3,
          choices,
          rotating ? { kind: 'rotating', constants: kept } : { kind: 'total' },
        );
        for (const level of ['MK', 'CK'] as const) {
          const mine = (i: number): boolean => dealt[i] === level;
          // change keys of a rotating constant keep so many of the top master's cuts, masters none
          const keeps = rotating && level === 'CK' ? kept : 0;
          const expected = choices
            .reduce<number[][]>(
              (heads, n, i) =>
                heads.flatMap((head) =>
                  mine(i) ? Array.from({ length: n + 1 }, (_, cut) => [...head, cut]) : [[...head, -1]],
                ),
              [[]],
            )
            .filter((cuts) => cuts.filter((cut) => cut === 0).length === keeps);
          const space = levelSpace(given, dealt, level);
          const found = Array.from({ length: space.size }, (_, n) => {
            const cuts = [-1, -1, -1, -1, -1];
            space.at(n, cuts);
            return cuts.join();
          });
          expect(found.sort()).toEqual(expected.map((cuts) => cuts.join()).sort());
          expect(levelChanges(given, dealt, level)).toBe(expected.length);
        }
      }),
    );
  });

  it('that differ in d chambers are no more than the Singleton bound', () => {
    const deal = fc.array(fc.constantFrom('MK' as const, 'CK' as const), { minLength: 5, maxLength: 5 });
    fc.assert(
      fc.property(
        widths,
        deal,
        fc.integer({ min: 1, max: 6 }),
        fc.nat({ max: 2 }),
        (choices, dealt, apart, kept) => {
          const given = context(
            3,
            choices,
            kept > 0 ? { kind: 'rotating', constants: kept } : { kind: 'total' },
            apart,
          );
          for (const level of ['MK', 'CK'] as const) {
            // a position that may keep the top master's cut has one more
            const own = kept > 0 && level === 'CK' ? 1 : 0;
            const counts = choices.filter((_, i) => dealt[i] === level).map((n) => n + own);
            const subsets = counts.reduce<number[][]>(
              (sets, n) => sets.flatMap((set) => [set, [...set, n]]),
              [[]],
            );
            const left = Math.max(0, counts.length - (apart - 1));
            const bounds = subsets
              .filter((set) => set.length === left)
              .map((set) => set.reduce((a, b) => a * b, 1));
            expect(mostApart(given, dealt, level)).toBe(
              Math.min(...bounds, levelChanges(given, dealt, level)),
            );
          }
        },
      ),
    );
  });
});

describe('a master that exists', () => {
  it('follows a deal with a change depth in its own positions and the cut above it in all others', () => {
    const cuts = fc.array(fc.nat({ max: 2 }), { minLength: 5, maxLength: 5 });
    const deal = fc.array(fc.constantFrom('MK' as const, 'CK' as const), { minLength: 5, maxLength: 5 });
    fc.assert(
      fc.property(cuts, cuts, deal, (above, master, dealt) => {
        const good = (i: number): boolean =>
          dealt[i] === 'MK' ? master[i] === 1 || master[i] === 2 : master[i] === above[i];
        const wrong = [1, 2, 3, 4, 5].filter((chamber) => !good(chamber - 1));
        expect(offDeal(context(3, [2, 2, 2, 2, 2]), dealt, 'MK', above, master)).toBe(wrong[0]);
      }),
    );
  });
});

describe('a system that doesn’t fit', () => {
  const request = (
    masters: number,
    changeKeys: number,
    array: readonly number[][],
    more: Partial<SystemRequest> = {},
  ): SystemRequest => ({
    name: 'x',
    spec: SPEC,
    levels: 3,
    topMaster: cutsOf(SPEC, '03160'),
    array,
    rules: NO_RULES,
    grands: [{ masters: Array.from({ length: masters }, () => ({ changeKeys })) }],
    ...more,
  });
  const two = [[1, 2, 3], [], [], [], [1, 2, 3]];

  it('has fewer changes than keys, or a level that no deal gives enough', () => {
    expect(capacity(request(3, 3, two)).problems).toEqual([]);
    expect(capacity(request(2, 5, two)).problems).toEqual([
      { code: 'too-few-changes', needed: 10, possible: 9 },
    ]);
    expect(capacity(request(4, 2, two)).problems).toEqual([
      { code: 'no-deal-fits', level: 'MK', needed: 4, possible: 3, tried: 0, proven: true },
    ]);
    expect(capacity(request(2, 4, two)).problems).toEqual([
      { code: 'no-deal-fits', level: 'CK', needed: 4, possible: 3, tried: 0, proven: true },
    ]);
    // no position is left for a level
    expect(capacity(request(1, 1, [[1], [], [], [], []])).problems).toEqual([
      { code: 'deal-bad', level: 'CK' },
    ]);
  });

  it('has a master that follows no deal: its own cut is no choice of the array', () => {
    const withMaster = (code: string, symbol?: string) =>
      capacity(
        request(0, 0, two, {
          grands: [
            {
              masters: [
                { ...(symbol !== undefined && { symbol }), bitting: cutsOf(SPEC, code), changeKeys: 2 },
              ],
            },
          ],
        }),
      ).problems;
    expect(withMaster('23160', 'AB')).toEqual([]);
    expect(withMaster('03162', 'AB')).toEqual([]);
    expect(withMaster('03260', 'AB')).toEqual([{ code: 'master-off-deal', symbol: 'AB', chamber: 1 }]);
    expect(withMaster('23260')).toEqual([{ code: 'master-off-deal', symbol: '', chamber: 3 }]);
  });

  it('has a grand master that follows none, or a master that doesn’t follow its grand', () => {
    const three = [[1, 2, 3], [], [1, 2, 3], [], [1, 2, 3]];
    const withGrand = (grand: string, master: string) =>
      capacity(
        request(
          0,
          0,
          three.map((list, i) => (i === 2 ? [2, 3] : list)),
          {
            levels: 4,
            grands: [
              {
                symbol: 'B',
                bitting: cutsOf(SPEC, grand),
                masters: [{ symbol: 'BA', bitting: cutsOf(SPEC, master), changeKeys: 2 }],
              },
            ],
          },
        ),
      ).problems;
    expect(withGrand('23160', '23260')).toEqual([]);
    expect(withGrand('24160', '24260')).toMatchObject([{ code: 'master-off-deal', symbol: 'B' }]);
    expect(withGrand('23160', '33260')).toMatchObject([{ code: 'master-off-deal', symbol: 'BA' }]);
  });

  it('never takes a bitting that was used, nor the control key’s', () => {
    const spare = request(3, 3, two);
    expect(
      capacity({ ...spare, rules: { ...NO_RULES, alreadyUsed: true }, avoid: [cutsOf(SPEC, '13161')] })
        .problems,
    ).toMatchObject([{ code: 'no-deal-fits' }]);
    const prepared = runToEnd(
      prepare({ ...spare, avoid: [cutsOf(SPEC, '13161')], control: cutsOf(SPEC, '23162') }),
    );
    expect(prepared.context?.avoid).toEqual([cutsOf(SPEC, '13161'), cutsOf(SPEC, '23162')]);
    expect(runToEnd(prepare(spare)).context?.avoid).toEqual([]);
  });
});
