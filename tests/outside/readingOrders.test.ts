/**
 * Which cut is which, common practice: a code read from bow to tip names the cut nearest the bow first, whatever stop
 * the positions are measured from; a shoulder gauge counts positions from the bow, a tip gauge from the tip.
 */
import { describe, expect, it } from 'vitest';
import {
  cutCentre,
  cutCentres,
  cutsFromStop,
  GAUGES,
  inches,
  ORDERS,
  reverseBitting,
  rootDepths,
  type Specification,
} from '../../src/keying/index.ts';
import { key, starter } from '../support/keys.ts';

const base = starter('S-018-6');
const cases = GAUGES.flatMap((gauge) => ORDERS.map((order) => ({ gauge, order })));

describe.each(cases)('gauged from the $gauge, read $order', ({ gauge, order }) => {
  const spec: Specification = { ...base, gauge, order };
  const bitting = key(spec, '274153');
  const cuts = cutsFromStop(spec, bitting);
  const fromBow = gauge === 'shoulder' ? cuts : [...cuts].reverse();

  it('lays the code along the blade in the direction in which it reads', () => {
    const symbols = fromBow.map((cut) => cut.symbol).join('');
    expect(symbols).toBe(order === 'bow-to-tip' ? '274153' : '351472');
  });

  it('measures the first position from its stop', () => {
    expect(cuts[0]).toMatchObject({ position: 1, centre: inches(0.237) });
    expect(cuts[5]).toMatchObject({ position: 6, centre: inches(1.017) });
    expect(cuts.map((cut) => cut.position)).toEqual([1, 2, 3, 4, 5, 6]);
  });

  it('puts the first symbol nearest the end that the code starts from', () => {
    const startsAtStop = (gauge === 'shoulder') === (order === 'bow-to-tip');
    expect(cutCentre(spec, 1)).toBe(startsAtStop ? inches(0.237) : inches(1.017));
    expect(cutCentres(spec)[0]).toBe(cutCentre(spec, 1));
    expect(cutCentres(spec)[5]).toBe(cutCentre(spec, 6));
  });

  it('numbers each cut by its symbol', () => {
    for (const cut of cuts) {
      expect(cut.symbol).toBe('274153'[cut.symbolNumber - 1]);
      expect(cut.root).toBe(rootDepths(spec, bitting)[cut.symbolNumber - 1]);
      expect(cut.centre).toBe(cutCentre(spec, cut.symbolNumber));
    }
  });

  it('cuts the same blade when code and order are both turned round', () => {
    const other: Specification = { ...spec, order: order === 'bow-to-tip' ? 'tip-to-bow' : 'bow-to-tip' };
    const strip = (from: typeof cuts) =>
      from.map(({ position, centre, root }) => ({ position, centre, root }));
    expect(strip(cutsFromStop(other, reverseBitting(bitting)))).toEqual(strip(cuts));
  });
});

it('cuts deeper for a smaller symbol where the larger symbol is the shallower cut', () => {
  const spec = starter('M-050-5');
  const roots = rootDepths(spec, key(spec, '71354'));
  expect(roots.map((root) => root / 1_000_000)).toEqual([8, 5, 6, 7, 6.5]);
});
