/** The specs that a person can choose from: those of the workbook first, then the starters not yet in it. */
import type { BookReading } from '../../src/workbook/index.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { foldName } from '../../src/keying/specTable.ts';
import { STARTER_SPECS } from '../../src/keying/starters.ts';

export interface SpecChoices {
  readonly own: readonly Specification[];
  readonly starters: readonly Specification[];
}

export function specChoices(book: Pick<BookReading, 'specs'> | undefined): SpecChoices {
  const own = (book?.specs ?? []).flatMap((s) => (s.spec ? [s.spec] : []));
  const names = new Set(own.map((s) => foldName(s.name)));
  return { own, starters: STARTER_SPECS.filter((s) => !names.has(foldName(s.name))) };
}

/** The choice of that name, else the first one. */
export function chosenSpec({ own, starters }: SpecChoices, name: string | undefined): Specification {
  const all = [...own, ...starters];
  const folded = foldName(name ?? '');
  return all.find((s) => foldName(s.name) === folded) ?? all[0]!;
}
