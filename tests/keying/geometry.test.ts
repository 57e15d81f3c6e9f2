import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bittingOf,
  bladeHeightAt,
  bladeOutline,
  bladeTop,
  cutterFindings,
  cutterOf,
  EATEN_LIMIT,
  eatenFlat,
  formatLength,
  geometricMacs,
  inches,
  interferences,
  lengthOf,
  neverRisesToTip,
  positions,
  wideningPasses,
  type Bitting,
  type Cutter,
  type Specification,
} from '../../src/keying/index.ts';
import { keysArbitrary, specArbitrary } from '../support/keyingArbitraries.ts';
import { key, starter } from '../support/keys.ts';

const six = starter('S-018-6');
const wide: Cutter = { flat: inches(0.064), angle: 90 };

/**
 * The flat that a cut at `deep` takes from its neighbour at `shallow`, measured on the outline by halving: where the
 * blade reaches the shallower root, going from the deep cut to the far side of the shallow one.
 */
function eatenOnOutline(
  spec: Specification,
  left: number,
  deep: number,
  shallow: number,
  cutter: Cutter,
): number {
  const bitting = bittingOf(
    spec,
    spec.centres.map((_, i) => (i === left ? deep : shallow)),
  );
  const inCode = spec.gauge === 'shoulder' ? spec.order === 'bow-to-tip' : spec.order === 'tip-to-bow';
  const laid = inCode ? bitting : bittingOf(spec, [...bitting].reverse());
  const root = spec.depths[shallow]!.root;
  let low: number = spec.centres[left]!;
  let high = spec.centres[left + 1]! + spec.rootWidth / 2;
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2;
    if (bladeHeightAt(spec, laid, middle, cutter) < root - 1e-3) low = middle;
    else high = middle;
  }
  return low - (spec.centres[left + 1]! - spec.rootWidth / 2);
}

/** The largest number of steps for which no two neighbours meet on the outline. */
function macsOnOutline(spec: Specification, cutter: Cutter): number {
  const depths = spec.depths.length;
  for (let steps = 1; steps < depths; steps++)
    for (let left = 0; left < positions(spec) - 1; left++)
      for (let shallow = 0; shallow + steps < depths; shallow++)
        if (eatenOnOutline(spec, left, shallow + steps, shallow, cutter) > EATEN_LIMIT) return steps - 1;
  return depths - 1;
}

describe('eaten flat', () => {
  it('is 0.006 in for six steps of 0.018 in and leaves 0.012 in for five', () => {
    expect(eatenFlat(six, inches(0.108), inches(0.156))).toBe(inches(0.006));
    expect(eatenFlat(six, inches(-0.108), inches(0.156))).toBe(inches(0.006));
    expect(eatenFlat(six, inches(0.09), inches(0.156))).toBe(inches(-0.012));
  });

  it('grows by half of what a cutter is too wide, and not at all for one that is too narrow', () => {
    expect(eatenFlat(six, inches(0.108), inches(0.156), wide)).toBe(inches(0.011));
    expect(eatenFlat(six, inches(0.108), inches(0.156), { flat: inches(0.02), angle: 90 })).toBe(
      inches(0.006),
    );
  });

  it('follows the angle of the cutter: at 60° the flank is steeper', () => {
    const by = eatenFlat(six, inches(0.108), inches(0.156), { flat: inches(0.054), angle: 60 });
    // 0.108 · tan 30° = 0.06235…
    expect(formatLength(by, 'in')).toBe('-0.0396 in');
  });

  it('is named for each pair of neighbours above 0.001 in, along the code', () => {
    expect(interferences(six, key(six, '432854'))).toEqual([
      { first: 3, from: '2', to: '8', by: inches(0.006) },
    ]);
    expect(interferences(six, key(six, '427453'))).toEqual([]);
    const turned: Specification = { ...six, order: 'tip-to-bow' };
    expect(interferences(turned, key(turned, '932854'))).toEqual([
      { first: 1, from: '9', to: '3', by: inches(0.006) },
      { first: 3, from: '2', to: '8', by: inches(0.006) },
    ]);
  });

  it('at exactly 0.001 in is not named', () => {
    const flat = (width: number) => ({ ...six, rootWidth: inches(width) });
    expect(interferences(flat(0.067), key(six, '427453'))).toEqual([]);
    expect(interferences(flat(0.0671), key(six, '427453'))).toHaveLength(1);
  });
});

describe('geometric MACS', () => {
  it('of the spec and of wider and narrower cutters', () => {
    expect(geometricMacs(six)).toBe(5);
    expect(geometricMacs(six, { flat: inches(0.02), angle: 90 })).toBe(5);
    expect(geometricMacs(six, { flat: inches(0.09), angle: 90 })).toBe(4);
    expect(geometricMacs(six, { flat: inches(0.054), angle: 60 })).toBe(9);
    expect(geometricMacs(six, { flat: inches(0.3), angle: 90 })).toBe(0);
    // five steps eat exactly 0.001 in
    expect(geometricMacs({ ...six, rootWidth: inches(0.067) })).toBe(5);
    expect(geometricMacs({ ...six, rootWidth: inches(0.0671) })).toBe(4);
  });

  it('is decided by the closest centres and the largest drop', () => {
    const centres = six.centres.map((c, i) => (i < 3 ? c : lengthOf(c - inches(0.02))));
    expect(geometricMacs({ ...six, centres })).toBe(4);
    const depths = six.depths.map((d, i) => (i < 9 ? d : { ...d, root: lengthOf(d.root - inches(0.02)) }));
    expect(geometricMacs({ ...six, depths })).toBe(4);
  });

  it('is what the outline shows', () => {
    const cutters = fc.record({
      flat: fc.integer({ min: 400_000, max: 3_000_000 }).map(lengthOf),
      angle: fc.integer({ min: 50, max: 120 }),
    });
    fc.assert(
      fc.property(specArbitrary(), fc.option(cutters), (spec, cutter) => {
        const used = cutter ?? cutterOf(spec);
        expect(geometricMacs(spec, used)).toBe(macsOnOutline(spec, used));
      }),
      { numRuns: 40 },
    );
  });
});

describe('widening', () => {
  const passes = (flat: number) => wideningPasses(six, { flat: inches(flat), angle: 90 });

  it('is not needed where the cutter fits', () => {
    expect(passes(0.054)).toEqual({ kind: 'fits' });
  });

  it('takes two passes with none at the centre, then three', () => {
    expect(passes(0.034)).toEqual({ kind: 'widen', offsets: [inches(-0.01), inches(0.01)] });
    expect(passes(0.027)).toEqual({ kind: 'widen', offsets: [inches(-0.0135), inches(0.0135)] });
    expect(passes(0.026)).toEqual({ kind: 'widen', offsets: [inches(-0.014), 0, inches(0.014)] });
  });

  it('says by how much a cutter is too wide and what it still allows', () => {
    expect(passes(0.09)).toEqual({ kind: 'too-wide', by: inches(0.036), macs: 4 });
  });

  it('is refused where a flat is a slip of the keys, before it fills the memory', () => {
    expect(wideningPasses(six, { flat: lengthOf(1), angle: 90 })).toEqual({ kind: 'too-narrow' });
    // 0.054 in: a hundred passes of 0.00054 in, and not one more
    expect(passes(0.00054)).toMatchObject({ kind: 'widen' });
    expect(passes(0.000539)).toEqual({ kind: 'too-narrow' });
  });

  it('leaves no ridge, goes no wider than the root, and takes no pass too many', () => {
    fc.assert(
      fc.property(specArbitrary(), fc.integer({ min: 100_000, max: 1_999_999 }), (spec, flat) => {
        fc.pre(flat < spec.rootWidth);
        const widening = wideningPasses(spec, { flat: lengthOf(flat), angle: 90 });
        if (widening.kind !== 'widen') throw new Error(widening.kind);
        const { offsets } = widening;
        expect(Math.abs(offsets.at(-1)! + flat / 2 - spec.rootWidth / 2)).toBeLessThanOrEqual(0.5);
        expect([...offsets].reverse().map((offset) => 0 - offset)).toEqual(offsets);
        offsets.slice(1).forEach((offset, i) => expect(offset - offsets[i]!).toBeLessThanOrEqual(flat + 1));
        expect((offsets.length - 1) * flat).toBeLessThan(spec.rootWidth);
      }),
    );
  });
});

it('finds what there is to say about a cutter', () => {
  const eaten = { code: 'eaten-flat', first: 3, from: '2', to: '8', by: inches(0.006), unit: 'in' };
  expect(cutterFindings(six, key(six, '432854'))).toEqual([eaten]);
  expect(cutterFindings({ ...six, macs: 7 }, key(six, '432854'))).toEqual([
    { code: 'macs-differs', stated: 7, geometric: 5 },
    eaten,
  ]);
  expect(cutterFindings(six, key(six, '444444'), { flat: inches(0.09), angle: 90 })).toEqual([
    { code: 'cutter-too-wide', by: inches(0.036), macs: 4, unit: 'in' },
  ]);
});

describe('blade outline', () => {
  const bitting = key(six, '274153');

  it('starts at the stop, ends one spacing past the last cut, and shows each root', () => {
    const outline = bladeOutline(six, bitting);
    expect(outline[0]).toEqual({ x: 0, y: inches(0.335) });
    expect(outline.at(-1)).toEqual({ x: inches(1.173), y: inches(0.335) });
    const [left, right] = [inches(0.237 - 0.027), inches(0.237 + 0.027)];
    expect(outline).toContainEqual({ x: left, y: inches(0.279) });
    expect(outline).toContainEqual({ x: right, y: inches(0.279) });
    expect(outline).toContainEqual({ x: inches(0.154), y: inches(0.335) });
  });

  it('has no corner where the blade runs straight on, and every corner where it turns', () => {
    // one cut by hand: 0.099 in deep with a flat of 0.054 in at 90° runs out 0.099 in to either side of the flat
    const single = { ...six, bladeHeight: inches(0.315), depths: six.depths };
    const cut = key(single, '000000').map((index, i) => (i === 2 ? 5 : index));
    const corners = bladeOutline(single, bittingOf(single, cut)).map(({ x, y }) => [x, y]);
    const centre = 0.549;
    expect(corners).toEqual(
      [
        [0, 0.315],
        [centre - 0.027 - 0.09, 0.315],
        [centre - 0.027, 0.225],
        [centre + 0.027, 0.225],
        [centre + 0.027 + 0.09, 0.315],
        [1.173, 0.315],
      ].map(([x, y]) => [inches(x!), inches(y!)]),
    );
  });

  it('follows the angle and the width of the cutter', () => {
    // at 60° a rise of 0.09 in takes 0.09 · tan 30° = 0.051962 in; a flat of 0.060 in is wider than the root's
    const single = { ...six, bladeHeight: inches(0.315) };
    const cut = key(single, '000000').map((index, i) => (i === 2 ? 5 : index));
    const cutter = { flat: inches(0.06), angle: 60 };
    const corners = bladeOutline(single, bittingOf(single, cut), { cutter });
    expect(corners).toHaveLength(6);
    expect(corners[1]!.x).toBeCloseTo(
      inches(0.549) - inches(0.03) - inches(0.09) * Math.tan(Math.PI / 6),
      -1,
    );
    expect(corners[2]).toEqual({ x: inches(0.519), y: inches(0.225) });
    expect(corners[3]).toEqual({ x: inches(0.579), y: inches(0.225) });
    expect(bladeHeightAt(single, bittingOf(single, cut), inches(0.579) + inches(0.03), cutter)).toBeCloseTo(
      inches(0.225) + inches(0.03) / Math.tan(Math.PI / 6),
      0,
    );
  });

  it('can be cut off at either side', () => {
    const outline = bladeOutline(six, bitting, { from: inches(0.237), to: inches(0.3) });
    expect(outline[0]).toEqual({ x: inches(0.237), y: inches(0.279) });
    expect(outline.at(-1)!.x).toBe(inches(0.3));
  });

  it('stands one increment above the shallowest cut where the blade height is not known', () => {
    const unknown = { ...six };
    delete unknown.bladeHeight;
    expect(bladeTop(unknown)).toBe(inches(0.333));
    expect(bladeOutline(unknown, bitting)[0]!.y).toBe(inches(0.333));
  });

  it('joins to the height of the blade at every place, with no corner too many', () => {
    fc.assert(
      fc.property(keysArbitrary(), fc.nat({ max: 1000 }), ({ spec, bittings: [bitting] }, part) => {
        const outline = bladeOutline(spec, bitting!);
        const end = outline.at(-1)!.x;
        const x = (end * part) / 1000;
        const i = Math.max(
          1,
          outline.findIndex((point) => point.x >= x),
        );
        const [a, b] = [outline[i - 1]!, outline[i]!];
        const between = a.y + ((x - a.x) / (b.x - a.x)) * (b.y - a.y);
        expect(Math.abs(between - bladeHeightAt(spec, bitting!, x))).toBeLessThanOrEqual(8);
        outline.slice(1).forEach((point, k) => expect(point.x).toBeGreaterThan(outline[k]!.x));
        // at most a flat, two flanks and a piece of the top for each cut
        expect(outline.length).toBeLessThanOrEqual(4 * positions(spec) + 2);
      }),
    );
  });
});

describe('a blade that never rises towards the tip', () => {
  // flats as wide as the spacing less four steps: a drop of four steps or more leaves no ridge
  const steep: Specification = { ...six, rootWidth: inches(0.156 - 0.072), macs: 9 };

  it('needs every cut deeper by enough to eat the ridge', () => {
    const five: Specification = { ...steep, centres: steep.centres.slice(0, 4) };
    expect(neverRisesToTip({ ...five, rootWidth: inches(0.12) }, [0, 2, 4, 6])).toBe(true);
    expect(neverRisesToTip({ ...five, rootWidth: inches(0.119) }, [0, 2, 4, 6])).toBe(false);
    expect(neverRisesToTip({ ...five, rootWidth: inches(0.12) }, [6, 4, 2, 0])).toBe(false);
    expect(neverRisesToTip({ ...five, rootWidth: inches(0.12), order: 'tip-to-bow' }, [6, 4, 2, 0])).toBe(
      true,
    );
    expect(neverRisesToTip({ ...five, rootWidth: inches(0.12) }, [0, 0, 2, 4])).toBe(false);
  });

  it('is one whose outline falls all along', () => {
    const uneven = steep.centres.map((c, i) => lengthOf(c + i * i * 10_000));
    fc.assert(
      fc.property(
        fc.constantFrom('shoulder' as const, 'tip' as const),
        fc.constantFrom('bow-to-tip' as const, 'tip-to-bow' as const),
        fc.integer({ min: 1_500_000, max: 4_200_000 }),
        fc.array(fc.integer({ min: -1, max: 3 }), { minLength: 4, maxLength: 4 }),
        (gauge, order, width, rises) => {
          const centres = uneven.slice(0, 4);
          const spec: Specification = { ...six, gauge, order, centres, rootWidth: lengthOf(width) };
          let index = 2;
          const indices = rises.map((rise) => (index = Math.min(9, Math.max(0, index + rise))));
          const bitting = bittingOf(spec, order === 'bow-to-tip' ? indices : [...indices].reverse());
          fc.pre(indices.every((d, i) => i === 0 || Math.abs(d - indices[i - 1]!) <= geometricMacs(spec)));
          expect(neverRisesToTip(spec, bitting)).toBe(fallsOnOutline(spec, bitting));
        },
      ),
      { numRuns: 500 },
    );
  });

  function fallsOnOutline(spec: Specification, bitting: Bitting): boolean {
    const outline = bladeOutline(spec, bitting, { from: spec.centres[0]!, to: spec.centres.at(-1)! });
    const towardsTip = spec.gauge === 'shoulder' ? outline : [...outline].reverse();
    return towardsTip.every((point, i) => i === 0 || point.y <= towardsTip[i - 1]!.y + 2);
  }
});
