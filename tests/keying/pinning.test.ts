import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { depthSetOf, EVERY, NONE } from '../../src/keying/depthSet.ts';
import {
  coreStack,
  inches,
  isThin,
  makeSpecification,
  nearestPin,
  pinStack,
  type SpecificationDraft,
} from '../../src/keying/index.ts';
import { specArbitrary } from '../support/keyingArbitraries.ts';
import { plainSpec } from '../support/systems.ts';

const spec = plainSpec({ positions: 5, depths: 10, increment: 0.015, macs: 7 });

describe('pin stacks', () => {
  it('hold a bottom pin, a master pin for each further depth and a top pin up to the target', () => {
    const tall = { ...spec, targetStack: inches(0.42) };
    const stack = pinStack(tall, depthSetOf([6, 2]))!;
    // plug 0.500 − root 0.300 = 0.200; four steps of 0.015 = 0.060; 0.420 − 0.260 = 0.160
    expect(stack).toMatchObject({
      bottom: { steps: 2, length: inches(0.2) },
      masters: [{ steps: 4, length: inches(0.06) }],
      top: inches(0.16),
      total: { steps: 6, length: inches(0.26) },
      thin: [],
      tooTall: false,
    });
  });

  it('take bottom pins from the shop’s table where it has one, and master pins as the difference', () => {
    const depths = spec.depths.map((d, i) => (i === 2 ? { ...d, pin: inches(0.203) } : d));
    expect(pinStack({ ...spec, depths }, depthSetOf([2, 6]))).toMatchObject({
      bottom: { length: inches(0.203) },
      masters: [{ length: inches(0.057) }],
    });
  });

  it('leave lengths out that nobody knows', () => {
    const unknown = { ...spec };
    delete unknown.plugDiameter;
    const stack = pinStack(unknown, depthSetOf([2, 6]))!;
    expect(stack.bottom).toEqual({ steps: 2 });
    expect(stack.masters).toEqual([{ steps: 4, length: inches(0.06) }]);
    expect(stack.top).toBeUndefined();
  });

  it('are too tall when nothing is left for the top pin', () => {
    const low = { ...spec, targetStack: inches(0.26) };
    expect(pinStack(low, depthSetOf([2, 6]))!.tooTall).toBe(true);
    expect(pinStack(low, depthSetOf([2, 5]))!.tooTall).toBe(false);
  });

  it('name master pins thinner than the step', () => {
    expect(pinStack(spec, depthSetOf([1, 2, 4]))!.thin).toEqual([{ from: 1, to: 2, steps: 1 }]);
  });

  it('are none in an empty chamber', () => {
    expect(pinStack(spec, EVERY)).toBeUndefined();
    expect(pinStack(spec, NONE)).toBeUndefined();
  });

  it('compare lengths where steps are uneven: one large step is as thick as two small ones', () => {
    const roots = [0.33, 0.315, 0.285, 0.27, 0.255];
    const draft: SpecificationDraft = {
      name: 'uneven',
      title: '',
      unit: 'in',
      gauge: 'shoulder',
      order: 'bow-to-tip',
      positions: 4,
      first: inches(0.2),
      spacing: inches(0.15),
      depths: roots.map((root, i) => ({ symbol: String(i), root: inches(root) })),
      rootWidth: inches(0.05),
      angle: 90,
      macs: 3,
    };
    const made = makeSpecification(draft);
    if (!made.ok) throw new Error();
    expect(made.value.step).toBe(2);
    expect([isThin(made.value, 0, 1), isThin(made.value, 1, 2), isThin(made.value, 2, 3)]).toEqual([
      true,
      false,
      true,
    ]);
  });

  it('add up to the deepest depth’s bottom pin, whatever the spec and the depths', () => {
    fc.assert(
      fc.property(specArbitrary(), fc.uniqueArray(fc.nat({ max: 6 }), { minLength: 1 }), (any, depths) => {
        const known = { ...any, plugDiameter: inches(0.8) };
        const inside = depths.filter((d) => d < known.depths.length);
        fc.pre(inside.length > 0);
        const stack = pinStack(known, depthSetOf(inside))!;
        const sum = stack.masters.reduce((total, pin) => total + pin.length!, stack.bottom.length! as number);
        const deepest = Math.max(...inside);
        expect(sum).toBe(inches(0.8) - known.depths[deepest]!.root);
        expect(stack.masters).toHaveLength(inside.length - 1);
        expect(stack.bottom.steps + stack.masters.reduce((total, pin) => total + pin.steps, 0)).toBe(deepest);
      }),
    );
  });

  it('find the nearest kit size, the thinner of two equally near', () => {
    const kit = [0.11, 0.115, 0.12].map(inches);
    expect(nearestPin(inches(0.113), kit)).toEqual({ size: inches(0.115), error: inches(0.002) });
    expect(nearestPin(inches(0.1125), [...kit].reverse())).toEqual({
      size: inches(0.11),
      error: inches(-0.0025),
    });
    expect(nearestPin(inches(0.113), [])).toBeUndefined();
  });

  it('of cores need a spec of cores', () => {
    expect(() => coreStack(spec, depthSetOf([1]), 2)).toThrow('not a spec of interchangeable cores');
  });
});

describe('master pins where the shop’s table is incomplete', () => {
  it('are the difference of the root depths as soon as one bottom pin is unknown', () => {
    const unknown = { ...spec };
    delete unknown.plugDiameter;
    const depths = unknown.depths.map((d, i) => (i === 2 ? { ...d, pin: inches(0.203) } : d));
    const stack = pinStack({ ...unknown, depths, targetStack: inches(0.42) }, depthSetOf([2, 6]))!;
    expect(stack).toMatchObject({
      bottom: { steps: 2, length: inches(0.203) },
      masters: [{ steps: 4, length: inches(0.06) }],
      total: { steps: 6, length: inches(0.263) },
      top: inches(0.157),
    });
    const other = pinStack({ ...unknown, depths, targetStack: inches(0.42) }, depthSetOf([1, 2]))!;
    expect(other).toEqual({
      bottom: { steps: 1 },
      masters: [{ steps: 1, length: inches(0.015) }],
      total: { steps: 2 },
      thin: [{ from: 1, to: 2, steps: 1 }],
      tooTall: false,
    });
  });

  it('take the nearest size in whatever order the kit is listed', () => {
    const kit = [0.1, 0.12, 0.11, 0.13].map(inches);
    for (const sizes of [kit, [...kit].reverse()]) {
      expect(nearestPin(inches(0.111), sizes)!.size).toBe(inches(0.11));
      expect(nearestPin(inches(0.115), sizes)!.size).toBe(inches(0.11));
      expect(nearestPin(inches(0.2), sizes)!.size).toBe(inches(0.13));
      expect(nearestPin(inches(0.05), sizes)!.size).toBe(inches(0.1));
    }
  });
});
