import { describe, expect, it } from 'vitest';
import { WorkbookModel } from '../../../src/preview/model/index.ts';
import { attachHeadless, calculateHeadless } from '../../../src/preview/grid/headless.ts';
import type { PreviewFunction } from '../../../src/preview/grid/arguments.ts';

const any = (name: string, more: object = {}): PreviewFunction['parameters'][number] => ({
  name,
  type: 'any',
  dimensionality: 'scalar',
  ...more,
});
const range = (name: string): PreviewFunction['parameters'][number] => ({
  name,
  type: 'any',
  dimensionality: 'matrix',
});

/** Stand-ins that show what they were given. */
const functions = new Map<string, PreviewFunction>([
  [
    'KEYROW.SHOW',
    { parameters: [any('a'), any('b', { optional: true })], call: ([a, b]) => JSON.stringify([a, b]) },
  ],
  ['KEYROW.RANGE', { parameters: [range('r')], allowErrors: true, call: ([r]) => JSON.stringify(r) }],
  ['KEYROW.STRICT', { parameters: [range('r')], call: ([r]) => JSON.stringify(r) }],
  ['KEYROW.CUTS', { parameters: [any('code')], call: ([code]) => [[...String(code)].map(Number)] }],
  [
    'KEYROW.TEXTS',
    {
      parameters: [],
      call: () => [
        ['007', true],
        [1.5, 'x'],
      ],
    },
  ],
  ['KEYROW.DOUBLE', { parameters: [{ name: 'n', type: 'number' }], call: ([n]) => Number(n) * 2 }],
  [
    'KEYROW.FAIL',
    {
      parameters: [],
      call: () => {
        throw Object.assign(new Error('no such key'), { code: '#N/A' });
      },
    },
  ],
  [
    'KEYROW.BROKEN',
    {
      parameters: [],
      call: () => {
        throw new TypeError('x');
      },
    },
  ],
]);

function withTable(): WorkbookModel {
  const model = new WorkbookModel({ sheets: ['Keys', 'Other sheet'] });
  model.style('Keys', { row: 1, column: 1, rows: 3, columns: 1 }, { numberFormat: '@' }, 'addin');
  model.enterBlock(
    'Keys',
    { row: 0, column: 0, rows: 4, columns: 3 },
    [
      ['Key', 'Bitting', 'Depth [mm]'],
      ['A', '0123', 1],
      ['B', '4567', 2],
      ['C', '', 4],
    ],
    'addin',
  );
  model.addTable('Keys', { row: 0, column: 0, rows: 4, columns: 3 }, true, 'addin', 'Keys');
  return model;
}

describe('calculation without a screen', () => {
  it('calculates plain formulas and keeps types apart', async () => {
    const model = new WorkbookModel({ sheets: ['S'] });
    model.enter('S', 0, 0, "'0042", 'user');
    model.enterBlock(
      'S',
      { row: 0, column: 1, rows: 1, columns: 5 },
      [['=A1&""', '=1/0', '=1=1', '=SUM(1,2)', '=A1+1']],
      'user',
    );
    await calculateHeadless(model);
    expect([1, 2, 3, 4, 5].map((column) => model.value('S', 0, column))).toEqual([
      '0042',
      { error: '#DIV/0!' },
      true,
      3,
      43,
    ]);
  });

  it('resolves structured references, wherever the formula stands', async () => {
    const model = withTable();
    model.enter('Keys', 1, 4, '=SUM(Keys[Depth '.concat("'[mm']])"), 'user');
    model.enter('Other sheet', 0, 0, '=SUM(keys[depth '.concat("'[mm']])"), 'user');
    model.enter('Other sheet', 0, 1, '=ROWS(Keys[#All])*10+COLUMNS(Keys)', 'user');
    model.enter('Other sheet', 0, 2, '=Keys[[#Headers],[Bitting]]', 'user');
    model.enter('Other sheet', 0, 3, '=SUM(Keys[None])', 'user');
    model.enter('Keys', 2, 5, '=Keys[@Bitting]', 'user');
    model.enter('Keys', 9, 5, '=Keys[@Bitting]', 'user');
    model.enter('Keys', 2, 6, '=COUNTA(Keys[@[Key]:[Bitting]])', 'user');
    await calculateHeadless(model);
    expect(model.value('Keys', 1, 4)).toBe(7);
    expect([0, 1, 2, 3].map((column) => model.value('Other sheet', 0, column))).toEqual([
      7,
      43,
      'Bitting',
      { error: '#REF!' },
    ]);
    expect(model.value('Keys', 2, 5)).toBe('4567');
    expect(model.value('Keys', 9, 5)).toEqual({ error: '#VALUE!' });
    expect(model.value('Keys', 2, 6)).toBe(2);
  });

  it('leaves a totals row out of the data', async () => {
    const model = withTable();
    model.showTotals('Keys', true, 'addin');
    model.enter('Keys', 4, 2, 100, 'user');
    model.enter('Other sheet', 0, 0, "=SUM(Keys[Depth '[mm']])", 'user');
    await calculateHeadless(model);
    expect(model.value('Other sheet', 0, 0)).toBe(7);
  });

  it('calls the add-in per row inside a table', async () => {
    const model = withTable();
    model.addTableColumn('Keys', null, 'Check', 'addin');
    model.enterBlock(
      'Keys',
      { row: 1, column: 3, rows: 3, columns: 1 },
      [['=KEYROW.SHOW([@Bitting])'], ['=KEYROW.SHOW([@Bitting])'], ['=KEYROW.SHOW([@Bitting])']],
      'addin',
    );
    await calculateHeadless(model, functions);
    expect([1, 2, 3].map((row) => model.value('Keys', row, 3))).toEqual([
      '["0123",null]',
      '["4567",null]',
      '[null,null]',
    ]);
    expect(model.cell('Keys', 1, 3)?.formula).toBe('=KEYROW.SHOW([@Bitting])');
  });

  it('passes blanks, omitted arguments and errors as Excel does', async () => {
    const model = new WorkbookModel({ sheets: ['S'] });
    model.enter('S', 0, 0, '#N/A', 'user');
    model.enter('S', 0, 1, "'01", 'user');
    const formulas = [
      '=KEYROW.SHOW(Z99,)',
      '=KEYROW.SHOW(TRUE,B1)',
      '=KEYROW.RANGE(A1:C1)',
      '=KEYROW.STRICT(A1:C1)',
      '=KEYROW.STRICT(B1:C1)',
      '=KEYROW.SHOW(1/0)',
      '=KEYROW.DOUBLE("x")',
      '=KEYROW.DOUBLE(Z99)',
      '=KEYROW.DOUBLE()',
      '=KEYROW.FAIL()',
      '=KEYROW.BROKEN()',
    ];
    formulas.forEach((formula, i) => model.enter('S', 5 + i, 0, formula, 'user'));
    await calculateHeadless(model, functions);
    expect(formulas.map((_, i) => model.value('S', 5 + i, 0))).toEqual([
      '[null,null]',
      '[true,"01"]',
      '[[{"type":"Error","basicType":"Error","basicValue":"#N/A","errorType":"NotAvailable"},"01",""]]',
      { error: '#N/A' },
      '[["01",""]]',
      { error: '#DIV/0!' },
      { error: '#VALUE!' },
      0,
      { error: '#VALUE!' },
      { error: '#N/A', message: 'no such key' },
      { error: '#VALUE!' },
    ]);
  });

  it('spills matrices with their types, and others can use them', async () => {
    const model = new WorkbookModel({ sheets: ['S'] });
    model.enter('S', 0, 0, '=KEYROW.TEXTS()', 'user');
    model.enter('S', 4, 0, '=SUM(KEYROW.CUTS("1234"))', 'user');
    model.enter('S', 5, 0, '=A1&B2', 'user');
    await calculateHeadless(model, functions);
    expect(model.cell('S', 0, 0)).toMatchObject({ value: '007', spill: { rows: 2, columns: 2 } });
    expect(model.cell('S', 0, 1)).toMatchObject({ value: true, spilledFrom: { row: 0, column: 0 } });
    expect(model.value('S', 1, 0)).toBe(1.5);
    expect(model.value('S', 1, 1)).toBe('x');
    expect(model.value('S', 4, 0)).toBe(10);
    expect(model.value('S', 5, 0)).toBe('007x');
  });

  it('shows #SPILL! where something is in the way', async () => {
    const model = new WorkbookModel({ sheets: ['S'] });
    model.enter('S', 0, 1, 'here', 'user');
    model.enter('S', 0, 0, '=KEYROW.CUTS("12")', 'user');
    await calculateHeadless(model, functions);
    expect(model.value('S', 0, 0)).toEqual({ error: '#SPILL!' });
    expect(model.value('S', 0, 1)).toBe('here');
  });

  it('uses defined names', async () => {
    const model = withTable();
    model.addName({ name: 'Step', sheetId: null, formula: '=0.25', visible: true, comment: '' }, 'addin');
    model.addName(
      { name: 'Depths', sheetId: null, formula: '=Keys!$C$2:$C$4', visible: true, comment: '' },
      'addin',
    );
    model.enter('Other sheet', 0, 0, '=SUM(Depths)*Step', 'user');
    await calculateHeadless(model);
    expect(model.value('Other sheet', 0, 0)).toBe(1.75);
  });
});

describe('following the model', () => {
  it('recalculates after every kind of change', async () => {
    const model = withTable();
    const engine = attachHeadless(model);
    const total = (): unknown => model.value('Other sheet', 0, 0);
    model.enter('Other sheet', 0, 0, "=SUM(Keys[Depth '[mm']])", 'addin');
    await model.engine?.settle();
    expect(total()).toBe(7);
    model.enter('Keys', 1, 2, 11, 'addin');
    await engine.settle();
    expect(total()).toBe(17);
    model.insertRows('Keys', 0, 3, 'addin');
    await engine.settle();
    expect(total()).toBe(17);
    expect(model.table('Keys').area.row).toBe(3);
    model.addTableRows('Keys', null, 1, 'addin');
    model.enter('Keys', 7, 2, 100, 'addin');
    await engine.settle();
    expect(total()).toBe(117);
    model.renameTable('Keys', 'Locks', 'addin');
    model.renameSheet('Keys', 'Renamed', 'addin');
    model.enter('Renamed', 7, 2, 200, 'addin');
    await engine.settle();
    expect(total()).toBe(217);
    const sheet = model.addSheet('New', 'addin');
    model.enter(sheet, 0, 0, "='Other sheet'!A1*2", 'addin');
    await engine.settle();
    expect(model.value('New', 0, 0)).toBe(434);
    model.undo();
    await engine.settle();
    expect(model.value('New', 0, 0)).toBeNull();
    engine.dispose();
    expect(model.engine).toBeUndefined();
  });

  it('takes functions that come late', async () => {
    const model = new WorkbookModel({ sheets: ['S'] });
    model.enter('S', 0, 0, '=KEYROW.DOUBLE(21)', 'addin');
    model.enter('S', 1, 0, `=IF(LEN("${'x'.repeat(80)}")=80,KEYROW.DOUBLE(4),0)`, 'addin');
    const engine = attachHeadless(model);
    await engine.settle();
    expect(model.value('S', 0, 0)).toEqual({ error: '#NAME?' });
    engine.setFunctions(functions);
    await engine.settle();
    expect(model.value('S', 0, 0)).toBe(42);
    expect(model.value('S', 1, 0)).toBe(8);
    engine.dispose();
  });

  it('shrinks and drops spills', async () => {
    const model = new WorkbookModel({ sheets: ['S'] });
    const engine = attachHeadless(model, functions);
    model.enter('S', 0, 0, "'1234", 'addin');
    model.enter('S', 1, 0, '=KEYROW.CUTS(A1)', 'addin');
    await engine.settle();
    expect(model.cell('S', 1, 0)?.spill).toEqual({ rows: 1, columns: 4 });
    model.enter('S', 0, 0, "'12", 'addin');
    await engine.settle();
    expect(model.cell('S', 1, 0)?.spill).toEqual({ rows: 1, columns: 2 });
    expect(model.value('S', 1, 2)).toBeNull();
    model.enter('S', 1, 0, 5, 'addin');
    await engine.settle();
    expect(model.value('S', 1, 1)).toBeNull();
    engine.dispose();
  });
});

describe('the engine at its edges', () => {
  it('is not confused by a formula broken off inside a bracket', async () => {
    const model = new WorkbookModel({ sheets: ['S'] });
    const engine = attachHeadless(model);
    await engine.settle();
    engine.api.getFormula().sequenceNodesBuilder('=SUM(Keys[');
    model.enter('S', 0, 0, '=SUM(B1:B2)+1', 'addin');
    await engine.settle();
    expect(model.value('S', 0, 0)).toBe(1);
    engine.dispose();
  });
});
