import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { packBitting } from '../../src/keying/bitting.ts';
import { checkBittings } from '../../src/keying/bittingList.ts';
import { pinnedFor } from '../../src/keying/cylinder.ts';
import type { BittingFinding } from '../../src/keying/findings.ts';
import { checkList, type KnownKeys } from '../../src/keying/importCheck.ts';
import { DEFAULT_RULES } from '../../src/keying/rules.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { keysArbitrary } from '../support/keyingArbitraries.ts';
import { key, starter } from '../support/keys.ts';

const six = starter('S-018-6');
const sorted = (findings: readonly BittingFinding[]): string[] =>
  findings.map((f) => JSON.stringify(f)).sort();

describe('checkList', () => {
  it('finds what checking every row against everything finds', () => {
    fc.assert(
      fc.property(keysArbitrary(16), fc.nat(8), ({ spec, bittings }, split) => {
        const few = bittings.map((cuts, i) =>
          i % 2 === 0
            ? cuts
            : (bittings[i - 1]!.map((c, k) =>
                k === i % cuts.length ? (c + 1) % spec.depths.length : c,
              ) as unknown as typeof cuts),
        );
        const list = few.map((bitting, i) => ({ symbol: `L${i + 1}`, bitting }));
        const keys = few.slice(0, split).map((bitting, i) => ({
          symbol: `K${i + 1}`,
          bitting,
          status: 'issued' as const,
          master: i === 1,
        }));
        const cylinders = keys.map((k) => ({
          id: `C ${k.symbol}`,
          symbol: k.symbol,
          chambers: pinnedFor(spec, [k.bitting]),
        }));
        const master = keys[0];
        const known: KnownKeys = { keys, cylinders, ...(master && { master }) };
        const report = runToEnd(checkList({ spec, list, rules: DEFAULT_RULES, known }));
        const wanted = checkBittings(spec, list, DEFAULT_RULES, {
          used: new Map(keys.map((k) => [packBitting(spec, k.bitting), k] as const)),
          masters: keys.filter((k) => k.master),
          ...(master && { master }),
          cylinders,
          keys,
        });
        wanted.forEach((findings, place) =>
          expect(sorted(report.findings[place] ?? [])).toEqual(sorted(findings)),
        );
      }),
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
