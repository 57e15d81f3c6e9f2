/**
 * A count against the ledger. Source of what it is for: NIST SP 800-53 Rev. 5, PE-3 f (inventory of physical access
 * devices at a set interval) and g (change of keys when lost, or when holders are transferred or leave).
 */
import { describe, expect, it } from 'vitest';
import type { Day } from '../../../src/keying/calendar.ts';
import {
  compareCount,
  expectedAt,
  hooksOf,
  INVENTORY_CONTROL,
  sayDifference,
  whereIs,
} from '../../../src/keying/inventory.ts';
import { parseKeyList } from '../../../src/keying/keyList.ts';
import type { LedgerEntry, LedgerKey } from '../../../src/keying/ledger.ts';
import { replayLedger } from '../../../src/keying/ledgerReplay.ts';

const TODAY = 46_095 as Day;
const KEYS: LedgerKey[] = ['AA1', 'AA2'].map((symbol) => ({
  system: 'Hall',
  symbol,
  level: 'CK',
  status: 'issued',
  copies: 3,
}));
const entry = (rest: Partial<LedgerEntry> & Pick<LedgerEntry, 'event' | 'symbol' | 'copy'>): LedgerEntry => ({
  day: TODAY,
  system: 'Hall',
  ...rest,
});
const state = replayLedger(
  {
    keys: KEYS,
    entries: [
      entry({ event: 'issued', symbol: 'AA1', copy: 1, holder: 'Porter' }),
      entry({ event: 'issued', symbol: 'AA2', copy: 1, holder: 'Porter' }),
      entry({ event: 'issued', symbol: 'AA1', copy: 2, holder: 'Nurse' }),
      entry({ event: 'issued', symbol: 'AA2', copy: 3, holder: 'Nurse' }),
      entry({ event: 'returned', symbol: 'AA2', copy: 3, hook: '12' }),
    ],
  },
  TODAY,
);
const counted = (text: string) => {
  const read = parseKeyList(text);
  if (!read.ok) throw new Error(read.error.map((f) => f.sentence).join());
  return read.value;
};
const atPorter = (text: string) =>
  compareCount(state, 'hall', { kind: 'holder', holder: 'porter' }, counted(text));

describe('a count', () => {
  it('that agrees has no differences, in either case and by any spelling of copies', () => {
    expect(atPorter('aa1/1\nAA2 # 1')).toEqual({ expected: 2, found: 2, differences: [] });
    expect(atPorter('AA1, AA2')).toMatchObject({ found: 2, differences: [] });
  });

  it('tells what is missing, elsewhere, unknown, twice, and without a number', () => {
    const { differences } = atPorter('AA1/2; AA2/9; AA2/1; AA2/1; AA2');
    expect(differences.map((d) => d.kind)).toEqual([
      'missing',
      'elsewhere',
      'unknown',
      'twice',
      'unnumbered',
    ]);
    expect(differences.map(sayDifference).join(' ')).toContain(
      'AA1 / 2 was counted here, but by the ledger it is with Nurse',
    );
    for (const difference of differences) expect(sayDifference(difference)).toMatch(/^[A-Z].*\.$/u);
  });

  it('is by holder, by hook or of the whole cabinet', () => {
    expect(hooksOf(state)).toEqual(['12']);
    expect(expectedAt(state, { kind: 'hook', hook: '12' }).map((c) => [c.symbol, c.copy])).toEqual([
      ['AA2', 3],
    ]);
    expect(expectedAt(state, { kind: 'stock' })).toHaveLength(3);
  });

  it('names the control that it serves', () => {
    expect(INVENTORY_CONTROL).toContain('PE-3');
  });
});

describe('places', () => {
  const keys: LedgerKey[] = ['Hall', 'Yard'].map((system) => ({
    system, symbol: 'AA1', level: 'CK', status: 'issued', copies: 6,
  })); // prettier-ignore
  const other = replayLedger(
    {
      keys,
      entries: [
        ...['10', '9', '9', 'B'].map((hook, i) =>
          entry({ event: 'returned', symbol: 'AA1', copy: i + 1, hook }),
        ),
        entry({ event: 'issued', symbol: 'AA1', copy: 5, holder: 'Porter' }),
        entry({ event: 'returned', symbol: 'AA1', copy: 1, hook: '9', system: 'Yard' }),
        entry({ event: 'issued', symbol: 'AA1', copy: 5, holder: 'Porter', system: 'Yard' }),
        entry({ event: 'issued', symbol: 'AA1', copy: 6, system: 'Yard' }),
      ],
    },
    TODAY,
  );
  const at = (place: Parameters<typeof expectedAt>[1]) =>
    expectedAt(other, place).map((c) => `${c.system} ${c.copy}`);

  it('hold what the ledger has there: in a hand, on a hook, in the cabinet', () => {
    expect(hooksOf(other)).toEqual(['9', '10', 'B']);
    expect(at({ kind: 'hook', hook: ' 9 ' })).toEqual(['Hall 2', 'Hall 3', 'Yard 1']);
    expect(at({ kind: 'holder', holder: 'PORTER' })).toEqual(['Hall 5', 'Yard 5']);
    expect(at({ kind: 'stock' })).toEqual([
      'Hall 1',
      'Hall 2',
      'Hall 3',
      'Hall 4',
      'Hall 6',
      'Yard 1',
      'Yard 2',
      'Yard 3',
      'Yard 4',
    ]);
  });

  it('are counted for one system: another’s keys of that symbol are none of it', () => {
    const count = (text: string) => compareCount(other, 'yard', { kind: 'hook', hook: '9' }, counted(text));
    expect(count('AA1/1')).toEqual({ expected: 1, found: 1, differences: [] });
    expect(count('AA1/2').differences.map((d) => d.kind)).toEqual(['missing', 'elsewhere']);
    expect(count('AA1/7').differences.map((d) => d.kind)).toEqual(['missing', 'unknown']);
    expect(count('AA1 x3')).toMatchObject({
      found: 1,
      differences: [{ kind: 'unnumbered' }, { kind: 'unnumbered' }],
    });
    expect(count('AB1')).toMatchObject({ found: 0 });
  });

  it.each([
    [{ where: 'stock' }, 'in the cabinet'],
    [{ where: 'stock', hook: '7' }, 'in the cabinet, hook 7'],
    [{ where: 'held' }, 'in somebody’s hands'],
    [{ where: 'held', holder: 'Nurse' }, 'with Nurse'],
    [{ where: 'lost' }, 'lost'],
    [{ where: 'lost', holder: 'Nurse' }, 'lost by Nurse'],
    [{ where: 'destroyed' }, 'destroyed'],
  ] as const)('of %j: %s', (of, words) => {
    expect(whereIs({ system: 'Hall', symbol: 'AA1', copy: 1, ...of })).toBe(words);
  });
});

describe('keys as they are typed or scanned', () => {
  it.each([
    ['AA1/2', [{ symbol: 'AA1', copy: 2, count: 1 }]],
    ['AA1 / 2', [{ symbol: 'AA1', copy: 2, count: 1 }]],
    ['AA1 x3', [{ symbol: 'AA1', count: 3 }]],
    ['GGMK', [{ symbol: 'GGMK', count: 1 }]],
    ['A2A4', [{ symbol: 'A2A4', count: 1 }]],
    ['AA9–AA11', ['AA9', 'AA10', 'AA11'].map((symbol) => ({ symbol, count: 1 }))],
    ['1AA-2AA', ['1AA', '2AA'].map((symbol) => ({ symbol, count: 1 }))],
    ['AA1-3', ['AA1', 'AA2', 'AA3'].map((symbol) => ({ symbol, count: 1 }))],
  ])('%s', (text, wanted) => {
    expect(parseKeyList(text)).toEqual({ ok: true, value: wanted });
  });

  it.each(['AA1/0', 'AA1 x0', 'AA5-AA2', 'AA1-AB3', '/3', 'AA1/two'])('%s is refused', (text) => {
    const read = parseKeyList(text);
    expect(read.ok ? [] : read.error.map((f) => f.text)).toEqual([text]);
  });
});

describe('a list of keys', () => {
  const of = (text: string) => {
    const read = parseKeyList(text);
    return read.ok ? read.value : read.error.map((fault) => fault.text);
  };

  it('may have blank entries and anything between them, and tells each that can’t be read', () => {
    expect(of(' AA1 ;; AA2,\n\n\tAA3')).toEqual(
      ['AA1', 'AA2', 'AA3'].map((symbol) => ({ symbol, count: 1 })),
    );
    expect(of('')).toEqual([]);
    expect(of('AA1; ?; AA1/0; AA2 x0; !')).toEqual(['?', 'AA1/0', 'AA2 x0', '!']);
    const faults = parseKeyList('?');
    expect(faults.ok ? '' : faults.error[0]!.sentence).toMatch(/^“\?” is not a key\. /);
  });

  it('has ranges of one key and up to five hundred, their letters alike at both ends or left out', () => {
    expect(of('AA8-AA8')).toEqual([{ symbol: 'AA8', count: 1 }]);
    expect(of('AA1-AA500')).toHaveLength(500);
    expect(of('AA11 to AA510')).toHaveLength(500);
    expect(of('aa8..AA9')).toEqual(['aa8', 'aa9'].map((symbol) => ({ symbol, count: 1 })));
    for (const text of ['AA1-AA501', 'AA9-AA8', 'AA1-AB3', '1AA-3AB', 'AA1-3AA', 'AA1-3B', 'A1B-A3'])
      expect(of(text), text).toEqual([text]);
  });
});
