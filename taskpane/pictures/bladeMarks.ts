/**
 * Which places of a blade its findings speak of. Each finding gets a letter, which stands over the place in the
 * drawing and before the sentence in the list.
 */
import type { Bitting } from '../../src/keying/bitting.ts';
import { severityOf, type BittingFinding, type CutFinding } from '../../src/keying/findings.ts';
import { interferences, type Cutter } from '../../src/keying/geometry.ts';
import type { Specification } from '../../src/keying/specification.ts';

export type BladeFinding = BittingFinding | CutFinding;

/** Symbols of the code, from 1, that stand side by side; one cut is a run whose first and last are the same. */
export interface Place {
  readonly first: number;
  readonly last: number;
}

export interface BladeMark {
  readonly letter: string;
  readonly finding: BladeFinding;
  readonly place?: Place;
}

export function placeOf(finding: BladeFinding): Place | undefined {
  switch (finding.code) {
    case 'macs':
    case 'eaten-flat':
      return { first: finding.first, last: finding.first + 1 };
    case 'equal-run':
      return { first: finding.first, last: finding.first + finding.length - 1 };
    case 'parity':
    case 'unknown-depth':
    case 'suspect-cut':
    case 'ambiguous-cut':
      return { first: finding.at, last: finding.at };
    case 'near-miss':
      return { first: finding.chamber, last: finding.chamber };
    default:
      return undefined;
  }
}

/** The findings in the order given, then what the cutter eats where the caller hasn't said it already. */
export function bladeMarks(
  spec: Specification,
  bitting: Bitting,
  findings: readonly BladeFinding[],
  cutter?: Cutter,
): BladeMark[] {
  const eaten = findings.some((f) => f.code === 'eaten-flat')
    ? []
    : interferences(spec, bitting, cutter).map((pair) => ({
        code: 'eaten-flat' as const,
        ...pair,
        unit: spec.unit,
      }));
  return [...findings, ...eaten].map((finding, i) => {
    const place = placeOf(finding);
    return { letter: letterOf(i), finding, ...(place && { place }) };
  });
}

/** @example letterOf(0) → 'a'; letterOf(26) → '27': more than anyone will see on one key */
const letterOf = (i: number): string => (i < 26 ? String.fromCharCode(97 + i) : String(i + 1));

export interface PlaceGroup {
  readonly place: Place;
  readonly letters: string;
  readonly fault: boolean;
}

/** Marks that share a place share a letter box; it is a fault's as soon as one of them is. */
export function groupByPlace(marks: readonly BladeMark[]): PlaceGroup[] {
  const groups = new Map<string, PlaceGroup>();
  for (const { place, letter, finding } of marks) {
    if (!place) continue;
    const key = `${place.first}-${place.last}`;
    const known = groups.get(key);
    groups.set(key, {
      place,
      letters: (known?.letters ?? '') + letter,
      fault: (known?.fault ?? false) || severityOf(finding) === 'fault',
    });
  }
  return [...groups.values()];
}
