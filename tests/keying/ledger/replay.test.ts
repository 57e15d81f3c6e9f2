/** Ledgers that can be followed by hand, and the invariants of all others. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseMoment, type Day } from '../../../src/keying/calendar.ts';
import {
  accounts,
  heldBy,
  inHands,
  keysOfLeavers,
  mastersOut,
  overdue,
  retiredAbout,
  unaccounted,
} from '../../../src/keying/ledgerAnswers.ts';
import {
  copiesByKey,
  keyId,
  LEDGER_EVENTS,
  type Holder,
  type LedgerEntry,
  type LedgerKey,
} from '../../../src/keying/ledger.ts';
import { ledgerSeverity, type LedgerFinding } from '../../../src/keying/ledgerFindings.ts';
import { replayLedger, type LedgerInput } from '../../../src/keying/ledgerReplay.ts';
import { sayLedger } from '../../../src/keying/ledgerWording.ts';

const day = (text: string): Day => {
  const read = parseMoment(text);
  if (!read.ok) throw new Error(text);
  return read.value.day;
};

const KEYS: readonly LedgerKey[] = [
  { system: 'Hall', symbol: 'A', level: 'GMK', status: 'issued', copies: 2 },
  { system: 'Hall', symbol: 'AA', level: 'MK', status: 'issued', copies: 2 },
  { system: 'Hall', symbol: 'AA1', level: 'CK', status: 'issued', copies: 3 },
  { system: 'Hall', symbol: 'AA2', level: 'CK', status: 'reserved', copies: 3 },
];
const HOLDERS: readonly Holder[] = [
  { name: 'Caretaker', department: 'House' },
  { name: 'Kitchen lead', department: 'Kitchen', left: day('2026-03-31') },
];

type Row = Partial<LedgerEntry> & Pick<LedgerEntry, 'event'>;
/** Rows on consecutive days from 1 March 2026 on, numbered from 1, of AA1 / 1 unless they say otherwise. */
const rows = (...given: readonly Row[]): LedgerEntry[] =>
  given.map((row, i) => ({
    number: i + 1,
    day: (day('2026-03-01') + i) as Day,
    system: 'Hall',
    symbol: 'AA1',
    copy: 1,
    ...row,
  }));
const replay = (entries: readonly LedgerEntry[], asOf = '2026-12-31', input: Partial<LedgerInput> = {}) =>
  replayLedger({ entries, keys: KEYS, holders: HOLDERS, ...input }, day(asOf));
const codes = (entries: readonly LedgerEntry[]): string[] => replay(entries).findings.map((f) => f.code);

const issued = { event: 'issued', holder: 'Caretaker' } as const;

describe('who has what', () => {
  const entries = rows(
    { ...issued, due: day('2026-03-20'), copy: 1 },
    { ...issued, holder: 'kitchen lead ', copy: 2 },
    { event: 'returned', copy: 1 },
    { event: 'transferred', holder: 'Caretaker', copy: 2 },
    { event: 'lost', copy: 2 },
    { event: 'found', copy: 2, hook: '7' },
    { event: 'destroyed', copy: 3 },
  );

  it.each([
    ['2026-02-28', 'stock', 'stock', 'stock'],
    ['2026-03-01', 'held', 'stock', 'stock'],
    ['2026-03-02', 'held', 'held', 'stock'],
    ['2026-03-03', 'stock', 'held', 'stock'],
    ['2026-03-05', 'stock', 'lost', 'stock'],
    ['2026-03-06', 'stock', 'stock', 'stock'],
    ['2026-03-07', 'stock', 'stock', 'destroyed'],
  ])('on %s: %s, %s, %s', (asOf, ...where) => {
    const state = replay(entries, asOf);
    expect(state.findings).toEqual([]);
    expect(state.copies.filter((c) => c.symbol === 'AA1').map((c) => c.where)).toEqual(where);
  });

  it('spells a holder as the list of holders does, and keeps who had a lost key', () => {
    expect(heldBy(replay(entries, '2026-03-02'), 'KITCHEN LEAD')[0]?.holder).toBe('Kitchen lead');
    expect(unaccounted(replay(entries, '2026-03-05'))).toMatchObject([{ copy: 2, holder: 'Caretaker' }]);
  });

  it('knows the hook of a key that came back', () => {
    expect(replay(entries, '2026-03-06').copies.find((c) => c.symbol === 'AA1' && c.copy === 2)?.hook).toBe(
      '7',
    );
  });

  it('counts a row from its own date, wherever it stands', () => {
    const late = rows(
      { ...issued, day: day('2026-03-10') },
      { event: 'returned', day: day('2026-03-12') },
      {
        ...issued,
        copy: 2,
        day: day('2026-03-02'),
      },
    );
    const state = replay(late, '2026-03-05');
    expect(inHands(state).map((c) => c.copy)).toEqual([2]);
    expect(state.later).toBe(2);
    expect(state.findings.map((f) => f.code)).toEqual(['out-of-order']);
  });

  it('goes by the minute within a day', () => {
    const on = day('2026-03-01');
    const entries = rows(
      { event: 'returned', day: on, minutes: 16 * 60 },
      { ...issued, day: on, minutes: 8 * 60 },
    );
    expect(replay(entries).findings).toEqual([]);
    expect(inHands(replay(entries))).toEqual([]);
  });
});

describe('a correction', () => {
  it('stands for the row that it names, and that row stays', () => {
    const entries = rows(issued, { ...issued, copy: 2, corrects: 1 });
    const state = replay(entries);
    expect(inHands(state).map((c) => c.copy)).toEqual([2]);
    expect(state).toMatchObject({ corrected: 1, counted: 1, findings: [] });
  });

  it('may strike a row, or be corrected itself', () => {
    expect(inHands(replay(rows(issued, { event: 'struck', corrects: 1 })))).toEqual([]);
    const twice = rows(issued, { event: 'struck', corrects: 1 }, { ...issued, copy: 3, corrects: 2 });
    expect(inHands(replay(twice)).map((c) => c.copy)).toEqual([3]);
  });

  it('by two rows counts once, and is reported', () => {
    const entries = rows(issued, { ...issued, copy: 2, corrects: 1 }, { ...issued, copy: 3, corrects: 1 });
    expect(inHands(replay(entries)).map((c) => c.copy)).toEqual([3]);
    expect(codes(entries)).toEqual(['corrected-twice']);
  });

  it('of a row that is not above it is reported', () => {
    expect(codes(rows({ ...issued, corrects: 7 }))).toEqual(['corrects-unknown']);
    expect(codes(rows({ event: 'struck' }))).toEqual(['struck-nothing']);
    expect(codes(rows(issued, { ...issued, copy: 2, number: 1 }))).toEqual(['number-repeated']);
  });
});

describe('what can’t be right', () => {
  it.each<[string, readonly Row[]]>([
    ['issued-twice', [issued, { ...issued, holder: 'Kitchen lead' }]],
    ['issued-while-lost', [issued, { event: 'lost' }, issued]],
    ['returned-without-issue', [{ event: 'returned' }]],
    ['returned-by-other', [issued, { event: 'returned', holder: 'Kitchen lead' }]],
    ['returned-while-lost', [issued, { event: 'lost' }, { event: 'returned' }]],
    ['transferred-without-issue', [{ event: 'transferred', holder: 'Caretaker' }]],
    ['lost-twice', [issued, { event: 'lost' }, { event: 'lost' }]],
    ['found-not-lost', [issued, { event: 'found' }]],
    ['after-destroyed', [{ event: 'destroyed' }, issued]],
    ['unknown-key', [{ ...issued, symbol: 'ZZ9' }]],
    ['unknown-copy', [{ ...issued, copy: 4 }]],
    ['holder-missing', [{ event: 'issued' }]],
    ['unknown-holder', [{ ...issued, holder: 'Nobody' }]],
    ['holder-left', [{ ...issued, holder: 'Kitchen lead', day: day('2026-04-01') }]],
    ['due-before-issue', [{ ...issued, due: day('2026-02-01') }]],
    ['signature-open', [{ ...issued, signature: 'required' }]],
  ])('%s', (code, given) => {
    const { findings } = replay(rows(...given));
    expect(findings.map((f) => f.code)).toEqual([code]);
    expect(sayLedger(findings[0]!)).toMatch(/^[A-Z].*\.$/u);
  });

  it('is not there where the key went through other hands first', () => {
    const entries = rows(
      issued,
      { event: 'transferred', holder: 'Kitchen lead' },
      {
        event: 'returned',
        holder: 'Kitchen lead',
      },
    );
    expect(codes(entries)).toEqual([]);
  });

  it('doesn’t include names where there is no list of holders', () => {
    const entries = rows({ ...issued, holder: 'Nobody' });
    expect(replayLedger({ entries, keys: KEYS }, day('2026-12-31')).findings).toEqual([]);
  });
});

describe('the everyday questions', () => {
  const entries = rows(
    { ...issued, due: day('2026-03-10') },
    { ...issued, holder: 'Kitchen lead', copy: 2 },
    { ...issued, symbol: 'AA' },
    { event: 'lost', symbol: 'A', copy: 2 },
  );

  it('overdue is after the day, not on it', () => {
    expect(overdue(replay(entries, '2026-03-10'))).toEqual([]);
    expect(overdue(replay(entries, '2026-03-11'))).toMatchObject([{ symbol: 'AA1', copy: 1 }]);
  });

  it('a key is to be back on the last day', () => {
    expect(keysOfLeavers(replay(entries, '2026-03-30'), HOLDERS)).toEqual([]);
    expect(keysOfLeavers(replay(entries, '2026-03-31'), HOLDERS)).toMatchObject([
      { symbol: 'AA1', copy: 2, holder: 'Kitchen lead' },
    ]);
  });

  it('masters out are those in hands and those lost', () => {
    const out = mastersOut(replay(entries), KEYS).map((c) => [c.symbol, c.copy, c.where]);
    expect(out).toEqual([
      ['A', 2, 'lost'],
      ['AA', 1, 'held'],
    ]);
  });

  it('copies add up; spares that were not cut have none', () => {
    expect(accounts(replay(entries))).toEqual([
      { system: 'Hall', symbol: 'A', copies: 2, stock: 1, held: 0, lost: 1, destroyed: 0 },
      { system: 'Hall', symbol: 'AA', copies: 2, stock: 1, held: 1, lost: 0, destroyed: 0 },
      { system: 'Hall', symbol: 'AA1', copies: 3, stock: 1, held: 2, lost: 0, destroyed: 0 },
    ]);
  });

  it('a new bitting of a symbol takes the copy numbers after the old one’s', () => {
    const keys: LedgerKey[] = [
      { system: 'Hall', symbol: 'AA1', level: 'CK', status: 'issued', copies: 2 },
      { system: 'Hall', symbol: 'AA1', level: 'CK', status: 'retired', copies: 3 },
    ];
    const state = replayLedger(
      { entries: rows({ ...issued, copy: 3 }, { ...issued, copy: 4 }), keys },
      day('2026-12-31'),
    );
    expect(state.findings).toEqual([]);
    expect(state.copies.map((c) => c.key)).toEqual([1, 1, 1, 0, 0]);
    expect(retiredAbout(state, keys).map((c) => c.copy)).toEqual([3]);
  });
});

const entryFields = {
  day: fc.integer({ min: 46_000, max: 46_030 }).map((n) => n as Day),
  event: fc.constantFrom(...LEDGER_EVENTS),
  system: fc.constant('Hall'),
  symbol: fc.constantFrom('A', 'AA', 'aa1', 'AA1', 'ZZ'),
  copy: fc.integer({ min: 1, max: 4 }),
};
const minutes = fc.nat({ max: 1439 });
const anyLedger = fc.array(
  fc.record(
    {
      ...entryFields,
      number: fc.nat({ max: 40 }),
      minutes,
      holder: fc.constantFrom('Caretaker', 'Kitchen lead', 'Nobody'),
      corrects: fc.nat({ max: 40 }),
    },
    { requiredKeys: ['day', 'event', 'system', 'symbol', 'copy'] },
  ),
  { maxLength: 40 },
);
/** Without corrections, and with a minute in each row: a row without one takes that of the row above it. */
const plainLedger = fc.array(
  fc.record({ ...entryFields, minutes, holder: fc.constantFrom('Caretaker', 'Kitchen lead') }),
  { maxLength: 40 },
);

describe('any ledger', () => {
  it('accounts for every copy once and for every row', () => {
    fc.assert(
      fc.property(anyLedger, fc.integer({ min: 45_999, max: 46_031 }), (entries, asOf) => {
        const state = replayLedger({ entries, keys: KEYS, holders: HOLDERS }, asOf as Day);
        expect(state.counted + state.corrected + state.later).toBe(entries.length);
        const ids = state.copies.map((c) => `${c.symbol.toLowerCase()} ${c.copy}`);
        expect(new Set(ids).size).toBe(ids.length);
        for (const a of accounts(state)) expect(a.stock + a.held + a.lost + a.destroyed).toBe(a.copies);
        for (const f of state.findings) expect(sayLedger(f)).not.toMatch(/undefined/);
      }),
    );
  });

  it('says of a day the same whatever was added for later days', () => {
    fc.assert(
      fc.property(plainLedger, (plain) => {
        const asOf = 46_015 as Day;
        const known = plain.filter((e) => e.day <= asOf);
        const where = (given: readonly LedgerEntry[]) =>
          replayLedger({ entries: given, keys: KEYS }, asOf).copies.map((c) => [
            c.symbol,
            c.copy,
            c.where,
            c.holder,
            c.since,
          ]);
        expect(where(plain)).toEqual(where(known));
      }),
    );
  });
});

describe('a ledger of 10,000 rows', () => {
  it('is replayed whole', () => {
    const keys: LedgerKey[] = Array.from({ length: 500 }, (_, k) => ({
      system: 'Hall',
      symbol: `AA${k + 1}`,
      level: 'CK',
      status: 'issued',
      copies: 5,
    }));
    const entries = Array.from({ length: 10_000 }, (_, i): LedgerEntry => {
      const turn = Math.floor(i / 2500);
      return {
        number: i + 1,
        day: (46_000 + Math.floor(i / 20)) as Day,
        event: turn % 2 === 0 ? 'issued' : 'returned',
        system: 'Hall',
        symbol: `AA${1 + (i % 500)}`,
        copy: 1 + (Math.floor(i / 500) % 5),
        holder: `Holder ${i % 2500}`,
      };
    });
    const state = replayLedger({ entries, keys }, 47_000 as Day);
    expect(state).toMatchObject({ counted: 10_000, findings: [] });
    expect(inHands(state)).toEqual([]);
  });
});

describe('a copy', () => {
  const one = (...given: readonly Row[]) =>
    replay(rows(...given)).copies.find((c) => c.symbol === 'AA1' && c.copy === 1);
  const base = { system: 'Hall', symbol: 'AA1', copy: 1, key: 2 };
  const at = (n: number) => ({ since: day('2026-03-01') + n, entry: n });

  it('has exactly what the last row about it says', () => {
    expect(one()).toEqual({ ...base, where: 'stock' });
    expect(one(issued)).toEqual({ ...base, ...at(0), where: 'held', holder: 'Caretaker' });
    expect(one({ ...issued, due: day('2026-05-01'), signature: 'signed' })).toEqual({
      ...base, ...at(0), where: 'held', holder: 'Caretaker', due: day('2026-05-01'), signature: 'signed',
    }); // prettier-ignore
    expect(one({ ...issued, holder: 'caretaker' })).toMatchObject({ holder: 'Caretaker' });
    expect(one(issued, { event: 'returned' })).toEqual({ ...base, ...at(1), where: 'stock' });
    expect(one(issued, { event: 'returned', hook: '7' })).toEqual({
      ...base,
      ...at(1),
      where: 'stock',
      hook: '7',
    });
    expect(one(issued, { event: 'lost' })).toEqual({ ...base, ...at(1), where: 'lost', holder: 'Caretaker' });
    expect(one({ event: 'lost' })).toEqual({ ...base, ...at(0), where: 'lost' });
    expect(one({ event: 'lost', holder: 'Caretaker' })).toEqual({
      ...base,
      ...at(0),
      where: 'lost',
      holder: 'Caretaker',
    });
    expect(one(issued, { event: 'lost' }, { event: 'found' })).toEqual({ ...base, ...at(2), where: 'stock' });
    expect(one(issued, { event: 'lost' }, { event: 'found', holder: 'Caretaker' })).toEqual({
      ...base, ...at(2), where: 'held', holder: 'Caretaker',
    }); // prettier-ignore
    expect(one(issued, { event: 'destroyed' })).toEqual({ ...base, ...at(1), where: 'destroyed' });
  });

  it('of a key that isn’t in the list has no key', () => {
    const stray = replay(rows({ ...issued, symbol: 'ZZ1' })).copies.find((c) => c.symbol === 'ZZ1');
    expect(stray).toEqual({
      system: 'Hall',
      symbol: 'ZZ1',
      copy: 1,
      ...at(0),
      where: 'held',
      holder: 'Caretaker',
    });
  });

  it('found again after it was destroyed is one finding, and handed on while lost another', () => {
    expect(codes(rows({ event: 'destroyed' }, { event: 'found' }))).toEqual(['after-destroyed']);
    expect(codes(rows(issued, { event: 'lost' }, { event: 'transferred', holder: 'Caretaker' }))).toEqual([
      'transferred-without-issue',
    ]);
    expect(codes(rows({ event: 'transferred' }))).toEqual(['holder-missing', 'transferred-without-issue']);
  });

  it('names both holders where two are at odds', () => {
    const lead = { holder: 'Kitchen lead' };
    expect(replay(rows(issued, { ...issued, ...lead })).findings).toMatchObject([
      { code: 'issued-twice', holder: 'Kitchen lead', other: 'Caretaker' },
    ]);
    expect(replay(rows(issued, { event: 'returned', ...lead })).findings).toMatchObject([
      { code: 'returned-by-other', holder: 'Kitchen lead', other: 'Caretaker' },
    ]);
    expect(codes(rows({ event: 'returned', holder: 'Caretaker' }))).toEqual(['returned-without-issue']);
  });

  it('may be given on the last day and due on the day itself', () => {
    const last = day('2026-03-31');
    expect(codes(rows({ ...issued, holder: 'Kitchen lead', day: last, due: last }))).toEqual([]);
    // a due date says nothing on a row that gives no key out
    expect(codes(rows(issued, { event: 'returned', due: day('2026-01-01') }))).toEqual([]);
  });

  it('stands by system, symbol and number, as numbers go', () => {
    const keys = ['B', 'AA10', 'AA2'].flatMap((symbol): LedgerKey[] =>
      ['Yard', 'Hall'].map((system) => ({ system, symbol, level: 'CK', status: 'issued', copies: 2 })),
    );
    const state = replayLedger({ entries: [], keys }, day('2026-12-31'));
    expect(state.copies.map((c) => `${c.system} ${c.symbol} ${c.copy}`)).toEqual(
      ['Hall', 'Yard'].flatMap((system) =>
        ['AA2', 'AA10', 'B'].flatMap((symbol) => [1, 2].map((n) => `${system} ${symbol} ${n}`)),
      ),
    );
  });
});

describe('rows out of order', () => {
  const on = (date: string, more: Row = issued): LedgerEntry => ({
    system: 'Hall', symbol: 'AA1', copy: 1, ...more, day: day(date),
  }); // prettier-ignore

  it('are those below a row of a later day, but for corrections and strikings', () => {
    const out = (...entries: LedgerEntry[]) =>
      replay(entries).findings.flatMap((f) => (f.code === 'out-of-order' ? [[f.entry, f.after]] : []));
    const [first, second, third] = ['2026-03-01', '2026-03-02', '2026-03-03'].map(day);
    expect(out(on('2026-03-02'), on('2026-03-01', { event: 'returned' }))).toEqual([[1, second]]);
    expect(out(on('2026-03-01'), on('2026-03-01', { event: 'returned' }))).toEqual([]);
    expect(out(on('2026-03-03'), on('2026-03-01', { event: 'returned' }), on('2026-03-02'))).toEqual([
      [1, third],
      [2, third],
    ]);
    expect(out(on('2026-03-01'), on('2026-03-03', { event: 'returned' }), on('2026-03-02'))).toEqual([
      [2, third],
    ]);
    const numbered = { ...on('2026-03-02'), number: 1 };
    expect(out(numbered, { ...on('2026-03-01'), corrects: 1 })).toEqual([]);
    expect(out(numbered, { ...on('2026-03-01', { event: 'struck' }), corrects: 1 })).toEqual([]);
    expect(out(numbered, on('2026-03-01', { event: 'struck' }))).toEqual([]);
    expect(first).toBeLessThan(second!);
  });

  it('happen by their minute; a row without one happens with the row above it that day', () => {
    const state = (...entries: LedgerEntry[]) =>
      replay(entries).copies.find((c) => c.symbol === 'AA1' && c.copy === 1)!.where;
    const back: Row = { event: 'returned' };
    const d = '2026-03-01';
    expect(state({ ...on(d, back), minutes: 600 }, { ...on(d), minutes: 540 })).toBe('stock');
    expect(state({ ...on(d), minutes: 600 }, { ...on(d, back), minutes: 540 })).toBe('held');
    // the second row goes with the first, though a third is earlier
    expect(state({ ...on(d), minutes: 600 }, on(d, back), { ...on(d), minutes: 60 })).toBe('stock');
    // at the start of the day where the row above is of another
    expect(state({ ...on('2026-02-28', back), minutes: 600 }, on(d), { ...on(d, back), minutes: 1 })).toBe(
      'stock',
    );
    expect(
      state(
        { ...on('2026-02-28', back), minutes: 600 },
        { ...on(d, back), minutes: 1 },
        on('2026-02-28'),
        on(d),
      ),
    ).toBe('stock');
  });

  it('don’t change the order of findings, which is that of the rows', () => {
    const found = replay([
      { ...on('2026-03-05'), holder: 'Nobody' },
      { ...on('2026-03-04', { event: 'returned' }), copy: 2 },
      { ...on('2026-03-03'), holder: 'Nobody', copy: 3 },
    ]).findings.map((f) => f.entry);
    expect(found).toEqual([...found].sort((a, b) => a - b));
    expect(new Set(found)).toEqual(new Set([0, 1, 2]));
  });

  it('that are struck change nothing but themselves', () => {
    const entries = [
      { ...on('2026-03-01'), number: 1 },
      { ...on('2026-03-02', { event: 'struck' }), corrects: 1, symbol: 'ZZ', copy: 9 },
    ];
    const state = replay(entries);
    expect(state.findings).toEqual([]);
    expect(state.copies.map((c) => c.symbol)).not.toContain('ZZ');
    expect(state).toMatchObject({ counted: 1, corrected: 1, later: 0 });
  });
});

describe('more of the everyday questions', () => {
  it('what is overdue stands longest first, and without a day is never due', () => {
    const entries = rows(
      { ...issued, copy: 1, due: day('2026-03-20') },
      { ...issued, copy: 2, due: day('2026-03-10') },
      { ...issued, copy: 3 },
      { ...issued, symbol: 'AA', due: day('2026-03-15') },
    );
    expect(overdue(replay(entries)).map((c) => `${c.symbol} ${c.copy}`)).toEqual(['AA1 2', 'AA 1', 'AA1 1']);
  });

  it('what nobody can account for is lost, or in hands without a name', () => {
    const entries = rows(
      { event: 'issued', copy: 1 },
      { ...issued, copy: 2 },
      { event: 'lost', copy: 3 },
      { event: 'issued', symbol: 'A', holder: '' },
    );
    expect(unaccounted(replay(entries)).map((c) => `${c.symbol} ${c.copy}`)).toEqual([
      'A 1',
      'AA1 1',
      'AA1 3',
    ]);
    expect(heldBy(replay(entries), ' caretaker').map((c) => c.copy)).toEqual([2]);
  });

  it('masters are keys of the list above change keys; single keys are none', () => {
    const keys: LedgerKey[] = (['GGMK', 'MK', 'CK', 'single', 'control'] as const).map((level) => ({
      system: 'Hall', symbol: `K ${level}`, level, status: 'issued', copies: 2,
    })); // prettier-ignore
    const entries = rows(...keys.map(({ symbol }): Row => ({ ...issued, symbol })), {
      ...issued,
      symbol: 'stray',
    });
    const state = replayLedger({ entries, keys }, day('2026-12-31'));
    expect(
      mastersOut(state, keys)
        .map((c) => c.symbol)
        .sort(),
    ).toEqual(['K control', 'K GGMK', 'K MK'].sort());
  });

  it('void bittings are retired too; copies are told where every row that was cut says how many', () => {
    const row = (status: LedgerKey['status'], copies?: number): LedgerKey => ({
      system: 'Hall', symbol: 'AA1', level: 'CK', status, ...(copies !== undefined && { copies }),
    }); // prettier-ignore
    const known = (...keys: LedgerKey[]) => copiesByKey(keys).get(keyId('Hall', 'aa1'))!;
    expect(known(row('issued', 2), row('void', 3)).cut).toBe(5);
    expect(known(row('issued', 2), row('void', 3)).rows).toEqual([1, 0]);
    expect([1, 3, 4, 5, 6].map(known(row('issued', 2), row('void', 3)).rowOf)).toEqual([1, 1, 0, 0, 0]);
    expect(known(row('issued', 2), row('free', 3)).rows).toEqual([0]);
    expect(known(row('issued', 2), row('reserved', 3)).cut).toBe(2);
    expect(known(row('issued', 2), row('retired')).cut).toBeUndefined();
    expect(known(row('reserved', 2)).cut).toBeUndefined();
    expect([1, 99].map(known(row('retired'), row('issued', 2)).rowOf)).toEqual([0, 0]);
    expect(known(row('free', 2)).rowOf(1)).toBeUndefined();
    const keys = [row('void', 1), row('issued', 1)];
    const state = replayLedger(
      { entries: rows({ ...issued, copy: 1 }, { ...issued, copy: 2 }, { ...issued, symbol: 'ZZ' }), keys },
      day('2026-12-31'),
    );
    expect(retiredAbout(state, keys).map((c) => c.copy)).toEqual([1]);
  });
});

describe('how grave a finding of the ledger is', () => {
  it('is a warning where the keys are where they should be, or nobody can tell; a fault otherwise', () => {
    const warnings = [
      'returned-by-other',
      'returned-while-lost',
      'lost-twice',
      'signature-open',
      'out-of-order',
    ];
    const faults = [
      'issued-twice', 'issued-while-lost', 'returned-without-issue', 'transferred-without-issue', 'found-not-lost',
      'after-destroyed', 'unknown-key', 'unknown-copy', 'holder-missing', 'unknown-holder', 'holder-left',
      'due-before-issue', 'number-repeated', 'corrects-unknown', 'corrected-twice', 'struck-nothing',
    ]; // prettier-ignore
    const of = (code: string) => ledgerSeverity({ code } as LedgerFinding);
    expect(warnings.map(of)).toEqual(warnings.map(() => 'warning'));
    expect(faults.map(of)).toEqual(faults.map(() => 'fault'));
  });
});
