/**
 * Interchangeable cores against published values. Totals and control additions of 23/10 at 0.0125 in and 14/6 at
 * 0.021 in: core service manual, section on pinning (build-up = control + addition − deepest operating cut, top =
 * total − control − addition). 16/7 at 0.018 in: from memory. Each addition is the same sleeve of about 0.125 in.
 * Steps of progression (two at 0.0125 in, one at 0.018 and 0.021 in): trade-association magazine, July/August 2017.
 */
import { describe, expect, it } from 'vitest';
import { depthSetOf } from '../../src/keying/depthSet.ts';
import { coreFaults, coreStack, pinnedFor } from '../../src/keying/index.ts';
import { cutsOf, plainSpec } from '../support/systems.ts';
import { CONTROL_SLEEVE, CORE_KINDS } from './values.ts';

describe('interchangeable cores', () => {
  it.each(CORE_KINDS)('at $increment in progress in $step step(s)', ({ step, ...kind }) => {
    expect(plainSpec({ positions: 7, ...kind }).step).toBe(step);
  });

  it.each(CORE_KINDS)('at $increment in lift the control line by about 0.125 in', ({ increment, core }) => {
    expect(Math.abs(core.addition * increment - CONTROL_SLEEVE)).toBeLessThanOrEqual(0.001 + 1e-9);
  });

  it.each(CORE_KINDS)(
    'at $increment in stack to their total, with the control line one sleeve up',
    (kind) => {
      const spec = plainSpec({ positions: 7, ...kind });
      const all = spec.depths.map((_, i) => i);
      for (const control of all)
        for (const deep of all)
          for (const shallow of all.filter((d) => d < deep)) {
            const stack = coreStack(spec, depthSetOf([shallow, deep]), control)!;
            expect(stack.bottom.steps).toBe(shallow);
            expect(stack.masters.map((m) => m.steps)).toEqual([deep - shallow]);
            expect(stack.buildUp.steps).toBe(control + kind.core.addition - deep);
            expect(stack.top.steps).toBe(kind.core.total - control - kind.core.addition);
            // The published total, and the control key lifting everything under the build-up's top to the sleeve's edge.
            const pins = [stack.bottom, ...stack.masters, stack.buildUp, stack.top];
            expect(pins.reduce((sum, pin) => sum + pin.steps, 0)).toBe(kind.core.total);
            expect(stack.total).toBe(kind.core.total);
            expect(stack.tooTall).toBe(false);
          }
    },
  );

  it('need a build-up of two steps at 0.0125 in: control 0 under a cut 9 leaves only one', () => {
    const spec = plainSpec({ positions: 7, ...CORE_KINDS[0]! });
    expect(coreStack(spec, depthSetOf([9]), 0)).toMatchObject({ buildUp: { steps: 1 }, thinBuildUp: true });
    expect(coreStack(spec, depthSetOf([8]), 0)).toMatchObject({ buildUp: { steps: 2 }, thinBuildUp: false });
  });

  it('may not be operated by their control key', () => {
    const spec = plainSpec({ positions: 7, ...CORE_KINDS[0]! });
    const chambers = pinnedFor(spec, [cutsOf(spec, '2468246'), cutsOf(spec, '4680468')]);
    const among = coreFaults(spec, chambers, cutsOf(spec, '2668446'));
    expect(among).toContainEqual({ chamber: 0, fault: 'control-is-incidental', steps: 0 });
    expect(coreFaults(spec, chambers, cutsOf(spec, '3668446'))).toEqual([]);
  });
});
