/** A spec field by field: what it is, its value with the unit, and what it means at the bench. */
import { countWithinMacs } from '../../src/keying/count.ts';
import { geometricMacs } from '../../src/keying/geometry.ts';
import { increment, positions, type Specification } from '../../src/keying/specification.ts';
import { formatLength, formatNumber, type Length } from '../../src/keying/units.ts';
import { counted, grouped } from '../pictures/numbers.ts';

export interface SpecFact {
  readonly label: string;
  readonly value: string;
  readonly means: string;
}

const ENDS = { 'bow-to-tip': ['bow', 'tip'], 'tip-to-bow': ['tip', 'bow'] } as const;

/** @example specFacts(spec)[0] → { label: 'Cuts', value: '6, from the shoulder', means: … } */
export function specFacts(spec: Specification): SpecFact[] {
  const length = (value: Length): string => formatLength(value, spec.unit);
  const [from, to] = ENDS[spec.order];
  const optional: (SpecFact | undefined)[] = [
    spec.bladeHeight && {
      label: 'Blade height',
      value: length(spec.bladeHeight),
      means: 'Bottom of the blade to its uncut top.',
    },
    spec.plugDiameter && {
      label: 'Plug diameter',
      value: length(spec.plugDiameter),
      means:
        'Plug diameter less root depth is the bottom pin, where the blade sits on the bottom of the plug.',
    },
    spec.targetStack && {
      label: 'Target stack',
      value: length(spec.targetStack),
      means: 'Sum of the pins in a chamber, which the top pin fills up to.',
    },
    spec.core && {
      label: 'Core',
      value: `total ${spec.core.total}, control adds ${spec.core.addition}, in steps`,
      means: 'Interchangeable core with a second shear line for the control key.',
    },
  ].map((fact) => fact || undefined);
  return [
    {
      label: 'Cuts',
      value: `${positions(spec)}, from the ${spec.gauge}`,
      means: `The code reads from ${from} to ${to}; positions are measured from the ${spec.gauge}.`,
    },
    { label: 'Centres', value: centresText(spec), means: 'From the stop to the middle of each cut.' },
    {
      label: 'Depths',
      value: depthsText(spec),
      means: 'Bottom of the blade to the bottom of the cut, shallow to deep.',
    },
    { label: 'Root width', value: length(spec.rootWidth), means: 'Flat at the bottom of the cut.' },
    { label: 'Angle', value: `${spec.angle}°`, means: 'Included angle of the cut.' },
    { label: 'MACS', value: counted(spec.macs, 'step'), means: macsSentence(spec) },
    {
      label: 'Progression',
      value: spec.step === 1 ? 'single step' : `${spec.step} steps`,
      means: `Cuts that share a chamber lie at least ${length((spec.step * increment(spec.depths)) as Length)} apart: the thinnest master pin.`,
    },
    {
      label: 'Tolerance',
      value: `± ${length(spec.tolerance)}`,
      means: 'How far a caliper reading may lie from its depth.',
    },
    ...optional.filter((fact) => fact !== undefined),
    {
      label: 'Bittings',
      value: grouped(countWithinMacs(spec.depths.length, positions(spec), spec.macs)),
      means: 'All bittings within MACS, before any other rule.',
    },
  ];
}

function centresText(spec: Specification): string {
  const gaps = spec.centres.slice(1).map((c, i) => c - spec.centres[i]!);
  const even = gaps.every((gap) => gap === gaps[0]);
  return even
    ? `first ${formatLength(spec.centres[0]!, spec.unit)}, then every ${formatLength(gaps[0]! as Length, spec.unit)}`
    : `${spec.centres.map((c) => formatNumber(c, spec.unit)).join(', ')} ${spec.unit}`;
}

/** A symbol and its depth are kept on one line. */
const depthsText = (spec: Specification): string =>
  `${spec.depths.map((d) => `${d.symbol}\u00a0${formatNumber(d.root, spec.unit)}`).join(', ')} ${spec.unit}`;

/** What the cutter's geometry allows against what the spec says. */
export function macsSentence(spec: Specification): string {
  const geometric = geometricMacs(spec);
  const most = spec.depths.length - 1;
  if (geometric >= most && spec.macs >= most)
    return 'Any depth may stand beside any other: no cut reaches the flat of its neighbour.';
  if (geometric === spec.macs)
    return `Neighbours may differ by ${counted(spec.macs, 'step')}: as far as root width, angle and spacing allow.`;
  if (geometric > spec.macs)
    return `Neighbours may differ by ${counted(spec.macs, 'step')}; root width, angle and spacing would allow ${geometric}.`;
  return `Neighbours may differ by ${counted(spec.macs, 'step')}, but a deeper cut eats its neighbour's flat beyond ${geometric}: check root width, angle and spacing, or lower the MACS.`;
}

/**
 * Under the fields of the form: what geometry and pins give, as soon as the dimensions that they come from are there.
 * @example limitHints(spec).macs → 'Between neighbours. Root width, angle and spacing allow 5.'
 */
export function limitHints(shape: Specification | undefined): {
  readonly macs: string;
  readonly step: string;
} {
  if (!shape) return { macs: 'Most between neighbours.', step: 'Blank: from the thinnest master pin.' };
  const most = shape.depths.length - 1;
  const geometric = geometricMacs(shape);
  const thinnest = formatLength((shape.step * increment(shape.depths)) as Length, shape.unit);
  return {
    macs:
      geometric >= most
        ? `Most between neighbours. No cut reaches its neighbour’s flat, so up to ${most}.`
        : `Most between neighbours. Root width, angle and spacing allow ${geometric}.`,
    step: `${counted(shape.step, 'step')}: the thinnest master pin is ${thinnest}.`,
  };
}
