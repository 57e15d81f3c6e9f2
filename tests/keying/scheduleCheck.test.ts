/** Checks of a schedule and its totals. The rules of symbols are held against their source in tests/outside. */
import { describe, expect, it } from 'vitest';
import { checkSchedule, type ScheduleAgainst, type ScheduleKey } from '../../src/keying/scheduleCheck.ts';
import { SCHEDULE_CODES, type ScheduleFinding } from '../../src/keying/scheduleFindings.ts';
import { readLines } from '../../src/keying/scheduleRead.ts';
import { ownKeyOf, symbolKey, tidySymbol } from '../../src/keying/scheduleSymbol.ts';
import { parseKeySymbol } from '../../src/keying/symbolText.ts';
import { scheduleTotals, stampingOf } from '../../src/keying/scheduleTotals.ts';
import { sayScheduleFinding } from '../../src/keying/scheduleWording.ts';
import { givesAway, secretsOf } from '../../src/keying/secrecy.ts';

const HEAD = ['Door', 'Side', 'Keyset', 'Qty', 'Keys', 'Remarks'];
const COLUMNS = { headerRow: 0, door: 0, side: 1, symbol: 2, quantity: 3, keys: 4, remarks: 5 };

type Row = readonly [
  door: string,
  symbol: string,
  quantity?: number | string,
  side?: string,
  keys?: number | '',
  remarks?: string,
];

const linesOf = (rows: readonly Row[]) =>
  readLines(
    [
      HEAD,
      ...rows.map(([door, symbol, q = '', side = '', keys = '', remarks = '']) => [
        door,
        side,
        symbol,
        q,
        keys,
        remarks,
      ]),
    ],
    COLUMNS,
  );

const key = (symbol: string, more: Partial<ScheduleKey> = {}): ScheduleKey => ({
  symbol,
  level: /\d/.test(symbol) ? 'CK' : symbol.length === 1 ? 'GMK' : 'MK',
  status: 'issued',
  ...more,
});
const KEYS = ['A', 'AA', 'AA1', 'AA2', 'AB', 'AB1'].map((s) => key(s));

const check = (rows: readonly Row[], against: Partial<ScheduleAgainst> = {}): ScheduleFinding[] =>
  checkSchedule(linesOf(rows), { keys: KEYS, cylinders: [], ...against });
const codes = (found: readonly ScheduleFinding[]): string[] => found.map((f) => f.code);
const ALL: readonly Row[] = [
  ['1', 'AA1'],
  ['2', 'AA2'],
  ['3', 'AB1'],
];

describe('a sound schedule', () => {
  it('has no findings', () => {
    expect(check(ALL, { cylinders: ['AA1', 'AA2', 'AB1'] })).toEqual([]);
  });
});

describe('the spelling of symbols', () => {
  it.each([
    ['aa1', 'AA1', 'case'],
    [' AA1', 'AA1', 'spaces'],
    ['AA 1', 'AA1', 'spaces'],
    ['AA\u00A01', 'AA1', 'spaces'],
    ['AA1O', 'AA10', 'look-alike'],
    ['AAl', 'AA1', 'look-alike'],
    ['АA1', 'AA1', 'look-alike'], // the first letter is Cyrillic
    ['ＡＡ１', 'AA1', 'look-alike'], // full-width, as pasted from some programs
    ['xaa3 (operated by AA1)', 'XAA3 (operated by AA1)', 'case'],
    ['a2b 7', 'A2B7', 'case'],
  ])('%s → %s: %s', (from, to, why) => {
    expect(tidySymbol(from)).toEqual({ to, why });
  });

  it.each(['AA1', 'GGMK', 'Boiler 2', 'SKD1', 'AA1 (ENG)', 'PLANT', 'AAL', ''])('%s stays', (text) => {
    expect(tidySymbol(text)).toBeUndefined();
  });

  it('is that of the shop’s own key where there is one', () => {
    const known = new Map([
      ['BOILER 2', 'Boiler 2'],
      ['W-AA1', 'W-AA1'],
    ]);
    expect(tidySymbol('boiler  2', {}, known)).toEqual({ to: 'Boiler 2', why: 'case' });
    expect(tidySymbol('W-AA1', {}, known)).toBeUndefined();
  });

  it('of a cross-keyed cylinder keeps its X, though the sheet Keys has the key behind it', () => {
    const known = new Map([['AA3', 'AA3']]);
    expect(tidySymbol('XAA3', {}, known)).toBeUndefined();
    expect(tidySymbol('XAA3 (operated by AA1)', {}, known)).toBeUndefined();
    expect(tidySymbol('xaa3', {}, known)).toEqual({ to: 'XAA3', why: 'case' });
    const { cylinders } = scheduleTotals(
      linesOf([
        ['1', 'XAA3'],
        ['2', 'AA3'],
      ]).lines,
      [key('AA3')],
    );
    expect(cylinders.map((c) => [c.symbol, c.quantity])).toEqual([
      ['AA3', 1],
      ['XAA3', 1],
    ]);
  });

  it('goes by the sheet Keys before the coding, also behind a slip', () => {
    const known = new Map(['ab10', 'Plant 1'].map((symbol) => [symbolKey(symbol), symbol]));
    expect(tidySymbol('AB10', {}, known)).toEqual({ to: 'ab10', why: 'case' });
    expect(tidySymbol('ABlO', {}, known)).toEqual({ to: 'ab10', why: 'look-alike' });
    expect(tidySymbol('AB 10', {}, known)).toEqual({ to: 'ab10', why: 'case' });
    expect(tidySymbol('PLANT\n1', {}, known)).toEqual({ to: 'Plant 1', why: 'case' });
    expect(tidySymbol('Plant 2', {}, known)).toBeUndefined();
  });

  // Capitals that the Unicode charts of the Cyrillic and Greek blocks draw like Latin ones, and their small letters.
  it.each(['АВСЕНКМОРТХУ', 'ΑΒΕΗΚΜΝΟΡΤΧΥΖ'])('knows the letters %s, in either case', (letters) => {
    const latin = { А: 'A', В: 'B', С: 'C', Е: 'E', Н: 'H', К: 'K', М: 'M', О: 'O', Р: 'P', Т: 'T', Х: 'X', У: 'Y',
      Α: 'A', Β: 'B', Ε: 'E', Η: 'H', Κ: 'K', Μ: 'M', Ν: 'N', Ο: 'O', Ρ: 'P', Τ: 'T', Χ: 'X', Υ: 'Y', Ζ: 'Z',
    } as Record<string, string>; // prettier-ignore
    const known = new Map([...'ABCEHKMNOPTXYZ'].map((letter) => [`${letter}A1`, `${letter}A1`]));
    for (const letter of letters)
      for (const written of [letter, letter.toLowerCase()])
        expect(tidySymbol(`${written}A1`, {}, known), written).toEqual({
          to: `${latin[letter]}A1`,
          why: 'look-alike',
        });
  });

  it.each([
    ['  ', {}, undefined],
    ['\u200B', {}, undefined],
    ['(see plan)', {}, undefined],
    ['AA\u200B1', {}, { to: 'AA1', why: 'look-alike' }],
    ['AA1  (eng) ', {}, { to: 'AA1 (eng)', why: 'spaces' }],
    ['AA1(ENG)', {}, { to: 'AA1 (ENG)', why: 'spaces' }],
    ['AA1 (see\n plan)', {}, { to: 'AA1 (see plan)', why: 'spaces' }],
    ['Boiler  2', {}, { to: 'Boiler 2', why: 'spaces' }],
    ['l0aa', { levels: 2 }, { to: '10AA', why: 'look-alike' }],
    ['lOAA', { levels: 2 }, undefined],
    ['1oAA', { levels: 3 }, undefined],
    ['AA|', {}, { to: 'AA1', why: 'look-alike' }],
    ['a2ao', {}, undefined],
    ['A2AlO', {}, { to: 'A2A10', why: 'look-alike' }],
    ['AAlO', { levels: 4 }, { to: 'AA10', why: 'look-alike' }],
    ['AAAlO', { levels: 5 }, { to: 'AAA10', why: 'look-alike' }],
    ['AAAAlO', { levels: 6 }, { to: 'AAAA10', why: 'look-alike' }],
    ['AAAAlO', { levels: 5 }, undefined],
    ['1AA', {}, undefined],
  ] as const)('“%s” with %j: %j', (text, options, to) => {
    expect(tidySymbol(text, options)).toEqual(to);
  });

  it('is compared by the keyset’s own key, else in capitals without blanks to spare', () => {
    const of = (text: string): string => symbolKey(text);
    expect(['', '  ', 'a'.repeat(61)].map(of)).toEqual(['', '', '']);
    expect(['aa1', 'aa1 (eng)', 'xaa3 (operated by AA1)', 'a2a', 'aa'].map(of)).toEqual([
      'AA1', 'AA1', 'AA3', 'A2A', 'AA',
    ]); // prettier-ignore
    expect([' boiler \n 2 ', 'x1x', 'ggmk', 'Ｗ-aa1'].map(of)).toEqual(['BOILER 2', 'X1X', 'GGMK', 'W-AA1']);
    expect(symbolKey('1aa', { levels: 2 })).toBe('1AA');
    const own = (text: string): string | undefined => {
      const parsed = parseKeySymbol(text);
      return parsed.ok ? ownKeyOf(parsed.value) : 'unread';
    };
    expect(['AA1 (ENG)', 'XAA3 (operated by AA1)', 'AB', 'A', 'X1X', 'SKD1', 'Plant'].map(own)).toEqual([
      'AA1', 'AA3', 'AB', 'A', undefined, undefined, undefined,
    ]); // prettier-ignore
  });

  it('is offered for the cell, with what stands there now', () => {
    expect(check([...ALL.slice(1), ['1', 'aa1 ']])).toEqual([
      { code: 'symbol-untidy', why: 'case', fix: { from: 'aa1 ', to: 'AA1' }, row: 3, role: 'symbol' },
    ]);
  });
});

describe('keysets and keys', () => {
  it('names every cell whose keyset has no key', () => {
    const found = check([...ALL, ['4', 'AA9'], ['5', 'AA9']]);
    expect(found).toEqual(
      [4, 5].map((row) => ({ code: 'keyset-without-key', symbol: 'AA9', void: false, row, role: 'symbol' })),
    );
  });

  it('takes a void or retired key for none', () => {
    const keys = KEYS.map((k) => (k.symbol === 'AB1' ? { ...k, status: 'retired' as const } : k));
    expect(check(ALL, { keys })).toMatchObject([{ code: 'keyset-without-key', symbol: 'AB1', void: true }]);
  });

  it('names the highest key that is missing above', () => {
    expect(check([...ALL, ['4', 'AC1']])).toMatchObject([
      { code: 'parent-missing', symbol: 'AC1', parent: 'AC' },
      { code: 'keyset-without-key', symbol: 'AC1' },
    ]);
    expect(check([...ALL, ['4', 'BA1']])[0]).toMatchObject({ code: 'parent-missing', parent: 'B' });
  });

  it('finds a number on the wrong side, a master at a door and letters that the coding avoids', () => {
    expect(codes(check([...ALL, ['4', '3AA']]))).toContain('symbol-other-levels');
    expect(check([...ALL, ['4', 'AB']])).toEqual([
      { code: 'symbol-is-master', symbol: 'AB', level: 'MK', row: 4, role: 'symbol' },
    ]);
    expect(check([['1', 'AI1']], { keys: [] })).toMatchObject([
      { code: 'symbol-letter', letter: 'I', reserved: false },
    ]);
    expect(check([['1', 'XA']], { keys: [] })[0]).toMatchObject({ code: 'symbol-letter', reserved: true });
  });

  it('takes a shop’s own symbol as it stands, and says so once', () => {
    const rows: Row[] = [
      ['1', 'Boiler'],
      ['2', 'boiler'],
    ];
    expect(check(rows, { keys: [] })).toEqual([
      { code: 'symbol-own', symbol: 'Boiler', doors: 2, row: 1, role: 'symbol' },
    ]);
    expect(check(rows, { keys: [key('Boiler', { level: 'single' })] }).map((f) => f.code)).toEqual([
      'symbol-untidy',
    ]);
  });

  it('asks the keys that operate a cross-keyed cylinder, which needs none of its own', () => {
    expect(check([...ALL, ['4', 'X1X (operated by AA1 and AA7)']])).toEqual([
      {
        code: 'operated-by-unknown',
        symbol: 'X1X (OPERATED BY AA1 AND AA7)',
        key: 'AA7',
        row: 4,
        role: 'symbol',
      },
    ]);
  });

  it('lists issued keys without a door and counts the spares', () => {
    const keys = [...KEYS, key('AB2'), key('AB3', { status: 'reserved' }), key('AB4', { status: 'void' })];
    expect(check(ALL, { keys })).toEqual([
      { code: 'key-without-door', key: 6, symbol: 'AB2' },
      { code: 'spare-keys', count: 1 },
    ]);
  });
});

describe('a sheet without keysets', () => {
  it('says nothing about keys', () => {
    expect(check([['1', ''], ['2', '']])).toEqual([]); // prettier-ignore
  });
});

describe('quantities', () => {
  it('are held against the cylinders, whatever stands in brackets', () => {
    const cylinders = ['AA1', 'AA1', 'AA2', 'AB1'];
    expect(check(ALL, { cylinders })).toEqual([
      { code: 'cylinders-differ', symbol: 'AA1', schedule: 1, cylinders: 2, row: 1, role: 'quantity' },
    ]);
    expect(check([['1', 'AA1 (ENG)', 2], ...ALL.slice(1)], { cylinders })).toEqual([]);
  });

  it('are held against the copies and against the sheet’s own total', () => {
    const keys = KEYS.map((k) => ({ ...k, copies: 3 }));
    expect(check([['1', 'AA1', 1, '', 2], ...ALL.slice(1)], { keys })).toMatchObject([
      { code: 'keys-differ', symbol: 'AA1', schedule: 2, copies: 3 },
    ]);
    const stated = readLines([HEAD, ['1', '', 'AA1', 2], ['Total', '', '', 3]], COLUMNS);
    expect(checkSchedule(stated, { keys: [], cylinders: [] })).toEqual([
      { code: 'total-differs', stated: 3, counted: 2, row: 2, role: 'quantity' },
    ]);
  });
});

describe('the levels that symbols are read by', () => {
  it('are those of the keys, and without keys those of the doors', () => {
    const two = [key('AA', { level: 'MK' }), key('1AA', { level: 'CK' }), key('2AA', { level: 'CK' })];
    const wrong = (rows: readonly string[], keys: readonly ScheduleKey[]) =>
      check(
        rows.map((symbol, i): Row => [String(i), symbol]),
        { keys },
      ).flatMap((f) => (f.code === 'symbol-other-levels' ? [[f.symbol, f.numberFirst]] : []));
    expect(wrong(['AA1'], two)).toEqual([['AA1', false]]);
    expect(wrong(['1AA', '2AA'], two)).toEqual([]);
    expect(wrong(['1AA', '2AA'], [])).toEqual([]);
    expect(wrong(['1AA', '2AA', 'AA1'], [])).toEqual([['AA1', false]]);
    expect(wrong(['AA1', 'AA2', '1AA'], [])).toEqual([['1AA', true]]);
  });
});

describe('keysets at their doors', () => {
  it('are one keyset in whatever case and blanks, brackets included', () => {
    const once = check(
      [
        ['1', 'AI1 (eng)'],
        ['2', 'AI1  (ENG)'],
        ['3', ' AI1 (ENG) '],
      ],
      { keys: [] },
    );
    expect(once.filter((f) => f.code === 'symbol-letter')).toEqual([
      { code: 'symbol-letter', symbol: 'AI1 (ENG)', letter: 'I', reserved: false, row: 1, role: 'symbol' },
    ]);
    expect(check([['1', ' Boiler 2 '], ['2', 'boiler   2']], { keys: [] })).toContainEqual({
      code: 'symbol-own', symbol: 'Boiler 2', doors: 2, row: 1, role: 'symbol',
    }); // prettier-ignore
  });

  it('that are blank are no keyset', () => {
    expect(check([...ALL, ['4', '  ']])).toEqual([{ code: 'not-keyed', doors: 1, row: 4, role: 'symbol' }]);
    expect(check([['4', ' ']])).toEqual([]);
  });

  it('too long to be a symbol are said to be', () => {
    expect(check([...ALL, ['4', 'a'.repeat(61)]]).filter((f) => 'row' in f && f.row === 4)).toEqual([
      { code: 'symbol-too-long', length: 61, most: 60, row: 4, role: 'symbol' },
    ]);
  });

  it('may be a grand master’s, a top key’s or a numbered key of their own kind: each has to be there', () => {
    expect(check([...ALL, ['4', 'A']]).filter((f) => 'row' in f && f.row === 4)).toEqual([
      { code: 'symbol-is-master', symbol: 'A', level: 'GMK', row: 4, role: 'symbol' },
    ]);
    const lacking = (symbol: string) =>
      codes(check([...ALL, ['4', symbol]])).filter((code) => code === 'keyset-without-key').length;
    expect(['GGMK', 'SKD1', 'CTR1', 'KA1', 'Plant'].map(lacking)).toEqual([1, 1, 1, 1, 1]);
    expect(['SKD', 'CTR', 'KA/2', 'X1X'].map(lacking)).toEqual([0, 0, 0, 0]);
  });

  it('are named as the sheet Keys has them, retired as they are, or as they stand', () => {
    const named = (symbol: string, keys: readonly ScheduleKey[]) =>
      check([...ALL, ['4', symbol]], { keys: [...KEYS, ...keys] }).flatMap((f) =>
        f.code === 'keyset-without-key' ? [[f.symbol, f.void]] : [],
      );
    expect(named('plant  room', [key(' Plant Room ', { status: 'void' })])).toEqual([['Plant Room', true]]);
    expect(named(' plant room ', [])).toEqual([['plant room', false]]);
    expect(named('AA9 (eng)', [])).toEqual([['AA9', false]]);
  });

  it('have a key where one of its rows is in use', () => {
    const rows: ScheduleKey[] = [key('AB9', { status: 'retired' }), key('ab9')];
    expect(codes(check([...ALL, ['4', 'AB9']], { keys: [...KEYS, ...rows] }))).not.toContain(
      'keyset-without-key',
    );
    const gone = [key('AB9', { status: 'retired' }), key('ab9', { status: 'void' })];
    expect(codes(check([...ALL, ['4', 'AB9']], { keys: [...KEYS, ...gone] }))).toContain(
      'keyset-without-key',
    );
  });

  it('are spelt as the first key of that symbol', () => {
    const keys = [key(' Plant 1 '), key('PLANT 1')];
    expect(check([['1', 'plant 1']], { keys })).toEqual([
      { code: 'symbol-untidy', why: 'case', fix: { from: 'plant 1', to: 'Plant 1' }, row: 1, role: 'symbol' },
    ]);
  });

  it('lack no top key where the shop calls it otherwise', () => {
    const keys = KEYS.filter((k) => k.symbol !== 'A');
    const parents = check([...ALL, ['4', 'AC1']], { keys }).flatMap((f) =>
      f.code === 'parent-missing' ? [f.parent] : [],
    );
    expect(parents).toEqual(['AC']);
  });

  it('that are cross-keyed name keys that have to be there, and those then have a door', () => {
    const found = check([...ALL.slice(1), ['1', 'XAA3 (operated by AA1, AB7)']], {
      keys: [...KEYS, key('AA3')],
    });
    expect(found).toEqual([
      {
        code: 'operated-by-unknown',
        symbol: 'XAA3 (OPERATED BY AA1, AB7)',
        key: 'AB7',
        row: 3,
        role: 'symbol',
      },
    ]);
  });
});

describe('keys without a door', () => {
  it('are change keys and single keys, by their number in the list; spares are counted', () => {
    const keys = [
      ...KEYS,
      key('SKD1', { level: 'single' }),
      key('CTR', { level: 'control' }),
      key('AC', { level: 'MK' }),
      key('AA7'),
      key('AA8', { status: 'reserved' }),
      key('AA9', { status: 'reserved' }),
      key('AB8', { status: 'free' }),
      key('AB9', { status: 'retired' }),
    ];
    expect(check(ALL, { keys })).toEqual([
      { code: 'key-without-door', key: 6, symbol: 'SKD1' },
      { code: 'key-without-door', key: 9, symbol: 'AA7' },
      { code: 'spare-keys', count: 2 },
    ]);
  });
});

describe('quantities of a keyset', () => {
  it('count whatever stands in brackets, of a shop’s own symbol too', () => {
    const keys = [key('Plant', { level: 'single' })];
    const rows: Row[] = [
      ['1', 'Plant (east)', 2],
      ['2', 'plant (w)', 1],
    ];
    expect(
      check(rows, { keys, cylinders: ['Plant', 'PLANT (x)'] }).filter((f) => f.code === 'cylinders-differ'),
    ).toEqual([
      { code: 'cylinders-differ', symbol: 'Plant', schedule: 3, cylinders: 2, row: 1, role: 'quantity' },
    ]);
  });

  it('of keys are held against the first row that states copies, and say nothing where none does', () => {
    const rows: Row[] = [
      ['1', 'AA1', 1, '', 2],
      ['2', 'AA1', 1, '', 3],
      ['3', 'AA2', 1, '', 9],
      ['4', 'AB1', 1, '', 4],
    ];
    const keys = [
      ...KEYS.filter((k) => !/\d/.test(k.symbol)),
      key('AA1', { status: 'retired' }),
      key('AA1', { copies: 4 }),
      key('AA2'),
      key('AB1', { copies: 4 }),
    ];
    expect(check(rows, { keys })).toEqual([
      { code: 'keys-differ', symbol: 'AA1', schedule: 5, copies: 4, row: 1, role: 'keys' },
    ]);
    expect(
      check([...rows, ['5', 'AB7', 1, '', 1]], { keys }).filter((f) => f.code === 'keys-differ'),
    ).toHaveLength(1);
  });

  it('that the sheet sums up rightly are no finding', () => {
    expect(check([...ALL, ['Total', '', 3]])).toEqual([]);
    expect(check([...ALL, ['Total', '', 4]])).toEqual([
      { code: 'total-differs', row: 4, role: 'quantity', stated: 4, counted: 3 },
    ]);
  });
});

describe('doors', () => {
  it('are the same door in whatever case and blanks, with the keysets only where they differ', () => {
    expect(
      check([['D 1', 'AA1'], ['d  1', 'aa1 '], ...ALL.slice(1)]).filter((f) => f.code === 'door-twice'),
    ).toEqual([{ code: 'door-twice', door: 'd  1', firstRow: 1, row: 2, role: 'door' }]);
    expect(check([['1', 'AA1', 1, 'In side'], ['1', ' AA2', 1, 'in  side'], ...ALL.slice(2)])).toContainEqual(
      { code: 'door-twice', door: '1', firstRow: 1, row: 2, role: 'door', symbols: ['AA1', 'AA2'] },
    );
    // what belongs to the door stays with the door
    expect(codes(check([['1', 'AA1', 1, '1'], ['11', 'AA2', 1, ''], ...ALL.slice(2)]))).not.toContain(
      'door-twice',
    );
  });

  it('of the local codes are told by the whole word, wherever it stands', () => {
    const rows = [
      ['Door', 'Location', 'Hardware', 'Type', 'Remarks', 'Keyset'],
      ['1', 'Hall', 'Panic set', 'rim', 'x', 'AA1'],
      ['2', 'Stair', '', '', 'wheelchair-bound', 'AA2'],
      ['3', 'Fire exit', 'Escape set', 'fire rated', '', 'AB1'],
      ['4', 'Fireworks', 'Wildfire', 'exité', 'brexit', 'AB1'],
    ];
    const lines = readLines(rows, {
      headerRow: 0,
      door: 0,
      location: 1,
      hardware: 2,
      type: 3,
      remarks: 4,
      symbol: 5,
    });
    const found = checkSchedule(lines, { keys: [], cylinders: [] }).filter((f) => f.code === 'caution');
    expect(found).toEqual([
      { code: 'caution', kind: 'exit', door: '1', word: 'Panic', row: 1, role: 'hardware' },
      { code: 'caution', kind: 'accessible', door: '2', word: 'wheelchair', row: 2, role: 'remarks' },
      { code: 'caution', kind: 'exit', door: '3', word: 'exit', row: 3, role: 'location' },
      { code: 'caution', kind: 'fire', door: '3', word: 'Fire', row: 3, role: 'location' },
    ]);
  });

  it('twice are found, unless the rows are sides of it', () => {
    expect(check([...ALL, ['1', 'AA2']])).toMatchObject([
      { code: 'door-twice', door: '1', firstRow: 1, symbols: ['AA1', 'AA2'], row: 4 },
    ]);
    expect(check([['1', 'AA1', 1, 'in'], ['1', 'AA1', 1, 'out'], ...ALL.slice(1)])).toEqual([]);
  });

  it('without a keyset are counted, and those of the local codes named', () => {
    expect(check([...ALL, ['4', '']])).toEqual([{ code: 'not-keyed', doors: 1, row: 4, role: 'symbol' }]);
    const remarks: [string, ScheduleFinding['code'][]][] = [
      ['exit route – panic hardware', ['caution']],
      ['fire door, accessible', ['caution', 'caution']],
      ['fireplace, existing', []],
    ];
    for (const [remark, wanted] of remarks)
      expect(codes(check([['1', 'AA1', 1, '', '', remark], ...ALL.slice(1)]))).toEqual(wanted);
  });
});

describe('the words', () => {
  it('are there for every code', () => {
    const row = 1;
    const role = 'symbol' as const;
    const samples: Record<string, unknown> = {
      row, role, text: '#N/A', length: 70, most: 60, why: 'case', fix: { from: 'a', to: 'A' }, symbol: 'AA1', doors: 1,
      letter: 'I', reserved: false, numberFirst: true, level: 'MK', parent: 'AA', void: false, key: 'AA2', door: '1',
      firstRow: 0, schedule: 2, cylinders: 1, copies: 1, stated: 1, counted: 2, kind: 'exit', word: 'exit', count: 2,
    }; // prettier-ignore
    for (const code of SCHEDULE_CODES) {
      const words = sayScheduleFinding({ ...samples, code } as unknown as ScheduleFinding);
      expect(words, code).toMatch(/^.{15,}[.]$/);
      expect(words, code).not.toMatch(/undefined|NaN|\[object/);
    }
  });
});

describe('stamping', () => {
  it('is symbol and copy number', () => {
    const totals = scheduleTotals(linesOf(ALL).lines, [key('AA1', { copies: 2 }), key('AB1')]);
    expect(stampingOf(totals.keys)).toEqual([
      { symbol: 'AA1', stamps: ['AA1-1', 'AA1-2'] },
      { symbol: 'AB1', stamps: ['AB1'] },
    ]);
    expect(stampingOf([{ symbol: 'AA1', copies: 1 }], { firstCopy: 4, before: 'TH' })[0]?.stamps).toEqual([
      'TH AA1-4',
    ]);
  });
});

describe('bittings in a text', () => {
  const secrets = secretsOf(['274153', '1-2-3-4', '12']);
  it.each([['274153', true], ['2-7-4-1-5-3', true], ['cut 2 7 4 1 5 3 again', true], ['1234', true], ['27415', false], ['12', false], ['AA1', false]])(
    '%s: %s', (text, found) => expect(givesAway(secrets, text)).toBe(found),
  ); // prettier-ignore
});
