/** Further columns of a grid and single cells that are changed: the steps of a plan over sheets made by hand. */
import { describe, expect, it } from 'vitest';
import { depthSetOf } from '../../src/keying/depthSet.ts';
import { addGridColumns, columnIn, rowIn } from '../../src/workbook/gridColumns.ts';
import { chamberChanges, changeCells } from '../../src/workbook/namedCells.ts';
import { PlanBuilder } from '../../src/workbook/planTable.ts';
import type { BookReading, CellValue } from '../../src/workbook/reading.ts';
import { bookOf, tableOf } from './byHand.ts';
import { SPEC } from './school.ts';

type Rows = readonly (readonly CellValue[])[];
const GRID = tableOf('KeyrowGrid1', 'Grid', [['Cylinder', 'M'], ['C1', 'x'], ['C2', '']]); // prettier-ignore

/** The grid at B4, with what stands to the right of it from D4 on; `formulas` are the values where left out. */
function builder(right: Rows = [], formulas: Rows = right, protect = false): PlanBuilder {
  const book = bookOf(GRID);
  const used = { sheet: 'Grid', row: 3, column: 1, rows: 3, columns: 5 };
  const with_ = (more: Rows) => [GRID.headers, ...GRID.values].map((row, r) => [...row, ...(more[r] ?? [])]);
  const other = { name: 'Other', visible: true, protected: false, used, values: [], formulas: [] };
  const sheets = [
    other,
    ...book.sheets.map((sheet) => ({
      ...sheet,
      protected: protect,
      used,
      values: with_(right),
      formulas: with_(formulas),
    })),
  ];
  return new PlanBuilder({ ...book, sheets });
}
const conflicts = ({ conflicts: all }: PlanBuilder) =>
  all.map(({ at, sentence }) => `${at?.address} ${sentence}`);

describe('columns added to a grid', () => {
  it('are written beside it and taken into the table', () => {
    const made = builder();
    addGridColumns(made, GRID, [
      { heading: 'N', rows: new Set([4, 9]) },
      { heading: 'P', rows: new Set([4, 5]) },
    ]);
    expect(made.conflicts).toEqual([]);
    expect(made.steps).toStrictEqual([
      {
        kind: 'write',
        sheet: 'Grid',
        row: 3,
        column: 3,
        cells: [
          ['N', 'P'],
          ['●', '●'],
          ['', '●'],
        ],
        formats: ['text', 'text'],
        expected: [
          ['', ''],
          ['', ''],
          ['', ''],
        ],
      },
      { kind: 'resize-table', name: 'KeyrowGrid1', from: GRID.box, to: { ...GRID.box, columns: 4 } },
    ]);
    expect(made.effects).toStrictEqual(
      ['N', 'P'].map((heading) => ({
        kind: 'column',
        sheet: 'Grid',
        rows: 3,
        what: 'new column',
        heading,
        beside: 'M',
      })),
    );
    const none = builder();
    addGridColumns(none, GRID, []);
    expect([none.steps, none.effects]).toEqual([[], []]);
    addGridColumns(none, { ...GRID, headers: [] }, [{ heading: 'N', rows: new Set() }]);
    expect(none.effects[0]).toMatchObject({ beside: 'the grid' });
    addGridColumns(none, { ...GRID, headers: ['Cylinder', 'M', 'A'] }, [{ heading: 'N', rows: new Set() }]);
    expect(none.effects[1]).toMatchObject({ beside: 'A' });
  });

  it('are barred by what stands there, and by a protected sheet once', () => {
    const filled = builder([[], ['mine']]);
    addGridColumns(filled, GRID, [{ heading: 'N', rows: new Set() }]);
    expect(conflicts(filled)).toEqual([
      'D5 This cell is not empty, and the table has to grow over it. Move its content.',
    ]);
    const shut = builder([], [], true);
    addGridColumns(shut, GRID, [{ heading: 'N', rows: new Set() }]);
    addGridColumns(shut, GRID, [{ heading: 'P', rows: new Set() }]);
    expect(conflicts(shut)).toEqual([
      'B4 The sheet Grid is protected: take the protection off. Do that first, then read the book again.',
    ]);
  });

  it('stand beside keys and cylinders that are found in any case', () => {
    const grid = { table: 'KeyrowGrid1', box: GRID.box, keys: new Map([['M', 2]]), cylinders: new Map([['C1', 4]]), marks: [] }; // prettier-ignore
    const system = {
      name: 'A',
      specName: '',
      keys: [],
      cylinders: [],
      grid,
      at: { sheet: 'Systems', address: 'A5' },
    };
    expect([columnIn(system, ' m'), columnIn(system, 'N'), rowIn(system, 'c1'), rowIn(system, 'C2')]).toEqual(
      [2, undefined, 4, undefined],
    );
    const { grid: _grid, ...bare } = system;
    expect([_grid.keys.size, columnIn(bare, 'M'), rowIn(bare, 'C1')]).toEqual([1, undefined, undefined]);
  });
});

describe('single cells that are changed', () => {
  const change = (address: string, to: string) => ({
    at: { sheet: 'Grid', address },
    what: 'a cell',
    from: '',
    to,
  });

  it('are written with what they hold kept, neighbours of a row together', () => {
    const made = builder();
    changeCells(made, GRID, [
      change('C6', 'd'),
      change('C5', 'b'),
      change('B5', 'a'),
      change('B6', 'c'),
      change('E6', 'f'),
    ]);
    expect(made.steps).toStrictEqual([
      { kind: 'write', sheet: 'Grid', row: 4, column: 1, cells: [['a', 'b']], formats: ['text', 'text'], expected: [['C1', 'x']] },
      { kind: 'write', sheet: 'Grid', row: 5, column: 1, cells: [['c', 'd']], formats: ['text', 'text'], expected: [['C2', '']] },
      { kind: 'write', sheet: 'Grid', row: 5, column: 4, cells: [['f']], formats: ['text'], expected: [['']] },
    ]); // prettier-ignore
    expect(made.effects).toEqual([{ kind: 'cells', sheet: 'Grid', rows: 5, what: 'cells changed' }]);
    const numbers = builder();
    changeCells(numbers, GRID, [change('B5', '7')], 'general');
    expect(numbers.steps[0]).toMatchObject({ formats: ['general'] });
    const none = builder([], [], true);
    changeCells(none, GRID, []);
    expect([none.steps, none.effects, none.conflicts]).toEqual([[], [], []]);
  });

  it('are never formulas', () => {
    const made = builder([[], ['3', '=text']], [[], ['=A1', '=text']]);
    changeCells(made, GRID, [change('D5', 'x'), change('E5', 'y')]);
    expect(made.conflicts).toStrictEqual([
      {
        sentence: 'This cell holds a formula, which is not written over. Put its value there first.',
        at: { sheet: 'Grid', address: 'D5' },
        holds: '=A1',
      },
    ]);
    // what only looks like a formula is text
    expect(made.steps).toMatchObject([{ row: 4, column: 4, expected: [['=text']] }]);
    const unread: BookReading = bookOf(GRID);
    const bare = new PlanBuilder(unread);
    changeCells(bare, GRID, [change('D5', 'x')]);
    expect(bare.steps).toMatchObject([{ expected: [['']] }]);
    const shut = builder([], [], true);
    changeCells(shut, GRID, [change('D5', 'x')]);
    expect(shut.conflicts).toHaveLength(1);
  });

  it('are the chambers that a new pinning changes', () => {
    const cell = (address: string) => ({ sheet: 'Cylinders', address });
    const row = { system: 'A', id: 'C1', symbol: 'A', at: { row: cell('B5'), system: cell('A5'), symbol: cell('C5'), chambers: ['D5', 'E5', 'F5'].map(cell) } }; // prettier-ignore
    const sets = (...depths: readonly (readonly number[])[]) => depths.map((list) => depthSetOf(list));
    const pinned = { ...row, door: '101', chambers: sets([1], [2, 4], [3]) };
    expect(chamberChanges(SPEC, pinned, sets([1], [2, 6], [5], [7]))).toStrictEqual([
      { at: cell('E5'), what: 'Ch 2 of 101', from: '2 4', to: '2 6' },
      { at: cell('F5'), what: 'Ch 3 of 101', from: '3', to: '5' },
    ]);
    expect(chamberChanges(SPEC, row, sets([1]))).toStrictEqual([{ at: cell('D5'), what: 'Ch 1 of C1', from: '', to: '1' }]); // prettier-ignore
  });
});
