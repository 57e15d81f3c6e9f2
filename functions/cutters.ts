/** Worksheet functions: what a cutter does to the blade. */
import {
  cutterOf,
  geometricMacs as macsOf,
  MOST_PASSES,
  wideningPasses,
  type Cutter,
} from '../src/keying/geometry.ts';
import type { Specification } from '../src/keying/specification.ts';
import { formatLength, type Unit } from '../src/keying/units.ts';
import { BLANK, isBlank, numberIn, refuse } from './cells.ts';
import { inUnit, lengthIn, specIn, unitIn } from './specs.ts';

function cutterIn(spec: Specification, flat: unknown, angle: unknown, unit: Unit): Cutter {
  const own = cutterOf(spec);
  const cutter = {
    flat: isBlank(flat) ? own.flat : lengthIn(flat, unit, 'The flat'),
    angle: isBlank(angle) ? own.angle : numberIn(angle, 'The angle'),
  };
  if (cutter.flat <= 0) return refuse('The flat must be more than zero.');
  if (cutter.angle <= 0 || cutter.angle >= 180)
    return refuse(`The angle is ${cutter.angle}°; it must be more than 0° and less than 180°.`);
  return cutter;
}

/**
 * The most steps that neighbouring cuts may differ before a cutter eats more than 0.001 in of the shallower one's flat.
 *
 * Compare it with the spec's MACS. With uneven depths or centres the worst pair decides.
 * @customfunction GEOMETRICMACS
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [flat] Flat of the cutter at hand; the spec's root width if left out.
 * @param [angle] Included angle of the cutter, in degrees; the spec's if left out.
 * @param [unit] Unit of the flat, "in" or "mm"; the spec's own if left out.
 * @returns A number of steps.
 * @example =KEYROW.GEOMETRICMACS("S-018-6") → 5
 * @example =KEYROW.GEOMETRICMACS("S-018-6",,0.09) → 4
 * @errors #VALUE! where the flat or the angle can't be.
 * @source (spacing − root width) ÷ (increment · tan(angle ÷ 2)): Pulford, High-Security Mechanical Locks: An Encyclopedic Reference, 2007.
 */
export function geometricMacs(
  spec: string,
  specs?: unknown[][],
  flat?: unknown,
  angle?: unknown,
  unit?: string,
): number {
  const found = specIn(spec, specs);
  return macsOf(found, cutterIn(found, flat, angle, unitIn(unit, found)));
}

function offsetsIn(flat: unknown, name: string, specs: unknown, unit: unknown): number[] {
  const spec = specIn(name, specs);
  const asked = unitIn(unit, spec);
  const cutter = cutterIn(spec, flat, undefined, asked);
  const widening = wideningPasses(spec, cutter);
  switch (widening.kind) {
    case 'fits':
      return [0];
    case 'widen':
      return widening.offsets.map(inUnit(asked));
    case 'too-narrow':
      return refuse(
        `The flat is less than one in ${MOST_PASSES} of the root width of ${spec.name}; check it and its unit.`,
      );
    case 'too-wide':
      return refuse(
        `The cutter is ${formatLength(widening.by, asked)} wider than the root width of ${spec.name}; with it neighbours may differ by at most ${widening.macs} steps.`,
      );
  }
}

/**
 * How many passes a cutter needs to make the spec's root width: 1 where it fits, more where it is narrower.
 * @customfunction PASSES
 * @param flat Flat of the cutter.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [unit] Unit of the flat, "in" or "mm"; the spec's own if left out.
 * @returns The number of passes; blank for a blank flat.
 * @example =KEYROW.PASSES(0.054,"S-018-6") → 1
 * @example =KEYROW.PASSES(0.035,"S-018-6") → 2
 * @errors #VALUE! where the cutter is wider than the root width: by how much, and the MACS it would still allow.
 * @source The root width divided by the flat, rounded up.
 */
export function passes(flat: unknown, spec: string, specs?: unknown[][], unit?: string): number | string {
  return isBlank(flat) ? BLANK : offsetsIn(flat, spec, specs, unit).length;
}

/**
 * Where the passes of a cutter lie, as distances from the centre of the cut: a row from minus to plus.
 * @customfunction PASSOFFSETS
 * @param flat Flat of the cutter.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [unit] Unit of flat and answer, "in" or "mm"; the spec's own if left out.
 * @returns A row of offsets from the centre; two passes have none at the centre.
 * @example =KEYROW.PASSOFFSETS(0.034,"S-018-6") → {-0.01,0.01}
 * @example =KEYROW.PASSOFFSETS(0.054,"S-018-6") → {0}
 * @errors #VALUE! where the cutter is wider than the root width: by how much, and the MACS it would still allow.
 * @source The outer passes lie at half of root width less flat; the others evenly between.
 */
export function passOffsets(flat: unknown, spec: string, specs?: unknown[][], unit?: string): unknown[][] {
  return [isBlank(flat) ? [BLANK] : offsetsIn(flat, spec, specs, unit)];
}
