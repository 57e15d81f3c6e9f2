/** A column of checks beside the shop's own codes, as a plan: the steps of a small one, and all that bars it. */
import { describe, expect, it } from 'vitest';
import type { TargetReading } from '../../src/workbook/index.ts';
import { planCheckColumn, type CheckColumn } from '../../src/workbook/planCheckColumn.ts';
import { EMPTY_BOOK, lineOf, sentences } from './plainBook.ts';
import { SPEC } from '../workbook/school.ts';

const TARGET: TargetReading = {
  box: { sheet: 'Doors', row: 2, column: 1, rows: 3, columns: 2 },
  headers: ['Door', 'Code'],
  values: [
    ['101', '213456'],
    ['102', '999'],
  ],
  right: ['', ' ', ''],
  protected: false,
  filtered: false,
  merged: false,
  totals: false,
};
const BOOK = {
  ...EMPTY_BOOK,
  specs: [{ name: SPEC.name, spec: SPEC, at: { sheet: 'Specs', address: 'A5' } }],
};
const planned = (more: Partial<TargetReading> = {}, column: Partial<CheckColumn> = {}) =>
  planCheckColumn(BOOK, { ...TARGET, ...more }, { codes: 1, spec: SPEC.name, ...column });
const ask = (code: string) => [{ formula: `=KEYROW.WHY(${code},"S-018-6",KeyrowSpecs[#All])` }];

describe('a column of checks', () => {
  const write = { kind: 'write', sheet: 'Doors', column: 3, expected: 'empty' };

  it('has its heading and a formula a row just right of the cells', () => {
    const plan = planned();
    expect(plan.steps).toEqual([
      { ...write, row: 2, cells: [['Bitting check']], formats: ['text'] },
      { ...write, row: 3, cells: [ask('C4'), ask('C5')], formats: ['general'] },
    ]);
    expect(plan).toMatchObject({
      title: 'Add the column Bitting check',
      effects: [
        {
          kind: 'column',
          sheet: 'Doors',
          rows: 2,
          heading: 'Bitting check',
          what: 'new column',
          beside: 'Doors!B3:C5',
        },
      ],
    });
  });

  it('has no heading where the cells have none', () => {
    const box = { ...TARGET.box, rows: 2 };
    expect(planned({ box, headers: [], right: ['', ''] }).steps).toEqual([
      { ...write, row: 2, cells: [ask('C3'), ask('C4')], formats: ['general'] },
    ]);
  });

  it('widens a table, after its heading was written', () => {
    const plan = planned({ table: 'Codes' }, { heading: 'Sound?' });
    expect(plan.steps).toEqual([
      { ...write, row: 2, cells: [['Sound?']], formats: ['text'] },
      { kind: 'resize-table', name: 'Codes', from: TARGET.box, to: { ...TARGET.box, columns: 3 } },
      { ...write, row: 3, cells: [ask('Codes[@[Code]]'), ask('Codes[@[Code]]')], formats: ['general'] },
    ]);
    expect(plan).toMatchObject({ title: 'Add the column Sound?', effects: [{ beside: 'Codes', heading: 'Sound?' }] }); // prettier-ignore
    expect(planned({ table: 'Codes' }, { codes: 7 }).steps[2]).toMatchObject({
      cells: [ask('Codes[@[]]'), ask('Codes[@[]]')],
    });
  });

  it('says when a starter spec was brought along', () => {
    const line = (column: Partial<CheckColumn>) =>
      String(
        lineOf(planCheckColumn(EMPTY_BOOK, TARGET, { codes: 1, spec: SPEC.name, ...column }), 'Specs', 1),
      );
    expect(line({ made: '24 Nov 2026' })).toContain('First written 24 Nov 2026.');
    expect(line({})).toContain('First written for a bitting check.');
    expect(planned().steps.some(({ kind }) => kind === 'add-sheet')).toBe(false);
  });

  it('is barred where a cell there is filled, each at its place', () => {
    const sentence =
      'The check would go here, but the cell is not empty. Move its content or insert an empty column.';
    expect(planned({ right: ['x', '', 0] }).conflicts).toEqual([
      { sentence, at: { sheet: 'Doors', address: 'D3' }, holds: 'x' },
      { sentence, at: { sheet: 'Doors', address: 'D5' }, holds: '0' },
    ]);
  });

  it('is barred by what stands in the way of the cells', () => {
    const at = { sheet: 'Doors', address: 'B3' };
    const bars = (more: Partial<TargetReading>) => planned(more).conflicts;
    expect(bars({ values: [], box: { ...TARGET.box, rows: 0 } })).toEqual([
      { sentence: 'There are no codes here. Select the cells with the codes.', at },
    ]);
    expect(bars({ protected: true })).toEqual([
      { sentence: 'The sheet Doors is protected: take the protection off first.', at },
    ]);
    expect(bars({ filtered: true })).toEqual([
      { sentence: 'The cells are filtered: clear the filter first.', at },
    ]);
    expect(bars({ merged: true })).toEqual([
      { sentence: 'There are merged cells among these. Unmerge them first.', at },
    ]);
    expect(bars({ totals: true })).toEqual([
      { sentence: 'The table has a totals row: switch it off first.', at },
    ]);
    expect(bars({})).toEqual([]);
    expect(sentences(planned({}, { spec: 'None' }))).toEqual([
      'There is no sound spec None in this workbook. Add or correct it.',
    ]);
  });
});
