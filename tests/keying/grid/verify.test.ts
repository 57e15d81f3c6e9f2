/** From a solved state to an answer: against opening and counting by the plain definition. */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../../src/keying/bitting.ts';
import { depthSetOf, EVERY, NONE } from '../../../src/keying/depthSet.ts';
import type { Grid } from '../../../src/keying/grid/chart.ts';
import { prepareGrid, wholeDomain } from '../../../src/keying/grid/prepare.ts';
import { GridState } from '../../../src/keying/grid/state.ts';
import { answerOf, pinsIn } from '../../../src/keying/grid/verify.ts';
import { runToEnd } from '../../../src/keying/system.ts';
import { noRules, smallSpec } from './charts.ts';
import { allCuts } from './plain.ts';

const spec = smallSpec(4, 4);
const bitting = (code: string) => bittingOf(spec, [...code].map(Number));
const chambers = (...depths: string[]) => depths.map((d) => depthSetOf([...d].map(Number)));

/**
 * M and A open D1, M and A and the twins B1 and B2 open D2 and D3 which have no fourth chamber, E opens what stands;
 * nobody opens D4, and M alone D6.
 */
const grid: Grid = {
  spec,
  keys: [
    { symbol: 'M' },
    { symbol: 'A' },
    { symbol: 'B1' },
    { symbol: 'E', bitting: bitting('3333') },
    { symbol: 'B2' },
  ],
  cylinders: [
    { id: 'D1' },
    { id: 'D2', inUse: [true, true, true, false] },
    { id: 'D3', inUse: [true, true, true, false] },
    { id: 'D4' },
    { id: 'D5', chambers: chambers('3', '3', '23', '123') },
    { id: 'D6' },
  ],
  marks: [[0, 1], [0, 1, 2, 4], [0, 1, 2, 4], [], [3], [0]],
};
const CUTS: Record<string, string> = { M: '0000', A: '1110', B1: '2010', B2: '2010', E: '3333' };
const options = { rules: noRules };
const asFound = { masterPins: 50, extraMasterPins: 20 };
function solved() {
  const prepared = prepareGrid(grid, options, wholeDomain(grid));
  const state = new GridState(prepared.instance);
  for (const k of [0, 1, 2]) state.place(prepared.keyClass[k]!, bitting(CUTS[grid.keys[k]!.symbol]!));
  return [prepared, state] as const;
}
const answerNow = () => runToEnd(answerOf(grid, options, ...solved(), 123, asFound));

describe('the answer of a solved grid', () => {
  it('has keys and cylinders in the order of the grid, new cylinders pinned for their keys', () => {
    const answer = answerNow();
    expect(answer.kind).toBe('solved');
    expect(answer.keys).toEqual(
      grid.keys.map(({ symbol }) => ({ symbol, bitting: bitting(CUTS[symbol]!), fixed: symbol === 'E' })),
    );
    const short = [...chambers('012', '01', '01'), EVERY];
    expect(answer.cylinders).toEqual([
      { id: 'D1', chambers: chambers('01', '01', '01', '0'), fixed: false },
      { id: 'D2', chambers: short, fixed: false },
      { id: 'D3', chambers: short, fixed: false },
      { id: 'D4', chambers: [NONE, NONE, NONE, NONE], fixed: false },
      { id: 'D5', chambers: grid.cylinders[4]!.chambers, fixed: true },
      { id: 'D6', chambers: chambers('0', '0', '0', '0'), fixed: false },
    ]);
  });

  it('names keys that are cut alike and cylinders without a mark, and passes on how it was found', () => {
    const answer = answerNow();
    expect(answer.alike).toEqual([['B1', 'B2']]);
    expect(answer.unmarked).toEqual(['D4']);
    expect(answer.steps).toBe(123);
    expect(answer.cost.asFound).toBe(asFound);
  });

  it('costs pins, and bittings that open by accident', () => {
    const answer = answerNow();
    const listed = new Set(Object.values(CUTS));
    const perCylinder = answer.cylinders.map(({ id, chambers: sets }) => {
      const opening = allCuts(spec).filter((cuts) => cuts.every((cut, i) => (sets[i]! >>> cut) & 1));
      const pinned = sets.filter((set) => set !== EVERY && set !== NONE);
      const pins = pinned.map((set) => [0, 1, 2, 3].filter((d) => (set >>> d) & 1).length - 1);
      return {
        id,
        combinations: opening.length,
        incidental: opening.filter((cuts) => !listed.has(cuts.join(''))).length,
        masterPins: pins.reduce((a, b) => a + b, 0),
      };
    });
    expect(answer.cost.perCylinder).toEqual(perCylinder);
    // by hand: three of D1, four each of D2 and D3, three of D5; second ones in D2, D3 and D5
    expect(answer.cost).toMatchObject({
      masterPins: 14,
      extraMasterPins: 3,
      mostCombinations: 48,
      incidental: 6 + 2 * 45 + 5,
    });
  });
});

describe('master pins of a state', () => {
  it('are those of each cylinder of a class, of those that stand as well', () => {
    expect(pinsIn(...solved())).toEqual({ masterPins: 14, extraMasterPins: 3 });
  });
});
