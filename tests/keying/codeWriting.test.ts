/** The ways in which codes are written: letters, symbols of two characters, numbers of cells. Common practice. */
import { describe, expect, it } from 'vitest';
import { formatBitting, parseBitting, type Specification } from '../../src/keying/index.ts';
import { starter } from '../support/keys.ts';

const six = starter('S-018-6');
const withSymbols = (symbols: readonly string[]): Specification => ({
  ...six,
  depths: six.depths.slice(0, symbols.length).map((d, i) => ({ ...d, symbol: symbols[i]! })),
});
const read = (spec: Specification, input: string | number) => {
  const parsed = parseBitting(spec, input);
  return parsed.ok ? parsed.value : parsed.error;
};

describe('symbols of one character', () => {
  it('are read in full: the first depth, letters in either case, and signs that are none', () => {
    expect(read(six, '000000')).toEqual([0, 0, 0, 0, 0, 0]);
    const lower = withSymbols(['a', 'B', 'c']);
    expect(read(lower, 'AbCabc')).toEqual([0, 1, 2, 0, 1, 2]);
    expect(read(lower, 'A-b-C-a-b-c')).toEqual([0, 1, 2, 0, 1, 2]);
    expect(read(six, '27415é')).toEqual([{ code: 'not-a-code', text: '27415é' }]);
  });

  it('may be set apart by any of the usual signs, but not by others', () => {
    for (const sign of [' ', ',', ';', ':', '.', '/', '|', '_', '–', '—', '-'])
      expect(read(six, [...'274153'].join(sign))).toEqual([2, 7, 4, 1, 5, 3]);
    expect(read(six, '2+7')).toEqual([{ code: 'not-a-code', text: '2+7' }]);
    expect(read(six, '!274153')).toEqual([{ code: 'not-a-code', text: '!274153' }]);
    expect(read(six, '!2 74153')).toEqual([{ code: 'not-a-code', text: '!2 74153' }]);
  });

  it('lose zeros only where every sign is a digit', () => {
    expect(read(six, '4153')).toEqual([{ code: 'lost-zero', found: 4, expected: 6, suggestion: '004153' }]);
    expect(read(six, 41_530)).toEqual([{ code: 'lost-zero', found: 5, expected: 6, suggestion: '041530' }]);
    expect(read(six, 'x4153')).toMatchObject([
      { code: 'length', found: 5, expected: 6 },
      { code: 'unknown-depth', symbol: 'x', at: 1 },
    ]);
    expect(read(six, '4153x')).toMatchObject([
      { code: 'length', found: 5, expected: 6 },
      { code: 'unknown-depth', symbol: 'x', at: 5 },
    ]);
  });

  it('come as numbers from cells, but as whole ones within what a cell holds', () => {
    const one: Specification = { ...six, centres: six.centres.slice(0, 1) };
    expect(read(one, 0)).toEqual([0]);
    for (const n of [-274153, 1.5, 2 ** 60, Infinity])
      expect(read(six, n)).toEqual([{ code: 'not-a-code', text: String(n) }]);
  });
});

describe('symbols of two characters', () => {
  const ten = withSymbols(['10', '11', '12', '20']);

  it('are read with separators or run together', () => {
    for (const text of ['10-11-12-20-10-11', '10 11 12 20 10 11', '101112201011'])
      expect(read(ten, text)).toEqual([0, 1, 2, 3, 0, 1]);
    expect(formatBitting(ten, [0, 1, 2, 3, 0, 1])).toBe('10-11-12-20-10-11');
  });

  it('are one unknown symbol where the count of characters is odd', () => {
    expect(read(ten, '101')).toMatchObject([
      { code: 'length', found: 1, expected: 6 },
      { code: 'unknown-depth', symbol: '101', at: 1 },
    ]);
  });

  it('never lost a zero: a bare number could be anything', () => {
    const zero = withSymbols(['0', '10', '20']);
    expect(read(zero, '10-20-10-20')).toEqual([{ code: 'length', found: 4, expected: 6 }]);
    expect(read(zero, '0-10-20-0-10-20')).toEqual([0, 1, 2, 0, 1, 2]);
  });

  it('and an index that is no depth is shown as a question mark', () => {
    expect(formatBitting(six, [0, 99])).toBe('0?');
  });
});
