import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  checkBittings,
  DEFAULT_RULES,
  findDuplicates,
  findNearPairs,
  inches,
  lengthOf,
  NO_RULES,
  bittingOf,
  type Bitting,
} from '../../src/keying/index.ts';
import { keysArbitrary } from '../support/keyingArbitraries.ts';
import { key, starter } from '../support/keys.ts';

const six = starter('S-018-6');
const keys = (...codes: string[]) => codes.map((code) => key(six, code));

describe('findDuplicates', () => {
  it('groups the places of equal bittings in the order of the first', () => {
    const list = keys('274153', '472351', '274153', '135246', '472351', '274153');
    expect(findDuplicates(six, list)).toEqual([
      [0, 2, 5],
      [1, 4],
    ]);
    expect(findDuplicates(six, keys('274153', '472351'))).toEqual([]);
    expect(findDuplicates(six, [])).toEqual([]);
  });
});

describe('findNearPairs', () => {
  it('finds pairs that differ in one chamber by less than the limit', () => {
    const list = keys('274153', '274154', '274155', '374153', '374154');
    const near = (a: number, b: number, chamber: number) => ({ a, b, chamber, thousandths: 18 });
    expect(findNearPairs(six, list, inches(0.02))).toEqual([
      near(0, 3, 1),
      near(1, 4, 1),
      near(0, 1, 6),
      near(1, 2, 6),
      near(3, 4, 6),
    ]);
    expect(findNearPairs(six, list, inches(0.018))).toEqual([]);
  });

  it('finds what comparing every pair finds', () => {
    fc.assert(
      fc.property(keysArbitrary(12), fc.integer({ min: 0, max: 2_000_000 }), ({ spec, bittings }, within) => {
        // few depths, so that near pairs come up
        const list = bittings.map((bitting) =>
          bittingOf(
            spec,
            bitting.map((index, i) => (i < 3 ? index % 2 : 0)),
          ),
        );
        const wanted: string[] = [];
        list.forEach((a, i) =>
          list.slice(i + 1).forEach((b, k) => {
            const differ = differingIn(a, b);
            const [chamber] = differ;
            if (differ.length !== 1) return;
            const roots = [a, b].map((key) => spec.depths[key[chamber!]!]!.root);
            if (Math.abs(roots[0]! - roots[1]!) < within) wanted.push(`${i} ${i + 1 + k} ${chamber! + 1}`);
          }),
        );
        const found = findNearPairs(spec, list, lengthOf(within)).map((p) => `${p.a} ${p.b} ${p.chamber}`);
        expect(found.sort()).toEqual(wanted.sort());
      }),
    );
  });

  const differingIn = (a: Bitting, b: Bitting): number[] =>
    a.flatMap((index, i) => (index === b[i] ? [] : [i]));
});

describe('checkBittings', () => {
  const named = (...codes: string[]) =>
    codes.map((code, i) => ({ symbol: `AA${i + 1}`, bitting: key(six, code) }));

  it('tells each of a pair about the other', () => {
    const found = checkBittings(six, named('274153', '472351', '274153', '274153', '472352'));
    expect(found).toEqual([
      [{ code: 'duplicate', of: 'AA3' }],
      [{ code: 'near-miss', other: 'AA5', chamber: 6, thousandths: 18 }],
      [{ code: 'duplicate', of: 'AA1' }],
      [{ code: 'duplicate', of: 'AA1' }],
      [{ code: 'near-miss', other: 'AA2', chamber: 6, thousandths: 18 }],
    ]);
  });

  it('keeps what is wrong with each by itself, and the switches', () => {
    const list = named('999933', '999933');
    expect(checkBittings(six, list)[0]!.map((f) => f.code)).toEqual([
      'macs',
      'few-depths',
      'equal-run',
      'duplicate',
    ]);
    expect(checkBittings(six, list, NO_RULES)).toEqual([[], []]);
    expect(checkBittings(six, list, { ...NO_RULES, duplicate: true }).flat()).toHaveLength(2);
  });

  it('does not hold a key of the system against itself', () => {
    const list = named('274153');
    const context = { masters: list };
    expect(checkBittings(six, list, DEFAULT_RULES, context)).toEqual([[]]);
  });
});
