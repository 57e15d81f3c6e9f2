/** Rows written into a table that is there, as a plan: where they go, what is expected there, and what bars them. */
import { describe, expect, it } from 'vitest';
import type { ColumnSpec } from '../../src/workbook/columns.ts';
import type { BookReading, TableReading } from '../../src/workbook/index.ts';
import {
  appendOrCreate,
  contentOf,
  formulaIn,
  replaceOrCreate,
  reportFilled,
  reportObstacles,
} from '../../src/workbook/planRows.ts';
import { PlanBuilder, type TableContent } from '../../src/workbook/planTable.ts';
import { bookWith, EMPTY_BOOK, sentences, sheetWith, standing, tableWith, writesOf } from './plainBook.ts';

const COLUMNS: readonly ColumnSpec[] = [
  { heading: 'Key', format: 'text', width: 10, needed: true },
  { heading: 'Count', format: 'general', width: 10 },
  { heading: 'Twice', format: 'general', width: 10, formula: '=[@Count]*2' },
];
const content = (rows: TableContent['rows'], more: Partial<TableContent> = {}): TableContent => ({
  table: 'KeyrowDemo',
  sheet: 'Demo',
  title: 'A title',
  line: 'A new line',
  columns: COLUMNS,
  rows,
  frozen: 1,
  ...more,
});

const HEADERS = ['Key', 'Count', 'Twice'];
const FILLED = standing('KeyrowDemo', 'Demo', [HEADERS, ['A', 1, '=2'], ['B', 2, '=4']]);

/** A book whose sheet goes on below and beside the table. */
const wider = (rows: readonly (readonly string[])[], table: TableReading): BookReading =>
  bookWith({ table, sheet: sheetWith('Demo', rows) });

const appended = (
  book: BookReading,
  rows: TableContent['rows'],
  table = book.tables[0],
  more: Partial<TableContent> = {},
) => {
  const builder = new PlanBuilder(book);
  appendOrCreate(builder, table, content(rows, more));
  return builder.plan('Add');
};
const replaced = (book: BookReading, rows: TableContent['rows'], more: Partial<TableContent> = {}) => {
  const builder = new PlanBuilder(book);
  replaceOrCreate(builder, book.tables[0], content(rows, more));
  return builder.plan('Replace');
};

describe('what stands in the way of writing into a table', () => {
  const at = { sheet: 'Demo', address: 'B3' };
  const table = tableWith('KeyrowDemo', 'Demo', [['Key'], ['A']], { row: 2, column: 1 });
  const bars = (more: Partial<TableReading>, locked = false) => {
    const sheets = [{ name: 'Other', visible: true, protected: true }, { name: 'Demo', visible: true, protected: locked }]; // prettier-ignore
    const builder = new PlanBuilder({ ...EMPTY_BOOK, sheets });
    reportObstacles(builder, { ...table, ...more });
    return builder.conflicts;
  };

  it('is protection, a filter, a totals row, each at the table', () => {
    const then = 'Do that first, then read the book again.';
    expect(bars({}, true)).toEqual([
      { sentence: `The sheet Demo is protected: take the protection off. ${then}`, at },
    ]);
    expect(bars({ filtered: true })).toEqual([
      {
        sentence: `The table on Demo is filtered, and writing would miss its hidden rows: clear the filter. ${then}`,
        at,
      },
    ]);
    expect(bars({ totals: true })).toEqual([
      { sentence: `The table on Demo has a totals row in the way: switch it off. ${then}`, at },
    ]);
  });

  it('is nothing else', () => {
    expect(bars({})).toEqual([]);
    const builder = new PlanBuilder(EMPTY_BOOK);
    reportObstacles(builder, table);
    expect(builder.conflicts).toEqual([]);
  });
});

describe('the content of a box', () => {
  it('is what the sheet has there, and blanks outside of it', () => {
    const builder = new PlanBuilder(bookWith({ sheet: sheetWith('Demo', [['a', 'b'], ['c', 'd']]) })); // prettier-ignore
    const box = { sheet: 'Demo', row: 1, column: 1, rows: 2, columns: 2 };
    expect(contentOf(builder, box)).toEqual([
      ['d', ''],
      ['', ''],
    ]);
    const blank = [['', ''], ['', '']]; // prettier-ignore
    expect(contentOf(builder, { ...box, sheet: 'None' })).toEqual(blank);
    const empty = new PlanBuilder(bookWith({ sheet: sheetWith('Demo', []) }));
    expect(contentOf(empty, box)).toEqual(blank);
  });

  it('is said cell by cell where something is in it', () => {
    const builder = new PlanBuilder(bookWith({ sheet: sheetWith('Demo', [['', ' '], ['', 7]]) })); // prettier-ignore
    reportFilled(builder, { sheet: 'Demo', row: 0, column: 1, rows: 3, columns: 1 });
    expect(builder.conflicts).toEqual([
      {
        sentence: 'This cell is not empty, and the table has to grow over it. Move its content.',
        at: { sheet: 'Demo', address: 'B2' },
        holds: '7',
      },
    ]);
  });
});

describe('rows added to a table', () => {
  it('go below it, then it grows, then its formulas go in', () => {
    const plan = appended(bookWith(FILLED), [
      ['C', 3, ''],
      ['D', 4, ''],
    ]);
    const box = { sheet: 'Demo', row: 3, column: 0, rows: 3, columns: 3 };
    const write = { kind: 'write', sheet: 'Demo', row: 6 };
    expect(plan.steps).toEqual([
      { ...write, column: 0, cells: [['C', 3], ['D', 4]], formats: ['text', 'general'], expected: [['', ''], ['', '']] }, // prettier-ignore
      { kind: 'resize-table', name: 'KeyrowDemo', from: box, to: { ...box, rows: 5 } },
      {
        ...write,
        column: 2,
        cells: [[{ formula: '=[@Count]*2' }], [{ formula: '=[@Count]*2' }]],
        formats: ['general'],
        expected: [[''], ['']],
      },
    ]);
    expect(plan.effects).toEqual([{ kind: 'rows', sheet: 'Demo', rows: 2, what: 'rows added' }]);
  });

  it('find their columns wherever the shop has moved them, and leave others alone', () => {
    const moved = standing('KeyrowDemo', 'Demo', [
      ['Twice', 'Note', 'Count', 'Key'],
      ['=2', 'mine', 1, 'A'],
    ]);
    const writes = writesOf(appended(bookWith(moved), [['B', 2, '']]));
    expect(writes.map(({ column, cells }) => [column, cells])).toEqual([
      [2, [[2, 'B']]],
      [0, [[{ formula: '=[@Count]*2' }]]],
    ]);
    expect(writes[0]!.formats).toEqual(['general', 'text']);
  });

  it('write what stands apart apart', () => {
    const apart = standing('KeyrowDemo', 'Demo', [
      ['Key', 'Note', 'Count', 'Twice'],
      ['A', 'mine', 1, '=2'],
    ]);
    const writes = writesOf(appended(bookWith(apart), [['B', 2, '']]));
    expect(writes.map(({ row, column, cells }) => [row, column, cells])).toEqual([
      [5, 0, [['B']]],
      [5, 2, [[2]]],
      [5, 3, [[{ formula: '=[@Count]*2' }]]],
    ]);
  });

  it('of none change nothing', () => {
    const plan = appended(bookWith(FILLED), []);
    expect(plan).toMatchObject({ steps: [], effects: [], conflicts: [] });
  });

  it('take the one blank row of a new table first, a formula of ours in it or not', () => {
    const blank = standing('KeyrowDemo', 'Demo', [HEADERS, ['', ' ', '=[@Count]*2']]);
    const one = appended(bookWith(blank), [['A', 1, '']]);
    expect(one.steps.map(({ kind }) => kind)).toEqual(['write', 'write']);
    expect(writesOf(one)[0]).toMatchObject({ row: 4, cells: [['A', 1]], expected: [['', ' ']] });
    expect(writesOf(one)[1]).toMatchObject({ row: 4, column: 2, expected: [['=[@Count]*2']] });
    const two = appended(bookWith(blank), [
      ['A', 1, ''],
      ['B', 2, ''],
    ]);
    expect(two.steps[1]).toMatchObject({ kind: 'resize-table', to: { row: 3, rows: 3 } });
  });

  it('go below a row that has anything of the shop’s in it', () => {
    const rowOf = (rows: readonly (readonly string[])[]) =>
      writesOf(appended(bookWith(standing('KeyrowDemo', 'Demo', rows)), [['A', 1, '']]))[0]!.row;
    expect(rowOf([[...HEADERS, 'Note'], ['', '', '', 'mine']])).toBe(5); // prettier-ignore
    expect(rowOf([HEADERS, ['', '5', '']])).toBe(5);
    expect(rowOf([HEADERS, ['', '', ''], ['', '', '']])).toBe(6);
    expect(rowOf([HEADERS, ['', '', '']])).toBe(4);
  });

  it('are barred by cells below that the table would grow over, beside it not', () => {
    const { table } = FILLED;
    const rows = [['', '', '', ''], ['', '', '', ''], ['', '', '', ''], ['Key', 'Count', 'Twice', ''], ['A', '1', '2', ''], ['B', '2', '4', ''], ['', '', '', 'beside'], ['', 'note', '', '']]; // prettier-ignore
    expect(appended(wider(rows, table), [['C', 3, '']]).conflicts).toEqual([]);
    expect(appended(wider(rows, table), [['C', 3, ''], ['D', 4, '']]).conflicts).toMatchObject([
      { at: { sheet: 'Demo', address: 'B8' }, holds: 'note' },
    ]); // prettier-ignore
  });

  it('are barred by what stands in the way of the table', () => {
    const plan = appended(bookWith({ ...FILLED, table: { ...FILLED.table, filtered: true } }), [
      ['C', 3, ''],
    ]);
    expect(plan.conflicts).toHaveLength(1);
    expect(plan.steps).toEqual([]);
  });

  it('need the columns that they fill, and no others', () => {
    const short = standing('KeyrowDemo', 'Demo', [['Key'], ['A']]);
    expect(appended(bookWith(short), [['B', 2, '']]).conflicts).toEqual([
      {
        sentence:
          'The table on Demo has no column “Count”. Add it, or give the renamed column its name back.',
        at: { sheet: 'Demo', address: 'A4' },
      },
    ]);
    const plan = appended(bookWith(short), [['B', '', '']]);
    expect(plan.conflicts).toEqual([]);
    expect(writesOf(plan)).toMatchObject([{ column: 0, cells: [['B']] }]);
    // one row that needs it is enough
    expect(appended(bookWith(short), [['B', '', ''], ['C', 1, '']]).conflicts).toHaveLength(1); // prettier-ignore
  });

  it('make the sheet where there is no table yet', () => {
    const plan = appended(EMPTY_BOOK, [['A', 1, '']], undefined);
    expect(plan.steps[0]).toEqual({ kind: 'add-sheet', sheet: 'Demo' });
    expect(plan.effects).toEqual([{ kind: 'sheet', sheet: 'Demo', rows: 1, what: 'new sheet' }]);
  });
});

describe('rows in the place of others', () => {
  it('take their cells, the line above is brought up to date, and the table shrinks', () => {
    const plan = replaced(bookWith(FILLED), [['Z', 9, '']]);
    const box = { sheet: 'Demo', row: 3, column: 0, rows: 3, columns: 3 };
    const write = { kind: 'write', sheet: 'Demo' };
    expect(plan.steps).toEqual([
      { ...write, row: 1, column: 0, cells: [['A new line']], formats: ['general'], expected: [['Line']] },
      {
        ...write,
        row: 4,
        column: 0,
        // what was there and has no row now is emptied
        cells: [['Z', 9], ['', '']],
        formats: ['text', 'general'],
        expected: [['A', 1], ['B', 2]],
      }, // prettier-ignore
      { kind: 'resize-table', name: 'KeyrowDemo', from: box, to: { ...box, rows: 2 } },
      {
        ...write,
        row: 4,
        column: 2,
        cells: [[{ formula: '=[@Count]*2' }], [{ formula: '=[@Count]*2' }]],
        formats: ['general'],
        expected: [['=2'], ['=4']],
      },
    ]);
    expect(plan.effects).toEqual([
      { kind: 'replace', sheet: 'Demo', rows: 1, before: 2, what: 'rows replaced' },
    ]);
  });

  it('as many as before leave the table as large as it is', () => {
    const plan = replaced(bookWith(FILLED), [['X', 1, ''], ['Y', 2, '']]); // prettier-ignore
    expect(plan.steps.map(({ kind }) => kind)).toEqual(['write', 'write', 'write']);
  });

  it('more than before need room below', () => {
    const rows = [['X', 1, ''], ['Y', 2, ''], ['Z', 3, '']]; // prettier-ignore
    expect(replaced(bookWith(FILLED), rows).steps).toContainEqual({
      kind: 'resize-table',
      name: 'KeyrowDemo',
      from: FILLED.table.box,
      to: { ...FILLED.table.box, rows: 4 },
    });
    const sheet = sheetWith('Demo', [...FILLED.sheet.formulas!, ['', '', 'note'], ['', 'far', '']]);
    expect(replaced(bookWith({ ...FILLED, sheet }), rows).conflicts).toMatchObject([
      { at: { sheet: 'Demo', address: 'C7' }, holds: 'note' },
    ]);
    expect(replaced(bookWith({ ...FILLED, sheet }), rows.slice(1)).conflicts).toEqual([]);
  });

  it('that are none leave one blank row', () => {
    const plan = replaced(bookWith(FILLED), []);
    expect(plan.steps).toContainEqual({
      kind: 'resize-table',
      name: 'KeyrowDemo',
      from: FILLED.table.box,
      to: { ...FILLED.table.box, rows: 2 },
    });
    expect(plan.effects).toMatchObject([{ rows: 0, before: 2 }]);
    // a column that is lost is not missed where nothing goes into it
    const short = standing('KeyrowDemo', 'Demo', [['Key'], ['A']]);
    expect(replaced(bookWith(short), []).conflicts).toEqual([]);
    expect(replaced(bookWith(short), [['X', 1, '']]).conflicts).toHaveLength(1);
  });

  it('count the rows before that had anything in them', () => {
    const rows = [HEADERS, ['A', '', ''], ['', ' ', ''], ['', 0, '']];
    const plan = replaced(bookWith(standing('KeyrowDemo', 'Demo', rows)), [['X', 1, '']]);
    expect(plan.effects).toMatchObject([{ rows: 1, before: 2 }]);
  });

  it('never move the shop’s notes beside other rows', () => {
    const rows = [
      [...HEADERS, 'Note'],
      ['A', 1, '', ''],
      ['B', 2, '', 'mine'],
    ];
    const plan = replaced(bookWith(standing('KeyrowDemo', 'Demo', rows)), [['X', 1, '']]);
    expect(plan.steps).toEqual([]);
    expect(plan.conflicts).toEqual([
      {
        sentence:
          '“Note” is a column of your own, and its notes would end up beside other rows. Move it off this sheet.',
        at: { sheet: 'Demo', address: 'D6' },
        holds: 'mine',
      },
    ]);
  });

  it('leave the line above alone where it was taken away, or the table moved up', () => {
    const lineless = sheetWith('Demo', [['Title', '', ''], ['', '', ''], ...FILLED.sheet.formulas!.slice(2)]);
    const first = (book: BookReading) => writesOf(replaced(book, [['X', 1, '']]))[0]!;
    expect(first(bookWith({ ...FILLED, sheet: lineless })).row).toBe(4);
    const number = sheetWith('Demo', [['Title', '', ''], [5, '', ''], ...FILLED.sheet.formulas!.slice(2)]);
    expect(first(bookWith({ ...FILLED, sheet: number })).row).toBe(4);
    const cells = [HEADERS, ['A', 1, '=2']];
    const up = (row: number, above: readonly string[][]) =>
      first(
        bookWith({
          table: tableWith('KeyrowDemo', 'Demo', cells, { row }),
          sheet: sheetWith('Demo', [...above, ...cells]),
        }),
      );
    // the title is no line
    expect(up(2, [['Title', '', ''], ['', '', '']]).row).toBe(3); // prettier-ignore
    expect(up(0, []).row).toBe(1);
    expect(up(3, [['Title', '', ''], ['Line', '', ''], ['', '', '']]).row).toBe(1); // prettier-ignore
  });

  it('bring the foot of a report up to date, and keep what it said before', () => {
    const foot = { left: 'Doors, Hall', right: 'Revision B, 2 May 2026' };
    const footOf = (line: string, row = 3) => {
      const rows = [['Title', '', ''], [line, '', ''], ['', '', ''], HEADERS, ['A', 1, '=2']];
      const table = tableWith('KeyrowDemo', 'Demo', rows.slice(row), { row });
      const plan = replaced(bookWith({ table, sheet: sheetWith('Demo', rows) }), [['X', 1, '']], { foot });
      return plan.steps.find(({ kind }) => kind === 'foot');
    };
    expect(footOf('Hall. Revision A2 of 24 Nov 2026. Without bittings.')).toEqual({
      kind: 'foot',
      sheet: 'Demo',
      foot,
      before: { left: 'Doors, Hall', right: 'Revision A2, 24 Nov 2026' },
    });
    expect(footOf('Hall. Revision A of 24 Nov 2026.')).toMatchObject({
      before: { right: 'Revision A, 24 Nov 2026' },
    });
    expect(footOf('Something else')).toMatchObject({ before: foot });
    const plan = replaced(bookWith(FILLED), [['X', 1, '']]);
    expect(plan.steps.some(({ kind }) => kind === 'foot')).toBe(false);
  });

  it('are barred by what stands in the way of the table', () => {
    const plan = replaced(bookWith({ ...FILLED, table: { ...FILLED.table, totals: true } }), [['X', 1, '']]);
    expect(plan.conflicts).toHaveLength(1);
    expect(plan.steps).toEqual([]);
  });

  it('make the sheet where there is no table yet', () => {
    expect(replaced(EMPTY_BOOK, [['A', 1, '']]).steps[0]).toEqual({ kind: 'add-sheet', sheet: 'Demo' });
  });
});

describe('a formula in a table whose headings are the shop’s', () => {
  const columns: readonly ColumnSpec[] = ['Key', 'Ch 1', 'Ch 2', 'Ch 3', 'Sum'].map((heading) => ({
    heading,
    format: 'general',
    width: 8,
  }));
  const into = (headings: readonly string[], formula: string) => {
    const { table, sheet } = standing('KeyrowDemo', 'Demo', [headings, headings.map(() => '')]);
    const builder = new PlanBuilder(bookWith({ table, sheet }));
    const at = columns.map(({ heading }) =>
      headings.findIndex((h) => h.toLowerCase() === heading.toLowerCase()),
    );
    return { text: formulaIn(builder, table, columns, at, formula), conflicts: builder.conflicts };
  };
  const OWN = columns.map(({ heading }) => heading);

  it('stays as it is where they are ours', () => {
    expect(into(OWN, '=LEN([@Key])+1')).toEqual({ text: '=LEN([@Key])+1', conflicts: [] });
    expect(into(OWN, '=SUM([@[Ch 1]:[Ch 3]])').text).toBe('=SUM([@[Ch 1]:[Ch 3]])');
  });

  it('names them as they are written', () => {
    expect(into(['KEY', 'ch 1', 'CH 2', 'Ch 3', 'Sum'], '=LEN([@Key])&[@Sum]').text).toBe(
      '=LEN([@[KEY]])&[@Sum]',
    );
    expect(into(['KEY', 'ch 1', 'CH 2', 'Ch 3', 'Sum'], '=SUM([@[Ch 1]:[Ch 3]])').text).toBe(
      '=SUM([@[ch 1]:[Ch 3]])',
    );
  });

  it('is not written where one of them is gone', () => {
    const { text, conflicts } = into(['Key', 'Ch 1', 'Ch 3', 'Sum'], '=SUM([@[Ch 1]:[Ch 3]])');
    expect(text).toBeUndefined();
    expect(conflicts).toEqual([
      {
        sentence:
          'The table on Demo has no column “Ch 2”, which a formula in it needs. Add it, or give the renamed column its name back.',
        at: { sheet: 'Demo', address: 'A4' },
      },
    ]);
    expect(into(['Ch 1'], '=[@Key]').conflicts).toHaveLength(1);
    expect(into(['Key', 'Ch 1', 'Ch 2', 'Ch 3'], '=LEN([@Key])').text).toBe('=LEN([@Key])');
  });

  it('is not written where something stands within a range that it counts', () => {
    const { text, conflicts } = into(['Key', 'Ch 1', 'Note', 'Ch 2', 'Ch 3'], '=SUM([@[Ch 1]:[Ch 3]])');
    expect(text).toBeUndefined();
    expect(sentences({ conflicts })).toEqual([
      'The column “Ch 2” on Demo doesn’t stand right after “Ch 1”, and a formula would count in what stands between. Move it back.',
    ]);
    expect(sentences(into(['Ch 1', 'Ch 2', 'Key', 'Ch 3'], '=SUM([@[Ch 1]:[Ch 3]])'))).toEqual([
      'The column “Ch 3” on Demo doesn’t stand right after “Ch 2”, and a formula would count in what stands between. Move it back.',
    ]);
  });

  it('that can’t be written is left out, and all the rest is barred with it', () => {
    const lost = standing('KeyrowDemo', 'Demo', [
      ['Key', 'Twice'],
      ['A', '=2'],
    ]);
    const plan = appended(bookWith(lost), [['B', '', '']]);
    expect(sentences(plan)).toEqual([
      'The table on Demo has no column “Count”, which a formula in it needs. Add it, or give the renamed column its name back.',
    ]);
    expect(plan.steps).toEqual([]);
  });

  it('without a column of its own is not written', () => {
    const plan = appended(
      bookWith(
        standing('KeyrowDemo', 'Demo', [
          ['Key', 'Count'],
          ['A', 1],
        ]),
      ),
      [['B', 2, '']],
    );
    expect(plan.conflicts).toEqual([]);
    expect(writesOf(plan)).toHaveLength(1);
  });
});
