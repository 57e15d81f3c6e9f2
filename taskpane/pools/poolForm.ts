/** Keying without a master: what is asked for as typed, and what the keying room draws for it. */
import { parseBitting, type Bitting } from '../../src/keying/bitting.ts';
import { pinnedFor } from '../../src/keying/cylinder.ts';
import type { PoolRequest } from '../../src/keying/grid/index.ts';
import { DEFAULT_RULES, type Rules } from '../../src/keying/rules.ts';
import { positions, type Specification } from '../../src/keying/specification.ts';
import { say } from '../../src/keying/wording.ts';
import type { CylinderRecord, KeyRecord } from '../../src/keying/system.ts';
import type { BookReading, NewSystem } from '../../src/workbook/index.ts';
import { parseWhole } from '../make/counts.ts';
import { bittingsUnder } from '../solve/solveForm.ts';

export interface PoolForm {
  /** Every cylinder its own key, or groups of cylinders under one key. */
  readonly kind: 'different' | 'alike';
  readonly count: string;
  /** Cylinders for each key. */
  readonly cylinders: string;
  readonly difference: string;
  readonly avoidBook: boolean;
  readonly avoid: string;
  readonly seed: string;
  readonly rules: Rules;
}

export type PoolField = 'count' | 'cylinders' | 'difference' | 'avoid' | 'seed';

export const DEFAULT_POOL: PoolForm = {
  kind: 'different',
  count: '20',
  cylinders: '1',
  difference: '2',
  avoidBook: true,
  avoid: '',
  seed: '1',
  rules: DEFAULT_RULES,
};

const MOST_KEYS = 20_000;
const MOST_CYLINDERS = 1000;

export interface PoolReading {
  readonly request?: PoolRequest;
  readonly cylinders: number;
  readonly faults: ReadonlyMap<PoolField, string>;
}

export function readPoolForm(form: PoolForm, spec: Specification, book?: BookReading): PoolReading {
  const faults = new Map<PoolField, string>();
  const whole = (field: PoolField, least: number, most: number, what: string): number => {
    const read = parseWhole(form[field].replaceAll(',', ''), least, most, what);
    if (read.ok) return read.value;
    faults.set(field, read.error);
    return least;
  };
  const count = whole('count', 1, MOST_KEYS, form.kind === 'alike' ? 'groups' : 'keys');
  const cylinders = whole('cylinders', form.kind === 'alike' ? 1 : 0, MOST_CYLINDERS, 'cylinders');
  const minimumDifference = whole('difference', 1, positions(spec), 'chambers');
  const seed = whole('seed', 0, 999_999_999, 'a seed');
  const typed: Bitting[] = [];
  for (const code of form.avoid.split(/[,;\n]+/).map((part) => part.trim())) {
    if (code === '') continue;
    const read = parseBitting(spec, code);
    if (read.ok) typed.push(read.value);
    else if (!faults.has('avoid')) faults.set('avoid', `“${code}”: ${say(read.error[0]!)}`);
  }
  if (faults.size > 0) return { cylinders, faults };
  const used = [...typed, ...(form.avoidBook && book ? bittingsUnder(book, spec) : [])];
  return {
    cylinders,
    faults,
    request: { spec, count, rules: form.rules, minimumDifference, seed, ...(used.length > 0 && { used }) },
  };
}

/**
 * The pool as a system of single keys: SKD1, SKD2 … for keyed different, KA1, KA2 … for keyed-alike groups.
 * @example poolSystem('Stock', spec, bittings, 'alike', 3) → KA1 with cylinders KA1-1, KA1-2 and KA1-3 …
 */
export function poolSystem(
  name: string,
  spec: Specification,
  bittings: readonly Bitting[],
  kind: PoolForm['kind'],
  cylindersEach: number,
): Pick<NewSystem, 'system' | 'marks'> {
  const prefix = kind === 'alike' ? 'KA' : 'SKD';
  const keys = bittings.map((bitting, i): KeyRecord => ({
    symbol: `${prefix}${i + 1}`,
    level: 'single',
    bitting,
    status: 'reserved',
  }));
  const cylinders = keys.flatMap(({ symbol, bitting }): CylinderRecord[] =>
    Array.from({ length: cylindersEach }, (_, n) => ({
      id: `${symbol}-${n + 1}`,
      symbol,
      chambers: pinnedFor(spec, [bitting]),
    })),
  );
  return {
    system: { name, spec, keys, cylinders },
    marks: cylinders.map(({ id, symbol }) => ({ key: symbol, cylinder: id })),
  };
}
