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
