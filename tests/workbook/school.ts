/** An invented system of three levels in total position progression, small enough to check by hand. */
import { bittingOf } from '../../src/keying/bitting.ts';
import { pinnedFor } from '../../src/keying/cylinder.ts';
import { starterSpec } from '../../src/keying/starters.ts';
import type { Specification } from '../../src/keying/specification.ts';
import type { CylinderRecord, KeyRecord } from '../../src/keying/system.ts';
import type { NewSystem } from '../../src/workbook/index.ts';

export function starter(name: string): Specification {
  const spec = starterSpec(name);
  if (!spec) throw new Error(`no starter spec ${name}`);
  return spec;
}

export const SPEC = starter('s-018-6');

/** Level, parent and cuts: the master's position is the first, the change keys' are the others. */
const KEYS: readonly (readonly [string, KeyRecord['level'], string | undefined, readonly number[]])[] = [
  ['A', 'GMK', undefined, [3, 5, 4, 6, 3, 5]],
  ['AA', 'MK', 'A', [5, 5, 4, 6, 3, 5]],
  ['AB', 'MK', 'A', [1, 5, 4, 6, 3, 5]],
  ['AA1', 'CK', 'AA', [5, 3, 6, 4, 5, 3]],
  ['AA2', 'CK', 'AA', [5, 3, 6, 4, 5, 7]],
  ['AB1', 'CK', 'AB', [1, 3, 6, 4, 5, 3]],
  ['AB2', 'CK', 'AB', [1, 3, 2, 4, 5, 3]],
];

/** The system under another name is another system with the same bittings. */
export function school(name = 'School'): NewSystem {
  const keys = KEYS.map(([symbol, level, parent, cuts]): KeyRecord => ({
    symbol,
    level,
    bitting: bittingOf(SPEC, cuts),
    status: 'reserved',
    ...(parent && { parent }),
  }));
  const line = (symbol: string): KeyRecord[] => {
    const key = keys.find((k) => k.symbol === symbol);
    return key ? [key, ...(key.parent === undefined ? [] : line(key.parent))] : [];
  };
  const changeKeys = keys.filter((key) => key.level === 'CK');
  const cylinders = changeKeys.map((key, i): CylinderRecord => ({
    id: `C${i + 1}`,
    symbol: key.symbol,
    door: `0${101 + i}`,
    chambers: pinnedFor(
      SPEC,
      line(key.symbol).map((k) => k.bitting),
    ),
  }));
  return {
    system: { name, spec: SPEC, topMaster: keys[0]!.bitting, keys, cylinders },
    marks: cylinders.flatMap((cylinder) =>
      line(cylinder.symbol).map((key) => ({ key: key.symbol, cylinder: cylinder.id })),
    ),
    keyway: 'K1',
    copies: new Map([['AA1', 3]]),
    locations: new Map([['C1', 'Front door']]),
    seed: 7,
    deal: 'masters 1, change keys 2–6',
  };
}

/** As many keys and cylinders as asked for; the bittings are numbered, not dealt. */
export function large(count: number): NewSystem {
  const cuts = (n: number): number[] => SPEC.centres.map((_, i) => Math.floor(n / 8 ** i) % 8);
  const keys = Array.from({ length: count }, (_, n): KeyRecord => ({
    symbol: `K${n + 1}`,
    level: 'single',
    bitting: bittingOf(SPEC, cuts(n)),
    status: 'reserved',
  }));
  const cylinders = keys.map((key, n): CylinderRecord => ({
    id: `L${n + 1}`,
    symbol: key.symbol,
    chambers: pinnedFor(SPEC, [key.bitting]),
  }));
  return {
    system: { name: 'Large', spec: SPEC, keys, cylinders },
    marks: cylinders.map((cylinder) => ({ key: cylinder.symbol, cylinder: cylinder.id })),
  };
}
