/** Lengths where a column has little room. */

/** Width of a tabular digit at 11 px, and what keeps two numbers apart. */
const DIGIT = 6.2;
const APART = 3;

export const fits = (texts: readonly string[], room: number): boolean =>
  texts.every((text) => text.length * DIGIT + APART <= room);

/**
 * As they are where all of them fit, else without the zero before the point, as shops write them: all or none, so
 * that a row reads alike. @example fitNumbers(['0.3055', '0.318'], 36) → ['.3055', '.318']
 */
export const fitNumbers = (texts: readonly string[], room: number): readonly string[] =>
  fits(texts, room) ? texts : texts.map((text) => text.replace(/^(-?)0\./, '$1.'));
