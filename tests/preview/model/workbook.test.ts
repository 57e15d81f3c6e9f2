import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { WorkbookModel, type Change } from '../../../src/preview/model/index.ts';

/** All that undo must bring back. */
function picture(model: WorkbookModel): unknown {
  return structuredClone({
    sheets: model.sheets.map((sheet) => [
      sheet.layout,
      [...sheet.cells.all()].sort((a, b) => a.row - b.row || a.column - b.column),
    ]),
    tables: model.tables,
    names: model.names,
  });
}

describe('results of formulas', () => {
  it('spill, and give way to content', () => {
    const model = new WorkbookModel();
    model.enter('Sheet1', 0, 0, '=SEQ()', 'user');
    model.setResult('Sheet1', 0, 0, [
      [1, 2],
      [3, null],
    ]);
    expect(model.cell('Sheet1', 0, 0)).toMatchObject({
      value: 1,
      formula: '=SEQ()',
      spill: { rows: 2, columns: 2 },
    });
    // a blank result is 0
    expect(model.cell('Sheet1', 1, 1)).toEqual({ value: 0, spilledFrom: { row: 0, column: 0 } });
    model.enter('Sheet1', 1, 0, 'in the way', 'user');
    expect(model.value('Sheet1', 0, 0)).toEqual({ error: '#SPILL!' });
    expect(model.cell('Sheet1', 0, 1)).toBeUndefined();
    model.setResult('Sheet1', 0, 0, [[1], [2]]);
    expect(model.value('Sheet1', 0, 0)).toEqual({ error: '#SPILL!' });
    model.clear('Sheet1', { row: 1, column: 0, rows: 1, columns: 1 }, 'contents', 'user');
    model.setResult('Sheet1', 0, 0, [[1], [2]]);
    expect(model.value('Sheet1', 1, 0)).toBe(2);
  });

  it('shrink without leaving cells behind', () => {
    const model = new WorkbookModel();
    model.enter('Sheet1', 0, 0, '=SEQ()', 'user');
    model.setResult('Sheet1', 0, 0, [[1], [2], [3]]);
    model.setResult('Sheet1', 0, 0, [[1]]);
    expect(model.usedArea('Sheet1')).toEqual({ row: 0, column: 0, rows: 1, columns: 1 });
    expect(model.cell('Sheet1', 0, 0)?.spill).toBeUndefined();
  });

  it('do not spill inside a table', () => {
    const model = new WorkbookModel();
    model.addTable('Sheet1', { row: 0, column: 0, rows: 3, columns: 1 }, true, 'user');
    model.enter('Sheet1', 1, 0, '=SEQ()', 'addin');
    model.setResult('Sheet1', 1, 0, [[1], [2]]);
    expect(model.value('Sheet1', 1, 0)).toEqual({ error: '#SPILL!' });
  });

  it('come as one notice of the calculation and leave undo alone', () => {
    const model = new WorkbookModel();
    model.enterBlock('Sheet1', { row: 0, column: 0, rows: 2, columns: 1 }, [['=1'], ['=2']], 'user');
    const changes: Change[] = [];
    model.subscribe((change) => changes.push(change));
    model.setResults('Sheet1', [
      { row: 0, column: 0, result: 1 },
      { row: 1, column: 0, result: 2 },
      { row: 5, column: 5, result: 'no formula there' },
    ]);
    expect(changes).toEqual([
      {
        kind: 'cells',
        sheetId: model.active.id,
        area: { row: 0, column: 0, rows: 2, columns: 1 },
        origin: 'calculation',
      },
    ]);
    expect(model.undoStack.length).toBe(1);
    expect(model.value('Sheet1', 5, 5)).toBeNull();
  });

  it('move with inserted rows', () => {
    const model = new WorkbookModel();
    model.enter('Sheet1', 1, 0, '=SEQ()', 'user');
    model.setResult('Sheet1', 1, 0, [[1], [2]]);
    model.insertRows('Sheet1', 0, 1, 'user');
    expect(model.cell('Sheet1', 3, 0)?.spilledFrom).toEqual({ row: 2, column: 0 });
  });
});

describe('undo', () => {
  const at = fc.integer({ min: 0, max: 6 });
  const step = fc.oneof(
    fc.record({
      act: fc.constant('enter' as const),
      row: at,
      column: at,
      text: fc.constantFrom('x', '7', '=A1+B2', ''),
    }),
    fc.record({ act: fc.constant('bold' as const), row: at, column: at }),
    fc.record({ act: fc.constant('rows' as const), row: at, count: fc.constantFrom(1, 2, -1, -2) }),
    fc.record({ act: fc.constant('columns' as const), column: at, count: fc.constantFrom(1, -1) }),
    fc.record({ act: fc.constant('lane' as const), row: at, column: at, down: fc.boolean() }),
    fc.record({ act: fc.constant('table' as const), row: at, column: at }),
    fc.record({ act: fc.constant('tableRow' as const) }),
    fc.record({ act: fc.constant('name' as const), row: at }),
    fc.record({ act: fc.constant('rename' as const), name: fc.constantFrom('Keys', 'My cuts') }),
    fc.record({ act: fc.constant('clear' as const), row: at, column: at }),
  );

  function perform(model: WorkbookModel, s: typeof step extends fc.Arbitrary<infer T> ? T : never): void {
    const [sheet] = model.sheets;
    if (!sheet) return;
    switch (s.act) {
      case 'enter':
        return model.enter(sheet, s.row, s.column, s.text, 'user');
      case 'bold':
        return model.style(
          sheet,
          { row: s.row, column: s.column, rows: 2, columns: 2 },
          { bold: true },
          'user',
        );
      case 'rows':
        return s.count > 0
          ? model.insertRows(sheet, s.row, s.count, 'user')
          : model.deleteRows(sheet, s.row, -s.count, 'user');
      case 'columns':
        return s.count > 0
          ? model.insertColumns(sheet, s.column, s.count, 'user')
          : model.deleteColumns(sheet, s.column, -s.count, 'user');
      case 'lane': {
        const area = { row: s.row, column: s.column, rows: 1, columns: 1 };
        return s.down
          ? model.insertCells(sheet, area, 'down', 'user')
          : model.deleteCells(sheet, area, 'left', 'user');
      }
      case 'table':
        model.addTable(sheet, { row: s.row, column: s.column, rows: 3, columns: 2 }, true, 'user');
        return;
      case 'tableRow': {
        const [table] = model.tables;
        if (table) model.addTableRows(table.id, null, 1, 'user');
        return;
      }
      case 'name': {
        const formula = `=${sheet.name.includes(' ') ? `'${sheet.name}'` : sheet.name}!$A$${String(s.row + 1)}`;
        return model.addName(
          { name: `n${String(s.row)}_`, sheetId: null, formula, visible: true, comment: '' },
          'user',
        );
      }
      case 'rename':
        return model.renameSheet(sheet, s.name, 'user');
      case 'clear':
        return model.clear(sheet, { row: s.row, column: s.column, rows: 3, columns: 3 }, 'all', 'user');
    }
  }

  it('brings back exactly what was there, whatever was done', () => {
    fc.assert(
      fc.property(
        fc.array(step, { maxLength: 8 }),
        fc.array(step, { minLength: 1, maxLength: 8 }),
        (before, done) => {
          const model = new WorkbookModel();
          // refusals (a table in the way, a name in use) are part of the game
          const attempt = (s: (typeof done)[number]): void => {
            try {
              perform(model, s);
            } catch (error) {
              if (!(error instanceof Error) || error.name !== 'ModelError') throw error;
            }
          };
          before.forEach(attempt);
          const then = picture(model);
          const length = model.undoStack.length;
          done.forEach(attempt);
          while (model.undoStack.length > length) model.undo();
          expect(picture(model)).toEqual(then);
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('size', () => {
  it('holds 100,000 cells and moves them', () => {
    const model = new WorkbookModel();
    const rows = Array.from({ length: 10_000 }, (_, i) =>
      Array.from({ length: 10 }, (__, j) => `${String(i)}/${String(j)}x`),
    );
    model.enterBlock('Sheet1', { row: 0, column: 0, rows: 10_000, columns: 10 }, rows, 'addin');
    model.insertRows('Sheet1', 5, 3, 'addin');
    expect(model.value('Sheet1', 10_002, 9)).toBe('9999/9x');
    // a quadratic model would need minutes and run into the test's time limit
  });
});
