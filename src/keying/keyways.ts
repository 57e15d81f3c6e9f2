/**
 * Keyways: which blank enters which cylinder. Names are one whatever their case and the spaces around them; a blank
 * name means the system's only keyway. A blank may enter keyways besides its own, by the shop's table of blanks.
 */

/** Keyways that a blank enters besides its own, by the blank's keyway. */
export type Entering = Readonly<Record<string, readonly string[]>>;

/** A keyway by the name that comparisons use. @example foldKeyway(' k1 ') → 'K1' */
export const foldKeyway = (keyway: string | undefined): string => (keyway ?? '').trim().toUpperCase();

/** Made once for a table, since an audit asks for each keyway and cylinder. */
const folded = new WeakMap<Entering, ReadonlyMap<string, ReadonlySet<string>>>();

function reachedFrom(others: Entering | undefined, own: string): ReadonlySet<string> {
  if (!others) return NOWHERE;
  let table = folded.get(others);
  if (!table) {
    const made = new Map<string, Set<string>>();
    for (const [blank, keyways] of Object.entries(others)) {
      const reached = made.get(foldKeyway(blank)) ?? new Set();
      for (const keyway of keyways) reached.add(foldKeyway(keyway));
      made.set(foldKeyway(blank), reached);
    }
    table = made;
    folded.set(others, table);
  }
  return table.get(own) ?? NOWHERE;
}

const NOWHERE: ReadonlySet<string> = new Set();

/**
 * Whether a blank of a keyway enters a cylinder. Without a keyway on either side there is only one.
 * @example entersKeyway({ K1: ['K2'] }, 'k1', 'K2') → true; the other way round → false
 */
export function entersKeyway(
  others: Entering | undefined,
  blank: string | undefined,
  cylinder: string | undefined,
): boolean {
  const from = foldKeyway(blank);
  const to = foldKeyway(cylinder);
  return from === '' || to === '' || from === to || reachedFrom(others, from).has(to);
}

/** Whether there is a keyway that blanks of both enter, so that two keys could meet in one cylinder. */
export function shareKeyway(
  others: Entering | undefined,
  a: string | undefined,
  b: string | undefined,
): boolean {
  if (entersKeyway(others, a, b) || entersKeyway(others, b, a)) return true;
  const reached = reachedFrom(others, foldKeyway(b));
  return [...reachedFrom(others, foldKeyway(a))].some((keyway) => reached.has(keyway));
}
