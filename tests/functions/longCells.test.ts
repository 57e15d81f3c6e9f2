/**
 * Full cells given to worksheet functions. A cell holds 32,767 characters by Excel's page of specifications and limits; a
 * function whose answer is longer shows #VALUE! without a word, so no answer may be.
 */
import './office.ts';
import '../../functions/index.ts';
import { describe, expect, it } from 'vitest';
import { FUNCTIONS } from '../../functions/functions.ts';
import { functionDocs } from '../../src/build/functionDocs.ts';
import { specsRange } from './tables.ts';

const MOST = 32_767;
const FILLINGS = ['1', 'l', '2-', 'AA1 ', ' ', '"', '“', '”x', '(', '\u0301', '\u{1F511}', '0=0.3; ', 'any '];
const RANGES = ['codes', 'chambers', 'readings'];

/** A good argument of the name. */
function usual(name: string): unknown {
  if (name === 'spec') return 'S-018-6';
  if (name === 'specs' || name === 'unit' || name === 'part') return undefined;
  if (RANGES.includes(name)) return [['274153'], ['354635'], ['2 6'], ['any'], ['0'], ['1']];
  return ['unique', 'cuttable'].includes(name) ? true : '274153';
}

/** The same with a cell filled to the brim. */
function filled(name: string, text: string): unknown {
  if (RANGES.includes(name)) return [[text], ...(usual(name) as unknown[][]).slice(1)];
  if (name !== 'specs') return text;
  const [header, row] = specsRange();
  return [header, row!.map((cell, c) => (c === 1 ? text : cell))];
}

const lengthOf = (value: unknown): number =>
  value instanceof CustomFunctions.Error ? (value.message ?? '').length : String(value).length;

describe.each(functionDocs().map((doc) => [doc.id, doc] as const))('%s and full cells', (id, doc) => {
  const run = FUNCTIONS[id as keyof typeof FUNCTIONS] as (...given: unknown[]) => unknown;
  it.each(doc.parameters.map(({ name }) => name))('in %s: an answer that a cell holds', (name) => {
    for (const filling of FILLINGS) {
      const text = filling.repeat(Math.floor(MOST / filling.length));
      let answer: unknown;
      try {
        answer = run(...doc.parameters.map((p) => (p.name === name ? filled(name, text) : usual(p.name))));
      } catch (error) {
        expect(error).toBeInstanceOf(CustomFunctions.Error);
        answer = error;
        // a sentence that is read in a balloon beside the cell
        expect(lengthOf(error), filling).toBeLessThan(1_500);
      }
      const cells = Array.isArray(answer) ? answer.flat() : [answer];
      expect(Math.max(...cells.map(lengthOf)), filling).toBeLessThanOrEqual(MOST);
    }
  });
});
