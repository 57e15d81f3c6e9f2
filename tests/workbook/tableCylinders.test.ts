/** Rows of the sheet Cylinders, cell by cell. */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import { depthSetOf, EVERY } from '../../src/keying/depthSet.ts';
import type { CellValue } from '../../src/workbook/reading.ts';
import { cylinderRow, readCylinders } from '../../src/workbook/tableCylinders.ts';
import { tableOf, told } from './byHand.ts';
import { SPEC } from './school.ts';

const CHAMBERS = ['Ch 1', 'Ch 2', 'Ch 3', 'Ch 4', 'Ch 5', 'Ch 6'];
const HEADINGS = [
  'System',
  'Cylinder',
  'Door',
  'Location',
  'Symbol',
  'Keyway',
  ...CHAMBERS,
  'Control',
  'Ch 7',
];
const cylinders = (headings: readonly string[], ...rows: readonly (readonly CellValue[])[]) =>
  readCylinders(tableOf('KeyrowCylinders', 'Cylinders', [headings, ...rows]), (system) =>
    system === 'School' ? SPEC : undefined,
  );
const cell = (address: string) => ({ sheet: 'Cylinders', address });

describe('a row of the sheet Cylinders', () => {
  it('gives all that is typed, and where it stands', () => {
    const { rows, problems } = cylinders(
      HEADINGS,
      ['School', 'C1', '101', 'Hall', 'AA1', 'K1', '3 5', 3, 'any', '4/6', '5', '3', '543210', ''],
      ['School', 'C2', '', '', 'AA2', '', 0, '1', '2', '3', '4', '5'],
    );
    expect(problems).toStrictEqual([]);
    const chambers = ['H', 'I', 'J', 'K', 'L', 'M'];
    expect(rows).toStrictEqual([
      {
        system: 'School',
        id: 'C1',
        symbol: 'AA1',
        door: '101',
        location: 'Hall',
        keyway: 'K1',
        chambers: [[3, 5], [3], undefined, [4, 6], [5], [3]].map((d) => (d ? depthSetOf(d) : EVERY)),
        control: [5, 4, 3, 2, 1, 0],
        at: {
          row: cell('C5'),
          system: cell('B5'),
          symbol: cell('F5'),
          chambers: chambers.map((c) => cell(`${c}5`)),
          control: cell('N5'),
        },
      },
      {
        system: 'School',
        id: 'C2',
        symbol: 'AA2',
        chambers: [0, 1, 2, 3, 4, 5].map((d) => depthSetOf([d])),
        at: {
          row: cell('C6'),
          system: cell('B6'),
          symbol: cell('F6'),
          chambers: chambers.map((c) => cell(`${c}6`)),
          control: cell('N6'),
        },
      },
    ]);
  });

  it('that is not pinned, or not readable, is not audited and says so', () => {
    const { rows, problems } = cylinders(
      HEADINGS,
      ['School', 'C1', '', '', 'A', '', '', ' ', '', '', '', ''],
      ['School', 'C2', '', '', 'A', '', '0', '1', 'x', '3', true, '5'],
      ['School', 'C3', '', '', 'A', '', '0', '1', '2', '3', '4', ''],
      ['School', '', '', '', '', '', '0', '1', '2', '3', '4', '5'],
      ['Nowhere', 'C5', '', '', 'A', '', '0', '1', '2', '3', '4', '5'],
    );
    expect(rows.map((row) => 'chambers' in row)).toStrictEqual([false, false, false, true, false]);
    expect(rows[3]).toMatchObject({ id: '', symbol: '' });
    // as many cells as the longest key has cuts, where no spec says how many
    expect(rows[4]!.at.chambers.length).toBe(8);
    const all = told(problems);
    expect(all).toStrictEqual([
      'fault Cylinders!C8 There is no cylinder number here. Type one, or clear the whole row.',
      'fault Cylinders!F8 There is no keyset symbol here. Type one, or clear the whole row.',
      'warning Cylinders!H5 This cylinder is not pinned yet, so it is not audited.',
      expect.stringMatching(/^fault Cylinders!J6 There is no depth X; /),
      expect.stringMatching(/^fault Cylinders!L6 There is no depth TRUE; /),
      'fault Cylinders!M7 The cell is blank; write any for an empty chamber.',
    ]);
  });

  it('with control cuts that can’t be read is not audited', () => {
    const pins = ['0', '1', '2', '3', '4', '5'];
    const { rows, problems } = cylinders(
      HEADINGS,
      ['School', 'C1', '', '', 'A', '', ...pins, '54321x'],
      ['School', 'C2', '', '', 'A', '', ...pins, 543210],
      ['School', 'C3', '', '', 'A', '', ...pins, 43210],
      ['Nowhere', 'C4', '', '', 'A', '', ...pins, 43210],
    );
    expect(rows.map((row) => 'chambers' in row)).toStrictEqual([false, true, false, false]);
    expect(rows.map(({ control }) => control?.join(''))).toStrictEqual([
      undefined,
      '543210',
      undefined,
      undefined,
    ]);
    expect(told(problems).map((one) => one.slice(0, 40))).toStrictEqual([
      expect.stringMatching(/^fault Cylinders!N5 /),
      'warning Cylinders!N6 This code is a numb',
      'warning Cylinders!N7 This code is a numb',
      expect.stringMatching(/^fault Cylinders!N7 /),
    ]);
  });

  it('says of a chamber that the spec doesn’t have that it isn’t read', () => {
    const pins = ['0', '1', '2', '3', '4', '5'];
    const { rows, problems } = cylinders(
      HEADINGS,
      ['School', 'C1', '', '', 'A', '', ...pins, '', '3'],
      ['Nowhere', 'C2', '', '', 'A', '', ...pins, '', '3'],
    );
    expect(rows[0]!.chambers).toHaveLength(6);
    expect(told(problems)).toStrictEqual([
      'warning Cylinders!O5 S-018-6 has 6 chambers, so this cell is not read. Clear it, or check the spec.',
    ]);
  });

  it('says which column of a chamber is gone', () => {
    const few = ['System', 'Cylinder', 'Symbol', ...CHAMBERS.filter((_, c) => c !== 2 && c !== 5)];
    const { rows, problems } = cylinders(
      few,
      ['School', 'C1', 'A', '0', '1', '3', '4'],
      ['School', 'C2', 'A', '0', '1', '3', '4'],
      ['Nowhere', 'C3', 'A', '0', '1', '3', '4'],
    );
    expect(rows.map((row) => 'chambers' in row)).toStrictEqual([false, false, false]);
    expect(rows[0]!.at).toStrictEqual({
      row: cell('C5'),
      system: cell('B5'),
      symbol: cell('D5'),
      // a column that is gone has no cell, so the row's first stands for it
      chambers: ['E5', 'F5', 'B5', 'G5', 'H5', 'B5'].map(cell),
    });
    const gone = (heading: string): string =>
      `fault Cylinders!B4 The table KeyrowCylinders has no column “${heading}”. Add it, or give the renamed column its name back.`;
    expect(told(problems)).toStrictEqual([gone('Ch 3'), gone('Ch 6')]);
    // nobody misses a chamber where no system has a spec
    expect(cylinders(few, ['Nowhere', 'C3', 'A', '0', '1', '3', '4']).problems).toStrictEqual([]);
    // columns may stand anywhere, the first among them; not pinned is what has no pins in the spec's own chambers
    const turned = cylinders(
      ['Ch 1', 'Control', ...CHAMBERS.slice(1), 'Ch 7', 'Cylinder', 'Symbol', 'System'],
      ['0', '', '1', '2', '3', '4', '5', '', 'C1', 'A', 'School'],
      ['', '', '', '', '', '', '', '3', 'C2', 'A', 'School'],
    );
    expect(turned.rows[0]!.chambers).toStrictEqual([0, 1, 2, 3, 4, 5].map((d) => depthSetOf([d])));
    expect(turned.rows[0]!.at).toMatchObject({ system: cell('L5'), control: cell('C5') });
    expect(told(turned.problems)).toStrictEqual([
      'warning Cylinders!B6 This cylinder is not pinned yet, so it is not audited.',
      'warning Cylinders!I6 S-018-6 has 6 chambers, so this cell is not read. Clear it, or check the spec.',
    ]);
    const first = cylinders(
      ['Control', 'Ch 7', 'Cylinder', 'Symbol', 'System'],
      ['', '3', 'C1', 'A', 'School'],
    );
    expect(first.rows[0]!.at.control).toStrictEqual(cell('B5'));
    const seventh = cylinders(['Ch 7', 'Cylinder', 'Symbol', 'System'], ['3', 'C1', 'A', 'School']);
    expect(told(seventh.problems)[1]).toMatch(/^warning Cylinders!B5 S-018-6 has 6 chambers/);
    const bare = readCylinders(tableOf('KeyrowCylinders', 'Cylinders', [['Symbol'], ['A']]), (system) => {
      expect(system).toBe('');
      return undefined;
    });
    expect(bare.rows[0]).toMatchObject({ system: '', id: '', symbol: 'A' });
  });
});

describe('a cylinder written to the sheet', () => {
  it('has its cells in the order of the columns', () => {
    const chambers = [depthSetOf([3, 5]), EVERY, ...[1, 2, 3, 4].map((d) => depthSetOf([d]))];
    const written = ['3 5', 'any', '1', '2', '3', '4', '', ''];
    expect(cylinderRow({ id: 'C1', symbol: 'AA1', chambers }, SPEC, { system: 'School' })).toStrictEqual(
      ['School', 'C1', '', '', 'AA1', '', ...written, '', 'S-018-6', '', ''], // prettier-ignore
    );
    const full = { id: 'C1', symbol: 'AA1', door: '101', keyway: 'K1', chambers: [...chambers, EVERY, EVERY], control: bittingOf(SPEC, [5, 4, 3, 2, 1, 0]) }; // prettier-ignore
    // of chambers beyond the spec's none is written
    expect(cylinderRow(full, SPEC, { system: 'School', location: 'Hall' })).toStrictEqual(
      ['School', 'C1', '101', 'Hall', 'AA1', 'K1', ...written, '543210', 'S-018-6', '', ''], // prettier-ignore
    );
  });
});
