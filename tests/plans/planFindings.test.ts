/** The sheet of findings as a plan: faults first, each with its words, its names and a link to its cell. */
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../src/keying/findings.ts';
import type { BookReading, Problem } from '../../src/workbook/index.ts';
import { planFindings, type FindingsInput } from '../../src/workbook/planFindings.ts';
import { EMPTY_BOOK, lineOf, rowsOf, systemBook } from './plainBook.ts';

const BOOK = systemBook();
const MADE = '24 Nov 2026';
const planned = (audits: FindingsInput['audits'], book: BookReading = BOOK, unit?: 'mm') =>
  planFindings(book, { made: MADE, audits, unit });
const problem = (severity: Problem['severity'], sentence: string): Problem => ({
  severity,
  sentence,
  sheet: 'Keys',
  address: 'E5',
});
const SAME: Finding = { code: 'same-bitting', key: 'AA1', other: 'AA2' };
const PARENT: Finding = { code: 'parent-missing', key: 'AB1', parent: 'AC' };
const NEAR: Finding = { code: 'near-interchange', key: 'AB1', cylinder: 'C1', chamber: 2, thousandths: 18 };

describe('the findings', () => {
  it('stand with faults first, else as they were found', () => {
    const book = {
      ...BOOK,
      problems: [problem('warning', 'Doubtful.'), problem('fault', 'Not to be read.')],
    };
    const plan = planned([{ system: 'School', findings: [NEAR, SAME, PARENT] }], book);
    expect(plan.title).toBe('Write the findings');
    expect(lineOf(plan, 'Findings', 0)).toEqual(['Findings']);
    expect(lineOf(plan, 'Findings', 1)).toEqual([
      'What the audit of School and the reading of the sheets found on 24 Nov 2026. Each new audit replaces these rows.',
    ]);
    expect(lineOf(plan, 'Findings', 3)).toEqual([
      'Severity', 'What', 'Where', 'System', 'Key', 'Cylinder', 'Detail',
    ]); // prettier-ignore
    const rows = rowsOf(plan, 'Findings');
    expect(rows.map(([severity]) => severity)).toEqual(['Fault', 'Fault', 'Fault', 'Warning', 'Warning']);
    expect(rows[0]).toEqual([
      'Fault',
      'Cell can’t be read',
      `=HYPERLINK("#'Keys'!E5","Keys!E5")`,
      '',
      '',
      '',
      'Not to be read.',
    ]);
    // AA1 stands in row 8, its bitting in column E
    expect(rows[1]!.slice(0, 6)).toEqual(['Fault', 'Same bitting', `=HYPERLINK("#'Keys'!E8","Keys!E8")`, 'School', 'AA1', '']); // prettier-ignore
    expect(rows[1]![6]).toMatch(/AA1.*AA2/);
    expect(rows[2]!.slice(0, 6)).toEqual(['Fault', 'Parent missing', `=HYPERLINK("#'Keys'!B10","Keys!B10")`, 'School', 'AB1', '']); // prettier-ignore
    expect(rows[3]!.slice(0, 2)).toEqual(['Warning', 'Cell can’t be read']);
    // where the column of AB1 and the row of C1 cross in the grid
    expect(rows[4]!.slice(0, 6)).toEqual(['Warning', 'Near miss', `=HYPERLINK("#'Grid'!I5","Grid!I5")`, 'School', 'AB1', 'C1']); // prettier-ignore
    expect(plan.steps.find(({ kind }) => kind === 'layout')).toMatchObject({
      layout: { freeze: { columns: 3 } },
    });
  });

  it('have no link where the system is gone', () => {
    const [gone] = rowsOf(planned([{ system: 'School', findings: [SAME] }], EMPTY_BOOK), 'Findings');
    expect(gone!.slice(2, 5)).toEqual(['', 'School', 'AA1']);
  });

  it('say lengths in the unit asked for', () => {
    const detail = (unit?: 'mm') =>
      String(rowsOf(planned([{ system: 'School', findings: [NEAR] }], BOOK, unit), 'Findings')[0]![6]);
    expect(detail()).toContain('0.018 in');
    // 0.018 × 25.4 = 0.4572
    expect(detail('mm')).toContain('0.46 mm');
  });

  it('say so where there are none', () => {
    const none = ['None', 'Nothing found', '', '', '', '', 'No fault and no warning.'];
    expect(rowsOf(planned([{ system: 'School', findings: [] }, { system: 'Annex', findings: [] }]), 'Findings')).toEqual([none]); // prettier-ignore
    expect(lineOf(planned([{ system: 'School', findings: [] }, { system: 'Annex', findings: [] }]), 'Findings', 1).join()).toContain('the audit of School, Annex and'); // prettier-ignore
    expect(lineOf(planned([]), 'Findings', 1).join()).toContain('What the audit of no system and');
  });

  it('of an audit that was stopped are no clean bill', () => {
    const plan = planned([
      { system: 'School', findings: [], part: 'half of the pairs.' },
      { system: 'Annex', findings: [], part: 'none.' },
      { system: 'Hall', findings: [] },
    ]);
    expect(rowsOf(plan, 'Findings')).toEqual([
      ['Note', 'Audit not finished', '', '', '', '', 'School: half of the pairs. Annex: none.'],
    ]);
    expect(lineOf(plan, 'Findings', 1).join()).toMatch(
      /^PARTIAL\. School: half of the pairs\. PARTIAL\. Annex: none\. What the audit of School, Annex, Hall and/,
    );
  });
});
