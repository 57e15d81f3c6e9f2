/**
 * The unit that lengths are said in. The same length, spec or finding is shown in the reader's unit; what it is
 * worth in nanometres, and so every comparison and every cut, stays as it is.
 */
import type { Finding } from './findings.ts';
import type { Specification } from './specification.ts';
import type { Unit } from './units.ts';

/** The spec with its lengths to be said in a unit; left as it is written where none is asked for. */
export const shownIn = (spec: Specification, unit: Unit | undefined): Specification =>
  unit === undefined || unit === spec.unit ? spec : { ...spec, unit };

/** The codes of the findings that hold a length to be said. */
type LengthCode<F> = F extends { readonly code: infer Code }
  ? 'unit' extends keyof F
    ? Code
    : never
  : never;

const LENGTH_CODES: Readonly<Record<LengthCode<Finding>, true>> = {
  'near-miss': true,
  'near-interchange': true,
  'eaten-flat': true,
  'cutter-too-wide': true,
  'suspect-cut': true,
  'shared-offset': true,
};

/**
 * The finding with its lengths to be said in a unit; as it is where none is asked for.
 * @example say(findingIn({ code: 'shared-offset', offset: inches(0.01), unit: 'in' }, 'mm')) → 'All cuts are off by about 0.25 mm: …'
 */
export function findingIn<F extends Finding>(finding: F, unit: Unit | undefined): F {
  if (unit === undefined) return finding;
  if (finding.code === 'unusable-bitting')
    return { ...finding, reasons: finding.reasons.map((reason) => findingIn(reason, unit)) };
  return finding.code in LENGTH_CODES ? { ...finding, unit } : finding;
}
