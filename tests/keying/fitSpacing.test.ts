import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitSpacing, spacingDeviation } from '../../src/keying/fitSpacing.ts';
import { positions } from '../../src/keying/specification.ts';
import { STARTER_SPECS } from '../../src/keying/starters.ts';
import { inches, lengthOf, millimetres, type Length } from '../../src/keying/units.ts';
import { specArbitrary } from '../support/keyingArbitraries.ts';
import { starter } from '../support/keys.ts';

const six = starter('S-018-6');
const mm = (...list: readonly number[]): Length[] => list.map(millimetres);
/** Centres that lie off a spec's by these millimetres in turn. */
const off = (by: readonly number[]): Length[] =>
  six.centres.map((c, i) => lengthOf(c + millimetres(by[i % by.length]!)));

describe('spacingDeviation', () => {
  it('takes the offset that all share for the stop', () => {
    // worked by hand: off by 0.2, 0.3 and 0.1, so 0.2 is shared and 0.1 left
    expect(spacingDeviation(mm(5, 9, 13), mm(5.2, 9.3, 13.1))).toEqual({
      error: millimetres(0.1),
      offset: millimetres(0.2),
    });
  });

  it('counts a stop that is off by more than twice a quarter millimetre against the spec', () => {
    const shifted = (by: number) => spacingDeviation(mm(5, 9), mm(5 + by, 9 + by)).error;
    expect([0.5, 0.6, -0.5, -0.7].map(shifted)).toEqual([0, 0.1, 0, 0.2].map(millimetres));
  });
});

describe('fitSpacing', () => {
  it('names the spec by its spaces alone, read in any order', () => {
    const read = [...six.centres].reverse();
    const [best] = fitSpacing(STARTER_SPECS, read);
    expect(best).toMatchObject({ spec: { name: 'S-018-6' }, error: 0, offset: 0, verdict: 'good' });
  });

  it('tries only specs with that many cuts', () => {
    expect(fitSpacing(STARTER_SPECS, six.centres).map(({ spec }) => spec.name)).toEqual(
      STARTER_SPECS.filter((spec) => positions(spec) === 6).map((spec) => spec.name),
    );
    expect(fitSpacing(STARTER_SPECS, mm(5, 9))).toEqual([]);
  });

  it('calls it good to an eighth of a millimetre, fair to a quarter, and poor beyond', () => {
    const verdict = (error: number) => fitSpacing([six], off([error, -error]))[0]!.verdict;
    expect([0, 0.125, 0.126, 0.25, 0.251].map(verdict)).toEqual(['good', 'good', 'fair', 'fair', 'poor']);
  });

  it('puts the nearer spacing first, and of two alike the nearer stop', () => {
    const wider = {
      ...six,
      name: 'wider',
      centres: six.centres.map((c, i) => lengthOf(c + i * inches(0.02))),
    };
    const farther = { ...six, name: 'farther', centres: six.centres.map((c) => lengthOf(c + inches(0.01))) };
    const names = (centres: readonly Length[]) =>
      fitSpacing([wider, farther, six], centres).map(({ spec }) => spec.name);
    expect(names(six.centres)).toEqual(['S-018-6', 'farther', 'wider']);
    expect(names(farther.centres)).toEqual(['farther', 'S-018-6', 'wider']);
    expect(names(wider.centres)[0]).toBe('wider');
  });

  it('fits every spec’s own spaces without error', () => {
    fc.assert(
      fc.property(specArbitrary(), fc.nat(), (spec, seed) => {
        const turned = seed % 2 === 0 ? spec.centres : [...spec.centres].reverse();
        expect(fitSpacing([spec], turned)).toEqual([{ spec, error: 0, offset: 0, verdict: 'good' }]);
      }),
    );
  });
});
