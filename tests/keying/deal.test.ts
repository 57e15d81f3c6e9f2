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
import { pinnedFor } from '../../src/keying/cylinder.ts';
import { prepare, topInUse, wantedOf } from '../../src/keying/preparation.ts';
import { DEFAULT_RULES, NO_RULES } from '../../src/keying/rules.ts';
import { runToEnd, type Level } from '../../src/keying/system.ts';
import { grandsWanted, roomNeeded } from '../../src/keying/systemRequest.ts';
import { remembering, usableTests } from '../../src/keying/usable.ts';
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

describe('a request', () => {
  const small = (more: Partial<SystemRequest> = {}): SystemRequest => ({
    name: 'x',
    spec: SPEC,
    levels: 3,
    topMaster: cutsOf(SPEC, '03160'),
    rules: NO_RULES,
    grands: [{ masters: [{ changeKeys: 2 }] }],
    ...more,
  });
  const problems = (more: Partial<SystemRequest>) => capacity(small(more)).problems;

  it('that leaves things open has the usual ones', () => {
    expect(runToEnd(prepare(small())).context).toMatchObject({
      progression: { kind: 'total' },
      sequence: [0, 1, 2, 3, 4],
      order: 'progression',
      seed: 1,
      minimumDifference: 1,
      avoid: [],
    });
    const asked = { order: 'scattered', seed: 7, minimumDifference: 2, sequence: [4, 3, 2, 1, 0] } as const;
    expect(runToEnd(prepare(small(asked))).context).toMatchObject(asked);
  });

  it('wants something where one group of one grand does', () => {
    expect(problems({ grands: [{ masters: [{ changeKeys: 0 }, { changeKeys: 1 }] }] })).toEqual([]);
    const grands = [{ masters: [{ changeKeys: 0 }] }, { masters: [{ changeKeys: 0, spares: 1 }] }];
    expect(problems({ levels: 4, grands })).toEqual([]);
    expect(problems({ levels: 4, grands: grands.slice(0, 1) })).toEqual([{ code: 'nothing-wanted' }]);
  });

  it('finds no letter for a grand where all are avoided; three levels need none', () => {
    const avoidLetters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';
    expect(problems({ levels: 4, avoidLetters })).toEqual([
      { code: 'letters-used-up', level: 'GMK', possible: 0 },
    ]);
    const named = [{ symbol: 'A', masters: [{ symbol: 'AA', changeKeys: 1 }] }];
    expect(problems({ levels: 4, avoidLetters, grands: named })).toEqual([]);
    expect(problems({ grands: named })).toEqual([]);
  });

  it('may name no symbol twice, in whatever case and blanks', () => {
    const named = (...symbols: string[]) =>
      problems({
        grands: [
          { symbol: symbols[0]!, masters: symbols.slice(1).map((symbol) => ({ symbol, changeKeys: 1 })) },
        ],
      });
    expect(named('A', 'AA', ' aa ')).toEqual([{ code: 'symbol-repeated', symbol: ' aa ' }]);
    expect(named('A', 'a')).toEqual([{ code: 'symbol-repeated', symbol: 'a' }]);
    expect(named('A', 'AA', 'AB')).toEqual([]);
  });

  it('has a top master that only warnings stand against', () => {
    // a staircase is a warning, one depth all along is none too many without the rules
    expect(problems({ topMaster: cutsOf(SPEC, '01234'), rules: DEFAULT_RULES })).toEqual([]);
    expect(problems({ topMaster: cutsOf(SPEC, '00000'), rules: DEFAULT_RULES }).map((p) => p.code)).toEqual([
      'top-master-unusable', 'few-depths', 'equal-run',
    ]); // prettier-ignore
  });

  it('adds to a system where its top master is in use: with cylinders, or among the bittings ever used', () => {
    const topMaster = cutsOf(SPEC, '00000');
    const use = (more: Partial<SystemRequest>) => topInUse(small({ topMaster, ...more }));
    expect(use({})).toBe(false);
    expect(use({ avoid: [cutsOf(SPEC, '00001')] })).toBe(false);
    expect(use({ avoid: [cutsOf(SPEC, '00001'), cutsOf(SPEC, '00000')] })).toBe(true);
    const cylinders = [{ id: 'C1', symbol: 'AA1', chambers: pinnedFor(SPEC, [topMaster]) }];
    expect(use({ cylinders })).toBe(true);
    const { topMaster: _none, ...without } = small({ cylinders });
    expect(_none).toBeDefined();
    expect(topInUse(without)).toBe(false);
  });

  it('needs of each level what its largest group wants', () => {
    const grands = [
      { masters: [{ changeKeys: 2, spares: 3 }, { changeKeys: 4 }] },
      { masters: [{ changeKeys: 1 }], spares: 2 },
    ];
    expect(wantedOf(small({ levels: 4, grands }))).toEqual({ GMK: 2, MK: 3, CK: 5 });
    expect(wantedOf(small({ grands: grands.slice(0, 1) }))).toEqual({ MK: 2, CK: 5 });
    expect(wantedOf(small({ levels: 2, grands: grands.slice(1) }))).toEqual({ CK: 1 });
  });

  it('keeps grands in reserve, as roomy as the smallest and unnamed, in four levels only', () => {
    const large = { symbol: 'B', masters: [{ changeKeys: 9 }, { changeKeys: 1 }] };
    const little = {
      symbol: 'C',
      masters: [{ symbol: 'CA', changeKeys: 1, spares: 2 }, { changeKeys: 4 }],
      spares: 1,
    };
    const four = small({ levels: 4, grands: [large, little], spareGrands: 2 });
    const spare = { masters: [{ changeKeys: 3 }, { changeKeys: 4 }], spares: 1 };
    // 9 + 1 against 3 + 4 and a master of 3 in reserve: ten each, so the first
    expect(grandsWanted(four)).toEqual([large, little, ...Array(2).fill({ masters: large.masters })]);
    const larger = { ...large, masters: [{ changeKeys: 10 }, { changeKeys: 1 }] };
    expect(grandsWanted({ ...four, grands: [larger, little] })).toEqual([larger, little, spare, spare]);
    expect(grandsWanted({ ...four, grands: [little, larger] })).toEqual([little, larger, spare, spare]);
    expect(grandsWanted({ ...four, spareGrands: 0 })).toBe(four.grands);
    expect(grandsWanted({ ...four, levels: 3 })).toBe(four.grands);
    expect(roomNeeded(little)).toEqual([4, 3, 3]);
    expect(roomNeeded({ masters: [{ changeKeys: 0 }, { changeKeys: 2 }], spares: 2 })).toEqual([2, 1, 1, 0]);
  });
});

describe('a proof that nothing fits', () => {
  const base: SystemRequest = {
    name: 'x',
    spec: SPEC,
    levels: 2,
    topMaster: cutsOf(SPEC, '03160'),
    array: [[1, 2, 3], [], [], [], [1, 2, 3]],
    rules: { ...NO_RULES, alreadyUsed: true },
    avoid: [cutsOf(SPEC, '13161')],
    grands: [{ masters: [{ changeKeys: 9 }] }],
  };

  it('is one where every deal was tried and every key counts', () => {
    expect(capacity(base).problems).toMatchObject([
      { code: 'no-deal-fits', needed: 9, possible: 8, tried: 1, proven: true },
    ]);
  });

  it('is none where keys are kept apart or grands are unlike', () => {
    const apart = { ...base, minimumDifference: 2, grands: [{ masters: [{ changeKeys: 3 }] }] };
    // nine changes of two positions hold three that differ in both, unless a cut is gone from the first
    expect(capacity({ ...apart, avoid: [] }).fits).toBe(true);
    const used = ['13161', '13162', '13163'].map((code) => cutsOf(SPEC, code));
    expect(capacity({ ...apart, avoid: used }).problems).toMatchObject([
      { code: 'no-deal-fits', tried: 1, proven: false },
    ]);
    const four: SystemRequest = {
      ...base,
      levels: 4,
      array: [[1, 2], [], [0, 2], [], [1, 2]],
      avoid: ['13161', '13162'].map((code) => cutsOf(SPEC, code)),
    };
    const alike = [1, 2].map(() => ({ masters: [{ changeKeys: 2 }, { changeKeys: 2 }] }));
    const unlike = [alike[0]!, { masters: [{ changeKeys: 2 }, { changeKeys: 1 }] }];
    const provenOf = (grands: SystemRequest['grands'], avoid: readonly string[]) =>
      capacity({ ...four, grands, avoid: avoid.map((code) => cutsOf(SPEC, code)) }).problems.map(
        (p) => 'proven' in p && p.proven,
      );
    const gone = ['13061', '13062', '13261', '23061', '23062', '23261'];
    expect(provenOf(alike, gone)).toEqual([true]);
    expect(provenOf(unlike, gone)).toEqual([false]);
  });
});

describe('the search for a deal', () => {
  const base: SystemRequest = {
    name: 'x',
    spec: SPEC,
    levels: 3,
    topMaster: cutsOf(SPEC, '03160'),
    array: [[1, 2, 3], [], [], [], [1, 2, 3]],
    rules: { ...NO_RULES, alreadyUsed: true },
    grands: [{ masters: [{ changeKeys: 3 }, { changeKeys: 3 }, { changeKeys: 3 }] }],
  };

  it('tells how far it is, deal by deal', () => {
    const avoid = [cutsOf(SPEC, '13161')];
    const told = [...prepare({ ...base, avoid })].filter(
      ({ stage, total }) => stage === 'choosing-keys' && total === 2,
    );
    expect(told.map(({ done }) => done)).toEqual([0, 1]);
    expect(capacity({ ...base, avoid }).problems).toMatchObject([
      { code: 'no-deal-fits', tried: 2, proven: true },
    ]);
  });

  it('tries progression order where keys far apart leave gaps in the scattered one', () => {
    // 4 × 4 changes of two positions hold four that differ in both; taken as they come, scattered ones block each other
    const wide = [[1, 2, 3, 4], [], [], [], [1, 2, 3, 4]];
    const apart: SystemRequest = {
      ...base, levels: 2, array: wide, rules: NO_RULES, minimumDifference: 2, grands: [{ masters: [{ changeKeys: 4 }] }],
    }; // prettier-ignore
    for (let seed = 1; seed <= 12; seed++) {
      const result = runToEnd(prepare({ ...apart, order: 'scattered', seed }));
      if (!result.ok) throw new Error('four keys fit');
      const keys = result.grands[0]!.masters[0]!.changeKeys;
      expect(keys).toHaveLength(4);
      for (const [i, a] of keys.entries())
        for (const b of keys.slice(i + 1))
          expect(a.filter((cut, at) => cut !== b[at]).length).toBeGreaterThanOrEqual(2);
    }
  });
});

describe('the tests of a usable bitting', () => {
  it('are by name: the bittings ever used, and the cylinders that its keyway enters', () => {
    const chambers = pinnedFor(SPEC, [cutsOf(SPEC, '03160')]);
    const cylinders = [
      { id: 'C1', symbol: 'X', chambers, keyway: 'K1' },
      { id: 'C2', symbol: 'Y', chambers: pinnedFor(SPEC, [cutsOf(SPEC, '13160')]), keyway: 'K2' },
    ];
    const rules = { ...NO_RULES, alreadyUsed: true, operatesExisting: true };
    const tests = usableTests({ spec: SPEC, rules, avoid: [cutsOf(SPEC, '22222')], cylinders, keyway: 'K1' });
    expect(tests.map(({ rule }) => rule)).toEqual(['alreadyUsed', 'operatesExisting']);
    const passed = (code: string) => tests.map(({ passes }) => passes(cutsOf(SPEC, code)));
    expect(passed('22222')).toEqual([false, true]);
    expect(passed('03160')).toEqual([true, false]);
    expect(passed('13160')).toEqual([true, true]);
    const off = { ...rules, alreadyUsed: false, operatesExisting: false };
    expect(usableTests({ spec: SPEC, rules: off, avoid: [cutsOf(SPEC, '22222')], cylinders })).toEqual([]);
    expect(usableTests({ spec: SPEC, rules })).toEqual([]);
  });
});

describe('a test with a memory', () => {
  it('answers as the test does, and asks it once for each bitting of the array', () => {
    const array = [[1, 3], [], [0, 2, 4], [1], [2]];
    const top = cutsOf(SPEC, '03160');
    fc.assert(
      fc.property(
        fc.array(fc.array(fc.nat(7), { minLength: 5, maxLength: 5 }), { maxLength: 60 }),
        fc.nat(4),
        (list, modulus) => {
          const plain = (cuts: readonly number[]): boolean =>
            cuts.reduce((sum, cut) => sum + cut, 0) % (modulus + 1) === 0;
          const asked: string[] = [];
          const test = remembering(
            (cuts) => {
              asked.push(cuts.join(''));
              return plain(cuts);
            },
            SPEC,
            top,
            array,
          );
          // half of them of the array
          const near = list.map((cuts, n) =>
            n % 2 === 0 ? cuts : cuts.map((cut, i) => [top[i]!, ...array[i]!][cut % (array[i]!.length + 1)]!),
          );
          for (const cuts of [...near, ...near]) expect(test(cuts)).toBe(plain(cuts));
          const within = (code: string): boolean =>
            [...code].every((cut, i) => Number(cut) === top[i] || array[i]!.includes(Number(cut)));
          const known = asked.filter(within);
          expect(known.length).toBe(new Set(known).size);
        },
      ),
    );
  });

  it('keeps none where the array is too large for it', () => {
    let asked = 0;
    const array = Array.from({ length: 5 }, () => Array.from({ length: 30 }, (_, i) => i + 1));
    const count = (): boolean => (asked++, true);
    const test = remembering(count, SPEC, cutsOf(SPEC, '00000'), array);
    test([1, 1, 1, 1, 1]);
    test([1, 1, 1, 1, 1]);
    expect(asked).toBe(2);
    expect(test).toBe(count);
  });
});
