import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { codeOf } from '../../src/workbook/formulaCode.ts';

/** The same as a pattern: plain, and as slow as the square of the length. */
const plainly = (formula: string): string =>
  formula.replace(/'[^']*(?:''[^']*)*'(?=!)|"[^"]*(?:"|$)/g, (part) => (part.startsWith("'") ? part : '""'));

describe('codeOf', () => {
  it.each([
    ['=Keys!A1', '=Keys!A1'],
    ['="Keys!A1"&B2', '=""&B2'],
    ['="a ""b"" c"&B2', '=""""""&B2'],
    [`='My "locks"'!A1&"x"`, `='My "locks"'!A1&""`],
    [`='Owner''s "own"'!A1`, `='Owner''s "own"'!A1`],
    [`=[a'#b]&"x'y"&Keys!A1`, `=[a'#b]&""&Keys!A1`],
    ['="never ended', '=""'],
    ['', ''],
  ])('of %s leaves its texts out', (formula, code) => {
    expect(codeOf(formula)).toBe(code);
  });

  it('does as the pattern does', () => {
    const formulas = fc
      .array(fc.constantFrom("'", '"', '!', 'K', '=', ' '), { maxLength: 24 })
      .map((parts) => parts.join(''));
    fc.assert(
      fc.property(formulas, (formula) => {
        expect(codeOf(formula)).toBe(plainly(formula));
      }),
      { numRuns: 3_000 },
    );
  });
});
