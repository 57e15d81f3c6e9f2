/** A new sheet as a plan: every step of a small one, worked out by hand from what a sheet of ours looks like. */
import { describe, expect, it } from 'vitest';
import type { ColumnSpec } from '../../src/workbook/columns.ts';
import type { SheetLayout } from '../../src/workbook/index.ts';
import { createSheet, formulaBlock, PlanBuilder, type TableContent } from '../../src/workbook/planTable.ts';
import { bookWith, EMPTY_BOOK, sentences, sheetWith } from './plainBook.ts';

const COLUMNS: readonly ColumnSpec[] = [
  { heading: 'Key', format: 'text', width: 10 },
  { heading: 'Count', format: 'general', width: 20 },
  { heading: 'Twice', format: 'general', width: 30, formula: '=[@Count]*2' },
  { heading: 'Length', format: 'inches', width: 5 },
];

const CONTENT: TableContent = {
  table: 'KeyrowDemo',
  sheet: 'Demo',
  title: 'A title',
  line: 'A line',
  columns: COLUMNS,
  rows: [
    ['A', 1, '', 0.1],
    ['B', 2, '', 0.2],
  ],
  frozen: 2,
};

function made(more: Partial<TableContent> = {}) {
  const builder = new PlanBuilder(EMPTY_BOOK);
  createSheet(builder, { ...CONTENT, ...more }, 'Demo');
  return builder.plan('Demo');
}

const layoutOf = (more: Partial<TableContent>): SheetLayout => {
  const step = made(more).steps.find((each) => each.kind === 'layout');
  if (step?.kind !== 'layout') throw new Error('no layout');
  return step.layout;
};

describe('a new sheet', () => {
  it('is added, filled, made a table, given its formulas and laid out, in this order', () => {
    const write = { kind: 'write', sheet: 'Demo', expected: 'empty' };
    expect(made().steps).toEqual([
      { kind: 'add-sheet', sheet: 'Demo' },
      { ...write, row: 0, column: 0, cells: [['A title'], ['A line']], formats: ['general'] },
      {
        ...write,
        row: 3,
        column: 0,
        cells: [['Key', 'Count', 'Twice', 'Length']],
        formats: ['text', 'text', 'text', 'text'],
      },
      { ...write, row: 4, column: 0, cells: [['A', 1], ['B', 2]], formats: ['text', 'general'] }, // prettier-ignore
      { ...write, row: 4, column: 3, cells: [[0.1], [0.2]], formats: ['inches'] },
      {
        kind: 'add-table',
        name: 'KeyrowDemo',
        box: { sheet: 'Demo', row: 3, column: 0, rows: 3, columns: 4 },
      },
      {
        ...write,
        row: 4,
        column: 2,
        cells: [[{ formula: '=[@Count]*2' }], [{ formula: '=[@Count]*2' }]],
        formats: ['general'],
      },
      {
        kind: 'layout',
        sheet: 'Demo',
        layout: {
          printArea: 'A:D',
          titleRows: '4:4',
          landscape: false,
          freeze: { rows: 4, columns: 2 },
          widths: [10, 20, 30, 5],
        },
      },
    ]);
    expect(made().effects).toEqual([{ kind: 'sheet', sheet: 'Demo', rows: 2, what: 'new sheet' }]);
  });

  it('without rows gets one blank one, which no formula is in', () => {
    const plan = made({ rows: [] });
    const cells = plan.steps.flatMap((step) => (step.kind === 'write' ? [step.cells] : []));
    expect(cells.slice(2)).toEqual([[['', '']], [['']]]);
    expect(plan.steps).toContainEqual({
      kind: 'add-table',
      name: 'KeyrowDemo',
      box: { sheet: 'Demo', row: 3, column: 0, rows: 2, columns: 4 },
    });
    expect(plan.effects).toEqual([{ kind: 'sheet', sheet: 'Demo', rows: 0, what: 'new sheet' }]);
  });

  it('fills short rows up with blanks', () => {
    const plan = made({ rows: [['A']] });
    const cells = plan.steps.flatMap((step) => (step.kind === 'write' ? [step.cells] : []));
    expect(cells.slice(2, 4)).toEqual([[['A', '']], [['']]]);
  });

  it('lies on its side where its columns are wider than 90 characters', () => {
    const wide = (width: number): Partial<TableContent> => ({
      columns: [{ heading: 'Key', format: 'text', width }],
      rows: [['A']],
    });
    expect(layoutOf(wide(90)).landscape).toBe(false);
    expect(layoutOf(wide(91)).landscape).toBe(true);
  });

  it('as a report repeats its title and line too, and has its foot', () => {
    const foot = { left: 'Doors', right: 'Revision B' };
    expect(layoutOf({ foot })).toMatchObject({ foot, titleRows: '1:4' });
    expect(layoutOf({})).not.toHaveProperty('foot');
  });

  it('with centred columns has no filter buttons in their way', () => {
    const plan = made({ centredFrom: 1 });
    expect(plan.steps).toContainEqual({
      kind: 'add-table',
      name: 'KeyrowDemo',
      plain: true,
      box: { sheet: 'Demo', row: 3, column: 0, rows: 3, columns: 4 },
    });
    expect(layoutOf({ centredFrom: 1 }).centred).toEqual([
      { sheet: 'Demo', row: 3, column: 1, rows: 3, columns: 3 },
    ]);
    // none of them there yet: a box has at least one column
    expect(layoutOf({ centredFrom: 4 }).centred).toEqual([
      { sheet: 'Demo', row: 3, column: 4, rows: 3, columns: 1 },
    ]);
  });

  it('needs the structure of the workbook to be open', () => {
    const builder = new PlanBuilder({ ...EMPTY_BOOK, structureProtected: true });
    createSheet(builder, CONTENT, 'Demo');
    const plan = builder.plan('Demo');
    expect(sentences(plan)).toEqual([
      'The workbook’s structure is protected, so no sheet can be added. Take that protection off first.',
    ]);
    expect(plan.steps).toEqual([]);
  });
});

describe('a sheet for the bench', () => {
  const bench = { line: 'Spec S', printed: 2, large: [0], wrapped: [3], centred: [1] };

  it('prints its first columns one page wide, with the lines above as banners of their width', () => {
    const layout = layoutOf({ bench });
    expect(made({ bench }).steps[1]).toMatchObject({ cells: [['A title'], ['A line'], ['Spec S']] });
    expect(layout).toMatchObject({ printArea: 'A:B', titleRows: '1:4', onePageWide: true });
    expect(layout.banners).toEqual([
      { sheet: 'Demo', row: 1, column: 0, rows: 1, columns: 2 },
      { sheet: 'Demo', row: 2, column: 0, rows: 1, columns: 2 },
    ]);
    expect(layoutOf({ bench: { large: [], wrapped: [] } }).banners).toEqual([
      { sheet: 'Demo', row: 1, column: 0, rows: 1, columns: 4 },
    ]);
    expect(layoutOf({ bench: { large: [], wrapped: [] } }).printArea).toBe('A:D');
  });

  it('is as wide as what is printed of it', () => {
    const columns: ColumnSpec[] = [90, 60].map((width) => ({ heading: `${width}`, format: 'text', width }));
    const of = (printed: number) => layoutOf({ columns, rows: [['', '']], bench: { ...bench, large: [], wrapped: [], centred: [], printed } }); // prettier-ignore
    expect(of(1).landscape).toBe(false);
    expect(of(2).landscape).toBe(true);
  });

  it('has its digits large, its text wrapped, its numbers centred and all at half height', () => {
    const below = (column: number) => ({ sheet: 'Demo', row: 4, column, rows: 2, columns: 1 });
    const header = { sheet: 'Demo', row: 3, column: 0, rows: 1, columns: 4 };
    expect(layoutOf({ bench })).toMatchObject({
      large: [below(0)],
      wrapped: [header, below(3)],
      centred: [below(1)],
      middle: { sheet: 'Demo', row: 4, column: 0, rows: 2, columns: 4 },
    });
    const plain = layoutOf({ bench: { large: [], wrapped: [] } });
    expect(plain).toMatchObject({ large: [], wrapped: [header], centred: [] });
    expect(plain).not.toHaveProperty('choices');
    expect(layoutOf({})).not.toHaveProperty('onePageWide');
  });

  it('offers what may be chosen in its cells', () => {
    const choices = [{ column: 1, from: ['good', 'bad'] }];
    expect(layoutOf({ bench: { ...bench, choices } }).choices).toEqual([
      { box: { sheet: 'Demo', row: 4, column: 1, rows: 2, columns: 1 }, from: ['good', 'bad'] },
    ]);
  });

  it('has rows as high as their wrapped text, those alike in one go', () => {
    // a column of 11 characters shows 10; a text line is 15 points, a row of large digits at least 24, 409 at most
    const columns: ColumnSpec[] = [{ heading: 'Note', format: 'text', width: 11 }];
    const note = (length: number) => ['x'.repeat(length)];
    const layout = layoutOf({
      line: 'x'.repeat(21),
      columns,
      rows: [note(10), note(10), note(11), note(20), [7], note(1000), note(20)],
      bench: { line: 'x', large: [], wrapped: [0] },
    });
    expect(layout.heights).toEqual([
      // 21 characters in lines of 10: three of them
      { row: 1, rows: 1, points: 45 },
      { row: 2, rows: 1, points: 15 },
      { row: 3, rows: 1, points: 45 },
      { row: 4, rows: 2, points: 24 },
      { row: 6, rows: 2, points: 30 },
      { row: 8, rows: 1, points: 24 },
      { row: 9, rows: 1, points: 409 },
      { row: 10, rows: 1, points: 30 },
    ]);
  });

  it('never takes the first row and its header for rows alike, nor a column for narrower than a character', () => {
    const columns: ColumnSpec[] = [{ heading: 'N', format: 'text', width: 1 }];
    const { heights } = layoutOf({ columns, rows: [['xxx']], line: 'y', bench: { large: [], wrapped: [0] } });
    expect(heights).toEqual([
      { row: 1, rows: 1, points: 15 },
      { row: 3, rows: 1, points: 45 },
      { row: 4, rows: 1, points: 45 },
    ]);
  });
});

describe('the builder of a plan', () => {
  it('keeps the sheet names that it gave', () => {
    const builder = new PlanBuilder(bookWith({ sheet: sheetWith('Grid', []) }));
    expect(builder.sheetName('Grid', 'Grid Hall')).toBe('Grid Hall');
    expect(builder.sheetName('Grid', 'Grid Hall')).toBe('Grid Hall (Keyrow)');
    expect(builder.sheetName('Keys', 'Keys of Hall')).toBe('Keys');
    expect(builder.sheetName('Keys')).toBe('Keys (Keyrow)');
  });

  it('says the same thing once, but at another place again', () => {
    const builder = new PlanBuilder(EMPTY_BOOK);
    const at = { sheet: 'Keys', address: 'A5' };
    builder.conflict('In the way.', at);
    builder.conflict('In the way.', { ...at });
    builder.conflict('In the way.', { ...at, address: 'A6' });
    builder.conflict('In the way.', { ...at, sheet: 'Doors' });
    builder.conflict('In the way.');
    builder.conflict('In the way.');
    builder.conflict('Another.', at, '7');
    expect(builder.plan('x').conflicts).toEqual([
      { sentence: 'In the way.', at },
      { sentence: 'In the way.', at: { sheet: 'Keys', address: 'A6' } },
      { sentence: 'In the way.', at: { sheet: 'Doors', address: 'A5' } },
      { sentence: 'In the way.' },
      { sentence: 'Another.', at, holds: '7' },
    ]);
  });

  it('takes no step where anything is in the way, and keeps its title', () => {
    const builder = new PlanBuilder(EMPTY_BOOK);
    createSheet(builder, CONTENT, 'Demo');
    expect(builder.plan('Make it')).toMatchObject({ title: 'Make it', conflicts: [] });
    builder.conflict('In the way.');
    expect(builder.plan('Make it').steps).toEqual([]);
  });
});

describe('a column of formulas', () => {
  it('is the same formula in every row', () => {
    expect(formulaBlock('Keys', 4, 7, '=[@A]', 2, [[''], ['old']])).toEqual({
      kind: 'write',
      sheet: 'Keys',
      row: 4,
      column: 7,
      cells: [[{ formula: '=[@A]' }], [{ formula: '=[@A]' }]],
      formats: ['general'],
      expected: [[''], ['old']],
    });
  });
});
