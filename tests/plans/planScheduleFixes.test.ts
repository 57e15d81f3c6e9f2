/** Better spellings for cells of the shop's schedule: which cells a plan takes, and which it leaves with a reason. */
import { describe, expect, it } from 'vitest';
import { fixLines, planScheduleFixes, type ChosenFix } from '../../src/workbook/planScheduleFixes.ts';
import { understand, type ScheduleSheet } from '../../src/workbook/schedule.ts';
import { EMPTY_BOOK } from './plainBook.ts';

const CELLS = [
  ['Door', 'Keyset', 'Qty', 'Cylinder'],
  ['1', 'aa1', 1, 'c1'],
  ['2', 'aa2 ', 1, 'c2'],
  ['3', 'AA3', 1, 'c3'],
  ['4', 'aa4', 1, 'c4'],
  ['5', 'aa5', 1, 'c5'],
];
const FORMULAS = CELLS.map((row, r) => (r === 5 ? ['5', '=LOWER("AA5")', 1, 'c5'] : row));

/** The schedule begins at C3 of its sheet. */
const scheduleOf = (more: Partial<ScheduleSheet> = {}) =>
  understand(
    {
      box: { sheet: 'Doors', row: 2, column: 2, rows: CELLS.length, columns: 4 },
      values: CELLS,
      formulas: FORMULAS,
      merged: [],
      protected: false,
      filtered: false,
      ...more,
    },
    { columns: { headerRow: 0, door: 0, symbol: 1 }, headers: CELLS[0]!.map(String) },
  );
const fix = (row: number, from: string, to: string, role: ChosenFix['role'] = 'symbol'): ChosenFix => ({
  row,
  role,
  from,
  to,
});
const planned = (fixes: readonly ChosenFix[], more: Partial<ScheduleSheet> = {}) =>
  planScheduleFixes(EMPTY_BOOK, scheduleOf(more), fixes);

describe('correcting a schedule', () => {
  it('writes just the chosen cells, those below each other together', () => {
    const plan = planned([
      fix(4, 'aa4', 'AA4'),
      fix(2, 'aa2 ', 'AA2'),
      fix(1, 'aa1', 'AA1'),
      fix(4, '4', '04', 'door'),
      fix(2, '2', '02', 'door'),
    ]);
    const write = { kind: 'write', sheet: 'Doors', formats: ['text'] };
    expect(plan.steps).toEqual([
      { ...write, row: 4, column: 2, cells: [['02']], expected: [['2']] },
      { ...write, row: 6, column: 2, cells: [['04']], expected: [['4']] },
      { ...write, row: 3, column: 3, cells: [['AA1'], ['AA2']], expected: [['aa1'], ['aa2 ']] },
      { ...write, row: 6, column: 3, cells: [['AA4']], expected: [['aa4']] },
    ]);
    expect(plan).toMatchObject({
      title: 'Correct 5 keyset symbols',
      conflicts: [],
      effects: [{ kind: 'cells', sheet: 'Doors', rows: 5, what: 'cells corrected' }],
    });
  });

  it('keeps cells of two columns apart that lie side by side at the end and the top', () => {
    const plan = planned([fix(1, '1', '01', 'door'), fix(2, 'aa2 ', 'AA2')]);
    expect(plan.steps).toMatchObject([
      { row: 3, column: 2 },
      { row: 4, column: 3 },
    ]);
  });

  it('says one symbol where it is one, and nothing of none', () => {
    expect(planned([fix(1, 'aa1', 'AA1')]).title).toBe('Correct 1 keyset symbol');
    expect(planned([])).toMatchObject({ title: 'Correct 0 keyset symbols', steps: [], effects: [] });
  });

  it('refuses a cell that holds something else by now, at its place', () => {
    const plan = planned([fix(1, 'aa1', 'AA1'), fix(3, 'aa3', 'AA3')]);
    expect(plan.steps).toEqual([]);
    expect(plan.conflicts).toEqual([
      {
        sentence: 'This cell has changed since it was checked. Check the schedule again.',
        at: { sheet: 'Doors', address: 'D6' },
        holds: 'AA3',
      },
    ]);
  });

  it('refuses a column that is not there any more', () => {
    expect(planned([fix(1, '', 'AA1', 'zone')]).conflicts).toEqual([
      {
        sentence: 'This cell has changed since it was checked. Check the schedule again.',
        at: { sheet: 'Doors', address: 'C4' },
        holds: '',
      },
    ]);
    expect(planned([fix(1, '', 'AA1', 'zone'), fix(1, 'aa1', 'AA1')]).effects).toMatchObject([{ rows: 1 }]);
    expect(planned([fix(9, 'aa1', 'AA1')]).conflicts).toMatchObject([{ at: { address: 'D12' }, holds: '' }]);
  });

  it('never writes over a formula', () => {
    expect(planned([fix(5, 'aa5', 'AA5')]).conflicts).toEqual([
      {
        sentence: 'This cell holds a formula, which is not written over. Correct what it refers to.',
        at: { sheet: 'Doors', address: 'D8' },
        holds: '=LOWER("AA5")',
      },
    ]);
  });

  it('is barred by protection and by a filter', () => {
    const one = [fix(1, 'aa1', 'AA1')];
    expect(planned(one, { protected: true })).toMatchObject({
      steps: [],
      conflicts: [{ sentence: 'The sheet Doors is protected: take the protection off first.' }],
    });
    expect(planned(one, { filtered: true })).toMatchObject({
      steps: [],
      conflicts: [
        {
          sentence:
            'The sheet Doors is filtered, and writing would miss its hidden rows: clear the filter first.',
        },
      ],
    });
  });

  it('shows old beside new', () => {
    expect(fixLines(scheduleOf(), [fix(2, 'aa2 ', 'AA2')])).toEqual([
      { at: { sheet: 'Doors', address: 'D5' }, shown: 'Doors!D5', from: 'aa2 ', to: 'AA2' },
    ]);
  });
});
