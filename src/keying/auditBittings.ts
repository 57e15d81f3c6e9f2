/**
 * Bittings of a system that are there twice. Two keys are one cut to cut where their codes are the same, or where
 * blanks of one length carry the same cuts; they clash if blanks of both enter some keyway. Two rows of one symbol
 * clash only if one is out of use and the other is not: then a bitting that is lost would be issued again.
 */
import type { AuditFindings } from './auditFindings.ts';
import { isLive, type AuditInput, type AuditKey } from './auditInput.ts';
import { packBitting } from './bitting.ts';
import { carries, reachOf } from './blankReach.ts';
import { shareKeyway } from './keyways.ts';
import type { Specification } from './specification.ts';
import { foldSymbol } from './system.ts';

/** Finds for each key the first one before it that it clashes with. */
export function checkShared({ spec, keys, enters }: AuditInput, findings: AuditFindings): void {
  const before = new Map<string, number[]>();
  for (const k of suspects(spec, keys)) {
    const key = keys[k]!;
    if (key.status === 'free') continue;
    const names = namesOf(spec, key);
    const clashes = (j: number): boolean =>
      shareKeyway(enters, keys[j]!.keyway, key.keyway) &&
      (!sameSymbol(keys[j]!, key) || reissues(keys[j]!, key));
    const first = Math.min(...names.map((name) => before.get(name)?.find(clashes) ?? Infinity));
    if (first !== Infinity) {
      const other = keys[first]!;
      findings.add(
        sameSymbol(other, key)
          ? { code: 'bitting-reissued', key: key.symbol }
          : { code: 'same-bitting', key: key.symbol, other: other.symbol },
      );
    }
    for (const name of names) {
      const list = before.get(name);
      if (list) list.push(k);
      else before.set(name, [k]);
    }
  }
}

/** Keys that share a code with another, and those on short blanks: nobody else is one with anybody. */
function suspects(spec: Specification, keys: readonly AuditKey[]): number[] {
  const packed = Float64Array.from(keys, ({ bitting }) => packBitting(spec, bitting));
  const sorted = packed.slice().sort();
  const twice = new Set<number>();
  for (let n = 1; n < sorted.length; n++) if (sorted[n] === sorted[n - 1]) twice.add(sorted[n]!);
  const found: number[] = [];
  keys.forEach((key, k) => {
    if (twice.has(packed[k]!) || isShort(key)) found.push(k);
  });
  return found;
}

const isShort = ({ bitting, cuts }: AuditKey): boolean => cuts !== undefined && cuts < bitting.length;

/** Names that keys of one bitting share: the whole code, and on a short blank also what it carries. */
function namesOf(spec: Specification, key: AuditKey): string[] {
  const { bitting, cuts } = key;
  const whole = String(packBitting(spec, bitting));
  if (!isShort(key)) return [whole];
  const reach = reachOf(spec, cuts);
  return [whole, `${cuts}: ${bitting.filter((_, i) => carries(reach, i)).join()}`];
}

const sameSymbol = (a: AuditKey, b: AuditKey): boolean => foldSymbol(a.symbol) === foldSymbol(b.symbol);

const reissues = (a: AuditKey, b: AuditKey): boolean => isLive(a) !== isLive(b);
