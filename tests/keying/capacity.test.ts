import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  capacity,
  defaultArray,
  evenTree,
  generateSystem,
  isUsable,
  type CapacityFigures,
  type Deal,
  type SystemRequest,
} from '../../src/keying/index.ts';
import { DEFAULT_RULES, NO_RULES, type Rules } from '../../src/keying/rules.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { cutsOf, plainSpec } from '../support/systems.ts';

const SPEC = plainSpec({ positions: 5, depths: 8, increment: 0.015, macs: 3 });

/** Every mixture of the top master's cuts and the array's, as [cuts, chambers that are the top master's]. */
function mixtures(topMaster: readonly number[]): number[][] {
  const array = defaultArray(SPEC, cutsOf(SPEC, topMaster.join('')));
  return array.reduce<number[][]>(
    (heads, choices, i) => heads.flatMap((head) => [topMaster[i]!, ...choices].map((cut) => [...head, cut])),
    [[]],
  );
}

/** The rules that have a switch here, by their definitions. */
const BY_DEFINITION = {
  macs: (cuts: readonly number[]) => cuts.every((cut, i) => i === 0 || Math.abs(cut - cuts[i - 1]!) <= 3),
  fewDepths: (cuts: readonly number[]) => new Set(cuts).size >= 3,
  equalRun: (cuts: readonly number[]) => !/(.)\1\1\1/.test(cuts.join('')),
};

/** Usable change keys by the definition: in full, with every key above cut back to the top master's. */
function byBruteForce(topMaster: readonly number[], deal: Deal, levels: readonly string[], rules: Rules) {
  const passes = (cuts: readonly number[]): boolean => isUsable(SPEC, cuts, rules);
  const groups = new Map<string, number>();
  const masters = new Map<string, Set<string>>();
  const names = (['macs', 'fewDepths', 'equalRun'] as const).filter((rule) => rules[rule]);
  const costs = [...names, ...(levels.length > 1 ? (['keyAbove'] as const) : [])].map((rule) => ({
    rule,
    alone: 0,
    inOrder: 0,
  }));
  let theoretical = 0;
  let usable = 0;
  for (const cuts of mixtures(topMaster)) {
    if (cuts.some((cut, i) => (deal[i] === 'constant') !== (cut === topMaster[i]))) continue;
    theoretical++;
    const above = levels
      .slice(0, -1)
      .map((_, depth) => cuts.map((cut, i) => (levels.indexOf(deal[i]!) <= depth ? cut : topMaster[i]!)));
    const broken = costs.filter(({ rule }) =>
      rule === 'keyAbove' ? !above.every(passes) : !BY_DEFINITION[rule](cuts),
    );
    broken.forEach((cost) => cost.alone++);
    if (broken[0]) broken[0].inOrder++;
    if (above.length > 1 && passes(above[0]!) && !masters.has(above[0]!.join('')))
      masters.set(above[0]!.join(''), new Set());
    if (!above.every(passes)) continue;
    if (levels.length > 2) masters.get(above[0]!.join(''))!.add(above[1]!.join(''));
    const group = (above.at(-1) ?? topMaster).join('');
    groups.set(group, (groups.get(group) ?? 0) + (passes(cuts) ? 1 : 0));
    if (passes(cuts)) usable++;
  }
  const sizes = [...groups.values()];
  const changesOf = (level: string): number =>
    deal.reduce<number>(
      (product, dealt, i) =>
        dealt === level
          ? product * new Set(mixtures(topMaster).map((cuts) => cuts[i])).size - product
          : product,
      1,
    );
  const perGrand = levels.length === 3 ? [...masters.values()].map((set) => set.size) : [groups.size];
  return {
    theoretical,
    usable,
    changeKeys: { theoretical: changesOf('CK'), smallest: Math.min(...sizes), largest: Math.max(...sizes) },
    masters:
      levels.length > 1
        ? { theoretical: changesOf('MK'), smallest: Math.min(...perGrand), largest: Math.max(...perGrand) }
        : undefined,
    grands: levels.length > 2 ? { theoretical: changesOf('GMK'), usable: masters.size } : undefined,
    costs,
  };
}

describe('capacity', () => {
  const cases = fc.record({
    levels: fc.constantFrom(2 as const, 3 as const, 4 as const),
    code: fc.array(fc.nat({ max: 7 }), { minLength: 5, maxLength: 5 }),
    deal: fc.array(fc.constantFrom('GMK' as const, 'MK' as const, 'CK' as const, 'constant' as const), {
      minLength: 5,
      maxLength: 5,
    }),
    rules: fc.record({ macs: fc.boolean(), fewDepths: fc.boolean(), equalRun: fc.boolean() }),
  });

  it('counts what an enumeration counts: changes, usable ones, groups of each level, and what each rule costs', () => {
    let compared = 0;
    fc.assert(
      fc.property(cases, ({ levels, code, deal, rules: switches }) => {
        const names = levels === 2 ? ['CK'] : levels === 3 ? ['MK', 'CK'] : ['GMK', 'MK', 'CK'];
        const dealt = deal.map((level) =>
          names.includes(level) ? level : level === 'constant' ? level : 'CK',
        );
        fc.pre(names.every((name) => dealt.includes(name as 'CK')));
        const rules = { ...DEFAULT_RULES, ...switches };
        const topMaster = cutsOf(SPEC, code.join(''));
        fc.pre(isUsable(SPEC, topMaster, rules));
        const { figures } = capacity({
          name: 'x',
          spec: SPEC,
          levels,
          topMaster,
          deal: dealt,
          rules,
          grands: evenTree(levels, { changeKeys: 1 }),
        });
        const expected = byBruteForce(topMaster, dealt, names, rules);
        if (expected.changeKeys.smallest === Infinity) return;
        compared++;
        const given = { topMaster: undefined, array: undefined, deal: undefined };
        expect({ ...figures, ...given }).toEqual(expected);
        // What the rules cost in order adds up to what they cost together.
        const cost = figures!.costs!.reduce((sum, { inOrder }) => sum + inOrder, 0);
        expect(figures!.theoretical - cost).toBe(figures!.usable);
        for (const { alone, inOrder } of figures!.costs!) expect(inOrder).toBeLessThanOrEqual(alone);
      }),
      { numRuns: 150 },
    );
    expect(compared).toBeGreaterThan(100);
  });

  const figuresOf = (request: SystemRequest): CapacityFigures => capacity(request).figures!;
  const two = (changeKeys: number): SystemRequest => ({
    name: 'x',
    spec: SPEC,
    levels: 2,
    topMaster: cutsOf(SPEC, '24354'),
    grands: evenTree(2, { changeKeys }),
  });

  it('fits exactly as many change keys as are usable', () => {
    const { usable, theoretical } = figuresOf(two(1));
    expect(usable).toBeLessThan(theoretical);
    expect(capacity(two(usable!)).fits).toBe(true);
    const short = capacity(two(usable! + 1));
    expect(short.problems).toEqual([
      { code: 'no-deal-fits', level: 'CK', needed: usable! + 1, possible: usable, tried: 1, proven: true },
    ]);
  });

  it('fits unlike groups that only fit one way round', () => {
    // Groups of three positions' changes differ in size under MACS: the largest must go to the roomiest master.
    const topMaster = cutsOf(SPEC, '24354');
    const deal: Deal = ['MK', 'MK', 'CK', 'CK', 'CK'];
    const one = (changeKeys: number): SystemRequest => ({
      name: 'x',
      spec: SPEC,
      levels: 3,
      topMaster,
      deal,
      grands: [{ masters: [{ changeKeys }] }],
    });
    const { smallest, largest } = figuresOf(one(1)).changeKeys!;
    expect(smallest).toBeLessThan(largest);
    const mixed = (sizes: number[]): SystemRequest => ({
      ...one(1),
      grands: [{ masters: sizes.map((changeKeys) => ({ changeKeys })) }],
    });
    expect(capacity(mixed([1, 1, largest])).fits).toBe(true);
    expect(capacity(mixed([largest, 1, 1])).fits).toBe(true);
    expect(capacity(mixed([largest + 1])).problems).toEqual([
      { code: 'group-too-small', level: 'CK', needed: largest + 1, possible: largest },
    ]);
  });

  it('doesn’t count one by one what is too much to, and says so by leaving it out', () => {
    const large = plainSpec({ positions: 8, depths: 10, increment: 0.025, macs: 9 });
    const { theoretical, usable } = figuresOf({
      name: 'x',
      spec: large,
      levels: 3,
      grands: evenTree(3, { masters: 40, changeKeys: 100 }),
    });
    expect(theoretical).toBe(9 ** 8);
    expect(usable).toBeUndefined();
  });
});

describe('what can’t be made', () => {
  const problems = (request: Partial<SystemRequest>) =>
    capacity({
      name: 'x',
      spec: SPEC,
      levels: 3,
      grands: evenTree(3, { masters: 2, changeKeys: 3 }),
      topMaster: cutsOf(SPEC, '24354'),
      ...request,
    }).problems;

  it('is said with its reason', () => {
    expect(problems({})).toEqual([]);
    expect(problems({ grands: evenTree(3, { changeKeys: 0 }) })).toEqual([{ code: 'nothing-wanted' }]);
    expect(problems({ deal: ['MK', 'CK'] })).toEqual([{ code: 'deal-length', found: 2, expected: 5 }]);
    expect(problems({ deal: ['CK', 'CK', 'CK', 'CK', 'CK'] })).toEqual([{ code: 'deal-bad', level: 'MK' }]);
    expect(problems({ deal: ['GMK', 'MK', 'CK', 'CK', 'CK'] })).toEqual([{ code: 'deal-bad', level: 'GMK' }]);
    expect(problems({ array: [[2], [6], [1], [7], [6]] })).toEqual([
      { code: 'array-master-cut', chamber: 1, symbol: '2' },
    ]);
    expect(problems({ topMaster: cutsOf(SPEC, '22222') })).toEqual([
      { code: 'top-master-unusable' },
      { code: 'few-depths', found: 1, least: 3 },
      { code: 'equal-run', symbol: '2', first: 1, length: 5, most: 3 },
    ]);
    const twice = { symbol: 'AB', changeKeys: 1 };
    expect(problems({ grands: [{ masters: [twice, twice] }] })).toEqual([
      { code: 'symbol-repeated', symbol: 'AB' },
    ]);
    expect(problems({ levels: 4, grands: evenTree(4, { grands: 24, changeKeys: 1 }) })).toEqual([
      { code: 'letters-used-up', level: 'GMK', possible: 23 },
    ]);
    const closed = { ...DEFAULT_RULES, leastDepths: 8 };
    expect(
      runToEnd(
        generateSystem({
          name: 'x',
          spec: SPEC,
          levels: 2,
          rules: closed,
          grands: evenTree(2, { changeKeys: 1 }),
        }),
      ),
    ).toMatchObject({ ok: false, problems: [{ code: 'no-top-master' }] });
  });

  it('a minimum difference costs what coding theory allows at most', () => {
    // Singleton bound: keys of p positions of q choices that differ in d chambers number at most q^(p − d + 1).
    const spec = plainSpec({ positions: 4, depths: 10, increment: 0.0125, macs: 9, step: 2 });
    const request = (changeKeys: number): SystemRequest => ({
      name: 'x',
      spec,
      levels: 2,
      rules: NO_RULES,
      order: 'scattered',
      minimumDifference: 2,
      topMaster: cutsOf(spec, '2468'),
      grands: evenTree(2, { changeKeys }),
    });
    expect(capacity(request(4 ** 3)).fits).toBe(true);
    expect(capacity(request(4 ** 3 + 1)).problems).toMatchObject([{ code: 'no-deal-fits', possible: 64 }]);
  });
});
