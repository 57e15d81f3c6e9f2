/** A key bitting array put on its sheet, as a plan: new rows, changes of rows that stand, and what bars them. */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import type { CellValue } from '../../src/workbook/index.ts';
import { planArray, type ArrayInput } from '../../src/workbook/planArray.ts';
import { ARRAY_COLUMNS, arrayRows } from '../../src/workbook/tableArrays.ts';
import { bookWith, EMPTY_BOOK, lineOf, rowsOf, sentences, standing, writesOf } from './plainBook.ts';
import { SPEC } from '../workbook/school.ts';

const ARRAY = [[1, 5, 7, 9], [1, 3, 7, 9], [0, 2, 6, 8], [0, 2, 4, 8], [1, 5, 7, 9], [1, 3, 7, 9]]; // prettier-ignore
const HALL: ArrayInput = {
  system: 'Hall',
  spec: SPEC,
  topMaster: bittingOf(SPEC, [3, 5, 4, 6, 3, 5]),
  array: ARRAY,
};
const MADE = { made: '24 Nov 2026' };
const HEADINGS = ARRAY_COLUMNS.map(({ heading }) => heading as string);

/** The array as it stands, with the rows changed as asked. */
const there = (change: (rows: CellValue[][], headings: string[]) => void = () => undefined) => {
  const rows = arrayRows('Hall', SPEC, HALL).map((row) => row.map((cell) => cell as CellValue));
  const headings = [...HEADINGS];
  change(rows, headings);
  return bookWith(standing('KeyrowArray', 'Array', [headings, ...rows]));
};

describe('an array put on a sheet', () => {
  it('gets a sheet where there is none, a row a chamber', () => {
    const { plan, changes } = planArray(EMPTY_BOOK, HALL, MADE);
    expect(changes).toEqual([]);
    expect(plan.title).toBe('Put the array of Hall on a sheet');
    expect(lineOf(plan, 'Array', 3)).toEqual([
      'System', 'Spec', 'Chamber', 'Top master', 'Depths in order', 'Level', 'Sequence',
    ]); // prettier-ignore
    expect(rowsOf(plan, 'Array')).toEqual(
      ARRAY.map((depths, i) => ['Hall', 'S-018-6', i + 1, '354635'[i], depths.join(' '), '', '']),
    );
    expect(lineOf(plan, 'Array', 0)).toEqual(['Key bitting arrays to make keys by']);
    const [line] = lineOf(plan, 'Array', 1);
    expect(line).toContain('First written 24 Nov 2026.');
    expect(line).toContain('SECRET');
  });

  it('of another system goes below those that are there', () => {
    const { plan, changes } = planArray(there(), { ...HALL, system: 'Annex' }, MADE);
    expect(changes).toEqual([]);
    expect(writesOf(plan)[0]).toMatchObject({ row: 10 });
    expect(writesOf(plan)[0]!.cells).toHaveLength(6);
  });

  it('that is there changes the cells that differ, and no others', () => {
    const book = there((rows) => {
      rows[2]![4] = '2 6 8';
      rows[5]![3] = '1';
      rows[5]![0] = 'HALL';
    });
    const { plan, changes } = planArray(book, { ...HALL, system: 'hall' }, MADE);
    expect(changes).toEqual([
      { at: { sheet: 'Array', address: 'E7' }, what: 'Depths in order, chamber 3', from: '2 6 8', to: '0 2 6 8' },
      { at: { sheet: 'Array', address: 'D10' }, what: 'Top master, chamber 6', from: '1', to: '5' },
    ]); // prettier-ignore
    expect(writesOf(plan)).toMatchObject([
      { row: 6, column: 4, cells: [['0 2 6 8']], expected: [['2 6 8']] },
      { row: 9, column: 3, cells: [['5']], expected: [['1']] },
    ]);
    expect(planArray(there(), HALL, MADE)).toMatchObject({ plan: { steps: [] }, changes: [] });
  });

  it('needs a row for every chamber', () => {
    const { plan } = planArray(there((rows) => rows.splice(3, 1)), HALL, MADE); // prettier-ignore
    expect(plan.steps).toEqual([]);
    expect(plan.conflicts).toEqual([
      {
        sentence: 'The array of Hall has no row for chamber 4. Give it one, or take all its rows away.',
        at: { sheet: 'Array', address: 'A4' },
      },
    ]);
  });

  it('needs a column only where something goes into it', () => {
    const book = there((rows, headings) => {
      headings[5] = 'Stage';
      headings[6] = 'Turn';
      rows[0]![4] = '9';
    });
    const plain = planArray(book, HALL, MADE);
    expect(plain.plan.conflicts).toEqual([]);
    expect(plain.changes).toHaveLength(1);
    const dealt = planArray(book, { ...HALL, deal: ['MK', 'CK', 'CK', 'CK', 'CK', 'CK'] }, MADE);
    expect(sentences(dealt.plan)[0]).toBe('The table on Array has no column “Level”. Add it.');
    expect(dealt.plan.conflicts).toHaveLength(6);
    expect(dealt.plan.conflicts[1]!.at).toEqual({ sheet: 'Array', address: 'C6' });
  });
});
