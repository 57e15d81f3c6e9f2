/**
 * A system that grows, as a plan. A key CL and a cylinder C5 were typed beside and below the grid of the school; how
 * both are solved is made up by hand.
 */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import { depthSetOf } from '../../src/keying/depthSet.ts';
import type { Solved } from '../../src/keying/grid/index.ts';
import { readExtension, type Extension } from '../../src/workbook/extension.ts';
import type { BookReading } from '../../src/workbook/index.ts';
import { planExtension } from '../../src/workbook/planExtension.ts';
import { carriedOut, systemBook, typed, writesOf } from './plainBook.ts';
import { school, SPEC } from '../workbook/school.ts';

const MADE = { made: '24 Nov 2026' };
/** What the change keys may have in each chamber: the top master’s cut never. */
const ARRAY = [[1, 5, 7], [3, 7], [2, 6], [2, 4], [1, 5], [3, 7]]; // prettier-ignore
const made = school();
const BOOK = systemBook({ ...made, system: { ...made.system, array: ARRAY } });
/** Columns D to J of the grid are A, AA, AB, AA1, AA2, AB1, AB2; C1 to C4 stand in rows 5 to 8. */
const NEWS = { K4: 'CL', K5: 'x', A9: 'C5', B9: 'Boiler room', D9: '●', E9: '●', K9: 'x' };

function extended(book: BookReading): Extension {
  const read = readExtension(book, 'School');
  if (!read.ok) throw new Error(read.error.map(({ sentence }) => sentence).join(' '));
  return read.value;
}

const WIDE = typed(BOOK, 'Grid', NEWS);
const WISH = extended(WIDE);

/** CL is cut 5 9 2 4 5 7; C5 shears for A, AA and CL; C1 gets CL’s second cut as well. */
const CL = bittingOf(SPEC, [5, 9, 2, 4, 5, 7]);
const C5 = [[3, 5], [5, 9], [2, 4], [4, 6], [3, 5], [5, 7]].map(depthSetOf); // prettier-ignore
const solution = (wish: Extension = WISH): Solved => ({
  kind: 'solved',
  keys: wish.grid.keys.map(({ symbol, bitting }) => ({
    symbol,
    bitting: bitting ?? CL,
    fixed: bitting !== undefined,
  })),
  cylinders: wish.grid.cylinders.map(({ id, chambers }) => ({
    id,
    chambers:
      id === 'C1' ? chambers!.map((set, i) => (i === 1 ? depthSetOf([3, 5, 9]) : set)) : (chambers ?? C5),
    fixed: chambers !== undefined && id !== 'C1',
  })),
  cost: undefined as never,
  alike: [],
  unmarked: [],
  steps: 0,
});
const planned = (book: BookReading = WIDE, wish: Extension = WISH) =>
  planExtension(book, wish, solution(wish), MADE);

describe('a system that grows', () => {
  it('gets new rows, re-pinned chambers, a wider array and a larger grid', () => {
    const { plan, changes } = planned();
    expect(plan).toMatchObject({ title: 'Extend School', conflicts: [] });
    expect(plan.effects).toEqual([
      { kind: 'rows', sheet: 'Keys', rows: 1, what: 'rows added' },
      { kind: 'rows', sheet: 'Cylinders', rows: 1, what: 'rows added' },
      { kind: 'cells', sheet: 'Cylinders', rows: 1, what: 'cells changed' },
      { kind: 'cells', sheet: 'Systems', rows: 1, what: 'cells changed' },
      // 6 × 11 cells where 5 × 10 were
      { kind: 'cells', sheet: 'Grid', rows: 16, what: 'taken into the grid' },
    ]);
    expect(changes).toEqual([
      { at: { sheet: 'Cylinders', address: 'H5' }, what: 'Ch 2 of 0101', from: '3 5', to: '3 5 9' },
      { at: { sheet: 'Systems', address: 'G5' }, what: 'Array 2 of School', from: '3 7', to: '3 7 9' },
    ]);
  });

  it('has its new key and cylinder as they were solved', () => {
    const after = carriedOut(WIDE, planned().plan);
    expect(after.problems).toEqual([]);
    const [system] = after.systems;
    expect(system!.keys.at(-1)).toMatchObject({
      symbol: 'CL',
      level: 'CK',
      keyway: 'K1',
      bitting: CL,
      status: 'issued',
    });
    expect(system!.keys.at(-1)).not.toHaveProperty('parent');
    // the key with the fewest doors is the cylinder's own: A opens five, AA three, CL two
    expect(system!.cylinders.at(-1)).toMatchObject({
      id: 'C5',
      door: 'Boiler room',
      symbol: 'CL',
      chambers: C5,
    });
    expect(system!.cylinders[0]!.chambers![1]).toBe(depthSetOf([3, 5, 9]));
    expect(system!.grid!.marks.filter(({ key }) => key === 'CL').map(({ cylinder }) => cylinder)).toEqual([
      'C1',
      'C5',
    ]);
    expect(system!.array![1]).toEqual([3, 7, 9]);
  });

  it('puts a key below the one that its symbol names, and a cylinder under the symbol that was typed', () => {
    const book = typed(BOOK, 'Grid', { K4: 'aa3', A9: 'C5', C9: 'AA3', D9: 'x', K9: 'x' });
    const after = carriedOut(book, planned(book, extended(book)).plan).systems[0]!;
    expect(after.keys.at(-1)).toMatchObject({ symbol: 'aa3', parent: 'AA' });
    expect(after.cylinders.at(-1)).toMatchObject({ id: 'C5', symbol: 'AA3' });
    expect(after.cylinders.at(-1)).not.toHaveProperty('door');
  });

  it('lets the array gain what new keys have and it lacks, in the order of the depths, but never the top master’s cut', () => {
    const book = typed(BOOK, 'Grid', { ...NEWS, L4: 'CM', L5: 'x' });
    const wish = extended(book);
    const answer = solution(wish);
    // CM is cut 3 1 4 6 3 9: the top master's own but in chambers 2 and 6
    const keys = answer.keys.map((key) =>
      key.symbol === 'CM' ? { ...key, bitting: bittingOf(SPEC, [3, 1, 4, 6, 3, 9]) } : key,
    );
    const { changes } = planExtension(book, wish, { ...answer, keys }, MADE);
    expect(changes.slice(1)).toEqual([
      { at: { sheet: 'Systems', address: 'G5' }, what: 'Array 2 of School', from: '3 7', to: '3 7 1 9' },
      { at: { sheet: 'Systems', address: 'K5' }, what: 'Array 6 of School', from: '3 7', to: '3 7 9' },
    ]);
  });

  it('leaves an array alone that it can’t write', () => {
    const renamed = {
      ...WIDE,
      tables: WIDE.tables.map((table) => ({
        ...table,
        headers: table.headers.map((h) => (h === 'Array 2' ? 'Second' : h)),
      })),
    };
    expect(planned(renamed).changes).toHaveLength(1);
    const bare = { ...WISH, system: { ...WISH.system, array: undefined as never } };
    expect(planned(WIDE, bare).changes).toHaveLength(1);
    // without a top master every cut that is lacking is gained
    const headless = { ...WISH, system: { ...WISH.system, topMaster: undefined as never } };
    expect(planned(WIDE, headless).changes).toHaveLength(2);
  });

  it('gives cores and keys their metal as the grid asks for it', () => {
    const control = bittingOf(SPEC, [9, 9, 9, 9, 9, 9]);
    const grid = {
      ...WISH.grid,
      keys: WISH.grid.keys.map((key) => (key.symbol === 'CL' ? { symbol: 'CL', cuts: 6 } : key)),
      cylinders: WISH.grid.cylinders.map((c) => (c.id === 'C5' ? { ...c, control, keyway: 'K7' } : c)),
    };
    const { plan } = planned(WIDE, { ...WISH, grid });
    const keys = writesOf(plan, 'Keys').flatMap(({ cells }) => cells);
    expect(keys[0]).toEqual(['School', 'CL', 'CK', '', '592457', 'issued', '', 6, '', 'S-018-6']);
    // a core's control key comes along
    const cylinder = writesOf(plan, 'Cylinders')[0]!.cells[0]!;
    expect(cylinder.slice(0, 6)).toEqual(['School', 'C5', 'Boiler room', '', 'CL', 'K7']);
    expect(cylinder[14]).toBe('999999');
    expect(keys.some(([, , level]) => level === 'Control')).toBe(true);
  });

  it('leaves a grid as large as it is where nothing was typed beside it', () => {
    const wish = { ...WISH, box: WISH.table.box };
    expect(planned(WIDE, wish).plan.steps.some((step) => step.kind === 'resize-table' && step.name === 'KeyrowGrid1')).toBe(false); // prettier-ignore
    const wider = { ...WISH, box: { ...WISH.table.box, columns: 11 } };
    expect(planned(WIDE, wider).plan.effects.at(-1)).toMatchObject({ what: 'taken into the grid', rows: 5 });
    const higher = { ...WISH, box: { ...WISH.table.box, rows: 6 } };
    expect(planned(WIDE, higher).plan.effects.at(-1)).toMatchObject({
      what: 'taken into the grid',
      rows: 10,
    });
  });

  it('is barred by what stands in the way of the grid', () => {
    const { plan } = planned(WIDE, { ...WISH, table: { ...WISH.table, filtered: true } });
    expect(plan.conflicts).toHaveLength(1);
    expect(plan.steps).toEqual([]);
  });
});
