import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  blanksFor,
  cutterFits,
  enteringOf,
  equivalentsOf,
  setupFor,
  type ShopBlank,
} from '../../src/keying/shop.ts';
import { sayCutterFit } from '../../src/keying/shopWording.ts';
import { inches } from '../../src/keying/units.ts';
import { starter } from '../support/keys.ts';

const six = starter('S-018-6');
const cutter = (name: string, flat: number, angle = 90) => ({ name, flat: inches(flat), angle });
const fit = (flat: number, angle?: number) => cutterFits(six, [cutter('C', flat, angle)])[0]!;

// worked out by hand: 90°, so tan 45° = 1; eaten = 0.018 × steps + (max(Wc, W) + W) ÷ 2 − 0.156, limit 0.001 in
describe('cutterFits', () => {
  it('fits where flat and angle are the spec’s', () => {
    expect(fit(0.054)).toMatchObject({
      fit: 'fits',
      offsets: [0],
      wider: 0,
      angleOff: 0,
      macs: 5,
      limits: false,
    });
    // 6 steps: 0.108 + 0.054 − 0.156 = 0.006
    expect(fit(0.054).eats).toEqual({ from: 6, by: inches(0.006) });
  });

  it('widens with a narrower cutter, up to the same limit', () => {
    expect(fit(0.035)).toMatchObject({ fit: 'widens', macs: 5, limits: false });
    expect(fit(0.035).offsets).toEqual([inches(-0.0095), inches(0.0095)]);
  });

  it('knows a slip of the keys from a cutter', () => {
    const slip = fit(0.0005);
    expect(slip).toMatchObject({ fit: 'too-narrow', limits: true });
    expect(sayCutterFit(six, slip)).toEqual([
      'Its flat is less than one in 100 of the root width: no cutter to widen with. Check the length and its unit.',
    ]);
    expect(cutterFits(six, [cutter('slip', 0.0005), cutter('wide', 0.09)])[0]!.cutter.name).toBe('wide');
  });

  it('says from how many steps on a wide cutter eats, and how much', () => {
    // 5 steps: 0.090 + (0.090 + 0.054) ÷ 2 − 0.156 = 0.006
    const wide = fit(0.09);
    expect(wide).toMatchObject({ fit: 'too-wide', wider: inches(0.036), macs: 4, limits: true });
    expect(wide.eats).toEqual({ from: 5, by: inches(0.006) });
    expect(sayCutterFit(six, wide)).toEqual([
      'Too wide by 0.036 in: every cut gets a wider flat than the spec has.',
      'From 5 steps between neighbours on it eats the shallower flat, by 0.006 in at first.',
      'The spec allows 5, so codes with neighbours 5 steps apart can’t be cut with it.',
    ]);
  });

  it('puts those that cut every code first', () => {
    const all = [
      cutter('wide', 0.09),
      cutter('narrow', 0.03),
      cutter('own', 0.054),
      cutter('steep', 0.054, 80),
    ];
    expect(cutterFits(six, all).map((f) => f.cutter.name)).toEqual(['own', 'narrow', 'steep', 'wide']);
  });
});

describe('the order of cutters', () => {
  it('is: no limit before a limit, no slip, not too wide, the nearer angle, fewer passes, more steps', () => {
    const cutters = fc.array(
      fc.record({
        flat: fc
          .constantFrom(0.0005, 0.012, 0.027, 0.035, 0.05, 0.054, 0.056, 0.058, 0.062, 0.09)
          .map(inches),
        angle: fc.constantFrom(80, 86, 90, 94, 100),
      }),
      { minLength: 2, maxLength: 8 },
    );
    fc.assert(
      fc.property(cutters, (given) => {
        const fits = cutterFits(
          six,
          given.map((c, i) => ({ ...c, name: `C${i}` })),
        );
        const rank = (f: (typeof fits)[number]): number[] => [
          f.limits ? 1 : 0,
          f.fit === 'too-narrow' ? 1 : 0,
          f.fit === 'too-wide' ? 1 : 0,
          Math.abs(f.angleOff),
          f.offsets.length,
          -f.macs,
        ];
        fits.slice(1).forEach((fit, i) => {
          const [before, here] = [rank(fits[i]!), rank(fit)];
          const differs = before.findIndex((x, at) => x !== here[at]);
          if (differs >= 0) expect(before[differs]).toBeLessThan(here[differs]!);
        });
        for (const fit of fits) {
          expect(fit.limits).toBe(fit.macs < six.macs || fit.fit === 'too-narrow');
          expect(fit.wider).toBe(fit.cutter.flat - six.rootWidth);
          expect(fit.angleOff).toBe(fit.cutter.angle - six.angle);
        }
      }),
    );
  });

  it('takes the closest pair and the largest drop where a spec is uneven', () => {
    // spaces 0.2, 0.156, 0.2 …; drops of 0.018, one of 0.03: five steps drop 0.102 at most, 0.102 + 0.054 − 0.156 = 0
    const uneven = {
      ...six,
      centres: six.centres.map((_, i) => inches([0.237, 0.437, 0.593, 0.793, 0.993, 1.193][i]!)),
      depths: six.depths.map((d, i) => ({ ...d, root: inches(0.335 - 0.018 * i - (i >= 5 ? 0.012 : 0)) })),
    };
    const [fits] = cutterFits(uneven, [cutter('own', 0.054)]);
    expect(fits).toMatchObject({ macs: 5, limits: false });
    // six steps: 0.12 + 0.054 − 0.156 = 0.018
    expect(fits!.eats).toEqual({ from: 6, by: inches(0.018) });
  });

  it('eats nothing where all depths may be neighbours', () => {
    const few = { ...six, depths: six.depths.slice(0, 4), macs: 3 };
    const [fits] = cutterFits(few, [cutter('own', 0.054)]);
    expect(fits).toMatchObject({ macs: 3, limits: false });
    expect(fits).not.toHaveProperty('eats');
  });
});

describe('blanksFor', () => {
  const blanks: ShopBlank[] = [
    { name: 'B1', keyways: ['K1', 'K2'], cuts: 6, equivalents: ['B1-steel'] },
    { name: 'B2', keyways: ['k1'], cuts: 5, equivalents: [] },
    { name: 'B3', keyways: ['K9'], equivalents: ['b1'] },
    { name: 'B4', keyways: ['K9'], equivalents: [] },
  ];
  it('takes those that enter, then equivalents named on either row, long ones first', () => {
    expect(blanksFor(six, 'K1', blanks).map((f) => [f.blank.name, f.by, f.lacks])).toEqual([
      ['B1', 'keyway', 0],
      ['B1-steel', 'equivalent', 0],
      ['B3', 'equivalent', 0],
      ['B2', 'keyway', 1],
    ]);
    expect(blanksFor(six, 'K7', blanks)).toEqual([]);
  });
});

describe('a blank that is only named as an equivalent', () => {
  it('is its own row where it has one, and comes once', () => {
    const blanks: ShopBlank[] = [
      { name: 'B1', keyways: ['K1'], equivalents: ['b2', 'B3', 'B1'] },
      { name: 'B2', keyways: ['K9'], cuts: 4, equivalents: ['b1'] },
    ];
    expect(blanksFor(six, ' k1 ', blanks)).toEqual([
      { blank: blanks[0], by: 'keyway', lacks: 0 },
      { blank: { name: 'B3', keyways: [], equivalents: [] }, by: 'equivalent', lacks: 0 },
      { blank: blanks[1], by: 'equivalent', lacks: 2 },
    ]);
  });

  it('opens, by a keyway that several blanks enter, only what all of them do', () => {
    const blank = (name: string, ...keyways: string[]): ShopBlank => ({ name, keyways, equivalents: [] });
    expect(enteringOf([blank('B1', 'K1', 'K2', 'K3'), blank('B2', 'K1', 'K3', 'K4')])).toMatchObject({
      K1: ['K3'],
      K3: ['K1'],
    });
    expect(enteringOf([blank('K1', 'K1')])).toBeUndefined();
  });
});

describe('enteringOf', () => {
  const blank = (name: string, ...keyways: string[]): ShopBlank => ({ name, keyways, equivalents: [] });

  it('opens what every blank of the keyway opens, and what a blank named as a keyway opens', () => {
    expect(enteringOf([blank('B12', 'K12', 'k1', 'K2'), blank('B1', 'K1')])).toEqual({
      K12: ['K1', 'K2'],
      K2: ['K12', 'K1'],
      B12: ['K12', 'K1', 'K2'],
      B1: ['K1'],
    });
    expect(enteringOf([])).toBeUndefined();
  });
});

describe('setupFor', () => {
  it('goes by the name of the spec, whatever its case', () => {
    const setups = [{ spec: 's-018-6', hold: 'left jaw', stop: 'shoulder' }];
    expect(setupFor(six, setups)).toBe(setups[0]);
    expect(setupFor(starter('S-025-5'), setups)).toBeUndefined();
  });
});

it('finds equivalents on either row, each once', () => {
  const blank = (name: string, ...equivalents: string[]): ShopBlank => ({
    name,
    keyways: ['K1'],
    equivalents,
  });
  const blanks = [blank('B1', 'B2'), blank('B2', 'b1'), blank('B3', 'B1'), blank('B4', 'B3')];
  expect(equivalentsOf('b1', blanks)).toEqual(['B2', 'B3']);
  expect(equivalentsOf('B9', blanks)).toEqual([]);
});
