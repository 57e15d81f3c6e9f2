/**
 * The blade and what a cut eats of its neighbour's flat against a polygon library (polygon-clipping): each cut is a
 * polygon taken away from the blade, and what is left is measured. The library works in binary fractions with robust
 * predicates, so areas agree to a few parts in 10⁹, not to the nanometre.
 */
import polygonClipping, { type MultiPolygon, type Polygon } from 'polygon-clipping';
import { describe, expect, it } from 'vitest';
import { cutsFromStop } from '../../src/keying/cuts.ts';
import { cutterOf, interferences, type Cutter } from '../../src/keying/geometry.ts';
import { bladeOutline, bladeTop } from '../../src/keying/outline.ts';
import type { Bitting } from '../../src/keying/bitting.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { inches, lengthOf, toUnit } from '../../src/keying/units.ts';
import { STARTER_SPECS } from '../../src/keying/starters.ts';
import { randomOf } from '../bench/random.ts';
import { bittingOf } from '../../src/keying/bitting.ts';

const inch = (nm: number): number => toUnit(lengthOf(Math.round(nm)), 'in');

/** The wheel's silhouette at a cut, from its root up to well above the blade. */
function wheel(spec: Specification, cutter: Cutter, centre: number, root: number, top: number): Polygon {
  const half = Math.max(cutter.flat, spec.rootWidth) / 2;
  const reach = half + (top - root) * Math.tan((cutter.angle * Math.PI) / 360);
  return [
    [
      [inch(centre - half), inch(root)],
      [inch(centre + half), inch(root)],
      [inch(centre + reach), inch(top)],
      [inch(centre - reach), inch(top)],
    ],
  ];
}

function area(shape: MultiPolygon): number {
  let sum = 0;
  for (const polygon of shape)
    for (const ring of polygon)
      for (let i = 1; i < ring.length; i++)
        sum += (ring[i - 1]![0] * ring[i]![1] - ring[i]![0] * ring[i - 1]![1]) / 2;
  return sum;
}

/** The blade with every cut clipped away, from the stop to one spacing beyond the last centre. */
function clipped(spec: Specification, bitting: Bitting, cutter: Cutter, to: number): number {
  const top = bladeTop(spec);
  const blade: Polygon = [
    [
      [0, 0],
      [inch(to), 0],
      [inch(to), inch(top)],
      [0, inch(top)],
    ],
  ];
  const wheels = cutsFromStop(spec, bitting).map(({ centre, root }) =>
    wheel(spec, cutter, centre, root, top * 2),
  );
  return area(polygonClipping.difference(blade, ...wheels));
}

function underOutline(spec: Specification, bitting: Bitting, cutter: Cutter): { area: number; to: number } {
  const points = bladeOutline(spec, bitting, { cutter });
  let sum = 0;
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!];
    sum += ((inch(a.y) + inch(b.y)) / 2) * (inch(b.x) - inch(a.x));
  }
  return { area: sum, to: points.at(-1)!.x };
}

const CUTTERS: readonly ((spec: Specification) => Cutter)[] = [
  cutterOf,
  (spec) => ({ flat: lengthOf(spec.rootWidth + inches(0.02)), angle: spec.angle }),
  (spec) => ({ flat: spec.rootWidth, angle: spec.angle + 15 }),
];

function drawn(spec: Specification, count: number): Bitting[] {
  const random = randomOf(29);
  return Array.from({ length: count }, () =>
    bittingOf(
      spec,
      spec.centres.map(() => random(spec.depths.length)),
    ),
  );
}

describe.each(STARTER_SPECS.map((spec) => [spec.name, spec] as const))('the blade of %s', (_, spec) => {
  it('has the outline that clipping leaves', () => {
    for (const bitting of drawn(spec, 25))
      for (const cutter of CUTTERS) {
        const { area: ours, to } = underOutline(spec, bitting, cutter(spec));
        expect(ours).toBeCloseTo(clipped(spec, bitting, cutter(spec), to), 7);
      }
  });

  it('finds the neighbours whose flat clipping takes away, by as much', () => {
    for (const bitting of drawn(spec, 25))
      for (const make of CUTTERS) {
        const cutter = make(spec);
        const cuts = cutsFromStop(spec, bitting);
        const found = new Map(
          interferences(spec, bitting, cutter).map((pair) => [pair.first, inch(pair.by)]),
        );
        for (let i = 1; i < cuts.length; i++) {
          const [a, b] = [cuts[i - 1]!, cuts[i]!];
          const [deep, shallow] = a.root < b.root ? [a, b] : [b, a];
          if (deep.root === shallow.root) continue;
          // the sliver of metal just under the spec's flat of the shallower cut: what the deeper wheel takes of it
          const thin = 1e-6;
          const half = spec.rootWidth / 2;
          const flat: Polygon = [
            [
              [inch(shallow.centre - half), inch(shallow.root) - thin],
              [inch(shallow.centre + half), inch(shallow.root) - thin],
              [inch(shallow.centre + half), inch(shallow.root)],
              [inch(shallow.centre - half), inch(shallow.root)],
            ],
          ];
          const taken = area(
            polygonClipping.intersection(
              flat,
              wheel(spec, cutter, deep.centre, deep.root, bladeTop(spec) * 2),
            ),
          );
          const eaten = Math.min(taken / thin, inch(spec.rootWidth));
          const first = Math.min(a.symbolNumber, b.symbolNumber);
          const ours = found.get(first) ?? 0;
          if (eaten > 0.0011) expect(Math.min(ours, inch(spec.rootWidth))).toBeCloseTo(eaten, 5);
          else expect(ours).toBeLessThan(0.0012);
        }
      }
  });
});
