/** What is remembered of an audit and what is told from it, against plain set differences over the same systems. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { auditSystem, type AuditReport } from '../../src/keying/audit.ts';
import { compareAudits, compareMetal, noteAudit, noteFinding } from '../../src/keying/auditNotes.ts';
import type { SystemFinding } from '../../src/keying/findings.ts';
import { secretsOf } from '../../src/keying/secrecy.ts';
import { runToEnd, type CylinderRecord, type KeyRecord } from '../../src/keying/system.ts';
import type { AuditInput, AuditKey } from '../../src/keying/auditInput.ts';
import { auditInputArbitrary } from '../support/systems.ts';

const NONE = secretsOf([]);

interface Given {
  readonly input: AuditInput;
  readonly system: { readonly keys: readonly KeyRecord[]; readonly cylinders: readonly CylinderRecord[] };
}

/** A random system as the audit and as the workbook see it; `name` renames its keys and cylinders. */
function given(input: AuditInput, name: (kind: 'key' | 'cylinder', i: number) => string): Given {
  const keys = input.keys.map((key, i): AuditKey => ({
    symbol: name('key', i),
    bitting: key.bitting,
    ...(key.status && { status: key.status }),
  }));
  const cylinders = input.cylinders.map((c, i) => ({ ...c, id: name('cylinder', i) }));
  return {
    input: { ...input, keys, cylinders },
    system: {
      keys: keys.map(
        (key) => ({ ...key, level: 'CK', status: key.status ?? 'issued' }) as unknown as KeyRecord,
      ),
      cylinders: cylinders.map((c) => ({ ...c, symbol: c.symbol ?? '' }) as unknown as CylinderRecord),
    },
  };
}

const plain = (kind: 'key' | 'cylinder', i: number): string => `${kind === 'key' ? 'K' : 'C'}${i}`;
/** Names of one set that another lacks. */
const without = (names: ReadonlySet<string>, others: ReadonlySet<string>): string[] =>
  [...names].filter((name) => !others.has(name)).sort();
const audit = ({ input }: Given) => runToEnd(auditSystem(input));

/** Every string anywhere in a value. */
const stringsIn = (value: unknown): string[] =>
  typeof value === 'string'
    ? [value]
    : typeof value === 'object' && value !== null
      ? Object.entries(value).flatMap(([key, inside]) => [key, ...stringsIn(inside)])
      : [];

describe('what is remembered of an audit', () => {
  it('holds no bitting, however the names and the system are made', () => {
    const ways = ['', '-', ' ', '.'];
    fc.assert(
      fc.property(
        auditInputArbitrary(true),
        fc.array(fc.constantFrom(...ways), { minLength: 1, maxLength: 5 }),
        fc.infiniteStream(fc.integer({ min: 0, max: 3 })),
        (input, joins, choices) => {
          const codes = [
            ...input.keys.map((key) => key.bitting),
            ...input.cylinders.flatMap((c) => (c.control ? [c.control] : [])),
          ].map((bitting) => bitting.map((depth) => input.spec.depths[depth]!.symbol).join(''));
          // some names are a bitting, or hold one between other words
          const name = (kind: 'key' | 'cylinder', i: number): string => {
            const { value } = choices.next();
            const code = [...codes[i % codes.length]!].join(joins[i % joins.length]);
            return value === 0 ? code : value === 1 ? `old ${code} x` : plain(kind, i);
          };
          const all = given(input, name);
          const notes = noteAudit(all.system, audit(all), secretsOf(codes));
          for (const text of stringsIn(JSON.parse(JSON.stringify(notes)))) {
            const bare = text.replace(/[^0-9A-Za-z]/g, '');
            expect(codes.filter((code) => bare.includes(code))).toEqual([]);
          }
          // and nothing but names, kinds and numbers of rows
          expect(Object.keys(notes).filter((key) => !FIELDS.has(key))).toEqual([]);
        },
      ),
    );
  });
  const FIELDS = new Set(['keys', 'cylinders', 'counts', 'findings', 'names', 'withheld']);

  it('says nothing of a cut in any finding', () => {
    // two lock-outs that differ in the cuts alone are remembered alike
    const out = { code: 'lock-out', key: 'A', cylinder: '1', chamber: 2 } as const;
    expect(noteFinding({ ...out, cut: '4', shears: ['2'] })).toEqual(
      noteFinding({ ...out, cut: '5', shears: ['1', '3'] }),
    );
    const [from, to] = ['1', '9'];
    const reason = { code: 'macs', first: 1, from, to, steps: 8, allowed: 5 } as const;
    expect(noteFinding({ code: 'unusable-bitting', key: 'A', reasons: [reason] })).toEqual([
      'unusable-bitting',
      'A',
      '',
      'macs',
    ]);
  });
});

describe('what changed since the audit before', () => {
  it('is nothing between two audits of the same system', () => {
    fc.assert(
      fc.property(auditInputArbitrary(false), (input) => {
        const one = given(input, plain);
        const report = audit(one);
        const notes = noteAudit(one.system, report, NONE);
        const change = compareAudits(JSON.parse(JSON.stringify(notes)) as typeof notes, notes, report);
        expect(change.counts).toEqual([]);
        expect(change.findings).toEqual({ fresh: [], gone: [], same: report.findings.length });
        expect([change.keys, change.cylinders]).toEqual([
          { added: [], gone: [], changed: [] },
          { added: [], gone: [], changed: [] },
        ]);
        expect(compareMetal(one.system, one.system)).toEqual({ recut: [], repinned: [] });
      }),
    );
  });

  it('is what a set difference of the two gives', () => {
    const pair = fc.tuple(auditInputArbitrary(false), auditInputArbitrary(false));
    fc.assert(
      fc.property(pair, ([first, second]) => {
        const [a, b] = [given(first, plain), given(second, plain)];
        const [before, report] = [audit(a), audit(b)];
        const change = compareAudits(
          noteAudit(a.system, before, NONE),
          noteAudit(b.system, report, NONE),
          report,
        );
        const names = (system: Given['system']) => ({
          keys: new Set(system.keys.filter((k) => k.status !== 'free').map((k) => k.symbol)),
          cylinders: new Set(system.cylinders.map((c) => c.id)),
        });
        const [was, is] = [names(a.system), names(b.system)];
        expect([...change.keys!.added].sort()).toEqual(without(is.keys, was.keys));
        expect([...change.keys!.gone].sort()).toEqual(without(was.keys, is.keys));
        expect([...change.cylinders!.added].sort()).toEqual(without(is.cylinders, was.cylinders));
        expect([...change.cylinders!.gone].sort()).toEqual(without(was.cylinders, is.cylinders));
        const { fresh, gone, same } = change.findings!;
        expect(fresh.length + same).toBe(report.findings.length);
        expect(gone.length + same).toBe(before.findings.length);
        const known = new Set(before.findings.map((f) => noteFinding(f).join('|')));
        for (const [i, finding] of report.findings.entries())
          if (!fresh.includes(i)) expect(known.has(noteFinding(finding).join('|'))).toBe(true);
        for (const { code, before: from, now } of change.counts)
          expect([from, now]).toEqual([before.counts[code] ?? 0, report.counts[code] ?? 0]);
      }),
    );
  });

  it('tells a new bitting, other pins, another keyset and another status apart', () => {
    const key = (symbol: string, cut: number, status: KeyRecord['status'] = 'issued') =>
      ({ symbol, level: 'CK', bitting: [cut, 1, 1, 1], status }) as unknown as KeyRecord;
    const cylinder = (id: string, symbol: string, set: number) =>
      ({ id, symbol, chambers: [set, 2, 2, 2] }) as unknown as CylinderRecord;
    const before = {
      keys: [key('AA1', 0), key('AA2', 1), key('AA3', 2)],
      cylinders: [cylinder('1', 'AA1', 1), cylinder('2', 'AA2', 2), cylinder('3', 'AA3', 4)],
    };
    const now = {
      keys: [key('aa1', 0), key('AA2', 3), key('AA3', 2, 'retired'), key('AA4', 3, 'free')],
      cylinders: [cylinder('1', 'aa1', 1), cylinder('2', 'AA2', 8), cylinder('3', 'AA4', 4)],
    };
    expect(compareMetal(before, now)).toEqual({ recut: ['AA2'], repinned: ['2'] });
    const report = {
      keys: 0,
      cylinders: 0,
      pairs: 0,
      counts: {},
      findings: [],
      complete: true,
      perCylinder: [],
    };
    const change = compareAudits(noteAudit(before, report, NONE), noteAudit(now, report, NONE), report);
    expect(change.keys).toEqual({
      added: [],
      gone: [],
      changed: [{ name: 'AA3', from: 'issued', to: 'retired' }],
    });
    expect(change.cylinders).toEqual({
      added: [],
      gone: [],
      changed: [{ name: '3', from: 'AA3', to: 'AA4' }],
    });
  });
});

describe('by hand', () => {
  const key = (symbol: string, bitting: readonly number[], status: KeyRecord['status'] = 'issued') =>
    ({ symbol, level: 'CK', bitting, status }) as unknown as KeyRecord;
  const cylinder = (id: string, symbol = '', control?: readonly number[]) =>
    ({ id, symbol, chambers: [1, 2, 2, 2], ...(control && { control }) }) as unknown as CylinderRecord;
  const empty: AuditReport = {
    keys: 0,
    cylinders: 0,
    pairs: 0,
    counts: {},
    findings: [],
    complete: true,
    perCylinder: [],
  };
  const inGets = (k: string, c: string): SystemFinding => ({ code: 'interchange', key: k, cylinder: c });
  const NOBODY = { keys: [], cylinders: [] };

  it('an audit’s figures are remembered, and a key’s statuses in one order', () => {
    const system = {
      keys: [key('A', [1], 'retired'), key('a ', [2]), key('B', [3]), key('C', [4], 'free')],
      cylinders: [cylinder('1', 'A')],
    };
    const report = {
      ...empty,
      keys: 3,
      cylinders: 1,
      counts: { interchange: 1 },
      findings: [inGets('B', '1')],
    };
    expect(noteAudit(system, report, NONE)).toEqual({
      keys: 3,
      cylinders: 1,
      counts: { interchange: 1 },
      names: {
        keys: [
          ['A', 'issued, retired'],
          ['B', 'issued'],
        ],
        cylinders: [['1', 'A']],
      },
      findings: [['interchange', 'B', '1', '']],
      withheld: 0,
    });
  });

  it('a finding is its code, who and where, and what it is about', () => {
    const about: [SystemFinding, readonly string[]][] = [
      [inGets('A', '1'), ['interchange', 'A', '1', '']],
      [
        { code: 'thin-master-pin', cylinder: '1', chamber: 3, steps: 1, step: 2 },
        ['thin-master-pin', '', '1', '3'],
      ],
      [{ code: 'same-bitting', key: 'A', other: 'B' }, ['same-bitting', 'A', '', 'B']],
      [{ code: 'parent-missing', key: 'A', parent: 'M' }, ['parent-missing', 'A', '', 'M']],
      [{ code: 'key-missing', symbol: 'A', cylinder: '1' }, ['key-missing', 'A', '1', '']],
      [
        {
          code: 'unusable-bitting',
          key: 'A',
          reasons: [{ code: 'few-depths', found: 1, least: 2 }, { code: 'pulls-out-turned' }],
        },
        ['unusable-bitting', 'A', '', 'few-depths pulls-out-turned'],
      ],
    ];
    for (const [finding, note] of about) expect(noteFinding(finding)).toEqual(note);
  });

  it('a name that holds a bitting is remembered of no audit and counted, and no finding about it is new', () => {
    const secrets = secretsOf(['2741']);
    const system = {
      keys: [key('A', [1]), key('old 27-41', [2]), key('2741 b', [2])],
      cylinders: [cylinder('1'), cylinder('2 7 4 1', 'A'), cylinder('3', '2741')],
    };
    const findings = [inGets('A', '1'), inGets('old 27-41', '1'), inGets('A', '2 7 4 1')];
    const notes = noteAudit(system, { ...empty, findings }, secrets);
    expect(notes.names).toEqual({ keys: [['A', 'issued']], cylinders: [['1', '']] });
    expect(notes.findings).toEqual([['interchange', 'A', '1', '']]);
    expect(notes.withheld).toBe(4);
    const before = noteAudit(system, empty, secrets);
    expect(compareAudits(before, notes, { findings }).findings).toEqual({ fresh: [0], gone: [], same: 0 });
  });

  it('lists are left out where they are too long, or where the audit’s own was cut short', () => {
    const many = (n: number) => Array.from({ length: n }, (_, i) => key(`K${i}`, [1]));
    const doors = [cylinder('1'), cylinder('2')];
    const names = (keys: number) =>
      noteAudit({ keys: many(keys), cylinders: doors }, empty, NONE).names?.keys.length;
    expect([names(2998), names(2999)]).toEqual([2998, undefined]);
    const findings = (n: number, complete = true) => {
      const list = Array.from({ length: n }, (_, i) => inGets(`K${i}`, '1'));
      return noteAudit(NOBODY, { ...empty, findings: list, complete }, NONE).findings?.length;
    };
    expect([findings(500), findings(501), findings(1, false)]).toEqual([500, undefined, undefined]);
  });

  it('lists are compared where both are whole, figures always', () => {
    const whole = { ...noteAudit(NOBODY, empty, NONE), counts: { interchange: 2, 'lock-out': 1 } };
    const cut = { keys: 0, cylinders: 0, withheld: 0, counts: { interchange: 2, toString: 3 } };
    expect(compareAudits(whole, cut, empty)).toStrictEqual({
      counts: [
        { code: 'lock-out', before: 1, now: 0 },
        { code: 'toString', before: 0, now: 3 },
      ],
    });
    expect(compareAudits(cut, whole, empty)).toStrictEqual({
      counts: [
        { code: 'toString', before: 3, now: 0 },
        { code: 'lock-out', before: 0, now: 1 },
      ],
    });
    expect(Object.keys(compareAudits(whole, whole, empty)).sort()).toEqual([
      'counts',
      'cylinders',
      'findings',
      'keys',
    ]);
  });

  it('a key is recut where the bittings of its rows are others, whatever their order; free ones are no keys', () => {
    const recut = (before: KeyRecord[], now: KeyRecord[]) =>
      compareMetal({ keys: before, cylinders: [] }, { keys: now, cylinders: [] }).recut;
    const [one, two] = [key('A', [0, 1]), key('a', [1, 0])];
    expect(recut([one, two], [two, one])).toEqual([]);
    expect(recut([one, two], [one])).toEqual(['A']);
    expect(recut([one], [one, key('A', [2, 2], 'free')])).toEqual([]);
    expect(recut([one, key('A', [2, 2], 'free')], [one])).toEqual([]);
    expect(recut([one], [key('A', [0, 1], 'free')])).toEqual([]);
    expect(recut([], [one])).toEqual([]);
    // 0-11 and 1-0 are other cuts than 0-1 and 11-0
    expect(recut([key('A', [0, 11]), key('A', [1, 0])], [key('A', [0, 1]), key('A', [11, 0])])).toEqual([
      'A',
    ]);
  });

  it('a core is re-pinned where its control cuts are others', () => {
    const repinned = (before: CylinderRecord, now: CylinderRecord) =>
      compareMetal({ keys: [], cylinders: [before] }, { keys: [], cylinders: [now] }).repinned;
    expect(repinned(cylinder('1', '', [1]), cylinder('1', '', [2]))).toEqual(['1']);
    expect(repinned(cylinder('1', '', [1]), cylinder('1', '', [1]))).toEqual([]);
    expect(repinned(cylinder('1'), cylinder('1', '', [1]))).toEqual(['1']);
    expect(repinned(cylinder('1'), cylinder('2'))).toEqual([]);
  });
});
