/**
 * A key-by-door grid: cylinders down, keys across, a mark where the key must operate. The statement of intent; the
 * metal is what a solver finds for it. Keys and cylinders that exist already carry theirs and stay as they are.
 */
import type { Bitting } from '../bitting.ts';
import type { Mark } from '../intended.ts';
import type { Entering } from '../keyways.ts';
import type { Rules } from '../rules.ts';
import type { Specification } from '../specification.ts';
import { foldSymbol, type Chambers, type CylinderRecord, type KeyRecord } from '../system.ts';

export interface GridKey {
  readonly symbol: string;
  /** An existing key's cuts: never changed. */
  readonly bitting?: Bitting;
  /** Keyway section of the blank; blank or left out = enters every cylinder. */
  readonly keyway?: string;
  /** Cuts on the blank, from its stop on; all of the spec's when left out. */
  readonly cuts?: number;
}

export interface GridCylinder {
  readonly id: string;
  /** An existing cylinder's chambers: never changed, unless the answer names it as one to re-pin. */
  readonly chambers?: Chambers;
  /** Chambers that are pinned, in code order (a five-pin cylinder, a chamber left empty); all when left out. */
  readonly inUse?: readonly boolean[];
  readonly keyway?: string;
  /** An interchangeable core's control cuts: no key may have them, they may not operate it, its pins need room. */
  readonly control?: Bitting;
}

export interface Grid {
  readonly spec: Specification;
  readonly keys: readonly GridKey[];
  readonly cylinders: readonly GridCylinder[];
  /** For each cylinder the numbers of the keys that must operate it; all others must not. */
  readonly marks: readonly (readonly number[])[];
  /** Keyways that blanks enter besides their own. */
  readonly enters?: Entering;
}

export interface SolveOptions {
  /** Which bittings are usable; the room's defaults when left out. */
  readonly rules?: Rules;
  /** Chambers in which any two keys differ at least; 1 when left out. */
  readonly minimumDifference?: number;
  /** Most depths in one chamber of one cylinder; as many as the spec has when left out. */
  readonly mostDepths?: number;
  /** Bittings used before, or kept free for later: not issued, and no new cylinder may admit one. */
  readonly avoid?: readonly Bitting[];
  /** Positions (from 0 in code order) at which every new key has the same cut, so that a later level can use them. */
  readonly constant?: readonly number[];
  /** Progress within the parity of this top master (two-step systems); chosen by the seed when left out. */
  readonly topMaster?: Bitting;
  /** Keys with the very same marks: one bitting for all of them (default), or each its own. */
  readonly sameMarks?: 'alike' | 'different';
  readonly seed?: number;
  /** Search steps (a move tried out or a bitting tested, about a microsecond each); 2,000,000 when left out. */
  readonly budget?: number;
}

/**
 * A grid from records: keys and cylinders by symbol and id, marks by name. Marks that name neither are left out.
 * @example gridOf(spec, ['A', 'A1'], ['Door 1'], [{ key: 'A', cylinder: 'Door 1' }]).marks → [[0]]
 */
export function gridOf(
  spec: Specification,
  keys: readonly (string | GridKey)[],
  cylinders: readonly (string | GridCylinder)[],
  marks: Iterable<Mark>,
  enters?: Entering,
): Grid {
  const gridKeys = keys.map((key) => (typeof key === 'string' ? { symbol: key } : key));
  const gridCylinders = cylinders.map((c) => (typeof c === 'string' ? { id: c } : c));
  const columns = new Map(gridKeys.map(({ symbol }, k) => [foldSymbol(symbol), k]));
  const rows = new Map(gridCylinders.map(({ id }, c) => [foldSymbol(id), c]));
  const marked = gridCylinders.map(() => new Set<number>());
  for (const { key, cylinder } of marks) {
    const k = columns.get(foldSymbol(key));
    const c = rows.get(foldSymbol(cylinder));
    if (k !== undefined && c !== undefined) marked[c]!.add(k);
  }
  return {
    spec,
    keys: gridKeys,
    cylinders: gridCylinders,
    marks: marked.map((set) => [...set].sort((a, b) => a - b)),
    ...(enters && { enters }),
  };
}

/** Existing records as fixed keys and cylinders of a grid. */
export const fixedKey = ({ symbol, bitting, keyway, cuts }: FixedKey): GridKey => ({
  symbol,
  bitting,
  ...(keyway !== undefined && { keyway }),
  ...(cuts !== undefined && { cuts }),
});
export const fixedCylinder = ({ id, chambers, keyway, control }: FixedCylinder): GridCylinder => ({
  id,
  chambers,
  ...(keyway !== undefined && { keyway }),
  ...(control && { control }),
});

type FixedKey = Pick<KeyRecord, 'symbol' | 'bitting' | 'keyway' | 'cuts'>;
type FixedCylinder = Pick<CylinderRecord, 'id' | 'chambers' | 'keyway' | 'control'>;
