/** How counts and lists are written in the pane: as everywhere, and as they are spoken. */

export { counted, grouped } from '../../src/keying/words.ts';

/**
 * A list as it is spoken. @example listed(['AA1', 'AA2', 'A']) → 'AA1, AA2 and A'; listed([]) → 'none'
 */
export function listed(items: readonly string[]): string {
  if (items.length === 0) return 'none';
  if (items.length === 1) return items[0]!;
  return `${items.slice(0, -1).join(', ')} and ${items[items.length - 1]!}`;
}
