/** The forms of solving and of keys without a master, and the words for answers. */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import { pinnedFor } from '../../src/keying/cylinder.ts';
import { keyedDifferentPool, type Grid } from '../../src/keying/grid/index.ts';
import { starterSpec } from '../../src/keying/starters.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { auditInput, planNewSystem } from '../../src/workbook/index.ts';
import { controlSentence, gainSentence, wayLabel } from '../../taskpane/cross/words.ts';
import { DEFAULT_POOL, poolSystem, readPoolForm } from '../../taskpane/pools/poolForm.ts';
import { chartPlaces } from '../../taskpane/solve/chartPlaces.ts';
import { conflictLines, extentOf } from '../../taskpane/solve/conflict.ts';
import { DEFAULT_SOLVE, readSolveForm } from '../../taskpane/solve/solveForm.ts';
import { blankAt, solvedGrid } from '../../taskpane/solve/solvedGrid.ts';
import { searchWords } from '../../taskpane/solve/stage.ts';
import { openBook } from '../support/office.ts';
import { MADE, reading, write, writeSystem } from '../workbook/book.ts';
import { school } from '../workbook/school.ts';

const spec = starterSpec('S-018-6')!;

describe('the options of solving', () => {
  it('become the solver’s', () => {
    const { options, faults } = readSolveForm(
      {
        ...DEFAULT_SOLVE,
        mostDepths: '2',
        constant: '5, 6',
        avoid: '241536',
        budget: '5,000,000',
        seed: '9',
      },
      spec,
    );
    expect(faults.size).toBe(0);
    expect(options).toMatchObject({
      mostDepths: 2,
      constant: [4, 5],
      avoid: [[2, 4, 1, 5, 3, 6]],
      budget: 5_000_000,
      seed: 9,
      sameMarks: 'different',
    });
  });

  it('have a sentence for each fault', () => {
    const { options, faults } = readSolveForm(
      { ...DEFAULT_SOLVE, mostDepths: '11', constant: '7', avoid: '24153', budget: 'long', seed: '' },
      spec,
    );
    expect(options).toBeUndefined();
    expect([...faults.keys()].sort()).toEqual(['avoid', 'budget', 'constant', 'mostDepths', 'seed']);
    expect(faults.get('constant')).toBe('Positions from 1 to 6, such as 5 6.');
    expect(faults.get('avoid')).toMatch(/^“24153”: /);
  });
});

describe('the picture of a solution', () => {
  it('has keys shut out by their keyway or their length, whatever their cuts', () => {
    const cuts = bittingOf(spec, [2, 4, 1, 5, 3, 6]);
    const keys = [
      { symbol: 'A', keyway: 'K1' },
      { symbol: 'B', keyway: 'K2' },
      { symbol: 'C', keyway: 'K1', cuts: 5 },
    ];
    const cylinders = [
      { id: '1', keyway: 'K1' },
      { id: '2', keyway: 'K2' },
      { id: '3', keyway: 'K1', inUse: [true, true, true, true, true, false] },
    ];
    const grid: Grid = { spec, keys, cylinders, marks: [[0], [1], [0, 2]] };
    const data = solvedGrid(
      grid,
      {
        keys: keys.map(({ symbol }) => ({ symbol, bitting: cuts, fixed: false })),
        cylinders: cylinders.map(({ id, inUse }) => ({
          id,
          chambers: pinnedFor(spec, [cuts], inUse),
          fixed: false,
        })),
      },
      new Map([['2', 'Store']]),
    );
    expect(cylinders.map((_, row) => keys.map((_key, column) => data.stateOf(row, column)))).toEqual([
      ['opens', 'closed', 'closed'],
      ['closed', 'opens', 'closed'],
      ['opens', 'closed', 'opens'],
    ]);
    expect(data.cylinders.map(({ door }) => door)).toEqual(['1', 'Store', '3']);
    expect(blankAt(grid, 1, 0).wrongKeyway).toEqual({ key: 'K1', cylinder: 'K2' });
  });
});

describe('answers in words', () => {
  it('claim of a conflict’s keys and doors no more than is proved', () => {
    const reason = { code: 'search-exhausted', steps: 9 } as const;
    expect(extentOf({ reason, minimal: true })).toMatch(/^Each of these is needed/);
    expect(extentOf({ reason, minimal: false })).toMatch(/these are enough\.$/);
    for (const minimal of [true, false])
      expect(extentOf({ reason: { code: 'no-bitting-for-key', key: 'A' }, minimal })).toMatch(
        /^It shows at these/,
      );
  });

  it('name the doors of a conflict and what each must do', () => {
    const at = (address: string) => ({ sheet: 'Doors', address });
    const places = chartPlaces({
      layout: { headerRow: 0, cylinder: 0, keys: [1, 2, 3] },
      keys: [
        { symbol: 'M', at: at('B1') },
        { symbol: 'A', at: at('C1') },
        { symbol: 'B', at: at('D1') },
      ],
      cylinders: [{ id: '101', door: 'Store', at: at('A2') }],
      marks: [
        { key: 'M', cylinder: '101', at: at('B2') },
        { key: 'A', cylinder: '101', at: at('C2') },
      ],
    });
    expect(conflictLines({ keys: ['M', 'A', 'B'], cylinders: ['101'] }, places)).toEqual([
      { severity: 'fault', sentence: 'Store must open for M and A, and stay shut for B.', at: at('A2') },
    ]);
    expect(places.crossing('B', '101')).toEqual(at('D2'));
    expect(conflictLines({ keys: ['B'], cylinders: [] }, places)[0]?.at).toEqual(at('D1'));
  });

  it('count what is open while searching', () => {
    expect(searchWords('trying everything: 1200 left')).toBe('Trying everything, 1,200 still open. Steps:');
    expect(searchWords('auditing')).toBe('Auditing. Steps:');
  });

  it('say what cross-keying does', () => {
    expect(wayLabel({ kind: 'empty-chamber', chambers: [3] })).toBe('Chamber 3 left empty');
    expect(wayLabel({ kind: 'constant-chamber', chambers: [2, 5] })).toBe('Chambers 2 and 5 kept constant');
    expect(gainSentence([], 'Store')).toBe('No other listed key gets in.');
    expect(gainSentence(['AB8'], 'Store')).toBe('AB8 would open Store too, and should not.');
    expect(controlSentence('uncontrolled')).toMatch(/^Uncontrolled/);
  });
});

describe('keys without a master', () => {
  it('avoid what the workbook uses, are written with their cylinders and read back', async () => {
    openBook();
    await writeSystem(school());
    const book = await reading();
    const form = { ...DEFAULT_POOL, kind: 'alike' as const, count: '3', cylinders: '2', difference: '4' };
    const { request, cylinders } = readPoolForm(form, spec, book);
    const used = school().system.keys.map((key) => key.bitting);
    expect(new Set(request!.used!.map(String))).toEqual(new Set(used.map(String)));
    const { bittings } = runToEnd(keyedDifferentPool(request!));
    for (const [i, cuts] of bittings.entries())
      for (const other of [...used, ...bittings.slice(0, i)])
        expect(cuts.filter((cut, c) => cut !== other[c]).length).toBeGreaterThanOrEqual(4);
    const made = poolSystem('Stock', spec, bittings, 'alike', cylinders);
    await write(planNewSystem(book, made, { ...MADE, grid: false }));
    const after = await reading();
    expect(after.problems).toEqual([]);
    const stock = auditInput(after, 'Stock')!;
    expect(stock.system.keys.map((key) => key.symbol)).toEqual(['KA1', 'KA2', 'KA3']);
    expect(stock.system.cylinders.map((c) => c.id)).toEqual([
      'KA1-1',
      'KA1-2',
      'KA2-1',
      'KA2-2',
      'KA3-1',
      'KA3-2',
    ]);
    expect(stock.marks).toHaveLength(6);
    expect(after.systems[1]?.grid).toBeUndefined();
  });

  it('take back what can’t be asked', () => {
    const { request, faults } = readPoolForm(
      { ...DEFAULT_POOL, count: '0', difference: '7', avoid: '99' },
      spec,
    );
    expect(request).toBeUndefined();
    expect([...faults.keys()].sort()).toEqual(['avoid', 'count', 'difference']);
  });

  it('are keyed different by default, each for a cylinder', () => {
    const { request } = readPoolForm(DEFAULT_POOL, spec);
    expect(request).toMatchObject({ count: 20, minimumDifference: 2, seed: 1 });
    const made = poolSystem('Stock', spec, [bittingOf(spec, [2, 4, 1, 5, 3, 6])], 'different', 1);
    expect(made.system.cylinders).toMatchObject([{ id: 'SKD1-1', symbol: 'SKD1' }]);
  });
});
