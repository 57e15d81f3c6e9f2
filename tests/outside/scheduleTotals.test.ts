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
