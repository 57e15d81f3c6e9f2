/**
 * What the hierarchy alone says about who opens what: a cylinder's own key, and every key above it. Grids of large
 * systems leave those keys out that say no more than this, and a system without a grid is read so.
 */

interface KeyPlace {
  readonly symbol: string;
  readonly parent?: string | undefined;
}

/** The symbol and all symbols above it, lowest first. A circle of parents ends where it closes. */
export function lineOf(symbol: string, parents: ReadonlyMap<string, string | undefined>): string[] {
  const line: string[] = [];
  for (let s: string | undefined = symbol; s !== undefined && !line.includes(s); s = parents.get(s))
    line.push(s);
  return line;
}

export const parentsOf = (keys: readonly KeyPlace[]): Map<string, string | undefined> =>
  new Map(keys.map((key) => [key.symbol, key.parent]));

/** Symbols of the keys that operate each cylinder by the hierarchy, by cylinder id. */
export function impliedMarks(
  keys: readonly KeyPlace[],
  cylinders: readonly { readonly id: string; readonly symbol: string }[],
): Map<string, ReadonlySet<string>> {
  const parents = parentsOf(keys);
  return new Map(
    cylinders.map(({ id, symbol }) => [id, new Set(lineOf(symbol, parents).filter((s) => parents.has(s)))]),
  );
}
