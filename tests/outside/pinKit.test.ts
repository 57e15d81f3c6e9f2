/**
 * Pins out of a kit against decimal arithmetic of a general-purpose library (decimal.js): bottom pin = plug diameter −
 * root depth, where the blade sits on the bottom of the plug; master pins are differences; nearest size and its error.
 */
import { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { depthSetOf } from '../../src/keying/depthSet.ts';
import { kitList, kitStack, shortages, type ShopPin } from '../../src/keying/pinKit.ts';
import { inches, toUnit, type Length } from '../../src/keying/units.ts';
import { starter } from '../support/keys.ts';

const six = starter('S-018-6');
const core = starter('T-0125-7');
const inDecimal = (length: Length | undefined): string =>
  length === undefined ? '' : new Decimal(length).div(25_400_000).toString();

/** Sizes from 0.015 in to 0.300 in by 0.005 in, as exact decimals. */
const KIT: ShopPin[] = Array.from({ length: 58 }, (_, i) =>
  new Decimal('0.015').plus(new Decimal('0.005').times(i)),
).map((size) => ({
  name: size.toString(),
  kind: 'any',
  length: size.times(25_400_000).toNumber() as Length,
}));

const nearest = (wanted: Decimal): Decimal =>
  KIT.map((pin) => new Decimal(pin.name)).reduce((best, size) =>
    size.minus(wanted).abs().lt(best.minus(wanted).abs()) ? size : best,
  );

describe('kitStack', () => {
  it('is decimal arithmetic for every pair of depths', () => {
    for (let shallow = 0; shallow < 10; shallow++)
      for (let deep = shallow + 1; deep < 10; deep++) {
        const [bottom, master] = kitStack(six, depthSetOf([shallow, deep]), KIT)!.pins;
        const wantedBottom = new Decimal('0.5').minus(
          new Decimal('0.315').minus(new Decimal('0.018').times(shallow)),
        );
        const wantedMaster = new Decimal('0.018').times(deep - shallow);
        expect(inDecimal(bottom!.wanted)).toBe(wantedBottom.toString());
        expect(inDecimal(master!.wanted)).toBe(wantedMaster.toString());
        for (const [pin, wanted] of [
          [bottom!, wantedBottom],
          [master!, wantedMaster],
        ] as const) {
          expect(pin.pin!.name).toBe(nearest(wanted).toString());
          expect(inDecimal(pin.error)).toBe(nearest(wanted).minus(wanted).toString());
        }
      }
  });

  it('adds errors up to each shear line', () => {
    // bottom 0.221 → 0.220, master 0.072 → 0.070, worked out by hand
    const stack = kitStack(six, depthSetOf([2, 6]), KIT)!;
    expect(stack.lineErrors!.map((e) => toUnit(e, 'in'))).toEqual([-0.001, -0.003]);
  });

  it('gives a core bottom, master, build-up and top pins', () => {
    // total 23, addition 10 (published for 0.0125 in); depths 2 and 6 with control 5: 2, 4, 9, 8 by hand
    const stack = kitStack(core, depthSetOf([2, 6]), KIT, 5)!;
    expect(stack.pins.map((pin) => [pin.kind, pin.steps])).toEqual([
      ['bottom', 2],
      ['master', 4],
      ['build-up', 9],
      ['top', 8],
    ]);
    expect(inDecimal(stack.pins[2]!.wanted)).toBe(new Decimal('0.0125').times(9).toString());
  });
});

describe('the kit of a core', () => {
  it('adds errors up to the control line, which lies above the build-up pin', () => {
    // worked out by hand: pins 2, 4, 9 at 0.0125 in; the control line is one sleeve above the operating one
    const sizes = (['bottom', 'master', 'build-up', 'top'] as const).map((kind) => ({
      name: kind,
      kind,
      length: inches({ bottom: 0.026, master: 0.049, 'build-up': 0.116, top: 0.1 }[kind]),
    }));
    const stack = kitStack(core, depthSetOf([2, 6]), sizes, 5)!;
    const wanted = stack.pins.map((pin) => inDecimal(pin.wanted));
    const below = sizes.slice(0, 3).map(({ length }, i) => new Decimal(inDecimal(length)).minus(wanted[i]!));
    expect(inDecimal(stack.controlError)).toBe(Decimal.sum(...below).toString());
    expect(stack.lineErrors).toHaveLength(2);
    expect(kitStack(six, depthSetOf([2, 6]), KIT)!.controlError).toBeUndefined();
  });

  it('is no stack without the control cut', () => {
    expect(kitStack(core, depthSetOf([2, 6]), KIT)).toBeUndefined();
  });
});

describe('kitList', () => {
  it('counts every pin of the job, and what the stock lacks', () => {
    const kit: ShopPin[] = [
      { name: 'B', kind: 'bottom', length: inches(0.22), stock: 1 },
      { name: 'M', kind: 'master', length: inches(0.072), stock: 5 },
    ];
    const stacks = [depthSetOf([2, 6]), depthSetOf([2]), depthSetOf([2, 6])].map((s) =>
      kitStack(six, s, kit)!,
    );
    const list = kitList(stacks);
    expect(list.map((c) => [c.kind, inDecimal(c.wanted), c.pin?.name, c.count])).toEqual([
      ['bottom', '0.221', 'B', 3],
      ['master', '0.072', 'M', 2],
      ['top', '0.207', undefined, 2],
      ['top', '0.279', undefined, 1],
    ]);
    expect(list.reduce((sum, c) => sum + c.count, 0)).toBe(stacks.flatMap((s) => s.pins).length);
    expect(shortages(list)).toEqual([{ pin: kit[0], needed: 3, short: 2 }]);
  });
});
