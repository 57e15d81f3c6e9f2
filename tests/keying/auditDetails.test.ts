/** What an audit says of each finding besides the pair: chambers, steps, reasons. Lengths and steps by hand. */
import { describe, expect, it } from 'vitest';
import { depthSetOf, EVERY } from '../../src/keying/depthSet.ts';
import { auditSystem, DEFAULT_RULES, inches, pinnedFor, type AuditInput } from '../../src/keying/index.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { cutsOf, plainSpec } from '../support/systems.ts';

const spec = plainSpec({ positions: 5, depths: 10, increment: 0.015, macs: 5 });
const audit = (input: Partial<AuditInput>, options: Parameters<typeof auditSystem>[1] = {}) =>
  runToEnd(auditSystem({ spec, keys: [], cylinders: [], intended: [], ...input }, options));
const keyOf = (symbol: string, code: string) => ({ symbol, bitting: cutsOf(spec, code) });
const pinned = (...codes: string[]) =>
  pinnedFor(
    spec,
    codes.map((code) => cutsOf(spec, code)),
  );

describe('bittings against the rules', () => {
  it('give faults as reasons and leave warnings out; bittings out of use are passed over', () => {
    // a stair is a warning, and 0 to 6 is over MACS
    const keys = [
      keyOf('AA1', '01238'),
      { ...keyOf('AA2', '06063'), status: 'issued' as const },
      { ...keyOf('AA3', '06064'), status: 'reserved' as const },
      ...(['free', 'void', 'retired'] as const).map((status, i) => ({
        ...keyOf(`AB${i}`, `0606${i}`),
        status,
      })),
      keyOf('AA4', '24681'),
    ];
    const found = audit({ keys }).findings.filter((f) => f.code === 'unusable-bitting');
    expect(found.map((f) => f.code === 'unusable-bitting' && [f.key, f.reasons.map((r) => r.code)])).toEqual([
      ['AA2', ['macs', 'macs', 'macs']],
      ['AA3', ['macs', 'macs', 'macs']],
      ['AA4', ['macs']],
    ]);
    expect(audit({ keys: [keyOf('AA1', '01238')] }).counts).toEqual({});
    expect(audit({ keys: keys.slice(1) }, { rules: { ...DEFAULT_RULES, macs: false } }).counts).toEqual({});
  });
});

describe('findings taken one by one', () => {
  it('are those of the list, in its order, and the report keeps none', () => {
    // AA1 operates D1, which is AA2's by its marks, and is over MACS: interchanges among findings of other kinds
    const input = {
      keys: [keyOf('AA1', '09999'), keyOf('AA2', '00000'), keyOf('AA2', '00001')],
      cylinders: ['D1', 'D2', 'D3'].map((id) => ({ id, chambers: pinned('09999', '12345') })),
      intended: [[1], [0], [1, 2]],
    };
    const listed = audit(input);
    expect(new Set(listed.findings.map((f) => f.code)).size).toBeGreaterThan(2);
    const taken: unknown[] = [];
    const report = audit(input, { take: (finding) => taken.push(finding) });
    expect(taken).toEqual(listed.findings);
    expect(report).toEqual({ ...listed, findings: [] });
  });
});

describe('near misses', () => {
  const input = {
    keys: [keyOf('AA1', '24687'), keyOf('AA2', '24678')],
    cylinders: [{ id: 'D1', chambers: pinned('24686') }],
    intended: [[]],
  };

  it('are looked for unless they are switched off, below the limit asked for', () => {
    expect(audit(input).counts).toEqual({ 'near-interchange': 1 });
    expect(audit(input, { near: false }).counts).toEqual({});
    expect(audit(input, { nearWithin: inches(0.015) }).counts).toEqual({});
    expect(audit(input, { nearWithin: inches(0.0151) }).counts).toEqual({ 'near-interchange': 1 });
    // 8 and 6 are 0.030 in apart, but two chambers of AA2 fail
    expect(audit(input, { nearWithin: inches(0.031) }).counts).toEqual({ 'near-interchange': 1 });
  });

  it('are none in an empty chamber', () => {
    const open = { ...input, cylinders: [{ id: 'D1', chambers: [EVERY, ...pinned('24686').slice(1)] }] };
    expect(audit(open).counts).toEqual({ 'near-interchange': 1 });
  });
});

describe('pins', () => {
  it('too thin or too tall are named by the chamber', () => {
    // bottom pin of 8 is 0.500 − 0.210 = 0.290, so nothing is left of 0.290
    const tall = { ...spec, targetStack: inches(0.29) };
    const chambers = [[2], [4, 5], [8], [1], [3]].map((depths) => depthSetOf(depths));
    expect(audit({ spec: tall, cylinders: [{ id: 'D1', chambers }], intended: [[]] }).findings).toEqual([
      { code: 'thin-master-pin', cylinder: 'D1', chamber: 2, steps: 1, step: 2 },
      { code: 'stack-too-tall', cylinder: 'D1', chamber: 3 },
    ]);
  });
});

describe('symbols', () => {
  it('above a key that stand in no row are named, blank ones are not asked for', () => {
    const keys = [
      keyOf('A', '02461'),
      { ...keyOf('AA', '13570'), parent: ' a ' },
      { ...keyOf('AA1', '35790'), parent: 'AB' },
      { ...keyOf('AA2', '46802'), parent: '  ' },
    ];
    expect(audit({ keys }).findings.filter((f) => f.code === 'parent-missing')).toEqual([
      { code: 'parent-missing', key: 'AA1', parent: 'AB' },
    ]);
  });

  it('of cylinders lose an X only at their beginning', () => {
    const cylinders = [{ id: 'D1', symbol: 'AXB1', chambers: pinned('13579') }];
    const { findings } = audit({ keys: [keyOf('XB1', '13579')], cylinders, intended: [[0]] });
    expect(findings).toEqual([{ code: 'key-missing', symbol: 'AXB1', cylinder: 'D1' }]);
  });

  it('of cylinders ask for their key once each, blank ones for none', () => {
    const cylinder = (id: string, symbol: string) => ({ id, symbol, chambers: pinned('13579') });
    const cylinders = [
      cylinder('D1', ' aa1 '),
      cylinder('D2', 'AA7'),
      cylinder('D3', ' '),
      cylinder('D4', 'XAA1'),
    ];
    const report = audit({ keys: [keyOf('AA1', '13579')], cylinders, intended: [[0], [0], [0], [0]] });
    expect(report.findings).toEqual([{ code: 'key-missing', symbol: 'AA7', cylinder: 'D2' }]);
    expect(report).toMatchObject({ keys: 1, cylinders: 4, pairs: 4 });
  });
});

describe('bittings that are there twice', () => {
  const rows = (...keys: { symbol: string; keyway?: string; cuts?: number; code?: string }[]) =>
    audit({ keys: keys.map(({ code = '24687', ...key }) => ({ ...keyOf(key.symbol, code), ...key })) })
      .findings;

  it('are told with the first key before that meets the same keyway, however many stand between', () => {
    expect(
      rows(
        { symbol: 'AA1', keyway: 'K1' },
        { symbol: 'AA2', keyway: 'K2' },
        { symbol: 'AA3', keyway: 'K1' },
        { symbol: 'AA4', keyway: 'K2' },
      ),
    ).toEqual([
      { code: 'same-bitting', key: 'AA3', other: 'AA1' },
      { code: 'same-bitting', key: 'AA4', other: 'AA2' },
    ]);
  });

  it('are none where two rows of one symbol stand, in either case and with blanks around it', () => {
    expect(rows({ symbol: 'AA1' }, { symbol: ' aa1 ' })).toEqual([]);
    expect(rows({ symbol: ' aa1 ' }, { symbol: 'AA1' })).toEqual([]);
  });

  it('are one key on blanks of one length that carry the same cuts, whatever the code says beyond', () => {
    const short = rows({ symbol: 'AA1', cuts: 3, code: '24687' }, { symbol: 'AA2', cuts: 3, code: '24645' });
    expect(short).toEqual([{ code: 'same-bitting', key: 'AA2', other: 'AA1' }]);
    expect(rows({ symbol: 'AA1', cuts: 3, code: '24687' }, { symbol: 'AA2', code: '24645' })).toEqual([]);
    expect(rows({ symbol: 'AA1', cuts: 3 }, { symbol: 'AA2', cuts: 4, code: '24684' })).toEqual([]);
  });
});

describe('the list of findings', () => {
  // AA1 opens D1 and D3, where it should not, and not D2, where it should
  const input = {
    keys: [keyOf('AA1', '24687')],
    cylinders: ['24687', '13579', '24687'].map((code, c) => ({ id: `D${c + 1}`, chambers: pinned(code) })),
    intended: [[], [0], []],
  };
  const listed = (options: Parameters<typeof auditSystem>[1]) => {
    const { findings, complete } = audit(input, { near: false, ...options });
    return [findings.map((f) => `${f.code} ${'cylinder' in f ? f.cylinder : ''}`), complete];
  };

  it('has them in the order of the cylinders, and is complete where no more than the cap were found', () => {
    const all = ['interchange D1', 'lock-out D2', 'interchange D3'];
    expect(listed({})).toEqual([all, true]);
    expect(listed({ cap: 2 })).toEqual([all, true]);
    expect(listed({ cap: 1 })).toEqual([all.slice(0, 2), false]);
  });

  it('counts a mark that stands twice once', () => {
    const keys = [keyOf('AA1', '24687'), keyOf('AA2', '24687')];
    const { counts } = audit({ ...input, keys, intended: [[0, 0], [0, 0], []] }, { near: false });
    expect(counts).toMatchObject({ interchange: 3, 'lock-out': 1 });
  });
});

describe('bittings that get in without being issued', () => {
  it('are counted by the whole code, also where the only blanks are too short for the last chamber', () => {
    const keys = ['24681', '24687', '24689'].map((code, k) => ({ ...keyOf(`AA${k}`, code), cuts: 4 }));
    const chambers = [...pinned('24680').slice(0, 4), EVERY];
    // from 8 MACS 5 allows 3 to 9: seven bittings, and of the three listed that turn it two are among them
    expect(audit({ keys, cylinders: [{ id: 'D1', chambers }] }).perCylinder).toEqual([
      { id: 'D1', keys: 3, operating: 10, cuttable: 7, incidental: 5 },
    ]);
  });
});

describe('a cylinder that nothing is meant for', () => {
  it('may be left out of what is intended', () => {
    const cylinders = [{ id: 'D1', chambers: pinned('24687') }];
    const { counts } = audit({ keys: [keyOf('AA1', '24687')], cylinders });
    expect(counts).toEqual({ interchange: 1 });
  });

  it('is turned by a blank without any cut only where it is empty', () => {
    const blank = { ...keyOf('AA1', '24687'), cuts: 0 };
    const empty = { id: 'D1', chambers: [EVERY, EVERY, EVERY, EVERY, EVERY] };
    const one = { id: 'D2', chambers: [EVERY, EVERY, EVERY, EVERY, depthSetOf([7])] };
    const { perCylinder } = audit({ keys: [blank], cylinders: [empty, one] });
    expect(perCylinder.map(({ keys }) => keys)).toEqual([1, 0]);
  });
});

describe('a key that should operate a cylinder', () => {
  it('may have too few cuts, or a blank that does not enter', () => {
    const cylinders = [{ id: 'D1', chambers: pinned('13579'), keyway: 'K2' }];
    const short = { ...keyOf('AA1', '13579'), cuts: 4, keyway: 'K2' };
    expect(audit({ keys: [short], cylinders, intended: [[0]] }).findings).toEqual([
      { code: 'too-few-cuts', key: 'AA1', cylinder: 'D1', cuts: 4, chamber: 5 },
    ]);
    const other = { ...keyOf('AA1', '13579'), keyway: 'K1' };
    expect(audit({ keys: [other], cylinders, intended: [[0]] }).findings).toEqual([
      { code: 'wrong-keyway', key: 'AA1', cylinder: 'D1', found: 'K1', expected: 'K2' },
    ]);
  });
});

describe('the control line of a core', () => {
  // total 23 and addition 10 at 0.0125 in: published
  const core = plainSpec({
    positions: 5,
    depths: 10,
    increment: 0.0125,
    macs: 9,
    step: 2,
    core: { total: 23, addition: 10 },
  });
  const cuts = (code: string) => cutsOf(core, code);
  const chambers = pinnedFor(core, [cuts('02468')]);
  const withControl = (code: string, over: object = {}) =>
    audit({
      spec: core,
      keys: [{ symbol: 'CTR', bitting: cuts(code), control: true }],
      cylinders: [{ id: 'C1', chambers, control: cuts('13579') }],
      intended: [[0]],
      ...over,
    }).findings;

  it('is worked by its own key, and says at which chamber another fails', () => {
    expect(withControl('13579')).toEqual([]);
    expect(withControl('13479')).toContainEqual({
      code: 'control-locked-out',
      key: 'CTR',
      cylinder: 'C1',
      chamber: 3,
    });
    expect(withControl('23579')).toContainEqual({
      code: 'control-locked-out',
      key: 'CTR',
      cylinder: 'C1',
      chamber: 1,
    });
  });

  it('is not what a control key marked for the core works if it turns the plug instead', () => {
    const turns = { code: 'interchange', key: 'CTR', cylinder: 'C1' };
    // 02468 is what the core is pinned for, 13579 its control cuts
    const found = withControl('02468');
    expect(found).toContainEqual(turns);
    expect(found).toContainEqual({ code: 'control-locked-out', key: 'CTR', cylinder: 'C1', chamber: 1 });
    const bare = withControl('02468', { cylinders: [{ id: 'C1', chambers }] });
    expect(bare).toContainEqual(turns);
    expect(bare).toContainEqual({ code: 'control-missing', key: 'CTR', cylinder: 'C1' });
    // where the control cuts turn the plug as well, that is the core's fault and said of it
    const both = withControl('02468', { cylinders: [{ id: 'C1', chambers, control: cuts('02468') }] });
    expect(both.map(({ code }) => code)).not.toContain('interchange');
    expect(both).toContainEqual({ code: 'control-is-incidental', cylinder: 'C1' });
  });

  it('passes over empty chambers, and counts a blank that is too short', () => {
    const open = [EVERY, ...chambers.slice(1)];
    const cylinders = [{ id: 'C1', chambers: open, control: cuts('13579') }];
    expect(withControl('03579', { cylinders })).toEqual([]);
    expect(withControl('03479', { cylinders })).toContainEqual({
      code: 'control-locked-out',
      key: 'CTR',
      cylinder: 'C1',
      chamber: 3,
    });
    const keys = [{ symbol: 'CTR', bitting: cuts('13579'), control: true, cuts: 4 }];
    expect(withControl('13579', { keys })).toContainEqual({
      code: 'control-locked-out',
      key: 'CTR',
      cylinder: 'C1',
      chamber: 5,
    });
  });

  it('leaves too little room where control and addition come near the total', () => {
    const narrow = { ...core, core: { total: 14, addition: 5 } };
    // chamber 1: 9 + 5 = 14, nothing on top; chamber 5: 3 + 5 − 8 = 0 of build-up
    expect(
      audit({
        spec: narrow,
        cylinders: [{ id: 'C1', chambers, control: cuts('93573') }],
        intended: [[]],
      }).findings,
    ).toEqual([
      { code: 'stack-too-tall', cylinder: 'C1', chamber: 1 },
      { code: 'thin-build-up', cylinder: 'C1', chamber: 5, steps: 0, step: 2 },
    ]);
  });
});
