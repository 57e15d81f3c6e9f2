/** Keys that one index can serve together: of one keyway, with cuts at the same chambers. */
import type { AuditInput, AuditKey } from './auditInput.ts';
import { keyIndexOf, type IndexedKey, type KeyIndex } from './keyIndex.ts';
import { foldKeyway } from './keyways.ts';
import { positions } from './specification.ts';

export interface KeyClass {
  /** As `foldKeyway` gives it; blank = the system's only one. */
  readonly keyway: string;
  /** Cuts on the blanks. */
  readonly cuts: number;
  /** Numbers of its keys. */
  readonly members: readonly number[];
  readonly index: KeyIndex;
}

/** The classes of an audit's keys. A free bitting has no key and is in none. */
export function keyClassesOf({ spec, keys }: Pick<AuditInput, 'spec' | 'keys'>): KeyClass[] {
  const most = positions(spec);
  const groups = new Map<string, Group>();
  // Most keys are of the class of the key before them.
  let last: { readonly key: Pick<AuditKey, 'keyway' | 'cuts'>; readonly group: Group } | undefined;
  keys.forEach((key, number) => {
    if (key.status === 'free') return;
    if (!last || last.key.keyway !== key.keyway || last.key.cuts !== key.cuts) {
      const keyway = foldKeyway(key.keyway);
      const cuts = Math.min(key.cuts ?? most, most);
      const name = `${cuts} ${keyway}`;
      const group = groups.get(name) ?? { keyway, cuts, keys: [] };
      groups.set(name, group);
      last = { key, group };
    }
    last.group.keys.push({ number, cuts: key.bitting });
  });
  return [...groups.values()].map(({ keyway, cuts, keys: members }) => ({
    keyway,
    cuts,
    members: members.map(({ number }) => number),
    index: keyIndexOf(spec, cuts, members),
  }));
}

interface Group {
  readonly keyway: string;
  readonly cuts: number;
  readonly keys: IndexedKey[];
}
