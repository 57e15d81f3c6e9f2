/**
 * Which keys should operate which cylinder, as an audit takes it: from the hierarchy (a cylinder's own key and all
 * keys above it) or from the marks of a key-by-door grid.
 */
import type { AuditInput, AuditKey } from './auditInput.ts';
import { parseKeySymbol } from './symbol.ts';
import { foldSymbol, withoutAside, type KeyRecord, type KeySystem } from './system.ts';

/** Numbers of the keys that carry each symbol now: lost, void and free bittings are nobody's. */
function holders(keys: readonly Pick<KeyRecord, 'symbol' | 'status'>[]): Map<string, number[]> {
  const found = new Map<string, number[]>();
  keys.forEach(({ symbol, status }, k) => {
    if (status !== 'issued' && status !== 'reserved') return;
    const name = foldSymbol(symbol);
    const list = found.get(name);
    if (list) list.push(k);
    else found.set(name, [k]);
  });
  return found;
}

/** `XAA3 (…)` stands for AA3, `AA1 (ENG)` for AA1; any other symbol for itself. */
function ownSymbol(symbol: string, known: ReadonlyMap<string, unknown>): string {
  const name = foldSymbol(symbol);
  if (known.has(name)) return name;
  const bare = withoutAside(name);
  return !known.has(bare) && bare.startsWith('X') && known.has(bare.slice(1)) ? bare.slice(1) : bare;
}

/**
 * From the hierarchy: each cylinder's own key and every key above it. Keys that a cross-keyed symbol names
 * (`X1X (operated by AA1 and AA2)`) count too, with those above them.
 * @example a cylinder keyed to AA1 → the numbers of AA1, AA and A
 */
export function intendedByHierarchy(
  keys: readonly Pick<KeyRecord, 'symbol' | 'status' | 'parent'>[],
  cylinders: readonly { readonly symbol: string }[],
): number[][] {
  const known = holders(keys);
  const parentOf = new Map<string, string>();
  for (const { symbol, parent } of keys)
    if (parent !== undefined) parentOf.set(foldSymbol(symbol), foldSymbol(parent));
  return cylinders.map(({ symbol }) => {
    const parsed = parseKeySymbol(symbol);
    const named =
      parsed.ok && (parsed.value.kind === 'cross-keyed' || parsed.value.kind === 'cross-keyed-only')
        ? (parsed.value.operatedBy ?? [])
        : [];
    const found = new Set<number>();
    for (const start of [symbol, ...named]) {
      const seen = new Set<string>();
      let at: string | undefined = ownSymbol(start, known);
      while (at !== undefined && !seen.has(at)) {
        seen.add(at);
        for (const k of known.get(at) ?? []) found.add(k);
        at = parentOf.get(at);
      }
    }
    return [...found].sort((a, b) => a - b);
  });
}

/** A key that must operate a cylinder, by symbol and cylinder id. */
export interface Mark {
  readonly key: string;
  readonly cylinder: string;
}

/** From marks: for each cylinder the numbers of its keys; marks without a key or a cylinder are passed over. */
export function intendedByMarks(
  keys: readonly Pick<KeyRecord, 'symbol' | 'status'>[],
  cylinders: readonly { readonly id: string }[],
  marks: Iterable<Mark>,
): number[][] {
  const known = holders(keys);
  const rows = new Map(cylinders.map(({ id }, c) => [foldSymbol(id), c]));
  const intended: Set<number>[] = cylinders.map(() => new Set());
  for (const { key, cylinder } of marks) {
    const c = rows.get(foldSymbol(cylinder));
    if (c !== undefined) for (const k of known.get(ownSymbol(key, known)) ?? []) intended[c]!.add(k);
  }
  return intended.map((set) => [...set].sort((a, b) => a - b));
}

/**
 * A whole system as an audit takes it. With marks those count; without,
 * the hierarchy does, and control keys are left to the cores' own control cuts.
 */
export function auditInputOf(system: KeySystem, marks?: Iterable<Mark>): AuditInput {
  const keys = system.keys.map((key): AuditKey =>
    key.level === 'control' ? { ...key, control: true } : key,
  );
  return {
    spec: system.spec,
    keys,
    cylinders: system.cylinders,
    intended: marks
      ? intendedByMarks(system.keys, system.cylinders, marks)
      : intendedByHierarchy(system.keys, system.cylinders),
    ...(system.enters && { enters: system.enters }),
  };
}
