/** The options of solving a grid: text as typed becomes the solver's options; every fault is a sentence at its field. */
import { parseBitting, type Bitting } from '../../src/keying/bitting.ts';
import { DEFAULT_BUDGET, type SolveOptions } from '../../src/keying/grid/index.ts';
import { DEFAULT_RULES, type Rules } from '../../src/keying/rules.ts';
import { positions, type Specification } from '../../src/keying/specification.ts';
import { foldName } from '../../src/keying/specTable.ts';
import { say } from '../../src/keying/wording.ts';
import type { BookReading } from '../../src/workbook/index.ts';
import { parseWhole } from '../make/counts.ts';

export interface SolveForm {
  readonly difference: string;
  /** Most depths in one chamber; blank for as many as it takes. */
  readonly mostDepths: string;
  readonly sameMarks: 'different' | 'alike';
  /** Avoid every bitting that stands in the workbook under the same spec. */
  readonly avoidBook: boolean;
  /** Further bittings to keep free. */
  readonly avoid: string;
  /** Positions kept for a later level, counted from 1 in the order of the code. */
  readonly constant: string;
  readonly seed: string;
  readonly budget: string;
  readonly rules: Rules;
}

export type SolveField = Exclude<keyof SolveForm, 'sameMarks' | 'avoidBook' | 'rules'>;

export const DEFAULT_SOLVE: SolveForm = {
  difference: '1',
  mostDepths: '',
  sameMarks: 'different',
  avoidBook: false,
  avoid: '',
  constant: '',
  seed: '1',
  budget: String(DEFAULT_BUDGET),
  rules: DEFAULT_RULES,
};

export interface SolveReading {
  /** Absent when a field has a fault. */
  readonly options?: SolveOptions;
  readonly faults: ReadonlyMap<SolveField, string>;
}

/** Beyond this nobody waits, and counts of steps lose their last digits. */
const MOST_STEPS = 10_000_000_000;

export function readSolveForm(form: SolveForm, spec: Specification, book?: BookReading): SolveReading {
  const faults = new Map<SolveField, string>();
  const whole = (field: SolveField, least: number, most: number, what: string): number => {
    const read = parseWhole(form[field].replaceAll(',', ''), least, most, what);
    if (read.ok) return read.value;
    faults.set(field, read.error);
    return least;
  };
  const cuts = positions(spec);
  const minimumDifference = whole('difference', 1, cuts, 'chambers');
  const seed = whole('seed', 0, 999_999_999, 'a seed');
  const budget = whole('budget', 1000, MOST_STEPS, 'steps');
  const depths = spec.depths.length;
  const mostDepths = form.mostDepths.trim() === '' ? depths : whole('mostDepths', 1, depths, 'depths');
  const constant = readPositions(form.constant, cuts, faults);
  const typed = readAvoided(form.avoid, spec, faults);
  if (faults.size > 0) return { faults };
  const avoid = [...typed, ...(form.avoidBook && book ? bittingsUnder(book, spec) : [])];
  return {
    faults,
    options: {
      rules: form.rules,
      minimumDifference,
      seed,
      budget,
      sameMarks: form.sameMarks,
      ...(mostDepths < depths && { mostDepths }),
      ...(constant.length > 0 && { constant }),
      ...(avoid.length > 0 && { avoid }),
    },
  };
}

/** Bittings of every system of the workbook under this spec, whatever their status but free. */
export function bittingsUnder({ systems }: Pick<BookReading, 'systems'>, spec: Specification): Bitting[] {
  return systems
    .filter((system) => system.spec && foldName(system.spec.name) === foldName(spec.name))
    .flatMap(({ keys, topMaster }) => [
      ...(topMaster ? [topMaster] : []),
      ...keys.flatMap(({ bitting, status }) => (bitting && status !== 'free' ? [bitting] : [])),
    ]);
}

function readPositions(text: string, cuts: number, faults: Map<SolveField, string>): number[] {
  const parts = text.split(/[,;\s]+/).filter(Boolean);
  const positions = [...new Set(parts.map(Number))];
  if (positions.some((p) => !Number.isInteger(p) || p < 1 || p > cuts))
    faults.set('constant', `Positions from 1 to ${cuts}, such as 5 6.`);
  else if (positions.length >= cuts)
    faults.set('constant', 'At least one position has to be left for these keys.');
  return positions.map((p) => p - 1);
}

function readAvoided(text: string, spec: Specification, faults: Map<SolveField, string>): Bitting[] {
  const bittings: Bitting[] = [];
  for (const code of text
    .split(/[,;\n]+/)
    .map((part) => part.trim())
    .filter(Boolean)) {
    const read = parseBitting(spec, code);
    if (read.ok) bittings.push(read.value);
    else if (!faults.has('avoid')) faults.set('avoid', `“${code}”: ${say(read.error[0]!)}`);
  }
  return bittings;
}
