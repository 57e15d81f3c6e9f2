/** Places of cuts by hand: 0.237 in to the first, 0.156 in apart (common practice). */
import { describe, expect, it } from 'vitest';
import { centreAt, cutCentre, cutCentres, cutsFromStop, rootDepths } from '../../src/keying/cuts.ts';
import { inches } from '../../src/keying/units.ts';
import { key, starter } from '../support/keys.ts';
import type { Bitting } from '../../src/keying/bitting.ts';

const six = starter('S-018-6');
const back = { ...six, order: 'tip-to-bow' as const };

describe('places', () => {
  it('count from the stop, symbols along the code', () => {
    expect(centreAt(six, 2)).toBe(inches(0.393));
    expect(cutCentre(six, 1)).toBe(inches(0.237));
    expect(cutCentre(back, 1)).toBe(inches(1.017));
    expect(cutCentres(back)).toEqual([...cutCentres(six)].reverse());
    expect(cutsFromStop(back, key(back, '274153'))[0]).toEqual({
      position: 1,
      symbolNumber: 6,
      symbol: '3',
      centre: inches(0.237),
      root: inches(0.261),
    });
  });

  it('and depths that a spec doesn’t have are a mistake of ours', () => {
    for (const position of [0, 7]) expect(() => centreAt(six, position)).toThrow(`no position ${position}`);
    expect(() => rootDepths(six, [10, 0, 0, 0, 0, 0] as unknown as Bitting)).toThrow('no depth at index 10');
  });
});
