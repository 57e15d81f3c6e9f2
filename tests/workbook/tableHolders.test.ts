/** Rows of the sheets Holders and Authorised, cell by cell. */
import { describe, expect, it } from 'vitest';
import { dayOf } from '../../src/keying/calendar.ts';
import { authorisedSentence, planAuthorised, readAuthorised } from '../../src/workbook/tableAuthorised.ts';
import { holderRow, readHolders } from '../../src/workbook/tableHolders.ts';
import { bookOf, tableOf, told } from './byHand.ts';

const left = dayOf({ year: 2026, month: 3, day: 14 })!;

describe('a row of the sheet Holders', () => {
  it('gives a person with all that is typed; a name that stands twice is told', () => {
    const { rows, problems } = readHolders(
      tableOf('KeyrowHolders', 'Holders', [
        ['Department', 'Holder', 'Contact', 'Left on'],
        ['House', 'Porter', 'desk', '2026-03-14'],
        ['', 'Nurse'],
        ['Night', 'PORTER'],
        ['Nobody', '', '', 'soon'],
      ]),
    );
    expect(rows).toStrictEqual([
      { name: 'Porter', department: 'House', contact: 'desk', left, at: { sheet: 'Holders', address: 'C5' } },
      { name: 'Nurse', at: { sheet: 'Holders', address: 'C6' } },
    ]);
    expect(told(problems)).toStrictEqual([
      'fault Holders!C8 There is no name here. Type one, or clear the whole row.',
      expect.stringMatching(/^fault Holders!E8 “soon” is not a date/),
      'fault Holders!C7 There is another holder “PORTER” at C5. Tell the two apart, by department perhaps.',
    ]);
    expect(readHolders(tableOf('KeyrowHolders', 'Holders', [['Holder'], ['Cook']])).rows).toHaveLength(1);
  });

  it('is written in the order of the columns', () => {
    expect(holderRow({ name: 'Porter', department: 'House', contact: 'desk', left })).toStrictEqual(
      ['Porter', 'House', 'desk', '2026-03-14', ''], // prettier-ignore
    );
    expect(holderRow({ name: 'Nurse' })).toStrictEqual(['Nurse', '', '', '', '']);
  });
});

describe('who may sign for duplicates', () => {
  const table = tableOf('KeyrowAuthorised', 'Authorised', [
    ['May sign', 'System', 'Function', 'For keys', 'Restricted blank'],
    ['A. Head', 'School', 'head', 'AA1', 'B5'],
    ['B. Deputy', 'school ', '', '', 'B5'],
    ['', 'Works', '', '', 'B7'],
    ['Stray', '', '', '', ''],
  ]);
  const row = (address: string, system: string, name: string, role: string, keys: string, blank: string) => ({
    system,
    name,
    role,
    keys,
    blank,
    at: { sheet: 'Authorised', address },
  });

  it('is read for one system, in any case, or for all', () => {
    const school = [
      row('C5', 'School', 'A. Head', 'head', 'AA1', 'B5'),
      row('C6', 'school', 'B. Deputy', '', '', 'B5'),
    ];
    expect(readAuthorised(bookOf(table), 'SCHOOL')).toStrictEqual(school);
    expect(readAuthorised(bookOf(table))).toStrictEqual([
      ...school,
      row('C7', 'Works', '', '', '', 'B7'),
      row('C8', '', 'Stray', '', '', ''),
    ]);
    expect(readAuthorised(bookOf())).toStrictEqual([]);
    const bare = tableOf('KeyrowAuthorised', 'Authorised', [['System'], ['School']]);
    expect(readAuthorised(bookOf(bare))).toStrictEqual([row('B5', 'School', '', '', '', '')]);
  });

  it('is said in a sentence, each blank once', () => {
    const sentence = (system?: string) => authorisedSentence(readAuthorised(bookOf(table), system));
    expect(sentence('School')).toBe(
      'Duplicates are signed for by A. Head (head), B. Deputy. Restricted blank: B5.',
    );
    expect(sentence('Works')).toBe('Nobody is recorded who may sign for duplicates. Restricted blank: B7.');
    expect(sentence()).toContain('Restricted blank: B5, B7.');
    expect(sentence('None')).toBe('Nobody is recorded who may sign for duplicates.');
    expect(sentence('')).toBe('Duplicates are signed for by Stray.');
  });

  it('is planned as one row without the spaces around what was typed', () => {
    const person = { system: 'School', name: ' C. Clerk ', role: ' office ', blank: ' B5 ' };
    const plan = planAuthorised(bookOf(), person, '14 Mar 2026');
    expect(plan.conflicts).toStrictEqual([]);
    expect(plan.title).toBe('Record who may sign for School');
    const written = JSON.stringify(plan.steps);
    expect(written).toContain('["School","C. Clerk","office","","B5","14 Mar 2026","",""]');
    expect(written).toContain('Who may sign for duplicates');
    expect(written).toContain(
      'One row a person and system. “For keys” left blank means all of them. First written 14 Mar 2026.',
    );
    expect(written).toContain('"Authorised"');
    const nobody = planAuthorised(bookOf(), { ...person, name: ' ' }, '14 Mar 2026');
    expect(nobody.conflicts.map(({ sentence }) => sentence)).toStrictEqual([
      'Nobody is named. Type who may sign.',
    ]);
  });
});
