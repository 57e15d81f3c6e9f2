/** The sheets Ledger and Holders on the whole road: plan, write through office.js, read again. */
import { describe, expect, it } from 'vitest';
import { parseMoment, type Day } from '../../src/keying/calendar.ts';
import { formatBitting } from '../../src/keying/bitting.ts';
import { inHands } from '../../src/keying/ledgerAnswers.ts';
import { replayLedger } from '../../src/keying/ledgerReplay.ts';
import { describePlan, undoPlan } from '../../src/workbook/index.ts';
import { planCorrection, planLedger, type NewEntry } from '../../src/workbook/planLedger.ts';
import { planReceipt } from '../../src/workbook/planReceipt.ts';
import { readLedger } from '../../src/workbook/readLedger.ts';
import { subjectAt } from '../../src/workbook/selection.ts';
import { subjectOf } from '../../taskpane/strip/subjectOf.ts';
import { openBook } from '../support/office.ts';
import { at, picture, reading, write, writeSystem } from './book.ts';
import { school, SPEC } from './school.ts';

const MADE = '2026-03-14';
const day = (text: string): Day => {
  const read = parseMoment(text);
  if (!read.ok) throw new Error(text);
  return read.value.day;
};
const issue = (symbol: string, copy: number, holder = 'Caretaker', on = '2026-03-14'): NewEntry => ({
  event: 'issued',
  system: 'School',
  symbol,
  copy,
  holder,
  day: day(on),
});

/** The school with its keys cut: AA1 in three copies, the rest uncounted. */
async function withSchool(): Promise<ReturnType<typeof openBook>> {
  const opened = openBook();
  const made = school();
  const keys = made.system.keys.map((key) => ({ ...key, status: 'issued' as const }));
  await writeSystem({ ...made, system: { ...made.system, keys } });
  return opened;
}

const add = async (...entries: readonly NewEntry[]) =>
  write(
    planLedger(await reading(), {
      made: MADE,
      title: 'Issue keys',
      entries,
      holders: [{ name: 'Caretaker', department: 'House' }],
    }),
  );

describe('the first keys that are given out', () => {
  it('add both sheets, and come back as they were written', async () => {
    const { model } = await withSchool();
    const entry: NewEntry = {
      ...issue('AA1', 1),
      minutes: 570,
      due: day('2026-06-30'),
      givenBy: 'Office',
      takenBy: 'Caretaker',
      signature: 'required',
    };
    const book = await reading();
    const plan = planLedger(book, {
      made: MADE,
      title: 'Issue',
      entries: [entry],
      holders: [{ name: 'Caretaker', department: 'House', left: day('2026-12-31') }],
    });
    expect(describePlan(plan).sentence).toBe(
      'Adds the sheet Holders with 1 row; adds the sheet Ledger with 1 row; touches nothing else.',
    );
    await write(plan);
    const read = readLedger(await reading());
    expect(read.problems).toEqual([]);
    expect(read.entries).toEqual([{ ...entry, number: 1 }]);
    expect(read.people).toMatchObject([
      {
        name: 'Caretaker',
        department: 'House',
        left: day('2026-12-31'),
        at: { sheet: 'Holders', address: 'A5' },
      },
    ]);
    expect(['B5', 'C5', 'I5'].map((a) => at(model, 'Ledger', a))).toEqual([
      '2026-03-14',
      '09:30',
      '2026-06-30',
    ]);
  });

  it('are taken back with both sheets', async () => {
    const { model } = await withSchool();
    const before = picture(model);
    const undo = await add(issue('AA1', 1));
    expect((await undoPlan(undo)).outcome).toBe('done');
    expect(picture(model)).toEqual(before);
  });
});

describe('further rows', () => {
  it('go below those that are there, which keep every cell', async () => {
    const { model } = await withSchool();
    await add(issue('AA1', 1));
    const before = picture(model)['Ledger'] as Record<string, unknown>;
    await add(issue('AA1', 2), issue('AA1', 3));
    const after = picture(model)['Ledger'] as Record<string, unknown>;
    expect(Object.fromEntries(Object.keys(before).map((cell) => [cell, after[cell]]))).toEqual(before);
    expect(readLedger(await reading()).entries.map((e) => [e.number, e.copy])).toEqual([
      [1, 1],
      [2, 2],
      [3, 3],
    ]);
  });

  it('that can’t be right are not written: given out twice, no such copy, a holder who left', async () => {
    await withSchool();
    await add(issue('AA1', 1));
    const book = await reading();
    const conflicts = (entry: NewEntry) =>
      planLedger(book, { made: MADE, title: 'Issue', entries: [entry] }).conflicts.map((c) => c.sentence);
    expect(conflicts(issue('AA1', 1, 'Caretaker', '2026-03-15'))).toEqual([
      'AA1 / 1 is issued to Caretaker, but Caretaker has it and no return is recorded. Add the return, or correct one of the two.',
    ]);
    expect(conflicts(issue('AA1', 4))[0]).toContain('There is no copy 4 of AA1');
    expect(conflicts(issue('AA1', 2, 'Stranger'))[0]).toContain('Stranger is not in the sheet Holders');
    expect(conflicts(issue('ZZ1', 1))[0]).toContain('There is no key ZZ1');
    expect(conflicts(issue('AA1', 2))).toEqual([]);
  });

  it('are not held up by a fault that stands in the ledger already', async () => {
    const { host } = await withSchool();
    await add(issue('AA1', 1));
    // typed below the table, where Excel makes a date of it and lets the table grow
    host.userEdit('Ledger', 'A6', [[2, '2026-03-15', '', 'Issued', '', 'AA1', 1, 'Caretaker']]);
    const book = await reading();
    const read = readLedger(book);
    expect(read.entries[1]).toMatchObject({ day: day('2026-03-15'), system: 'School' });
    expect(replayLedger(read, day('2026-03-15')).findings).toMatchObject([
      { code: 'issued-twice', entry: 1 },
    ]);
    const plan = planLedger(book, { made: MADE, title: 'Issue', entries: [issue('AA1', 2)] });
    expect(plan.conflicts).toEqual([]);
  });

  it('correct a row by a row of their own', async () => {
    await withSchool();
    await add(issue('AA1', 1));
    await write(planCorrection(await reading(), { made: MADE, number: 1, entry: issue('AA1', 2) }));
    const read = readLedger(await reading());
    expect(read.entries).toHaveLength(2);
    expect(inHands(replayLedger(read, day('2026-03-14'))).map((c) => c.copy)).toEqual([2]);
    const plan = planCorrection(await reading(), { made: MADE, number: 9, entry: issue('AA1', 2) });
    expect(plan.conflicts.map((c) => c.sentence)).toEqual([
      'There is no row number 9 in the ledger. Check the number.',
    ]);
  });
});

describe('a ledger typed by hand', () => {
  it('is read with its faults at their cells; a row that can’t be read doesn’t count', async () => {
    const { host } = await withSchool();
    await add(issue('AA1', 1), issue('AA1', 2), issue('AA1', 3), issue('AB1', 1));
    host.userEdit('Ledger', 'B5', '3/4/2026');
    host.userEdit('Ledger', 'D6', 'Borrowed');
    host.userEdit('Ledger', 'G7', 'two');
    const read = readLedger(await reading());
    expect(read.unread).toBe(3);
    expect(read.problems.map((p) => [p.address, p.sentence])).toEqual([
      ['B5', '“3/4/2026” may be 2026-04-03 or 2026-03-04. Type it year first.'],
      ['D6', '“Borrowed” is none of Issued, Returned, Transferred, Lost, Found, Destroyed, Struck.'],
      ['G7', '“two” is not a whole number from 1 on.'],
    ]);
    expect(read.entries.map((e) => e.symbol)).toEqual(['AB1']);
    expect(read.places).toEqual([{ sheet: 'Ledger', address: 'D8' }]);
    // the next number is free even so
    expect(read.lastNumber).toBe(4);
  });

  it('under a lost heading is neither read nor added to', async () => {
    const { host } = await withSchool();
    await add(issue('AA1', 1));
    host.userEdit('Ledger', 'D4', 'What');
    const book = await reading();
    expect(readLedger(book).entries).toEqual([]);
    const plan = planLedger(book, { made: MADE, title: 'Issue', entries: [issue('AA1', 2)] });
    expect(plan.conflicts.map((c) => c.sentence)).toEqual([
      'The table KeyrowLedger has no column “Event”. Add it, or give the renamed column its name back.',
    ]);
  });

  it('names a holder twice at the second row', async () => {
    const { host } = await withSchool();
    await write(
      planLedger(await reading(), {
        made: MADE,
        title: 'Holders',
        entries: [],
        holders: [{ name: 'Caretaker' }, { name: 'Cleaner, mornings' }],
      }),
    );
    host.userEdit('Holders', 'A6', 'caretaker');
    expect(readLedger(await reading()).problems).toMatchObject([{ address: 'A6', severity: 'fault' }]);
  });
});

describe('a receipt', () => {
  it('has the keys and room to sign, and no bitting anywhere', async () => {
    const { model } = await withSchool();
    await add(issue('AA1', 1), issue('AA', 1));
    const plan = planReceipt(await reading(), {
      made: MADE,
      holder: 'Caretaker',
      givenBy: 'Office',
      copies: [
        { system: 'School', symbol: 'AA1', copy: 1, issued: day('2026-03-14'), due: day('2026-06-30') },
        { system: 'School', symbol: 'AA', copy: 1, issued: day('2026-03-14') },
      ],
    });
    await write(plan);
    expect(at(model, 'Receipt', 'A2')).toContain('House. Written 2026-03-14. Copies must not be made.');
    expect(['A5', 'B5', 'D5', 'E5'].map((a) => at(model, 'Receipt', a))).toEqual([
      'AA1',
      1,
      '2026-03-14',
      '2026-06-30',
    ]);
    const cells = JSON.stringify(picture(model)['Receipt']);
    for (const { bitting } of school().system.keys) expect(cells).not.toContain(formatBitting(SPEC, bitting));
    // register fields, MP1001 p. 3-2: issuer and receiver with signatures, and the same for the return
    for (const field of [
      'Given by',
      'Received by',
      'Signature',
      'Date and time',
      'Returned',
      'Taken back by',
    ])
      expect(cells).toContain(field);
    const second = planReceipt(await reading(), {
      made: MADE,
      holder: 'Caretaker',
      copies: [{ system: 'School', symbol: 'AA1', copy: 1 }],
    });
    expect(second.conflicts).toEqual([]);
    expect(second.effects[0]?.sheet).toBe('Receipt Caretaker');
  });
});

describe('a ledger of 10,000 rows', () => {
  it('is read and replayed whole', async () => {
    await withSchool();
    const entries = Array.from({ length: 10_000 }, (_, i): NewEntry => ({
      event: i % 2 === 0 ? 'issued' : 'returned',
      system: 'School',
      symbol: 'AA1',
      copy: 1,
      holder: 'Caretaker',
      day: (day('2026-03-14') + Math.floor(i / 40)) as Day,
    }));
    await add(...entries);
    const book = await reading();
    const read = readLedger(book);
    const state = replayLedger(read, day('2027-12-31'));
    expect(state).toMatchObject({ counted: 10_000, findings: [] });
  }, 60_000);
});

describe('a selected holder', () => {
  it('shows keys in hand and the doors that they open, from either sheet', async () => {
    await withSchool();
    await add(issue('AA1', 1));
    const book = await reading();
    const doors = book.systems[0]!.cylinders.filter((c) => c.symbol === 'AA1').map((c) => c.door ?? c.id);
    const select = (sheet: string, address: string) => subjectOf(book, subjectAt(book, { sheet, address }));
    for (const cell of [select('Holders', 'B5'), select('Ledger', 'F5')])
      expect(cell).toMatchObject({
        kind: 'holder',
        name: 'Caretaker',
        keys: [{ symbol: 'AA1', copy: '1' }],
        doors: doors.map((name) => ({ name, state: 'opens' })),
      });
    expect(select('Holders', 'A1').kind).toBe('nothing');
  });
});
