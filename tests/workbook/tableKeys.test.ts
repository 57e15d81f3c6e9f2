/** Rows of the sheet Keys, cell by cell: what each gives, and what is said of a cell that can't be read. */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import type { KeyRecord } from '../../src/keying/system.ts';
import type { CellValue } from '../../src/workbook/reading.ts';
import { keyRow, readKeys } from '../../src/workbook/tableKeys.ts';
import { tableOf, told } from './byHand.ts';
import { SPEC } from './school.ts';

const HEADINGS = [
  'System',
  'Symbol',
  'Level',
  'Parent',
  'Bitting',
  'Status',
  'Keyway',
  'Cuts',
  'Copies',
  'Spec',
];
type Row = readonly CellValue[];
const keys = (...rows: readonly Row[]) =>
  readKeys(tableOf('KeyrowKeys', 'Keys', [HEADINGS, ...rows]), (system) =>
    system === 'School' ? SPEC : undefined,
  );

describe('a row of the sheet Keys', () => {
  it('gives a key for the audit with all that is typed, and where it stands', () => {
    const { rows, problems } = keys(
      ['School', 'AA1', 'CK', 'AA', '536453', 'issued', 'K1', 5, 3, 's-018-6'],
      ['School', 'S1', '', '', '012345', '', '', '', '', ''],
    );
    expect(problems).toStrictEqual([]);
    const [bitting, single] = [
      [5, 3, 6, 4, 5, 3],
      [0, 1, 2, 3, 4, 5],
    ].map((cuts) => bittingOf(SPEC, cuts));
    const cell = (address: string) => ({ sheet: 'Keys', address });
    expect(rows).toStrictEqual([
      {
        system: 'School',
        symbol: 'AA1',
        bittingText: '536453',
        bitting,
        level: 'CK',
        parent: 'AA',
        status: 'issued',
        keyway: 'K1',
        specName: 's-018-6',
        copies: 3,
        at: { row: cell('C5'), system: cell('B5'), symbol: cell('C5'), bitting: cell('F5') },
        record: {
          symbol: 'AA1',
          level: 'CK',
          parent: 'AA',
          bitting,
          status: 'issued',
          keyway: 'K1',
          cuts: 5,
        },
      },
      {
        system: 'School',
        symbol: 'S1',
        bittingText: '012345',
        bitting: single,
        level: 'single',
        status: 'reserved',
        specName: '',
        at: { row: cell('C6'), system: cell('B6'), symbol: cell('C6'), bitting: cell('F6') },
        record: { symbol: 'S1', level: 'single', bitting: single, status: 'reserved' },
      },
    ]);
  });

  it('takes a level in the words and abbreviations that are used for it, and each status', () => {
    const words = {
      CK: ['ck', 'change key'],
      MK: ['MK', 'master', 'Master Key'],
      GMK: ['gmk', 'grand master', 'grand master key'],
      GGMK: ['ggmk', 'great grand master', 'great grand master key'],
      control: ['control', 'Control key', 'CTR'],
      single: ['single', 'single keyed', 'SKD'],
    };
    for (const [level, all] of Object.entries(words))
      for (const word of all) expect(keys(['School', 'A', word]).rows[0]!.level).toBe(level);
    for (const status of ['free', 'reserved', 'issued', 'void', 'retired'])
      expect(keys(['School', 'A', '', '', '', status.toUpperCase()]).rows[0]!.status).toBe(status);
    const { rows, problems } = keys(['School', 'A', 'boss', '', '012345', 'gone']);
    expect(rows[0]).not.toHaveProperty('record');
    expect(rows[0]).not.toHaveProperty('level');
    expect(rows[0]).not.toHaveProperty('status');
    expect(told(problems)).toStrictEqual([
      'fault Keys!D5 “boss” is none of CK, MK, GMK, GGMK, Control, Single.',
      'fault Keys!G5 “gone” is none of free, reserved, issued, void, retired.',
    ]);
  });

  it('without a symbol, a level or a status that can be read is not audited', () => {
    for (const row of [
      ['School', '', 'CK', '', '012345', 'issued'],
      ['School', 'A', 'boss', '', '012345', 'issued'],
      ['School', 'A', 'CK', '', '012345', 'gone'],
    ]) {
      const read = keys(row).rows[0]!;
      expect(read.bitting).toStrictEqual([0, 1, 2, 3, 4, 5]);
      expect(read).not.toHaveProperty('record');
    }
    expect(keys(['School', '', 'CK', '', '012345']).rows[0]!.symbol).toBe('');
    expect(told(keys(['School', 'A', '', '', '012345', '', '', 0, -1]).problems)).toStrictEqual([
      'fault Keys!I5 “0” is not a whole number from 1 on.',
      'fault Keys!J5 “-1” is not a whole number from 0 on.',
    ]);
    expect(keys(['School', 'A', '', '', '012345', '', '', '', 0]).rows[0]!.copies).toBe(0);
  });

  it('without a bitting that can be read says so at its cell', () => {
    const { rows, problems } = keys(
      ['School', 'A'],
      ['School', 'B', '', '', 12345],
      ['School', 'C', '', '', '01234x'],
      ['School', 'D', '', '', 123456],
      ['Nowhere', 'E', '', '', '012345'],
      ['Nowhere', 'F', '', '', 12345],
    );
    expect(rows.map(({ bittingText }) => bittingText)).toStrictEqual([
      '',
      '12345',
      '01234x',
      '123456',
      '012345',
      '12345',
    ]);
    // of a system without a spec no bitting can be read, whatever it is
    expect(rows.map((row) => 'bitting' in row)).toStrictEqual([false, false, false, true, false, false]);
    expect(rows.map((row) => 'record' in row)).toStrictEqual([false, false, false, true, false, false]);
    const number =
      'This code is a number, not text, so zeros at its front are lost. Format the cell as text and type the code again.';
    const all = told(problems);
    expect(all.map((one) => one.split(' ', 2).join(' '))).toStrictEqual([
      'warning Keys!F5',
      'warning Keys!F6',
      'fault Keys!F6',
      'fault Keys!F7',
      'warning Keys!F8',
      'warning Keys!F10',
    ]);
    expect([all[0], all[1]]).toStrictEqual([
      'warning Keys!F5 This key has no bitting.',
      `warning Keys!F6 ${number}`,
    ]);
    expect(all[2]).toContain('012345');
    expect(all[3]).toContain('x');
  });

  it('that names another spec than its system’s is a fault, and not audited', () => {
    const { rows, problems } = keys(['School', 'A', '', '', '012345', '', '', '', '', 'S-025-5']);
    expect(rows[0]).not.toHaveProperty('record');
    expect(rows[0]!.specName).toBe('S-025-5');
    expect(told(problems)).toStrictEqual([
      'fault Keys!K5 This key names the spec S-025-5, but its system has S-018-6. Correct one of the two; until then the key is not audited.',
    ]);
    // of a system that isn't known there is nothing to differ from
    expect(keys(['Nowhere', 'A', '', '', '012345', '', '', '', '', 'S-025-5']).problems).toStrictEqual([]);
  });

  it('says which columns are gone that an audit needs', () => {
    const gone = tableOf('KeyrowKeys', 'Keys', [
      ['System', 'Symbol', 'Bitting'],
      ['School', 'A', '012345'],
      ['School', 'B', '543210'],
    ]);
    const { rows, problems } = readKeys(gone, () => SPEC);
    expect(rows.some((row) => 'record' in row)).toBe(false);
    const sentence = (heading: string): string =>
      `fault Keys!B4 The table KeyrowKeys has no column “${heading}”. Add it, or give the renamed column its name back.`;
    expect(told(problems)).toStrictEqual([sentence('Level'), sentence('Status')]);
  });

  it('is read where only the needed columns are there', () => {
    const asked: string[][] = [];
    const turned = tableOf('KeyrowKeys', 'Keys', [['Bitting', 'System', 'Symbol'], ['012345', 'School', 'A']]); // prettier-ignore
    const { at } = readKeys(turned, () => SPEC).rows[0]!;
    expect([at.row, at.system, at.symbol, at.bitting].map(({ address }) => address)).toEqual(['D5', 'C5', 'D5', 'B5']); // prettier-ignore
    const bare = tableOf('KeyrowKeys', 'Keys', [
      ['System', 'Symbol', 'Bitting'],
      ['School', 'A', '012345'],
    ]);
    const { rows } = readKeys(bare, (...names) => {
      asked.push(names);
      return SPEC;
    });
    expect(rows[0]).toMatchObject({ symbol: 'A', bitting: [0, 1, 2, 3, 4, 5], specName: '' });
    expect(asked).toStrictEqual([['School', '']]);
    const none = readKeys(tableOf('KeyrowKeys', 'Keys', [['Symbol'], ['A']]), (...names) => {
      asked.push(names);
      return undefined;
    });
    expect(none.rows[0]).toMatchObject({ system: '', bittingText: '' });
    expect(asked[1]).toStrictEqual(['', '']);
  });
});

describe('a key written to the sheet', () => {
  it('has its cells in the order of the columns', () => {
    const bitting = bittingOf(SPEC, [5, 3, 6, 4, 5, 3]);
    const key: KeyRecord = { symbol: 'AA1', level: 'CK', bitting, status: 'issued' };
    expect(keyRow(key, SPEC, { system: 'School' })).toStrictEqual(
      ['School', 'AA1', 'CK', '', '536453', 'issued', '', '', '', 'S-018-6', '', ''], // prettier-ignore
    );
    const full = keyRow({ ...key, level: 'control', parent: 'AA', keyway: 'K1', cuts: 5 }, SPEC, {
      system: 'School',
      copies: 3,
    });
    expect(full).toStrictEqual(
      ['School', 'AA1', 'Control', 'AA', '536453', 'issued', 'K1', 5, 3, 'S-018-6', '', ''], // prettier-ignore
    );
    const levels = (['MK', 'GMK', 'GGMK', 'single'] as const).map(
      (level) => keyRow({ ...key, level }, SPEC, { system: 'School' })[2],
    );
    expect(levels).toStrictEqual(['MK', 'GMK', 'GGMK', 'Single']);
  });
});
