/** Words for the ways to cross-key a door and for what each does. */
import type { CrossKeyingAlternative, CrossKeyingCost } from '../../src/keying/grid/index.ts';
import { listed } from '../pictures/numbers.ts';

/** @example wayLabel({ kind: 'empty-chamber', chambers: [3], … }) → 'Chamber 3 left empty' */
export function wayLabel({ kind, chambers }: Pick<CrossKeyingAlternative, 'kind' | 'chambers'>): string {
  const names = `${chambers.length === 1 ? 'Chamber' : 'Chambers'} ${listed(chambers.map(String))}`;
  return kind === 'empty-chamber' ? `${names} left empty` : `${names} kept constant`;
}

/** What the trade calls it, and what to mind. */
export function controlSentence(control: CrossKeyingCost['control']): string {
  switch (control) {
    case 'controlled':
      return 'Controlled: all its keys stand under the same master.';
    case 'uncontrolled':
      return 'Uncontrolled: the keys stand under different masters. Each such door costs the system bittings for good, and makes it easier to open by chance. Do it only where nothing else serves, and record it.';
    case 'unknown':
      return 'Whether it is controlled can’t be told: the keys’ places in the system aren’t known.';
  }
}

const MOST_NAMES = 12;

/** @example gainSentence([], 'Store') → 'Nobody else gets in.' */
export function gainSentence(getIn: readonly string[], door: string): string {
  if (getIn.length === 0) return 'No other listed key gets in.';
  const names =
    getIn.length > MOST_NAMES
      ? `${getIn.slice(0, MOST_NAMES).join(', ')} and ${getIn.length - MOST_NAMES} more`
      : listed(getIn);
  return `${names} would open ${door} too, and should not.`;
}
