import { describe, expect, it } from 'vitest';
import { formatBitting, packBitting } from '../../src/keying/bitting.ts';
import { guessColumns } from '../../src/keying/importColumns.ts';
import { readImport, rowName } from '../../src/keying/importRows.ts';
import { guessOrder, guessSpecs } from '../../src/keying/importSpec.ts';
import { isUsable } from '../../src/keying/rules.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { STARTER_SPECS } from '../../src/keying/starters.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { randomOf } from '../bench/random.ts';
import { key, starter } from '../support/keys.ts';

const six = starter('S-018-6');

/** Bittings that a spec allows, drawn evenly. */
function drawn(spec: Specification, count: number, seed: number): string[] {
  const random = randomOf(seed);
  const list: string[] = [];
  while (list.length < count) {
    const cuts = spec.centres.map(() => random(spec.depths.length));
    if (isUsable(spec, cuts)) list.push(formatBitting(spec, cuts));
  }
  return list;
}

describe('guessSpecs', () => {
  it('finds the starter that a list was drawn from', () => {
    for (const spec of STARTER_SPECS) {
      const [first] = guessSpecs(drawn(spec, 60, 3), STARTER_SPECS);
      expect([first!.spec.name, first!.sure]).toEqual([spec.name, 'sure']);
      expect(first).toMatchObject({ codes: 60, read: 60, within: 60 });
    }
  });

  it('is not sure of a handful, nor of codes of no spec', () => {
    const [few] = guessSpecs(['274153', '241536'], STARTER_SPECS);
    expect(few!.spec.name).toBe('S-018-6');
    expect(few!.sure).not.toBe('sure');
    expect(guessSpecs(['KX 1042', 'KX 1043'], STARTER_SPECS)[0]!.sure).toBe('doubtful');
    const beliefs = guessSpecs(['274153'], STARTER_SPECS).reduce((sum, g) => sum + g.belief, 0);
    expect(beliefs).toBeCloseTo(1, 12);
  });

  it('lets a tenth of slips pass without another answer', () => {
    const list = drawn(six, 54, 5);
    const [first] = guessSpecs([...list, '090909', '190190', '27415', '2741', '99', '0909'], STARTER_SPECS);
    expect([first!.spec.name, first!.sure]).toEqual(['S-018-6', 'sure']);
  });
});

describe('belief', () => {
  const narrow = { ...six, name: 'narrow', macs: 2 };
  const wide = { ...six, name: 'wide', macs: 3 };
  const oddsOf = (cells: readonly string[], trusted?: (spec: Specification) => boolean): number => {
    const guesses = guessSpecs(cells, [wide, narrow], trusted);
    const belief = (name: string) => guesses.find((g) => g.spec.name === name)!.belief;
    return belief('narrow') / belief('wide');
  };
  /** Every row of six depths, one by one. */
  const bittingsOf = ({ macs }: Specification): number => {
    let count = 0;
    for (let n = 0; n < 10 ** 6; n++) {
      const digits = String(n).padStart(6, '0');
      let keeps = true;
      for (let i = 1; i < 6; i++)
        if (Math.abs(Number(digits[i]) - Number(digits[i - 1])) > macs) keeps = false;
      if (keeps) count++;
    }
    return count;
  };

  it('follows Bayes’ rule: a code that both allow speaks for the spec with fewer bittings', () => {
    const ratio = bittingsOf(wide) / bittingsOf(narrow);
    expect(oddsOf([])).toBeCloseTo(1, 9);
    expect(oddsOf(['234321'])).toBeCloseTo(ratio, 9);
    expect(oddsOf(['234321', '', 'KX 1042', '123212'])).toBeCloseTo(ratio ** 2, 9);
    // three to one before anything is read
    expect(oddsOf([], (spec) => spec === narrow)).toBeCloseTo(3, 9);
    expect(oddsOf(['234321'], (spec) => spec === wide)).toBeCloseTo(ratio / 3, 9);
  });

  it('weighs a slip the same under every spec, and far less than a code', () => {
    expect(oddsOf(['27415', '2741533'])).toBeCloseTo(1, 9);
    expect(oddsOf(['272727', '090909'])).toBeCloseTo(1, 9);
    // two slips in a hundred, each any of 36 signs at eight places, against one of the wider spec's bittings
    const odds = 0.02 / 36 ** 8 / (0.98 / bittingsOf(wide));
    expect(oddsOf(['141414']) / odds).toBeCloseTo(1, 9);
  });

  it('counts what it looked at: read, and within MACS', () => {
    const [first] = guessSpecs(['234321', '236321', '27415', '', 'KX 1042', '123212'], [wide]);
    expect(first).toMatchObject({ codes: 4, read: 3, within: 3, belief: 1 });
    const [other] = guessSpecs(['234321', '237321', '27415', '', 'KX 1042', '123212'], [wide]);
    expect(other).toMatchObject({ codes: 4, read: 3, within: 2, belief: 1 });
  });

  it('is sure from five codes on, nine in ten of which fit; likely while half of them do', () => {
    const sureOf = (good: number, slips: number) =>
      guessSpecs([...Array<string>(good).fill('234321'), ...Array<string>(slips).fill('090909')], [wide])[0]!
        .sure;
    expect([sureOf(5, 0), sureOf(9, 1), sureOf(18, 2)]).toEqual(['sure', 'sure', 'sure']);
    expect([sureOf(4, 0), sureOf(8, 1), sureOf(17, 2), sureOf(1, 1)]).toEqual(Array(4).fill('likely'));
    expect([sureOf(1, 2), sureOf(0, 1), sureOf(0, 0)]).toEqual(Array(3).fill('doubtful'));
  });

  it('that is split is not sure', () => {
    // odds a little below and above four to one, the belief of 0.8
    const twins = guessSpecs(Array<string>(6).fill('234321'), [wide, { ...wide, name: 'twin' }]);
    expect(twins.map((g) => [g.belief, g.sure])).toEqual([
      [0.5, 'doubtful'],
      [0.5, 'doubtful'],
    ]);
  });

  it('looks at a thousand cells of a long list, evenly spread', () => {
    const list = [...Array<string>(1500).fill('234321'), ...Array<string>(500).fill('090909')];
    expect(guessSpecs(list, [wide])[0]).toMatchObject({ codes: 1000, within: 750 });
    expect(guessSpecs(list.slice(0, 1000), [wide])[0]).toMatchObject({ codes: 1000, within: 1000 });
    expect(guessSpecs(list.slice(0, 1001), [wide])[0]).toMatchObject({ codes: 1000 });
  });
});

describe('guessOrder', () => {
  it('counts each code that the workbook has, read either way, but none that reads the same both ways', () => {
    const packed = (...codes: string[]) => new Set(codes.map((code) => packBitting(six, key(six, code))));
    const of = (codes: string[], has: Set<number>, spec = six) =>
      guessOrder(
        spec,
        codes.map((code) => key(six, code)),
        has,
      );
    expect(of(['123456', '123321'], packed('123456', '123321'))).toMatchObject({ own: 1, reversed: 0 });
    const backwards: Specification = { ...six, order: 'tip-to-bow' };
    expect(of(['654321'], packed('123456'), backwards)).toMatchObject({ order: 'bow-to-tip', reversed: 1 });
    expect(of(['123456'], packed('123456', '654321'))).toEqual({
      order: 'bow-to-tip', sure: 'doubtful', own: 1, reversed: 1,
    }); // prettier-ignore
  });

  it('is sure of three against a tenth at most, and likely of more than twice as many', () => {
    const codes = Array.from({ length: 40 }, (_, i) => `12${String(i + 10)}00`);
    const reverse = (code: string): string => [...code].reverse().join('');
    const sureOf = (own: number, reversed: number) =>
      guessOrder(
        six,
        [...codes.slice(0, own), ...codes.slice(own, own + reversed)].map((code) => key(six, code)),
        new Set(
          [...codes.slice(0, own), ...codes.slice(own, own + reversed).map(reverse)].map((code) =>
            packBitting(six, key(six, code)),
          ),
        ),
      );
    expect([sureOf(3, 0), sureOf(10, 1), sureOf(0, 3), sureOf(1, 10)].map((g) => g.sure)).toEqual(
      Array(4).fill('sure'),
    );
    expect([sureOf(2, 0), sureOf(1, 0), sureOf(9, 1), sureOf(3, 1), sureOf(1, 3)].map((g) => g.sure)).toEqual(
      Array(5).fill('likely'),
    );
    expect([sureOf(2, 1), sureOf(1, 2), sureOf(1, 1), sureOf(0, 0)].map((g) => g.sure)).toEqual(
      Array(4).fill('doubtful'),
    );
    expect([sureOf(1, 3), sureOf(3, 1), sureOf(2, 2)].map((g) => g.order)).toEqual([
      'tip-to-bow', 'bow-to-tip', 'bow-to-tip',
    ]); // prettier-ignore
  });

  const known = new Set(['274153', '354635', '241536'].map((code) => packBitting(six, key(six, code))));
  it('goes by bittings that the workbook has', () => {
    const list = ['351472', '536453', '635142', '123321'].map((code) => key(six, code));
    expect(guessOrder(six, list, known)).toEqual({ order: 'tip-to-bow', sure: 'sure', own: 0, reversed: 3 });
  });
  it('says that nothing tells it otherwise', () => {
    const list = ['112233', '123321'].map((code) => key(six, code));
    expect(guessOrder(six, list, known)).toEqual({
      order: 'bow-to-tip',
      sure: 'doubtful',
      own: 0,
      reversed: 0,
    });
  });
});

describe('guessColumns', () => {
  const guess = (rows: readonly (readonly (string | number)[])[]) => guessColumns(rows, STARTER_SPECS);

  it('goes by headings', () => {
    expect(
      guess([
        ['Mark', 'Bitting (tip to bow)', 'Qty', 'Keyway', 'Blind code', 'Room'],
        ['AA1', '274153', 2, 'K1', 'KX1042', 'Office'],
        ['AA2', '354635', 1, 'K1', 'KX1043', 'Store'],
      ]),
    ).toEqual({
      headerRows: 1,
      roles: ['mark', 'code', 'quantity', 'blank', 'reference', 'note'],
      sure: 'sure',
      order: 'tip-to-bow',
    });
  });

  it('goes by content where there are no headings', () => {
    expect(
      guess([
        ['AA1', '274153', '2'],
        ['AA2', '354635', '1'],
        ['AA3', '241536', '12'],
      ]),
    ).toEqual({ headerRows: 0, roles: ['mark', 'code', 'quantity'], sure: 'sure' });
    expect(guess([['274153'], ['354635']])).toMatchObject({ headerRows: 0, roles: ['code'] });
  });

  it('finds cuts in columns of their own', () => {
    const rows = [
      ['AA1', 2, 7, 4, 1, 5, 3],
      ['AA2', 3, 5, 4, 6, 3, 5],
    ];
    const { roles } = guess(rows);
    expect(roles).toEqual(['mark', 'code', 'code', 'code', 'code', 'code', 'code']);
    const read = runToEnd(readImport({ spec: six, rows, roles, options: {} }));
    expect(read.map((row) => row.code.bitting)).toEqual([key(six, '274153'), key(six, '354635')]);
  });

  it('reads the direction that a heading states, in any of the usual ways of writing it', () => {
    const orderOf = (heading: string) =>
      guess([
        ['Mark', heading],
        ['AA1', '274153'],
      ]).order;
    expect(['Code (bow to tip)', 'Cuts bow-tip', 'Bitting BOW→TIP', 'Code bow > tip'].map(orderOf)).toEqual(
      Array(4).fill('bow-to-tip'),
    );
    expect(['Code, tip to bow', 'Cuts tip - bow', 'Bitting tip-->bow'].map(orderOf)).toEqual(
      Array(3).fill('tip-to-bow'),
    );
    expect(orderOf('Code')).toBeUndefined();
    expect(orderOf('Code tip bow')).toBeUndefined();
    // over cuts in columns of their own as well
    const { order } = guess([
      ['Mark', 'Tip', 'to bow', '', '', '', ''],
      ['AA1', 2, 7, 4, 1, 5, 3],
    ]);
    expect(order).toBe('tip-to-bow');
  });

  it('takes a first row for headings where it has words, and no code or count', () => {
    const headed = (
      first: readonly (string | number)[],
      second: readonly (string | number)[] = ['AA1', '274153'],
    ) => guess([first, second]).headerRows;
    expect(headed(['Mark', 'Code'])).toBe(1);
    expect(headed(['Mark', ''])).toBe(1);
    expect(headed(['Foo', 'Bar'])).toBe(1);
    expect(headed(['Foo', 'Bar'], ['AA1', 'x'])).toBe(0);
    expect(headed(['Mark', '354635'])).toBe(0);
    expect(headed(['Mark', ' 12 '])).toBe(0);
    expect(headed(['Mark', 'X'])).toBe(0);
    expect(headed(['Mark', 'No 123'])).toBe(0);
    expect(headed(['', ' '])).toBe(0);
    // a single row is content
    expect(guess([['Mark', 'Code']]).headerRows).toBe(0);
    expect(guess([])).toEqual({ headerRows: 0, roles: [], sure: 'doubtful' });
  });

  it('takes a first row of codes in letters for codes', () => {
    const letters: Specification = {
      ...six,
      name: 'letters',
      depths: six.depths.map((d, i) => ({ ...d, symbol: 'ABCDEFGHIJ'[i]! })),
    };
    expect(
      guessColumns(
        [
          ['CHEBFD', 'Note'],
          ['DFEGDF', ''],
        ],
        [letters],
      ),
    ).toMatchObject({ headerRows: 0, roles: ['code', 'note'] });
    expect(
      guessColumns(
        [
          ['Code', 'Note'],
          ['DFEGDF', ''],
        ],
        [letters],
      ),
    ).toMatchObject({ headerRows: 1 });
    // a spec of other length has no say
    const five = { ...letters, name: 'five', centres: letters.centres.slice(0, 5) };
    expect(guessColumns([[...'CHEBFD'], [...'DFEGDF']], [five, letters]).roles).toEqual(
      Array(6).fill('code'),
    );
    expect(guessColumns([[...'CHEBF'], [...'DFEGD']], [five, letters]).roles).toEqual(Array(5).fill('code'));
  });

  it('reads 200 rows below the headings, and cells that are short', () => {
    // a fifth of the first 200 are codes, and none behind them
    const cells = Array.from({ length: 600 }, (_, i) => (i < 38 || i === 198 || i === 199 ? '274153' : '?!'));
    expect(guess([['Mark', 'Other'], ...cells.map((cell, i) => [`AA${i}`, cell])]).roles).toEqual([
      'mark',
      'code',
    ]);
    expect(guess([['274153'], ['354635', 'AA1'], ['241536', 'AA2']])).toMatchObject({
      roles: ['code', 'mark'],
    });
    expect(
      guess([
        ['', 'Code'],
        ['AA1', ' 274153 ', ' 3 '],
        ['AA2', '354635', '2 '],
      ]),
    ).toMatchObject({
      headerRows: 1,
      roles: ['mark', 'code', 'quantity'],
    });
  });

  it('asks a fifth of a column to be codes, unless its heading says so', () => {
    const column = (good: number, bad: number) => [
      ...Array<string>(good).fill('274153'),
      ...Array<string>(bad).fill('?!'),
    ];
    const rolesOf = (heading: string, cells: readonly string[]) =>
      guess([['Mark', heading], ...cells.map((c, i) => [`AA${i}`, c])]).roles;
    expect(rolesOf('Other', column(1, 4))).toEqual(['mark', 'code']);
    expect(rolesOf('Other', column(1, 5))).toEqual(['mark', 'note']);
    expect(rolesOf('Code', column(1, 9))).toEqual(['mark', 'code']);
    expect(rolesOf('Code', ['', ''])).toEqual(['mark', 'none']);
  });

  it('says how sure it is of the codes', () => {
    const sureOf = (...column: string[]) => guess(column.map((code) => ['name', code])).sure;
    const good = ['274153', '354635', '241536', '354536'];
    expect(sureOf(...good, 'x?')).toBe('sure');
    expect(sureOf(...good.slice(0, 3), 'x?')).toBe('likely');
    expect(sureOf(...good.slice(0, 2), 'x?', 'y?')).toBe('likely');
    expect(sureOf(...good.slice(0, 2), 'x?', 'y?', 'z?')).toBe('doubtful');
    expect(guess([['name', 'other']])).toMatchObject({ sure: 'doubtful', roles: ['note', 'note'] });
  });

  it('goes by the heading where two columns hold codes', () => {
    expect(
      guess([
        ['Old', 'Bitting'],
        ['274153', '354635'],
        ['241536', '635142'],
      ]),
    ).toMatchObject({ roles: ['note', 'code'], sure: 'sure' });
    // the column that is called something else has to have more codes by far
    expect(
      guess([
        ['Blind code', 'Other'],
        ['274153', '354635'],
      ]).roles,
    ).toEqual(['reference', 'code']);
  });

  it('takes short numbers for counts, mixed words for marks or blanks, and the rest for notes', () => {
    const rows = (column: readonly (string | number)[]) =>
      column.map((cell, i) => [['274153', '354635', '241536', '354536', '415263'][i]!, cell]);
    const roleOf = (...column: (string | number)[]) => guess(rows(column)).roles[1];
    expect(roleOf(1, 2, 3, 4, 999)).toBe('quantity');
    expect(roleOf(1, 2, 3, 4, 'x!')).toBe('quantity');
    expect(roleOf(1, 2, 3, 'y!', 'x!')).toBe('note');
    expect(roleOf(1000, 2000, 3000, 4000, 5000)).toBe('note');
    expect(roleOf('AA1', 'AA2', 'AA3', 'AA4', 'AA5')).toBe('mark');
    expect(roleOf('AA1', 'AA2', 'AA3', '', '')).toBe('mark');
    expect(roleOf('K1', 'K1', 'K1', 'K2', 'K2')).toBe('blank');
    expect(roleOf('AA1', 'AA2', 'AA3', 'one', 'two')).toBe('mark');
    expect(roleOf('AA1', 'AA2', 'x!', 'one', 'two')).toBe('note');
    expect(roleOf('Store', 'Office', 'Hall', 'Gym', 'Attic')).toBe('note');
    expect(roleOf('', '', '', '', '')).toBe('none');
  });

  it('gives a role to one column, by its heading before its content', () => {
    const code = ['274153', '354635', '241536'];
    const guessed = guess(code.map((c, i) => [c, `AA${i}`, `B${i % 2}`, i, 7]));
    expect(guessed.roles).toEqual(['code', 'mark', 'blank', 'quantity', 'note']);
    expect(
      guess([['Code', 'Foo', 'Symbol', 'Bar', 'Qty'], ...code.map((c, i) => [c, `AA${i}`, 'A1', i, 'some'])])
        .roles,
    ).toEqual(['code', 'note', 'mark', 'note', 'quantity']);
  });

  it('keeps, of two columns with one heading’s role, the one that is more like it', () => {
    const rolesOf = (headings: readonly string[], rows: readonly (readonly (string | number)[])[]) =>
      guess([headings, ...rows]).roles;
    const code = ['274153', '354635', '241536'];
    // marks and references differ from row to row, blanks hardly do, counts are numbers
    const pairs = [
      [['Symbol', 'Name'], ['AA1', 'AA2', 'AA3'], ['AA1', 'AA1', 'AA1'], 'mark'],
      [['Blind code', 'Ref'], ['X 1', 'X 2', 'X 3'], ['X 1', 'X 1', 'X 1'], 'reference'],
      [['Keyway', 'Profile'], ['K1', 'K1', 'K1'], ['K1', 'K2', 'K3'], 'blank'],
      [['Qty', 'Copies'], [1, 2, 3], ['some', 'x', 1], 'quantity'],
    ] as const;
    for (const [[first, second], good, poor, role] of pairs) {
      expect(
        rolesOf(
          ['Code', first, second],
          code.map((c, i) => [c, good[i]!, poor[i]!]),
        ),
      ).toEqual(['code', role, 'note']);
      expect(
        rolesOf(
          ['Code', first, second],
          code.map((c, i) => [c, poor[i]!, good[i]!]),
        ),
      ).toEqual(['code', 'note', role]);
      expect(
        rolesOf(
          ['Code', first, second],
          code.map((c, i) => [c, good[i]!, good[i]!]),
        ),
      ).toEqual(['code', role, 'note']);
    }
  });

  it('takes the first of two columns that hold as many codes', () => {
    expect(
      guess([
        ['274153', '354635'],
        ['241536', '635142'],
      ]).roles,
    ).toEqual(['code', 'note']);
    expect(
      guess([
        ['x', '354635'],
        ['241536', '635142'],
      ]).roles,
    ).toEqual(['note', 'code']);
    expect(
      guess([
        ['274153', '354635'],
        ['241536', 'x'],
      ]).roles,
    ).toEqual(['code', 'note']);
  });

  it('believes in cuts side by side where half the rows are codes', () => {
    const rowsOf = (...codes: string[]) => guess(codes.map((code) => [...code])).roles;
    const six1 = Array(6).fill('code');
    expect(rowsOf('274153', '354635', '090909', '190190')).toEqual(six1);
    expect(rowsOf('274153', '099090', '090909', '190190')).toEqual(six1);
    expect(rowsOf('27X153', '09X909', '35X635')).not.toContain('code');
    expect(rowsOf('274153', '35X635', '24X536')).not.toContain('code');
    expect(rowsOf('274153', '35X635', '241536', '99X999')).toEqual(six1);
  });

  it('looks for the longest run of cuts, one in each column', () => {
    const cuts = (...codes: string[]) => codes.map((code) => [...code].map(Number));
    expect(guess(cuts('274153', '354635')).roles).toEqual(Array(6).fill('code'));
    const named = cuts('274153', '354635').map((row) => ['x', ...row, 'Store']);
    expect(guess(named).roles).toEqual(['note', ...Array<string>(6).fill('code'), 'note']);
    expect(guess(named).sure).toBe('likely');
    // blank rows between say nothing; half of the others have to be codes
    expect(guess([...cuts('274153', '354635'), ['', '', '', '', '', '']]).roles).toEqual(
      Array(6).fill('code'),
    );
  });

  it('says that two columns of codes are doubtful', () => {
    expect(
      guess([
        ['274153', '354635'],
        ['241536', '635142'],
      ]).sure,
    ).toBe('doubtful');
  });
});

describe('readImport', () => {
  it('lets no row go, and reads quantities', () => {
    const rows = [
      ['AA1', '274153', '2 pcs'],
      ['', '', ''],
      ['AA2', 'KX 1042', ''],
      ['AA3', '', 'some'],
    ];
    const read = runToEnd(readImport({ spec: six, rows, roles: ['mark', 'code', 'quantity'], options: {} }));
    expect(read.map((r) => [r.index, r.mark, r.code.kind, r.quantity, r.quantityText])).toEqual([
      [0, 'AA1', 'bitting', 2, '2 pcs'],
      [2, 'AA2', 'reference', 1, ''],
      [3, 'AA3', 'empty', undefined, 'some'],
    ]);
  });

  it('has every column as its cell shows it, trimmed', () => {
    const rows = [[' AA1 ', '274153', 'K1', 'KX1042 ', 'Office', 3, { serial: 45000, shown: ' 15/3/23' }]];
    const [row] = runToEnd(
      readImport({
        spec: six,
        rows,
        roles: ['mark', 'code', 'blank', 'reference', 'note', 'quantity', 'note'],
        options: {},
      }),
    );
    expect(row).toMatchObject({
      index: 0,
      mark: 'AA1',
      blank: 'K1',
      reference: 'KX1042',
      quantity: 3,
      quantityText: '3',
      note: 'Office; 15/3/23',
    });
    const [bare] = runToEnd(readImport({ spec: six, rows: [['AA1']], roles: ['none', 'code'], options: {} }));
    expect(bare).toEqual({
      index: 0, mark: '', reference: '', blank: '', quantity: 1, quantityText: '', note: '',
      code: { kind: 'empty', original: '', faults: [], notes: [] },
    }); // prettier-ignore
  });

  it('reads codes as its options say, and cuts side by side joined', () => {
    const read = (
      rows: readonly (readonly (string | number)[])[],
      roles: readonly ('code' | 'note')[],
      order?: 'tip-to-bow',
    ) => runToEnd(readImport({ spec: six, rows, roles, options: order ? { order } : {} })).map((r) => r.code);
    expect(read([['274153']], ['code'], 'tip-to-bow')[0]!.bitting).toEqual(key(six, '351472'));
    const six1 = Array<'code'>(6).fill('code');
    expect(read([[2, '7 ', 4, 1, 5, 3]], six1)[0]).toMatchObject({
      original: '2-7-4-1-5-3',
      kind: 'bitting',
    });
    expect(read([[2, 7, 4, 1]], six1)[0]!.kind).toBe('unreadable');
    // a row of which only another cell is filled has no code
    expect(read([['', '', '', '', '', '', 'x']], [...six1, 'note'])[0]).toMatchObject({
      kind: 'empty',
      original: '',
    });
    // without a column of codes there is none
    expect(read([['274153']], ['note'])[0]!.kind).toBe('empty');
  });

  it('keeps a row that holds only a number, a truth value or a date', () => {
    const rows = [['', ' '], ['', 0], [false], [{ serial: 45000, shown: '' }]];
    const read = runToEnd(readImport({ spec: six, rows, roles: ['mark'], options: {} }));
    expect(read.map((r) => r.index)).toEqual([1, 2, 3]);
  });

  it.each([
    ['', 1],
    ['1', 1],
    ['12', 12],
    ['2.0', 2],
    ['3 x', 3],
    ['3×', 3],
    ['4 PCS.', 4],
    ['4 pc', 4],
    ['5 pieces', 5],
    ['1 piece', 1],
    ['6 keys', 6],
    ['1 key', 1],
    ['７', 7],
    ['99999', 99999],
    ['0', 0],
    ['100000', undefined],
    ['2.5', undefined],
    ['-2', undefined],
    ['2 sets', undefined],
    ['x2', undefined],
    ['2 pcs 3', undefined],
  ])('“%s” is a quantity of %j', (text, quantity) => {
    const [row] = runToEnd(
      readImport({ spec: six, rows: [['x', text]], roles: ['mark', 'quantity'], options: {} }),
    );
    expect([row!.quantity, row!.quantityText]).toEqual([quantity, text]);
  });

  it('tells how far it is, every 4,000 rows', () => {
    const rows = Array.from({ length: 8001 }, () => ['']);
    expect([...readImport({ spec: six, rows, roles: ['mark'], options: {} })]).toEqual(
      [0, 4000, 8000].map((done) => ({ stage: 'Reading codes', done, total: 8001 })),
    );
  });

  it('calls a row by its mark, else by its number in the list', () => {
    expect(rowName({ mark: 'AA1', index: 4 })).toBe('AA1');
    expect(rowName({ mark: '', index: 4 })).toBe('row 5');
    expect(rowName({ mark: '', index: 4 }, 2)).toBe('row 6');
  });
});
