/**
 * Construction keying as two plans for the school of four cylinders, worked out by hand. The key CON shares a cut with
 * every cylinder but in chamber 2, where it is cut at 7 and they shear at 3 and 5: so a pin of two steps leaves there.
 */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import { depthSetOf, type DepthSet } from '../../src/keying/depthSet.ts';
import type { BookReading, SystemReading } from '../../src/workbook/index.ts';
import {
  leavesWords,
  planConstruction,
  planHandOver,
  type ConstructionInput,
} from '../../src/workbook/planConstruction.ts';
import { openConstructions, type OpenConstruction } from '../../src/workbook/tableConstruction.ts';
import { carriedOut, cellOf, EMPTY_BOOK, lineOf, rowsOf, sentences, systemBook, typed } from './plainBook.ts';
import { SPEC } from '../workbook/school.ts';

const MADE = { made: '24 Nov 2026' };
const BOOK = systemBook();
const [SYSTEM] = BOOK.systems;
const chambersOf = (id: string): readonly DepthSet[] => SYSTEM!.cylinders.find((c) => c.id === id)!.chambers!;

const cylinder = (id: string, changedBy: readonly string[]) => ({
  id,
  after: chambersOf(id),
  before: chambersOf(id).map((set, i) => (i === 1 ? depthSetOf([3, 5, 7]) : set)),
  leaves: [{ chamber: 2, from: 5, to: 7 }],
  changedBy,
  notBy: [],
});
const INPUT: ConstructionInput = {
  system: 'School',
  symbol: 'CON',
  bitting: bittingOf(SPEC, [3, 7, 4, 6, 3, 5]),
  oneWay: 'loose-pin',
  cylinders: [cylinder('C1', ['A', 'AA']), cylinder('C3', ['A', 'AB'])],
};
const planned = (input: Partial<ConstructionInput> = {}, book: BookReading = BOOK) =>
  planConstruction(book, { ...INPUT, ...input }, MADE);
const at = (address: string) => ({ sheet: 'Cylinders', address });

/** The book with its one system changed. */
const withSystem = (change: Partial<SystemReading>, book = BOOK): BookReading => ({
  ...book,
  systems: [{ ...book.systems[0]!, ...change } as SystemReading],
});
const without = (table: string, book = BOOK): BookReading => ({
  ...book,
  tables: book.tables.filter(({ name }) => name !== table),
});

describe('a construction key put to work', () => {
  it('names the chambers that get a further pin', () => {
    const { plan, changes } = planned();
    expect(plan).toMatchObject({ title: 'Construction key CON for School', conflicts: [] });
    expect(changes).toEqual([
      { at: at('H5'), what: 'Ch 2 of 0101', from: '3 5', to: '3 5 7' },
      { at: at('H7'), what: 'Ch 2 of 0103', from: '3 5', to: '3 5 7' },
    ]);
    expect(plan.effects).toEqual([
      { kind: 'rows', sheet: 'Keys', rows: 1, what: 'rows added' },
      { kind: 'cells', sheet: 'Cylinders', rows: 2, what: 'cells changed' },
      { kind: 'column', sheet: 'Grid', rows: 5, what: 'new column', heading: 'CON', beside: 'AB2' },
      { kind: 'sheet', sheet: 'Construction', rows: 2, what: 'new sheet' },
    ]);
  });

  it('writes the key, its column with its marks, and a row for each chamber that changes', () => {
    const { plan } = planned();
    const after = carriedOut(BOOK, plan);
    expect(after.problems).toEqual([]);
    expect(after.systems[0]!.keys.at(-1)).toMatchObject({
      symbol: 'CON',
      level: 'single',
      bittingText: '374635',
      status: 'issued',
      keyway: 'K1',
    });
    expect([4, 5, 6, 7, 8].map((row) => cellOf(after, 'Grid', `K${row}`))).toEqual(['CON', '●', '', '●', '']);
    expect(lineOf(plan, 'Construction', 0)).toEqual(['Cylinders under a construction key']);
    expect(lineOf(plan, 'Construction', 1).join()).toContain('First written 24 Nov 2026. SECRET');
    // steps of 0.018 in, so two are 0.036 in
    const pin = 'a pin of 0.036 in (2 steps)';
    expect(rowsOf(plan, 'Construction')).toEqual([
      ['School', 'CON', '374635', 'C1', '0101', '2', '3 5 7', '3 5', pin, 'A, AA', ''],
      ['School', 'CON', '374635', 'C3', '0103', '2', '3 5 7', '3 5', pin, 'A, AB', ''],
    ]);
  });

  it('says that it is re-pinned where it is, in the unit asked for, with the blank’s own keyway', () => {
    const { plan } = planned({ oneWay: 'repin', unit: 'mm', keyway: 'K2' });
    const [row] = rowsOf(plan, 'Construction');
    // 0.036 in are 0.9144 mm
    expect(row!.slice(8, 10)).toEqual(['a pin of 0.91 mm (2 steps)', 're-pinned at hand-over']);
    expect(carriedOut(BOOK, plan).systems[0]!.keys.at(-1)!.keyway).toBe('K2');
    const bare = withSystem({ keyway: undefined as never });
    expect(carriedOut(BOOK, planned({}, bare).plan).systems[0]!.keys.at(-1)).not.toHaveProperty('keyway');
  });

  it('is not put where a cylinder is pinned otherwise by now', () => {
    const other = { ...cylinder('C3', []), after: chambersOf('C1') };
    const { plan, changes } = planned({ cylinders: [cylinder('C1', []), other] });
    expect(plan).toMatchObject({ steps: [] });
    expect(plan.conflicts).toEqual([
      {
        sentence:
          'Cylinder C3 is no longer pinned as it was when the construction key was found. Go back and find it again.',
        at: at('B7'),
      },
    ]);
    expect(changes).toHaveLength(1);
    const gone = { ...cylinder('C1', []), id: 'C9' };
    expect(planned({ cylinders: [gone] }).plan.conflicts).toEqual([
      {
        sentence:
          'Cylinder C9 is no longer pinned as it was when the construction key was found. Go back and find it again.',
      },
    ]);
  });

  it('needs a grid, and a row in it for each cylinder', () => {
    const gridless = 'the construction key could not be marked and the audit would report it.';
    expect(planned({}, without('KeyrowGrid1')).plan.conflicts).toEqual([
      {
        sentence: `School has no grid, so ${gridless} Give the system a grid first.`,
        at: { sheet: 'Systems', address: 'A5' },
      },
    ]);
    const { grid } = SYSTEM!;
    const cylinders = new Map([...grid!.cylinders].filter(([id]) => id !== 'C3'));
    expect(planned({}, withSystem({ grid: { ...grid!, cylinders } })).plan.conflicts).toEqual([
      {
        sentence: `The grid of School has no row for C3, so ${gridless} Give it a row first.`,
        at: { sheet: 'Systems', address: 'A5' },
      },
    ]);
  });

  it('is not planned where anything that it needs can’t be read', () => {
    const lost = ['School can’t be read any more. Read it again.'];
    for (const book of [
      EMPTY_BOOK,
      without('KeyrowKeys'),
      without('KeyrowCylinders'),
      withSystem({ spec: undefined as never }),
    ]) {
      const { plan, changes } = planned({}, book);
      expect(sentences(plan)).toEqual(lost);
      expect([plan.title, changes]).toEqual(['Construction key CON for School', []]);
    }
  });

  it('tells one step from several, whichever side the pin is on', () => {
    expect(leavesWords(SPEC, { chamber: 1, from: 4, to: 5 })).toBe('a pin of 0.018 in (1 step)');
    expect(leavesWords(SPEC, { chamber: 1, from: 7, to: 5 })).toBe('a pin of 0.036 in (2 steps)');
  });
});

describe('the one-way change', () => {
  const WORKING = carriedOut(BOOK, planned().plan);
  const [OPEN] = openConstructions(WORKING);
  const handed = (
    cylinders: readonly string[],
    book: BookReading = WORKING,
    open: Partial<OpenConstruction> = {},
  ) => planHandOver(book, { ...OPEN!, ...open }, cylinders, MADE);

  it('of some cylinders takes out the pin and the mark, and notes the day', () => {
    const { plan, changes } = handed(['c1']);
    expect(plan).toMatchObject({ title: 'Hand over School', conflicts: [] });
    expect(changes).toEqual([
      { at: at('H5'), what: 'Ch 2 of 0101', from: '3 5 7', to: '3 5' },
      { at: { sheet: 'Grid', address: 'K5' }, what: 'Mark of CON for C1', from: '●', to: '' },
      {
        at: { sheet: 'Construction', address: 'K5' },
        what: 'Handed over, 0101',
        from: '',
        to: '24 Nov 2026',
      },
    ]);
    expect(plan.steps).toHaveLength(3);
    const after = carriedOut(WORKING, plan);
    expect(openConstructions(after)[0]!.chambers.map(({ cylinder: id }) => id)).toEqual(['C3']);
    expect(after.systems[0]!.keys.at(-1)!.status).toBe('issued');
  });

  it('of the last ones retires the key', () => {
    const { plan, changes } = handed(['C1', 'C3']);
    expect(changes.at(4)).toEqual({
      at: { sheet: 'Keys', address: 'F12' },
      what: 'Status of CON',
      from: 'issued',
      to: 'retired',
    });
    const after = carriedOut(WORKING, plan);
    expect(after.systems[0]!.keys.at(-1)!.status).toBe('retired');
    expect(after.systems[0]!.cylinders.map(({ chambers }) => chambers)).toEqual(
      SYSTEM!.cylinders.map(({ chambers }) => chambers),
    );
    expect(after.systems[0]!.grid!.marks.filter(({ key }) => key === 'CON')).toEqual([]);
  });

  it('retires a key that is in use, and no other of its symbol', () => {
    const status = (held: string) => {
      const book = typed(WORKING, 'Keys', { F12: held });
      return handed(['C1', 'C3'], book).changes.find(({ what }) => what === 'Status of CON');
    };
    expect(status('issued')).toMatchObject({ from: 'issued' });
    expect(status('reserved')).toMatchObject({ from: 'reserved' });
    expect(status('retired')).toBeUndefined();
    expect(status('void')).toBeUndefined();
    const keyless = handed(['C1', 'C3'], without('KeyrowKeys', WORKING));
    expect(keyless.plan.conflicts).toEqual([]);
    expect(keyless.changes.map(({ at: { sheet } }) => sheet)).not.toContain('Keys');
    const renamed = WORKING.tables.map((table) => ({ ...table, headers: table.headers.map((h) => (h === 'Status' ? 'State' : h)) })); // prettier-ignore
    expect(handed(['C1', 'C3'], { ...WORKING, tables: renamed }).changes).toHaveLength(6);
  });

  it('of cylinders that were done already changes no chamber', () => {
    const done = typed(WORKING, 'Cylinders', { H5: '3 5' });
    const { plan, changes } = handed(['C1'], done);
    expect(plan.conflicts).toEqual([]);
    expect(changes.map(({ at: { sheet } }) => sheet)).toEqual(['Grid', 'Construction']);
  });

  it('is not made of a chamber that is pinned neither way, named with its cell', () => {
    const sentence = (door: string) =>
      `Chamber 2 of ${door} is pinned neither as it was for the construction key nor as it shall be afterwards. Look at it, and correct the sheet that is wrong.`;
    const odd = typed(WORKING, 'Cylinders', { H5: '3' });
    expect(handed(['C1'], odd).plan).toMatchObject({
      steps: [],
      conflicts: [{ sentence: sentence('0101'), at: at('H5') }],
    });
    const cylinders = WORKING.systems[0]!.cylinders.filter(({ id }) => id !== 'C1');
    expect(handed(['C1'], withSystem({ cylinders }, WORKING)).plan.conflicts).toEqual([
      { sentence: sentence('C1'), at: { sheet: 'Construction', address: 'K5' } },
    ]);
    const unread = WORKING.systems[0]!.cylinders.map((c) => ({ ...c, chambers: undefined as never }));
    expect(handed(['C1'], withSystem({ cylinders: unread }, WORKING)).plan.conflicts).toEqual([
      { sentence: sentence('0101'), at: at('H5') },
    ]);
  });

  it('is not planned where its sheet has faults, or what it needs can’t be read', () => {
    const problem = {
      severity: 'fault' as const,
      sentence: 'No depths.',
      sheet: 'Construction',
      address: 'G5',
    };
    expect(handed(['C1'], WORKING, { problems: [problem] }).plan.conflicts).toEqual([
      { sentence: 'No depths.', at: { sheet: 'Construction', address: 'G5' } },
    ]);
    for (const book of [
      EMPTY_BOOK,
      without('KeyrowCylinders', WORKING),
      without('KeyrowConstruction', WORKING),
      withSystem({ spec: undefined as never }, WORKING),
    ]) {
      const { plan, changes } = handed(['C1'], book);
      expect([plan.title, sentences(plan), changes]).toEqual([
        'Hand over School',
        ['School can’t be read any more. Read it again.'],
        [],
      ]);
    }
    // without the grid there is no mark to be taken away
    expect(handed(['C1'], without('KeyrowGrid1', WORKING)).plan.steps).toHaveLength(2);
  });
});
