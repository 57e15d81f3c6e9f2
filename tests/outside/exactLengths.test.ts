/**
 * Lengths against decimal.js, a general library for decimal arithmetic. An inch is 25.4 mm exactly: the international
 * yard and pound agreement of 1959.
 */
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  formatLength,
  formatNumber,
  inches,
  lengthOf,
  parseLength,
  starterSpec,
  toUnit,
} from '../../src/keying/index.ts';

const NM = { in: new Decimal('25.4').times(1_000_000), mm: new Decimal(1_000_000) } as const;
const unitArbitrary = fc.constantFrom('in' as const, 'mm' as const);

const parsed = (text: string, unit: 'in' | 'mm'): number => {
  const result = parseLength(text, unit);
  if (!result.ok) throw new Error(result.error.text);
  return result.value;
};

describe('lengths', () => {
  it('holds 0.0125 in and its multiples exactly', () => {
    expect(parsed('0.0125', 'in')).toBe(317_500);
    for (let i = 0; i <= 100; i++)
      expect(parsed(new Decimal('0.0125').times(i).toString(), 'in')).toBe(
        new Decimal('0.0125').times(i).times(NM.in).toNumber(),
      );
  });

  it('adds ten increments of 0.0125 in without drift: the deepest cut of ten is 0.2055 in', () => {
    const core = starterSpec('T-0125-7')!;
    const exact = new Decimal('0.318').minus(new Decimal('0.0125').times(9));
    expect(formatLength(core.depths[9]!.root, 'in')).toBe(`${exact.toString()} in`);
    expect(core.depths[9]!.root).toBe(exact.times(NM.in).toNumber());
  });

  it('reads every ten-thousandth of an inch and every micrometre exactly', () => {
    fc.assert(
      fc.property(fc.integer({ min: -100_000, max: 100_000 }), unitArbitrary, (n, unit) => {
        const text = new Decimal(n).times(unit === 'in' ? '0.0001' : '0.001').toFixed();
        expect(parsed(text, unit)).toBe(new Decimal(text).times(NM[unit]).toNumber());
      }),
    );
  });

  it('reads any decimal to the nearest nanometre', () => {
    fc.assert(
      fc.property(fc.double({ min: -30, max: 30, noNaN: true }), unitArbitrary, (value, unit) => {
        const text = new Decimal(value).toFixed(9);
        const off = new Decimal(parsed(text, unit)).minus(new Decimal(text).times(NM[unit])).abs();
        expect(off.toNumber()).toBeLessThanOrEqual(0.5 + 1e-6);
      }),
    );
  });

  it('shows thousandths of an inch, ten-thousandths where needed, hundredths of a millimetre', () => {
    fc.assert(
      fc.property(fc.integer({ min: -500_000_000, max: 500_000_000 }), (nm) => {
        // the halfway case rounds away from zero in both
        const inchText = new Decimal(nm).div(NM.in).toFixed(4, Decimal.ROUND_HALF_UP);
        const wanted = inchText.replace(/0$/, '').replace(/^-(0\.000)$/, '$1');
        expect(formatNumber(lengthOf(nm), 'in')).toBe(wanted);
        const mmText = new Decimal(nm).div(NM.mm).toFixed(2, Decimal.ROUND_HALF_UP);
        expect(formatNumber(lengthOf(nm), 'mm')).toBe(mmText.replace(/^-(0\.00)$/, '$1'));
      }),
      { numRuns: 500 },
    );
  });

  it('converts to a plain number as near as a number can be', () => {
    fc.assert(
      fc.property(fc.integer({ min: -500_000_000, max: 500_000_000 }), unitArbitrary, (nm, unit) => {
        expect(toUnit(lengthOf(nm), unit)).toBe(new Decimal(nm).div(NM[unit]).toNumber());
      }),
    );
  });

  it('makes constants that are exact to the nanometre', () => {
    for (const value of ['0.237', '0.156', '0.018', '0.0125', '0.021', '0.002', '0.023'])
      expect(inches(Number(value))).toBe(new Decimal(value).times(NM.in).toNumber());
  });
});
