/** A new top master where others stand in its way: pins of a guest's cuts, keys of another keyway, used bittings. */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import type { Deal } from '../../../src/keying/deal.ts';
import { depthsIn, hasDepth, withDepth } from '../../../src/keying/depthSet.ts';
import { freshBittings, systemAfter } from '../../../src/keying/freshBittings.ts';
import { evenTree, generateSystem } from '../../../src/keying/hierarchy.ts';
import type { Mark } from '../../../src/keying/intended.ts';
import { runToEnd, type KeyRecord, type KeySystem } from '../../../src/keying/system.ts';
import { plainSpec } from '../../support/systems.ts';

// a master pin has two steps at least
const SPEC = plainSpec({ positions: 6, depths: 10, increment: 0.015, macs: 9 });

function hall(deal?: Deal): { system: KeySystem; marks: readonly Mark[] } {
  const made = runToEnd(
    generateSystem({
      name: 'Hall',
      spec: SPEC,
      levels: 3,
      grands: evenTree(3, { masters: 2, changeKeys: 2 }),
      topMaster: bittingOf(SPEC, [4, 2, 6, 4, 2, 6]),
      ...(deal && { deal }),
    }),
  );
  if (!made.ok) throw new Error('the hall does not fit');
  return made;
}
const keyOf = (system: KeySystem, symbol: string): KeyRecord => system.keys.find((k) => k.symbol === symbol)!;

describe('a new top master', () => {
  it('leaves room for a pin beside the cuts of a guest that is off its parity', () => {
    const { system, marks } = hall();
    const [top, master, own] = ['A', 'AA', 'AA1'].map((symbol) => keyOf(system, symbol).bitting);
    // the guest has the cuts of AA1, but where AA leaves the top master's, odd ones two steps away from both
    const guestCuts = own!.map((cut, i) => {
      if (master![i] === top![i]) return cut;
      return [1, 3, 5, 7, 9].find((d) => Math.abs(d - top![i]!) >= 2 && Math.abs(d - master![i]!) >= 2)!;
    });
    const guest: KeyRecord = {
      symbol: 'G',
      level: 'single',
      bitting: bittingOf(SPEC, guestCuts),
      status: 'issued',
    };
    const [door, ...others] = system.cylinders;
    const shared = {
      ...system,
      keys: [...system.keys, guest],
      cylinders: [
        { ...door!, chambers: door!.chambers.map((set, i) => withDepth(set, guest.bitting[i]!)) },
        ...others,
      ],
    };
    for (let seed = 1; seed <= 12; seed++) {
      const result = runToEnd(
        freshBittings({
          system: shared,
          marks: [...marks, { key: 'G', cylinder: door!.id }],
          lost: 0,
          seed,
        }),
      );
      if (!result.ok) throw new Error(JSON.stringify(result.problems));
      for (const { chambers } of result.cylinders)
        for (const set of chambers) expect(depthsIn(set, 10).filter((d) => hasDepth(set, d + 1))).toEqual([]);
      const now = systemAfter(shared, result.scope, result.keys, result.cylinders);
      expect(now.cylinders[0]!.chambers.every((set, i) => hasDepth(set, guest.bitting[i]!))).toBe(true);
      expect(now.cylinders[0]!.chambers.every((set, i) => hasDepth(set, top![i]!))).toBe(false);
    }
  });

  it('may leave a door’s cuts to a key whose blank does not enter', () => {
    const { system, marks } = hall();
    const stranger: KeyRecord = {
      symbol: 'X',
      level: 'single',
      bitting: keyOf(system, 'AA1').bitting,
      status: 'issued',
      keyway: 'K2',
    };
    const find = (keyway: string) =>
      runToEnd(
        freshBittings({
          system: {
            ...system,
            keys: [...system.keys, stranger],
            cylinders: system.cylinders.map((c) => ({ ...c, keyway })),
          },
          marks,
          lost: 0,
        }),
      );
    expect(find('K1').ok).toBe(true);
    // its own keyway: it would open the door of AA1 whatever the top master
    const entering = find('K2');
    expect(entering.ok ? [] : entering.problems).toEqual([{ code: 'no-bitting', symbol: 'A' }]);
  });

  it('is none where every change of its own position was used', () => {
    const { system, marks } = hall(['MK', 'CK', 'CK', 'CK', 'constant', 'constant']);
    const top = system.keys[0]!;
    const retired = (cut: number): KeyRecord => ({
      symbol: `OLD${cut}`,
      level: 'single',
      bitting: bittingOf(SPEC, [cut, ...top.bitting.slice(1)]),
      status: 'retired',
    });
    const find = (...cuts: number[]) =>
      runToEnd(
        freshBittings({
          system: { ...system, keys: [...system.keys, ...cuts.map(retired)] },
          marks,
          lost: 0,
        }),
      );
    // the masters have two of the five even cuts, the top master one
    const masters = ['AA', 'AB'].map((symbol) => keyOf(system, symbol).bitting[0]!);
    const free = [0, 2, 6, 8].filter((cut) => !masters.includes(cut));
    expect(free).toHaveLength(2);
    const none = find(...free);
    expect(none.ok ? [] : none.problems).toEqual([{ code: 'no-bitting', symbol: 'A' }]);
    const one = find(free[0]!);
    expect(one.ok && one.topMaster).toEqual(bittingOf(SPEC, [free[1]!, ...top.bitting.slice(1)]));
    // and it is none of the array any more
    expect(one.ok && one.array![0]).toEqual(system.array![0]!.filter((cut) => cut !== free[1]));
  });
});
