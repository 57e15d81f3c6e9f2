/** How counts are written in pictures and their text twins: thousands grouped, plurals spelt out. */

const grouping = new Intl.NumberFormat('en-US');

/** @example grouped(4096) → '4,096' */
export const grouped = (n: number): string => grouping.format(n);

/** @example counted(1, 'key') → '1 key'; counted(1204, 'key') → '1,204 keys' */
export const counted = (n: number, one: string, many = `${one}s`): string =>
  `${grouped(n)} ${n === 1 ? one : many}`;

/**
 * A list as it is spoken. @example listed(['AA1', 'AA2', 'A']) → 'AA1, AA2 and A'; listed([]) → 'none'
 */
export function listed(items: readonly string[]): string {
  if (items.length === 0) return 'none';
  if (items.length === 1) return items[0]!;
  return `${items.slice(0, -1).join(', ')} and ${items[items.length - 1]!}`;
}
