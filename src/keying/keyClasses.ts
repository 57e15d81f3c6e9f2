/** Keys that one index can serve together: of one keyway, with cuts at the same chambers. */
import type { AuditInput } from './auditInput.ts';
import { keyIndexOf, type IndexedKey, type KeyIndex } from './keyIndex.ts';
import { foldKeyway } from './keyways.ts';
import { positions } from './specification.ts';

export interface KeyClass {
  /** As `foldKeyway` gives it; blank = the system's only one. */
  readonly keyway: string;
  readonly index: KeyIndex;
}

/** The classes of an audit's keys. A free bitting has no key and is in none. */
export function keyClassesOf({ spec, keys }: Pick<AuditInput, 'spec' | 'keys'>): KeyClass[] {
  const groups = new Map<string, { keyway: string; cuts: number; keys: IndexedKey[] }>();
  keys.forEach((key, number) => {
    if (key.status === 'free') return;
    const keyway = foldKeyway(key.keyway);
    const cuts = Math.min(key.cuts ?? positions(spec), positions(spec));
    const name = `${cuts} ${keyway}`;
    const group = groups.get(name) ?? { keyway, cuts, keys: [] };
    group.keys.push({ number, cuts: key.bitting });
    groups.set(name, group);
  });
  return [...groups.values()].map(({ keyway, cuts, keys: members }) => ({
    keyway,
    index: keyIndexOf(spec, cuts, members),
  }));
}
