import { describe, expect, it } from 'vitest';
import { pinnedFor } from '../../../src/keying/cylinder.ts';
import { keyedAlike, keyedDifferentPool } from '../../../src/keying/grid/index.ts';
import { isUsable } from '../../../src/keying/rules.ts';
import { starterSpec } from '../../../src/keying/starters.ts';
import { runToEnd } from '../../../src/keying/system.ts';
import { noRules, smallSpec } from './charts.ts';

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
