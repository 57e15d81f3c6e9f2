/** The words of the blade drawing. */
import { formatBitting, type Bitting } from '../../src/keying/bitting.ts';
import { positions, type Specification } from '../../src/keying/specification.ts';
import { formatLength, UNIT_NAMES, type Unit } from '../../src/keying/units.ts';
import { counted } from './numbers.ts';

export const readingWords = (spec: Specification): string =>
  spec.order === 'bow-to-tip' ? 'read from bow to tip' : 'read from tip to bow';

export function bladeSummary(spec: Specification, bitting: Bitting, faults: number): string {
  return (
    `Blade of ${formatBitting(spec, bitting)}, ${positions(spec)} cuts, ${readingWords(spec)}, ` +
    `measured from the ${spec.gauge}. ${faults === 0 ? 'Nothing marked.' : `${counted(faults, 'place')} marked.`}`
  );
}

/** A unit in words. @example unitWords('in') → 'inches' */
export const unitWords = (unit: Unit): string => UNIT_NAMES[unit];

/** @example 'flat 0.054 in, 90° included, MACS 5' */
export function shapeWords(spec: Specification): string {
  return `flat ${formatLength(spec.rootWidth, spec.unit)}, ${spec.angle}° included, MACS ${spec.macs}`;
}
