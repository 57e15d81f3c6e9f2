import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  decodeReadings,
  DEFAULT_TOLERANCE,
  fromStopOrder,
  inCodeOrder,
  inches,
  increment,
  lengthOf,
  positions,
  rootDepths,
  type Length,
  type Specification,
} from '../../src/keying/index.ts';
import { keysArbitrary } from '../support/keyingArbitraries.ts';
import { key, starter } from '../support/keys.ts';

const six = starter('S-018-6');

function decode(spec: Specification, readings: readonly Length[]) {
  const decoded = decodeReadings(spec, readings);
  if (!decoded.ok) throw new Error(decoded.error.map((fault) => fault.code).join());
  return decoded.value;
}

/** The readings of 274153, each off by so many thousandths of an inch. */
const readingsOff = (...off: number[]) =>
  rootDepths(six, key(six, '274153')).map((root, i) => lengthOf(root + inches((off[i] ?? 0) / 1000)));

describe('decodeReadings', () => {
  it('reads back exact root depths, clear and with no deviation', () => {
    fc.assert(
      fc.property(keysArbitrary(), ({ spec, bittings: [bitting] }) => {
        const decoding = decode(spec, rootDepths(spec, bitting!));
        expect(decoding.bitting).toEqual(bitting);
        expect([decoding.offset, decoding.spread, decoding.sharedOffset]).toEqual([0, 0, false]);
        expect(decoding.cuts.map((cut) => cut.symbol)).toEqual(bitting!.map((i) => spec.depths[i]!.symbol));
      }),
    );
  });

  it('reads back any key within the tolerance, and says how far off each cut is', () => {
    const noise = fc.array(fc.integer({ min: -DEFAULT_TOLERANCE, max: DEFAULT_TOLERANCE }), {
      minLength: 8,
      maxLength: 8,
    });
    fc.assert(
      fc.property(keysArbitrary(), noise, ({ spec, bittings: [bitting] }, off) => {
        fc.pre(increment(spec.depths) > 2 * spec.tolerance);
        const roots = rootDepths(spec, bitting!);
        const decoding = decode(
          spec,
          roots.map((root, i) => lengthOf(root + off[i]!)),
        );
        expect(decoding.bitting).toEqual(bitting);
        expect(decoding.cuts.map((cut) => cut.deviation)).toEqual(off.slice(0, roots.length));
        expect(decoding.cuts.some((cut) => cut.suspect)).toBe(false);
        // a clear cut stays clear: the next depth is an increment away on one side
        if (increment(spec.depths) >= 4 * spec.tolerance) expect(decoding.clear).toBe(true);
      }),
    );
  });

  it('never calls a doubtful reading clear', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 3_000_000, max: 9_000_000 }), { minLength: 6, maxLength: 6 }),
        (nm) => {
          const decoding = decode(six, nm.map(lengthOf));
          decoding.cuts.forEach((cut, i) => {
            const distances = six.depths.map((d) => Math.abs(nm[i]! - d.root)).sort((a, b) => a - b);
            expect(Math.abs(cut.deviation)).toBe(distances[0]);
            expect(Math.abs(cut.second.deviation)).toBe(distances[1]);
            expect(cut.suspect).toBe(distances[0]! > inches(0.002));
            expect(cut.ambiguous).toBe(distances[1]! - distances[0]! < inches(0.004));
          });
          expect(decoding.clear).toBe(decoding.findings.every((finding) => finding.code === 'shared-offset'));
        },
      ),
    );
  });

  it('suspects a cut beyond the tolerance, not at it', () => {
    const decoding = decode(six, readingsOff(2, -2, 2.1, 0, 0, 0));
    expect(decoding.cuts.map((cut) => cut.suspect)).toEqual([false, false, true, false, false, false]);
    expect(decoding.clear).toBe(false);
    expect(decoding.findings).toEqual([
      {
        code: 'suspect-cut',
        at: 3,
        symbol: '4',
        deviation: inches(0.0021),
        tolerance: inches(0.002),
        unit: 'in',
      },
    ]);
  });

  it('calls a cut ambiguous when the second depth is less than 0.004 in farther', () => {
    const decoding = decode(six, readingsOff(0, 7, 7.1, -7.1, 0, 0));
    expect(decoding.cuts.map((cut) => cut.ambiguous)).toEqual([false, false, true, true, false, false]);
    expect(decoding.findings.filter((finding) => finding.code === 'ambiguous-cut')).toEqual([
      { code: 'ambiguous-cut', at: 3, symbol: '4', other: '3' },
      { code: 'ambiguous-cut', at: 4, symbol: '1', other: '2' },
    ]);
  });

  it('shows the offset that all cuts share', () => {
    const worn = decode(six, readingsOff(-4, -3.5, -4.5, -4, -5, -3));
    expect(worn).toMatchObject({
      offset: inches(-0.004),
      spread: inches(0.002),
      sharedOffset: true,
      clear: false,
    });
    expect(worn.findings[0]).toEqual({ code: 'shared-offset', offset: inches(-0.004), unit: 'in' });
    expect(worn.findings.filter((finding) => finding.code === 'suspect-cut')).toHaveLength(6);
  });

  it('shares no offset where the cuts scatter, or where it is within half the tolerance', () => {
    expect(decode(six, readingsOff(-4, -3.5, -4.5, -4, -5, -2.9)).sharedOffset).toBe(false);
    expect(decode(six, readingsOff(1, 1, 1, 1, 1, 1)).sharedOffset).toBe(false);
    const slight = decode(six, readingsOff(1.1, 1.1, 1.1, 1.1, 1.1, 1.1));
    expect(slight).toMatchObject({ sharedOffset: true, clear: true, offset: inches(0.0011) });
  });

  it('numbers the cuts along the code and from the stop', () => {
    const core = starter('T-018-7');
    const turned: Specification = { ...core, order: 'bow-to-tip' };
    const decoding = decode(turned, rootDepths(turned, key(turned, '0123456')));
    expect(decoding.cuts.map((cut) => cut.symbolNumber)).toEqual([1, 2, 3, 4, 5, 6, 7]);
    expect(decoding.cuts.map((cut) => cut.position)).toEqual([7, 6, 5, 4, 3, 2, 1]);
  });

  it('refuses the wrong number of readings', () => {
    expect(decodeReadings(six, readingsOff().slice(1))).toEqual({
      ok: false,
      error: [{ code: 'length', found: 5, expected: 6 }],
    });
  });
});

it('turns readings from the stop into the order of the code and back', () => {
  fc.assert(
    fc.property(keysArbitrary(), ({ spec, bittings: [bitting] }) => {
      expect(inCodeOrder(spec, fromStopOrder(spec, bitting!))).toEqual(bitting);
      expect(inCodeOrder(spec, spec.centres)).toHaveLength(positions(spec));
    }),
  );
  expect(() => inCodeOrder(six, [1, 2, 3])).toThrow('6 positions');
});
