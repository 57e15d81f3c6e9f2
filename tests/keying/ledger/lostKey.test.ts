/**
 * Lost keys in generated systems, checked by trying every key in every cylinder one cut after the other, and against
 * the published requirement that keys are changed when they are lost (NIST SP 800-53 Rev. 5, PE-3 g).
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { accessMap } from '../../../src/keying/access.ts';
import { depthSetOf, EVERY, hasDepth } from '../../../src/keying/depthSet.ts';
import { dealOf, freshBittings, systemAfter, type FreshResult } from '../../../src/keying/freshBittings.ts';
import { evenTree, generateSystem } from '../../../src/keying/hierarchy.ts';
import { auditInputOf, type Mark } from '../../../src/keying/intended.ts';
import { liveKey, lostKeyScope, phasesOf } from '../../../src/keying/lostKey.ts';
import { freshTop } from '../../../src/keying/freshTop.ts';
import { severityOf } from '../../../src/keying/findings.ts';
import { checkBitting, DEFAULT_RULES } from '../../../src/keying/rules.ts';
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

describe('a new top master', () => {
  const opens = (chambers: KeySystem['cylinders'][number]['chambers'], cuts: readonly number[]): boolean =>
    chambers.every((set, i) => set === EVERY || hasDepth(set, cuts[i]!));

  /** Every change of the moving positions by whole steps that the definitions allow. */
  function allowed(given: Given, top: number, moving: readonly boolean[]): string[] {
    const { system, marks } = given;
    const old = system.keys[top]!.bitting;
    const candidates = old.reduce<number[][]>(
      (heads, cut, i) =>
        heads.flatMap((head) =>
          (moving[i] ? [0, 1, 2, 3, 4, 5, 6, 7, 8, 9].filter((d) => (d - cut) % 2 === 0) : [cut]).map((d) => [
            ...head,
            d,
          ]),
        ),
      [[]],
    );
    const meant = new Set(marks.map(({ key, cylinder }) => `${key} ${cylinder}`));
    const used = new Set(system.keys.filter((k) => k.status !== 'free').map((k) => k.bitting.join()));
    const cylinders = system.cylinders.filter((c) => opens(c.chambers, old));
    return candidates
      .filter((cuts) => !used.has(cuts.join()))
      .filter((cuts) =>
        checkBitting(SPEC, cutsOf(SPEC, cuts.join('')), DEFAULT_RULES).every(
          (f) => severityOf(f) !== 'fault',
        ),
      )
      .filter((cuts) =>
        cylinders.every((cylinder) => {
          const own = system.keys.filter(
            (k, n) =>
              n !== top &&
              k.level !== 'control' &&
              k.status !== 'retired' &&
              meant.has(`${k.symbol} ${cylinder.id}`),
          );
          const held = cylinder.chambers.map((set, i) =>
            set === EVERY
              ? []
              : [...new Set([cuts[i]!, ...own.map((k) => k.bitting[i]!)])].sort((a, b) => a - b),
          );
          if (held.some((depths) => depths.some((d, n) => n > 0 && d - depths[n - 1]! < 2))) return false;
          const fits = (bitting: readonly number[]): boolean =>
            held.every((depths, i) => depths.length === 0 || depths.includes(bitting[i]!));
          const others = system.keys.filter(
            (k) => k.level !== 'control' && k.status !== 'free' && !own.includes(k),
          );
          return !others.some((k) => fits(k.bitting));
        }),
      )
      .map((cuts) => cuts.join());
  }

  it('is one that the definitions allow, and is found wherever there is one', () => {
    const extra = fc.record({
      status: fc.constantFrom('free' as const, 'retired' as const, 'issued' as const),
      level: fc.constantFrom('single' as const, 'control' as const),
      steps: fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 6, maxLength: 6 }),
    });
    const masks = fc.subarray([0, 1, 2, 3, 4, 5], { minLength: 1, maxLength: 2 });
    fc.assert(
      fc.property(
        fc.constantFrom(2 as const, 3 as const),
        masks,
        fc.array(extra, { maxLength: 6 }),
        fc.nat(9),
        (levels, mask, more, seed) => {
          const { system: plain, marks } = systems[levels];
          const top = liveKey(plain, levels === 2 ? 'AA' : 'A');
          const old = plain.keys[top]!.bitting;
          const moving = old.map((_, i) => mask.includes(i));
          const system: KeySystem = {
            ...plain,
            keys: [
              ...plain.keys,
              ...more.map(({ status, level, steps }, n) => ({
              symbol: `SKD${n}`, level, status, bitting: cutsOf(SPEC, old.map((cut, i) => (moving[i] ? (cut % 2) + 2 * steps[i]! : cut)).join('')),
            })), // prettier-ignore
            ],
          };
          const given: Given = { system, marks };
          const access = accessMap(auditInputOf(system, marks));
          const scope = lostKeyScope(system, access, top);
          const found = runToEnd(freshTop({ system, access, top, scope, moving, seed }));
          const good = allowed(given, top, moving);
          if (found) expect(good).toContain(found.join());
          else expect(good).toEqual([]);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('takes its cuts out of the array, which is otherwise left', () => {
    for (const [levels, symbol] of [
      [2, 'AA'],
      [3, 'A'],
      [4, 'GGMK'],
    ] as const) {
      const { system } = systems[levels];
      const result = sound(lose(systems[levels], symbol));
      expect(result.topMaster).toEqual(result.keys[0]!.record.bitting);
      expect(result.array).toEqual(
        system.array!.map((choices, i) => choices.filter((depth) => depth !== result.topMaster![i])),
      );
    }
    const other = sound(lose(systems[3], 'AB'));
    expect(other).not.toHaveProperty('topMaster');
    expect(other).not.toHaveProperty('array');
  });

  it('tells how far it is, every fifty candidates', () => {
    const { system, marks } = systems[3];
    const access = accessMap(auditInputOf(system, marks));
    const top = liveKey(system, 'A');
    const scope = lostKeyScope(system, access, top);
    // only one position moves, so that the old one still fits and every candidate is tried
    const told = (moving: readonly number[]) => [
      ...freshTop({
        system,
        access,
        top,
        scope,
        moving: system.spec.centres.map((_, i) => moving.includes(i)),
        seed: 1,
      }),
    ];
    expect(told([])).toEqual([{ stage: 'choosing-keys', done: 0, total: 1 }]);
    const long = told([3, 4, 5]).map((step) => [step.done, step.total]);
    expect(long).toEqual(long.map((_, i) => [i * 50, 125]));
  });
});

describe('what a proposal is held against', () => {
  it('is not a fault that stands there today', () => {
    const { system, marks } = systems[3];
    const stranger = system.keys[liveKey(system, 'AB2')]!;
    const given: Given = {
      marks,
      system: {
        ...system,
        cylinders: system.cylinders.map((c) =>
          c.symbol === 'AC4'
            ? {
                ...c,
                chambers: c.chambers.map((set, i) => (set | (1 << stranger.bitting[i]!)) as typeof set),
              }
            : c,
        ),
      },
    };
    const before = wrongPairs(given);
    expect(before.length).toBeGreaterThan(0);
    expect(wrongPairs(after(given, lose(given, 'AA1')))).toEqual(before);
  });

  it('is the lost key itself, also where its symbol goes on', () => {
    const given = systems[2];
    const lost = given.system.keys[liveKey(given.system, '2AA')]!;
    const { cylinders } = sound(lose(given, '2AA'));
    for (const { chambers } of cylinders)
      expect(chambers.every((set, i) => hasDepth(set, lost.bitting[i]!))).toBe(false);
  });
});

describe('a system after a loss', () => {
  it('has the old keys retired, the new ones below all others and only those cylinders pinned anew', () => {
    const { system } = systems[3];
    const result = sound(lose(systems[3], 'AB'));
    const next = systemAfter(system, result.scope, result.keys, result.cylinders);
    const count = system.keys.length;
    expect(next.keys).toHaveLength(count + result.keys.length);
    next.keys.slice(0, count).forEach((key, k) => {
      const gone = result.scope.replaced.includes(k);
      expect(key).toEqual(gone ? { ...system.keys[k], status: 'retired' } : system.keys[k]);
    });
    next.keys.slice(count).forEach((key, n) => {
      const old = system.keys[result.keys[n]!.replaces]!;
      expect(key).toEqual({ ...old, bitting: key.bitting });
      expect(key.bitting).not.toEqual(old.bitting);
    });
    const changed = new Map(result.cylinders.map((c) => [c.cylinder, c.chambers]));
    expect([...changed.keys()].sort((a, b) => a - b)).toEqual(
      [...result.scope.exposed, ...result.scope.along].sort((a, b) => a - b),
    );
    next.cylinders.forEach((cylinder, c) =>
      expect(cylinder).toEqual({
        ...system.cylinders[c],
        chambers: changed.get(c) ?? system.cylinders[c]!.chambers,
      }),
    );
  });

  it('keeps its control key out of every core, and the control key its cores', () => {
    const spec = plainSpec({
      positions: 6,
      depths: 10,
      increment: 0.0125,
      macs: 9,
      step: 2,
      core: { total: 23, addition: 10 },
    });
    const made = runToEnd(
      generateSystem({
        name: 'Cores',
        spec,
        levels: 3,
        grands: evenTree(3, { masters: 2, changeKeys: 4 }),
        seed: 5,
      }),
    );
    if (!made.ok) throw new Error('the cores do not fit');
    const control = made.system.keys.find((k) => k.level === 'control')!;
    for (const symbol of ['AA1', 'AA', 'A']) {
      const result = sound(lose(made, symbol));
      expect(result.scope.replaced.map((k) => made.system.keys[k]!.level)).not.toContain('control');
      for (const { record } of result.keys) expect(record.bitting).not.toEqual(control.bitting);
      for (const { cylinder, chambers } of result.cylinders) {
        expect(chambers.every((set, i) => hasDepth(set, control.bitting[i]!))).toBe(false);
        // pinned for the keys of the operating line alone: two depths at most
        for (const set of chambers)
          expect([0, 1, 2, 3, 4, 5, 6, 7, 8, 9].filter((d) => hasDepth(set, d)).length).toBeLessThanOrEqual(
            2,
          );
        expect(cylinder).toBeLessThan(made.system.cylinders.length);
      }
    }
  });
});

describe('the deal that keys show', () => {
  it('is the one that they were made by, as far as any has moved', () => {
    for (const levels of [2, 3, 4] as const) {
      const made = runToEnd(
        generateSystem({
          name: 'Hall',
          spec: SPEC,
          levels,
          grands: evenTree(levels, { grands: 3, masters: 3, changeKeys: 9 }),
          seed: 9,
        }),
      );
      if (!made.ok) throw new Error('the hall does not fit');
      const real = made.capacity.figures!.deal;
      const shown = dealOf(made.system, levels)!;
      const moved = shown.map((level) => level !== 'constant');
      expect(moved).toContain(true);
      expect(shown).toEqual(real.map((level, i) => (moved[i] ? level : 'constant')));
      expect(dealOf(made.system, levels, 'CK')).toEqual(real.map((level, i) => (moved[i] ? level : 'CK')));
      // nor do keys that are nobody's say anything
      const stray = made.system.keys.map((k) => ({
        ...k,
        bitting: cutsOf(SPEC, '000000'),
        status: 'void' as const,
      }));
      expect(dealOf({ ...made.system, keys: [...made.system.keys, ...stray] }, levels)).toEqual(shown);
      const { array: _array, ...without } = made.system;
      expect(_array).toBeDefined();
      expect(dealOf(without, levels, 'CK')).toEqual(shown);
    }
  });

  it('is not told by control keys and keys of no hierarchy', () => {
    const { system } = systems[3];
    const odd = (['control', 'single'] as const).map((level) => ({
      symbol: `O ${level}`, level, parent: 'AA', bitting: cutsOf(SPEC, '000000'), status: 'issued' as const,
    })); // prettier-ignore
    expect(dealOf({ ...system, keys: [...system.keys, ...odd] }, 3)).toEqual(dealOf(system, 3));
  });
});

describe('why there is none', () => {
  const { system, marks } = systems[3];
  const problemsOf = (given: Given, symbol: string) => {
    const result = lose(given, symbol);
    return result.ok ? [] : result.problems;
  };

  it.each(['void', 'free', 'retired'] as const)('is a key that is %s', (status) => {
    const keys = system.keys.map((k) => (k.symbol === 'AA1' ? { ...k, status } : k));
    const lost = system.keys.findIndex((k) => k.symbol === 'AA1');
    expect(runToEnd(freshBittings({ system: { ...system, keys }, marks, lost }))).toEqual({
      ok: false,
      problems: [{ code: 'not-in-use', symbol: 'AA1' }],
    });
  });

  it('is a top master over keys that show no deal', () => {
    const keys = system.keys.map((k) => (k.symbol === 'AA1' ? { ...k, bitting: cutsOf(SPEC, '000000') } : k));
    expect(problemsOf({ system: { ...system, keys }, marks }, 'A')).toEqual([{ code: 'levels-mixed' }]);
  });

  it('is a missing array, or no key that has the top master’s bitting', () => {
    expect(problemsOf({ system: { ...system, topMaster: cutsOf(SPEC, '000000') }, marks }, 'AA1')).toEqual([
      { code: 'no-array' },
    ]);
    const { topMaster: _topMaster, ...none } = system;
    expect(_topMaster).toBeDefined();
    expect(problemsOf({ system: none, marks }, 'AA1')).toEqual([{ code: 'no-array' }]);
  });

  it('may be lost in reserve', () => {
    const keys = system.keys.map((k) => (k.symbol === 'AA1' ? { ...k, status: 'reserved' as const } : k));
    expect(problemsOf({ system: { ...system, keys }, marks }, 'AA1')).toEqual([]);
  });

  it('is a list of bittings that is used up, for a key outside the hierarchy', () => {
    const tiny = plainSpec({ positions: 4, depths: 2, increment: 0.03, macs: 1, step: 1 });
    const all = Array.from({ length: 16 }, (_, n) => n.toString(2).padStart(4, '0')).sort(
      (a, b) => Number(a === '0101') - Number(b === '0101'),
    );
    const sheds = (codes: readonly string[]): Given => ({
      marks: [{ key: 'SKD0', cylinder: 'P1' }],
      system: {
        name: 'Sheds',
        spec: tiny,
        keys: codes.map((code, i) => ({
          symbol: `SKD${i}`,
          level: 'single' as const,
          bitting: cutsOf(tiny, code),
          status: 'issued' as const,
        })),
        cylinders: [
          { id: 'P1', symbol: 'SKD0', chambers: [...codes[0]!].map((d) => depthSetOf([Number(d)])) },
        ],
      },
    });
    expect(problemsOf(sheds(all), 'SKD0')).toEqual([{ code: 'no-bitting', symbol: 'SKD0' }]);
    const last = sound(lose(sheds(all.slice(0, 15)), 'SKD0'));
    expect(last.keys.map(({ record }) => record.bitting.join(''))).toEqual(['0101']);
  });
});

describe('phases without a rank of their own', () => {
  it('take what is beyond their ranks first or last, and what only changes along at the end', () => {
    const { system, marks } = systems[3];
    const access = accessMap(auditInputOf(system, marks));
    const scope = {
      ...lostKeyScope(system, access, liveKey(system, 'AB')),
      exposed: [4, 2, 9],
      along: [7, 8],
    };
    const phases = phasesOf(system, scope, { titles: ['First', 'Last'], riskOf: (c) => (c === 4 ? -3 : 7) });
    expect(phases.map((p) => [p.title, p.cylinders, p.stillExposed.cylinders])).toEqual([
      ['First', [4], 2],
      ['Last', [2, 9], 0],
      ['Not opened by the lost key, but their key changes', [7, 8], 0],
    ]);
    const bare = { ...scope, exposed: [2], along: [] };
    expect(phasesOf(system, bare, { titles: ['First'], riskOf: () => 0 })).toHaveLength(1);
  });
});
