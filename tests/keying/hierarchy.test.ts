import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { depthCount, hasDepth } from '../../src/keying/depthSet.ts';
import {
  auditInputOf,
  auditSystem,
  checkBitting,
  DEFAULT_RULES,
  evenTree,
  generateSystem,
  operates,
  parentSymbol,
  pinnedFor,
  severityOf,
  type Bitting,
  type GenerateResult,
  type SystemRequest,
} from '../../src/keying/index.ts';
import { NO_RULES } from '../../src/keying/rules.ts';
import { runToEnd, type KeyRecord, type KeySystem } from '../../src/keying/system.ts';
import { cutsOf, plainSpec } from '../support/systems.ts';

const SIX = plainSpec({ positions: 6, depths: 10, increment: 0.015, macs: 7 });
const FIVE = plainSpec({ positions: 5, depths: 6, increment: 0.025, macs: 4 });
const CORE = plainSpec({
  positions: 7,
  depths: 10,
  increment: 0.0125,
  macs: 9,
  core: { total: 23, addition: 10 },
});
const CORE_ONE_STEP = plainSpec({
  positions: 6,
  depths: 6,
  increment: 0.021,
  macs: 5,
  core: { total: 14, addition: 6 },
});

const generate = (request: SystemRequest): GenerateResult => runToEnd(generateSystem(request));

function made(request: SystemRequest): Extract<GenerateResult, { ok: true }> {
  const result = generate(request);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result;
}

const differences = (a: readonly number[], b: readonly number[]): number =>
  a.filter((cut, i) => cut !== b[i]).length;

/** What must hold of any system made, checked key by key and cylinder by cylinder. */
function expectSound(request: SystemRequest, result: Extract<GenerateResult, { ok: true }>): void {
  const { system, marks } = result;
  const { spec, keys, cylinders } = system;
  const byId = new Map(cylinders.map(({ id }) => [id, new Set<string>()]));
  for (const { key, cylinder } of marks) byId.get(cylinder)!.add(key);
  const control = keys.filter(({ level }) => level === 'control');
  const operating = keys.filter(({ level }) => level !== 'control');
  for (const { id, symbol, chambers } of cylinders) {
    // The keys that turn it are its own and those above it, by the marks and by the parents alike.
    const chain: string[] = [];
    for (let at: string | undefined = symbol; at; at = keys.find((k) => k.symbol === at)!.parent)
      chain.push(at);
    const turning = operating.filter(({ bitting }) => operates(chambers, bitting)).map((k) => k.symbol);
    expect([...turning].sort()).toEqual([...chain].sort());
    expect([...byId.get(id)!].sort()).toEqual([...chain, ...control.map((k) => k.symbol)].sort());
    for (const set of chambers) expect(depthCount(set, spec.depths.length)).toBeLessThanOrEqual(2);
    for (const avoided of request.avoid ?? [])
      if (!keys.some(({ bitting }) => differences(bitting, avoided) === 0))
        expect(operates(chambers, avoided)).toBe(false);
  }
  expect(new Set(keys.map((k) => k.symbol)).size).toBe(keys.length);
  expect(new Set(keys.map((k) => k.bitting.join())).size).toBe(keys.length);
  const master = { symbol: keys[0]!.symbol, bitting: system.topMaster! };
  for (const { bitting, symbol, level } of keys) {
    const context = level === 'control' ? {} : { self: symbol, master };
    const faults = checkBitting(spec, bitting, request.rules ?? DEFAULT_RULES, context);
    expect(faults.filter((f) => severityOf(f) === 'fault' && f.code !== 'equals-master')).toEqual([]);
  }
  const least = request.minimumDifference ?? 1;
  for (const level of ['CK', 'MK', 'GMK'] as const) {
    const same = operating.filter((k) => k.level === level);
    same.forEach((a, i) => {
      for (const b of same.slice(i + 1))
        expect(differences(a.bitting, b.bitting)).toBeGreaterThanOrEqual(least);
    });
  }
}

const requests: fc.Arbitrary<SystemRequest> = fc
  .record({
    spec: fc.constantFrom(SIX, FIVE, CORE, CORE_ONE_STEP),
    levels: fc.constantFrom(2 as const, 3 as const, 4 as const),
    sizes: fc.array(
      fc.array(fc.record({ changeKeys: fc.nat({ max: 6 }), spares: fc.nat({ max: 2 }) }), {
        minLength: 1,
        maxLength: 3,
      }),
      { minLength: 1, maxLength: 3 },
    ),
    spareMasters: fc.nat({ max: 1 }),
    order: fc.constantFrom('progression' as const, 'scattered' as const),
    seed: fc.nat(),
    minimumDifference: fc.constantFrom(1, 1, 2),
    kind: fc.constantFrom('total' as const, 'total' as const, 'partial' as const, 'rotating' as const),
    doorsPerKey: fc.integer({ min: 1, max: 2 }),
  })
  .map(({ sizes, levels, kind, spareMasters, doorsPerKey, ...rest }) => ({
    name: 'any',
    ...rest,
    levels,
    grands: (levels === 4 ? sizes : sizes.slice(0, 1)).map((masters) => ({
      masters: (levels === 2 ? masters.slice(0, 1) : masters).map((m) => ({ ...m, doorsPerKey })),
      ...(levels > 2 ? { spares: spareMasters } : {}),
    })),
    progression:
      kind === 'partial'
        ? { kind, constant: [2] }
        : kind === 'rotating'
          ? { kind, constants: 1 }
          : { kind: 'total' as const },
  }));

describe('a generated system', () => {
  it('lets in the keys of the line and nobody else, whatever was asked for', () => {
    let fitted = 0;
    fc.assert(
      fc.property(requests, (request) => {
        const result = generate(request);
        if (!result.ok) {
          expect(result.problems.length).toBeGreaterThan(0);
          expect(result.capacity.fits).toBe(false);
          return;
        }
        fitted++;
        expect(result.capacity.fits).toBe(true);
        expectSound(request, result);
        const wanted = request.grands.flatMap((g) => g.masters);
        const changes = result.system.keys.filter((k) => k.level === 'CK');
        const sum = (of: (m: (typeof wanted)[number]) => number) => wanted.reduce((n, m) => n + of(m), 0);
        expect(changes.filter((k) => k.status === 'issued')).toHaveLength(sum((m) => m.changeKeys));
        expect(changes.filter((k) => k.status === 'reserved')).toHaveLength(sum((m) => m.spares!));
        expect(result.system.cylinders).toHaveLength(sum((m) => m.changeKeys * m.doorsPerKey!));
      }),
      { numRuns: 40 },
    );
    expect(fitted).toBeGreaterThan(20);
  }, 60_000);

  it('names keys by the key coding at each number of levels', () => {
    const symbols = (levels: 2 | 3 | 4) =>
      made({
        name: 'x',
        spec: SIX,
        levels,
        grands: evenTree(levels, { grands: 2, masters: 2, changeKeys: 2 }),
      }).system.keys.map((k) => k.symbol);
    expect(symbols(2)).toEqual(['AA', '1AA', '2AA']);
    expect(symbols(3)).toEqual(['A', 'AA', 'AA1', 'AA2', 'AB', 'AB1', 'AB2']);
    expect(symbols(4).join(' ')).toBe('GGMK A AA AA1 AA2 AB AB1 AB2 B BA BA1 BA2 BB BB1 BB2');
    const four = made({
      name: 'x',
      spec: SIX,
      levels: 4,
      grands: evenTree(4, { grands: 2, masters: 2, changeKeys: 2 }),
    });
    for (const { symbol, parent } of four.system.keys)
      expect(parent).toBe(parentSymbol(symbol, { levels: 4 }));
  });

  it('is the same again for the same seed and another for another', () => {
    const request = (seed: number): SystemRequest => ({
      name: 'x',
      spec: SIX,
      levels: 3,
      order: 'scattered',
      seed,
      grands: evenTree(3, { masters: 3, changeKeys: 5 }),
    });
    expect(generate(request(4))).toEqual(generate(request(4)));
    expect(made(request(4)).system.keys).not.toEqual(made(request(5)).system.keys);
  });

  it('calls cylinders after their doors, and twice the same door apart', () => {
    const { system } = made({
      name: 'x',
      spec: SIX,
      levels: 3,
      grands: [{ masters: [{ changeKeys: 3, doors: [['101', '102'], ['101'], []] }] }],
      cylinders: [{ id: 'C1', symbol: 'AA9', chambers: pinnedFor(SIX, [cutsOf(SIX, '999999')]) }],
    });
    expect(system.cylinders.map((c) => [c.id, c.door, c.symbol])).toEqual([
      ['101', '101', 'AA1'],
      ['102', '102', 'AA1'],
      ['101-2', '101', 'AA2'],
    ]);
  });

  it('keeps new keys out of the cylinders of every keyway that their blanks enter', () => {
    const request: SystemRequest = {
      name: 'wing',
      spec: FIVE,
      levels: 2,
      rules: { ...NO_RULES, operatesExisting: true },
      topMaster: cutsOf(FIVE, '02020'),
      keyway: 'K12',
      grands: evenTree(2, { changeKeys: 8 }),
    };
    const plain = made(request).system;
    const taken = plain.keys[3]!.bitting;
    // a cylinder of another keyway, pinned for a bitting that would be given out
    const there = [{ id: 'OLD', symbol: 'B1', keyway: 'K1', chambers: pinnedFor(FIVE, [taken]) }];
    const has = (system: KeySystem) => system.keys.some(({ bitting }) => bitting.join() === taken.join());
    expect(has(made({ ...request, cylinders: there }).system)).toBe(true);
    const heeded = made({ ...request, cylinders: there, enters: { K12: ['K1', 'K2'] } }).system;
    expect(has(heeded)).toBe(false);
    expect(heeded.enters).toEqual({ K12: ['K1', 'K2'] });
  });

  it('fills a hierarchy to the last key: 256 groups of 16 at 4,096 changes', () => {
    const request: SystemRequest = {
      name: 'full',
      spec: SIX,
      levels: 3,
      rules: NO_RULES,
      topMaster: cutsOf(SIX, '274153'),
      grands: evenTree(3, { masters: 256, changeKeys: 16 }),
    };
    const { system } = made(request);
    expect(system.keys).toHaveLength(1 + 256 + 4096);
    const full = generate({ ...request, grands: evenTree(3, { masters: 256, changeKeys: 17 }) });
    expect(full.ok ? [] : full.problems).toEqual([{ code: 'too-few-changes', needed: 4352, possible: 4096 }]);
  });
});

describe('control keys of generated cores', () => {
  it.each([CORE, CORE_ONE_STEP])('pull every core and operate none', (spec) => {
    const { system } = made({
      name: 'cores',
      spec,
      levels: 3,
      seed: 9,
      grands: evenTree(3, { masters: 4, changeKeys: 12 }),
    });
    const control = system.keys.find((k) => k.level === 'control')!;
    expect(control.symbol).toBe('CTR');
    for (const cylinder of system.cylinders) {
      expect(cylinder.control).toEqual(control.bitting);
      expect(cylinder.chambers.every((set, i) => hasDepth(set, control.bitting[i]!))).toBe(false);
    }
    expect(runToEnd(auditSystem(auditInputOf(system), { near: false })).counts).toEqual({});
  });
});

describe('extending a system', () => {
  const first = made({
    name: 'old',
    spec: SIX,
    levels: 3,
    seed: 2,
    grands: evenTree(3, { masters: 3, changeKeys: 8 }),
  });
  const bittingOfKey = (symbol: string): Bitting =>
    first.system.keys.find((k) => k.symbol === symbol)!.bitting;
  const { topMaster, array } = first.system;
  const base: SystemRequest = {
    name: 'old',
    spec: SIX,
    levels: 3,
    topMaster: topMaster!,
    array: array!,
    avoid: first.system.keys.map((k) => k.bitting),
    cylinders: first.system.cylinders,
    grands: [],
  };

  /** Old and new together, audited as one system. */
  function together(added: KeySystem, existing: readonly string[]): KeySystem {
    const fresh: KeyRecord[] = added.keys.filter((k) => !existing.includes(k.symbol));
    return {
      ...first.system,
      keys: [...first.system.keys, ...fresh],
      cylinders: [...first.system.cylinders, ...added.cylinders],
    };
  }

  it('adds change keys under an existing master', () => {
    const request: SystemRequest = {
      ...base,
      grands: [{ masters: [{ symbol: 'AB', bitting: bittingOfKey('AB'), changeKeys: 6, firstNumber: 9 }] }],
    };
    const added = made(request);
    expect(added.existing).toEqual(['A', 'AB']);
    expect(added.system.keys.map((k) => k.symbol)).toEqual([
      'A',
      'AB',
      'AB9',
      'AB10',
      'AB11',
      'AB12',
      'AB13',
      'AB14',
    ]);
    const all = together(added.system, added.existing);
    expect(runToEnd(auditSystem(auditInputOf(all), { near: false })).counts).toEqual({});
  });

  it('adds a master beside the existing ones', () => {
    const added = made({ ...base, grands: [{ masters: [{ symbol: 'AD', changeKeys: 10 }] }] });
    const all = together(added.system, added.existing);
    expect(all.keys).toHaveLength(first.system.keys.length + 11);
    expect(runToEnd(auditSystem(auditInputOf(all), { near: false })).counts).toEqual({});
  });

  it('says where an existing master doesn’t follow the deal', () => {
    const result = generate({
      ...base,
      deal: ['CK', 'CK', 'CK', 'MK', 'MK', 'MK'],
      grands: [{ masters: [{ symbol: 'AB', bitting: bittingOfKey('AB'), changeKeys: 1 }] }],
    });
    const differs = bittingOfKey('AB').findIndex((cut, i) => cut !== topMaster![i]);
    expect(result.ok ? [] : result.problems).toEqual([
      { code: 'master-off-deal', symbol: 'AB', chamber: differs + 1 },
    ]);
  });
});

describe('lost keys', () => {
  it('excuse no top master that breaks the rules: only one in use is taken as it is', () => {
    const request: SystemRequest = {
      name: 'x',
      spec: SIX,
      levels: 3,
      topMaster: cutsOf(SIX, '555555'),
      avoid: [cutsOf(SIX, '274153')],
      grands: evenTree(3, { masters: 1, changeKeys: 2 }),
    };
    const result = runToEnd(generateSystem(request));
    expect(result.ok ? [] : result.problems.map(({ code }) => code)).toContain('top-master-unusable');
    const inUse = runToEnd(generateSystem({ ...request, avoid: [cutsOf(SIX, '555555')] }));
    expect(inUse.ok ? [] : inUse.problems.map(({ code }) => code)).not.toContain('top-master-unusable');
  });

  it('operate no new cylinder, not even as incidental keys', () => {
    const cuts = fc.array(fc.nat({ max: 9 }), { minLength: 6, maxLength: 6 });
    const topMaster = cutsOf(SIX, '274153');
    // Mixtures of the top master and array depths are the ones that could be incidental.
    const mixed = fc
      .array(fc.tuple(fc.boolean(), fc.constantFrom(2, 4)), { minLength: 6, maxLength: 6 })
      .map((parts) => parts.map(([keep, by], i) => (keep ? topMaster[i]! : (topMaster[i]! + by) % 10)));
    fc.assert(
      fc.property(fc.array(fc.oneof(cuts, mixed), { maxLength: 12 }), fc.nat(), (lost, seed) => {
        const avoid = lost.map((c) => cutsOf(SIX, c.join(''))).filter((c) => differences(c, topMaster) > 0);
        const request: SystemRequest = {
          name: 'x',
          spec: SIX,
          levels: 3,
          topMaster,
          avoid,
          seed,
          order: 'scattered',
          grands: evenTree(3, { masters: 3, changeKeys: 6 }),
        };
        const result = made(request);
        expectSound(request, result);
        for (const { bitting } of result.system.keys)
          expect(avoid.some((other) => differences(other, bitting) === 0)).toBe(false);
      }),
      { numRuns: 30 },
    );
  });
});

describe('grand masters in reserve', () => {
  it('are set aside with room for what the smallest grand holds, and can be used later', () => {
    const request: SystemRequest = {
      name: 'Hall',
      spec: SIX,
      levels: 4,
      grands: [
        { masters: [{ changeKeys: 6 }, { changeKeys: 4, spares: 1 }] },
        { masters: [{ changeKeys: 3 }] },
      ],
      spareGrands: 2,
      order: 'scattered',
      seed: 4,
    };
    const first = made(request);
    expectSound(request, first);
    const spares = first.system.keys.filter((k) => k.level === 'GMK' && k.status === 'reserved');
    expect(spares.map(({ symbol, parent }) => [symbol, parent])).toEqual([
      ['C', 'GGMK'],
      ['D', 'GGMK'],
    ]);
    const later: SystemRequest = {
      name: 'Hall',
      spec: SIX,
      levels: 4,
      topMaster: first.system.topMaster!,
      array: first.system.array!,
      deal: first.capacity.figures!.deal,
      grands: spares.map(({ symbol, bitting }) => ({ symbol, bitting, masters: [{ changeKeys: 3 }] })),
      avoid: first.system.keys.map(({ bitting }) => bitting),
      cylinders: first.system.cylinders,
    };
    const second = made(later);
    const keys = [...first.system.keys, ...second.system.keys.filter((k) => k.level === 'CK')];
    for (const { symbol, chambers } of [...first.system.cylinders, ...second.system.cylinders])
      expect(
        keys.filter((k) => k.level === 'CK' && operates(chambers, k.bitting)).map((k) => k.symbol),
      ).toEqual([symbol]);
    expect(second.system.cylinders.map((c) => c.symbol)).toEqual(['CA1', 'CA2', 'CA3', 'DA1', 'DA2', 'DA3']);
  });
});

describe('what a system is written with', () => {
  it('is its keyway, on every key and cylinder, where it has one', () => {
    for (const spec of [SIX, CORE]) {
      const request: SystemRequest = {
        name: 'x',
        spec,
        levels: 3,
        grands: evenTree(3, { masters: 2, changeKeys: 2 }),
      };
      const plain = made(request).system;
      const keyed = made({ ...request, keyway: 'K1' }).system;
      for (const record of [...plain.keys, ...plain.cylinders]) expect(record).not.toHaveProperty('keyway');
      expect(keyed.keys).toEqual(plain.keys.map((key) => ({ ...key, keyway: 'K1' })));
      expect(keyed.cylinders).toEqual(plain.cylinders.map((cylinder) => ({ ...cylinder, keyway: 'K1' })));
    }
  });

  it('names the top, the grand and the masters as they are asked for, and passes over those names', () => {
    const symbols = (request: Omit<SystemRequest, 'name' | 'spec'>) =>
      made({ name: 'x', spec: SIX, ...request }).system.keys.map((k) => `${k.symbol} ${k.level} ${k.status}`);
    const masters = [
      { symbol: 'ab', changeKeys: 1, firstNumber: 7 },
      { changeKeys: 1, spares: 1 },
      { changeKeys: 1 },
    ];
    expect(symbols({ levels: 3, grands: [{ symbol: 'H', masters, spares: 1 }] })).toEqual([
      'H GMK issued', 'ab MK issued', 'ab7 CK issued', 'HA MK issued', 'HA1 CK issued', 'HA2 CK reserved',
      'HB MK issued', 'HB1 CK issued', 'HC MK reserved',
    ]); // prettier-ignore
    expect(symbols({ levels: 3, grands: [{ masters }], topSymbol: 'TOP' }).slice(0, 4)).toEqual([
      'TOP GMK issued', 'ab MK issued', 'ab7 CK issued', 'TOPA MK issued',
    ]); // prettier-ignore
    expect(symbols({ levels: 2, grands: [{ masters: [{ symbol: 'ZZ', changeKeys: 1 }] }] })).toEqual([
      'ZZ MK issued', '1ZZ CK issued',
    ]); // prettier-ignore
    expect(symbols({ levels: 4, grands: [{ symbol: 'Q', masters: [{ changeKeys: 1 }] }] })).toEqual([
      'GGMK GGMK issued', 'Q GMK issued', 'QA MK issued', 'QA1 CK issued',
    ]); // prettier-ignore
  });

  it('gives no cylinder the number or name of another, in either case, however many doors are alike', () => {
    const old = ['c2', ' HALL '].map((id) => ({
      id, symbol: 'AA9', chambers: pinnedFor(SIX, [cutsOf(SIX, '999999')]),
    })); // prettier-ignore
    const { system } = made({
      name: 'x',
      spec: SIX,
      levels: 3,
      grands: [
        {
          masters: [
            {
              changeKeys: 3,
              doors: [
                ['Hall', 'hall', ' Hall'],
                ['Gym', 'Hall-2', ''],
              ],
              doorsPerKey: 2,
            },
          ],
        },
      ],
      cylinders: old,
    });
    expect(system.cylinders.map((c) => c.id)).toEqual([
      'Hall-2',
      'hall-3',
      'Hall-4',
      'Gym',
      'Hall-2-2',
      'C1',
      'C3',
      'C4',
    ]);
  });
});

describe('the control key', () => {
  const request: SystemRequest = {
    name: 'x',
    spec: CORE,
    levels: 2,
    grands: evenTree(2, { changeKeys: 3 }),
    keyway: 'K1',
  };

  it('is the one that there is already, and is then no new key', () => {
    const first = made(request);
    const control = first.system.keys.find((k) => k.level === 'control')!;
    expect(control).toEqual({
      symbol: 'CTR',
      level: 'control',
      bitting: control.bitting,
      status: 'issued',
      keyway: 'K1',
    });
    expect(first.existing).toEqual([]);
    expect(first.marks.filter((m) => m.key === 'CTR').map((m) => m.cylinder)).toEqual(
      first.system.cylinders.map((c) => c.id),
    );
    const again = made({ ...request, control: control.bitting });
    expect(again.system.keys.find((k) => k.level === 'control')).toEqual(control);
    expect(again.existing).toEqual(['CTR']);
  });

  it('is missing where no stack has room for it: the sum of pins is too small', () => {
    // operating cuts go to 9 or 8, so the control cut must reach 6 or 5; the top pin then has less than two steps
    const spec = plainSpec({
      positions: 6,
      depths: 10,
      increment: 0.0125,
      macs: 9,
      core: { total: 9, addition: 5 },
    });
    const result = generate({ ...request, spec });
    expect(result.ok ? [] : result.problems).toEqual([{ code: 'no-control-key', tried: 0 }]);
    expect(result.capacity.fits).toBe(true);
  });

  it('is none that operates a core of the system that is there already', () => {
    const first = made(request);
    const rest: SystemRequest = {
      ...request,
      topMaster: first.system.topMaster!,
      array: first.system.array!,
      avoid: first.system.keys.map((k) => k.bitting),
      cylinders: first.system.cylinders,
      grands: [{ masters: [{ changeKeys: 2, firstNumber: 4 }] }],
    };
    const { system } = made(rest);
    const control = system.keys.find((k) => k.level === 'control')!;
    for (const { chambers } of [...first.system.cylinders, ...system.cylinders])
      expect(chambers.every((set, i) => hasDepth(set, control.bitting[i]!))).toBe(false);
    for (const { bitting } of first.system.keys) expect(control.bitting).not.toEqual(bitting);
  });
});
