import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { doorTree, type Door } from '../../taskpane/make/doors.ts';

const door = (name: string, symbol?: string): Door =>
  symbol === undefined ? { door: name } : { door: name, symbol };

describe('doorTree with symbols', () => {
  // the key coding of ANSI/BHMA A156.28: three levels A / AA / AA1, two levels AA / 1AA
  it('puts each door under the master that its symbol names', () => {
    const tree = doorTree(
      [door('101', 'AA1'), door('102', 'AB1'), door('103', 'AA1'), door('104', 'AA3')],
      3,
      9,
    );
    expect(tree.grands).toEqual([
      {
        symbol: 'A',
        masters: [
          { symbol: 'AA', firstNumber: 1, changeKeys: 3, doors: [['101', '103'], [], ['104']] },
          { symbol: 'AB', firstNumber: 1, changeKeys: 1, doors: [['102']] },
        ],
      },
    ]);
    expect(tree.left).toEqual([]);
  });

  it('lists doors whose symbol does not fit instead of guessing', () => {
    const tree = doorTree(
      [door('101', 'AA1'), door('102', 'AA'), door('103', 'BA1'), door('104', 'front'), door('105')],
      3,
      1,
    );
    expect(tree.left.map((d) => d.door).sort()).toEqual(['102', '103', '104', '105']);
    expect(tree.doors).toBe(1);
  });

  it('takes the number first in systems of two levels', () => {
    const tree = doorTree([door('1', '1AA'), door('2', '2AA'), door('3', 'AA3')], 2, 1);
    expect(tree.grands[0]!.masters).toEqual([
      { symbol: 'AA', firstNumber: 1, changeKeys: 2, doors: [['1'], ['2']] },
    ]);
    expect(tree.left.map((d) => d.door)).toEqual(['3']);
  });

  it('gives a door with two cylinders two of them, on one key', () => {
    const tree = doorTree([{ door: '101', symbol: 'AA1', quantity: 2 }], 3, 1);
    expect(tree.grands[0]!.masters[0]).toMatchObject({ changeKeys: 1, doors: [['101', '101']] });
  });

  it('has a grand for each first letter in systems of four levels', () => {
    const tree = doorTree([door('1', 'AA1'), door('2', 'BA1')], 4, 1);
    expect(tree.grands.map((g) => g.symbol)).toEqual(['A', 'B']);
  });
});

describe('doorTree without symbols', () => {
  it('keeps every door, once, in the order of the sheet', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 1, max: 12 }), (doors, masters) => {
        const names = Array.from({ length: doors }, (_, i) => `D${i}`);
        const [grand] = doorTree(
          names.map((n) => door(n)),
          3,
          masters,
        ).grands;
        expect(grand!.masters.flatMap((m) => m.doors!.flat())).toEqual(names);
        expect(grand!.masters.length).toBe(Math.min(doors, masters));
        const sizes = grand!.masters.map((m) => m.changeKeys);
        expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
      }),
    );
  });
});
