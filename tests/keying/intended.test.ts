/** Which keys should operate which cylinder: by the key coding's own words and by plain lists of marks. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { auditInputOf, intendedByHierarchy, intendedByMarks } from '../../src/keying/intended.ts';
import type { KeyRecord } from '../../src/keying/system.ts';
import { cutsOf, plainSpec } from '../support/systems.ts';

const KEYS: readonly Pick<KeyRecord, 'symbol' | 'status' | 'parent'>[] = [
  { symbol: 'A', status: 'issued' },
  { symbol: 'AA', status: 'issued', parent: 'A' },
  { symbol: 'AA1', status: 'issued', parent: 'AA' },
  { symbol: 'AA2', status: 'reserved', parent: ' aa ' },
  { symbol: 'AB', status: 'issued', parent: 'a' },
  { symbol: 'AB1', status: 'issued', parent: 'AB' },
  { symbol: 'AB1', status: 'retired', parent: 'AB' },
  { symbol: 'AA3', status: 'issued', parent: 'AA' },
  { symbol: 'ENG', status: 'issued' },
  { symbol: 'X1X', status: 'issued', parent: 'ENG' },
];
const symbols = (numbers: readonly number[]): string[] =>
  numbers.map((k) => `${KEYS[k]!.symbol}${KEYS[k]!.status === 'retired' ? ' retired' : ''}`);
const of = (symbol: string): string[] => symbols(intendedByHierarchy(KEYS, [{ symbol }])[0]!);

describe('by the hierarchy', () => {
  it.each([
    ['AA1', ['A', 'AA', 'AA1']],
    [' aa2 ', ['A', 'AA', 'AA2']],
    ['AB1', ['A', 'AB', 'AB1']],
    ['AA', ['A', 'AA']],
    ['AA1 (ENG)', ['A', 'AA', 'AA1']],
    ['AA1(ENG)', ['A', 'AA', 'AA1']],
    ['XAA3', ['A', 'AA', 'AA3']],
    ['XAA3 (operated by AB1)', ['A', 'AA', 'AB', 'AB1', 'AA3']],
    ['XAA3 (operated by AB)', ['A', 'AA', 'AB', 'AA3']],
    ['XAB9 (operated by AA1 and AA2)', ['A', 'AA', 'AA1', 'AA2']],
    // a key of that very symbol goes before what the symbol stands for
    ['X1X', ['ENG', 'X1X']],
    ['X1X (operated by AA1)', ['A', 'AA', 'AA1', 'ENG', 'X1X']],
    ['AC1', []],
    ['YAA3', []],
    ['', []],
  ])('%s: %j', (symbol, keys) => {
    expect(of(symbol)).toEqual(keys);
  });

  it('ends where parents run in a ring', () => {
    const ring: typeof KEYS = [
      { symbol: 'A', status: 'issued', parent: 'B' },
      { symbol: 'B', status: 'issued', parent: 'A' },
      { symbol: 'C', status: 'void' },
      { symbol: 'C', status: 'free' },
    ];
    expect(intendedByHierarchy(ring, [{ symbol: 'B' }, { symbol: 'C' }])).toEqual([[0, 1], []]);
  });
});

describe('by marks', () => {
  it('takes every mark whose key and cylinder there are, however they are typed', () => {
    const cylinders = ['C1', 'c2', 'C 3'].map((id) => ({ id }));
    const mark = fc.record({
      key: fc.constantFrom('AA1', 'aa1 ', 'AB1', 'A', 'XAA3 (x)', 'AA2 (ENG)', 'AC9'),
      cylinder: fc.constantFrom('C1', ' c1', 'C2', 'C 3', 'C9'),
    });
    const held: Record<string, number> = { AA1: 2, 'aa1 ': 2, AB1: 5, A: 0, 'XAA3 (x)': 7, 'AA2 (ENG)': 3 };
    fc.assert(
      fc.property(fc.array(mark, { maxLength: 12 }), (marks) => {
        const expected = cylinders.map(({ id }) => {
          const mine = marks.filter((m) => m.cylinder.trim().toUpperCase() === id.toUpperCase());
          const numbers = mine.flatMap((m) => (held[m.key] === undefined ? [] : [held[m.key]!]));
          return [...new Set(numbers)].sort((a, b) => a - b);
        });
        expect(intendedByMarks(KEYS, cylinders, marks)).toEqual(expected);
      }),
    );
  });
});

describe('a whole system', () => {
  const spec = plainSpec({ positions: 5, depths: 6, increment: 0.015, macs: 5 });
  const key = (symbol: string, level: KeyRecord['level'], parent?: string): KeyRecord => ({
    symbol, level, bitting: cutsOf(spec, '01234'), status: 'issued', ...(parent !== undefined && { parent }),
  }); // prettier-ignore
  const system = {
    name: 'x',
    spec,
    keys: [key('AA', 'MK'), key('1AA', 'CK', 'AA'), key('CTR', 'control')],
    cylinders: [{ id: 'C1', symbol: '1AA', chambers: [] }],
  };

  it('goes by its marks where there are any, else by its hierarchy; control keys are told apart', () => {
    const plain = auditInputOf(system);
    expect(plain.intended).toEqual([[0, 1]]);
    expect(plain.keys.map((k) => k.control)).toEqual([undefined, undefined, true]);
    expect(plain).not.toHaveProperty('enters');
    expect(plain.spec).toBe(spec);
    expect(plain.cylinders).toBe(system.cylinders);
    const marks = [{ key: 'CTR', cylinder: 'C1' }];
    expect(auditInputOf(system, marks).intended).toEqual([[2]]);
    expect(auditInputOf(system, []).intended).toEqual([[]]);
    expect(auditInputOf({ ...system, enters: { K1: ['K2'] } }).enters).toEqual({ K1: ['K2'] });
  });
});
