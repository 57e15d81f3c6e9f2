/**
 * A spec that is common practice in the trade, typed here afresh rather than taken from the starters: six cuts, the
 * first 0.237 in from the shoulder, 0.156 in apart, ten depths from 0.315 in by 0.018 in, MACS 5.
 */
import { describe, expect, it } from 'vitest';
import {
  checkBitting,
  cutCentres,
  defaultStep,
  formatNumber,
  inches,
  makeSpecification,
  parseBitting,
  rootDepths,
  say,
  starterSpec,
  type Depth,
  type SpecificationDraft,
} from '../../src/keying/index.ts';
import { key, starter } from '../support/keys.ts';
import { STEPS } from './values.ts';

const DRAFT: SpecificationDraft = {
  name: 'six-cut',
  title: '',
  unit: 'in',
  gauge: 'shoulder',
  order: 'bow-to-tip',
  positions: 6,
  first: inches(0.237),
  spacing: inches(0.156),
  depths: [0.315, 0.297, 0.279, 0.261, 0.243, 0.225, 0.207, 0.189, 0.171, 0.153].map((root, i) => ({
    symbol: String(i),
    root: inches(root),
  })),
  rootWidth: inches(0.054),
  angle: 90,
  macs: 5,
};

function make(draft: SpecificationDraft) {
  const made = makeSpecification(draft);
  if (!made.ok) throw new Error(made.error.map((fault) => fault.code).join());
  return made.value;
}
const spec = make(DRAFT);
const shown = (lengths: Parameters<typeof formatNumber>[0][]) => lengths.map((l) => formatNumber(l, 'in'));

describe('the six-cut spec of common practice', () => {
  it('has its centres at 0.237, 0.393, 0.549 …', () => {
    expect(shown(cutCentres(spec))).toEqual(['0.237', '0.393', '0.549', '0.705', '0.861', '1.017']);
  });

  it('turns 274153 into root depths', () => {
    expect(shown(rootDepths(spec, key(spec, '274153')))).toEqual([
      '0.279',
      '0.189',
      '0.243',
      '0.297',
      '0.225',
      '0.261',
    ]);
  });

  it('allows a 2 beside a 7 and not beside an 8', () => {
    expect(checkBitting(spec, key(spec, '427453'))).toEqual([]);
    const found = checkBitting(spec, key(spec, '432854'));
    expect(found).toEqual([{ code: 'macs', first: 3, from: '2', to: '8', steps: 6, allowed: 5 }]);
    expect(say(found[0]!)).toContain('The 2 and 8 at cuts 3 and 4 differ by 6 steps; this spec allows 5.');
  });

  it('is the starter S-018-6', () => {
    expect(starterSpec('S-018-6')).toMatchObject({
      centres: spec.centres,
      depths: spec.depths,
      macs: spec.macs,
      gauge: spec.gauge,
      order: spec.order,
    });
  });

  it('keeps a leading zero that a cell kept, and says where a cell dropped one', () => {
    expect(parseBitting(spec, '074153')).toMatchObject({ ok: true, value: [0, 7, 4, 1, 5, 3] });
    expect(parseBitting(spec, 74153)).toMatchObject({
      ok: false,
      error: [{ code: 'lost-zero', found: 5, expected: 6, suggestion: '074153' }],
    });
  });
});

// A trade-association magazine, July/August 2017: increments below 0.023 in progress in two steps; cores at 0.021 in
// in one step are its named exception. Cores: its article on interchangeable-core systems, fig. 11.
describe('steps of progression', () => {
  const stepsOf = (increment: number): Depth[] =>
    [0, 1, 2, 3, 4, 5].map((i) => ({ symbol: String(i), root: inches(0.33 - i * increment) }));

  it.each([...STEPS, [0.021, 2] as const])(
    'an increment of %d in progresses in steps of %d',
    (increment, step) => {
      expect(defaultStep(stepsOf(increment))).toBe(step);
    },
  );

  it.each([
    ['T-0125-7', 10, 2, 9],
    ['T-018-7', 7, 1, 6],
    ['T-021-7', 6, 1, 5],
  ])('core %s: %d depths, step %d, MACS %d', (name, depths, step, macs) => {
    const core = starter(name);
    expect([core.depths.length, core.step, core.macs]).toEqual([depths, step, macs]);
  });

  // Core service manual, section on pinning (0.0125 in and 0.021 in); from memory (0.018 in)
  it.each([
    ['T-0125-7', 23, 10],
    ['T-021-7', 14, 6],
    ['T-018-7', 16, 7],
  ])('core %s stacks to %d and its control cut adds %d, about 0.125 in', (name, total, addition) => {
    const core = starter(name);
    expect(core.core).toEqual({ total, addition });
    const added = addition * (core.depths[0]!.root - core.depths[1]!.root);
    expect(Math.abs(added - inches(0.125))).toBeLessThanOrEqual(inches(0.001));
  });
});
