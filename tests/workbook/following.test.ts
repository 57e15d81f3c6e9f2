/** Reading the shop's own sheet, following the selection and keeping choices, through the real proxies. */
import { describe, expect, it } from 'vitest';
import {
  auditInput,
  goTo,
  readSchedule,
  readSettings,
  subjectAt,
  watchSelection,
  writeSettings,
  type Place,
} from '../../src/workbook/index.ts';
import { openBook } from '../support/office.ts';
import { reading, writeSystem } from './book.ts';
import { school } from './school.ts';

describe('the selected cell', () => {
  it.each([
    ['Keys', 'E8', { kind: 'key', key: { symbol: 'AA1' } }],
    ['Cylinders', 'G6', { kind: 'cylinder', cylinder: { id: 'C2' } }],
    ['Grid', 'G5', { kind: 'grid', key: { symbol: 'AA1' }, cylinder: { id: 'C1' }, marked: true }],
    ['Grid', 'G6', { kind: 'grid', key: { symbol: 'AA1' }, cylinder: { id: 'C2' }, marked: false }],
    ['Grid', 'A6', { kind: 'grid', cylinder: { id: 'C2' }, marked: false }],
    ['Specs', 'A5', { kind: 'spec', spec: { name: 'S-018-6' } }],
    ['Specs', 'A2', { kind: 'other' }],
    ['Keys', 'E40', { kind: 'other' }],
    ['Sheet1', 'E8', { kind: 'other' }],
  ])('%s!%s is known for what it is', async (sheet, address, subject) => {
    openBook();
    await writeSystem(school());
    expect(subjectAt(await reading(), { sheet, address })).toMatchObject(subject);
  });

  it('is followed until told otherwise', async () => {
    const { host, settled } = openBook();
    await writeSystem(school());
    const seen: [Place, unknown][] = [];
    const stop = await watchSelection((place, value) => seen.push([place, value]));
    expect(seen).toHaveLength(1);
    host.userSelect('Keys', 'E5');
    await settled();
    await expect.poll(() => seen.at(-1)).toEqual([{ sheet: 'Keys', address: 'E5' }, '354635']);
    await stop();
    const count = seen.length;
    host.userSelect('Keys', 'E6');
    await settled();
    await settled();
    expect(seen).toHaveLength(count);
  });

  it('is no matter while a cell is being edited', async () => {
    const { host, settled } = openBook();
    await writeSystem(school());
    const seen: Place[] = [];
    const stop = await watchSelection((place) => seen.push(place));
    host.setCellEditMode(true);
    host.userSelect('Keys', 'E5');
    await settled();
    await settled();
    host.setCellEditMode(false);
    host.userSelect('Keys', 'E6');
    await expect.poll(() => seen.at(-1)).toEqual({ sheet: 'Keys', address: 'E6' });
    await stop();
  });
});

describe('going to a cell', () => {
  it('selects it on its sheet', async () => {
    const { run } = openBook();
    await writeSystem(school());
    expect(await goTo({ sheet: 'Keys', address: 'E6' })).toBe(true);
    const selected = await run(async (context) => {
      const range = context.workbook.getSelectedRange();
      range.load('address');
      await context.sync();
      return range.address;
    });
    expect(selected).toBe('Keys!E6');
  });

  it('says so where its sheet is gone or hidden', async () => {
    const { model } = openBook();
    await writeSystem(school());
    model.showSheet('Keys', 'hidden', 'user');
    expect(await goTo({ sheet: 'Keys', address: 'E6' })).toBe(false);
    expect(await goTo({ sheet: 'Gone', address: 'E6' })).toBe(false);
  });
});

describe('choices of a workbook', () => {
  it('are kept in it', async () => {
    openBook();
    expect(await readSettings()).toEqual({});
    const chosen = {
      spec: 'S-018-6',
      schedule: { sheet: 'Doors', columns: { headerRow: 3, door: 0, symbol: 2 } },
    };
    expect(await writeSettings(chosen)).toBe(true);
    expect(await readSettings()).toEqual(chosen);
    expect(await writeSettings({ spec: 'S-030-5' })).toBe(true);
    expect(await readSettings()).toEqual({ spec: 'S-030-5' });
  });

  it('that somebody else garbled are none', async () => {
    const { model } = openBook();
    model.setSetting('Keyrow', JSON.stringify('{"spec": 5'), 'user');
    expect(await readSettings()).toEqual({});
  });
});

describe('the shop’s schedule', () => {
  it('is read below its title block, with the place of each door', async () => {
    const { host } = openBook();
    host.userEdit('Sheet1', 'B2', [
      ['West wing', '', '', ''],
      ['', '', '', ''],
      ['Door No.', 'Room', 'Keyset', 'Qty'],
      ["'0101", 'Office', 'AA1', 1],
      ["'0102", 'Store', 'AA2', ''],
      ['', 'Upper floor', '', ''],
      ['', '', 'AA3', ''],
      ["'0201", 'Hall', 'AA4', 'two'],
    ]);
    const read = await readSchedule('Sheet1');
    if (!read.ok) throw new Error(read.error.sentence);
    const { guess, rows, problems } = read.value;
    expect(guess).toMatchObject({ headers: ['Door No.', 'Room', 'Keyset', 'Qty'], rows: 3 });
    expect(rows.slice(0, 2)).toEqual([
      {
        door: '0101',
        location: 'Office',
        symbol: 'AA1',
        quantity: 1,
        at: { sheet: 'Sheet1', address: 'B5' },
      },
      { door: '0102', location: 'Store', symbol: 'AA2', quantity: 1, at: { sheet: 'Sheet1', address: 'B6' } },
    ]);
    expect(problems.map(({ address, sentence }) => [address, sentence])).toEqual([
      ['D8', 'This row has a keyset or a quantity but no door. Type the door’s number, or clear the row.'],
      ['E9', '“two” is not a whole number of cylinders. Type one.'],
    ]);
  });

  it('is read by the columns that the user chose', async () => {
    const { host } = openBook();
    host.userEdit('Sheet1', 'A1', [
      ['Name', 'Key'],
      ['Gate', 'B1'],
    ]);
    const read = await readSchedule('Sheet1', { headerRow: 0, door: 0, symbol: 1 });
    expect(read.ok && read.value.rows).toMatchObject([{ door: 'Gate', symbol: 'B1' }]);
  });

  it('that isn’t there is said so', async () => {
    openBook();
    const empty = await readSchedule('Sheet1');
    expect(!empty.ok && empty.error.sentence).toContain(
      'The sheet Sheet1 is empty. Choose the one with the doors.',
    );
    const gone = await readSchedule('Nowhere');
    expect(!gone.ok && gone.error.code).toBe('ItemNotFound');
  });
});

describe('marks put by hand', () => {
  it('count like ours, and what has no row or column follows the hierarchy', async () => {
    const { host, model } = openBook();
    await writeSystem(school());
    // AB1 may open the front door C1 too; the column of AA2 and the row of C4 are taken out
    host.userEdit('Grid', 'I5', 'x');
    model.deleteTableColumn('KeyrowGrid1', 7, 'user');
    model.deleteTableRows('KeyrowGrid1', 3, 1, 'user');
    const asked = auditInput(await reading(), 'School');
    const keysOf = (cylinder: string) =>
      asked?.marks
        .filter((m) => m.cylinder === cylinder)
        .map((m) => m.key)
        .sort();
    expect(keysOf('C1')).toEqual(['A', 'AA', 'AA1', 'AB1']);
    expect(keysOf('C2')).toEqual(['A', 'AA', 'AA2']);
    expect(keysOf('C4')).toEqual(['A', 'AB', 'AB2']);
  });
});

describe('rows that are left out of an audit', () => {
  it('are keys of another spec than their system, and cylinders without pins', async () => {
    const { host } = openBook();
    await writeSystem(school());
    host.userEdit('Keys', 'J6', 'S-025-5');
    host.userEdit('Cylinders', 'G5', [['', '', '', '', '', '']]);
    const book = await reading();
    expect(book.problems.map(({ sheet, address, severity }) => [sheet, address, severity])).toEqual([
      ['Keys', 'J6', 'fault'],
      ['Cylinders', 'G5', 'warning'],
    ]);
    expect(auditInput(book, 'School')?.leftOut).toEqual({ keys: ['AA'], cylinders: ['C1'] });
  });
});
