import { describe, expect, it } from 'vitest';
import { without, whole } from './systems.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { gridOf } from '../../taskpane/audit/gridOf.ts';
import { stateOf } from '../../taskpane/shared/usePlan.ts';
import { stepsOf } from '../../taskpane/worker/jobs.ts';

describe('the jobs of the worker', () => {
  it('survive the way to a worker and back: orders and results are plain data', () => {
    const order = structuredClone({ job: 'audit' as const, input: auditInputOf(whole.system, whole.marks) });
    const report = structuredClone(runToEnd(stepsOf(order)));
    expect(report).toMatchObject({ keys: 9, cylinders: 6, pairs: 54, counts: {}, complete: true });
  });

  it('count the room of a request', () => {
    const capacity = runToEnd(stepsOf({ job: 'capacity', input: whole.request }));
    expect(capacity.fits).toBe(true);
    expect(capacity.figures!.usable).toBeLessThanOrEqual(capacity.figures!.theoretical);
  });
});

describe('gridOf', () => {
  it('marks what follows from the hierarchy: a key opens its own line and nothing else', () => {
    const grid = gridOf(auditInputOf(whole.system, whole.marks), whole);
    const symbols = grid.keys.map((k) => k.symbol);
    grid.cylinders.forEach((cylinder, row) =>
      symbols.forEach((symbol, column) => {
        // AA1 is opened by AA1, AA and A: the levels of ANSI/BHMA A156.28
        const meant = ['AA1', 'AA2', 'AA3', 'AB1', 'AB2', 'AB3'][row]!.startsWith(symbol);
        expect(grid.stateOf(row, column), `${symbol} at ${cylinder.id}`).toBe(meant ? 'opens' : 'closed');
      }),
    );
  });

  it('shows a chamber pinned wrong as a lock-out, and a mark taken away as an interchange', () => {
    const locked = gridOf(auditInputOf(without.chamber, whole.marks), { system: without.chamber });
    const column = locked.keys.findIndex((k) => k.symbol === 'AA1');
    expect(locked.stateOf(0, column)).toBe('lock-out');
    const marks = whole.marks.filter((m) => !(m.key === 'AA' && m.cylinder === 'C1'));
    const open = gridOf(auditInputOf(whole.system, marks), whole);
    expect(
      open.stateOf(
        0,
        open.keys.findIndex((k) => k.symbol === 'AA'),
      ),
    ).toBe('interchange');
  });
});

describe('stateOf', () => {
  const sentence = 'Said by the workbook room.';
  it('keeps what takes a write back', () => {
    const undo = {
      title: 'Keys',
      steps: [],
      before: [],
      after: [],
      added: [],
      sheets: [],
      tables: [],
      pictures: [],
    };
    expect(stateOf({ outcome: 'done', sentence, cells: 3, oneUndo: false, undo }, false, ['Keys'])).toEqual({
      step: 'written',
      sentence,
      undo,
      sheets: ['Keys'],
    });
    expect(stateOf({ outcome: 'done', sentence, cells: 3, oneUndo: false }, true)).toEqual({
      step: 'undone',
      sentence,
    });
  });

  it('tells stopped from failed, and names places that may be half written', () => {
    expect(stateOf({ outcome: 'rolled-back', sentence, stopped: true }, false).step).toBe('stopped');
    expect(stateOf({ outcome: 'rolled-back', sentence, stopped: false }, false).step).toBe('failed');
    const box = { sheet: 'Keys', row: 3, column: 0, rows: 2, columns: 3 };
    expect(stateOf({ outcome: 'broken', sentence, places: [box] }, false)).toMatchObject({
      step: 'failed',
      conflicts: [{ at: { sheet: 'Keys', address: 'A4:C5' } }],
    });
  });
});
