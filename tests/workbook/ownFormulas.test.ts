/** Formulas of ours in cells made by hand: which of them are gone or broken, and how that is said. */
import { describe, expect, it } from 'vitest';
import { checkCode, headerReference, judgeReadings, linkTo } from '../../src/workbook/formulas.ts';
import { brokenFormulas, formulaColumnsOf, sayBroken } from '../../src/workbook/ownFormulas.ts';
import type { CellValue } from '../../src/workbook/reading.ts';
import { bookOf, tableOf } from './byHand.ts';

/** A table of keys whose column Check has these formulas over these values. */
function keys(...cells: readonly (readonly [symbol: string, formula: CellValue, value: CellValue])[]) {
  const table = tableOf('KeyrowKeys', 'Keys', [
    ['Symbol', 'CHECK', 'System', 'Bitting'],
    ...cells.map(([symbol, , value]) => [symbol, value]),
  ]);
  return { ...table, formulas: cells.map(([symbol, formula]) => [symbol, formula]) };
}

describe('formulas of ours', () => {
  it('are told where they are overwritten, missing or broken', () => {
    const book = bookOf(
      keys(
        ['A', '=KEYROW.WHY(1)', ''],
        ['B', 'good', 'good'],
        ['C', '', ' '],
        ['D', '=KEYROW.WHY(#REF!)', 'x'],
        ['E', '=KEYROW.WHY(1)', '#REF!'],
        ['F', '=KEYROW.WHY(1)', '#NAME?'],
        ['G', '=TODAY()', 46095],
        // text that looks like a formula is none
        ['H', '=A1', '=A1'],
        // nothing but the formula's own cell is no row
        ['', 'good', 'good'],
        ['I', 3, 3],
      ),
    );
    const broken = brokenFormulas(book);
    expect(broken.map(({ at, why, holds }) => [at.address, why, holds])).toEqual([
      ['C6', 'overwritten', 'good'],
      ['C7', 'missing', ' '],
      ['C8', 'reference', 'x'],
      ['C9', 'reference', '#REF!'],
      ['C10', 'name', '#NAME?'],
      ['C12', 'overwritten', '=A1'],
      ['C14', 'overwritten', '3'],
    ]);
    expect(broken[0]).toMatchObject({ at: { sheet: 'Keys' }, table: 'KeyrowKeys', heading: 'Check' });
    expect(broken.slice(0, 5).map(sayBroken)).toEqual([
      'Check holds “good” where a formula was.',
      'Check is empty where a formula should be.',
      'Check has a formula whose reference broke (#REF!).',
      'Check has a formula whose reference broke (#REF!).',
      'Check has a formula that Excel does not know (#NAME?).',
    ]);
  });

  it('have columns in the keys and the cylinders, and in no other table', () => {
    const found = (name: string) =>
      formulaColumnsOf(tableOf(name, 'Any', [['A']]))?.filter((c) => c.formula).map((c) => c.heading); // prettier-ignore
    expect(found('keyrowkeys')).toEqual(['Check']);
    expect(found('KeyrowCylinders')).toEqual(['Combinations']);
    expect(found('KeyrowSystems')).toBeUndefined();
    const other = tableOf('KeyrowSystems', 'Systems', [['Check'], ['good']]);
    expect(brokenFormulas(bookOf(other))).toEqual([]);
    // a column that is gone, and a table whose formulas were not read
    expect(brokenFormulas(bookOf(tableOf('KeyrowKeys', 'Keys', [['Symbol'], ['A']])))).toEqual([]);
    const first = {
      ...tableOf('KeyrowKeys', 'Keys', [
        ['Check', 'Symbol'],
        ['', 'A'],
      ]),
      formulas: [],
    };
    expect(brokenFormulas(bookOf(first)).map(({ at, why }) => [at.address, why])).toEqual([
      ['B5', 'missing'],
    ]);
  });

  it('quote names as Excel wants them', () => {
    expect(checkCode('B7', 'S "6"')).toBe('=KEYROW.WHY(B7,"S ""6""",KeyrowSpecs[#All])');
    expect(judgeReadings('KeyrowCutting', 'Cut 1', 'Cut 6', 'S "6"')).toBe(
      '=KEYROW.JUDGE(KeyrowCutting[@[Cut 1]:[Cut 6]],KeyrowCutting[@Bitting],"S ""6""",KeyrowSpecs[#All])',
    );
    expect(judgeReadings('T', 'A', 'B', 'S', 'mm')).toBe(
      '=KEYROW.JUDGE(T[@[A]:[B]],T[@Bitting],"S",KeyrowSpecs[#All],"mm")',
    );
    expect(linkTo({ sheet: 'Keys', address: 'E14' })).toBe(`=HYPERLINK("#'Keys'!E14","Keys!E14")`);
    expect(linkTo({ sheet: 'The "old" one', address: 'A1' })).toBe(
      `=HYPERLINK("#'The ""old"" one'!A1","'The ""old"" one'!A1")`,
    );
    // the five characters that structured references escape with an apostrophe (Microsoft's support page on them)
    expect(headerReference(`It's [x] @ #1`)).toBe(`It''s '[x'] '@ '#1`);
  });
});
