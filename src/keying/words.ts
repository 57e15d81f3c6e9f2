/** What the tables of words share: their shape, and how numbers and lists are put into a sentence. */

/** One sentence for each code of a union. */
export type Words<F extends { readonly code: string }> = {
  readonly [C in F['code']]: (finding: Extract<F, { readonly code: C }>) => string;
};

const grouping = new Intl.NumberFormat('en-US');

/** Thousands grouped. @example grouped(4096) → '4,096' */
export const grouped = (n: number): string => grouping.format(n);

/** @example counted(1, 'key') → '1 key'; counted(1204, 'key') → '1,204 keys' */
export const counted = (n: number, one: string, many = `${one}s`): string =>
  `${grouped(n)} ${n === 1 ? one : many}`;

export const steps = (n: number): string => counted(n, 'step');

export const listed = (items: readonly string[]): string => items.join(', ');

/** A sentence of more characters than this quotes something that nobody reads to its end. */
const READABLE = 400;
const TOO_LONG = 1_000;

/**
 * A sentence for reading: a cell holds up to 32,767 characters, and what it quotes of one is cut where it is long.
 * @example brief(`“${'x'.repeat(5000)}” is not a code; …`) → '“xxx…” is not a code; …'
 */
export function brief(sentence: string): string {
  if (sentence.length <= READABLE) return sentence;
  const cut = sentence.replace(/“([^“”]{60})[^“”]+”/gu, '“$1…”');
  if (cut.length <= TOO_LONG) return cut;
  // whole letters, and at the end whole words where there are any
  const head = [...cut.slice(0, TOO_LONG)].slice(0, -1).join('');
  const tail = [...cut.slice(-200)].slice(1).join('');
  return `${head}… ${tail.replace(/^\S*\s/, '')}`;
}
