/**
 * What changes with a lost key, in a hall that is small enough to follow by hand: chambers 1 and 2 tell the groups
 * apart, 3 and 4 the change keys. A door still lets the lost key in while the keys that stay hold its cut in every
 * pinned chamber.
 */
import { describe, expect, it } from 'vitest';
import { accessMap } from '../../../src/keying/access.ts';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { pinnedFor } from '../../../src/keying/cylinder.ts';
import { auditInputOf } from '../../../src/keying/intended.ts';
import { liveKey, lostKeyScope } from '../../../src/keying/lostKey.ts';
import type { KeyRecord, KeySystem } from '../../../src/keying/system.ts';
import { plainSpec } from '../../support/systems.ts';

const spec = plainSpec({ positions: 4, depths: 10, increment: 0.015, macs: 9, step: 2 });
const cuts = (code: string) => bittingOf(spec, [...code].map(Number));
type Row = readonly [
  symbol: string,
  code: string,
  level: KeyRecord['level'],
  parent?: string | undefined,
  status?: KeyRecord['status'],
];
const keyOf = ([symbol, code, level, parent, status = 'issued']: Row): KeyRecord => ({
  symbol,
  level,
  bitting: cuts(code),
  status,
  ...(parent !== undefined && { parent }),
});

const KEYS: readonly Row[] = [
  ['A', '4444', 'GMK'],
  ['AA', '2244', 'MK', 'A'],
  ['AA1', '2226', 'CK', 'AA'],
  ['AA2', '2262', 'CK', ' aa '],
  ['AB', '6244', 'MK', 'A'],
  ['AB1', '6226', 'CK', 'AB'],
];
const DOORS = { D1: 'A AA AA1', D2: 'A AA AA2', D3: 'A AB AB1' };

/** A hall with each door pinned for the keys that it is meant for; `empty` leaves chambers out (from 0). */
function hall(rows: readonly Row[], doors: Record<string, string>, empty: readonly number[] = []): KeySystem {
  const keys = rows.map(keyOf);
  const cylinders = Object.entries(doors).map(([id, marked]) => ({
    id,
    symbol: marked.split(' ').at(-1)!,
    chambers: pinnedFor(
      spec,
      marked.split(' ').flatMap((symbol) => {
        const key = keys.find((k) => k.symbol === symbol)!;
        return key.level === 'control' ? [] : [key.bitting];
      }),
      [0, 1, 2, 3].map((i) => !empty.includes(i)),
    ),
  }));
  return { name: 'Hall', spec, keys, cylinders };
}

function scope(system: KeySystem, doors: Record<string, string>, lost: string) {
  const marks = Object.entries(doors).flatMap(([cylinder, marked]) =>
    marked.split(' ').map((key) => ({ key, cylinder })),
  );
  const access = accessMap(auditInputOf(system, marks));
  const found = lostKeyScope(system, access, liveKey(system, lost));
  const ids = (list: readonly number[]) => list.map((c) => system.cylinders[c]!.id).join(' ');
  expect(system.keys[found.lost]!.symbol).toBe(lost);
  return {
    replaced: found.replaced.map((k) => system.keys[k]!.symbol).join(' '),
    exposed: ids(found.exposed),
    along: ids(found.along),
  };
}
const lose = (rows: readonly Row[], doors: Record<string, string>, lost: string, empty?: number[]) =>
  scope(hall(rows, doors, empty), doors, lost);

describe('the scope of a lost key', () => {
  it('is the key and its doors, the keys below a master, and nobody below the top', () => {
    expect(lose(KEYS, DOORS, 'AA1')).toEqual({ replaced: 'AA1', exposed: 'D1', along: '' });
    expect(lose(KEYS, DOORS, 'AA')).toEqual({ replaced: 'AA AA1 AA2', exposed: 'D1 D2', along: '' });
    expect(lose(KEYS, DOORS, 'A')).toEqual({ replaced: 'A', exposed: 'D1 D2 D3', along: '' });
  });

  it('takes other doors of a key along that changes, in their order', () => {
    // AA is not meant for D0, D4 and D5 and does not open them: pinned for AA1 alone
    const doors = { D0: 'AA1', ...DOORS, D4: 'AA1', D5: 'AA2' };
    expect(lose(KEYS, doors, 'AA')).toEqual({ replaced: 'AA AA1 AA2', exposed: 'D1 D2', along: 'D0 D4 D5' });
    expect(lose(KEYS, doors, 'AA1')).toEqual({ replaced: 'AA1', exposed: 'D0 D1 D4', along: '' });
  });

  it('has the doors that the lost key opens by accident too', () => {
    const rows: readonly Row[] = [...KEYS, ['B', '8844', 'CK']];
    const doors = { ...DOORS, D9: 'B AA1' };
    // D9 has {2, 8} {2, 8} {2, 4} {4, 6}: AA opens it, and once AA1 is gone it does not
    expect(lose(rows, doors, 'AA')).toEqual({ replaced: 'AA AA1 AA2', exposed: 'D1 D2 D9', along: '' });
  });

  it('replaces the lowest keys first and stops once the lost key is shut out', () => {
    // L opens D1 by accident: chamber 1 through P or through Q, the rest through all
    const rows: readonly Row[] = [
      ['L', '2244', 'single'],
      ['M', '6244', 'MK'],
      ['P', '2644', 'CK'],
    ];
    expect(lose(rows, { D1: 'M P', D2: 'L' }, 'L')).toEqual({ replaced: 'L P', exposed: 'D1 D2', along: '' });
    // a key of no hierarchy stands as low as a change key, and the first in the list goes first
    const single: readonly Row[] = [
      ['L', '2244', 'single'],
      ['P', '2644', 'CK'],
      ['S', '6244', 'single'],
    ];
    expect(lose(single, { D1: 'P S', D2: 'L' }, 'L').replaced).toBe('L P');
    expect(lose([single[0]!, single[2]!, single[1]!], { D1: 'P S', D2: 'L' }, 'L').replaced).toBe('L S');
    // nobody else goes where the lost key’s own absence is enough
    expect(lose(rows, { D1: 'M', D2: 'M L' }, 'L')).toEqual({ replaced: 'L', exposed: 'D2', along: '' });
  });

  it('asks nothing of empty chambers', () => {
    // without chambers 1 and 2 every key of D1 but the lost one still has 4 and 4 there
    const rows: readonly Row[] = [
      ['L', '2244', 'single'],
      ['M', '6844', 'MK'],
      ['P', '8644', 'CK'],
    ];
    expect(lose(rows, { D1: 'L M P' }, 'L', [0, 1])).toEqual({ replaced: 'L M P', exposed: 'D1', along: '' });
    expect(lose(rows, { D1: 'L M P' }, 'L')).toEqual({ replaced: 'L', exposed: 'D1', along: '' });
  });

  it('leaves control keys alone: they work another line', () => {
    // CTR has all the cuts of L, and stays
    const rows: readonly Row[] = [
      ['CTR', '2244', 'control'],
      ['L', '2244', 'CK'],
      ['M', '6444', 'MK'],
    ];
    const doors = { D1: 'CTR M L' };
    const system = hall(rows, doors);
    const cores = {
      ...system,
      spec: { ...spec, core: { total: 23, addition: 10 } },
      cylinders: system.cylinders.map((c) => ({ ...c, control: cuts('2244') })),
    };
    expect(scope(cores, doors, 'L')).toEqual({ replaced: 'L', exposed: 'D1', along: '' });
    const both: readonly Row[] = [
      ['CTR', '2246', 'control'],
      ['L', '2244', 'CK'],
      ['N', '2264', 'CK'],
      ['M', '2246', 'MK'],
    ];
    const meant = { D1: 'CTR M N L' };
    expect(scope({ ...cores, ...hall(both, meant), spec: cores.spec }, meant, 'L').replaced).toBe('L N');
  });

  it('has the lost key first, then the others from the top down, equals as they are listed', () => {
    const upside = [...KEYS].reverse();
    expect(lose(upside, DOORS, 'AA').replaced).toBe('AA AA2 AA1');
    // a lost change key stands before the master that goes with it
    const rows: readonly Row[] = [
      ['M', '2266', 'MK'],
      ['N', '6644', 'MK'],
      ['L', '2244', 'CK'],
    ];
    expect(lose(rows, { D1: 'M N L' }, 'L').replaced).toBe('L M');
  });
});

describe('spares under a lost key', () => {
  const spare = (
    symbol: string,
    code: string,
    parent: string | undefined,
    status: KeyRecord['status'] = 'reserved',
  ): Row => [symbol, code, 'CK', parent, status];
  const replaced = (...more: Row[]) => lose([...KEYS, ...more], DOORS, 'AA').replaced;

  it('go where they and the keys above them that stay have all of its cuts', () => {
    expect(replaced(spare('AA3', '2266', 'AA'))).toBe('AA AA1 AA2 AA3');
    // neither chamber 1 nor 2 of AA is held by this one
    expect(replaced(spare('AA3', '8266', 'AA'))).toBe('AA AA1 AA2');
    // a spare of another group, or of none, keeps its bitting
    expect(replaced(spare('AB3', '2266', 'AB'))).toBe('AA AA1 AA2');
    expect(replaced(spare('ZZ', '2244', undefined))).toBe('AA AA1 AA2');
  });

  it('are only those in use, and no control keys', () => {
    for (const status of ['free', 'void', 'retired'] as const)
      expect(replaced(spare('AA3', '2266', 'AA', status))).toBe('AA AA1 AA2');
    expect(replaced(['CTR', '2266', 'control', 'AA', 'issued'])).toBe('AA AA1 AA2');
    expect(replaced(spare('AA3', '2266', 'AA', 'issued'))).toBe('AA AA1 AA2 AA3');
  });

  it('end where keys stand under one another in a ring', () => {
    const ring = [spare('R1', '2266', 'R2'), spare('R2', '2244', 'R1')];
    expect(replaced(...ring)).toBe('AA AA1 AA2');
  });
});

describe('the key of a symbol in use', () => {
  it('is the issued or reserved one, in either case', () => {
    const keys = (['retired', 'void', 'free', 'reserved', 'issued'] as const).map((status) =>
      keyOf(['AA', '2244', 'MK', undefined, status]),
    );
    expect(liveKey({ keys }, ' aa ')).toBe(3);
    expect(liveKey({ keys: keys.slice(4) }, 'AA')).toBe(0);
    expect(liveKey({ keys: keys.slice(0, 3) }, 'AA')).toBe(-1);
    expect(liveKey({ keys }, 'AB')).toBe(-1);
  });
});
