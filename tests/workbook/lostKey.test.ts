/** A lost key on the whole road: the plan, the sheets after it, the answers before and after, and taking it back. */
import { describe, expect, it } from 'vitest';
import { parseMoment, type Day } from '../../src/keying/calendar.ts';
import { accessMap } from '../../src/keying/access.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { auditSystem } from '../../src/keying/audit.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import { freshBittings } from '../../src/keying/freshBittings.ts';
import { liveKey, lostKeyScope, phasesOf } from '../../src/keying/lostKey.ts';
import { applyPlan, auditInput, describePlan, undoPlan } from '../../src/workbook/index.ts';
import { answer, doorNames, peopleNames, planAnswer } from '../../src/workbook/answers.ts';
import { lostKeyChanges } from '../../src/workbook/lostKeyChanges.ts';
import { lostKeyDoubts } from '../../src/workbook/lostKeyDoubts.ts';
import { planLedger } from '../../src/workbook/planLedger.ts';
import { parseAddress } from '../../src/workbook/places.ts';
import { planLostKey } from '../../src/workbook/planLostKey.ts';
import { planMends } from '../../src/workbook/planMends.ts';
import { bittingsIn } from '../../src/workbook/secretCells.ts';
import { standingOn } from '../../src/workbook/standing.ts';
import type { BookReading } from '../../src/workbook/reading.ts';
import { evenTree, generateSystem } from '../../src/keying/hierarchy.ts';
import { openBook } from '../support/office.ts';
import { at, picture, reading, write, writeSystem } from './book.ts';
import { SPEC } from './school.ts';

const MADE = '2026-03-14';
const day = (text: string): Day => {
  const read = parseMoment(text);
  if (!read.ok) throw new Error(text);
  return read.value.day;
};
const TODAY = day(MADE);

async function hall(): Promise<ReturnType<typeof openBook>> {
  const opened = openBook();
  const made = runToEnd(
    generateSystem({
      name: 'Hall',
      spec: SPEC,
      levels: 3,
      grands: evenTree(3, { masters: 2, changeKeys: 3 }),
      seed: 2,
    }),
  );
  if (!made.ok) throw new Error('the hall does not fit');
  await writeSystem({ ...made, copies: new Map(made.system.keys.map((k) => [k.symbol, 2])) });
  const issue = (symbol: string, copy: number, holder: string) => ({
    event: 'issued' as const,
    system: 'Hall',
    symbol,
    copy,
    holder,
    day: TODAY,
  });
  await write(
    planLedger(await reading(), {
      made: MADE,
      title: 'Issue',
      entries: [issue('AA', 1, 'Caretaker'), issue('AA1', 1, 'Nurse'), issue('AB2', 1, 'Cook')],
      holders: [{ name: 'Caretaker', department: 'House' }, { name: 'Nurse' }, { name: 'Cook', left: TODAY }],
    }),
  );
  return opened;
}

function lose(book: BookReading, symbol: string) {
  const { system, marks } = auditInput(book, 'Hall')!;
  const lost = liveKey(system, symbol);
  const fresh = runToEnd(freshBittings({ system, marks, lost }));
  if (!fresh.ok) throw new Error(JSON.stringify(fresh.problems));
  const scope = lostKeyScope(system, accessMap(auditInputOf(system, marks)), lost);
  const phases = phasesOf(system, scope, { titles: ['Outside doors', 'All others'], riskOf: (c) => c % 2 });
  return planLostKey(book, {
    made: MADE,
    system: book.systems[0]!,
    fresh,
    phases,
    orders: { shop: true, tenant: true },
  });
}

const faultsOf = (book: BookReading) => {
  const { system, marks } = auditInput(book, 'Hall')!;
  return runToEnd(auditSystem(auditInputOf(system, marks), { near: false })).counts;
};

describe('a lost master', () => {
  it('is planned in numbers, with the old values kept', async () => {
    await hall();
    const book = await reading();
    const plan = lose(book, 'AA');
    expect(plan.conflicts).toEqual([]);
    const { sentence } = describePlan(plan);
    expect(sentence).toMatch(
      /^Changes 4 cells of Keys; changes \d+ cells of Cylinders; adds 4 rows to Keys; adds the sheet Work order with 3 rows; adds the sheet Work order, tenant with 3 rows; touches nothing else\.$/,
    );
    const statuses = plan.steps.filter(
      (s) => s.kind === 'write' && s.sheet === 'Keys' && s.cells[0]?.[0] === 'retired',
    );
    expect(statuses).toHaveLength(4);
    for (const step of statuses) expect(step).toMatchObject({ expected: [['issued']] });
  });

  it('leaves a book that passes its audit, with the new copies numbered after the old', async () => {
    await hall();
    expect(faultsOf(await reading())).toEqual({});
    await write(lose(await reading(), 'AA'));
    const book = await reading();
    expect(book.problems).toEqual([]);
    expect(faultsOf(book)).toEqual({});
    const rows = book.systems[0]!.keys.filter((k) => k.symbol === 'AA1');
    expect(rows.map((k) => k.status)).toEqual(['retired', 'issued']);
    const state = standingOn(book, TODAY).state;
    expect(state.copies.filter((c) => c.symbol === 'AA1').map((c) => c.copy)).toEqual([1, 2, 3, 4]);
  });

  it('no longer lets its holder in, and is to be called back', async () => {
    await hall();
    const asked = { question: 'person', about: 'Caretaker' } as const;
    expect(answer(standingOn(await reading(), TODAY), asked).rows).toHaveLength(3);
    await write(lose(await reading(), 'AA'));
    const standing = standingOn(await reading(), TODAY);
    expect(answer(standing, asked).rows).toEqual([]);
    expect(answer(standing, { question: 'recall', about: '' }).rows).toEqual([
      ['Caretaker', 'House', 'AA / 1', MADE],
      ['Nurse', '', 'AA1 / 1', MADE],
    ]);
  });

  it('has no bitting on the tenant’s copy of the work order, and all of them on the shop’s', async () => {
    const { model } = await hall();
    await write(lose(await reading(), 'AA'));
    const book = await reading();
    const bittings = bittingsIn(book);
    const on = (sheet: string): string[] =>
      bittings.filter((b) => JSON.stringify(picture(model)[sheet]).includes(`"${b}"`));
    expect(on('Work order, tenant')).toEqual([]);
    expect(on('Work order')).toHaveLength(3);
  });

  it('is taken back to the last cell', async () => {
    const { model } = await hall();
    const before = picture(model);
    const undo = await write(lose(await reading(), 'A'));
    expect((await undoPlan(undo)).outcome).toBe('done');
    expect(picture(model)).toEqual(before);
  });
});

describe('a change that something of the shop’s stands in the way of', () => {
  it('is refused where a cell that changes holds a formula, and nothing is written over', async () => {
    const { host, model } = await hall();
    const status = (await reading()).systems[0]!.keys.find((k) => k.symbol === 'AA1')!.at.row;
    const address = `F${/\d+/.exec(status.address)![0]}`;
    expect(at(model, 'Keys', address)).toBe('issued');
    // the cell is formatted as text, and a formula can't be typed into it as it stands
    model.style('Keys', parseAddress(address)!, { numberFormat: 'General' }, 'user');
    host.userEdit('Keys', address, '=IF(TRUE,"issued","")');
    model.setResult('Keys', parseAddress(address)!.row, parseAddress(address)!.column, 'issued');
    const before = picture(model);
    const plan = lose(await reading(), 'AA');
    expect(plan.steps).toEqual([]);
    expect(plan.conflicts).toMatchObject([
      {
        at: { sheet: 'Keys', address },
        holds: '=IF(TRUE,"issued","")',
        sentence: expect.stringContaining('holds a formula') as string,
      },
    ]);
    expect((await applyPlan(plan)).outcome).toBe('refused');
    expect(picture(model)).toEqual(before);
  });

  it.each(['KeyrowKeys', 'KeyrowCylinders'])('is refused where %s is filtered', async (table) => {
    const { model } = await hall();
    model.filterTable(table, 1, { filterOn: 'Values', values: ['AA1'] }, 'user');
    const plan = lose(await reading(), 'AA');
    expect(plan.steps).toEqual([]);
    expect(plan.conflicts.map((c) => c.sentence)).toEqual([expect.stringContaining('is filtered')]);
  });
});

describe('a lost top master', () => {
  it('is replaced on the sheet Systems too, with an array that holds', async () => {
    await hall();
    await write(lose(await reading(), 'A'));
    const book = await reading();
    expect(book.problems).toEqual([]);
    expect(faultsOf(book)).toEqual({});
    const [system] = book.systems;
    expect(system!.topMaster).toEqual(
      system!.keys.find((k) => k.symbol === 'A' && k.status === 'issued')?.bitting,
    );
    // and a change key can be lost under it afterwards
    expect(lose(book, 'AB1').conflicts).toEqual([]);
  });
});

describe('the questions', () => {
  it('are answered from keys in hand and pins, and written as a sheet', async () => {
    await hall();
    const book = await reading();
    const standing = standingOn(book, TODAY);
    const ask = (question: Parameters<typeof answer>[1]['question'], about = '') =>
      answer(standing, { question, about });
    const [door] = doorNames(standing);
    expect(ask('door', door).rows.map((r) => [r[0], r[2]])).toEqual([
      ['(in the cabinet)', 'A, 2 copies'],
      ['Caretaker', 'AA / 1'],
      ['(in the cabinet)', 'AA, 1 copy'],
      ['Nurse', 'AA1 / 1'],
      ['(in the cabinet)', 'AA1, 1 copy'],
    ]);
    expect(ask('masters').rows.map((r) => r[0])).toEqual(['AA / 1']);
    expect(ask('left').rows.map((r) => r[0])).toEqual(['Cook']);
    expect(ask('closed').rows).toHaveLength(2);
    expect(ask('stock').rows).toHaveLength(9);
    expect(peopleNames(standing)).toEqual(['Caretaker', 'Cook', 'Nurse']);
    const all = ask('everything');
    expect(all.headings).toEqual(['Door', 'Caretaker', 'Cook', 'Nurse']);
    expect(all.rows[0]).toEqual([door, '●', '', '●']);
    const plan = planAnswer(book, all, { made: MADE, asOf: TODAY });
    expect(describePlan(plan).sentence).toBe(
      'Adds the sheet Who opens what with 6 rows; touches nothing else.',
    );
    await write(plan);
    expect((await reading()).problems).toEqual([]);
  });
});

describe('rows that can’t be read', () => {
  /** A padlock key typed below the table as a number that lost its zero, as in an office. */
  async function withPadlock(): Promise<BookReading> {
    const { host } = await hall();
    const row = (await reading()).tables.find((t) => t.name === 'KeyrowKeys')!.box;
    const next = row.row + row.rows;
    host.userEdit('Keys', `A${next + 1}`, [['Hall', 'SKD4', 'Single', '', 27413, 'issued']]);
    await Excel.run(async (context) => {
      const table = context.workbook.tables.getItem('KeyrowKeys');
      table.resize(table.getRange().getResizedRange(1, 0));
      context.workbook.worksheets.getItem('Keys').getRange(`E${next + 1}`).numberFormat = [['General']];
      context.workbook.worksheets.getItem('Keys').getRange(`E${next + 1}`).values = [[27413]];
      await context.sync();
    });
    return reading();
  }
  const doubts = (book: BookReading, symbol: string) => {
    const system = standingOn(book, TODAY).systems[0]!;
    const lost = liveKey(system.audit.system, symbol);
    return lostKeyDoubts(book, system, lostKeyScope(system.audit.system, system.of.access, lost));
  };

  it('bar nothing where they have nothing to do with the loss, and the zero is offered back', async () => {
    const book = await withPadlock();
    expect(book.systems[0]!.keys.at(-1)).toMatchObject({ symbol: 'SKD4', bittingText: '27413' });
    const found = doubts(book, 'AA');
    expect(found.bars).toEqual([]);
    expect(found.doubtful.map((key) => key.symbol)).toEqual(['SKD4']);
    expect(found.mends).toMatchObject([{ symbol: 'SKD4', from: '27413', to: '027413' }]);
    const plan = planMends(book, found.mends);
    expect(describePlan(plan).sentence).toBe('Changes 1 cell of Keys; touches nothing else.');
    await write(plan);
    const after = await reading();
    expect(after.systems[0]!.keys.at(-1)!.bittingText).toBe('027413');
    expect(doubts(after, 'AA')).toEqual({ bars: [], doubtful: [], mends: [] });
  });

  it('bar the change where they belong to it, with the cell, what is wrong and why', async () => {
    const { host } = await hall();
    const book = await reading();
    const key = book.systems[0]!.keys.find((k) => k.symbol === 'AA2')!;
    const cylinder = book.systems[0]!.cylinders.find((c) => c.symbol === 'AB1')!;
    host.userEdit('Keys', key.at.bitting.address, '12');
    host.userEdit('Cylinders', cylinder.at.chambers[2]!.address, 'none');
    const { bars, mends } = doubts(await reading(), 'AA');
    expect(bars.map((b) => b.at)).toEqual([key.at.bitting, cylinder.at.chambers[2]]);
    expect(bars[0]!.sentence).toMatch(
      /^Key AA2 can’t be read\. .*cuts.* It is meant for a door that changes/,
    );
    expect(bars[1]!.sentence).toMatch(/^Cylinder .* can’t be read\. .* Whether the lost key opens it/);
    expect(mends).toEqual([]);
  });
});

describe('what goes with the change', () => {
  it('tells old and new of each key and chamber as the sheets do', async () => {
    await hall();
    const book = await reading();
    const { system, marks } = auditInput(book, 'Hall')!;
    const fresh = runToEnd(freshBittings({ system, marks, lost: liveKey(system, 'AA') }));
    if (!fresh.ok) throw new Error('none found');
    const changes = lostKeyChanges(book.systems[0]!, fresh);
    expect(changes.keys.map((k) => k.symbol)).toEqual(['AA', 'AA1', 'AA2', 'AA3']);
    const before = new Map(book.systems[0]!.keys.map((k) => [k.symbol, k.bittingText]));
    for (const { symbol, from, to } of changes.keys) {
      expect(from).toBe(before.get(symbol));
      expect(to).not.toBe(from);
    }
    await write(lose(book, 'AA'));
    const after = (await reading()).systems[0]!;
    for (const { cylinder, chambers } of changes.cylinders) {
      const was = book.systems[0]!.cylinders.find((c) => c.id === cylinder)!;
      const is = after.cylinders.find((c) => c.id === cylinder)!;
      const differing = was.chambers!.flatMap((set, i) => (set === is.chambers![i] ? [] : [i + 1]));
      expect(chambers.map((c) => c.chamber)).toEqual(differing);
    }
  });

  it('has the keys to call back with their holders, and each door’s zone, and no bitting on either', async () => {
    const { model } = await hall();
    const book = await reading();
    const { system, marks } = auditInput(book, 'Hall')!;
    const fresh = runToEnd(freshBittings({ system, marks, lost: liveKey(system, 'AA') }));
    if (!fresh.ok) throw new Error('none found');
    const plan = planLostKey(book, {
      made: MADE,
      system: book.systems[0]!,
      fresh,
      phases: phasesOf(system, fresh.scope, { titles: ['All'], riskOf: () => 0 }),
      orders: { shop: false, tenant: true },
      recall: [{ holder: 'Nurse', department: 'Health', symbol: 'AA1', copy: 1, since: TODAY }],
      zones: { sheet: 'Doors', zoneOf: () => 'EAST WING' },
    });
    await write(plan);
    expect([1, 2, 3, 4, 5].map((c) => at(model, 'Keys to call back', `${'ABCDE'[c - 1]}5`))).toEqual([
      'Nurse', 'Health', 'AA1', 1, MADE,
    ]); // prettier-ignore
    expect(at(model, 'Work order, tenant', 'C5')).toBe('EAST WING');
    const told = JSON.stringify([picture(model)['Keys to call back'], picture(model)['Work order, tenant']]);
    expect(bittingsIn(await reading()).filter((b) => told.includes(`"${b}"`))).toEqual([]);
  });
});
