import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bittingOf, formatBitting } from '../../src/keying/bitting.ts';
import { cutCentres, rootDepths } from '../../src/keying/cuts.ts';
import { fitSpecs } from '../../src/keying/fitSpecs.ts';
import { positions } from '../../src/keying/specification.ts';
import { STARTER_SPECS } from '../../src/keying/starters.ts';
import { inches, lengthOf, type Length } from '../../src/keying/units.ts';
import { keysArbitrary } from '../support/keyingArbitraries.ts';
import { key, starter } from '../support/keys.ts';

const six = starter('S-018-6');
const five = starter('S-025-5');
const metric = starter('M-050-5');
const off = (lengths: readonly Length[], by: readonly number[]): Length[] =>
  lengths.map((l, i) => lengthOf(l + inches(by[i % by.length]!)));

describe('fitSpecs', () => {
  it('tries only specs with that many cuts', () => {
    const fits = fitSpecs(STARTER_SPECS, { roots: rootDepths(six, key(six, '274153')) });
    expect(fits.map((fit) => fit.spec.name)).toEqual(['S-018-6']);
    expect(fits[0]).toMatchObject({ verdict: 'good', depthError: 0, score: 0, turned: false });
  });

  it('tells specs of five cuts apart by their depths', () => {
    const inch = fitSpecs(STARTER_SPECS, {
      roots: off(rootDepths(five, key(five, '35241')), [0.001, -0.001]),
    });
    expect(inch.map((fit) => [fit.spec.name, fit.verdict])).toEqual([
      ['S-025-5', 'good'],
      ['M-050-5', 'poor'],
    ]);
    expect(inch[0]!.depthError).toBe(inches(0.001));
    const mm = fitSpecs(STARTER_SPECS, { roots: rootDepths(metric, key(metric, '36251')) });
    expect(mm[0]!.spec.name).toBe('M-050-5');
  });

  it('uses the spaces where the depths leave it open, and turns readings from the stop round', () => {
    const close = {
      ...five,
      name: 'wider',
      centres: five.centres.map((c, i) => lengthOf(c + i * inches(0.02))),
    };
    const bitting = key(five, '35241');
    const roots = rootDepths(five, bitting);
    const fits = fitSpecs([close, five], { roots, centres: off(cutCentres(five), [0.003]) });
    expect(fits.map((fit) => [fit.spec.name, fit.verdict])).toEqual([
      ['S-025-5', 'good'],
      ['wider', 'poor'],
    ]);
    expect(fits[0]).toMatchObject({ centreError: 0, centreOffset: inches(0.003) });
    // the metric starter reads from the tip, and its stop is the shoulder
    const code = key(metric, '36251');
    const measured = {
      roots: [...rootDepths(metric, code)].reverse(),
      centres: [...cutCentres(metric)].reverse(),
    };
    const [turned] = fitSpecs([metric], measured);
    expect(turned).toMatchObject({ turned: true, verdict: 'good' });
    expect(formatBitting(metric, turned!.decoding.bitting)).toBe('36251');
  });

  it('calls a worn key fair, not good', () => {
    const [worn] = fitSpecs([six], { roots: off(rootDepths(six, key(six, '274153')), [-0.0035]) });
    expect(worn!.verdict).toBe('fair');
    expect(worn!.decoding.sharedOffset).toBe(true);
  });

  it('measures depths against what chance would give: increment ÷ √12 root mean square', () => {
    const roots = rootDepths(six, key(six, '274153'));
    const fitOf = (error: number, tolerance = 0.002) =>
      fitSpecs([{ ...six, tolerance: inches(tolerance) }], { roots: off(roots, [error, -error]) })[0]!;
    const chance = 0.018 / Math.sqrt(12);
    for (const error of [0.001, 0.003, 0.0045]) expect(fitOf(error).score).toBeCloseTo(error / chance, 4);
    // readings that are off this way and that: good below a half, fair below three quarters
    expect([0.0025, 0.003, 0.0038].map((e) => fitOf(e, 0.006).verdict)).toEqual(['good', 'fair', 'fair']);
    expect([0.003, 0.0038, 0.0042].map((e) => fitOf(e).verdict)).toEqual(['fair', 'fair', 'poor']);
  });

  it('measures centres against a quarter of a millimetre, once what all share is taken out, up to half', () => {
    const roots = rootDepths(six, key(six, '274153'));
    const mm = (x: number): Length => lengthOf(Math.round(x * 1e6));
    const fitOf = (error: number, shared = 0) =>
      fitSpecs([six], {
        roots,
        centres: cutCentres(six).map((c, i) => lengthOf(c + mm(shared + (i % 2 === 0 ? error : -error)))),
      })[0]!;
    for (const error of [0, 0.1, 0.2]) expect(fitOf(error).score).toBeCloseTo(error / 0.25, 9);
    expect([0.25, 0.2501].map((error) => fitOf(error).verdict)).toEqual(['good', 'poor']);
    expect(fitOf(0.1, 0.5)).toMatchObject({ centreError: mm(0.1), centreOffset: mm(0.5), verdict: 'good' });
    expect(fitOf(0.1, -0.6)).toMatchObject({ centreError: mm(0.2), centreOffset: mm(-0.6), verdict: 'good' });
    expect(fitOf(0.1, 0.7)).toMatchObject({ centreError: mm(0.3), centreOffset: mm(0.7), verdict: 'poor' });
  });

  it('finds every key’s own spec among others of its length, and its code', () => {
    fc.assert(
      fc.property(keysArbitrary(1), ({ spec, bittings }) => {
        const [bitting] = bittings;
        const roots = rootDepths(spec, bitting!);
        const fits = fitSpecs([...STARTER_SPECS, spec], { roots, centres: cutCentres(spec) });
        expect(fits.every((fit) => positions(fit.spec) === roots.length)).toBe(true);
        expect(fits[0]!.score).toBe(0);
        const own = fits.find((fit) => fit.spec === spec)!;
        expect(own.decoding.bitting).toEqual(bittingOf(spec, bitting!));
      }),
    );
  });
});
