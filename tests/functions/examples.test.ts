import './office.ts';
import { describe, expect, it } from 'vitest';
import { FUNCTIONS, type FunctionId } from '../../functions/functions.ts';
import { functionDocs } from '../../src/build/functionDocs.ts';
import { parseFormula, parseResult } from '../../src/build/formulaText.ts';

const examples = functionDocs().flatMap((doc) => doc.examples.map((e) => [e.formula, e.result] as const));

describe('the examples of the doc comments', () => {
  it.each(examples)('%s → %s', (formula, result) => {
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
