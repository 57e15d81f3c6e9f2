/** What is typed when keys change hands, as rows. */
import { describe, expect, it } from 'vitest';
import { replayLedger } from '../../src/keying/ledgerReplay.ts';
import type { LedgerKey } from '../../src/keying/ledger.ts';
import { entriesOf, type LedgerForm } from '../../taskpane/people/ledgerForm.ts';
import { peopleGrid } from '../../taskpane/people/PeopleGrid.tsx';
import { ledgerSummary, withLedger } from '../../taskpane/people/ledgerSummary.ts';
import { readDay } from '../../taskpane/people/useStanding.ts';
import { riskOf, RISK_WORDS } from '../../taskpane/lost/risk.ts';
import { accessMap, copiesOfKeys } from '../../src/keying/access.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import { whole } from './systems.ts';

const { day } = readDay('2026-03-14');
const KEYS: LedgerKey[] = ['AA1', 'AA2', 'AA3'].map((symbol) => ({
  system: 'Hall',
  symbol,
  level: 'CK',
  status: 'issued',
  copies: 2,
}));
const state = replayLedger(
  {
    keys: KEYS,
    entries: [{ day, event: 'issued', system: 'Hall', symbol: 'AA1', copy: 1, holder: 'Cook' }],
  },
  day,
);
const FORM: LedgerForm = {
  event: 'issued',
  keys: 'AA1-AA3',
  holder: ' New tenant ',
  department: '',
  date: '2026-03-14',
  due: '',
  givenBy: '',
  takenBy: '',
  hook: '',
  sign: true,
  corrects: '',
};
const rows = (change: Partial<LedgerForm>) => entriesOf({ ...FORM, ...change }, state, 'Hall');
const names = (change: Partial<LedgerForm>): string[] => {
  const read = rows(change);
  return read.ok ? read.value.map((e) => `${e.symbol}/${e.copy}`) : [...read.error];
};

describe('keys that change hands', () => {
  it('for a new tenant come from the cabinet, the lowest copy of each', () => {
    expect(names({})).toEqual(['AA1/2', 'AA2/1', 'AA3/1']);
    const read = rows({});
    expect(read.ok && read.value[0]).toEqual({
      day,
      event: 'issued',
      system: 'Hall',
      symbol: 'AA1',
      copy: 2,
      holder: 'New tenant',
      signature: 'required',
    });
  });

  it('are never given twice from one list', () => {
    expect(names({ keys: 'AA2, AA2' })).toEqual(['AA2/1', 'AA2/2']);
    expect(names({ keys: 'AA1 x2' })).toEqual([
      'Only 1 of 2 copies of AA1 can be given out, by what the ledger says of the cabinet. Name the copy, such as AA1/1.',
    ]);
  });

  it('come back from the one who has them', () => {
    expect(names({ event: 'returned', keys: 'AA1', holder: 'cook' })).toEqual(['AA1/1']);
    expect(names({ event: 'returned', keys: 'AA2', holder: '' })[0]).toContain('No copy of AA2');
  });

  it('need a person, keys and a date that is one', () => {
    expect(names({ holder: '', keys: '', date: '3/4/2026' })).toHaveLength(3);
  });

  it('strike a row by its number', () => {
    expect(names({ event: 'struck' })).toEqual(['Say which row is struck: its number in the ledger.']);
    const read = rows({ event: 'struck', corrects: '7' });
    expect(read.ok && read.value).toMatchObject([{ event: 'struck', corrects: 7 }]);
  });
});

describe('the grid of people', () => {
  it('answers 200 × 200 cells', () => {
    const input = auditInputOf(whole.system, whole.marks);
    const many = {
      ...input,
      keys: Array.from({ length: 200 }, (_, k) => input.keys[k % input.keys.length]!),
      cylinders: Array.from({ length: 200 }, (_, c) => ({
        ...input.cylinders[c % input.cylinders.length]!,
        id: `D${c}`,
        door: `D${c}`,
      })),
      intended: Array.from({ length: 200 }, (_, c) => input.intended[c % input.intended.length]!),
    };
    const copies = many.keys.map((key, k) => [
      { system: '', symbol: key.symbol, copy: k + 1, where: 'held' as const, holder: `Holder ${k}` },
    ]);
    const { of } = { of: { ...copiesOfKeys(accessMap(many), state, () => undefined), copies } };
    const data = peopleGrid({ of });
    let opens = 0;
    for (let row = 0; row < 200; row++)
      for (let column = 0; column < 200; column++) if (data.stateOf(row, column) === 'opens') opens++;
    expect([data.cylinders.length, data.keys.length]).toEqual([200, 200]);
    expect(opens).toBeGreaterThan(200);
  });
});

describe('risk', () => {
  it('is guessed from words that the user can change', () => {
    expect(riskOf({ id: '1', location: 'Main entrance' }, RISK_WORDS)).toBe(0);
    expect(riskOf({ id: '2', location: 'Server' }, RISK_WORDS)).toBe(1);
    expect(riskOf({ id: '3', location: 'Classroom 4' }, RISK_WORDS)).toBe(2);
    expect(riskOf({ id: '3', location: 'Classroom 4' }, { outside: 'classroom', sensitive: '' })).toBe(0);
  });
});

describe('the ledger on the first screen', () => {
  const entry = { day, event: 'issued' as const, system: 'Hall', symbol: 'ZZ', copy: 1, holder: 'Cook' };
  const place = { sheet: 'Ledger', address: 'D5' };
  const ledger = {
    entries: [entry, { ...entry, day: readDay('2026-03-20').day, event: 'lost' as const }],
    keys: KEYS,
    keyRows: [],
    places: [place, { ...place, address: 'D6' }],
    people: [],
    problems: [],
    unread: 0,
    lastNumber: 2,
  };
  it('says to which day it goes, and counts what is wrong in it', () => {
    const summary = ledgerSummary({ ledger, state: replayLedger(ledger, day), systems: [] });
    expect(summary.words).toBe('ledger to 2026-03-20');
    expect(summary.lines[0]).toMatchObject({ at: place });
    const faults = summary.lines.filter((l) => l.severity === 'fault').length;
    const warnings = summary.lines.filter((l) => l.severity === 'warning').length;
    expect(faults + warnings).toBeGreaterThan(0);
    const counts = { specs: 1, systems: 1, keys: 3, cylinders: 0, marks: 0, faults: 1, warnings: 2 };
    expect(withLedger(counts, summary)).toEqual({
      ...counts,
      faults: 1 + faults,
      warnings: 2 + warnings,
    });
  });
  it('says nothing where there is none', () => {
    const none = { ...ledger, entries: [], places: [] };
    expect(ledgerSummary({ ledger: none, state: replayLedger(none, day), systems: [] })).toEqual({
      lines: [],
    });
  });
});
