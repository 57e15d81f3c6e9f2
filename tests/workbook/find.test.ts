/** Look-ups in a reading, and the short words for what was found in it. */
import { describe, expect, it } from 'vitest';
import { findTable, specNamed, systemNamed } from '../../src/workbook/find.ts';
import { labelOf } from '../../src/workbook/findingLabels.ts';
import { bittingProblems, chamberProblems } from '../../src/workbook/problems.ts';
import { bookOf, tableOf, told } from './byHand.ts';
import { SPEC } from './school.ts';

describe('a look-up', () => {
  it('finds by name, in any case', () => {
    const table = tableOf('KeyrowSystems', 'Systems', [['System', 'Spec'], ['Hall', ''], ['Works', '']]); // prettier-ignore
    const book = bookOf(tableOf('KeyrowKeys', 'Keys', [['A']]), table);
    expect(findTable(book.tables, 'KEYROWSYSTEMS')).toBe(table);
    expect(findTable(book.tables, 'Keyrow')).toBeUndefined();
    expect(systemNamed(book, 'works')!.name).toBe('Works');
    expect(systemNamed(book, 'Work')).toBeUndefined();
  });

  it('finds a spec that is sound', () => {
    const at = { sheet: 'Specs', address: 'A5' };
    const other = { ...SPEC, name: 'S-9' };
    const specs = [
      { name: 'S-8', spec: { ...SPEC, name: 'S-8' }, at },
      { name: 'S-9', at },
      { name: 's-9', spec: other, at },
    ];
    expect(specNamed(specs, ' S-9 ')).toBe(other);
    expect(specNamed(specs, 'S-7')).toBeUndefined();
    expect(specNamed([{ name: 'S-9', at }], 'S-9')).toBeUndefined();
  });
});

describe('what was found', () => {
  it('has a short name, or is about a bitting', () => {
    expect(labelOf({ code: 'same-bitting', key: 'A', other: 'B' })).toBe('Same bitting');
    expect(labelOf({ code: 'length', found: 5, expected: 6 })).toBe('Bitting');
  });

  it('is a sentence at its cell, one a fault', () => {
    const at = { sheet: 'Keys', address: 'B5' };
    const length = { code: 'length', found: 5, expected: 6 } as const;
    const problems = bittingProblems(at, [length, { code: 'not-a-code', text: '?' }]);
    expect(problems.map(({ sheet, address, severity }) => `${severity} ${sheet}!${address}`)).toEqual([
      'fault Keys!B5',
      'fault Keys!B5',
    ]);
    expect(problems[1]!.sentence).toContain('?');
    expect(told(chamberProblems(at, [{ code: 'chamber-blank' }]))).toEqual([
      'fault Keys!B5 The cell is blank; write any for an empty chamber.',
    ]);
  });
});
