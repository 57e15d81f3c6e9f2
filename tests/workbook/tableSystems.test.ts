/** Rows of the sheet Systems, cell by cell. */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import type { CellValue } from '../../src/workbook/reading.ts';
import { readSystems, systemRow } from '../../src/workbook/tableSystems.ts';
import { tableOf, told } from './byHand.ts';
import { SPEC } from './school.ts';

const ARRAY = [1, 2, 3, 4, 5, 6, 7, 8].map((c) => `Array ${c}`);
const HEADINGS = ['System', 'Spec', 'Keyway', 'Top master', ...ARRAY, 'Grid', 'Note'];
const systems = (headings: readonly string[], ...rows: readonly (readonly CellValue[])[]) =>
  readSystems(tableOf('KeyrowSystems', 'Systems', [headings, ...rows]), (name) =>
    name === 'S-018-6' ? SPEC : undefined,
  );
const cell = (address: string) => ({ sheet: 'Systems', address });

describe('a row of the sheet Systems', () => {
  it('gives a system with all that is typed, and only that', () => {
    const { rows, problems } = systems(
      HEADINGS,
      ['School', 'S-018-6', 'K1', '354635', '1 5', '', '2', 2, '1 5 7 9', '', '3', 'x', 'KeyrowGrid1', 'old'],
      ['Works', 'S-018-6'],
    );
    expect(problems).toStrictEqual([]);
    expect(rows).toStrictEqual([
      {
        name: 'School',
        specName: 'S-018-6',
        spec: SPEC,
        keyway: 'K1',
        topMaster: [3, 5, 4, 6, 3, 5],
        // two chambers without a choice; beyond the spec's six none is read
        array: [[1, 5], [], [2], [2], [1, 5, 7, 9], []],
        grid: 'KeyrowGrid1',
        note: 'old',
        at: cell('B5'),
      },
      { name: 'Works', specName: 'S-018-6', spec: SPEC, at: cell('B6') },
    ]);
  });

  it('without a sound spec says so, and nothing else of it is read', () => {
    const { rows, problems } = systems(
      HEADINGS,
      ['School', 'S-9', 'K1', '354635', '1 5'],
      ['', '', 'K1', '354635', '1 5'],
    );
    expect(rows).toStrictEqual([
      { name: 'School', specName: 'S-9', keyway: 'K1', at: cell('B5') },
      { name: '', specName: '', keyway: 'K1', at: cell('B6') },
    ]);
    expect(told(problems)).toStrictEqual([
      'fault Systems!B6 There is no system name here. Type one, or clear the whole row.',
      'fault Systems!C6 There is no spec name here. Type one, or clear the whole row.',
      'fault Systems!C5 There is no sound spec “S-9” in the sheet Specs, so nothing of this system can be checked. Add or correct it.',
    ]);
  });

  it('with a top master or an array that can’t be read says which cell it is', () => {
    const { rows, problems } = systems(
      HEADINGS,
      ['A', 'S-018-6', '', '35463x'],
      ['B', 'S-018-6', '', 354635],
      ['C', 'S-018-6', '', 35463],
      ['D', 'S-018-6', '', '', '1 5', '1 x', '22'],
    );
    expect(rows.map(({ topMaster }) => topMaster?.join(''))).toStrictEqual([
      undefined,
      '354635',
      undefined,
      undefined,
    ]);
    expect(rows.some((row) => 'array' in row)).toBe(false);
    expect(told(problems).map((one) => one.slice(0, 45))).toStrictEqual([
      expect.stringMatching(/^fault Systems!E5 /),
      'warning Systems!E6 This code is a number, not',
      'warning Systems!E7 This code is a number, not',
      expect.stringMatching(/^fault Systems!E7 /),
      expect.stringMatching(/^fault Systems!G8 There is no depth X/),
      expect.stringMatching(/^fault Systems!H8 “22” runs together/),
    ]);
  });

  it('takes columns of the array that are gone for chambers without a choice', () => {
    const { rows } = systems(['Array 3', 'System', 'Spec'], ['2 4', 'A', 'S-018-6'], ['', 'B', 'S-018-6']);
    expect(rows.map(({ array }) => array)).toStrictEqual([[[], [], [2, 4], [], [], []], undefined]);
    expect(rows[0]!.at).toStrictEqual(cell('C5'));
    // the cell of a fault is the column's own, wherever it stands
    expect(told(systems(['Array 3', 'System', 'Spec'], ['x', 'A', 'S-018-6']).problems)).toStrictEqual([
      expect.stringMatching(/^fault Systems!B5 There is no depth X/),
    ]);
  });
});

describe('a system written to the sheet', () => {
  it('has its cells in the order of the columns', () => {
    const system = { name: 'School', spec: SPEC, keys: [], cylinders: [] };
    const blanks = (count: number): string[] => Array.from({ length: count }, () => '');
    expect(systemRow(system, { levels: 3 })).toStrictEqual(['School', 'S-018-6', '', 3, '', ...blanks(13)]);
    const full = systemRow(
      { ...system, topMaster: bittingOf(SPEC, [3, 5, 4, 6, 3, 5]), array: [[1, 5], [], [2], [2], [1], [9]] },
      {
        levels: 2,
        keyway: 'K1',
        deal: 'masters 1',
        seed: 0,
        rules: 'MACS 5',
        grid: 'KeyrowGrid1',
        note: 'n',
      },
    );
    expect(full).toStrictEqual([
      'School', 'S-018-6', 'K1', 2, '354635', '1 5', '', '2', '2', '1', '9', '', '',
      'masters 1', 0, 'MACS 5', 'KeyrowGrid1', 'n',
    ]); // prettier-ignore
  });
});
