/**
 * Keys that can't be read beside a lost one. How many words a code with missing signs may stand for is known: the size
 * of an insertion ball, Σ C(n+t, i)·(q−1)^i for i = 0…t, whatever the word (Levenshtein, Binary codes capable of
 * correcting deletions, insertions and reversals, 1966; Efficient reconstruction of sequences, IEEE Trans. Inf. Theory
 * 47(1), 2001). That each of them is shut out is tried cut by cut.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf, formatBitting } from '../../../src/keying/bitting.ts';
import { depthSetOf, EVERY, hasDepth } from '../../../src/keying/depthSet.ts';
import {
  doubtOf,
  possibleBittings,
  recordsOf,
  sayDoubt,
  type UnreadKey,
} from '../../../src/keying/doubtfulKeys.ts';
import { freshBittings } from '../../../src/keying/freshBittings.ts';
import { evenTree, generateSystem } from '../../../src/keying/hierarchy.ts';
import { accessMap } from '../../../src/keying/access.ts';
import { auditInputOf, type Mark } from '../../../src/keying/intended.ts';
import { liveKey, lostKeyScope } from '../../../src/keying/lostKey.ts';
import { runToEnd, type KeyRecord, type KeySystem } from '../../../src/keying/system.ts';
import { inches } from '../../../src/keying/units.ts';
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

describe('codes of other specs', () => {
  const lettered = (symbols: string[], positions = 4) => ({
    ...plainSpec({ positions, depths: symbols.length, increment: 0.015, macs: 2, step: 2 }),
    depths: symbols.map((symbol, i) => ({ symbol, root: inches(0.33 - i * 0.015) })),
  });

  it('may be letters, in either case and with signs between', () => {
    const spec = lettered(['A', 'b', 'C']);
    expect(possibleBittings(spec, 'abca')).toEqual([[0, 1, 2, 0]]);
    const ball = possibleBittings(spec, 'a-B.c')!;
    // one of four places, three depths
    expect(ball).toHaveLength(1 + 4 * 2);
    for (const found of ball)
      expect([0, 1, 2, 3].some((at) => found.filter((_, i) => i !== at).join('') === '012')).toBe(true);
    expect(possibleBittings(spec, 'aZbc')).toEqual([0, 1, 2].map((d) => [0, d, 1, 2]));
  });

  it('are told only whole where a depth has more than one sign', () => {
    const spec = lettered(['8', '9', '10']);
    expect(possibleBittings(spec, '8-10-9-9')).toEqual([[0, 2, 1, 1]]);
    expect(possibleBittings(spec, '8-9-9')).toBeUndefined();
  });

  it('are too many beyond two thousand', () => {
    // Σ C(6, i)·14^i for i = 0…2 is 1 + 84 + 2,940; with 11 depths 1 + 60 + 1,500
    const wide = (depths: number) => lettered([...'ABCDEFGHJKLMNPR'].slice(0, depths), 6);
    expect(possibleBittings(wide(15), 'ABCD')).toBeUndefined();
    expect(possibleBittings(wide(11), 'ABCD')).toHaveLength(1561);
    expect(possibleBittings(wide(15), 'ABCDE')).toHaveLength(1 + 6 * 14);
  });
});

describe('what an unread key has to do with a change', () => {
  // keyed by hand: A over AA and AB; doors D1 and D2 of AA's keys change
  const small = plainSpec({ positions: 4, depths: 10, increment: 0.015, macs: 9, step: 2 });
  const key = (symbol: string, code: string, parent?: string): KeyRecord => ({
    symbol,
    level: 'CK',
    bitting: bittingOf(small, [...code].map(Number)),
    status: 'issued',
    ...(parent !== undefined && { parent }),
  });
  const door = (id: string, symbol: string, over: object = {}) => ({
    id,
    symbol,
    chambers: [1, 3, 5, 7].map((d) => depthSetOf([d])),
    ...over,
  });
  const hall: KeySystem = {
    name: 'Hall',
    spec: small,
    keys: [key('A', '1357'), key('AA', '1359', 'A'), key('AA1', '1337', 'AA'), key('AA2', '1137', 'AA')],
    cylinders: [door('D1', 'AA1'), door('D2', 'AA2'), door('D3', 'AB1'), door('D4', 'AB9')],
  };
  const row = { symbol: 'ZZ', code: '135' };
  const say = (unread: Partial<UnreadKey>, given: Partial<KeySystem> = {}, listed: Mark[] = []): string => {
    const found = doubtOf(
      { ...hall, ...given },
      listed,
      { lost: 'AA', changing: [0, 1] },
      { ...row, ...unread },
    );
    return found.kind === 'bars' ? found.why : found.kind;
  };

  it('is nothing where it has no key, and only its bittings where it is out of use', () => {
    expect(say({ status: 'free', symbol: 'aa' })).toBe('unrelated');
    for (const status of ['void', 'retired'] as const)
      for (const symbol of ['AA', 'A', '', 'AA1']) expect(say({ status, symbol })).toBe('limited');
  });

  it.each([undefined, 'issued', 'reserved'] as const)('bars by its symbol, status %s', (status) => {
    const given = status === undefined ? {} : { status };
    expect(say({ ...given, symbol: ' aa ' })).toBe('lost');
    expect(say({ ...given, symbol: 'a' })).toBe('above');
    expect(say({ ...given, symbol: '' })).toBe('above');
    expect(say({ ...given, symbol: 'AA1' })).toBe('meant');
    expect(say({ ...given, symbol: 'aa2' })).toBe('meant');
    expect(say({ ...given, symbol: 'AB1' })).toBe('limited');
    expect(say({ ...given, code: '' })).toBe('anything');
  });

  it('bars as a key above only where keys in use stand under it', () => {
    const under = (status: KeyRecord['status']) => ({
      keys: [...hall.keys, { ...key('B1', '1377', ' b '), status }],
    });
    expect(say({ symbol: 'B' }, under('issued'))).toBe('above');
    expect(say({ symbol: 'B' }, under('reserved'))).toBe('above');
    expect(say({ symbol: 'B' }, under('retired'))).toBe('limited');
    // nobody knows what stands under a key without a symbol, even where each key names another
    expect(say({ symbol: ' ' }, { keys: hall.keys.map((k) => ({ ...k, parent: 'A' })) })).toBe('above');
  });

  it('bars by a mark of a door that changes, and not by one of another', () => {
    expect(say({}, {}, [{ key: 'zz', cylinder: ' d2' }])).toBe('meant');
    expect(say({}, {}, [{ key: 'AA1', cylinder: 'D2' }])).toBe('limited');
    expect(say({}, {}, [{ key: 'ZZ', cylinder: 'D3' }])).toBe('limited');
    expect(
      say({}, {}, [
        { key: 'ZZ', cylinder: 'D3' },
        { key: 'ZZ', cylinder: 'D1' },
      ]),
    ).toBe('meant');
  });

  it('bars as a control key where a core changes', () => {
    const control = bittingOf(small, [9, 9, 9, 9]);
    const cores = (...ids: string[]) => ({
      cylinders: hall.cylinders.map((c) => (ids.includes(c.id) ? { ...c, control } : c)),
    });
    expect(say({ level: 'control' }, cores('D2'))).toBe('meant');
    expect(say({ level: 'control' }, cores('D3'))).toBe('limited');
    expect(say({ level: 'CK' }, cores('D1', 'D2'))).toBe('limited');
  });

  it('is nothing where its blank enters none of the doors that change; its keyway goes with its bittings', () => {
    const keyed = (...keyways: string[]) => ({
      cylinders: hall.cylinders.map((c, n) => ({ ...c, keyway: keyways[n] ?? 'K9' })),
    });
    expect(say({ keyway: 'K1' }, keyed('K2', 'K3'))).toBe('unrelated');
    expect(say({ keyway: 'K3' }, keyed('K2', 'K3'))).toBe('limited');
    expect(say({}, keyed('K2', 'K3'))).toBe('limited');
    const limited = (keyway?: string) =>
      doubtOf(hall, [], { lost: 'AA', changing: [0] }, { ...row, ...(keyway !== undefined && { keyway }) });
    const bittings = possibleBittings(small, '135')!;
    expect(limited()).toEqual({ kind: 'limited', key: { symbol: 'ZZ', bittings } });
    expect(limited('K1')).toEqual({ kind: 'limited', key: { symbol: 'ZZ', bittings, keyway: 'K1' } });
    const [first] = recordsOf([{ symbol: 'ZZ', bittings, keyway: 'K1' }]);
    expect(first).toEqual({
      symbol: 'ZZ',
      level: 'single',
      status: 'void',
      bitting: bittings[0],
      keyway: 'K1',
    });
    expect(recordsOf([{ symbol: 'ZZ', bittings }])).toEqual(
      bittings.map((bitting) => ({ symbol: 'ZZ', level: 'single', status: 'void', bitting })),
    );
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
