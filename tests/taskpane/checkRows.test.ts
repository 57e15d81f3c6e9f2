import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { starterSpec } from '../../src/keying/starters.ts';
import { DEFAULT_RULES, NO_RULES } from '../../src/keying/rules.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { checkRows, guessCodeColumn, type CheckReport } from '../../taskpane/check/checkRows.ts';
import { checkSentence, reasonLine } from '../../taskpane/check/reasons.ts';

const spec = starterSpec('S-018-6')!;
const check = (values: readonly (string | number | boolean)[], rules = DEFAULT_RULES): CheckReport =>
  runToEnd(checkRows({ spec, rules, cells: values.map((value, i) => ({ name: `row ${i + 2}`, value })) }));

describe('checkRows', () => {
  it('sorts a column into good, faulty and empty', () => {
    // by hand, MACS 5 on depths 0–9: 2 to 8 in 128345 is 6 steps
    const report = check(['274153', '', '128345', '27415', 'hello there!', true, '274153'], {
      ...NO_RULES,
      macs: true,
      duplicate: true,
    });
    expect(report).toMatchObject({ codes: 6, good: 0, faulty: 6, warned: 0, empty: 1 });
    expect(report.found.map((f) => [f.index, f.findings.map((x) => x.code)])).toEqual([
      [0, ['duplicate']],
      [2, ['macs']],
      [3, ['lost-zero']],
      [4, ['not-a-code']],
      [5, ['not-a-code']],
      [6, ['duplicate']],
    ]);
    expect(new Map(report.reasons.map((r) => [r.code, r.cells]))).toEqual(
      new Map([
        ['duplicate', 2],
        ['not-a-code', 2],
        ['macs', 1],
        ['lost-zero', 1],
      ]),
    );
  });

  it('names the other row of a duplicate', () => {
    const report = check(['274153', '416352', '274153']);
    expect(report.found.find((f) => f.index === 0)?.findings).toContainEqual({
      code: 'duplicate',
      of: 'row 4',
    });
  });

  it('counts a row with only a warning as warned', () => {
    const report = check(['274153', '987654']);
    expect(report.warned + report.faulty + report.good).toBe(2);
    // 9-8-7-6-5-4 gets shallower all along
    expect(report.found.find((f) => f.index === 1)?.findings.map((f) => f.code)).toEqual(['stair']);
    expect(report.warned).toBe(1);
  });

  it('accounts for every cell whatever stands in it', () => {
    const cell = fc.oneof(fc.string({ maxLength: 8 }), fc.integer({ min: 0, max: 999999 }), fc.boolean());
    fc.assert(
      fc.property(fc.array(cell, { maxLength: 30 }), (values) => {
        const report = check(values);
        expect(report.good + report.warned + report.faulty).toBe(report.codes);
        expect(report.codes + report.empty).toBe(values.length);
      }),
    );
  });
});

describe('guessCodeColumn', () => {
  it('takes the column in which most cells parse', () => {
    expect(
      guessCodeColumn(spec, [
        ['101', 'Office', '274153'],
        ['102', 'Store', '416352'],
        ['103', '', 'x'],
      ]),
    ).toBe(2);
    expect(guessCodeColumn(spec, [['101', 'Office']])).toBeUndefined();
    expect(guessCodeColumn(spec, [])).toBeUndefined();
  });
});

describe('the words of a check', () => {
  it('writes counts with their nouns', () => {
    const report = { codes: 1212, good: 1205, faulty: 4, warned: 3, empty: 1 } as CheckReport;
    expect(checkSentence(report)).toBe(
      '1,212 codes: 1,205 good, 4 faulty, 3 with a warning. 1 empty cell passed over.',
    );
    expect(reasonLine({ code: 'macs', cells: 4 })).toBe('4 break the adjacent-cut limit');
    expect(reasonLine({ code: 'macs', cells: 1 })).toBe('1 breaks the adjacent-cut limit');
  });
});
