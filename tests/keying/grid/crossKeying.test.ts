import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { pinnedFor } from '../../../src/keying/cylinder.ts';
import { crossKeyingCost, whoElse } from '../../../src/keying/grid/index.ts';
import { starterSpec } from '../../../src/keying/starters.ts';
import type { KeyRecord, KeySystem } from '../../../src/keying/system.ts';

const spec = starterSpec('S-018-6')!;
const key = (symbol: string, level: KeyRecord['level'], cuts: number[], parent?: string): KeyRecord => ({
  symbol,
  level,
  bitting: bittingOf(spec, cuts),
  status: 'issued',
  ...(parent === undefined ? {} : { parent }),
});

// Two groups under a grand master; the change keys of AA differ in the last two chambers.
const keys = [
  key('A', 'GMK', [4, 4, 4, 4, 4, 4]),
  key('AA', 'MK', [2, 2, 4, 4, 4, 4], 'A'),
  key('AB', 'MK', [6, 2, 4, 4, 4, 4], 'A'),
  key('AA1', 'CK', [2, 2, 6, 2, 2, 2], 'AA'),
  key('AA2', 'CK', [2, 2, 6, 2, 6, 6], 'AA'),
  key('AA3', 'CK', [2, 2, 6, 2, 2, 6], 'AA'),
  key('AB1', 'CK', [6, 2, 6, 2, 2, 2], 'AB'),
];
const pinned = (...symbols: string[]) =>
  pinnedFor(
    spec,
    symbols.map((symbol) => keys.find((k) => k.symbol === symbol)!.bitting),
  );
const system: KeySystem = {
  name: 'Test',
  spec,
  keys,
  cylinders: [{ id: 'Plant', symbol: 'AA1', chambers: pinned('A', 'AA', 'AA1') }],
};
const costOf = (...symbols: string[]) => {
  const cost = crossKeyingCost(system, 'plant', symbols);
  if (!cost.ok) throw new Error(JSON.stringify(cost.error));
  return cost.value;
};

describe('what cross-keying costs', () => {
  it('counts combinations and pins before and after, by hand', () => {
    const { before, after, extraMasterPins, control } = costOf('AA2');
    // A, AA and AA1: two depths in each chamber
    expect(before).toMatchObject({ combinations: 64, masterPins: 6, keys: ['A', 'AA', 'AA1'] });
    // AA2 adds a 6 in chambers 5 and 6
    expect(after).toMatchObject({ combinations: 16 * 9, masterPins: 8 });
    expect(extraMasterPins).toBe(2);
    expect(control).toBe('controlled');
  });

  it('names who else gets in', () => {
    expect(costOf('AA2').getIn).toEqual(['AA3']);
    expect(costOf('AA3').getIn).toEqual([]);
  });

  it('warns of uncontrolled cross-keying: another master’s key', () => {
    const { control, getIn } = costOf('AB1');
    expect(control).toBe('uncontrolled');
    // AB's cuts are all there now: 6, and the grand master's
    expect(getIn).toEqual(['AB']);
  });

  it('offers to leave chambers empty, with what that lets in', () => {
    const { alternatives } = costOf('AA2');
    const empty = alternatives.filter(({ kind }) => kind === 'empty-chamber');
    expect(empty.map(({ chambers }) => chambers)).toEqual([[5], [6], [5, 6]]);
    expect(empty[2]!.after.masterPins).toBe(4);
    expect(empty[2]!.getIn).toEqual(['AA3']);
  });

  it('offers constant chambers, with whom they lock out', () => {
    const { alternatives } = costOf('AA2');
    const constant = alternatives.filter(({ kind }) => kind === 'constant-chamber');
    expect(constant.map(({ chambers }) => chambers)).toEqual([[1], [2], [3], [4]]);
    expect(constant[0]!.lockedOut).toEqual(['A']);
    expect(constant[2]!.lockedOut).toEqual(['A', 'AA']);
    expect(constant[0]!.after.combinations).toBe(8 * 9);
  });

  it('finds pins that would be too thin', () => {
    const near = { ...system, keys: [...keys, key('SKD1', 'single', [5, 2, 6, 2, 2, 2])] };
    const cost = crossKeyingCost(near, 'Plant', ['SKD1']);
    expect(cost.ok && cost.value.thin).toEqual([1]);
  });

  it('says which names it does not know', () => {
    expect(crossKeyingCost(system, 'Attic', ['ZZ'])).toEqual({
      ok: false,
      error: [
        { code: 'cylinder-unknown', cylinder: 'Attic' },
        { code: 'key-unknown', key: 'ZZ' },
      ],
    });
  });

  it('lists the incidental bittings that it counts', () => {
    const { after } = costOf('AA2');
    expect([...whoElse(system, after)]).toHaveLength(after.incidental);
  });
});
