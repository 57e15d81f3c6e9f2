/** Formulas put back, as a plan: whole runs at once, with the headings as they stand. Keys stand in rows 5 to 11, Check in K. */
import { describe, expect, it } from 'vitest';
import type { BookReading } from '../../src/workbook/index.ts';
import { planRepair } from '../../src/workbook/planRepair.ts';
import { sentences, systemBook, typed, writesOf } from './plainBook.ts';

const BOOK = systemBook();
const CHECK = '=KEYROW.WHY(KeyrowKeys[@Bitting],KeyrowKeys[@Spec],KeyrowSpecs[#All])';
const plan = (cells: Parameters<typeof typed>[2], sheet = 'Keys', book: BookReading = BOOK) =>
  planRepair(typed(book, sheet, cells));

describe('formulas put back', () => {
  it('are none where none went wrong', () => {
    expect(planRepair(BOOK)).toMatchObject({
      title: 'Put formulas back',
      steps: [],
      effects: [],
      conflicts: [],
    });
  });

  it('are written run by run, each cell with what it held', () => {
    const { steps, effects } = plan({ K5: 'good', K6: '', K8: 'x' });
    const write = { kind: 'write', sheet: 'Keys', column: 10, formats: ['general'] };
    expect(steps).toEqual([
      { ...write, row: 4, cells: [[{ formula: CHECK }], [{ formula: CHECK }]], expected: [['good'], ['']] },
      { ...write, row: 7, cells: [[{ formula: CHECK }]], expected: [['x']] },
    ]);
    expect(effects).toEqual([{ kind: 'cells', sheet: 'Keys', rows: 3, what: 'formulas put back' }]);
  });

  it('are told table by table', () => {
    const both = planRepair(typed(typed(BOOK, 'Keys', { K5: 'x' }), 'Cylinders', { Q6: 'y', Q7: 'z' }));
    expect(both.effects.map(({ sheet, rows }) => [sheet, rows])).toEqual([
      ['Keys', 1],
      ['Cylinders', 2],
    ]);
    expect(writesOf(both, 'Cylinders')).toMatchObject([{ row: 5, column: 16, expected: [['y'], ['z']] }]);
  });

  it('name the columns as they are called now', () => {
    const [step] = writesOf(plan({ K5: 'x', E4: 'BITTING' }));
    expect(step!.cells[0]).toEqual([
      { formula: '=KEYROW.WHY(KeyrowKeys[@[BITTING]],KeyrowKeys[@Spec],KeyrowSpecs[#All])' },
    ]);
  });

  it('are not written where a column that they need is gone', () => {
    const lost = plan({ K5: 'x', J4: 'Norm' });
    expect(lost.steps).toEqual([]);
    expect(sentences(lost)).toEqual([
      'The table on Keys has no column “Spec”, which a formula in it needs. Add it, or give the renamed column its name back.',
    ]);
  });

  it('are barred by what stands in the way of the table', () => {
    const broken = typed(BOOK, 'Keys', { K5: 'x' });
    const tables = broken.tables.map((table) => ({ ...table, filtered: true }));
    expect(planRepair({ ...broken, tables }).conflicts).toHaveLength(1);
  });
});
