/**
 * Input that nobody should type, for fuzzing: names of object prototypes, control and bidirectional characters, lone
 * surrogates, full-width digits, formulas, enormous cells, and numbers at the edges of what a number can hold.
 */
import fc from 'fast-check';

/**
 * How many inputs each function gets: few in every test run; KEYROW_FUZZ gives the total over a file's functions for a
 * long one, as in `KEYROW_FUZZ=1000000 npx vitest run tests/fuzz`.
 */
export function runsFor(functions: number, usual: number): number {
  const total = Number(process.env['KEYROW_FUZZ'] ?? '');
  return total > 0 ? Math.ceil(total / functions) : usual;
}

/** A call that takes longer than this, in milliseconds, counts as a hang. */
export const HANG = 3_000;

const WORDS = [
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  'prototype',
  'NaN',
  'Infinity',
  '-0',
  '1e308',
  '0x1F',
  'null',
  'undefined',
  'TRUE',
  '#REF!',
  '=1+1',
  '+1',
  '-1',
  '@SUM(A1)',
  '\t274153',
  '\r\n',
  '<img src=x onerror=alert(1)>',
  "'; DROP TABLE keys; --",
  '２７４１５３',
  '\u0662\u0667\u0664',
  '\u202E351472',
  '\u200F\u200E',
  '\uFEFF274153',
  '\uD800',
  '\uDC00x',
  'a\u0301\u0301\u0301',
  '𝟚𝟟𝟜',
  'ﬀ',
  'İ',
  '274153',
  '2-7-4-1-5-3',
  '027415',
  '27415O',
  '0.237 in',
  '6,02mm',
  '1-2-3',
  'AA1',
  'XAA3 (operated by AA1, AA2)',
  'any',
  'S-018-6',
  '2026-03-14',
  '3/4/2026',
];

/** Up to a full cell of Excel's (32,767 characters), and made of what trips regular expressions up: repeats. */
const enormous: fc.Arbitrary<string> = fc
  .tuple(
    fc.constantFrom(
      '0',
      '1',
      'A',
      ' ',
      '\t',
      ',',
      '"',
      '-',
      '2-',
      '(',
      'T ',
      '\u00A0',
      '/',
      ';',
      '０',
      '\uD800',
    ),
    fc.constantFrom(1_000, 32_767),
    fc.constantFrom('', 'x', '!', '"', ')'),
  )
  .map(([part, length, end]) => part.repeat(Math.ceil(length / part.length)) + end);

export const text: fc.Arbitrary<string> = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(...WORDS) },
  { weight: 4, arbitrary: fc.string({ unit: 'binary', maxLength: 20 }) },
  { weight: 4, arbitrary: fc.stringMatching(/^[0-9 .,;:/|_-]{0,12}$/) },
  {
    weight: 2,
    arbitrary: fc.tuple(fc.constantFrom(...WORDS), fc.constantFrom(...WORDS)).map((two) => two.join(' ')),
  },
  { weight: 1, arbitrary: enormous },
);

/** Numbers that a cell can hold, and those that it can't. */
export const number: fc.Arbitrary<number> = fc.oneof(
  fc.constantFrom(-0, 0, -1, 0.5, 1e308, -1e308, 5e-324, 2 ** 53, 2 ** 31, NaN, Infinity, -Infinity, 274153),
  // lengths of the trade, and far smaller ones
  fc.constantFrom(0.261, 0.0125, 1e-4, 1e-7, 1e-9, 25.4, 39),
  fc.integer({ min: -3, max: 999_999 }),
  fc.double(),
);

/** Numbers as a parser in the sheet's room hands them over: never NaN or infinite. */
export const finite: fc.Arbitrary<number> = number.filter(Number.isFinite);

/** Every number in an answer is a number. Walks a limited number of parts, so that a long answer is no long wait. */
export function badNumber(answer: unknown): string | undefined {
  const seen = new Set<object>();
  let left = 20_000;
  const walk = (value: unknown, path: string): string | undefined => {
    if (typeof value === 'number') return Number.isFinite(value) ? undefined : `${path} is ${value}`;
    if (typeof value !== 'object' || value === null || seen.has(value) || left-- <= 0) return undefined;
    seen.add(value);
    const parts: Iterable<readonly [unknown, unknown]> =
      value instanceof Map ? value : value instanceof Set ? [...value].entries() : Object.entries(value);
    for (const [name, part] of parts) {
      const found = walk(part, `${path}.${String(name)}`);
      if (found !== undefined) return found;
    }
    return undefined;
  };
  return walk(answer, 'the answer');
}

/**
 * Runs a call and says how long it took, in milliseconds of processor time: a busy machine must not make a hang out of
 * a wait for the processor.
 */
export function timed<T>(call: () => T): { readonly value: T; readonly took: number } {
  const start = process.cpuUsage();
  const value = call();
  const { user, system } = process.cpuUsage(start);
  return { value, took: (user + system) / 1_000 };
}
