/** Rows of the sheet Construction, cell by cell: which chambers are not handed over, and what is wrong with a row. */
import { describe, expect, it } from 'vitest';
import { depthSetOf, EVERY, NONE } from '../../src/keying/depthSet.ts';
import type { CellValue } from '../../src/workbook/reading.ts';
import { openConstructions } from '../../src/workbook/tableConstruction.ts';
import { bookOf, tableOf, told } from './byHand.ts';

const HEADINGS = ['Symbol', 'System', 'Cylinder', 'Chamber', 'Before', 'After', 'Handed over'];
const SYSTEMS = tableOf('KeyrowSystems', 'Systems', [
  ['System', 'Spec'],
  ['Hall', 'S-018-6'],
  ['Works', 'S-9'],
]);
const open = (...rows: readonly (readonly CellValue[])[]) =>
  openConstructions(bookOf(SYSTEMS, tableOf('KeyrowConstruction', 'Construction', [HEADINGS, ...rows])));

describe('construction keys that still operate', () => {
  it('have the chambers that were not handed over, key by key in the order of the sheet', () => {
    const found = open(
      ['CON', 'Hall', 'C1', 2, '1 3', '3', ''],
      ['CON2', 'Hall', 'C1', '3', 'any', '4', ''],
      ['con', 'HALL', 'C2', 2, '1', '5', ' '],
      ['CON', 'Hall', 'C3', 2, '1', '5', '2026-03-14'],
      ['CON3', 'Hall', 'C3', 2, '1', '5', 'yes'],
      ['', 'Hall', 'C3', 2, '1', '5', ''],
      ['CON', '', 'C3', 2, '1', '5', ''],
    );
    const handed = (address: string) => ({ sheet: 'Construction', address });
    expect(found).toStrictEqual([
      {
        system: 'Hall',
        symbol: 'CON',
        chambers: [
          {
            cylinder: 'C1',
            chamber: 2,
            before: depthSetOf([1, 3]),
            after: depthSetOf([3]),
            handed: handed('H5'),
          },
          {
            cylinder: 'C2',
            chamber: 2,
            before: depthSetOf([1]),
            after: depthSetOf([5]),
            handed: handed('H7'),
          },
        ],
        problems: [],
      },
      {
        system: 'Hall',
        symbol: 'CON2',
        chambers: [
          { cylinder: 'C1', chamber: 3, before: EVERY, after: depthSetOf([4]), handed: handed('H6') },
        ],
        problems: [],
      },
    ]);
  });

  it('have the faults of their own rows', () => {
    const fill = ['CON', 'Hall', 'C1', 1, '1', '2', ''];
    const found = open(
      ['BAD', 'Hall', '', 0, '1', '2', ''],
      ...Array.from({ length: 9 }, () => fill),
      ['BAD2', 'Hall', 'C1', 1, 'x', '', ''],
      ['BAD3', 'Nowhere', 'C1', 1, '1', '2', ''],
      ['BAD3', 'Works', 'C1', 1, '1', '2', ''],
    );
    expect(found.map(({ symbol, system, chambers }) => [symbol, system, chambers.length])).toEqual([
      ['BAD', 'Hall', 0],
      ['CON', 'Hall', 9],
      ['BAD2', 'Hall', 1],
      ['BAD3', 'Nowhere', 0],
      ['BAD3', 'Works', 0],
    ]);
    expect(found.map(({ problems }) => told(problems))).toEqual([
      [
        'fault Construction!D5 There is no cylinder number here. Type one, or clear the whole row.',
        'fault Construction!E5 “0” is not a whole number from 1 on.',
      ],
      [],
      [
        expect.stringMatching(/^fault Construction!F15 There is no depth X/),
        'fault Construction!G15 The cell is blank; write any for an empty chamber.',
      ],
      [
        'fault Construction!C16 There is no system Nowhere with a sound spec, so this row can’t be handed over. Correct the name or the spec.',
      ],
      [
        'fault Construction!C17 There is no system Works with a sound spec, so this row can’t be handed over. Correct the name or the spec.',
      ],
    ]);
    expect(found[2]!.chambers[0]).toMatchObject({ before: NONE, after: NONE });
    const [blank] = open(
      ['CON', 'Hall', 'C1', '', '1', '2', ''],
      ['CON', 'Hall', 'C2', '', '1', '2', ''],
      ['CON', 'Hall', '', 3, '1', '2', ''],
      ...Array.from({ length: 7 }, () => fill),
      // rows 5 and 15 are two, and what is wrong with a row that is handed over is nobody's
      ['CON', 'Hall', 'C2', 0, '1', '2', '2026-03-14'],
    );
    expect(blank!.chambers).toHaveLength(7);
    expect(told(blank!.problems)).toEqual([
      'fault Construction!E5 Type which chamber this is, counted from 1.',
      'fault Construction!E6 Type which chamber this is, counted from 1.',
      'fault Construction!D7 There is no cylinder number here. Type one, or clear the whole row.',
    ]);
  });

  it('are none without the sheet, or without a column that it needs', () => {
    expect(openConstructions(bookOf(SYSTEMS))).toEqual([]);
    const lame = tableOf('KeyrowConstruction', 'Construction', [
      HEADINGS.slice(0, 6),
      ['CON', 'Hall', 'C1', 1, '1', '2'],
    ]);
    expect(openConstructions(bookOf(SYSTEMS, lame))).toEqual([]);
  });
});
