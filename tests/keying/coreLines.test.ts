/**
 * The two shear lines of an interchangeable core. Arithmetic of the published service manual: build-up = control +
 * addition − deepest operating cut, top = total − control − addition; 23 and 10 at 0.0125 in (published).
 */
import { describe, expect, it } from 'vitest';
import { reachOf } from '../../src/keying/blankReach.ts';
import { controlChoices, coreFaults, coreStack, worksControlLine } from '../../src/keying/core.ts';
import { depthSetOf, EVERY, NONE } from '../../src/keying/depthSet.ts';
import { inches } from '../../src/keying/units.ts';
import { cutsOf, plainSpec } from '../support/systems.ts';

const spec = plainSpec({
  positions: 4,
  depths: 10,
  increment: 0.0125,
  macs: 9,
  step: 2,
  core: { total: 23, addition: 10 },
});
const sets = (...lists: number[][]) => lists.map((list) => depthSetOf(list));

describe('a stack', () => {
  it('adds up to the total, each pin a whole number of steps', () => {
    const stack = coreStack(spec, depthSetOf([2, 6]), 5)!;
    expect(stack).toMatchObject({
      bottom: { steps: 2 },
      masters: [{ steps: 4 }],
      buildUp: { steps: 9, length: inches(0.1125) },
      top: { steps: 8, length: inches(0.1) },
      total: 23,
      thinBuildUp: false,
      tooTall: false,
    });
    expect(coreStack(spec, EVERY, 5)).toBeUndefined();
  });

  it('takes a top pin of the thinnest size but none below it', () => {
    const short = { ...spec, core: { total: 20, addition: 10 } };
    expect(coreStack(short, depthSetOf([2]), 8)!.tooTall).toBe(false);
    expect(coreStack(short, depthSetOf([2]), 9)!.tooTall).toBe(true);
  });
});

describe('the control line', () => {
  const control = cutsOf(spec, '1357');
  const chambers = sets([0], [2], [4], [6]);

  it('is worked by the control cuts and no others', () => {
    expect(worksControlLine(chambers, control, control)).toBe(true);
    for (const other of ['0357', '1257', '1347', '1356'])
      expect(worksControlLine(chambers, control, cutsOf(spec, other))).toBe(false);
    expect(worksControlLine(chambers, control, cutsOf(spec, '0246'))).toBe(false);
  });

  it('asks for no cut where a chamber is empty, and for a blank that reaches where it isn’t', () => {
    const three = [...chambers.slice(0, 3), EVERY];
    expect(worksControlLine(three, control, cutsOf(spec, '1350'))).toBe(true);
    expect(worksControlLine(three, control, control, reachOf(spec, 3))).toBe(true);
    expect(worksControlLine(chambers, control, control, reachOf(spec, 3))).toBe(false);
  });
});

describe('faults of a core', () => {
  it('are none where every pin is thick enough and the control key doesn’t turn it', () => {
    expect(coreFaults(spec, sets([0], [2], [4], [6]), cutsOf(spec, '1357'))).toEqual([]);
  });

  it('name the chamber and the steps', () => {
    const low = { ...spec, core: { total: 20, addition: 5 } };
    // 3 + 5 − 7 = 1 of build-up; depths 4 and 5 one step apart; 20 − 9 − 5 = 6 on top is fine, 14 − … is not
    expect(coreFaults(low, sets([7], [4, 5], [2], [0]), cutsOf(low, '3333'))).toEqual([
      { chamber: 1, fault: 'thin-build-up', steps: 1 },
      { chamber: 2, fault: 'thin-master-pin', steps: 1 },
    ]);
    const tall = { ...spec, core: { total: 18, addition: 10 } };
    expect(coreFaults(tall, sets([0], [2], [4], [6]), cutsOf(tall, '1357'))).toEqual([
      { chamber: 4, fault: 'stack-too-tall', steps: 1 },
    ]);
  });

  it('say once that the control key also turns the core, empty chambers or not', () => {
    const incidental = { chamber: 0, fault: 'control-is-incidental', steps: 0 };
    const control = cutsOf(spec, '1357');
    expect(coreFaults(spec, sets([1], [3], [5], [7]), control)).toEqual([incidental]);
    expect(coreFaults(spec, [EVERY, ...sets([3], [5], [7])], control)).toEqual([incidental]);
    expect(coreFaults(spec, [EVERY, EVERY, EVERY, EVERY], control)).toEqual([]);
    expect(coreFaults(spec, [NONE, NONE, NONE, NONE], control)).toEqual([]);
  });
});

it('offers the control cuts that leave room for both pins', () => {
  const narrow = { ...spec, core: { total: 16, addition: 5 } };
  // build-up c + 5 − 6 ≥ 2 asks for 3 and more, top 16 − c − 5 ≥ 2 for 9 and less
  expect(controlChoices(narrow, depthSetOf([2, 6]))).toEqual([3, 4, 5, 6, 7, 8, 9]);
  expect(controlChoices({ ...spec, core: { total: 13, addition: 5 } }, depthSetOf([2, 6]))).toEqual([
    3, 4, 5, 6,
  ]);
  expect(controlChoices(narrow, EVERY)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9]);
});
