import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { depthSetOf, EVERY } from '../../src/keying/depthSet.ts';
import {
  auditSystem,
  incidentalBittings,
  pinnedFor,
  type AuditInput,
  type SystemFinding,
} from '../../src/keying/index.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { incidentalCounts, naiveAudit, turningKeys } from '../support/naiveAudit.ts';
import { auditInputArbitrary, cutsOf, plainSpec } from '../support/systems.ts';

const spec = plainSpec({ positions: 4, depths: 10, increment: 0.015, macs: 7 });
const audit = (input: Omit<AuditInput, 'spec'>, cap?: number) =>
  runToEnd(auditSystem({ spec, ...input }, cap === undefined ? {} : { cap }));
const keyOf = (symbol: string, code: string) => ({ symbol, bitting: cutsOf(spec, code) });

/** A finding in the words of the naive audit. */
function pairOf(finding: SystemFinding): string {
  switch (finding.code) {
    case 'interchange':
    case 'control-operates':
    case 'control-missing':
      return `${finding.key} ${finding.cylinder}`;
    case 'wrong-keyway':
      return `${finding.key} ${finding.cylinder} ${finding.found} ${finding.expected}`;
    case 'lock-out':
      return `${finding.key} ${finding.cylinder} ${finding.chamber} ${finding.cut} ${finding.shears.join('/')}`;
    case 'too-few-cuts':
      return `${finding.key} ${finding.cylinder} ${finding.chamber} ${finding.cuts}`;
    case 'near-interchange':
      return `${finding.key} ${finding.cylinder} ${finding.chamber} ${finding.thousandths.toFixed(1)}`;
    case 'control-locked-out':
      return `${finding.key} ${finding.cylinder} ${finding.chamber}`;
    case 'thin-master-pin':
    case 'thin-build-up':
      return `${finding.cylinder} ${finding.chamber} ${finding.steps} ${finding.step}`;
    case 'stack-too-tall':
      return `${finding.cylinder} ${finding.chamber}`;
    case 'control-is-incidental':
    case 'core-without-control':
      return finding.cylinder;
    case 'key-missing':
      return `${finding.symbol} ${finding.cylinder}`;
    case 'unusable-bitting':
      return `${finding.key} ${[...new Set(finding.reasons.map((reason) => reason.code))].join('/')}`;
    case 'bitting-reissued':
      return finding.key;
    case 'same-bitting':
      return `${finding.key} ${finding.other}`;
    case 'parent-missing':
      return `${finding.key} ${finding.parent}`;
  }
}

describe('the audit', () => {
  it.each([
    [false, 'bow-to-tip'],
    [true, 'bow-to-tip'],
    [false, 'tip-to-bow'],
    [true, 'tip-to-bow'],
  ] as const)('finds what a plain double loop finds, cores: %s, read %s', (core, order) => {
    fc.assert(
      fc.property(auditInputArbitrary(core, order, true), fc.nat({ max: 3 }), (input, cap) => {
        const report = runToEnd(auditSystem(input, { cap: Infinity }));
        const found: Record<string, string[]> = {};
        for (const finding of report.findings) (found[finding.code] ??= []).push(pairOf(finding));
        const expected = naiveAudit(input);
        for (const list of [...Object.values(found), ...Object.values(expected)]) list.sort();
        expect(found).toEqual(expected);
        expect(report.counts).toEqual(
          Object.fromEntries(Object.entries(expected).map(([code, list]) => [code, list.length])),
        );
        expect(report.complete).toBe(true);
        // Counted without being listed, the totals are the same.
        const few = runToEnd(auditSystem(input, { cap }));
        expect(few.counts).toEqual(report.counts);
        for (const [code, count] of Object.entries(few.counts))
          expect(few.findings.filter((f) => f.code === code)).toHaveLength(Math.min(cap, count));
        expect(few.perCylinder).toEqual(report.perCylinder);
        const turning = turningKeys(input);
        expect(few.perCylinder.map(({ keys }) => keys)).toEqual(turning.map((keys) => keys.length));
        expect(few.perCylinder.map(({ incidental }) => incidental)).toEqual(incidentalCounts(input, turning));
      }),
      { numRuns: 400 },
    );
  });

  it('names the key, the cylinder and the chamber of a lock-out', () => {
    const report = audit({
      keys: [keyOf('AA1', '2468')],
      cylinders: [{ id: 'D1', symbol: 'AA1', chambers: [0, 4, 2, 8].map((d) => depthSetOf([d, 2])) }],
      intended: [[0]],
    });
    expect(report.findings).toContainEqual({
      code: 'lock-out',
      key: 'AA1',
      cylinder: 'D1',
      chamber: 3,
      cut: '6',
      shears: ['2'],
    });
    expect(report.counts['lock-out']).toBe(1);
  });

  it('calls a miss near only below 0.020 in: one step of 0.015 in is, two are not', () => {
    const near = (code: string) =>
      audit({
        keys: [keyOf('AA1', code)],
        cylinders: [{ id: 'D1', chambers: pinnedFor(spec, [cutsOf(spec, '2468')]) }],
        intended: [[]],
      }).findings;
    expect(near('2467')).toEqual([
      { code: 'near-interchange', key: 'AA1', cylinder: 'D1', chamber: 4, thousandths: 15 },
    ]);
    expect(near('2466')).toEqual([]);
    expect(near('2457')).toEqual([]);
  });

  it('counts every finding and lists as many as asked for', () => {
    const keys = Array.from({ length: 30 }, (_, i) => keyOf(`AA${i + 1}`, String(i).padStart(4, '0')));
    const open = { chambers: [EVERY, EVERY, EVERY, EVERY] };
    const report = audit({ keys, cylinders: [{ id: 'D1', ...open }], intended: [[0]] }, 5);
    expect(report.counts.interchange).toBe(29);
    expect(report.findings.filter(({ code }) => code === 'interchange')).toHaveLength(5);
    expect(report.complete).toBe(false);
    expect(report.pairs).toBe(30);
  });

  it('counts a lost key, and not a free bitting', () => {
    const chambers = pinnedFor(spec, [cutsOf(spec, '2468')]);
    const codes = (status: 'retired' | 'free') =>
      audit({
        keys: [{ ...keyOf('AA1', '2468'), status }],
        cylinders: [{ id: 'D1', chambers }],
        intended: [[]],
      }).counts;
    expect(codes('retired')).toEqual({ interchange: 1 });
    expect(codes('free')).toEqual({});
  });

  it('misses the key of a symbol, and knows the coding of cross-keyed ones', () => {
    const symbols = ['AA2', 'XAA1', 'X1X', 'AA1 (ENG)', 'XAA9', 'X2X (operated by AA1)'];
    const report = audit({
      keys: [keyOf('AA1', '2468')],
      cylinders: symbols.map((symbol) => ({
        id: symbol,
        symbol,
        chambers: pinnedFor(spec, [cutsOf(spec, '2468')]),
      })),
      intended: symbols.map(() => [0]),
    });
    expect(report.findings).toEqual([
      { code: 'key-missing', symbol: 'AA2', cylinder: 'AA2' },
      { code: 'key-missing', symbol: 'XAA9', cylinder: 'XAA9' },
    ]);
  });

  it('misses the key of a cylinder that is keyed to a free or a lost bitting', () => {
    for (const status of ['free', 'void', 'retired'] as const)
      expect(
        audit({
          keys: [{ ...keyOf('AA1', '2468'), status }],
          cylinders: [{ id: 'D1', symbol: 'AA1', chambers: pinnedFor(spec, [cutsOf(spec, '1357')]) }],
          intended: [[]],
        }).counts['key-missing'],
      ).toBe(1);
  });

  it('finds a lost control key that still pulls the core, and a core without control cuts', () => {
    const core = plainSpec({
      positions: 4,
      depths: 10,
      increment: 0.0125,
      macs: 7,
      core: { total: 23, addition: 10 },
    });
    const chambers = pinnedFor(core, [cutsOf(core, '2468')]);
    const run = (status: 'issued' | 'retired', control?: ReturnType<typeof cutsOf>) =>
      runToEnd(
        auditSystem({
          spec: core,
          keys: [{ symbol: 'CTL', bitting: cutsOf(core, '3535'), control: true, status }],
          cylinders: [{ id: 'D1', chambers, ...(control && { control }) }],
          intended: [[]],
        }),
      ).counts;
    expect(run('retired', cutsOf(core, '3535'))).toEqual({ 'control-operates': 1 });
    expect(run('issued', cutsOf(core, '3535'))).toEqual({});
    expect(run('issued')).toEqual({ 'core-without-control': 1 });
  });

  it('finds one bitting twice across keyways that meet, and a lost one issued again', () => {
    const counts = (...rows: { symbol: string; keyway?: string; cuts?: number; status?: 'retired' }[]) =>
      audit({
        keys: rows.map((row) => ({ ...row, bitting: cutsOf(spec, '2468') })),
        cylinders: [],
        intended: [],
      }).counts;
    expect(counts({ symbol: 'AA1' }, { symbol: 'AA2', keyway: 'K1' })).toEqual({ 'same-bitting': 1 });
    expect(counts({ symbol: 'AA1' }, { symbol: 'AA2', cuts: 3 })).toEqual({ 'same-bitting': 1 });
    expect(counts({ symbol: 'AA1', keyway: 'k1' }, { symbol: 'AA2', keyway: 'K1' })).toEqual({
      'same-bitting': 1,
    });
    expect(counts({ symbol: 'AA1', keyway: 'K1' }, { symbol: 'AA2', keyway: 'K2' })).toEqual({});
    expect(counts({ symbol: 'AA1', status: 'retired' }, { symbol: 'AA1' })).toEqual({
      'bitting-reissued': 1,
    });
    expect(counts({ symbol: 'AA1' }, { symbol: 'AA1' })).toEqual({});
  });

  it('takes keyways for one in either case', () => {
    const report = audit({
      keys: [{ ...keyOf('AA1', '2468'), keyway: 'k1 ' }],
      cylinders: [{ id: 'D1', chambers: pinnedFor(spec, [cutsOf(spec, '2468')]), keyway: 'K1' }],
      intended: [[0]],
    });
    expect(report.findings).toEqual([]);
  });

  it('misses the key above', () => {
    const keys = [{ ...keyOf('AA1', '2468'), parent: 'AA' }];
    expect(audit({ keys, cylinders: [], intended: [] }).findings).toEqual([
      { code: 'parent-missing', key: 'AA1', parent: 'AA' },
    ]);
  });

  it('gives when stopped what a whole audit says of the cylinders until there, and says how many are left', () => {
    // every cylinder is opened by a key that it should not be: two steps of 256 of them, and a rest
    const keys = [keyOf('AA1', '2468')];
    const chambers = pinnedFor(spec, [cutsOf(spec, '2468')]);
    const cylinders = Array.from({ length: 600 }, (_, c) => ({ id: `D${c}`, chambers }));
    const input = { spec, keys, cylinders, intended: cylinders.map(() => []) };
    const run = (turns: number) => {
      let asked = 0;
      return runToEnd(auditSystem(input, { stopped: () => ++asked > turns }));
    };
    expect(run(0)).toMatchObject({ cylinders: 0, unaudited: 600, pairs: 0, counts: {}, perCylinder: [] });
    const first = { ...input, cylinders: cylinders.slice(0, 256), intended: input.intended.slice(0, 256) };
    expect(run(1)).toEqual({ ...runToEnd(auditSystem(first)), unaudited: 344 });
    expect(run(1).counts.interchange).toBe(256);
    expect(run(3)).toEqual(runToEnd(auditSystem(input)));
  });

  it('counts incidental bittings as an enumeration does', () => {
    fc.assert(
      fc.property(auditInputArbitrary(false), (input) => {
        const report = runToEnd(auditSystem(input, { near: false }));
        // An incidental bitting is anybody's that no listed key has, and listed keys that don't enter aren't taken off.
        const bittings = input.keys
          .filter((k) => k.status !== 'free' && k.cuts === undefined && k.keyway === undefined)
          .map((k) => k.bitting);
        const plain = { ...input, keys: input.keys.filter((k) => bittings.includes(k.bitting)) };
        const only = runToEnd(auditSystem({ ...plain, intended: plain.cylinders.map(() => []) }));
        plain.cylinders.forEach(({ chambers }, c) => {
          expect(only.perCylinder[c]!.incidental).toBe(
            [...incidentalBittings(input.spec, chambers, bittings)].length,
          );
          expect(report.perCylinder[c]!.cuttable).toBe(
            [...incidentalBittings(input.spec, chambers, [])].length,
          );
        });
      }),
      { numRuns: 100 },
    );
  });
});

describe('an audit on its way', () => {
  const cylinders = Array.from({ length: 300 }, (_, i) => ({
    id: `D${i}`,
    chambers: pinnedFor(spec, [cutsOf(spec, '2468')]),
  }));
  const input: AuditInput = {
    spec,
    keys: [keyOf('AA1', '2468')],
    cylinders,
    intended: cylinders.map(() => [0]),
  };

  it('tells how far it is, and at the end that it is there', () => {
    expect([...auditSystem(input)]).toEqual(
      [0, 256, 300].map((done) => ({ stage: 'auditing', done, total: 300 })),
    );
    expect(runToEnd(auditSystem(input))).not.toHaveProperty('unaudited');
    const stopped = [...auditSystem(input, { stopped: () => true })];
    expect(stopped).toEqual([{ stage: 'auditing', done: 0, total: 300 }]);
  });

  it('gives what bars a bitting, and no warnings beside it', () => {
    // 4 and 9 are farther apart than MACS allows; that it goes deeper all along is only a warning
    const narrow = plainSpec({ positions: 4, depths: 10, increment: 0.015, macs: 3 });
    const keys = [keyOf('AA1', '0149'), keyOf('AA2', '0123')];
    const { findings } = runToEnd(auditSystem({ spec: narrow, keys, cylinders: [], intended: [] }));
    expect(findings).toMatchObject([{ code: 'unusable-bitting', key: 'AA1', reasons: [{ code: 'macs' }] }]);
  });
});
