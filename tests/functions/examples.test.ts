import './office.ts';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { FUNCTIONS, type FunctionId } from '../../functions/functions.ts';
import { functionDocs } from '../../src/build/functionDocs.ts';
import { parseFormula, parseResult } from '../../src/build/formulaText.ts';

const examples = functionDocs().flatMap((doc) => doc.examples.map((e) => [e.formula, e.result] as const));

/** Formulas of the README that state their result. */
const readme = [...readFileSync('README.md', 'utf8').matchAll(/^(=KEYROW\.\S+)\s+→ (\S+)/gm)].map(
  ([, formula, result]) => [formula!, result!] as const,
);

describe('the examples of the doc comments', () => {
  it('finds those of the README', () => expect(readme.length).toBeGreaterThanOrEqual(3));

  it.each(examples)('%s → %s', (formula, result) => {
    const { id, args } = parseFormula(formula);
    const run = FUNCTIONS[id as FunctionId] as (...args: unknown[]) => unknown;
    expect(run(...args)).toEqual(parseResult(result));
  });

  it.each(readme)('README: %s → %s', (formula, result) => {
    const { id, args } = parseFormula(formula);
    const run = FUNCTIONS[id as FunctionId] as (...args: unknown[]) => unknown;
    expect(run(...args)).toEqual(parseResult(result));
  });

  it('covers every function', () => {
    expect([...new Set(examples.map(([formula]) => parseFormula(formula).id))].sort()).toEqual(
      Object.keys(FUNCTIONS).sort(),
    );
  });
});
