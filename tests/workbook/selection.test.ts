/** What a selected cell is, by its place in a book made by hand. */
import { describe, expect, it } from 'vitest';
import type { CellValue } from '../../src/workbook/reading.ts';
import { goTo, subjectAt, watchSelection } from '../../src/workbook/selection.ts';
import { openBook } from '../support/office.ts';
import { bookOf, tableOf } from './byHand.ts';
import { house } from './house.ts';

const GRID = tableOf('KeyrowGrid1', 'Grid', [['Cylinder', 'A1', 'a2', 'Note'], ['c1', 'x', '', ''], ['C9', '', 'x', '']]); // prettier-ignore
const BOOK = bookOf(
  tableOf('KeyrowSpecs', 'Specs', [['Spec'], ['S-018-6'], ['S-9']]),
  tableOf('KeyrowSystems', 'Systems', [
    ['System', 'Spec', 'Grid'],
    ['Empty', 'S-018-6', ''],
    ['House', 'S-018-6', 'KeyrowGrid1'],
  ]),
  tableOf('KeyrowKeys', 'Keys', [
    ['System', 'Symbol', 'Bitting'],
    ['House', 'A1', '112345'],
    ['House', 'A2', '212345'],
  ]),
  tableOf('KeyrowCylinders', 'Cylinders', [
    ['System', 'Cylinder', 'Symbol'],
    ['House', 'C1', 'A1'],
  ]),
  GRID,
);
const AT = (address: string, sheet: string) => ({ sheet, address });
const subject = (sheet: string, address: string, value?: CellValue) =>
  subjectAt({ ...BOOK, specs: [{ name: 'S-018-6', at: AT('B5', 'Specs') }] }, AT(address, sheet), value);

describe('a selected cell', () => {
  it('is a key, a cylinder or a spec anywhere in its row', () => {
    const house = BOOK.systems[1]!;
    expect(subject('Keys', 'D6')).toStrictEqual({ kind: 'key', system: house, key: house.keys[1], at: AT('D6', 'Keys') }); // prettier-ignore
    expect(subject('KEYS', 'B5')).toMatchObject({ kind: 'key', key: { symbol: 'A1' } });
    expect(subject('Cylinders', 'B5')).toStrictEqual({ kind: 'cylinder', system: house, cylinder: house.cylinders[0], at: AT('B5', 'Cylinders') }); // prettier-ignore
    expect(subject('Specs', 'B5')).toMatchObject({ kind: 'spec', spec: { name: 'S-018-6' } });
  });

  it('is nothing of ours beside the tables, in their headings, in a row that gives nothing', () => {
    for (const [sheet, address] of [
      ['Keys', 'A5'],
      ['Keys', 'E5'],
      ['Keys', 'B4'],
      ['Keys', 'B7'],
      ['Cylinders', 'B6'],
      ['Cylinders', 'B4'],
      ['Specs', 'B6'],
      ['Other', 'B5'],
    ] as const)
      expect(subject(sheet, address, 'x')).toStrictEqual({
        kind: 'other',
        at: AT(address, sheet),
        value: 'x',
      });
    // whole rows and columns are no cell
    expect(subject('Keys', '5:5')).toStrictEqual({ kind: 'other', at: AT('5:5', 'Keys'), value: '' });
  });

  it('is the crossing of a key and a cylinder in a grid, marked or not', () => {
    const house = BOOK.systems[1]!;
    const base = { kind: 'grid', system: house };
    const [a1, a2] = house.keys;
    const [c1] = house.cylinders;
    const cell = (address: string) => subject('grid', address);
    expect(cell('C5')).toStrictEqual({ ...base, marked: true, at: AT('C5', 'grid'), key: a1, cylinder: c1 });
    expect(cell('D5')).toStrictEqual({ ...base, marked: false, at: AT('D5', 'grid'), key: a2, cylinder: c1 });
    // a row whose cylinder isn't in the sheet Cylinders, a column of the shop's own, the headings
    expect(cell('D6')).toStrictEqual({ ...base, marked: true, at: AT('D6', 'grid'), key: a2 });
    expect(cell('E5')).toStrictEqual({ ...base, marked: false, at: AT('E5', 'grid'), cylinder: c1 });
    expect(cell('C4')).toStrictEqual({ ...base, marked: false, at: AT('C4', 'grid'), key: a1 });
    expect(cell('F5').kind).toBe('other');
    expect(subject('Keys', 'C6').kind).toBe('key');
  });

  it('is the person of a row of the sheet Holders or of the ledger', () => {
    const book = house();
    const at = (sheet: string, address: string) => subjectAt(book, AT(address, sheet));
    expect(at('Holders', 'D5')).toStrictEqual({ kind: 'holder', name: 'Porter', at: AT('D5', 'Holders') });
    expect(at('Ledger', 'B6')).toMatchObject({ kind: 'holder', name: 'porter' });
    const spaced = bookOf(tableOf('KeyrowHolders', 'Holders', [['Holder'], [' Porter '], ['  ']])); // prettier-ignore
    expect(subjectAt(spaced, AT('B5', 'Holders'))).toMatchObject({ name: 'Porter' });
    expect(subjectAt(spaced, AT('B6', 'Holders')).kind).toBe('other');
    // the last row of the ledger names nobody, and its headings neither
    expect(at('Ledger', 'B11').kind).toBe('other');
    expect(at('Ledger', 'B4').kind).toBe('other');
    const nobody = bookOf(tableOf('KeyrowHolders', 'Holders', [['Person'], ['Porter']]));
    expect(subjectAt(nobody, AT('B5', 'Holders')).kind).toBe('other');
  });
});

describe('going to a cell', () => {
  it('is refused where its sheet is gone or hidden, where there is no such cell, and while one is being edited', async () => {
    const book = openBook();
    await book.run(async (context) => {
      context.workbook.worksheets.add('Hidden').visibility = 'Hidden';
      await context.sync();
    });
    expect(await goTo(AT('B5', 'Sheet1'))).toBe(true);
    expect(await goTo(AT('B5', 'Gone'))).toBe(false);
    expect(await goTo(AT('B5', 'Hidden'))).toBe(false);
    expect(await goTo(AT('nowhere', 'Sheet1'))).toBe(false);
    book.host.setCellEditMode(true);
    expect(await goTo(AT('B5', 'Sheet1'))).toBe(false);
  });
});

describe('following the selection', () => {
  it('gathers what is selected while it looks into one more look', async () => {
    const { host, settled } = openBook();
    const seen: string[] = [];
    const stop = await watchSelection((at) => seen.push(at.address));
    expect(seen).toHaveLength(1);
    for (const address of ['B2', 'B3', 'B4', 'B5']) host.userSelect('Sheet1', address);
    await expect.poll(() => seen.at(-1)).toBe('B5');
    await settled();
    await settled();
    // at once, after the first change, and once more for the three behind it
    expect(seen).toHaveLength(3);
    await stop();
  });

  it('tells nothing any more once it is stopped, and asks Excel nothing', async () => {
    const { host, settled } = openBook();
    const seen: string[] = [];
    const stop = await watchSelection((at) => seen.push(at.address));
    host.userSelect('Sheet1', 'B2');
    await stop();
    const count = seen.length;
    let asked = 0;
    host.intercept = () => {
      asked++;
      return 'pass';
    };
    host.userSelect('Sheet1', 'B3');
    for (let n = 0; n < 5; n++) await settled();
    expect([seen.length, asked]).toEqual([count, 0]);
  });
});
