import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bittingOf,
  checkBitting,
  DEFAULT_RULES,
  GRADES,
  inches,
  isUsable,
  NO_RULES,
  notChecked,
  packBitting,
  positions,
  RULE_NAMES,
  severityOf,
  unpackBitting,
  countWithinMacs,
  type BittingContext,
  type Rules,
  type Specification,
} from '../../src/keying/index.ts';
import { depthSetOf, EVERY } from '../../src/keying/depthSet.ts';
import type { CylinderRecord, Status } from '../../src/keying/system.ts';
import { keysArbitrary } from '../support/keyingArbitraries.ts';
import { key, starter } from '../support/keys.ts';

const six = starter('S-018-6');
const five = starter('S-025-5');

/** What one rule alone finds. */
const found = (spec: Specification, code: string, rules: Partial<Rules>, context: BittingContext = {}) =>
  checkBitting(spec, key(spec, code), { ...NO_RULES, ...rules }, context);

describe('the default rules', () => {
  it('are those of common practice', () => {
    const on = RULE_NAMES.filter((name) => DEFAULT_RULES[name]);
    expect(RULE_NAMES.filter((name) => !on.includes(name))).toEqual(['pullsOutTurned', 'grade']);
    expect(DEFAULT_RULES).toMatchObject({ leastDepths: 3, leastDepthsFrom: 5, mostEqualRun: 3 });
    expect(DEFAULT_RULES.nearMissWithin).toBe(inches(0.02));
  });

  it('find nothing wrong with a good bitting', () => {
    expect(checkBitting(six, key(six, '274153'))).toEqual([]);
    expect(isUsable(six, key(six, '274153'))).toBe(true);
  });

  it('find everything wrong with a bad one', () => {
    const codes = checkBitting(six, key(six, '999933')).map((finding) => finding.code);
    expect(codes).toEqual(['macs', 'few-depths', 'equal-run']);
  });

  it('switched off find nothing at all', () => {
    expect(RULE_NAMES.filter((name) => NO_RULES[name])).toEqual([]);
    expect(found(six, '999900', {}, context())).toEqual([]);
  });
});

describe('form', () => {
  it('reports length and unknown depths, and then no other rule', () => {
    const allowed = six.depths.map((d) => d.symbol);
    expect(checkBitting(six, [0, 10, -1])).toEqual([
      { code: 'length', found: 3, expected: 6 },
      { code: 'unknown-depth', symbol: '10', at: 2, allowed },
      { code: 'unknown-depth', symbol: '-1', at: 3, allowed },
    ]);
    expect(checkBitting(six, [9, 0, 9, 0, 9]).map((finding) => finding.code)).toEqual(['length']);
    expect(checkBitting(six, [9, 0, 9, 0, 9, 12]).map((finding) => finding.code)).toEqual(['unknown-depth']);
  });
});

describe('MACS', () => {
  it('names each pair by the symbols and counts the steps', () => {
    expect(found(six, '274153', { macs: true })).toEqual([]);
    expect(found(six, '282153', { macs: true })).toEqual([
      { code: 'macs', first: 1, from: '2', to: '8', steps: 6, allowed: 5 },
      { code: 'macs', first: 2, from: '8', to: '2', steps: 6, allowed: 5 },
    ]);
  });

  it('counts steps, not symbols, where the larger symbol is the shallower cut', () => {
    const metric = starter('M-050-5');
    expect(found(metric, '73333', { macs: true })).toEqual([]);
    expect(found(metric, '72333', { macs: true })).toEqual([
      { code: 'macs', first: 1, from: '7', to: '2', steps: 5, allowed: 4 },
    ]);
  });
});

describe('different depths', () => {
  it('needs three in five cuts and more', () => {
    expect(found(five, '13131', { fewDepths: true })).toEqual([{ code: 'few-depths', found: 2, least: 3 }]);
    expect(found(five, '13132', { fewDepths: true })).toEqual([]);
    const four: Specification = { ...five, centres: five.centres.slice(0, 4) };
    expect(found(four, '1313', { fewDepths: true })).toEqual([]);
    expect(found(four, '1313', { fewDepths: true, leastDepthsFrom: 4 })).toHaveLength(1);
  });
});

describe('equal cuts in a run', () => {
  it('allows three, names four and where they start', () => {
    expect(found(six, '244425', { equalRun: true })).toEqual([]);
    expect(found(six, '244442', { equalRun: true })).toEqual([
      { code: 'equal-run', symbol: '4', first: 2, length: 4, most: 3 },
    ]);
  });

  it('names every run', () => {
    expect(found(six, '224466', { equalRun: true, mostEqualRun: 1 })).toEqual(
      [1, 3, 5].map((first, i) => ({ code: 'equal-run', symbol: '246'[i], first, length: 2, most: 1 })),
    );
  });
});

describe('a straight stair', () => {
  it('is a warning both ways, at any height of step', () => {
    expect(found(six, '124578', { stair: true })).toEqual([{ code: 'stair', direction: 'deeper' }]);
    expect(found(six, '987531', { stair: true })).toEqual([{ code: 'stair', direction: 'shallower' }]);
    expect(found(six, '124577', { stair: true })).toEqual([]);
    expect(found(six, '124576', { stair: true })).toEqual([]);
    expect(severityOf({ code: 'stair', direction: 'deeper' })).toBe('warning');
    expect(isUsable(six, key(six, '124578'))).toBe(true);
  });

  it('deeper and shallower are about the metal, not the symbol', () => {
    expect(found(starter('M-050-5'), '13467', { stair: true })).toEqual([
      { code: 'stair', direction: 'shallower' },
    ]);
  });
});

describe('drawn out turned', () => {
  it('is checked only when it is switched on', () => {
    const flat: Specification = { ...six, rootWidth: inches(0.15), macs: 5 };
    expect(found(flat, '012345', { pullsOutTurned: true })).toEqual([{ code: 'pulls-out-turned' }]);
    expect(found(flat, '543210', { pullsOutTurned: true })).toEqual([]);
    expect(found(flat, '012345', {})).toEqual([]);
  });
});

describe('EN 1303', () => {
  it('gives the share to a tenth of a percent', () => {
    const grade = 2;
    expect(found(six, '222226', { grade })).toEqual([
      { code: 'grade-equal-share', grade, percent: 83.3, most: 70 },
      { code: 'grade-equal-neighbours', grade, found: 5, most: 2 },
    ]);
  });
});

function context(): BittingContext {
  const cylinder = (id: string, codes: readonly string[], keyway?: string): CylinderRecord => ({
    id,
    symbol: 'AA9',
    ...(keyway === undefined ? {} : { keyway }),
    chambers: codes.map((symbols) => (symbols === '*' ? EVERY : depthSetOf([...symbols].map(Number)))),
  });
  const used = new Map<number, { symbol: string; status: Status }>([
    [packBitting(six, key(six, '274153')), { symbol: 'AA1', status: 'retired' }],
    [packBitting(six, key(six, '472351')), { symbol: 'AA2', status: 'free' }],
  ]);
  return {
    master: { symbol: 'A', bitting: key(six, '052337') },
    masters: [
      { symbol: 'A', bitting: key(six, '052337') },
      { symbol: 'AB', bitting: key(six, '252157') },
    ],
    used,
    cylinders: [
      cylinder('D1', ['02', '57', '24', '13', '35', '37']),
      cylinder('D2', ['02', '57', '24', '13', '35', '*'], 'K2'),
    ],
    keys: [{ symbol: 'AA3', bitting: key(six, '274155') }],
  };
}

describe('against a system', () => {
  it('reports a bitting in use whatever its status, but not a free one nor its own', () => {
    const rules = { alreadyUsed: true };
    expect(found(six, '274153', rules, context())).toEqual([
      { code: 'already-used', symbol: 'AA1', status: 'retired' },
    ]);
    expect(found(six, '274153', rules, { ...context(), self: 'AA1' })).toEqual([]);
    expect(found(six, '472351', rules, context())).toEqual([]);
    expect(found(six, '472353', rules, context())).toEqual([]);
  });

  it('reports a bitting that equals a master, once, but not the master itself', () => {
    const rules = { equalsMaster: true };
    expect(found(six, '052337', rules, context())).toEqual([{ code: 'equals-master', symbol: 'A' }]);
    expect(found(six, '252157', rules, context())).toEqual([{ code: 'equals-master', symbol: 'AB' }]);
    expect(found(six, '252157', rules, { ...context(), self: 'AB' })).toEqual([]);
    const master = context().master!;
    const masters = context().masters!.slice(1);
    expect(found(six, '052337', rules, { master })).toHaveLength(1);
    expect(found(six, '052337', rules, { master, masters })).toHaveLength(1);
    expect(found(six, '252157', rules, { master, masters })).toHaveLength(1);
    expect(found(six, '052336', rules, context())).toEqual([]);
  });

  it('reports each cut that is not a whole number of steps from the top master', () => {
    // of two steps: cuts 3 and 6 lie one and three steps away
    expect(found(six, '273354', { parity: true }, context())).toEqual([
      { code: 'parity', at: 3, steps: 1, step: 2, master: 'A' },
      { code: 'parity', at: 6, steps: 3, step: 2, master: 'A' },
    ]);
    expect(found(six, '274155', { parity: true }, context())).toEqual([]);
    expect(found(six, '273354', { parity: true })).toEqual([]);
  });

  it('reports the cylinders that it operates, in its own keyway only', () => {
    const rules = { operatesExisting: true };
    expect(found(six, '274153', rules, context())).toEqual([
      { code: 'operates-existing', cylinder: 'D1' },
      { code: 'operates-existing', cylinder: 'D2' },
    ]);
    expect(found(six, '274153', rules, { ...context(), keyway: 'K1' })).toEqual([
      { code: 'operates-existing', cylinder: 'D1' },
    ]);
    expect(found(six, '274154', rules, context())).toEqual([{ code: 'operates-existing', cylinder: 'D2' }]);
    expect(found(six, '174154', rules, context())).toEqual([]);
  });

  it('reports a near miss at exactly one chamber below 0.020 in', () => {
    const rules = { nearMiss: true };
    const near = (code: string) => found(six, code, rules, context());
    expect(near('274152')).toEqual([{ code: 'near-miss', other: 'D1', chamber: 6, thousandths: 18 }]);
    // 3 and 5 differ by 0.036 in
    expect(near('274155').map((f) => f.code)).toEqual([]);
    expect(near('174153')).toEqual([
      { code: 'near-miss', other: 'D1', chamber: 1, thousandths: 18 },
      { code: 'near-miss', other: 'D2', chamber: 1, thousandths: 18 },
    ]);
    // two chambers of D1 fail, one of D2
    expect(near('174152')).toEqual([{ code: 'near-miss', other: 'D2', chamber: 1, thousandths: 18 }]);
    expect(near('183152')).toEqual([]);
    // one step from AA3 in two chambers
    expect(near('174154').map((f) => f.code === 'near-miss' && f.other)).toEqual(['D2']);
    expect(near('274154')).toContainEqual({ code: 'near-miss', other: 'AA3', chamber: 6, thousandths: 18 });
    expect(found(six, '274154', rules, { ...context(), self: 'AA3' })).toEqual([
      { code: 'near-miss', other: 'D1', chamber: 6, thousandths: 18 },
    ]);
  });

  it('takes the limit of a near miss as less than, not up to', () => {
    const keys = [{ symbol: 'AA3', bitting: key(six, '274155') }];
    const at = (nearMissWithin: number) =>
      found(six, '274154', { nearMiss: true, nearMissWithin: inches(nearMissWithin) }, { keys });
    expect(at(0.018)).toEqual([]);
    expect(at(0.0181)).toHaveLength(1);
    const { cylinders } = context();
    const atCylinder = (nearMissWithin: number) =>
      found(
        six,
        '274152',
        { nearMiss: true, nearMissWithin: inches(nearMissWithin) },
        { cylinders: cylinders! },
      );
    expect(atCylinder(0.018)).toEqual([]);
    expect(atCylinder(0.0181)).toHaveLength(1);
    const core = starter('T-0125-7');
    const near = found(
      core,
      '0123456',
      { nearMiss: true },
      { keys: [{ symbol: 'B', bitting: key(core, '0123457') }] },
    );
    expect(near).toEqual([{ code: 'near-miss', other: 'B', chamber: 7, thousandths: 12.5 }]);
  });

  it('says which rules had nothing to check against', () => {
    expect(notChecked(DEFAULT_RULES, {})).toEqual([
      'alreadyUsed',
      'equalsMaster',
      'parity',
      'operatesExisting',
      'nearMiss',
    ]);
    expect(notChecked(DEFAULT_RULES, context())).toEqual([]);
    expect(notChecked(NO_RULES, {})).toEqual([]);
    expect(notChecked(DEFAULT_RULES, { masters: [] })).not.toContain('equalsMaster');
    expect(notChecked(DEFAULT_RULES, { keys: [] })).not.toContain('nearMiss');
  });
});

const rulesArbitrary: fc.Arbitrary<Rules> = fc
  .record({
    macs: fc.boolean(),
    fewDepths: fc.boolean(),
    leastDepths: fc.integer({ min: 1, max: 5 }),
    leastDepthsFrom: fc.integer({ min: 4, max: 7 }),
    equalRun: fc.boolean(),
    mostEqualRun: fc.integer({ min: 1, max: 4 }),
    stair: fc.boolean(),
    grade: fc.constantFrom(0 as const, ...GRADES),
  })
  .map((rules) => ({ ...DEFAULT_RULES, ...rules }));

describe('isUsable', () => {
  it('is true if and only if checkBitting finds no fault', () => {
    const shallowKeys = keysArbitrary().map(({ spec, bittings: [bitting] }) => ({
      spec,
      // few depths, so that runs and shares come up often
      bitting: bittingOf(
        spec,
        bitting!.map((index) => index % 3),
      ),
    }));
    const anyKeys = keysArbitrary().map(({ spec, bittings: [bitting] }) => ({ spec, bitting: bitting! }));
    fc.assert(
      fc.property(fc.oneof(shallowKeys, anyKeys), rulesArbitrary, ({ spec, bitting }, rules) => {
        const faults = checkBitting(spec, bitting, rules).filter((f) => severityOf(f) === 'fault');
        expect(isUsable(spec, bitting, rules)).toBe(faults.length === 0);
      }),
      { numRuns: 2_000 },
    );
  });

  it('refuses what is no bitting of the spec', () => {
    expect(isUsable(six, [0, 1, 2], NO_RULES)).toBe(false);
    expect(isUsable(six, [0, 1, 2, 3, 4, 10], NO_RULES)).toBe(false);
    expect(isUsable(six, [0, 1, 2, 3, 4, -1], NO_RULES)).toBe(false);
    expect(isUsable(six, [0, 1, 2, 3, 4, 0.5], NO_RULES)).toBe(false);
    expect(isUsable(six, [0, 0, 0, 0, 0, 9], NO_RULES)).toBe(true);
  });

  it('with MACS alone leaves as many as counting gives', () => {
    const total = five.depths.length ** positions(five);
    let usable = 0;
    for (let packed = 0; packed < total; packed++)
      if (isUsable(five, unpackBitting(five, packed), { ...NO_RULES, macs: true })) usable++;
    expect(usable).toBe(countWithinMacs(6, 5, 4));
    // OEIS A126501: strings over six symbols, neighbours within 4
    expect(usable).toBe(6306);
  });
});

it('checks 100,000 bittings in far less than a second', () => {
  const bittings = Array.from({ length: 100_000 }, (_, i) => unpackBitting(six, i * 10));
  // processor time, since other programs may be busy meanwhile
  const start = process.cpuUsage();
  let faulty = 0;
  for (const bitting of bittings) if (checkBitting(six, bitting).length > 0) faulty++;
  const { user, system } = process.cpuUsage(start);
  // codes that end in 0 and have a fault or are a stair: most of them, since the last cut is a 0
  expect(faulty).toBeGreaterThan(bittings.length / 2);
  expect(faulty).toBeLessThan(bittings.length);
  expect((user + system) / 1e6).toBeLessThan(1);
});
