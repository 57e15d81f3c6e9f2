/**
 * A schedule's symbols against the published key coding: ANSI/BHMA A156.28 (2000 to 2018) and the level table of the
 * LIST Council, as reprinted in the trade. Only the rules are used.
 */
import { describe, expect, it } from 'vitest';
import { checkSchedule, type ScheduleKey } from '../../src/keying/scheduleCheck.ts';
import { readLines } from '../../src/keying/scheduleRead.ts';
import { levelsOfSymbols, tidySymbol } from '../../src/keying/scheduleSymbol.ts';
import type { Level } from '../../src/keying/system.ts';

/** The level table, top to bottom, with the level of each row. */
const TABLE: readonly (readonly [levels: 2 | 3 | 4, symbols: readonly (readonly [string, Level])[]])[] = [
  [2, [['AA', 'MK'], ['1AA', 'CK']]],
  [3, [['A', 'GMK'], ['AA', 'MK'], ['AA1', 'CK']]],
  [4, [['GGMK', 'GGMK'], ['A', 'GMK'], ['AA', 'MK'], ['AA1', 'CK']]],
]; // prettier-ignore

const check = (symbols: readonly string[], keys: readonly ScheduleKey[]) =>
  checkSchedule(
    readLines([['Door', 'Keyset'], ...symbols.map((s, i) => [`D${i}`, s])], {
      headerRow: 0,
      door: 0,
      symbol: 1,
    }),
    { keys, cylinders: [] },
  );

const keysOf = (symbols: (typeof TABLE)[number][1]): ScheduleKey[] =>
  symbols.map(([symbol, level]) => ({ symbol, level, status: 'issued' }));

describe('the levels that symbols tell', () => {
  // the rows of five and six levels of the same table
  it.each([
    [5, ['GGGMK', 'A', 'AA', 'AAA', 'AAA1']],
    [6, ['GGGMK', 'A', 'AA', 'AAA', 'AAAA', 'AAAA1']],
  ] as const)('are %i by %j, however it is typed', (levels, symbols) => {
    expect(levelsOfSymbols(symbols)).toBe(levels);
    expect(levelsOfSymbols(symbols.map((s) => ` ${s.toLowerCase()} `))).toBe(levels);
    expect(levelsOfSymbols(['GGGM', symbols.at(-1)!])).toBe(levels);
  });

  it('go by the top as it is printed either way, and by the side of the number', () => {
    for (const [levels, symbols] of TABLE)
      expect(levelsOfSymbols(symbols.map(([s]) => ` ${s.toLowerCase()} `))).toBe(levels);
    expect(levelsOfSymbols(['GGM', '1AA'])).toBe(4);
    expect(levelsOfSymbols(['1AA', '2AA', 'AA1'])).toBe(2);
    expect(levelsOfSymbols(['12AA (NMK)', '2AA', 'AA1'])).toBe(2);
    expect(levelsOfSymbols(['1AA', 'AA1'])).toBe(3);
    expect(levelsOfSymbols(['1AA', 'AA1 (ENG)', 'AA12'])).toBe(3);
    // whole symbols only: none of these is one of two levels
    expect(levelsOfSymbols(['1AAB', '2AAB', 'B1AA', 'X 1AA'])).toBe(3);
    expect(levelsOfSymbols(['1AA', 'CAA1', 'AA1B'])).toBe(2);
    expect(levelsOfSymbols([])).toBe(3);
  });
});

describe('the published key coding, at the doors of a schedule', () => {
  it.each(TABLE)(
    'of %i levels: the change key of the table stands, and only its own notation',
    (levels, symbols) => {
      const keys = keysOf(symbols);
      const change = symbols.at(-1)![0];
      expect(levelsOfSymbols(symbols.map(([s]) => s))).toBe(levels);
      expect(check([change], keys)).toEqual([]);
      const other = levels === 2 ? 'AA1' : '1AA';
      expect(check([change, other], keys).map((f) => f.code)).toContain('symbol-other-levels');
    },
  );

  it.each(TABLE.slice(1))('of %i levels: each key above has to be there', (levels, symbols) => {
    for (const [missing] of symbols.slice(levels === 4 ? 1 : 0, -1)) {
      const keys = keysOf(symbols.filter(([s]) => s !== missing)).concat({
        symbol: missing === 'A' ? 'B' : 'AB',
        level: 'MK',
      });
      const found = check([symbols.at(-1)![0]], keys).flatMap((f) =>
        f.code === 'parent-missing' ? [f.parent] : [],
      );
      expect(found, missing).toEqual([missing]);
    }
  });

  it('leaves every form of the coding as it is written', () => {
    const forms = [
      'AA1', '1AA (NMK)', 'AA1 (ENG)', 'SKD1', 'CTR', 'KA1', 'KA/2', 'X1X', 'XAA3 (operated by AA1, AA2, AA and A)',
      'A2A', 'A2B7', 'GGMK', 'GGM',
    ]; // prettier-ignore
    for (const form of forms) expect(tidySymbol(form), form).toBeUndefined();
    expect(
      check(['SKD', 'KA/2', 'CTR'], keysOf(TABLE[1]![1])).filter((f) => f.code !== 'key-without-door'),
    ).toEqual([]);
  });

  it('warns of I and O at the doors, and of X but for cross-keying', () => {
    const letters = check(['OA', 'IB', 'XC', 'X1X', 'AA1'], []).flatMap((f) =>
      f.code === 'symbol-letter' ? [[f.symbol, f.letter, f.reserved]] : [],
    );
    expect(letters).toEqual([
      ['OA', 'O', false],
      ['IB', 'I', false],
      ['XC', 'X', true],
    ]);
  });
});
