/**
 * New bittings after a loss against the plain definition of what opens what: each key, each door, before and after.
 * Keys of no hierarchy first, whose doors anybody may share; then a small hall of two levels and of three.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { pinnedFor } from '../../../src/keying/cylinder.ts';
import { depthSetOf, hasDepth } from '../../../src/keying/depthSet.ts';
import {
  freshBittings,
  systemAfter,
  type FreshResult,
  type LostKeyRequest,
} from '../../../src/keying/freshBittings.ts';
import { evenTree, generateSystem } from '../../../src/keying/hierarchy.ts';
import type { Mark } from '../../../src/keying/intended.ts';
import { isUsable } from '../../../src/keying/rules.ts';
import { runToEnd, type Chambers, type KeyRecord, type KeySystem } from '../../../src/keying/system.ts';
import { plainSpec } from '../../support/systems.ts';

const small = plainSpec({ positions: 4, depths: 6, increment: 0.025, macs: 5 });
const cuts = (code: string) => bittingOf(small, [...code].map(Number));
const fits = (chambers: Chambers, bitting: readonly number[]): boolean =>
  chambers.every((set, i) => hasDepth(set, bitting[i]!));
const single = (symbol: string, code: string, over: Partial<KeyRecord> = {}): KeyRecord => ({
  symbol,
  level: 'single',
  bitting: cuts(code),
  status: 'issued',
  ...over,
});
const find = (request: LostKeyRequest): FreshResult => runToEnd(freshBittings(request));
const sound = (request: LostKeyRequest): Extract<FreshResult, { ok: true }> => {
  const result = find(request);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result;
};

/** A house of single keys: doors by the symbols of their keys. */
function house(
  keys: readonly KeyRecord[],
  doors: Record<string, string>,
): { system: KeySystem; marks: Mark[] } {
  const named = (symbol: string): KeyRecord => keys.find((key) => key.symbol === symbol)!;
  const cylinders = Object.entries(doors).map(([id, symbols]) => ({
    id,
    symbol: symbols.split(' ')[0]!,
    chambers: pinnedFor(
      small,
      symbols.split(' ').map((symbol) => named(symbol).bitting),
    ),
  }));
  const marks = Object.entries(doors).flatMap(([cylinder, symbols]) =>
    symbols.split(' ').map((key) => ({ key, cylinder })),
  );
  return { system: { name: 'House', spec: small, keys, cylinders }, marks };
}

/** All bittings that have each cut from one or the other. */
const mixtures = (a: readonly number[], b: readonly number[]) =>
  Array.from({ length: 16 }, (_, n) =>
    bittingOf(
      small,
      a.map((cut, i) => ((n >> i) & 1 ? b[i]! : cut)),
    ),
  ).filter((c) => c.join() !== a.join() && c.join() !== b.join());

describe('a lost key of no hierarchy', () => {
  const { system, marks } = house([single('M', '0123'), single('S', '3210'), single('T', '5050')], {
    D1: 'S M',
    D2: 'T',
  });
  const lost = { system, marks, lost: 1 };

  it('gets a bitting that is new, usable and opens no other door, and its door is pinned for it', () => {
    const code = fc.tuple(fc.nat(5), fc.nat(5), fc.nat(5), fc.nat(5)).map((c) => c.join(''));
    let found = 0;
    fc.assert(
      fc.property(
        fc.uniqueArray(code, { minLength: 3, maxLength: 6 }),
        fc.array(fc.subarray([0, 1, 2], { minLength: 1 }), { minLength: 2, maxLength: 4 }),
        fc.constantFrom('free' as const, 'retired' as const, 'void' as const, 'issued' as const),
        fc.nat(20),
        (codes, doors, status, seed) => {
          const keys = codes.map((c, k) =>
            single(`K${k}`, c, k > 2 ? { status } : k === 2 ? { level: 'CK', status: 'reserved' } : {}),
          );
          const made = house(
            keys,
            Object.fromEntries(doors.map((list, d) => [`D${d}`, list.map((k) => `K${k}`).join(' ')])),
          );
          const at = seed % 3;
          const result = find({ ...made, lost: at, seed });
          if (!result.ok) {
            // what was drawn opens no door that stays as it is; only listed keys may stand in the way
            const pinned = [...(result.scope?.exposed ?? []), ...(result.scope?.along ?? [])];
            const ids = pinned.map((c) => made.system.cylinders[c]!.id);
            for (const problem of result.problems)
              for (const f of problem.code === 'audit-failed' ? problem.findings : [])
                expect('cylinder' in f && ids.includes(f.cylinder)).toBe(true);
            return;
          }
          found++;
          const { keys: fresh, cylinders, scope } = result;
          expect(fresh.map(({ replaces }) => replaces)).toContain(at);
          expect(fresh.map(({ replaces }) => replaces).sort()).toEqual([...scope.replaced].sort());
          const now = systemAfter(made.system, scope, fresh, cylinders);
          for (const { record, replaces } of fresh) {
            expect(record).toEqual({ ...keys[replaces]!, bitting: record.bitting });
            expect(isUsable(small, record.bitting)).toBe(true);
            expect(keys.some((k) => k.status !== 'free' && k.bitting.join() === record.bitting.join())).toBe(
              false,
            );
          }
          expect(result.pairsAudited).toBe(now.keys.length * now.cylinders.length);
          now.cylinders.forEach(({ id, chambers }, c) => {
            const old = made.system.cylinders[c]!.chambers;
            const changed = cylinders.some(({ cylinder }) => cylinder === c);
            expect(changed).toBe(scope.exposed.includes(c) || scope.along.includes(c));
            if (!changed) expect(chambers).toEqual(old);
            expect(fits(chambers, keys[at]!.bitting)).toBe(false);
            for (const key of now.keys) {
              if (key.status === 'free') continue;
              const live = key.status === 'issued' || key.status === 'reserved';
              const meant = live && made.marks.some((m) => m.key === key.symbol && m.cylinder === id);
              const isNew = fresh.some(({ record }) => record === key);
              if (meant) expect(fits(chambers, key.bitting)).toBe(true);
              else if (isNew || !fits(old, key.bitting)) expect(fits(chambers, key.bitting)).toBe(false);
            }
          });
        },
      ),
      { numRuns: 150 },
    );
    expect(found).toBeGreaterThan(30);
  });

  it('is refused where a listed key would open the door pinned anew, and that is said', () => {
    const [fresh] = sound(lost).keys;
    const [stranger] = mixtures(fresh!.record.bitting, cuts('0123'));
    const listed = {
      ...lost,
      system: { ...system, keys: [...system.keys, { ...single('X', '0000'), bitting: stranger! }] },
    };
    const result = find(listed);
    expect(result).toMatchObject({
      ok: false,
      problems: [{ code: 'audit-failed', findings: [{ code: 'interchange', key: 'X', cylinder: 'D1' }] }],
    });
    expect(result.scope?.replaced).toEqual([1]);
    // a bitting that nobody has any more is a stranger too, one that is free is not
    const with_ = (status: KeyRecord['status']) =>
      find({
        ...listed,
        system: { ...system, keys: [...system.keys, { ...single('X', '0000'), bitting: stranger!, status }] },
      });
    expect(with_('void').ok).toBe(false);
    expect(with_('free').ok).toBe(true);
  });

  it('is drawn anew, up to five times, where only a key that can’t be read would open the door', () => {
    const firsts = [1, 2, 3, 4, 5].map((seed) => sound({ ...lost, seed }).keys[0]!.record.bitting);
    const door = (bitting: KeyRecord['bitting']) => pinnedFor(small, [bitting, cuts('0123')]);
    // for each of the first draws a bitting that its door would let in, and the door of no later draw
    const shut = (n: number) =>
      firsts
        .slice(0, n)
        .map((bitting) =>
          mixtures(bitting, cuts('0123')).find(
            (c) => !firsts.slice(n).some((later) => fits(door(later), c)),
          )!,
        );
    const doubtful = (n: number, symbol = '?') => [{ symbol, bittings: shut(n) }];
    for (const n of [1, 4]) {
      const result = sound({ ...lost, doubtful: doubtful(n) });
      expect(result.keys[0]!.record.bitting).toEqual(firsts[n]);
      for (const bitting of shut(n)) expect(fits(result.cylinders[0]!.chambers, bitting)).toBe(false);
    }
    expect(find({ ...lost, doubtful: doubtful(5) })).toMatchObject({ problems: [{ code: 'audit-failed' }] });
    expect(sound({ ...lost, seed: 3, doubtful: doubtful(4) }).keys[0]!.record.bitting).toEqual(firsts[4]);
    // with a listed key among them another draw is no excuse
    const [stranger] = mixtures(firsts[0]!, cuts('0123'));
    const keys = [...system.keys, { ...single('X', '0000'), bitting: stranger! }];
    const both = find({ ...lost, system: { ...system, keys }, doubtful: doubtful(1) });
    expect(both.ok ? [] : both.problems).toMatchObject([{ code: 'audit-failed' }]);
  });

  it('is not held against what is wrong today', () => {
    // X opens D2 already, where it should not, and its pin there is too thin
    const faulty = house(
      [single('M', '0123'), single('S', '3210'), single('T', '5050'), single('X', '5050')],
      {
        D1: 'S M',
        D2: 'T',
      },
    );
    expect(find({ ...faulty, lost: 1 }).ok).toBe(true);
  });

  it('is refused where it is out of use or a control key, before anything is looked for', () => {
    for (const status of ['free', 'void', 'retired'] as const)
      expect(
        find({ ...lost, system: { ...system, keys: [system.keys[0]!, single('S', '3210', { status })] } }),
      ).toEqual({
        ok: false,
        problems: [{ code: 'not-in-use', symbol: 'S' }],
      });
    const keys = [system.keys[0]!, single('S', '3210', { level: 'control' })];
    expect(find({ ...lost, system: { ...system, keys } })).toEqual({
      ok: false,
      problems: [{ code: 'control-lost' }],
    });
  });

  it('has none where every usable bitting is used', () => {
    const narrow = plainSpec({ positions: 4, depths: 2, increment: 0.025, macs: 1 });
    const all = Array.from({ length: 16 }, (_, n) => [0, 1, 2, 3].map((i) => (n >> i) & 1))
      .map((c) => bittingOf(narrow, c))
      .filter((c) => isUsable(narrow, c));
    const keys = all.map((bitting, k): KeyRecord => ({ ...single(`K${k}`, '0000'), bitting }));
    const full: KeySystem = {
      name: 'Full',
      spec: narrow,
      keys,
      cylinders: [{ id: 'D1', symbol: 'K0', chambers: all[0]!.map((d) => depthSetOf([d])) }],
    };
    const request = { system: full, marks: [{ key: 'K0', cylinder: 'D1' }], lost: 0 };
    expect(find(request)).toMatchObject({ ok: false, problems: [{ code: 'no-bitting', symbol: 'K0' }] });
    const some = {
      ...full,
      keys: keys.map((key, k) => (k === 3 ? { ...key, status: 'free' as const } : key)),
    };
    expect(sound({ ...request, system: some }).keys[0]!.record.bitting).toEqual(all[3]);
  });
});

describe('a lost key of a small hall', () => {
  const six = plainSpec({ positions: 6, depths: 6, increment: 0.025, macs: 5 });
  const hall = (levels: 2 | 3 | 4) => {
    const made = runToEnd(
      generateSystem({
        name: 'Hall',
        spec: six,
        levels,
        grands: evenTree(levels, { grands: 2, masters: 2, changeKeys: 2 }),
        seed: 4,
      }),
    );
    if (!made.ok) throw new Error('the hall does not fit');
    return made;
  };

  it.each([
    [2, '1AA', '1AA'],
    [3, 'AA', 'AA AA1 AA2'],
    [3, 'AB2', 'AB2'],
    [4, 'A', 'A AA AB AA1 AA2 AB1 AB2'],
    [4, 'BB', 'BB BB1 BB2'],
  ] as const)(
    'of %i levels, %s: the lost one opens nothing, all others what they did',
    (levels, symbol, replaced) => {
      const { system: listed, marks } = hall(levels);
      // the top master need not stand first
      const system = { ...listed, keys: [...listed.keys].reverse() };
      const lost = system.keys.findIndex((key) => key.symbol === symbol);
      const parentOf = (key: KeyRecord, keys: readonly KeyRecord[]) =>
        keys.find((other) => other.symbol === key.parent && other.status === 'issued')!;
      // chambers in which keys of a level depart from the key above them today
      const moved = (level: KeyRecord['level']): number[] =>
        [0, 1, 2, 3, 4, 5].filter((i) =>
          system.keys.some(
            (key) =>
              key.level === level && key.parent && key.bitting[i] !== parentOf(key, system.keys).bitting[i],
          ),
        );
      const { keys, cylinders, scope, topMaster, array } = sound({ system, marks, lost });
      expect(keys.map(({ replaces }) => system.keys[replaces]!.symbol).sort()).toEqual(
        replaced.split(' ').sort(),
      );
      expect([topMaster, array]).toEqual([undefined, undefined]);
      for (const { replaces, record } of keys) {
        expect({ ...record, bitting: undefined }).toEqual({ ...system.keys[replaces]!, bitting: undefined });
        // total position progression: the new keys keep their places under those that stay, and the parity of the array
        record.bitting.forEach((cut, i) =>
          expect([system.topMaster![i], ...system.array![i]!]).toContain(cut),
        );
      }
      const now = systemAfter(system, scope, keys, cylinders);
      for (const { record } of keys)
        for (const level of ['MK', 'CK'] as const)
          if (levels > 2 && record.level !== level && record.parent)
            for (const i of moved(level))
              expect(record.bitting[i]).toBe(parentOf(record, now.keys).bitting[i]);
      for (const { id, chambers } of now.cylinders)
        for (const key of now.keys) {
          const live = key.status === 'issued';
          const meant = live && marks.some((m) => m.key === key.symbol && m.cylinder === id);
          expect(fits(chambers, key.bitting)).toBe(meant);
        }
      expect(new Set(now.keys.map(({ bitting }) => bitting.join())).size).toBe(now.keys.length);
    },
  );
});
