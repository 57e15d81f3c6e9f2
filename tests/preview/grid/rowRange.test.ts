/** A row's own cells as one range (`Table[@[first]:[last]]`), typed into one by one after the first calculation. */
import { describe, expect, it } from 'vitest';
import { attachHeadless } from '../../../src/preview/grid/headless.ts';
import type { FunctionTable } from '../../../src/preview/grid/arguments.ts';
import { WorkbookModel } from '../../../src/preview/model/index.ts';

const functions: FunctionTable = new Map([
  [
    'KEYROW.JUDGE',
    {
      parameters: [
        { name: 'readings', type: 'any', dimensionality: 'matrix' },
        { name: 'code', type: 'any' },
        { name: 'spec', type: 'string' },
        { name: 'specs', type: 'any', dimensionality: 'matrix', optional: true },
      ],
      // blank where nothing was read, as the add-in's own function answers
      call: ([readings, code]) => {
        const read = (readings as unknown[][]).flat();
        return read.every((cell) => cell === '') ? '' : `${String(code)}: ${read.join(' ')}`;
      },
    },
  ],
]);

const JUDGED =
  '=KEYROW.JUDGE(KeyrowCutting[@[Read 1]:[Read 3]],KeyrowCutting[@Bitting],"S-018-6",KeyrowSpecs[#All])';

function cutting(): WorkbookModel {
  const model = new WorkbookModel({ sheets: ['Keyrow specs', 'Cutting'] });
  const area = { row: 0, column: 0, rows: 2, columns: 2 };
  model.enterBlock(
    'Keyrow specs',
    area,
    [
      ['Spec', 'Cuts'],
      ['S-018-6', 3],
    ],
    'addin',
  );
  model.addTable('Keyrow specs', area, true, 'addin', 'KeyrowSpecs');
  const table = { row: 3, column: 0, rows: 3, columns: 6 };
  model.style('Cutting', { row: 4, column: 1, rows: 2, columns: 1 }, { numberFormat: '@' }, 'addin');
  model.enterBlock(
    'Cutting',
    table,
    [
      ['Mark', 'Bitting', 'Read 1', 'Read 2', 'Read 3', 'Judged'],
      ['A1', '274', '', '', '', null],
      ['A2', '352', '', '', '', null],
    ],
    'addin',
  );
  model.addTable('Cutting', table, true, 'addin', 'KeyrowCutting');
  for (const row of [4, 5]) model.enter('Cutting', row, 5, JUDGED, 'addin');
  return model;
}

describe('a row’s readings as one range', () => {
  it('are judged anew after each reading, in their own row only', async () => {
    const model = cutting();
    const engine = attachHeadless(model, functions);
    await engine.settle();
    expect([4, 5].map((row) => model.value('Cutting', row, 5))).toEqual(['', '']);
    model.enter('Cutting', 4, 2, '0.28', 'user');
    await engine.settle();
    expect([4, 5].map((row) => model.value('Cutting', row, 5))).toEqual(['274: 0.28  ', '']);
    model.enter('Cutting', 5, 4, '0.3', 'user');
    model.enter('Cutting', 4, 3, '0.189', 'user');
    await engine.settle();
    expect([4, 5].map((row) => model.value('Cutting', row, 5))).toEqual(['274: 0.28 0.189 ', '352:   0.3']);
    engine.dispose();
  });

  it('are still judged after the formula’s cell was given a format', async () => {
    const model = cutting();
    const engine = attachHeadless(model, functions);
    await engine.settle();
    // as the add-in does it: the formulas stand, then the table is made to look like one
    model.style('Cutting', { row: 3, column: 0, rows: 3, columns: 6 }, { wrap: true }, 'addin');
    await engine.settle();
    model.enter('Cutting', 4, 2, '0.28', 'user');
    await engine.settle();
    expect([4, 5].map((row) => model.value('Cutting', row, 5))).toEqual(['274: 0.28  ', '']);
    engine.dispose();
  });
});

describe('a list of a formula’s own making', () => {
  it('stays and follows after its cells were given a format', async () => {
    const model = new WorkbookModel({ sheets: ['Sheet1'] });
    const engine = attachHeadless(model);
    model.enter('Sheet1', 0, 0, '3', 'user');
    model.enter('Sheet1', 0, 1, '=SEQUENCE(A1)', 'user');
    await engine.settle();
    model.style('Sheet1', { row: 0, column: 0, rows: 4, columns: 2 }, { bold: true }, 'user');
    await engine.settle();
    model.enter('Sheet1', 0, 0, '4', 'user');
    await engine.settle();
    expect([0, 1, 2, 3].map((row) => model.value('Sheet1', row, 1))).toEqual([1, 2, 3, 4]);
    engine.dispose();
  });
});
