/** A receipt to sign, as a plan: the fields of a published key register (US Army correspondence course MP1001, p. 3-2). */
import { describe, expect, it } from 'vitest';
import type { Day } from '../../src/keying/calendar.ts';
import { freeTableName, planReceipt, type ReceiptInput } from '../../src/workbook/planReceipt.ts';
import { HOLDER_COLUMNS } from '../../src/workbook/tableHolders.ts';
import { bookWith, EMPTY_BOOK, lineOf, sentences, standing, writesOf } from './plainBook.ts';

const INPUT: ReceiptInput = {
  made: '14 Mar 2026',
  holder: 'Nurse',
  givenBy: 'Office',
  copies: [
    // Excel's days 46095 and 46203: 14 March and 30 June 2026
    { system: 'School', symbol: 'AA1', copy: 1, issued: 46_095 as Day, due: 46_203 as Day },
    { system: 'School', symbol: 'AA2', copy: 2 },
  ],
};
const planned = (input: Partial<ReceiptInput> = {}, book = EMPTY_BOOK) =>
  planReceipt(book, { ...INPUT, ...input });
const LINE = '____________________________';

describe('a receipt', () => {
  it('names the keys, and has room to sign below them', () => {
    const plan = planned();
    expect(plan.title).toBe('Receipt for Nurse');
    expect(lineOf(plan, 'Receipt', 0)).toEqual(['Receipt for keys: Nurse']);
    expect(lineOf(plan, 'Receipt', 1)).toEqual([
      'Written 14 Mar 2026. Copies must not be made. Report a loss at once. Give the keys back when they are due or when you leave.',
    ]);
    expect(lineOf(plan, 'Receipt', 3)).toEqual([
      'Key', 'Copy', 'System', 'Issued', 'Due back', 'Returned', 'Taken back by', 'Signature',
    ]); // prettier-ignore
    const writes = writesOf(plan, 'Receipt');
    expect(writes[2]!.cells).toEqual([
      ['AA1', 1, 'School', '2026-03-14', '2026-06-30', '', '', ''],
      ['AA2', 2, 'School', '', '', '', '', ''],
    ]);
    // the table ends in row 6; two rows are left free
    expect(writes[3]).toEqual({
      kind: 'write',
      sheet: 'Receipt',
      row: 8,
      column: 0,
      cells: [
        ['Given by', '', 'Office', '', 'Date and time', '', 'Signature', LINE],
        ['', '', '', '', '', '', '', ''],
        ['Received by', '', 'Nurse', '', 'Date and time', '', 'Signature', LINE],
      ],
      formats: ['text', 'text', 'text', 'text', 'text', 'text', 'text', 'text'],
      expected: 'empty',
    });
    expect(plan.steps).toContainEqual(expect.objectContaining({ kind: 'add-table', name: 'KeyrowReceipt1' }));
    expect(plan.steps.find(({ kind }) => kind === 'layout')).toMatchObject({
      layout: { freeze: { columns: 1 } },
    });
  });

  it('says the department where it is known', () => {
    const people = standing('KeyrowHolders', 'Holders', [HOLDER_COLUMNS.map(({ heading }) => heading), ['Cook', 'Kitchen', '', '', ''], ['nurse', 'House', '', '', '']]); // prettier-ignore
    expect(lineOf(planned({}, bookWith(people)), 'Receipt', 1).join()).toMatch(
      /^House\. Written 14 Mar 2026\./,
    );
  });

  it('has a sheet and a table of its own', () => {
    const sheet = { name: 'Receipt', visible: true, protected: false };
    const plan = planned({}, { ...EMPTY_BOOK, sheets: [sheet], tableNames: ['keyrowreceipt1'] });
    expect(plan.steps[0]).toEqual({ kind: 'add-sheet', sheet: 'Receipt Nurse' });
    expect(plan.steps).toContainEqual(expect.objectContaining({ kind: 'add-table', name: 'KeyrowReceipt2' }));
    expect(freeTableName('Keyrow', [])).toBe('Keyrow1');
    expect(freeTableName('Keyrow', ['Keyrow1', 'KEYROW2'])).toBe('Keyrow3');
  });

  it('may be given by nobody yet, but for no key not', () => {
    expect(writesOf(planned({ givenBy: undefined as never }))[3]!.cells[0]![2]).toBe('');
    const none = planned({ copies: [] });
    expect([none.steps, sentences(none)]).toEqual([[], ['Nurse has no key to sign for.']]);
  });
});
