import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { pinnedFor } from '../../../src/keying/cylinder.ts';
import { crossKeyingCost, whoElse } from '../../../src/keying/grid/index.ts';
import { starterSpec } from '../../../src/keying/starters.ts';
import { depthSetOf, depthsIn, EVERY, hasDepth } from '../../../src/keying/depthSet.ts';
import { STATUSES, type Chambers, type KeyRecord, type KeySystem } from '../../../src/keying/system.ts';
import { smallSpec } from './charts.ts';

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

  it('is under no known key where the door or its keys have no place in the hierarchy', () => {
    const control = (symbol: string, key_: KeyRecord) => {
      const cylinders = system.cylinders.map((door) => ({ ...door, symbol }));
      const cost = crossKeyingCost(
        { ...system, cylinders, keys: [...keys, key_] },
        'Plant',
        [key_.symbol],
        [],
      );
      if (!cost.ok) throw new Error(JSON.stringify(cost.error));
      return cost.value.control;
    };
    const cuts = [2, 2, 6, 2, 6, 4];
    expect(control('AA1', key('AA9', 'CK', cuts, 'AA'))).toBe('controlled');
    expect(control('  ', key('AA9', 'CK', cuts, 'AA'))).toBe('unknown');
    // a blank parent is none: what the symbol says counts
    expect(control('AA1', key('AA9', 'CK', cuts, ' '))).toBe('controlled');
    expect(control('AA1', key('Gate', 'single', cuts))).toBe('unknown');
  });

  it('says of no door at all that nobody is meant for that nothing is known', () => {
    const cost = crossKeyingCost(system, 'Plant', [], []);
    expect(cost.ok && cost.value).toMatchObject({ control: 'unknown', alternatives: [], extraMasterPins: 0 });
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
    // a free bitting is nobody's: who gets in with it is not issued
    const free = {
      ...system,
      keys: keys.map((k) => (k.symbol === 'AA2' ? { ...k, status: 'free' as const } : k)),
    };
    expect([...whoElse(free, after)]).toHaveLength(after.incidental + 1);
  });
});

describe('figures of any door', () => {
  // neighbours differ by no more than two steps, and a master pin has two at least
  const small = smallSpec(4, 4, 2, 2);
  const all = Array.from({ length: 256 }, (_, n) => [n >> 6, (n >> 4) & 3, (n >> 2) & 3, n & 3]);
  const within = (cuts: readonly number[]) =>
    cuts.every((cut, i) => i === 0 || Math.abs(cut - cuts[i - 1]!) <= 2);
  const fits = (chambers: Chambers, cuts: readonly number[]) =>
    chambers.every((set, i) => hasDepth(set, cuts[i]!));
  const keyed = fc.record({
    bitting: fc.tuple(fc.nat(3), fc.nat(3), fc.nat(3), fc.nat(3)),
    status: fc.constantFrom(...STATUSES, 'issued' as const, 'issued' as const),
    level: fc.constantFrom('CK' as const, 'CK' as const, 'control' as const),
    keyway: fc.constantFrom(undefined, undefined, 'K1', 'K2'),
    cuts: fc.constantFrom(undefined, undefined, undefined, 3),
  });
  const chamber = fc.oneof(fc.constant(EVERY), fc.subarray([0, 1, 2, 3], { minLength: 1 }).map(depthSetOf));

  it('are those of writing out every bitting and trying every key', () => {
    fc.assert(
      fc.property(
        fc.array(keyed, { minLength: 1, maxLength: 12 }),
        fc.tuple(chamber, chamber, chamber, chamber),
        fc.array(fc.nat(11), { maxLength: 3 }),
        fc.nat(11),
        fc.constantFrom(undefined, 'K1'),
        (drawn, chambers, marked, added, keyway) => {
          const records = drawn.map(({ bitting, status, level, ...blank }, k): KeyRecord => ({
            symbol: `AA${k + 1}`,
            level,
            status,
            bitting: bittingOf(small, bitting),
            ...(blank.keyway && { keyway: blank.keyway }),
            ...(blank.cuts && { cuts: blank.cuts }),
          }));
          const door = { id: 'D1', symbol: 'AA1', chambers, ...(keyway && { keyway }) };
          const given: KeySystem = { name: 'any', spec: small, keys: records, cylinders: [door] };
          const symbol = records[added % records.length]!.symbol;
          const marks = marked.map((k) => ({ key: `AA${(k % records.length) + 1}`, cylinder: 'd1' }));
          const cost = crossKeyingCost(given, 'D1', [symbol], marks);
          const more = records.find((r) => r.symbol === symbol)!;
          if (more.status !== 'issued' && more.status !== 'reserved') {
            expect(cost).toEqual({ ok: false, error: [{ code: 'key-unknown', key: symbol }] });
            return;
          }
          if (!cost.ok) throw new Error(JSON.stringify(cost.error));
          // keys that are there: the blank enters, has a cut for each pinned chamber, and the cuts fit
          const listed = records.filter(
            (r) =>
              r.status !== 'free' && r.level !== 'control' && (!r.keyway || !keyway || r.keyway === keyway),
          );
          const opens = (sets: Chambers, r: KeyRecord) =>
            fits(sets, r.bitting) && (r.cuts === undefined || sets[3] === EVERY);
          const live = (r: KeyRecord) => r.status === 'issued' || r.status === 'reserved';
          const wanted = records.filter(
            (r) => r === more || (live(r) && marks.some(({ key }) => key === r.symbol)),
          );
          const check = (sets: Chambers, figures: typeof cost.value.after, getIn: readonly string[]) => {
            const inside = listed.filter((r) => opens(sets, r));
            const bittings = all.filter((cuts) => fits(sets, cuts));
            const issued = new Set(inside.map((r) => r.bitting.join()));
            const pins = sets.map((set) => (set === EVERY ? 0 : depthsIn(set, 4).length - 1));
            expect(figures).toEqual({
              chambers: sets,
              combinations: bittings.length,
              cuttable: bittings.filter(within).length,
              masterPins: pins.reduce((sum, n) => sum + n, 0),
              keys: inside.map((r) => r.symbol),
              incidental: bittings.filter((cuts) => within(cuts) && !issued.has(cuts.join())).length,
            });
            expect(getIn).toEqual(inside.filter((r) => !wanted.includes(r)).map((r) => r.symbol));
          };
          const wider = chambers.map((set, i) =>
            set === EVERY ? set : depthSetOf([...depthsIn(set, 4), more.bitting[i]!]),
          );
          const { before, after, extraMasterPins, thin, getIn, alternatives } = cost.value;
          check(
            chambers,
            before,
            records.filter((r) => before.keys.includes(r.symbol) && !wanted.includes(r)).map((r) => r.symbol),
          );
          check(wider, after, getIn);
          expect(extraMasterPins).toBe(after.masterPins - before.masterPins);
          const isThin = (set: Chambers[number]) =>
            set !== EVERY && depthsIn(set, 4).some((d) => hasDepth(set, d + 1));
          expect(thin).toEqual(wider.flatMap((set, i) => (isThin(set) ? [i + 1] : [])));
          for (const { kind, chambers: at, after: then, getIn: strangers, lockedOut } of alternatives) {
            const sets = wider.map((set, i) =>
              !at.includes(i + 1) ? set : kind === 'empty-chamber' ? EVERY : depthSetOf([more.bitting[i]!]),
            );
            check(sets, then, strangers);
            const out = wanted.filter((r) => !opens(sets, r)).map((r) => r.symbol);
            expect([...lockedOut].sort()).toEqual(out.sort());
          }
          const gains = wider.flatMap((set, i) => (set !== chambers[i] ? [i + 1] : []));
          const empty = alternatives.filter(({ kind }) => kind === 'empty-chamber');
          expect(empty.map((a) => a.chambers)).toEqual([
            ...gains.map((i) => [i]),
            ...(gains.length > 1 ? [gains] : []),
          ]);
          // all of them are change keys: constant where all have one cut and the chamber has more
          const constant = wider.flatMap((set, i) => {
            const one = new Set(wanted.map((r) => r.bitting[i]!));
            return set !== EVERY && one.size === 1 && depthsIn(set, 4).length > 1 ? [[i + 1]] : [];
          });
          expect(alternatives.filter(({ kind }) => kind !== 'empty-chamber').map((a) => a.chambers)).toEqual(
            constant,
          );
        },
      ),
      { numRuns: 150 },
    );
  });
});
