import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { packBitting } from '../../src/keying/bitting.ts';
import { checkBittings } from '../../src/keying/bittingList.ts';
import { pinnedFor } from '../../src/keying/cylinder.ts';
import { NONE } from '../../src/keying/depthSet.ts';
import { severityOf, type BittingFinding } from '../../src/keying/findings.ts';
import { checkList, type KnownKeys } from '../../src/keying/importCheck.ts';
import { DEFAULT_RULES, type RuleName } from '../../src/keying/rules.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { inches } from '../../src/keying/units.ts';
import { keysArbitrary } from '../support/keyingArbitraries.ts';
import { key, starter } from '../support/keys.ts';

const six = starter('S-018-6');
const sorted = (findings: readonly BittingFinding[]): string[] =>
  findings.map((f) => JSON.stringify(f)).sort();

describe('checkList', () => {
  const switches = fc.record({
    macs: fc.boolean(),
    fewDepths: fc.boolean(),
    equalRun: fc.boolean(),
    stair: fc.boolean(),
    duplicate: fc.boolean(),
    alreadyUsed: fc.boolean(),
    equalsMaster: fc.boolean(),
    parity: fc.boolean(),
    operatesExisting: fc.boolean(),
    nearMiss: fc.boolean(),
    nearMissWithin: fc.constantFrom(inches(0.005), inches(0.02), inches(0.06)),
  });

  it('finds what checking every row against everything finds', () => {
    fc.assert(
      fc.property(
        keysArbitrary(16),
        fc.nat(8),
        switches,
        fc.boolean(),
        ({ spec, bittings }, split, on, shared) => {
          const rules = { ...DEFAULT_RULES, ...on };
          const few = bittings.map((cuts, i) =>
            i % 2 === 0
              ? cuts
              : (bittings[i - 1]!.map((c, k) =>
                  k === i % cuts.length ? (c + 1) % spec.depths.length : c,
                ) as unknown as typeof cuts),
          );
          // a key of the list may be one that the workbook has, under the same symbol
          const list = few.map((bitting, i) => ({
            symbol: shared && i < 4 ? `K${i + 1}` : `L${i + 1}`,
            bitting,
          }));
          const keys = few.slice(0, split).map((bitting, i) => ({
            symbol: `K${i + 1}`,
            bitting,
            status: 'issued' as const,
            master: i === 1,
          }));
          const cylinders = keys.map((k, i) => ({
            id: `C ${k.symbol}`,
            symbol: k.symbol,
            chambers: pinnedFor(spec, [k.bitting]).map((set, c) => (i === 3 && c === 0 ? NONE : set)),
          }));
          const master = keys[0];
          const known: KnownKeys = { keys, cylinders, ...(master && { master }) };
          const given = split === 0 ? {} : { known };
          const report = runToEnd(checkList({ spec, list, rules, ...given }));
          const all = checkBittings(
            spec,
            list,
            rules,
            split === 0
              ? {}
              : {
                  used: new Map(keys.map((k) => [packBitting(spec, k.bitting), k] as const)),
                  masters: keys.filter((k) => k.master),
                  ...(master && { master }),
                  cylinders,
                  keys,
                },
          );
          // a cylinder's own key is meant to operate it
          const wanted = all.map((findings, place) =>
            findings.filter(
              (f) => f.code !== 'operates-existing' || f.cylinder !== `C ${list[place]!.symbol}`,
            ),
          );
          wanted.forEach((findings, place) =>
            expect(sorted(report.findings[place] ?? [])).toEqual(sorted(findings)),
          );
          // the figures, counted plainly
          const faulty = wanted.filter((row) => row.some((f) => severityOf(f) === 'fault')).length;
          const good = wanted.filter((row) => row.length === 0).length;
          expect(report).toMatchObject({ good, faulty, warned: list.length - good - faulty });
          const places = new Map<string, number>();
          for (const row of wanted)
            for (const code of new Set(row.map((f) => f.code))) places.set(code, (places.get(code) ?? 0) + 1);
          expect(report.reasons).toEqual(
            [...places]
              .map(([code, n]) => ({ code, places: n }))
              .sort((a, b) => b.places - a.places || (a.code < b.code ? -1 : 1)),
          );
          const without: RuleName[] =
            split === 0 ? ['alreadyUsed', 'equalsMaster', 'parity', 'operatesExisting'] : [];
          expect(report.notChecked).toEqual(without.filter((rule) => rules[rule]));
        },
      ),
      { numRuns: 200 },
    );
  });

  it('lacks a top master where the workbook names none', () => {
    const known: KnownKeys = { keys: [], cylinders: [] };
    const report = runToEnd(checkList({ spec: six, list: [], rules: DEFAULT_RULES, known }));
    expect(report.notChecked).toEqual(['parity']);
  });

  it('tells how far it is', () => {
    const row = { symbol: 'AA1', bitting: key(six, '274153') };
    const list = Array.from({ length: 4001 }, () => row);
    const cylinders = Array.from({ length: 101 }, (_, i) => ({
      id: `C${i}`,
      symbol: 'AA1',
      chambers: pinnedFor(six, [row.bitting]),
    }));
    const known: KnownKeys = { keys: [], cylinders };
    const told = (stage: string) => [0, 4000].map((done) => ({ stage, done, total: 4001 }));
    expect([...checkList({ spec: six, list, rules: { ...DEFAULT_RULES, duplicate: false }, known })]).toEqual(
      [
        ...told('Checking codes'),
        ...told('Comparing codes'),
        ...told('Comparing with the workbook’s keys'),
        ...[0, 100].map((done) => ({ stage: 'Trying cylinders', done, total: 101 })),
      ],
    );
  });

  it('counts places, not findings', () => {
    const list = ['274153', '090909', '190190', '274153', '241536'].map((code, i) => ({
      symbol: `row ${i + 1}`,
      bitting: key(six, code),
    }));
    const report = runToEnd(checkList({ spec: six, list, rules: DEFAULT_RULES }));
    expect(report).toMatchObject({ good: 1, warned: 0, faulty: 4 });
    expect(report.reasons).toEqual(
      [
        { code: 'duplicate', places: 2 },
        { code: 'few-depths', places: 1 },
        { code: 'macs', places: 2 },
      ].sort((a, b) => b.places - a.places || a.code.localeCompare(b.code)),
    );
    expect(report.notChecked).toEqual(['alreadyUsed', 'equalsMaster', 'parity', 'operatesExisting']);
  });

  it('does not hold the key of a cylinder against it', () => {
    const bitting = key(six, '274153');
    const cylinders = [{ id: '101', symbol: 'AA1', chambers: pinnedFor(six, [bitting]) }];
    const known: KnownKeys = { keys: [], cylinders };
    const check = (symbol: string) =>
      runToEnd(checkList({ spec: six, list: [{ symbol, bitting }], rules: DEFAULT_RULES, known }));
    expect(check('AA1').findings).toEqual([undefined]);
    expect(check('AA2').findings[0]).toEqual([{ code: 'operates-existing', cylinder: '101' }]);
  });
});
