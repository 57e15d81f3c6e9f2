/** The gate lets nothing through that is wrong: each solution here breaks one thing that was asked for, by hand. */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { depthSetOf } from '../../../src/keying/depthSet.ts';
import { pinnedFor } from '../../../src/keying/cylinder.ts';
import type { Grid, SolveOptions } from '../../../src/keying/grid/chart.ts';
import { auditGate } from '../../../src/keying/grid/gate.ts';
import { runToEnd } from '../../../src/keying/system.ts';
import { plainSpec } from '../../support/systems.ts';
import { noRules, plainGrid, smallSpec } from './charts.ts';

const spec = smallSpec(4, 6, 2);
const core = plainSpec({
  positions: 4,
  depths: 10,
  increment: 0.0125,
  macs: 9,
  step: 2,
  core: { total: 23, addition: 10 },
});

/** The gate with each cylinder pinned for its keys, unless chambers are given. */
function gate(
  grid: Grid,
  codes: string[],
  options: SolveOptions = {},
  sets?: Grid['cylinders'][number]['chambers'][],
) {
  const bittings = codes.map((code) => bittingOf(grid.spec, [...code].map(Number)));
  const chambers = grid.cylinders.map(
    (cylinder, c) =>
      cylinder.chambers ??
      sets?.[c] ??
      pinnedFor(
        grid.spec,
        grid.marks[c]!.map((k) => bittings[k]!),
        cylinder.inUse,
      ),
  );
  return runToEnd(auditGate(grid, { rules: noRules, ...options }, bittings, chambers));
}

const doors = plainGrid(spec, 3, [
  [0, 1],
  [0, 2],
]);
const GOOD = ['0000', '0022', '2200'];

describe('the gate of a solution', () => {
  it('lets a right one through, with the audit of all keys and all cylinders', () => {
    const report = gate(doors, GOOD);
    expect(report).toMatchObject({ keys: 3, cylinders: 2, pairs: 6 });
    expect(report.counts).not.toHaveProperty('interchange');
    expect(report.perCylinder.map(({ keys }) => keys)).toEqual([2, 2]);
  });

  it('stops a key that gets in, and one that is locked out', () => {
    expect(() => gate(doors, ['0000', '0022', '0020'])).toThrow('the solved grid fails: interchange');
    const locked = [undefined, [2, 2, 0, 0].map((d) => depthSetOf([d]))];
    expect(() => gate(doors, GOOD, {}, locked)).toThrow('the solved grid fails: lock-out');
  });

  it('stops a blank that does not enter or is too short, and not one that enters by the table of blanks', () => {
    const blanks = (key: object): Grid => ({
      ...doors,
      keys: [{ symbol: 'M' }, { symbol: 'A', ...key }, { symbol: 'B' }],
      cylinders: [{ id: 'D1', keyway: 'K1' }, { id: 'D2' }],
    });
    expect(() => gate(blanks({ keyway: 'K2' }), GOOD)).toThrow('the solved grid fails: wrong-keyway');
    expect(() => gate(blanks({ cuts: 3 }), GOOD)).toThrow('the solved grid fails: too-few-cuts');
    expect(() => gate({ ...blanks({ keyway: 'K2' }), enters: { K2: ['K1'] } }, GOOD)).not.toThrow();
    // a key of another keyway may have any cuts
    const apart: Grid = {
      ...blanks({}),
      keys: [{ symbol: 'M' }, { symbol: 'A' }, { symbol: 'B', keyway: 'K2' }],
    };
    expect(() => gate(apart, ['0000', '0022', '0020'])).not.toThrow();
  });

  it('stops an avoided bitting that gets into a new cylinder, and one that is given out', () => {
    const avoid = (code: string) => ({ avoid: [bittingOf(spec, [...code].map(Number))] });
    expect(() => gate(doors, GOOD, avoid('0020'))).toThrow('an avoided bitting gets in: interchange');
    expect(() => gate(doors, GOOD, avoid('0022'))).toThrow('the bitting of K2 was to be avoided');
    expect(() => gate(doors, GOOD, avoid('4444'))).not.toThrow();
    // what an existing cylinder lets in is nobody's doing now, nor is an existing key's own bitting
    const chambers = [[0], [0], [0, 2], [0, 2]].map(depthSetOf);
    const cylinders = [{ id: 'C1', chambers }, { id: 'C2' }];
    expect(() => gate({ ...doors, cylinders }, GOOD, avoid('0020'))).not.toThrow();
    const keys = [{ symbol: 'M' }, { symbol: 'A', bitting: bittingOf(spec, [0, 0, 2, 2]) }, { symbol: 'B' }];
    expect(() => gate({ ...doors, keys }, GOOD, avoid('0022'))).not.toThrow();
  });

  it('stops a new key that the rules bar, and takes existing ones as they are', () => {
    // neighbours differ by no more than one step
    const narrow = smallSpec(4, 3, 1, 1);
    const grid = plainGrid(narrow, 1, [[0]]);
    const rules = { ...noRules, macs: true };
    expect(() => gate(grid, ['0200'], { rules })).toThrow('the bitting of K1 is not usable');
    expect(() => gate(grid, ['0100'], { rules })).not.toThrow();
    const there = { ...grid, keys: [{ symbol: 'K1', bitting: bittingOf(narrow, [0, 2, 0, 0]) }] };
    expect(() => gate(there, ['0200'], { rules })).not.toThrow();
    // the usual rules where none are given: five of a kind in a row are too many
    expect(() =>
      gate(plainGrid(smallSpec(5, 3), 1, [[0]]), ['00000'], { rules: undefined as never }),
    ).toThrow('not usable');
  });

  it('stops a pin that is too thin and a chamber with too many depths, in new cylinders', () => {
    const grid = plainGrid(spec, 3, [[0, 1, 2]]);
    expect(() => gate(grid, ['0000', '0001', '0002'])).toThrow('thin master pin in cylinder C1');
    expect(() => gate(grid, ['0000', '0002', '0004'])).not.toThrow();
    expect(() => gate(grid, ['0000', '0002', '0004'], { mostDepths: 2 })).toThrow('too many depths in C1');
    expect(() => gate(grid, ['0000', '0002', '0004'], { mostDepths: 3 })).not.toThrow();
    const chambers = [[0], [0], [0], [0, 1, 2]].map(depthSetOf);
    const there = { ...grid, cylinders: [{ id: 'C1', chambers }] };
    expect(() => gate(there, ['0000', '0001', '0002'], { mostDepths: 2 })).not.toThrow();
    // a chamber left empty holds no pin at all
    const open = { ...grid, cylinders: [{ id: 'C1', inUse: [true, true, true, false] }] };
    expect(() => gate(open, ['0000', '0001', '0002'], { mostDepths: 1 })).not.toThrow();
  });

  it('stops what is wrong with a core: its control cuts operate it, or a key pulls it', () => {
    const control = (code: string) => bittingOf(core, [...code].map(Number));
    const cores = (code: string, more: object = {}): Grid => ({
      ...plainGrid(core, 2, [[0], [1]]),
      cylinders: [{ id: 'D1', control: control(code), ...more }, { id: 'D2' }],
    });
    const fine = cores('5775');
    expect(() => gate(fine, ['2468', '8642'])).not.toThrow();
    expect(() => gate(cores('2468'), ['2468', '8642'])).toThrow(/a core is wrong: .*control-is-incidental/);
    expect(() => gate(fine, ['2468', '5775'])).toThrow('a core is wrong: control-operates');
    // nothing is left of 0 + 10 − 9 but one step of build-up; the sum of 14 leaves 14 − 7 − 6
    expect(() => gate(cores('5770'), ['2469', '8642'])).toThrow('a core is wrong: thin-build-up');
    const low = { ...core, core: { total: 14, addition: 6 } };
    expect(() => gate({ ...fine, spec: low }, ['2468', '8642'])).toThrow(/a core is wrong: .*stack-too-tall/);
    // an existing core may be as it is, but no new key pulls it
    const there = { chambers: [2, 4, 6, 8].map((d) => depthSetOf([d])) };
    const kept = [{ symbol: 'A', bitting: control('2468') }, { symbol: 'B' }];
    expect(() => gate({ ...cores('2468', there), keys: kept }, ['2468', '8642'])).not.toThrow();
    expect(() => gate(cores('5775', there), ['2468', '5775'])).toThrow(
      'a new key pulls a core: control-operates',
    );
    const old = {
      ...cores('5775', there),
      keys: [{ symbol: 'A' }, { symbol: 'B', bitting: control('5775') }],
    };
    expect(() => gate(old, ['2468', '5775'])).not.toThrow();
  });
});
