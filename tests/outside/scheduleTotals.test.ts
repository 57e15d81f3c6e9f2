/**
 * Order totals against a plain group-by of a general-purpose library, d3-array's `rollup` (npm package d3-array 3.2.4,
 * ISC licence), on random schedules.
 */
import { rollup, sum } from 'd3-array';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkSchedule } from '../../src/keying/scheduleCheck.ts';
import { readLines } from '../../src/keying/scheduleRead.ts';
import { scheduleTotals, stampingOf } from '../../src/keying/scheduleTotals.ts';

const COLUMNS = {
  headerRow: 0,
  door: 0,
  type: 1,
  length: 2,
  cam: 3,
  finish: 4,
  symbol: 5,
  quantity: 6,
  keys: 7,
};
const HEAD = ['Door', 'Cylinder type', 'Length', 'Cam', 'Finish', 'Keyset', 'Qty', 'Keys'];

interface Row {
  readonly type: string;
  readonly length: string;
  readonly cam: string;
  readonly finish: string;
  readonly symbol: string;
  readonly quantity: number;
  readonly keys: number;
}

const row: fc.Arbitrary<Row> = fc.record({
  type: fc.constantFrom('rim', 'mortise', ''),
  length: fc.constantFrom('30', '35', '1 1/4', ''),
  cam: fc.constantFrom('standard cam', 'straight tailpiece', ''),
  finish: fc.constantFrom('satin', 'bright'),
  symbol: fc.constantFrom('AA1', 'AA2', 'AA10', 'AB1', 'SKD1', ''),
  quantity: fc.integer({ min: 0, max: 5 }),
  keys: fc.integer({ min: 0, max: 4 }),
});

const linesOf = (rows: readonly Row[]) =>
  readLines(
    [HEAD, ...rows.map((r, i) => [`D${i}`, r.type, r.length, r.cam, r.finish, r.symbol, r.quantity, r.keys])],
    COLUMNS,
  );

describe('totals of random schedules', () => {
  it('count cylinders as a plain group-by does', () => {
    fc.assert(
      fc.property(fc.array(row, { maxLength: 60 }), (rows) => {
        const groups = rollup(
          rows,
          (group) => sum(group, (r) => r.quantity),
          (r) => [r.type, r.length, r.cam, r.finish, r.symbol].join('|'),
        );
        const expected = [...groups].filter(([, n]) => n > 0).sort();
        const totals = scheduleTotals(linesOf(rows).lines, []);
        const found = totals.cylinders.map(({ text, symbol, quantity }): [string, number] => [
          [text.type, text.length, text.cam, text.finish, symbol].join('|'),
          quantity,
        ]);
        expect(found.sort()).toEqual(expected);
        expect(totals.cylinderCount).toBe(sum(rows, (r) => r.quantity));
      }),
      { numRuns: 300 },
    );
  });

  it('count keys by symbol as a plain group-by does, and give every key one stamp', () => {
    fc.assert(
      fc.property(fc.array(row, { maxLength: 60 }), (rows) => {
        const keyed = rows.filter((r) => r.symbol !== '');
        const groups = rollup(
          keyed,
          (group) => sum(group, (r) => r.keys),
          (r) => r.symbol,
        );
        const totals = scheduleTotals(linesOf(rows).lines, []);
        expect(new Map(totals.keys.map((k) => [k.symbol, k.copies]))).toEqual(new Map(groups));
        const stamps = stampingOf(totals.keys).flatMap((line) => line.stamps);
        expect(stamps).toHaveLength(sum(keyed, (r) => r.keys));
        expect(new Set(stamps).size).toBe(stamps.length);
      }),
      { numRuns: 300 },
    );
  });

  it('differ from the cylinders of the workbook exactly where a plain group-by does', () => {
    const cylinders: fc.Arbitrary<string[]> = fc.array(fc.constantFrom('AA1', 'AA2', 'AA10', 'AB1', 'SKD1'), {
      minLength: 1,
      maxLength: 40,
    });
    fc.assert(
      fc.property(fc.array(row, { maxLength: 40 }), cylinders, (rows, symbols) => {
        const keyed = rows.filter((r) => r.symbol !== '');
        const here = rollup(
          keyed,
          (group) => sum(group, (r) => r.quantity),
          (r) => r.symbol,
        );
        const there = rollup(
          symbols,
          (group) => group.length,
          (s) => s,
        );
        const expected = [...here]
          .filter(([symbol, n]) => n !== (there.get(symbol) ?? 0))
          .map(([symbol]) => symbol);
        const found = checkSchedule(linesOf(rows), { keys: [], cylinders: symbols }).flatMap((f) =>
          f.code === 'cylinders-differ' ? [f.symbol] : [],
        );
        expect(found.sort()).toEqual(expected.sort());
      }),
      { numRuns: 300 },
    );
  });
});

/** The order in which a person would look them up, and what is ordered for a key: by plain lists, not by our code. */
describe('what is ordered', () => {
  type KeyRow = Parameters<typeof scheduleTotals>[1][number];
  const plain = { type: 'rim', length: '30', cam: '', finish: 'satin', quantity: 1, keys: 0 };
  const issued = (symbol: string, more: Partial<KeyRow> = {}): KeyRow => ({
    symbol,
    status: 'issued',
    ...more,
  });
  const lines = (rows: readonly (readonly [symbol: string, quantity?: number | '', keys?: number | ''])[]) =>
    readLines(
      [
        HEAD,
        ...rows.map(([symbol, quantity = '', keys = ''], i) => [
          `D${i}`,
          'rim',
          '30',
          '',
          'satin',
          symbol,
          quantity,
          keys,
        ]),
      ],
      COLUMNS,
    ).lines;

  it('stands by type, length, cam and finish as numbers go, then by keyset', () => {
    const rows: Row[] = [
      { ...plain, type: 'rim', length: '100', symbol: 'AA1' },
      { ...plain, type: 'rim', length: '30', finish: 'satin', symbol: 'AA10' },
      { ...plain, type: 'rim', length: '30', finish: 'satin', symbol: 'AA2' },
      { ...plain, type: 'rim', length: '30', finish: 'bright', symbol: 'AB1' },
      { ...plain, type: 'rim', length: '30', cam: 'a', symbol: 'AA1' },
      { ...plain, type: 'mortise', length: '60', symbol: 'AB1' },
    ];
    const wanted = [
      'mortise 60  satin AB1', 'rim 30  bright AB1', 'rim 30  satin AA2', 'rim 30  satin AA10', 'rim 30 a satin AA1',
      'rim 100  satin AA1',
    ]; // prettier-ignore
    fc.assert(
      fc.property(fc.shuffledSubarray(rows, { minLength: rows.length }), (mixed) => {
        const { cylinders } = scheduleTotals(linesOf(mixed).lines, []);
        expect(
          cylinders.map(({ text, symbol }) =>
            [text.type, text.length, text.cam, text.finish, symbol].join(' '),
          ),
        ).toEqual(wanted);
      }),
      { numRuns: 20 },
    );
  });

  it('is one line where texts differ in blanks and case, as it first stood, with every door', () => {
    const rows: Row[] = [
      { ...plain, type: 'Rim  Cyl', symbol: 'aa1', quantity: 2 },
      { ...plain, type: 'rim cyl', symbol: 'AA1', quantity: 3 },
      { ...plain, type: 'ＲＩＭ cyl', symbol: 'AA 1', quantity: 1 },
      { ...plain, type: 'rim cyl', symbol: ' ', quantity: 0 },
      { ...plain, type: 'rim cyl', symbol: '', quantity: 4 },
    ];
    const { cylinders, cylinderCount } = scheduleTotals(linesOf(rows).lines, []);
    expect(cylinders).toHaveLength(2);
    expect(cylinders).toContainEqual({
      text: { type: 'rim cyl', length: '30', cam: '', finish: 'satin' },
      symbol: '',
      quantity: 4,
      doors: ['D4'],
    });
    expect(cylinders).toContainEqual({
      text: { type: 'Rim  Cyl', length: '30', cam: '', finish: 'satin' },
      symbol: 'AA1',
      quantity: 6,
      doors: ['D0', 'D1', 'D2'],
    });
    expect(cylinderCount).toBe(10);
  });

  it('is another line wherever a text differs by more', () => {
    const rows: Row[] = [
      { ...plain, type: 'rim cyl', symbol: 'AA1' },
      { ...plain, type: 'rimcyl', symbol: 'AA1' },
      { ...plain, type: 'rim', length: '30', symbol: 'AA1' },
      { ...plain, type: 'rim3', length: '0', symbol: 'AA1' },
    ];
    expect(scheduleTotals(linesOf(rows).lines, []).cylinders).toHaveLength(rows.length);
  });

  it('is read by the levels of the keys, and without keys by those of the doors', () => {
    const symbols = (symbol: string, keys: readonly KeyRow[], ...others: readonly string[]) =>
      scheduleTotals(lines([symbol, ...others].map((s) => [s, 1])), keys).cylinders.map((c) => c.symbol);
    // a letter for a figure in front is a slip in two levels only
    expect(symbols('l0AA', [issued('AA'), issued('1AA')])).toEqual(['10AA']);
    expect(symbols('l0AA', [issued('AA'), issued('AA1')], '1AA', '2AA')).toContain('l0AA');
    expect(symbols('l0AA', [], '1AA', '2AA')).toContain('10AA');
    expect(symbols('l0AA', [])).toEqual(['l0AA']);
  });

  it('is keyed as the sheet Keys spells it', () => {
    const { cylinders, keys } = scheduleTotals(lines([['aa1', 1]]), [issued(' Aa1 '), issued('AA1')]);
    expect(cylinders.map((c) => c.symbol)).toEqual(['AA1']);
    expect(keys.map((k) => k.symbol)).toEqual(['Aa1']);
  });

  it('of a key is what the sheet Keys says, else what its doors ask for', () => {
    const keys = [
      issued('AA10', { level: 'CK' }),
      issued('AA2', { level: 'CK', copies: 0 }),
      issued('AA1', { level: 'CK', copies: 5 }),
      issued('AA', { level: 'MK' }),
      issued('Plant'),
    ];
    const totals = scheduleTotals(
      lines([
        ['AA1', 1, 2],
        ['aa10', 1, 1],
        ['AA10', 1, 3],
        ['AA2', 1, 9],
        ['', 1, 7],
        [' ', 1, 7],
      ]),
      keys,
    );
    expect(totals.keys).toEqual([
      { symbol: 'AA', level: 'MK' },
      { symbol: 'AA1', level: 'CK', copies: 5, from: 'Keys' },
      { symbol: 'AA2', level: 'CK', copies: 0, from: 'Keys' },
      { symbol: 'AA10', level: 'CK', copies: 4, from: 'schedule' },
      { symbol: 'Plant' },
    ]);
    expect(totals.keyCount).toBe(9);
  });

  it('leaves out keys that are none any more, and spares that no door has', () => {
    const keys = [
      ...(['void', 'retired', 'free'] as const).map((status, i) =>
        issued(`AA${i + 1}`, { level: 'CK', status }),
      ),
      issued('AA4', { level: 'CK', status: 'reserved' }),
      issued('AA5', { level: 'CK', status: 'reserved' }),
      issued('AB', { level: 'MK', status: 'reserved' }),
    ];
    expect(scheduleTotals(lines([['AA5', 1]]), keys).keys.map((k) => k.symbol)).toEqual(['AA5', 'AB']);
  });

  it('has the first of two rows of a symbol, the retired one passed over', () => {
    const keys = [
      issued('AA1', { status: 'retired', copies: 1 }),
      issued('AA1', { level: 'CK', copies: 2 }),
      issued('aa1', { copies: 3 }),
    ];
    expect(scheduleTotals([], keys).keys).toEqual([{ symbol: 'AA1', level: 'CK', copies: 2, from: 'Keys' }]);
  });

  it('of a keyset that the sheet Keys lacks is listed where a number of keys is asked for', () => {
    const here = lines([
      ['AA9', 1, 2],
      ['AA8', 1],
    ]);
    expect(scheduleTotals(here, [issued('AA1')]).keys).toEqual([
      { symbol: 'AA1' },
      { symbol: 'AA9', copies: 2, from: 'schedule' },
    ]);
    expect(scheduleTotals(here, []).keys).toEqual([
      { symbol: 'AA8' },
      { symbol: 'AA9', copies: 2, from: 'schedule' },
    ]);
  });

  it('is stamped with symbol and number, from the first that is free', () => {
    const keys = [{ symbol: 'AA1', copies: 2 }, { symbol: 'AA2', copies: 0 }, { symbol: 'AA' }];
    expect(stampingOf(keys)).toEqual([
      { symbol: 'AA1', stamps: ['AA1-1', 'AA1-2'] },
      { symbol: 'AA2', stamps: [] },
      { symbol: 'AA', stamps: ['AA'] },
    ]);
    expect(stampingOf(keys.slice(0, 1), { firstCopy: 9, before: 'HALL' })).toEqual([
      { symbol: 'AA1', stamps: ['HALL AA1-9', 'HALL AA1-10'] },
    ]);
  });
});
