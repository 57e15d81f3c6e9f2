/**
 * MACS from geometry: (spacing − root width) ÷ (increment · tan(included angle ÷ 2)), Pulford, High-Security
 * Mechanical Locks: An Encyclopedic Reference, 2007. Inputs of the example from memory, its value
 * computed apart.
 */
import { Decimal } from 'decimal.js';
import { expect, it } from 'vitest';
import { geometricMacs, inches, lengthOf, publishedMacs, STARTER_SPECS } from '../../src/keying/index.ts';
import { MACS_GEOMETRY } from './values.ts';

it('gives 6.992 steps for 0.156 in, 0.031 in, 0.015 in and 100°', () => {
  const { spacing, rootWidth, increment, angle } = MACS_GEOMETRY;
  const value = publishedMacs(inches(spacing), inches(rootWidth), inches(increment), angle);
  expect(value).toBeCloseTo(MACS_GEOMETRY.value, 12);
});

it('agrees with decimal arithmetic and with the geometric MACS of even specs', () => {
  for (const spec of STARTER_SPECS) {
    const [a, b] = [spec.centres[0]!, spec.centres[1]!];
    const [shallow, next] = [spec.depths[0]!.root, spec.depths[1]!.root];
    const half = Decimal.acos(-1).times(spec.angle).div(360);
    const exact = new Decimal(b - a - spec.rootWidth).div(new Decimal(shallow - next).times(half.tan()));
    const value = publishedMacs(lengthOf(b - a), spec.rootWidth, lengthOf(shallow - next), spec.angle);
    expect(value).toBeCloseTo(exact.toNumber(), 10);
    // a spec may state a smaller MACS than its geometry gives, never a larger one
    expect(geometricMacs(spec)).toBe(Math.min(exact.floor().toNumber(), spec.depths.length - 1));
    expect(spec.macs).toBeLessThanOrEqual(geometricMacs(spec));
  }
});
