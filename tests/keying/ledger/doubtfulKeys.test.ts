/**
 * Keys that can't be read beside a lost one. How many words a code with missing signs may stand for is known: the size
 * of an insertion ball, Σ C(n+t, i)·(q−1)^i for i = 0…t, whatever the word (Levenshtein, Binary codes capable of
 * correcting deletions, insertions and reversals, 1966; Efficient reconstruction of sequences, IEEE Trans. Inf. Theory
 * 47(1), 2001). That each of them is shut out is tried cut by cut.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatBitting } from '../../../src/keying/bitting.ts';
import { EVERY, hasDepth } from '../../../src/keying/depthSet.ts';
import { doubtOf, possibleBittings, sayDoubt } from '../../../src/keying/doubtfulKeys.ts';
import { freshBittings } from '../../../src/keying/freshBittings.ts';
import { evenTree, generateSystem } from '../../../src/keying/hierarchy.ts';
import { accessMap } from '../../../src/keying/access.ts';
import { auditInputOf } from '../../../src/keying/intended.ts';
import { liveKey, lostKeyScope } from '../../../src/keying/lostKey.ts';
import { runToEnd } from '../../../src/keying/system.ts';
import { plainSpec } from '../../support/systems.ts';

const SPEC = plainSpec({ positions: 6, depths: 10, increment: 0.015, macs: 9, step: 2 });

const made = runToEnd(
  generateSystem({
    name: 'Hall',
    spec: SPEC,
    levels: 3,
    grands: evenTree(3, { grands: 1, masters: 3, changeKeys: 4, doorsPerKey: 2 }),
    seed: 3,
  }),
);
if (!made.ok) throw new Error('the hall does not fit');
const { system, marks } = made;

function change(symbol: string) {
  const scope = lostKeyScope(system, accessMap(auditInputOf(system, marks)), liveKey(system, symbol));
  return { lost: symbol, changing: [...scope.exposed, ...scope.along] };
}

const cuts = fc.array(fc.nat(9), { minLength: 6, maxLength: 6 });

describe('what a code may stand for', () => {
  it('is itself where it can be read', () => {
    expect(possibleBittings(SPEC, '2-7-4-1-5-3')).toEqual([[2, 7, 4, 1, 5, 3]]);
  });

  it('is as many bittings as an insertion ball has words', () => {
    fc.assert(
      fc.property(cuts, fc.nat(5), fc.nat(4), (code, first, second) => {
        const five = code.filter((_, i) => i !== first);
        const four = five.filter((_, i) => i !== second);
        expect(possibleBittings(SPEC, five.join(''))).toHaveLength(1 + 6 * 9);
        expect(possibleBittings(SPEC, four.join(''))).toHaveLength(1 + 6 * 9 + 15 * 81);
      }),
      { numRuns: 30 },
    );
  });

  it('has the real one among it, whichever cut is missing or illegible', () => {
    fc.assert(
      fc.property(cuts, fc.nat(5), fc.boolean(), (code, at, missing) => {
        const text = code.map((cut, i) => (i === at ? (missing ? '' : 'l') : cut)).join('');
        expect(possibleBittings(SPEC, text)?.map(String)).toContain(code.join());
      }),
    );
  });

  it.each(['', '274', '2741531', 'lost', '2l4l5l'])('is not told for “%s”: it could be anything', (code) => {
    expect(possibleBittings(SPEC, code)).toBeUndefined();
  });
});

describe('a key that can’t be read', () => {
  const doubt = (row: object, lost = 'AB') =>
    doubtOf(system, marks, change(lost), { symbol: 'SKD4', code: '27413', status: 'issued', ...row });

  it('is shut out with every bitting it may have, whichever that is', () => {
    for (let at = 0; at < 6; at++) {
      // a change key of the next master, of which one cut can't be read
      const real = system.keys[liveKey(system, 'AC2')]!.bitting;
      const code = formatBitting(SPEC, real).replace(/\W/g, '');
      const found = doubt({ code: code.slice(0, at) + code.slice(at + 1) });
      if (found.kind !== 'limited') throw new Error(found.kind);
      expect(found.key.bittings.map(String)).toContain(String(real));
      const fresh = runToEnd(
        freshBittings({ system, marks, lost: liveKey(system, 'AB'), doubtful: [found.key] }),
      );
      if (!fresh.ok) throw new Error(JSON.stringify(fresh.problems));
      const possible = new Set(found.key.bittings.map(String));
      expect(fresh.keys.filter(({ record }) => possible.has(String(record.bitting)))).toEqual([]);
      for (const { cylinder, chambers } of fresh.cylinders)
        for (const bitting of found.key.bittings) {
          const opens = (sets: typeof chambers): boolean =>
            sets.every((set, i) => set === EVERY || hasDepth(set, bitting[i]!));
          // what it opened before, by cross-keying say, is not taken from it
          if (!opens(system.cylinders[cylinder]!.chambers)) expect(opens(chambers)).toBe(false);
        }
      expect(fresh.scope.replaced.every((k) => k < system.keys.length)).toBe(true);
    }
  });

  it.each([
    [{ status: 'free' }, 'unrelated'],
    [{ status: 'retired' }, 'limited'],
    [{ symbol: 'AB' }, 'lost'],
    [{ symbol: 'AC' }, 'above'],
    [{ symbol: '' }, 'above'],
    [{ symbol: 'AB2' }, 'meant'],
    [{ code: '' }, 'anything'],
    [{ code: '', keyway: 'K2' }, 'anything'],
  ] as const)('%j is %s', (row, expected) => {
    const found = doubt(row);
    expect(found.kind === 'bars' ? found.why : found.kind).toBe(expected);
    if (found.kind === 'bars') expect(sayDoubt(found)).toMatch(/^\p{L}.+\.$/u);
  });

  it('of a keyway that enters none of the doors that change is unrelated', () => {
    const cylinders = system.cylinders.map((c) => ({ ...c, keyway: 'K1' }));
    const found = doubtOf({ ...system, cylinders }, marks, change('AB'), {
      symbol: 'SKD4',
      code: '',
      keyway: 'K2',
    });
    expect(found.kind).toBe('unrelated');
  });
});
