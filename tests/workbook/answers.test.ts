/** Who holds and opens what, on a house small enough to answer every question from its sheets by eye. */
import { describe, expect, it } from 'vitest';
import {
  answer,
  doorNames,
  peopleNames,
  planAnswer,
  type Answer,
  type Question,
} from '../../src/workbook/answers.ts';
import { standingOn } from '../../src/workbook/standing.ts';
import { bookOf, tableOf } from './byHand.ts';
import { day, EVENTS, house } from './house.ts';

const BOOK = house();
const END = day(3, 31);
const ask = (question: Question, about = '', asOf = END): Answer =>
  answer(standingOn(BOOK, asOf), { question, about });
/** Before anything but the old A2 and the first A was given out. */
const EARLY = day(3, 1);

describe('the house', () => {
  it('has no fault in its sheets', () => {
    expect(BOOK.problems).toEqual([]);
    const standing = standingOn(BOOK, END);
    expect(standing.ledger.problems).toEqual([]);
    expect(standing.state.findings.map(({ code }) => code)).not.toContain('issued-twice');
  });

  it('names its doors and its people, each once', () => {
    const standing = standingOn(BOOK, END);
    // a cylinder without a door goes by its own number
    expect(doorNames(standing)).toEqual(['101', '102', 'C3', '103', '104', '105']);
    // those who are listed or have a key, by name
    expect(peopleNames(standing)).toEqual(['Cook', 'Guest', 'Nurse', 'Porter', 'Zoe']);
  });
});

describe('who can open a door', () => {
  it('is told by the keys that turn its cylinder, with the copies of each', () => {
    expect(ask('door', '102')).toEqual({
      title: 'Who can open 102',
      sentence: '4 people can open 102, with 4 keys in hand.',
      headings: ['Holder', 'Department', 'Key', 'Remark'],
      rows: [
        ['Porter', 'Gate', 'A / 1', ''],
        ['(no name)', '', 'A / 2', ''],
        // pinned for the retired bitting still
        ['Cook', 'Kitchen', 'A2 / 1', 'not meant for this door'],
        ['Nurse', 'Ward', 'A2 / 2', ''],
        ['(in the cabinet)', '', 'A2, 1 copy', ''],
      ],
    });
  });

  it('names lost keys, keys in the cabinet and keys that nobody knows a copy of', () => {
    expect(ask('door', '105')).toMatchObject({
      sentence: '3 people can open 105, with 3 keys in hand.',
      rows: [
        ['Porter', 'Gate', 'A / 1', ''],
        ['(no name)', '', 'A / 2', ''],
        ['Nurse', 'Ward', 'A1 / 1', ''],
        ['Lost by Guest', '', 'A1 / 2', ''],
        ['(in the cabinet)', '', 'A1, 1 copy', ''],
        ['(no copy known)', '', 'S9', 'not meant for this door, reserved'],
      ],
    });
    expect(ask('door', ' c3').rows.map(([who, , key, remark]) => [who, key, remark])).toEqual([
      ['Porter', 'A / 1', ''],
      ['(no name)', 'A / 2', ''],
      ['Nurse', 'A1 / 1', ''],
      ['Lost by Guest', 'A1 / 2', ''],
      ['(in the cabinet)', 'A1, 1 copy', ''],
      ['Nurse', 'A2 / 2', 'not meant for this door'],
      ['(in the cabinet)', 'A2, 1 copy', 'not meant for this door'],
    ]);
    expect(ask('door', '101', EARLY)).toMatchObject({
      sentence: '1 person can open 101, with 1 key in hand.',
      rows: [
        ['Porter', 'Gate', 'A / 1', ''],
        ['(in the cabinet)', '', 'A, 1 copy', ''],
        ['(in the cabinet)', '', 'A1, 3 copies', ''],
      ],
    });
    // all copies in the cabinet
    expect(ask('door', '104').rows).toEqual([['(in the cabinet)', '', 'A3, 1 copy', '']]);
    expect(ask('door', '104').sentence).toBe('0 people can open 104, with 0 keys in hand.');
  });

  it('says that a door isn’t known', () => {
    expect(ask('door', '999')).toMatchObject({
      sentence: 'No cylinder is known at a door 999. Check its number on the sheet Cylinders.',
      rows: [],
    });
  });

  it('names a lost key whose holder nobody knows', () => {
    const lost = house([['2026-03-01', 'lost', 'A3', 1, '', '']]);
    const rows = answer(standingOn(lost, END), { question: 'door', about: '104' }).rows;
    expect(rows).toEqual([['Lost', '', 'A3 / 1', '']]);
    // whoever lost it, it is in no department's hands
    const cook = house([['2026-03-01', 'lost', 'A3', 1, 'Cook', '']]);
    expect(answer(standingOn(cook, END), { question: 'door', about: '104' }).rows).toEqual([
      ['Lost by Cook', '', 'A3 / 1', ''],
    ]);
  });
});

describe('what a person can open', () => {
  it('is told door by door, with the keys in hand', () => {
    expect(ask('person', 'nurse')).toEqual({
      title: 'What nurse can open',
      sentence: 'nurse has 2 keys (A1 / 1, A2 / 2) and can open 4 doors.',
      headings: ['Door', 'Keyset', 'With', 'Remark'],
      rows: [
        ['101', 'A1', 'A1 / 1', ''],
        ['102', 'A2', 'A2 / 2', ''],
        ['C3', 'A1', 'A1 / 1, A2 / 2', ''],
        ['105', 'A1', 'A1 / 1', ''],
      ],
    });
    expect(ask('person', 'Cook')).toMatchObject({
      sentence: 'Cook has 1 key (A2 / 1) and can open 1 door.',
      rows: [['102', 'A2', 'A2 / 1', 'not meant for this door']],
    });
    expect(ask('person', 'Zoe')).toMatchObject({
      sentence: 'Zoe has 0 keys and can open 0 doors.',
      rows: [],
    });
  });

  it('is a grid of everybody against every door', () => {
    expect(ask('everything')).toEqual({
      title: 'Who opens what',
      sentence:
        '4 people against 6 doors: a dot where a key in hand opens the door, a triangle where it opens and should not.',
      headings: ['Door', '(no name)', 'Cook', 'Nurse', 'Porter'],
      rows: [
        ['101', '●', '', '●', '●'],
        ['102', '●', '▲', '●', '●'],
        ['C3', '●', '', '●', '●'],
        ['103', '', '', '', ''],
        ['104', '', '', '', ''],
        ['105', '●', '', '●', '●'],
      ],
    });
  });

  it('has everybody’s column at every system’s doors, whoever has keys there', () => {
    const book = bookOf(
      tableOf('KeyrowSystems', 'Systems', [
        ['System', 'Spec'],
        ['One', 'S-018-6'],
        ['Two', 'S-018-6'],
      ]),
      tableOf('KeyrowKeys', 'Keys', [
        ['System', 'Symbol', 'Bitting', 'Level', 'Status', 'Copies'],
        ['One', 'A', '012345', 'CK', 'issued', 1],
        ['Two', 'B', '112345', 'CK', 'issued', 1],
      ]),
      tableOf('KeyrowCylinders', 'Cylinders', [
        ['System', 'Cylinder', 'Symbol', 'Ch 1', 'Ch 2', 'Ch 3', 'Ch 4', 'Ch 5', 'Ch 6'],
        ['One', 'C1', 'A', '0', '1', '2', '3', '4', '5'],
        ['Two', 'D1', 'B', '1', '1', '2', '3', '4', '5'],
        ['Two', 'D2', 'B', '1', '1', '2', '3', '4', '5'],
      ]),
      tableOf('KeyrowLedger', 'Ledger', [
        ['Date', 'Event', 'Key', 'Copy', 'Holder'],
        ['2026-03-01', 'issued', 'A', 1, 'Ann'],
        ['2026-03-02', 'issued', 'B', 1, 'Bob'],
      ]),
    );
    const { headings, rows } = answer(standingOn(book, END), { question: 'everything', about: '' });
    expect([headings, ...rows]).toEqual([
      ['Door', 'Ann', 'Bob'],
      ['C1', '●', ''],
      ['D1', '', '●'],
      ['D2', '', '●'],
    ]);
    expect(answer(standingOn(book, day(3, 1)), { question: 'everything', about: '' }).sentence).toMatch(
      /^1 person against 3 doors: /,
    );
  });

  it('is nothing at a door that no key in hand opens', () => {
    expect(ask('closed')).toEqual({
      title: 'Doors that nobody can open',
      sentence: '2 doors can be opened by nobody with a key in hand.',
      headings: ['Door', 'Keyset', 'Why'],
      rows: [
        ['103', 'A2', 'no key of the system fits'],
        ['104', 'A3', 'its keys are all in the cabinet, lost or destroyed'],
      ],
    });
    const open = house([...EVENTS, ['2026-03-01', 'issued', 'A3', 1, 'Cook', '']]);
    expect(answer(standingOn(open, END), { question: 'closed', about: '' }).sentence).toBe(
      '1 door can be opened by nobody with a key in hand.',
    );
  });
});

describe('keys out of the cabinet', () => {
  it('are masters, overdue, of people who left, unaccounted for, or to be called back', () => {
    expect(ask('masters')).toEqual({
      title: 'Who holds masters',
      sentence: '2 master or control keys are out of the cabinet.',
      headings: ['Key', 'Level', 'Where', 'Department', 'Since', 'Due'],
      rows: [
        ['A / 1', 'MK', 'with Porter', 'Gate', '2026-03-01', '2026-06-30'],
        ['A / 2', 'MK', 'in somebody’s hands', '', '2026-03-12', ''],
      ],
    });
    expect(ask('overdue')).toEqual({
      title: 'Overdue keys',
      sentence: '1 key is overdue.',
      headings: ['Holder', 'Department', 'Key', 'Due', 'Days overdue'],
      rows: [['Nurse', 'Ward', 'A1 / 1', '2026-03-20', 11]],
    });
    expect(ask('left')).toEqual({
      title: 'Keys of people who left',
      sentence: '1 key is still with people who left.',
      headings: ['Holder', 'Department', 'Key', 'Left on', 'Issued'],
      rows: [['Cook', 'Kitchen', 'A2 / 1', '2026-03-15', '2026-02-01']],
    });
    expect(ask('unaccounted')).toEqual({
      title: 'Copies unaccounted for',
      sentence: '2 copies are unaccounted for.',
      headings: ['Key', 'Where', 'Since'],
      rows: [
        ['A / 2', 'in somebody’s hands', '2026-03-12'],
        ['A1 / 2', 'lost by Guest', '2026-03-10'],
      ],
    });
    expect(ask('recall')).toEqual({
      title: 'Keys of retired bittings still out',
      sentence: '1 key of retired bittings is still in hands.',
      headings: ['Holder', 'Department', 'Key', 'Issued'],
      rows: [['Cook', 'Kitchen', 'A2 / 1', '2026-02-01']],
    });
  });

  it('are said in the plural or the singular, as many as there are', () => {
    expect(ask('masters', '', EARLY).sentence).toBe('1 master or control key is out of the cabinet.');
    expect(ask('overdue', '', EARLY).sentence).toBe('0 keys are overdue.');
    expect(ask('left', '', EARLY).sentence).toBe('0 keys are still with people who left.');
    expect(ask('unaccounted', '', day(3, 10)).sentence).toBe('1 copy is unaccounted for.');
    const before = day(1, 1);
    expect(ask('recall', '', before).sentence).toBe('0 keys of retired bittings are still in hands.');
    expect(ask('masters', '', before).rows).toEqual([]);
  });

  it('are counted against those in stock, a row a symbol', () => {
    const one = house(EVENTS.concat([['2026-03-01', 'issued', 'A1', 3, 'Zoe', ''], ['2026-03-01', 'issued', 'A3', 1, 'Zoe', '']])); // prettier-ignore
    expect(answer(standingOn(one, END), { question: 'stock', about: '' }).sentence).toBe(
      '1 copy in the cabinet, 7 in hands, 1 lost.',
    );
    expect(ask('stock')).toEqual({
      title: 'Copies in stock and out',
      sentence: '3 copies in the cabinet, 5 in hands, 1 lost.',
      headings: ['Key', 'System', 'Copies', 'In stock', 'In hands', 'Lost', 'Destroyed'],
      rows: [
        ['A', 'House', 2, 0, 2, 0, 0],
        ['A1', 'House', 3, 1, 1, 1, 0],
        ['A2', 'House', 3, 1, 2, 0, 0],
        ['A3', 'House', 1, 1, 0, 0, 0],
      ],
    });
    const thrown = house([['2026-03-01', 'destroyed', 'A3', 1, '', '']]);
    const rows = answer(standingOn(thrown, END), { question: 'stock', about: '' }).rows;
    expect(rows.at(-1)).toEqual(['A3', 'House', 1, 0, 0, 0, 1]);
  });

  it('that the list of keys doesn’t know have no level', () => {
    const unknown = house([['2026-03-01', 'issued', 'B7', 1, 'Zoe', '2026-03-02']]);
    expect(answer(standingOn(unknown, END), { question: 'overdue', about: '' }).rows).toEqual([
      ['Zoe', '', 'B7 / 1', '2026-03-02', 29],
    ]);
    expect(answer(standingOn(unknown, END), { question: 'masters', about: '' }).rows).toEqual([]);
  });
});

describe('an answer on a sheet of its own', () => {
  const MADE = { made: '31 Mar 2026', asOf: END };
  const plan = (given: Partial<Answer>) =>
    planAnswer(
      BOOK,
      { title: 'Overdue keys', sentence: 'Two.', headings: ['Key'], rows: [], ...given },
      MADE,
    );
  const texts = (given: Partial<Answer>): string => JSON.stringify(plan(given).steps);

  it('says as of when it holds and what it was made from', () => {
    const { title, conflicts, steps } = plan({ rows: [['A / 1']] });
    expect([title, conflicts]).toEqual(['Overdue keys', []]);
    const written = JSON.stringify(steps);
    expect(written).toContain(
      'Two. As of 2026-03-31, written 31 Mar 2026 from the sheets Ledger, Keys and Cylinders. Names are personal data: keep this sheet in the house.',
    );
    expect(written).toContain('KeyrowAnswer');
    expect(written).toContain('[["A / 1"]]');
  });

  it('numbers headings of one name, which Excel would take for a mistake', () => {
    expect(texts({ headings: ['Door', 'Nurse', 'NURSE', 'nurse'], rows: [['1', '', '', '']] })).toContain(
      '["Door","Nurse","NURSE (2)","nurse (3)"]',
    );
  });

  it('keeps numbers as numbers where a whole column is of them', () => {
    const formats = (rows: Answer['rows']) =>
      plan({ headings: ['Key', 'Days'], rows }).steps.flatMap((step) =>
        step.kind === 'write' ? [step.formats] : [],
      ).at(-1); // prettier-ignore
    expect(formats([['A', 3]])).toEqual(['text', 'general']);
    expect(formats([['A', 3], ['B', '']])).toEqual(['text', 'text']); // prettier-ignore
    expect(formats([])).toEqual(['text', 'text']);
  });

  it('is as wide as its heading and its first 200 rows, and never wider than 44', () => {
    const widths = (headings: string[], rows: Answer['rows']) =>
      plan({ headings, rows }).steps.flatMap((step) => (step.kind === 'layout' ? step.layout.widths : []));
    expect(widths(['Key', 'Holder'], [['A2 / 1', 'Al'], ['A', 12345678]])).toEqual([8, 10]); // prettier-ignore
    expect(widths(['Department'], [['x'.repeat(43)]])).toEqual([44]);
    expect(widths(['Department'], [])).toEqual([13]);
    const many = Array.from({ length: 201 }, (_, r) => [r === 200 ? 'far below' : 'x']);
    expect(widths(['Key'], many)).toEqual([6]);
  });

  it('bars what is wider than a sheet can be read with', () => {
    const wide = (count: number) =>
      plan({ headings: Array.from({ length: count }, (_, c) => `P${c}`) }).conflicts.map((c) => c.sentence);
    expect(wide(250)).toEqual([]);
    expect(wide(251)).toEqual([
      'The answer has 251 columns, more than a sheet can be read with. Ask about a door or a person.',
    ]);
  });
});
