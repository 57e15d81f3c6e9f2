/**
 * Lost keys in generated systems, checked by trying every key in every cylinder one cut after the other, and against
 * the published requirement that keys are changed when they are lost (NIST SP 800-53 Rev. 5, PE-3 g).
 */
import { describe, expect, it } from 'vitest';
import { accessMap } from '../../../src/keying/access.ts';
import { depthSetOf, EVERY, hasDepth } from '../../../src/keying/depthSet.ts';
import { dealOf, freshBittings, systemAfter, type FreshResult } from '../../../src/keying/freshBittings.ts';
import { evenTree, generateSystem } from '../../../src/keying/hierarchy.ts';
import { auditInputOf, type Mark } from '../../../src/keying/intended.ts';
import { liveKey, lostKeyScope, phasesOf } from '../../../src/keying/lostKey.ts';
import { sayLostKey } from '../../../src/keying/lostKeyWording.ts';
import { runToEnd, type KeySystem } from '../../../src/keying/system.ts';
import { cutsOf, plainSpec } from '../../support/systems.ts';

const SPEC = plainSpec({ positions: 6, depths: 10, increment: 0.015, macs: 7, step: 2 });

interface Given {
  readonly system: KeySystem;
  readonly marks: readonly Mark[];
}

function generated(levels: 2 | 3 | 4): Given {
  const made = runToEnd(
    generateSystem({
      name: 'Hall',
      spec: SPEC,
      levels,
      grands: evenTree(levels, { grands: 2, masters: 3, changeKeys: 4, doorsPerKey: 2 }),
      seed: 3,
    }),
  );
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made;
}

const systems = { 2: generated(2), 3: generated(3), 4: generated(4) };

function lose({ system, marks }: Given, symbol: string, seed = 1): FreshResult {
  return runToEnd(freshBittings({ system, marks, lost: liveKey(system, symbol), seed }));
}

function sound(result: FreshResult): Extract<FreshResult, { ok: true }> {
  if (!result.ok) throw new Error(result.problems.map(sayLostKey).join(' '));
  return result;
}

/** Every key in every cylinder, cut by cut: pairs that open and should not, or don't and should. */
function wrongPairs({ system, marks }: Given): string[] {
  const meant = new Set(marks.map(({ key, cylinder }) => `${key} ${cylinder}`));
  return system.cylinders.flatMap((cylinder) =>
    system.keys.flatMap((key) => {
      const opens = cylinder.chambers.every((set, i) => set === EVERY || hasDepth(set, key.bitting[i]!));
      const should = key.status !== 'retired' && meant.has(`${key.symbol} ${cylinder.id}`);
      return opens === should ? [] : [`${key.symbol} (${key.status}) at ${cylinder.id}`];
    }),
  );
}

const symbolsOf = ({ system }: Given, numbers: readonly number[]): string[] =>
  numbers.map((k) => system.keys[k]!.symbol);

const after = ({ system, marks }: Given, result: FreshResult): Given => {
  const { scope, keys, cylinders } = sound(result);
  return { system: systemAfter(system, scope, keys, cylinders), marks };
};

describe('a lost key', () => {
  it.each<[2 | 3 | 4, string, readonly string[], number]>([
    // change keys keep their masters; 2 doors each
    [2, '2AA', ['2AA'], 2],
    [3, 'AB3', ['AB3'], 2],
    [4, 'BA1', ['BA1'], 2],
    // a master under a grand master takes the change keys of its group along
    [3, 'AB', ['AB', 'AB1', 'AB2', 'AB3', 'AB4'], 8],
    [4, 'AC', ['AC', 'AC1', 'AC2', 'AC3', 'AC4'], 8],
    // the top has nothing above it, so its cuts are gone with it: the keys below can stay
    [2, 'AA', ['AA'], 8],
    [3, 'A', ['A'], 24],
    [4, 'GGMK', ['GGMK'], 48],
  ])('of %i levels, %s: new bittings for %j, %i cylinders', (levels, symbol, replaced, cylinders) => {
    const given = systems[levels];
    const result = sound(lose(given, symbol));
    expect(symbolsOf(given, result.scope.replaced)).toEqual(replaced);
    expect(result.scope.exposed).toHaveLength(cylinders);
    expect(result.cylinders).toHaveLength(cylinders);
    expect(wrongPairs(after(given, result))).toEqual([]);
  });

  it('that is a grand master takes its whole grand along, and the other one not', () => {
    const given = systems[4];
    const result = sound(lose(given, 'A'));
    expect(result.scope.replaced).toHaveLength(1 + 3 + 12);
    expect(symbolsOf(given, result.scope.replaced).filter((s) => s.startsWith('B'))).toEqual([]);
    expect(wrongPairs(after(given, result))).toEqual([]);
  });

  it('never gets a bitting back that was ever used', () => {
    const given = systems[3];
    const used = new Set(given.system.keys.map((k) => k.bitting.join()));
    for (const { record } of sound(lose(given, 'AB')).keys) expect(used).not.toContain(record.bitting.join());
  });

  it('can be lost again and again: what was retired stays shut out', () => {
    let now = systems[3];
    for (const symbol of ['AA2', 'AA', 'AA2', 'AB1', 'A']) {
      now = after(now, lose(now, symbol));
      expect(wrongPairs(now)).toEqual([]);
    }
    expect(now.system.keys.filter((k) => k.status === 'retired')).toHaveLength(1 + 5 + 1 + 1 + 1);
  });

  it('takes the spares of its group along: their cylinders would let it in again', () => {
    const made = runToEnd(
      generateSystem({
        name: 'Hall',
        spec: SPEC,
        levels: 3,
        grands: evenTree(3, { masters: 2, changeKeys: 3, spares: 2 }),
      }),
    );
    if (!made.ok) throw new Error('the hall does not fit');
    const spares = (symbol: string): string[] =>
      symbolsOf(made, sound(lose(made, symbol)).scope.replaced).filter(
        (s) => made.system.keys.find((k) => k.symbol === s)!.status === 'reserved',
      );
    expect(spares('AA')).toEqual(['AA4', 'AA5']);
    expect(spares('A')).toEqual([]);
    expect(spares('AA1')).toEqual([]);
    const fresh = sound(lose(made, 'AA'));
    expect(fresh.keys.filter(({ record }) => record.status === 'reserved')).toHaveLength(2);
  });

  it('is answered the same for the same seed', () => {
    const given = systems[3];
    expect(lose(given, 'AA', 5)).toEqual(lose(given, 'AA', 5));
  });
});

describe('what the lost key really opens', () => {
  it('is changed too where it was never meant to open', () => {
    const { system, marks } = systems[3];
    const lost = liveKey(system, 'AA1');
    const other = system.cylinders.findIndex((c) => c.symbol === 'AC4');
    const given: Given = {
      marks,
      system: {
        ...system,
        cylinders: system.cylinders.map((cylinder, c) =>
          c === other
            ? {
                ...cylinder,
                chambers: cylinder.chambers.map(
                  (set, i) => (set | (1 << system.keys[lost]!.bitting[i]!)) as typeof set,
                ),
              }
            : cylinder,
        ),
      },
    };
    const result = sound(lose(given, 'AA1'));
    expect(result.scope.exposed).toContain(other);
    expect(symbolsOf(given, result.scope.replaced)).toEqual(['AA1']);
    expect(wrongPairs(after(given, result))).toEqual([]);
  });

  it('keeps empty chambers empty', () => {
    const { system, marks } = systems[3];
    const given: Given = {
      marks,
      system: {
        ...system,
        cylinders: system.cylinders.map((c) =>
          c.symbol === 'AA1' ? { ...c, chambers: c.chambers.map((set, i) => (i === 0 ? EVERY : set)) } : c,
        ),
      },
    };
    const result = lose(given, 'AA1');
    for (const { chambers } of result.ok ? result.cylinders : []) expect(chambers[0]).toBe(EVERY);
  });
});

describe('no bitting is proposed', () => {
  const { system, marks } = systems[3];
  const said = (given: Given, symbol: string): string => {
    const result = lose(given, symbol);
    return result.ok ? '' : result.problems.map(sayLostKey).join(' ');
  };

  it('without a key bitting array: never extended blind', () => {
    const { array: _array, ...blind } = system;
    expect(_array).toBeDefined();
    expect(said({ system: blind, marks }, 'AA1')).toContain('never extended blind');
  });

  it('for a bitting that is retired already', () => {
    const retired: Given = {
      marks,
      system: { ...system, keys: system.keys.map((k) => ({ ...k, status: 'retired' as const })) },
    };
    const lost = system.keys.findIndex((k) => k.symbol === 'AA1');
    const result = runToEnd(freshBittings({ ...retired, lost }));
    expect(result.ok ? [] : result.problems).toEqual([{ code: 'not-in-use', symbol: 'AA1' }]);
  });

  it('for a control key', () => {
    const control = {
      symbol: 'CTR',
      level: 'control',
      bitting: cutsOf(SPEC, '135246'),
      status: 'issued',
    } as const;
    expect(said({ system: { ...system, keys: [...system.keys, control] }, marks }, 'CTR')).toContain(
      'new control cut in every core',
    );
  });
});

describe('a key outside any hierarchy', () => {
  it('gets a new bitting of its own', () => {
    const given: Given = {
      marks: [{ key: 'SKD1', cylinder: 'P1' }],
      system: {
        name: 'Sheds',
        spec: SPEC,
        keys: [
          { symbol: 'SKD1', level: 'single', bitting: cutsOf(SPEC, '135246'), status: 'issued' },
          { symbol: 'SKD2', level: 'single', bitting: cutsOf(SPEC, '246135'), status: 'issued' },
        ],
        cylinders: [{ id: 'P1', symbol: 'SKD1', chambers: [1, 3, 5, 2, 4, 6].map((d) => depthSetOf([d])) }],
      },
    };
    expect(wrongPairs(after(given, lose(given, 'SKD1')))).toEqual([]);
  });
});

describe('phases', () => {
  it('go from the riskiest on and say what stays exposed', () => {
    const { system, marks } = systems[3];
    const access = accessMap(auditInputOf(system, marks));
    const scope = lostKeyScope(system, access, liveKey(system, 'A'));
    const outside = new Set([0, 5, 9]);
    const phases = phasesOf(system, scope, {
      titles: ['Outside doors', 'Stores', 'All others'],
      riskOf: (c) => (outside.has(c) ? 0 : 2),
    });
    expect(phases.map((p) => [p.title, p.cylinders.length, p.doors, p.stillExposed])).toEqual([
      ['Outside doors', 3, 3, { cylinders: 21, doors: 21 }],
      ['All others', 21, 21, { cylinders: 0, doors: 0 }],
    ]);
  });
});

describe('the levels of a system', () => {
  it('are found again from its keys', () => {
    const { system } = systems[4];
    const deal = dealOf(system, 4)!;
    for (const level of ['CK', 'MK', 'GMK'] as const) expect(deal).toContain(level);
    const mixed = system.keys.map((k) =>
      k.symbol === 'AA1' ? { ...k, bitting: cutsOf(SPEC, '000000') } : k,
    );
    expect(dealOf({ ...system, keys: mixed }, 4)).toBeUndefined();
  });
});
