/** Cross-keying a door of the school as a plan: AA2 has 7 in the last chamber, where C1 shears at 3 and 5. */
import { describe, expect, it } from 'vitest';
import { depthSetOf } from '../../src/keying/depthSet.ts';
import type { BookReading, CellValue, SystemReading } from '../../src/workbook/index.ts';
import { planCrossKeying, type CrossKeying } from '../../src/workbook/planCrossKeying.ts';
import { carriedOut, cellOf, EMPTY_BOOK, sentences, systemBook } from './plainBook.ts';

const BOOK = systemBook();
const [SCHOOL] = BOOK.systems;
const WANTED: CrossKeying = {
  system: 'school',
  cylinder: 'c1',
  keys: ['AA2'],
  chambers: SCHOOL!.cylinders[0]!.chambers!.map((set, i) => (i === 5 ? depthSetOf([3, 5, 7]) : set)),
};
const planned = (wanted: Partial<CrossKeying> = {}, book: BookReading = BOOK) =>
  planCrossKeying(book, { ...WANTED, ...wanted });
const withSystem = (change: Partial<SystemReading>): BookReading => ({
  ...BOOK,
  systems: [{ ...SCHOOL!, ...change } as SystemReading],
});
const pins = { at: { sheet: 'Cylinders', address: 'L5' }, what: 'Ch 6 of 0101', from: '3 5', to: '3 5 7' };
const without = (table: string): BookReading => ({
  ...BOOK,
  tables: BOOK.tables.filter(({ name }) => name !== table),
});
const column = (book: BookReading, name: string): CellValue[] =>
  [4, 5, 6, 7, 8].map((row) => cellOf(book, 'Grid', `${name}${row}`));

describe('cross-keying a door', () => {
  it('names its chambers and its mark', () => {
    const { plan, changes } = planned();
    expect(plan).toMatchObject({ title: 'Cross-key 0101', conflicts: [] });
    expect(changes).toEqual([
      pins,
      { at: { sheet: 'Grid', address: 'H5' }, what: 'Mark of AA2 for 0101', from: '', to: '●' },
    ]);
    const after = carriedOut(BOOK, plan);
    expect(cellOf(after, 'Cylinders', 'L5')).toBe('3 5 7');
    expect(column(after, 'H')).toEqual(['AA2', '●', '●', '', '']);
    expect(plan.steps).toHaveLength(2);
  });

  it('leaves a mark that is there as it is', () => {
    // AA1 opens C1 by its grid already, whatever the case
    expect(planned({ keys: ['aa1'] }).changes).toEqual([pins]);
    expect(planned({ keys: ['AA1', 'AB1'] }).changes.slice(1)).toMatchObject([
      { at: { address: 'I5' }, what: 'Mark of AB1 for 0101' },
    ]);
  });

  it('calls a cylinder without a door by its number', () => {
    const cylinders = SCHOOL!.cylinders.map((c) => ({ ...c, door: undefined as never }));
    const { plan, changes } = planned({}, withSystem({ cylinders }));
    expect(plan.title).toBe('Cross-key c1');
    expect(changes.map(({ what }) => what)).toEqual(['Ch 6 of C1', 'Mark of AA2 for C1']);
  });

  it('gives a key without a column one, marked where it opens by its symbol and here', () => {
    const { grid } = SCHOOL!;
    const keys = new Map([...grid!.keys].filter(([key]) => !key.startsWith('AB')));
    const marks = grid!.marks.filter(({ key }) => !key.startsWith('AB'));
    const book = withSystem({ grid: { ...grid!, keys, marks } });
    const { plan, changes } = planned({ keys: ['AB2', 'AA2', 'AB1'] }, book);
    expect(plan.conflicts).toEqual([]);
    expect(changes).toMatchObject([pins, { what: 'Mark of AA2 for 0101' }]);
    const after = carriedOut(BOOK, plan);
    expect(column(after, 'K')).toEqual(['AB2', '●', '', '', '●']);
    expect(column(after, 'L')).toEqual(['AB1', '●', '', '●', '']);
  });

  it('needs a grid with a row for the cylinder', () => {
    const conflict = {
      sentence:
        'The grid of School has no row for C1, so the new keys could not be marked and the audit would report them. Give the system a grid with that row first.',
      at: { sheet: 'Systems', address: 'A5' },
    };
    const { grid } = SCHOOL!;
    const cylinders = new Map([...grid!.cylinders].filter(([id]) => id !== 'C1'));
    for (const book of [
      without('KeyrowGrid1'),
      withSystem({ grid: undefined as never }),
      withSystem({ grid: { ...grid!, cylinders } }),
    ]) {
      const { plan, changes } = planned({}, book);
      expect(plan).toMatchObject({ title: 'Cross-key 0101', steps: [], conflicts: [conflict] });
      expect(changes).toEqual([pins]);
    }
  });

  it('is not planned where the cylinder can’t be read any more', () => {
    const lost = (cylinder: string) => [
      `Cylinder ${cylinder} of school can’t be read any more. Read it again.`,
    ];
    for (const book of [EMPTY_BOOK, without('KeyrowCylinders'), withSystem({ spec: undefined as never })]) {
      const { plan, changes } = planned({}, book);
      expect([sentences(plan), changes]).toEqual([lost('c1'), []]);
    }
    const { plan } = planned({ cylinder: 'C9' });
    expect([plan.title, sentences(plan)]).toEqual(['Cross-key C9', lost('C9')]);
  });
});
