/** The kit list: what is counted as one, in which order, and what is short. Lengths by hand: plug 0.500 in. */
import { describe, expect, it } from 'vitest';
import { depthSetOf, EVERY } from '../../src/keying/depthSet.ts';
import { kitList, kitStack, shortages, type ShopPin } from '../../src/keying/pinKit.ts';
import { inches } from '../../src/keying/units.ts';
import { plainSpec } from '../support/systems.ts';

const spec = plainSpec({ positions: 4, depths: 10, increment: 0.015, macs: 9 });
const pin = (kind: ShopPin['kind'], size: number, stock?: number): ShopPin => ({
  name: `${kind} ${size}`,
  kind,
  length: inches(size),
  ...(stock === undefined ? {} : { stock }),
});
const KIT = [
  pin('any', 0.2),
  pin('bottom', 0.17, 1),
  pin('bottom', 0.23, 2),
  pin('master', 0.03),
  pin('master', 0.06, 5),
];
const stackOf = (...depths: number[]) => kitStack(spec, depthSetOf(depths), KIT)!;

describe('one chamber', () => {
  it('takes sizes of its own kind before those for any', () => {
    // bottom pins 0.170 + 0.015 · depth
    expect(stackOf(2).pins[0]).toMatchObject({ pin: { name: 'bottom 0.17' }, error: inches(-0.03) });
    const tall = kitStack({ ...spec, targetStack: inches(0.41) }, depthSetOf([2]), KIT)!;
    // 0.410 − 0.200 = 0.210, for which there is only the size for any
    expect(tall.pins[1]).toMatchObject({ kind: 'top', wanted: inches(0.21), pin: { name: 'any 0.2' } });
  });

  it('has no pin at all where it is empty, no top where it is too tall', () => {
    expect(kitStack(spec, EVERY, KIT)).toBeUndefined();
    const low = kitStack({ ...spec, targetStack: inches(0.2) }, depthSetOf([2]), KIT)!;
    expect(low.tooTall).toBe(true);
    expect(low.pins[1]).toEqual({ kind: 'top', steps: undefined, wanted: 0 });
  });

  it('leaves sizes and errors out where a length is unknown, and of a kind that the kit lacks', () => {
    const unknown = { ...spec };
    delete unknown.plugDiameter;
    const stack = kitStack(unknown, depthSetOf([2, 4]), KIT)!;
    expect(stack.pins[0]).toEqual({ kind: 'bottom', steps: 2 });
    expect(stack.pins[1]).toMatchObject({ kind: 'master', wanted: inches(0.03), error: 0 });
    expect(stack).not.toHaveProperty('lineErrors');
    expect(kitStack(spec, depthSetOf([2]), [])!).not.toHaveProperty('lineErrors');
  });

  it('of a core adds errors up to the build-up pin, not the top pin', () => {
    const core = plainSpec({
      positions: 4,
      depths: 10,
      increment: 0.0125,
      macs: 9,
      step: 2,
      core: { total: 23, addition: 10 },
    });
    // depths 2 and 6, control 5 of 23 and 10 (published): 2, 4, 9 and 8 steps, here every size 0.2 in
    const stack = kitStack(core, depthSetOf([2, 6]), [pin('any', 0.2)], 5)!;
    const [bottom, master, buildUp, top] = stack.pins.map((p) => p.error!);
    expect(stack.controlError).toBe(bottom! + master! + buildUp!);
    expect(top).not.toBe(0);
    const none = kitStack(core, depthSetOf([2, 6]), [], 5)!;
    expect(none).not.toHaveProperty('controlError');
    expect(kitStack(spec, depthSetOf([2]), KIT, 5)!.pins.map((p) => p.kind)).toEqual(['bottom']);
  });
});

describe('the list of a job', () => {
  it('goes bottom pins first, then master pins, each from short to long', () => {
    const list = kitList([stackOf(4, 6), stackOf(0, 4), stackOf(2), stackOf(4, 6)]);
    expect(list.map(({ kind, wanted, count }) => [kind, wanted, count])).toEqual([
      ['bottom', inches(0.17), 1],
      ['bottom', inches(0.2), 1],
      ['bottom', inches(0.23), 2],
      ['master', inches(0.03), 2],
      ['master', inches(0.06), 1],
    ]);
  });

  it('counts pins of unknown length by their steps', () => {
    const unknown = { ...spec };
    delete unknown.plugDiameter;
    const list = kitList([4, 2, 4].map((depth) => kitStack(unknown, depthSetOf([depth]), KIT)!));
    expect(list.map(({ steps, wanted, count }) => [steps, wanted, count])).toEqual([
      [2, undefined, 1],
      [4, undefined, 2],
    ]);
  });

  it('is short of what is stocked in smaller number than needed, and only of that', () => {
    const list = kitList([stackOf(0), stackOf(0), stackOf(4), stackOf(4), stackOf(4, 6)]);
    expect(shortages(list)).toEqual([
      { pin: KIT[1], needed: 2, short: 1 },
      { pin: KIT[2], needed: 3, short: 1 },
    ]);
    expect(shortages(kitList([stackOf(0), stackOf(4), stackOf(4)]))).toEqual([]);
  });
});
