/** How well a spec fits a measured key, in words. */
import type { SpecFit } from '../../src/keying/fitSpecs.ts';
import type { SpacingFit } from '../../src/keying/fitSpacing.ts';
import { formatLength, lengthOf, type Unit } from '../../src/keying/units.ts';

export const NO_SPEC =
  'No spec of this workbook and no starter has this number of cuts. Make the spec first.';

const VERDICTS: Record<SpecFit['verdict'], string> = {
  good: 'Fits well',
  fair: 'Fits with reserve',
  poor: 'Does not fit',
};

export const sayVerdict = (fit: Pick<SpecFit, 'verdict'>): string => VERDICTS[fit.verdict];

/** @example sayFit(fit) → 'Depths off by 0.001 in, centres by 0.002 in and the stop by 0.003 in.' */
export function sayFit({ spec, depthError, centreError, centreOffset, turned }: SpecFit): string {
  const length = (l: number): string => formatLength(lengthOf(Math.abs(l)), spec.unit);
  const parts = [
    `depths off by ${length(depthError)}`,
    ...(centreError === undefined ? [] : [`centres by ${length(centreError)}`]),
    ...(centreOffset === undefined || centreOffset === 0 ? [] : [`the stop by ${length(centreOffset)}`]),
  ].join(', ');
  return `${parts.charAt(0).toUpperCase()}${parts.slice(1)}.${turned ? ' Readings were turned round: this spec reads from the other end.' : ''}`;
}

/** @example saySpacing(fit, 'in') → 'Spaces off by up to 0.001 in, the stop by 0.003 in.' */
export function saySpacing({ error, offset }: SpacingFit, unit: Unit): string {
  const length = (l: number): string => formatLength(lengthOf(Math.abs(l)), unit);
  return `Spaces off by up to ${length(error)}${offset === 0 ? '' : `, the stop by ${length(offset)}`}.`;
}

/** The code with a question mark for every cut in doubt. @example sureCode(fit) → '27?153' */
export function sureCode({ spec, decoding }: SpecFit): string {
  const wide = spec.depths.some((depth) => depth.symbol.length > 1);
  return decoding.cuts.map((cut) => (cut.suspect || cut.ambiguous ? '?' : cut.symbol)).join(wide ? '-' : '');
}
