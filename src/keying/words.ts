/** What the tables of words share: their shape, and how numbers and lists are put into a sentence. */

/** One sentence for each code of a union. */
export type Words<F extends { readonly code: string }> = {
  readonly [C in F['code']]: (finding: Extract<F, { readonly code: C }>) => string;
};

/** @example counted(2, 'cut') → '2 cuts' */
export const counted = (n: number, noun: string): string => `${n} ${noun}${n === 1 ? '' : 's'}`;

export const steps = (n: number): string => counted(n, 'step');

export const listed = (items: readonly string[]): string => items.join(', ');
