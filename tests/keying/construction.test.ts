/**
 * Construction keying against the plain definition of what opens what (every cut of the key is one of the depths of
 * that chamber), all keys by all cylinders in both states; and the loose pin's rule (common practice, from memory): it
 * leaves with a key that lifts every other pin of its chamber to the shear line, so with the deepest cut there.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import { pinnedFor } from '../../src/keying/cylinder.ts';
import { constructionKeying, type ConstructionRequest, type OneWay } from '../../src/keying/construction.ts';
import { sayConstructionFault } from '../../src/keying/constructionWording.ts';
import type { Deal } from '../../src/keying/deal.ts';
import { depthsIn } from '../../src/keying/depthSet.ts';
import { evenTree, generateSystem } from '../../src/keying/hierarchy.ts';
import { pinStack } from '../../src/keying/pinning.ts';
import { DEFAULT_RULES, isUsable, NO_RULES } from '../../src/keying/rules.ts';
import { runToEnd, type Chambers, type KeyRecord, type KeySystem } from '../../src/keying/system.ts';
import { plainSpec } from '../support/systems.ts';

const SPEC = plainSpec({ positions: 6, depths: 10, increment: 0.015, macs: 7 });
const KEPT: Deal = ['MK', 'CK', 'CK', 'CK', 'constant', 'CK'];

function request(
  change: { deal?: Deal; oneWay?: OneWay; seed?: number; only?: number } = {},
): ConstructionRequest {
  const { deal, oneWay = 'loose-pin', seed = 1, only } = change;
  const topMaster = [4, 5, 4, 6, 3, 5];
  const made = runToEnd(
    generateSystem({
      name: 'Hall',
      spec: SPEC,
      levels: 3,
      grands: evenTree(3, { masters: 2, changeKeys: 4 }),
      order: 'scattered',
      seed,
      ...(deal && { deal, topMaster: bittingOf(SPEC, topMaster) }),
    }),
  );
  if (!made.ok) throw new Error('does not fit');
  const { system, marks } = made;
  return {
    system,
    marks,
    cylinders: system.cylinders.slice(0, only).map(({ id }) => id),
    symbol: 'CON',
    oneWay,
    seed,
  };
}

const find = (asked: ConstructionRequest) => {
  const result = runToEnd(constructionKeying(asked));
  if (!result.ok) throw new Error(sayConstructionFault(result.fault));
  return result;
};

const opens = (chambers: Chambers, cuts: readonly number[]): boolean =>
  chambers.every((set, i) => depthsIn(set, SPEC.depths.length).includes(cuts[i]!));

/** Every bitting with up to three loose pins that will do, by the plain definition: each cut in turn, each key in turn. */
function plainBittings({ system, cylinders }: ConstructionRequest): number[][] {
  const chosen = system.cylinders.filter(({ id }) => cylinders.includes(id));
  const now = (c: number, i: number): number[] => depthsIn(chosen[c]!.chambers[i]!, 10);
  const found: number[][] = [];
  const withPins = (cuts: readonly number[], loose: readonly number[]): boolean =>
    chosen.every(({ chambers }, c) => {
      const before = chambers.map((set, i) =>
        loose.includes(i) ? [...now(c, i), cuts[i]!] : depthsIn(set, 10),
      );
      const openers = system.keys.filter(({ bitting }) => opens(chambers, bitting));
      return (
        openers.some(({ bitting }) => loose.some((i) => bitting[i] === Math.max(...now(c, i)))) &&
        system.keys.every(
          ({ bitting }) =>
            before.every((depths, i) => depths.includes(bitting[i]!)) === opens(chambers, bitting),
        )
      );
    });
  const grow = (cuts: readonly number[], loose: readonly number[]): void => {
    if (loose.length > 3) return;
    const i = cuts.length;
    if (i === SPEC.centres.length) {
      if (
        loose.length > 0 &&
        isUsable(SPEC, cuts) &&
        !system.keys.some(({ bitting }) => bitting.join() === cuts.join()) &&
        !system.cylinders.some(({ chambers }) => opens(chambers, cuts)) &&
        withPins(cuts, loose)
      )
        found.push([...cuts]);
      return;
    }
    for (let d = 0; d < 10; d++)
      if (chosen.every((_, c) => now(c, i).includes(d))) grow([...cuts, d], loose);
      else if (chosen.every((_, c) => d >= Math.max(...now(c, i)) + SPEC.step))
        grow([...cuts, d], [...loose, i]);
  };
  grow([], []);
  return found;
}

describe('a construction key', () => {
  it('opens its cylinders before and none after, and changes nothing for any other key', () => {
    let found = 0;
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 500 }),
        fc.constantFrom<OneWay>('loose-pin', 'repin'),
        fc.option(fc.integer({ min: 1, max: 7 }), { nil: undefined }),
        (seed, oneWay, only) => {
          const asked = request({ seed, oneWay, ...(only !== undefined && { only }) });
          const result = runToEnd(constructionKeying(asked));
          if (!result.ok) {
            expect(oneWay).toBe('loose-pin');
            expect(result.fault).toMatchObject({ code: 'construction-none', all: true });
            expect(plainBittings(asked)).toEqual([]);
            const chosen = asked.system.cylinders.filter(({ id }) => asked.cylinders.includes(id));
            // none was even tried: nothing lies a master pin's two steps deeper than the deepest cut of all cylinders
            if (result.fault.code === 'construction-none' && result.fault.tried === 0)
              for (const i of SPEC.centres.keys())
                expect(
                  chosen.some(({ chambers: sets }) => depthsIn(sets[i]!, 10).at(-1)! + SPEC.step > 9),
                ).toBe(true);
            return;
          }
          found++;
          const { bitting, cylinders, chambers } = result;
          if (oneWay === 'loose-pin') expect(plainBittings(asked)).toContainEqual([...bitting]);
          const states = new Map(cylinders.map((c) => [c.id, c]));
          expect([...states.keys()]).toEqual(asked.cylinders);
          expect(isUsable(SPEC, bitting)).toBe(true);
          for (const { id, chambers: now } of asked.system.cylinders) {
            const state = states.get(id);
            expect(state?.after ?? now).toEqual(now);
            expect(opens(now, bitting)).toBe(false);
            if (!state) continue;
            expect(opens(state.before, bitting)).toBe(true);
            for (const key of asked.system.keys)
              expect(opens(state.before, key.bitting)).toBe(opens(now, key.bitting));
            // only the chambers named differ, by one pin each, and none is too thin
            state.before.forEach((set, i) => {
              expect(set === now[i]).toBe(!chambers.includes(i + 1));
              expect(pinStack(SPEC, set)!.thin).toEqual([]);
            });
          }
        },
      ),
      { numRuns: 25 },
    );
    expect(found).toBeGreaterThan(10);
  });

  it('is ended by every key where a chamber was kept for it', () => {
    const asked = request({ deal: KEPT });
    const { chambers, cylinders, bitting } = find(asked);
    expect(chambers).toEqual([5]);
    for (const { leaves, changedBy, notBy, before } of cylinders) {
      expect(leaves).toEqual([{ chamber: 5, from: 3, to: bitting[4] }]);
      expect(bitting[4]).toBeGreaterThan(3);
      expect(notBy).toEqual([]);
      expect(changedBy).toHaveLength(3);
      // the loose pin lies on top: one master pin more than without it
      expect(pinStack(SPEC, before[4]!)!.masters).toHaveLength(1);
    }
  });

  it('names the keys that leave the loose pin in where a chamber has two depths', () => {
    const asked = request();
    const { cylinders } = find(asked);
    const keys = new Map(asked.system.keys.map((key) => [key.symbol, key.bitting]));
    for (const { after, leaves, changedBy, notBy } of cylinders) {
      const deepest = (chamber: number): number => depthsIn(after[chamber - 1]!, SPEC.depths.length).at(-1)!;
      for (const { chamber, from, to } of leaves) {
        expect(from).toBe(deepest(chamber));
        expect(to).toBeGreaterThan(from);
      }
      expect(changedBy.length).toBeGreaterThan(0);
      const sheds = (symbol: string): boolean =>
        leaves.some(({ chamber }) => keys.get(symbol)![chamber - 1] === deepest(chamber));
      expect(changedBy.every(sheds)).toBe(true);
      expect(notBy.some(sheds)).toBe(false);
      expect(changedBy.length + notBy.length).toBe(3);
    }
  });

  it('gives the same bitting for the same seed', () => {
    expect(find(request({ seed: 7 })).bitting).toEqual(find(request({ seed: 7 })).bitting);
  });
});

describe('a construction key of any small system', () => {
  const small = plainSpec({ positions: 4, depths: 6, increment: 0.015, macs: 5 });
  const ids = ['C1', 'C2', 'C3'];
  const cut = fc.nat({ max: 5 });
  const code = fc.tuple(cut, cut, cut, cut);
  const keyway = fc.constantFrom(undefined, undefined, undefined, 'K1', 'K2');
  const named = <T>(name: string, value: T | undefined): object =>
    value === undefined ? {} : { [name]: value };
  const systems = fc.record({
    keys: fc.array(
      fc.record({ code, keyway, status: fc.constantFrom('issued' as const, 'reserved' as const) }),
      {
        minLength: 2,
        maxLength: 4,
      },
    ),
    // bittings that are out of use, or may be given out; now and then the first key's
    others: fc.array(
      fc.record({
        code: fc.option(code),
        keyway,
        status: fc.constantFrom('free' as const, 'free' as const, 'retired' as const),
      }),
      { maxLength: 3 },
    ),
    cylinders: fc.array(
      fc.record({
        own: fc.uniqueArray(fc.nat({ max: 3 }), { minLength: 1, maxLength: 2 }),
        keyway,
        empty: fc.nat(9),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    chosen: fc.subarray([0, 1, 2], { minLength: 1 }),
    oneWay: fc.constantFrom<OneWay>('loose-pin', 'repin'),
    rules: fc.constantFrom(NO_RULES, DEFAULT_RULES),
    seed: fc.nat(),
  });
  const chosenKeyways = (names: (string | undefined)[]): string[] => [
    ...new Set(names.filter((name) => name !== undefined)),
  ];
  const enters = (a: string | undefined, b: string | undefined): boolean => !a || !b || a === b;

  it('is one that the definitions allow, with the fewest pins that fewest keys leave in, or there is none', () => {
    const seen = { found: 0, none: 0, faulty: 0 };
    fc.assert(
      fc.property(systems, (drawn) => {
        const others = drawn.others.map((key) => ({ ...key, code: key.code ?? drawn.keys[0]!.code }));
        const keys = [...drawn.keys, ...others].map((key, k): KeyRecord => ({
          symbol: `S${k + 1}`,
          level: 'single',
          bitting: bittingOf(small, key.code),
          status: key.status,
          ...named('keyway', key.keyway),
        }));
        const pins = (chambers: Chambers, i: number): number[] => depthsIn(chambers[i]!, 6);
        const fits = (chambers: Chambers, cuts: readonly number[]): boolean =>
          cuts.every((depth, i) => pins(chambers, i).includes(depth));
        const cylinders = drawn.cylinders.map(({ own, empty, ...rest }, c) => {
          const bittings = own.map((k) => keys[k % drawn.keys.length]!.bitting);
          const inUse = [0, 1, 2, 3].map((i) => i !== empty);
          return {
            id: ids[c]!,
            symbol: '',
            chambers: pinnedFor(small, bittings, inUse),
            ...named('keyway', rest.keyway),
          };
        }) as KeySystem['cylinders'];
        const opens = (key: KeyRecord, c: number): boolean =>
          key.status !== 'free' &&
          enters(key.keyway, cylinders[c]!.keyway) &&
          fits(cylinders[c]!.chambers, key.bitting);
        const live = keys.filter(({ status }) => status === 'issued' || status === 'reserved');
        const marks = cylinders.flatMap(({ id }, c) =>
          live.filter((key) => opens(key, c)).map(({ symbol }) => ({ key: symbol, cylinder: id })),
        );
        const at = drawn.chosen.filter((c) => c < cylinders.length);
        const asked: ConstructionRequest = {
          system: { name: 'any', spec: small, keys, cylinders },
          marks,
          cylinders: at.map((c) => ids[c]!.toLowerCase()),
          symbol: 'CON',
          oneWay: drawn.oneWay,
          rules: drawn.rules,
          seed: drawn.seed,
        };
        const result = runToEnd(constructionKeying(asked));
        if (at.length === 0) {
          expect(result).toEqual({ ok: false, fault: { code: 'construction-no-cylinder' } });
          return;
        }
        const keyways = chosenKeyways(at.map((c) => cylinders[c]!.keyway));
        if (keyways.length > 1) {
          expect(result).toEqual({ ok: false, fault: { code: 'construction-keyways', keyways } });
          return;
        }
        // a lost key that still opens a door is an interchange
        const lost = keys.filter(({ status }) => status === 'retired');
        const findings = lost.reduce(
          (n, key) => n + ids.filter((_, c) => cylinders[c] && opens(key, c)).length,
          0,
        );
        if (findings > 0) {
          seen.faulty++;
          expect(result).toEqual({ ok: false, fault: { code: 'construction-system-faulty', findings } });
          return;
        }
        const chosen = at.map((c) => cylinders[c]!);
        const [blank] = keyways;
        const owners = at.map((c) => live.filter((key) => opens(key, c)));
        /** Chambers with a pin of its own for cuts; undefined where it is no construction bitting. */
        const loosePins = (cuts: readonly number[]): number[] | undefined => {
          const loose: number[] = [];
          for (const [i, depth] of cuts.entries()) {
            const sets = chosen.map(({ chambers }) => pins(chambers, i));
            if (sets.every((set) => set.includes(depth))) continue;
            const apart = (other: number): boolean =>
              Math.abs(other - depth) >= 2 && (drawn.oneWay === 'repin' || other < depth);
            if (!sets.every((set) => set.every(apart))) return undefined;
            loose.push(i);
          }
          if (loose.length === 0 || loose.length > 3 || !isUsable(small, cuts, drawn.rules)) return undefined;
          if (keys.some((key) => key.status !== 'free' && key.bitting.join() === cuts.join()))
            return undefined;
          if (cylinders.some((c) => !chosen.includes(c) && enters(blank, c.keyway) && fits(c.chambers, cuts)))
            return undefined;
          const right = chosen.every((cylinder, n) => {
            const before = cylinder.chambers.map((set, i) =>
              loose.includes(i) ? [...pins(cylinder.chambers, i), cuts[i]!] : depthsIn(set, 6),
            );
            const newIn = keys.some(
              (key) =>
                key.status !== 'free' &&
                enters(key.keyway, cylinder.keyway) &&
                key.bitting.every((depth, i) => before[i]!.includes(depth)) &&
                !fits(cylinder.chambers, key.bitting),
            );
            const ended = owners[n]!.some(({ bitting }) =>
              loose.some((i) => bitting[i] === Math.max(...pins(cylinder.chambers, i))),
            );
            return !newIn && (ended || drawn.oneWay === 'repin');
          });
          return right ? loose : undefined;
        };
        /** Keys that leave a pin in, in these chambers. */
        const staying = (loose: readonly number[]): number =>
          drawn.oneWay === 'repin'
            ? 0
            : loose.reduce(
                (sum, i) =>
                  sum +
                  chosen.reduce(
                    (n, { chambers }, c) =>
                      n +
                      owners[c]!.filter(({ bitting }) => bitting[i] !== Math.max(...pins(chambers, i)))
                        .length,
                    0,
                  ),
                0,
              );
        const rank = (loose: readonly number[]): number => loose.length * 1000 + staying(loose);
        const all = Array.from({ length: 6 ** 4 }, (_, n) => [
          Math.floor(n / 216),
          Math.floor(n / 36) % 6,
          Math.floor(n / 6) % 6,
          n % 6,
        ]);
        const ranks = all.flatMap((cuts) => {
          const loose = loosePins(cuts);
          return loose ? [rank(loose)] : [];
        });
        if (!result.ok) {
          seen.none++;
          expect(result.fault).toMatchObject({ code: 'construction-none', all: true });
          expect(ranks).toEqual([]);
          return;
        }
        seen.found++;
        const loose = loosePins(result.bitting);
        expect(loose?.map((i) => i + 1)).toEqual(result.chambers);
        expect(rank(loose!)).toBe(Math.min(...ranks));
        expect(result.pairs).toBe((keys.length + 1) * cylinders.length);
        expect(result.cylinders.map(({ id }) => id)).toEqual(chosen.map(({ id }) => id));
        result.cylinders.forEach(({ before, after, leaves, changedBy, notBy }, n) => {
          expect(after).toEqual(chosen[n]!.chambers);
          const next = (i: number): number => {
            const far = (depth: number): number => Math.abs(depth - result.bitting[i]!);
            return pins(after, i).reduce((a, b) => (far(b) < far(a) ? b : a));
          };
          expect(leaves).toEqual(
            loose!.map((i) => ({ chamber: i + 1, from: next(i), to: result.bitting[i] })),
          );
          before.forEach((set, i) => {
            const more = loose!.includes(i) ? [result.bitting[i]!] : [];
            expect(depthsIn(set, 6)).toEqual([...pins(after, i), ...more].sort((a, b) => a - b));
          });
          const sheds = ({ bitting }: KeyRecord): boolean =>
            loose!.some((i) => bitting[i] === Math.max(...pins(after, i)));
          const symbols = (list: KeyRecord[]): string[] => list.map(({ symbol }) => symbol);
          if (drawn.oneWay === 'repin') expect([changedBy, notBy]).toEqual([[], []]);
          else {
            expect(changedBy).toEqual(symbols(owners[n]!.filter(sheds)));
            expect(notBy).toEqual(symbols(owners[n]!.filter((key) => !sheds(key))));
          }
        });
      }),
      { numRuns: 150 },
    );
    expect(Math.min(seen.found, seen.none, seen.faulty)).toBeGreaterThan(0);
  });

  it('is cut on a blank that enters all of its doors, by their names or by the table of blanks', () => {
    const bitting = bittingOf(small, [1, 2, 1, 2]);
    const asked = (names: (string | undefined)[], table?: KeySystem['enters']): ConstructionRequest => ({
      system: {
        name: 'any',
        spec: small,
        keys: [{ symbol: 'S1', level: 'single', bitting, status: 'issued' }],
        cylinders: names.map((keyway, c) => ({
          id: ids[c]!,
          symbol: 'S1',
          chambers: pinnedFor(small, [bitting]),
          ...(keyway !== undefined && { keyway }),
        })),
        ...(table && { enters: table }),
      },
      marks: names.map((_, c) => ({ key: 'S1', cylinder: ids[c]! })),
      cylinders: ids,
      symbol: 'CON',
      oneWay: 'loose-pin',
    });
    const fault = (names: (string | undefined)[], table?: KeySystem['enters']) => {
      const result = runToEnd(constructionKeying(asked(names, table)));
      return result.ok ? 'found' : sayConstructionFault(result.fault);
    };
    const blank = (names: (string | undefined)[], table?: KeySystem['enters']) => {
      const result = runToEnd(constructionKeying(asked(names, table)));
      return result.ok && (result.keyway ?? 'any');
    };
    expect(blank([undefined, ' '])).toBe('any');
    expect(blank([undefined, ' k2 '])).toBe('k2');
    expect(blank(['K1', 'K2'], { k2: ['K1'] })).toBe('K2');
    expect(blank(['K1', 'K2'], { K12: ['K1', 'K2'] })).toBe('K12');
    const none =
      'No blank enters the keyways K1, K2 alike. Choose the cylinders of one keyway, and give each keyway a construction key of its own.';
    expect(fault(['K1', ' k1', 'K1'])).toBe('found');
    expect(fault([undefined, ' ', 'K1'])).toBe('found');
    expect(fault([undefined, undefined])).toBe('found');
    expect(fault(['K1', 'K2'])).toBe(none);
    expect(fault(['K1', 'K2'], { k2: ['K1'] })).toBe('found');
    expect(fault(['K1', 'K2'], { K12: ['K1', 'K2'] })).toBe('found');
    expect(fault(['K1', 'K2'], { K12: ['K1'] })).toBe(none);
  });

  it('is not made where a key can’t open a door that it is meant for: its blank is too short or of another keyway', () => {
    const bitting = bittingOf(small, [1, 2, 1, 2]);
    const asked = (blank: object): ConstructionRequest => ({
      system: {
        name: 'any',
        spec: small,
        keys: [
          { symbol: 'S1', level: 'single', bitting, status: 'issued' },
          { symbol: 'S2', level: 'single', bitting, status: 'issued', ...blank },
        ],
        cylinders: [{ id: 'C1', symbol: 'S1', keyway: 'K1', chambers: pinnedFor(small, [bitting]) }],
      },
      marks: ['S1', 'S2'].map((key) => ({ key, cylinder: 'C1' })),
      cylinders: ['C1'],
      symbol: 'CON',
      oneWay: 'loose-pin',
    });
    const faulty = { ok: false, fault: { code: 'construction-system-faulty', findings: 1 } };
    expect(runToEnd(constructionKeying(asked({ cuts: 3 })))).toEqual(faulty);
    expect(runToEnd(constructionKeying(asked({ keyway: 'K2' })))).toEqual(faulty);
    expect(runToEnd(constructionKeying(asked({}))).ok).toBe(true);
  });

  it('may have a symbol that is out of use, and none that is reserved', () => {
    const key = (symbol: string, digits: number[], status: KeyRecord['status']): KeyRecord => ({
      symbol,
      level: 'single',
      bitting: bittingOf(small, digits),
      status,
    });
    const own = key('S1', [1, 2, 1, 2], 'issued');
    const asked = (status: KeyRecord['status']): ConstructionRequest => ({
      system: {
        name: 'any',
        spec: small,
        keys: [own, key(' con', [5, 5, 5, 5], status)],
        cylinders: [{ id: 'C1', symbol: 'S1', chambers: pinnedFor(small, [own.bitting]) }],
      },
      marks: [{ key: 'S1', cylinder: 'C1' }],
      cylinders: ['C1'],
      symbol: 'CON',
      oneWay: 'loose-pin',
    });
    for (const status of ['issued', 'reserved'] as const)
      expect(runToEnd(constructionKeying(asked(status)))).toEqual({
        ok: false,
        fault: { code: 'construction-symbol-taken', symbol: 'CON' },
      });
    for (const status of ['free', 'void', 'retired'] as const)
      expect(runToEnd(constructionKeying(asked(status))).ok).toBe(true);
  });

  it('is looked for among so many bittings and no more for each choice of chambers, and tells how far it is', () => {
    // one key of the shallowest cuts: 26 − 2 deeper depths a chamber, so 24, 24² and 24³ bittings for one, two and
    // three loose pins, less than 20,000, and in four chambers 4, 6 and 4 ways to choose them
    const wide = plainSpec({ positions: 4, depths: 26, increment: 0.008, macs: 25, step: 2 });
    const key: KeyRecord = {
      symbol: 'S1',
      level: 'single',
      bitting: bittingOf(wide, [0, 0, 0, 0]),
      status: 'issued',
    };
    const second: KeyRecord = { ...key, symbol: 'S2', bitting: bittingOf(wide, [1, 1, 1, 1]) };
    const asked = (keys: KeyRecord[]): ConstructionRequest => ({
      system: {
        name: 'any',
        spec: wide,
        keys,
        cylinders: [
          {
            id: 'C1',
            symbol: 'S1',
            chambers: pinnedFor(
              wide,
              keys.map(({ bitting }) => bitting),
            ),
          },
        ],
      },
      marks: keys.map(({ symbol }) => ({ key: symbol, cylinder: 'C1' })),
      cylinders: ['C1'],
      symbol: 'CON',
      oneWay: 'loose-pin',
      // nobody has five different depths on four cuts
      rules: { ...NO_RULES, fewDepths: true, leastDepths: 5, leastDepthsFrom: 4 },
    });
    const all = 4 * 24 + 6 * 24 ** 2 + 4 * 24 ** 3;
    const steps = [...constructionKeying(asked([key]))].filter(({ stage }) => stage === 'choosing-keys');
    expect(steps).toHaveLength(Math.floor(all / 1000));
    for (const { done, total } of steps) expect(done).toBeLessThanOrEqual(total);
    expect(new Set(steps.map(({ total }) => total))).toEqual(new Set([24 ** 2, 24 ** 3]));
    expect(runToEnd(constructionKeying(asked([key])))).toEqual({
      ok: false,
      fault: { code: 'construction-none', tried: all, all: true },
    });
    // two depths a chamber: 23 deeper ones, and twice as many bittings for each further chamber, which is too many
    const some = 4 * 23 * 8 + 6 * 23 ** 2 * 4 + 4 * 20_000;
    expect(23 ** 3 * 2).toBeGreaterThan(20_000);
    expect(
      runToEnd(constructionKeying(asked([key, { ...second, bitting: bittingOf(wide, [1, 1, 1, 1]) }]))),
    ).toEqual({
      ok: false,
      fault: { code: 'construction-none', tried: some, all: false },
    });
  });
});

describe('no construction key', () => {
  const fault = (asked: ConstructionRequest) => {
    const result = runToEnd(constructionKeying(asked));
    return result.ok ? undefined : result.fault;
  };
  const good = request({ deal: KEPT });

  it('is said with its reason', () => {
    const core = plainSpec({
      positions: 6,
      depths: 10,
      increment: 0.0125,
      macs: 9,
      core: { total: 23, addition: 10 },
    });
    expect(fault({ ...good, system: { ...good.system, spec: core } })).toEqual({ code: 'construction-core' });
    expect(fault({ ...good, symbol: 'aa1' })).toEqual({ code: 'construction-symbol-taken', symbol: 'aa1' });
    expect(fault({ ...good, cylinders: ['nowhere'] })).toEqual({ code: 'construction-no-cylinder' });
    expect(fault({ ...good, marks: good.marks.slice(1) })).toEqual({
      code: 'construction-system-faulty',
      findings: 1,
    });
  });

  it('where the deepest depth is taken in every chamber: all is looked at, and re-pinning still serves', () => {
    // every cylinder pinned for keys of the deepest cut as well: nothing can lie deeper
    const deep = bittingOf(SPEC, [9, 9, 9, 9, 9, 9]);
    const alone: ConstructionRequest = {
      system: {
        name: 'Deep',
        spec: SPEC,
        keys: [{ symbol: 'SKD1', level: 'single', bitting: deep, status: 'issued' }],
        cylinders: [{ id: 'C1', symbol: 'SKD1', chambers: pinnedFor(SPEC, [deep]) }],
      },
      marks: [{ key: 'SKD1', cylinder: 'C1' }],
      cylinders: ['C1'],
      symbol: 'CON',
      oneWay: 'loose-pin',
    };
    expect(fault(alone)).toEqual({ code: 'construction-none', tried: 0, all: true });
    expect(find({ ...alone, oneWay: 'repin' }).cylinders[0]!.changedBy).toEqual([]);
  });
});
