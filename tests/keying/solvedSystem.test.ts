/**
 * What a system takes from a solved grid. The grid is small enough to read its levels and own keys off by eye; the
 * array is held against its definition: a depth that is in use, or a whole pin away from every one in use.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { auditSystem } from '../../src/keying/audit.ts';
import { pinnedFor } from '../../src/keying/cylinder.ts';
import { solveGrid, type Grid, type Solved } from '../../src/keying/grid/index.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import { NO_RULES } from '../../src/keying/rules.ts';
import { arrayInUse, levelsOf, ownKeys, systemOfSolved } from '../../src/keying/solvedSystem.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { cutsOf, plainSpec } from '../support/systems.ts';

const SPEC = plainSpec({ positions: 4, depths: 10, increment: 0.015, macs: 9 });
const CORE = plainSpec({
  positions: 6,
  depths: 10,
  increment: 0.0125,
  macs: 9,
  core: { total: 23, addition: 10 },
});

/** A grid by the symbols marked on each door. */
function gridFor(spec: typeof SPEC, symbols: string, ...doors: string[]): Grid {
  const keys = symbols.split(' ');
  return {
    spec,
    keys: keys.map((symbol) => ({ symbol })),
    cylinders: doors.map((_, c) => ({ id: `D${c + 1}` })),
    marks: doors.map((door) => (door === '' ? [] : door.split(' ').map((symbol) => keys.indexOf(symbol)))),
  };
}

const levels = (grid: Grid) => levelsOf(grid).join(' ');

describe('a cylinder’s own key', () => {
  it('is the one with the fewest doors, the first of equals, and none without a mark', () => {
    // M has four doors, N two, the others one each
    const grid = gridFor(SPEC, 'M N A B', 'M N A', 'M N', 'M B A', '', 'M');
    // A has two doors as N has, and comes later on the first
    expect(ownKeys(grid)).toEqual([1, 1, 3, -1, 0]);
    expect(ownKeys(gridFor(SPEC, 'A B', 'A B', 'B A'))).toEqual([0, 1]);
  });
});

describe('levels of a grid', () => {
  it('are a master over change keys, a grand master over masters', () => {
    expect(levels(gridFor(SPEC, 'M A B', 'M A', 'M B'))).toBe('MK CK CK');
    expect(levels(gridFor(SPEC, 'G M N A B C D', 'G M A', 'G M B', 'G N C', 'G N D'))).toBe(
      'GMK MK MK CK CK CK CK',
    );
    // doors that nobody is marked for say nothing
    expect(levels(gridFor(SPEC, 'G M A B C', 'G M A', '', 'G M B', 'G C'))).toBe('GMK MK CK CK CK');
  });

  it('are none where a key opens doors of one other key only, or has a door of its own', () => {
    expect(levels(gridFor(SPEC, 'M A', 'M A', 'M A'))).toBe('CK CK');
    expect(levels(gridFor(SPEC, 'M A B', 'M A', 'M B', 'M'))).toBe('CK CK CK');
    expect(levels(gridFor(SPEC, 'A B C', 'A', 'B', ''))).toBe('CK CK CK');
  });

  it('are no grand master’s where two keys open every door alike', () => {
    expect(levels(gridFor(SPEC, 'M N A B', 'M N A', 'M N B'))).toBe('MK MK CK CK');
  });
});

describe('the array of depths in use', () => {
  it('holds them and those that can share a chamber with each, without the top master’s cut', () => {
    const keys = ['2222', '4224', '2292'].map((code) => cutsOf(SPEC, code));
    expect(arrayInUse(SPEC, keys)).toEqual([
      [0, 2, 4, 6, 7, 8, 9],
      [0, 2, 4, 5, 6, 7, 8, 9],
      [0, 2, 4, 5, 6, 7, 9],
      [0, 2, 4, 6, 7, 8, 9],
    ]);
    expect(arrayInUse(SPEC, keys, cutsOf(SPEC, '2227'))).toEqual([
      [0, 4, 6, 7, 8, 9],
      [0, 4, 5, 6, 7, 8, 9],
      [0, 4, 5, 6, 7, 9],
      [0, 2, 4, 6, 8, 9],
    ]);
  });

  it('keeps neighbours that are both in use, and asks no pin of the depths between', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.nat({ max: 9 }), { minLength: 1, maxLength: 4 }), (used) => {
        const keys = used.map((depth) => cutsOf(SPEC, `${depth}000`));
        // two steps are the thinnest master pin at 0.015 in
        const plain = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9].filter(
          (d) => used.includes(d) || used.every((u) => Math.abs(u - d) >= 2),
        );
        expect(arrayInUse(SPEC, keys)[0]).toEqual(plain);
      }),
    );
  });
});

describe('a system of a solved grid', () => {
  const made = (grid: Grid, over: Partial<Parameters<typeof systemOfSolved>[2]> = {}) => {
    const solved = runToEnd(solveGrid(grid, { rules: NO_RULES })) as Solved;
    const result = systemOfSolved(grid, solved, { name: 'Hall', ...over });
    if (!result.ok) throw new Error(result.error.code);
    return { ...result.value, solved };
  };
  const house = gridFor(SPEC, 'M A B', 'M A', '', 'M B');

  it('has the keys and cylinders of the grid under their names, with the doors that are known', () => {
    const { system, marks, leftOut, solved } = made(house, { doors: new Map([['D3', 'Attic']]) });
    const [m, a, b] = solved.keys.map(({ bitting }) => bitting);
    expect(system).toEqual({
      name: 'Hall',
      spec: SPEC,
      topMaster: m,
      array: arrayInUse(SPEC, [m!, a!, b!], m),
      keys: [
        { symbol: 'M', level: 'MK', bitting: m, status: 'issued' },
        { symbol: 'A', level: 'CK', bitting: a, status: 'issued' },
        { symbol: 'B', level: 'CK', bitting: b, status: 'issued' },
      ],
      cylinders: [
        { id: 'D1', symbol: 'A', chambers: pinnedFor(SPEC, [m!, a!]) },
        { id: 'D3', symbol: 'B', door: 'Attic', chambers: pinnedFor(SPEC, [m!, b!]) },
      ],
    });
    expect(leftOut).toEqual(['D2']);
    expect(marks.map(({ key, cylinder }) => `${key} ${cylinder}`)).toEqual(['M D1', 'A D1', 'M D3', 'B D3']);
  });

  it('has every cylinder that anybody is marked for, the first key’s own as well', () => {
    const { system, leftOut } = made(gridFor(SPEC, 'A B', 'A', 'B'));
    expect(system.cylinders.map(({ id, symbol }) => [id, symbol])).toEqual([
      ['D1', 'A'],
      ['D2', 'B'],
    ]);
    expect(leftOut).toEqual([]);
  });

  it('has the blanks and keyways of the grid on its keys and cylinders, and none where the grid names none', () => {
    for (const grid of [house, { ...house, spec: CORE }]) {
      const plain = made(grid).system;
      for (const record of [...plain.keys, ...plain.cylinders]) {
        expect(record).not.toHaveProperty('keyway');
        expect(record).not.toHaveProperty('cuts');
      }
      expect(plain).not.toHaveProperty('enters');
      const all = grid.spec.centres.length;
      const { system } = made({
        ...grid,
        keys: grid.keys.map((key) => ({ ...key, keyway: 'K1', cuts: all })),
        cylinders: grid.cylinders.map((cylinder) => ({ ...cylinder, keyway: 'K1' })),
        enters: { K1: ['K2'] },
      });
      expect(system.keys.map(({ keyway }) => keyway)).toEqual(plain.keys.map(() => 'K1'));
      expect(system.keys.flatMap(({ level, cuts }) => (level === 'control' ? [] : [cuts]))).toEqual([
        all,
        all,
        all,
      ]);
      expect(system.cylinders.map(({ keyway }) => keyway)).toEqual(['K1', 'K1']);
      expect(system.enters).toEqual({ K1: ['K2'] });
    }
  });

  it('has a top master where just one key is above all doors, and none else', () => {
    const bittings = (grid: Grid) => {
      const { system, solved } = made(grid);
      return [system.topMaster, solved.keys[0]!.bitting];
    };
    const [top, first] = bittings(gridFor(SPEC, 'G M A B C', 'G M A', '', 'G M B', 'G C'));
    expect(top).toEqual(first);
    // two keys of every door; a master that misses one; no master at all
    const without = [
      gridFor(SPEC, 'M N A B', 'M N A', 'M N B'),
      gridFor(SPEC, 'M A B C', 'M A', 'M B', 'C'),
      gridFor(SPEC, 'A B', 'A', 'B'),
      gridFor(SPEC, 'A', 'A'),
    ];
    for (const grid of without) expect(made(grid).system).not.toHaveProperty('topMaster');
  });

  it('of cores has one control key that pulls each and is marked for each, as the audit finds', () => {
    const grid = gridFor(CORE, 'M A B', 'M A', '', 'M B');
    const { system, marks } = made(grid);
    const control = system.keys.at(-1)!;
    expect(control).toEqual({ symbol: 'CTR', level: 'control', bitting: control.bitting, status: 'issued' });
    expect(system.keys).toHaveLength(4);
    expect(system.cylinders.map((core) => [core.id, core.control])).toEqual([
      ['D1', control.bitting],
      ['D3', control.bitting],
    ]);
    expect(marks.slice(-2)).toEqual([
      { key: 'CTR', cylinder: 'D1' },
      { key: 'CTR', cylinder: 'D3' },
    ]);
    const { counts } = runToEnd(auditSystem(auditInputOf(system, marks)));
    expect(Object.keys(counts).filter((code) => code.startsWith('control'))).toEqual([]);
    // the rules of the shop hold for it too: nobody has seven different cuts of six
    const rules = { ...NO_RULES, fewDepths: true, leastDepths: 7, leastDepthsFrom: 6 };
    const none = systemOfSolved(grid, runToEnd(solveGrid(grid, { rules: NO_RULES })) as Solved, {
      name: 'Hall',
      rules,
    });
    expect(none).toMatchObject({ ok: false, error: { code: 'no-control-key' } });
    // another seed draws another
    expect(made(grid, { seed: 2 }).system.keys.at(-1)!.bitting).not.toEqual(control.bitting);
    expect(made(grid, { seed: 1 }).system.keys.at(-1)!.bitting).toEqual(control.bitting);
  });

  it('of cores has none where the pins leave no control cut room', () => {
    // total 9, addition 5: over a cut of 9 the control cut must reach 6, and then one step too few is left on top
    const low = plainSpec({
      positions: 4,
      depths: 10,
      increment: 0.0125,
      macs: 9,
      core: { total: 9, addition: 5 },
    });
    const grid = gridFor(low, 'A', 'A');
    const bitting = cutsOf(low, '9999');
    const solved = {
      keys: [{ symbol: 'A', bitting }],
      cylinders: [{ id: 'D1', chambers: pinnedFor(low, [bitting]) }],
    } as unknown as Solved;
    expect(systemOfSolved(grid, solved, { name: 'Hall' })).toEqual({
      ok: false,
      error: { code: 'no-control-key', tried: 0 },
    });
  });
});
