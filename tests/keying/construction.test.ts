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
import { isUsable } from '../../src/keying/rules.ts';
import { runToEnd, type Chambers } from '../../src/keying/system.ts';
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
