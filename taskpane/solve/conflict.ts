/** The conflicting keys and doors of a proof in plain words, each with its cell. */
import type { Impossible, ProofReason } from '../../src/keying/grid/index.ts';
import { listed } from '../pictures/numbers.ts';
import type { FaultLine } from '../shared/FaultList.tsx';
import type { Places } from './UnsolvedView.tsx';

const MOST_NAMES = 8;

const some = (names: readonly string[]): string =>
  names.length > MOST_NAMES
    ? `${names.slice(0, MOST_NAMES).join(', ')} and ${names.length - MOST_NAMES} more`
    : listed(names);

/** @example 'Store must open for K2 and K3, and stay shut for K1.' at the store's row */
export function conflictLines(
  { keys, cylinders }: Pick<Impossible, 'keys' | 'cylinders'>,
  places: Places,
): FaultLine[] {
  if (cylinders.length === 0)
    return keys.map((key) => {
      const at = places.keyAt(key);
      return { severity: 'fault', sentence: `Key ${key}.`, ...(at && { at }) };
    });
  return cylinders.map((id): FaultLine => {
    const inside = keys.filter((key) => places.isMarked(key, id));
    const outside = keys.filter((key) => !places.isMarked(key, id));
    // one key at one door: that is one cell
    const at = (keys.length === 1 ? places.crossing(keys[0]!, id) : undefined) ?? places.cylinderAt(id);
    const must = inside.length > 0 ? `must open for ${some(inside)}` : '';
    const mustNot = outside.length > 0 ? `${must ? 'and stay' : 'must stay'} shut for ${some(outside)}` : '';
    return {
      severity: 'fault',
      sentence: `${places.nameOf(id)} ${[must, mustNot].filter(Boolean).join(', ')}.`,
      ...(at && { at }),
    };
  });
}

/** Reasons that name where a conflict shows, not all that makes it. */
const PLACES_ONLY: ReadonlySet<ProofReason['code']> = new Set(['no-bitting-for-key', 'too-many-on-door']);

/** How much of what makes a conflict the keys and doors named are. */
export function extentOf({ reason, minimal }: Pick<Impossible, 'reason' | 'minimal'>): string {
  if (PLACES_ONLY.has(reason.code))
    return 'It shows at these; what other keys and doors ask for may have a part in it.';
  return minimal
    ? 'Each of these is needed for the conflict: change one mark among them and it may be gone.'
    : 'A smaller set may be in conflict already; these are enough.';
}
