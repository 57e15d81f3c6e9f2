/** Words for how a cutter suits a spec. */
import { MOST_PASSES } from './geometry.ts';
import type { CutterFit } from './shop.ts';
import type { Specification } from './specification.ts';
import { formatLength, formatNumber, lengthOf } from './units.ts';
import { steps } from './words.ts';

/** @example sayPasses(spec, fit) → '2 passes at -0.007 and 0.007'; 'one pass' */
export function sayPasses(spec: Specification, { offsets }: Pick<CutterFit, 'offsets'>): string {
  if (offsets.length === 1) return 'one pass';
  const at = offsets.map((offset) => formatNumber(offset, spec.unit));
  return `${offsets.length} passes at ${at.slice(0, -1).join(', ')} and ${at.at(-1)!}`;
}

/**
 * All there is to know about a cutter on a spec, one sentence each.
 * @example sayCutterFit(spec, fit) → ['0.014 in narrower than the root width: widens in 2 passes at -0.007 and 0.007.']
 */
export function sayCutterFit(spec: Specification, fit: CutterFit): string[] {
  const { unit } = spec;
  if (fit.fit === 'too-narrow')
    return [
      `Its flat is less than one in ${MOST_PASSES} of the root width: no cutter to widen with. Check the length and its unit.`,
    ];
  const size = formatLength(lengthOf(Math.abs(fit.wider)), unit);
  const words: string[] = [
    fit.fit === 'fits'
      ? 'Makes the root width in one pass.'
      : fit.fit === 'widens'
        ? `${size} narrower than the root width: widens in ${sayPasses(spec, fit)}.`
        : `Too wide by ${size}: every cut gets a wider flat than the spec has.`,
  ];
  if (fit.angleOff !== 0)
    words.push(
      `Its angle is ${Math.abs(fit.angleOff)}° ${fit.angleOff > 0 ? 'wider' : 'narrower'} than the spec’s.`,
    );
  if (fit.eats)
    words.push(
      `From ${steps(fit.eats.from)} between neighbours on it eats the shallower flat, by ${formatLength(fit.eats.by, unit)} at first.`,
    );
  if (fit.limits)
    words.push(
      `The spec allows ${spec.macs}, so codes with neighbours ${fit.macs + 1 === spec.macs ? spec.macs : `${fit.macs + 1} to ${spec.macs}`} steps apart can’t be cut with it.`,
    );
  return words;
}
