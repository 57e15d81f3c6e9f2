/** Two or three specs side by side: the same rows as a single spec has, and which of them differ. */
import { geometricMacs } from '../../src/keying/geometry.ts';
import { increment, type Specification } from '../../src/keying/specification.ts';
import { shownIn } from '../../src/keying/shownIn.ts';
import { formatLength, lengthOf, type Unit } from '../../src/keying/units.ts';
import { counted } from '../pictures/numbers.ts';
import { specFacts } from './explain.ts';

export interface ComparedRow {
  readonly label: string;
  /** One for each spec, in their order; '–' where it has none. */
  readonly values: readonly string[];
  readonly differs: boolean;
}

const MISSING = '–';

/**
 * Every dimension of the specs, those that differ marked. Lengths are compared as they are, so that 0.5 in and 12.7 mm
 * are the same, whatever each spec writes; they are shown in one unit where one is asked for.
 * @example compareSpecs([six, metric])[0] → { label: 'Cuts', values: ['6, from the shoulder', '5, from …'], differs: true }
 */
export function compareSpecs(specs: readonly Specification[], unit?: Unit): ComparedRow[] {
  const facts = specs.map((spec) => new Map([...own(shownIn(spec, unit))]));
  const labels = [...new Set(facts.flatMap((of) => [...of.keys()]))];
  return labels.map((label) => {
    const found = facts.map((of) => of.get(label));
    return {
      label,
      values: found.map((fact) => fact?.shown ?? MISSING),
      differs: new Set(found.map((fact) => fact?.same ?? '')).size > 1,
    };
  });
}

interface Compared {
  readonly shown: string;
  /** Equal for two specs where they are the same in this. */
  readonly same: string;
}

/** The facts of a spec with what they are compared by, and what follows from them. */
function* own(spec: Specification): Generator<[string, Compared]> {
  const by: Readonly<Record<string, unknown>> = {
    Centres: spec.centres,
    Depths: spec.depths.map((depth) => [depth.symbol, depth.root]),
    'Root width': spec.rootWidth,
    Progression: spec.step,
    Tolerance: spec.tolerance,
    'Blade height': spec.bladeHeight,
    'Plug diameter': spec.plugDiameter,
    'Target stack': spec.targetStack,
  };
  for (const { label, value } of specFacts(spec)) {
    yield [label, { shown: value, same: JSON.stringify(by[label] ?? value) }];
    if (label === 'Cuts') yield ['Code reads', plain(spec.order.replaceAll('-', ' '))];
    if (label === 'Depths') {
      const steps = lengthOf(increment(spec.depths));
      yield ['Increment', { shown: formatLength(steps, spec.unit), same: String(steps) }];
    }
    if (label === 'MACS') yield ['MACS by geometry', plain(counted(geometricMacs(spec), 'step'))];
  }
}

const plain = (shown: string): Compared => ({ shown, same: shown });
