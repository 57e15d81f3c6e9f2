/** What existing keys and cylinders rule out by themselves, by hand. */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { depthSetOf, EVERY } from '../../../src/keying/depthSet.ts';
import type { Grid, GridCylinder, SolveOptions } from '../../../src/keying/grid/chart.ts';
import { fixedProblem } from '../../../src/keying/grid/fixed.ts';
import { sayAnswer } from '../../../src/keying/grid/index.ts';
import { prepareGrid, wholeDomain } from '../../../src/keying/grid/prepare.ts';
import { plainSpec } from '../../support/systems.ts';
import { noRules, smallSpec } from './charts.ts';

const spec = smallSpec(4, 4);
/** Depths next to each other make too thin a pin. */
const steps = smallSpec(4, 4, 2);
const bitting = (code: string) => bittingOf(spec, [...code].map(Number));
const chambers = (...depths: string[]) =>
  depths.map((d) => (d === '*' ? EVERY : depthSetOf([...d].map(Number))));

interface Row extends GridCylinder {
  readonly marks: string;
}

/** Keys as a letter and its cuts, ? for a new one; marks as letters. */
function gridOf(keys: readonly string[], rows: readonly Row[], of = spec, more: Partial<Grid> = {}): Grid {
  const made = keys.map((key) => {
    const [symbol, code] = key.split(' ') as [string, string];
    return { symbol, ...(code !== '?' && { bitting: bittingOf(of, [...code].map(Number)) }) };
  });
  return {
    spec: of,
    keys: made,
    cylinders: rows,
    marks: rows.map(({ marks }) => [...marks].map((letter) => made.findIndex((k) => k.symbol === letter))),
    ...more,
  };
}

function problem(grid: Grid, options: SolveOptions = {}) {
  const prepared = prepareGrid(grid, { rules: noRules, ...options }, wholeDomain(grid));
  return fixedProblem(grid, prepared.instance, prepared);
}

const impossible = (reason: object, keys: string[], cylinders: string[]) => ({
  kind: 'impossible',
  reason,
  scope: 'any',
  keys,
  cylinders,
  minimal: true,
});

describe('blanks and cores', () => {
  it('are wrong where a marked key never turns', () => {
    const grid = gridOf(
      ['A ?', 'B ?'],
      [
        { id: '1', marks: 'A' },
        { id: '2', marks: 'AB', keyway: 'K1' },
      ],
    );
    expect(problem(grid)).toBeUndefined();
    const on = (blank: object): Grid => ({ ...grid, keys: [grid.keys[0]!, { symbol: 'B', ...blank }] });
    const names = { key: 'B', cylinder: '2' };
    expect(problem(on({ keyway: 'K2' }))).toEqual(
      impossible({ code: 'blank-does-not-enter', ...names }, ['B'], ['2']),
    );
    expect(problem(on({ cuts: 3 }))).toEqual(
      impossible({ code: 'blank-too-short', ...names, chamber: 4 }, ['B'], ['2']),
    );
    expect(problem(on({ keyway: 'K1' }))).toBeUndefined();
  });

  it('are wrong where a control cut has no room, or a key has the control cuts', () => {
    // as in the tests of control lines: over depth d the control cut c leaves c + 5 − d of build-up and 7 − c on top
    const core = plainSpec({
      positions: 4,
      depths: 8,
      increment: 0.0125,
      macs: 7,
      step: 2,
      core: { total: 12, addition: 5 },
    });
    const control = (code: string) => bittingOf(core, [...code].map(Number));
    const one = { id: '1', marks: 'A' };
    expect(problem(gridOf(['A ?'], [{ ...one, control: control('1264') }], core))).toEqual(
      impossible({ code: 'control-without-room', cylinder: '1', chamber: 3 }, [], ['1']),
    );
    expect(problem(gridOf(['A 1234'], [{ ...one, control: control('1234') }], core))).toEqual(
      impossible({ code: 'control-is-a-key', key: 'A', cylinder: '1' }, ['A'], ['1']),
    );
    expect(problem(gridOf(['A ?'], [{ ...one, control: control('1234') }], core))).toBeUndefined();
  });
});

describe('an existing key and an existing cylinder', () => {
  const there = { id: '1', chambers: chambers('0', '01', '2', '3') };

  it('are wrong where it opens and must not, or must and does not', () => {
    const names = { key: 'B', cylinder: '1' };
    expect(problem(gridOf(['A 0023', 'B 0123'], [{ ...there, marks: 'AB' }]))).toBeUndefined();
    expect(problem(gridOf(['A 0023', 'B 0123'], [{ ...there, marks: 'A' }]))).toEqual(
      impossible({ code: 'fixed-interchange', ...names }, ['B'], ['1']),
    );
    expect(problem(gridOf(['A 0023', 'B 0120'], [{ ...there, marks: 'AB' }]))).toEqual(
      impossible({ code: 'fixed-lock-out', ...names }, ['B'], ['1']),
    );
    // a blank that does not go in opens nothing
    const grid = gridOf(['A 0023', 'B 0123'], [{ ...there, marks: 'A', keyway: 'K1' }]);
    const keys = [grid.keys[0]!, { ...grid.keys[1]!, keyway: 'K2' }];
    expect(problem({ ...grid, keys })).toBeUndefined();
  });

  it('are wrong whether or not a new key is there, and nothing is where nothing stands', () => {
    expect(problem(gridOf(['A 0023', 'B ?'], [{ ...there, marks: '' }]))?.reason.code).toBe(
      'fixed-interchange',
    );
    expect(problem(gridOf(['A ?', 'B ?'], [{ id: '1', marks: 'A' }]))).toBeUndefined();
  });
});

describe('existing keys of a new cylinder', () => {
  const row = (marks: string, more = {}): Row => ({ id: '1', marks, ...more });

  it('are too near each other in a chamber: those that are so are named', () => {
    const keys = ['A 0000', 'B 0030', 'C 0010', 'D ?'];
    const thin = (cylinder: string, chamber: number, names: string[]) =>
      impossible({ code: 'fixed-keys-thin', cylinder, chamber }, names, [cylinder]);
    expect(problem(gridOf(keys, [row('ABD'), { id: '2', marks: 'AC' }], steps))).toEqual(
      thin('2', 3, ['A', 'C']),
    );
    expect(problem(gridOf(['A 0000', 'B 0030', 'C 0020', 'D ?'], [row('ABC')], steps))).toEqual(
      thin('1', 3, ['B', 'C']),
    );
    // two are enough, however many there are
    const more = ['A 0000', 'B 0020', 'E 0020', 'C 0010'];
    expect(problem(gridOf(more, [row('ABEC')], steps))).toEqual(thin('1', 3, ['A', 'C']));
    expect(problem(gridOf(keys, [row('AB')], steps))).toBeUndefined();
    expect(problem(gridOf(keys, [row('BC')], steps))).toBeUndefined();
    expect(problem(gridOf(keys, [row('AC')]))).toBeUndefined();
    // the chamber is not pinned, or the cylinder stands as it is
    expect(problem(gridOf(keys, [row('ABC', { inUse: [true, true, false, true] })], steps))).toBeUndefined();
    const stands = row('ABC', { chambers: chambers('0', '0', '013', '0') });
    expect(problem(gridOf(keys, [stands], steps))).toBeUndefined();
    // a new key may keep away
    expect(problem(gridOf(['A 0000', 'D ?'], [row('AD')], steps))).toBeUndefined();
  });

  it('are too many different ones in a chamber', () => {
    const keys = ['A 0000', 'B 0110', 'C 0020', 'D ?'];
    const crowd = (grid: Grid, mostDepths: number) => problem(grid, { mostDepths });
    expect(crowd(gridOf(keys, [{ id: '0', marks: 'AB' }, row('ABCD')]), 2)).toEqual(
      impossible({ code: 'fixed-keys-crowd', cylinder: '1', chamber: 3, most: 2 }, ['A', 'B', 'C'], ['1']),
    );
    // one of each cut, and no more than it takes
    const more = ['A 0000', 'E 0000', 'B 0110', 'C 0020', 'F 0030'];
    expect(crowd(gridOf(more, [row('AEBCF')]), 2)).toMatchObject({ keys: ['A', 'B', 'C'] });
    expect(crowd(gridOf(keys, [row('ABCD')]), 3)).toBeUndefined();
    expect(crowd(gridOf(keys, [row('ABD')]), 2)).toBeUndefined();
    expect(crowd(gridOf(keys, [row('ABC', { inUse: [true, true, false, true] })]), 2)).toBeUndefined();
    const stands = row('ABC', { chambers: chambers('0', '01', '012', '0') });
    expect(crowd(gridOf(keys, [stands]), 2)).toBeUndefined();
  });

  it('let another existing one in, or an avoided bitting', () => {
    const keys = ['A 0011', 'B 1100', 'C 0110', 'D ?'];
    const rows = [{ id: '0', marks: 'C' }, row('ABD')];
    expect(problem(gridOf(keys, rows))).toEqual(
      impossible({ code: 'fixed-keys-admit', key: 'C', cylinder: '1' }, ['C', 'A', 'B'], ['1']),
    );
    // A has the third cut, and B the second and last; where chamber 3 is not pinned E does for A
    const more = ['A 0011', 'E 0000', 'B 1100', 'C 0110', 'D ?'];
    expect(problem(gridOf(more, [rows[0]!, row('AEBD')]))?.keys).toEqual(['C', 'A', 'B']);
    const three = gridOf(more, [rows[0]!, row('AEBD', { inUse: [true, true, false, true] })]);
    expect(problem(three)?.keys).toEqual(['C', 'E', 'B']);
    const others = ['A 0011', 'B 1100', 'C 0210', 'D ?'];
    expect(problem(gridOf(others, rows))).toBeUndefined();
    expect(problem(gridOf(others, rows), { avoid: [bitting('1111')] })).toEqual(
      impossible(
        { code: 'fixed-keys-admit', key: 'an avoided bitting', cylinder: '1' },
        ['an avoided bitting', 'A', 'B'],
        ['1'],
      ),
    );
  });
});

describe('a new key of existing cylinders', () => {
  const there = (id: string, marks: string, ...depths: string[]): Row => ({
    id,
    marks,
    chambers: chambers(...depths),
  });
  const stuck = (key: string, cylinders: string[]) => ({
    ...impossible({ code: 'no-bitting-for-key', key }, [key], cylinders),
    // other keys and doors may have a part in it
    minimal: false,
  });

  it('has no bitting where theirs have none in common, or another one opens with each', () => {
    const both = (...second: string[]) =>
      problem(
        gridOf(
          ['A ?', 'B ?'],
          [{ id: '0', marks: 'AB' }, there('1', 'B', '0', '01', '2', '3'), there('2', 'B', ...second)],
        ),
      );
    expect(both('0', '1', '12', '3')).toBeUndefined();
    expect(both('0', '23', '2', '3')).toEqual(stuck('B', ['1', '2']));
    const other = (...second: string[]) =>
      problem(gridOf(['A ?', 'B ?'], [there('1', 'B', '0', '01', '2', '3'), there('2', 'A', ...second)]));
    expect(other('0', '1', '2', '23')).toBeUndefined();
    expect(other('012', '01', '2', '3')).toEqual(stuck('B', ['1']));
  });

  it('has none where each is barred by the rules, or lets an existing key into a new cylinder', () => {
    const rows = [there('1', 'B', '0', '01', '2', '3')];
    expect(problem(gridOf(['B ?'], rows), { avoid: [bitting('0023')] })).toBeUndefined();
    expect(problem(gridOf(['B ?'], rows), { avoid: [bitting('0023'), bitting('0123')] })).toEqual(
      stuck('B', ['1']),
    );
    // with A's cuts beside any of B's the new door opens for C
    const keys = ['A 1111', 'B ?', 'C 0111'];
    expect(problem(gridOf(keys, [...rows, { id: '2', marks: 'AB' }]))).toEqual(stuck('B', ['1']));
    expect(problem(gridOf(keys, [...rows, { id: '2', marks: 'ABC' }]))).toBeUndefined();
  });

  it('is not looked at where it opens none of them, or has two hundred thousand bittings', () => {
    expect(
      problem(gridOf(['A ?', 'B ?'], [{ id: '0', marks: 'B' }, there('1', '', '*', '*', '*', '*')])),
    ).toBeUndefined();
    // each bitting opens both; 5^8 are too many to look at
    for (const [depths, found] of [
      [2, 'no-bitting-for-key'],
      [5, undefined],
    ] as const) {
      const of = smallSpec(8, depths);
      const all = { chambers: Array.from({ length: 8 }, () => EVERY) };
      const grid = gridOf(
        ['A ?'],
        [
          { id: '1', marks: 'A', ...all },
          { id: '2', marks: '', ...all },
        ],
        of,
      );
      expect(problem(grid)?.reason.code).toBe(found);
    }
  });
});

describe('what is in conflict', () => {
  it('is said of keys at cylinders, or of one of these alone', () => {
    const say = (keys: string[], cylinders: string[]) =>
      sayAnswer({
        kind: 'impossible',
        reason: { code: 'search-exhausted', steps: 1 },
        scope: 'any',
        keys,
        cylinders,
        minimal: true,
        steps: 1,
      })[1];
    expect(say(['A', 'B'], ['1'])).toBe('In conflict: A, B at 1.');
    expect(say(['A', 'B'], [])).toBe('In conflict: A, B.');
    expect(say([], ['1'])).toBe('In conflict: 1.');
    expect(say([], [])).toBeUndefined();
    const many = Array.from({ length: 13 }, (_, n) => `K${n}`);
    expect(say(many, [])).toMatch(/^In conflict: K0, .*, K11 …\.$/);
  });
});
