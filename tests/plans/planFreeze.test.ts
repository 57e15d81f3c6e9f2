/** Formulas frozen to what they show, as a plan: which cells, as text or as a number, and which are left. */
import { describe, expect, it } from 'vitest';
import {
  freezableTables,
  freezeTable,
  planFreeze,
  type FreezeSource,
} from '../../src/workbook/planFreeze.ts';
import type { CellValue } from '../../src/workbook/index.ts';
import { bookWith, EMPTY_BOOK, sheetWith, standing, tableWith } from './plainBook.ts';

const ASK = '=KEYROW.CHECK("27","S")';
const source = (
  formulas: readonly (readonly CellValue[])[],
  values: readonly (readonly CellValue[])[],
  more: Partial<FreezeSource> = {},
): FreezeSource => ({
  box: { sheet: 'Doors', row: 4, column: 2, rows: formulas.length, columns: formulas[0]!.length },
  formulas,
  values,
  protected: false,
  ...more,
});
const frozen = (one: FreezeSource, book = EMPTY_BOOK) => planFreeze(book, one);
const asked = (formula: CellValue, value: CellValue = 'ok') => frozen(source([[formula]], [[value]]));

describe('freezing', () => {
  it('puts values in the place of calls, column by column, text as text', () => {
    const { plan, left } = frozen(
      source(
        [
          [ASK, 'x'],
          [ASK, ASK],
          [ASK, ASK],
          ['', ASK],
          [ASK, 7],
        ],
        [
          ['027', 'x'],
          ['028', 1],
          [5, 2],
          ['', true],
          ['029', 7],
        ],
      ),
    );
    const write = { kind: 'write', sheet: 'Doors' };
    expect(plan.steps).toEqual([
      { ...write, row: 4, column: 2, cells: [['027'], ['028']], formats: ['text'], expected: [[ASK], [ASK]] },
      { ...write, row: 6, column: 2, cells: [[5]], formats: ['general'], expected: [[ASK]] },
      { ...write, row: 8, column: 2, cells: [['029']], formats: ['text'], expected: [[ASK]] },
      {
        ...write,
        row: 5,
        column: 3,
        cells: [[1], [2], [true]],
        formats: ['general'],
        expected: [[ASK], [ASK], [ASK]],
      },
    ]);
    expect(left).toEqual([]);
    expect(plan).toMatchObject({
      title: 'Freeze to values',
      conflicts: [],
      effects: [{ kind: 'cells', sheet: 'Doors', rows: 7, what: 'formulas frozen' }],
    });
  });

  it('leaves what is no single call of ours, and says where a formula of ours stays', () => {
    const { plan, left } = frozen(
      source(
        [[ASK], ['=KEYROW.ROOTDEPTHS("27","S")'], [ASK], [ASK], ['=LEN(KEYROW.BITTING("27"))'], ['=SUM(A1)']],
        [['#N/A'], ['0.3'], ['ok'], ['#VALUE!'], [2], [3]],
      ),
    );
    expect(plan.steps).toMatchObject([{ row: 6, cells: [['ok']] }]);
    expect(left).toEqual([
      { sheet: 'Doors', address: 'C5' },
      { sheet: 'Doors', address: 'C6' },
      { sheet: 'Doors', address: 'C8' },
    ]);
  });

  it('knows calls of ours however they are written, and no text that reads like one', () => {
    for (const formula of ['=keyrow.check(A1)', '= KEYROW.CHECK(A1)', '=@KEYROW.CHECK(A1)', '= @ KEYROW.CHECK(A1)'])
      expect(asked(formula).plan.steps, formula).toHaveLength(1); // prettier-ignore
    for (const formula of [
      '=1+KEYROW.CHECK(A1)',
      'x=KEYROW.CHECK(A1)',
      '=KEYROWCHECK(A1)',
      '=KEYROW.CHECKED(A1)',
    ])
      // prettier-ignore
      expect(asked(formula).plan.steps, formula).toHaveLength(0);
    // a text cell shows what it holds
    expect(asked(ASK, ASK)).toMatchObject({ plan: { steps: [] }, left: [] });
    const second = frozen(source([['', '=KEYROW.ROOTDEPTHS(A1)']], [['', 'ok']]));
    expect(second.left).toEqual([{ sheet: 'Doors', address: 'D5' }]);
    const many = asked('=@  KEYROW.ROOTDEPTHS(A1)');
    expect(many).toMatchObject({ plan: { steps: [] }, left: [{ address: 'C5' }] });
    expect(asked('=  KEYROW.ROOTDEPTHS(A1)').left).toHaveLength(1);
    expect(asked('=1+KEYROW.ROOTDEPTHS(A1)').left).toEqual([]);
  });

  it('has nothing to say where there is nothing to freeze', () => {
    const { plan } = frozen(source([['=SUM(A1)']], [[1]], { protected: true }));
    expect(plan).toMatchObject({ steps: [], effects: [], conflicts: [] });
    expect(frozen({ ...source([['']], [['']]), formulas: [], values: [] }).plan.steps).toEqual([]);
  });

  it('is barred by protection', () => {
    const { plan } = frozen(source([[ASK]], [['ok']], { protected: true }));
    expect(plan).toMatchObject({
      steps: [],
      conflicts: [
        {
          sentence: 'The sheet Doors is protected: take the protection off first.',
          at: { sheet: 'Doors', address: 'C5' },
        },
      ],
    });
  });

  it('is barred by what stands in the way of a table that its cells lie in, and of no other', () => {
    // the cells are C5:D6
    const cells = source([[ASK, ASK], [ASK, ASK]], [['a', 'b'], ['c', 'd']]); // prettier-ignore
    const bars = (row: number, column: number, sheet = 'Doors') => {
      const table = tableWith('KeyrowDemo', sheet, [['a', 'b'], ['c', 'd']], { row, column, filtered: true }); // prettier-ignore
      return frozen(cells, bookWith({ table })).plan.conflicts.length;
    };
    expect(bars(4, 2)).toBe(1);
    expect([bars(3, 2), bars(5, 2), bars(4, 1), bars(4, 3)]).toEqual([1, 1, 1, 1]);
    expect([bars(2, 2), bars(6, 2), bars(4, 0), bars(4, 4)]).toEqual([0, 0, 0, 0]);
    expect(bars(4, 2, 'Keys')).toBe(0);
  });

  it('says once that a sheet is protected, where a table is met', () => {
    const { table } = standing('KeyrowDemo', 'Doors', [['a', 'b', 'c', 'd'], ['', '', '', '']]); // prettier-ignore
    const book = bookWith({ table, sheet: sheetWith('Doors', [], { protected: true }) });
    const { plan } = frozen(source([[ASK]], [['ok']], { protected: true }), book);
    expect(plan.conflicts).toMatchObject([
      { sentence: expect.stringContaining('read the book again') as string },
    ]);
  });
});

describe('a table to freeze', () => {
  const rows = [['Key', 'Check'], ['A', ASK], ['B', '']]; // prettier-ignore
  const part = standing('KeyrowDemo', 'Demo', rows);

  it('is taken without its header', () => {
    expect(freezeTable(bookWith(part), 'keyrowdemo')).toEqual({
      box: { sheet: 'Demo', row: 4, column: 0, rows: 2, columns: 2 },
      values: rows.slice(1),
      formulas: rows.slice(1),
      protected: false,
    });
    expect(freezeTable(bookWith(part), 'KeyrowKeys')).toBeUndefined();
  });

  it('is protected where its own sheet is', () => {
    const locked = (sheet: string) =>
      freezeTable(
        bookWith(
          { table: part.table },
          { sheet: sheetWith('Doors', []) },
          { sheet: sheetWith(sheet, [], { protected: true }) },
        ),
        'KeyrowDemo',
      )!.protected;
    expect(locked('Demo')).toBe(true);
    expect(locked('Other')).toBe(false);
    const open = bookWith({ table: part.table, sheet: sheetWith('Demo', []) });
    expect(freezeTable(open, 'KeyrowDemo')!.protected).toBe(false);
  });

  it('is offered where a cell of it is a call of ours', () => {
    const plain = standing('KeyrowPlain', 'Plain', [['Key', 'Check'], ['A', '=SUM(A1)']]); // prettier-ignore
    expect(freezableTables(bookWith(plain, part))).toEqual([{ name: 'KeyrowDemo', sheet: 'Demo' }]);
  });
});
