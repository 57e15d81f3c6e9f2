/**
 * Keeping bittings out of what leaves the shop. A report without a bitting column may still give one away: somebody
 * typed it into a remark, or used it as the key's name. So every text that goes out is compared with all bittings of
 * the workbook, whatever stands between their digits.
 */

/** Shorter ones would be found in any door number. */
const SHORTEST = 4;

const plain = (text: string): string => text.normalize('NFKC').toUpperCase();

/** Bittings made ready to be looked for. */
export interface Secrets {
  readonly codes: ReadonlySet<string>;
  readonly lengths: readonly number[];
}

/** @example secretsOf(['2-7-4-1-5-3']).codes → {'274153'} */
export function secretsOf(bittings: Iterable<string>): Secrets {
  const codes = new Set<string>();
  for (const bitting of bittings) {
    const code = plain(bitting).replace(/[^0-9A-Z]/g, '');
    if (code.length >= SHORTEST) codes.add(code);
  }
  return { codes, lengths: [...new Set([...codes].map((code) => code.length))] };
}

/**
 * Whether a text gives a bitting away, in one piece or with separators between its cuts.
 * @example givesAway(secretsOf(['274153']), 'old code 2-7-4-1-5-3') → true
 */
export function givesAway(secrets: Secrets, text: string): boolean {
  if (secrets.codes.size === 0) return false;
  const code = plain(text).replace(/[^0-9A-Z]/g, '');
  return secrets.lengths.some((length) => {
    for (let i = 0; i + length <= code.length; i++)
      if (secrets.codes.has(code.slice(i, i + length))) return true;
    return false;
  });
}
