/**
 * Cells of 200,000 characters: where reading took the square of that, these tests didn't end. What is right is told by
 * the same cell short.
 */
import { describe, expect, it } from 'vitest';
import { auditSystem } from '../../src/keying/audit.ts';
import { bittingOf } from '../../src/keying/bitting.ts';
import { parseMoment } from '../../src/keying/calendar.ts';
import { EVERY } from '../../src/keying/depthSet.ts';
import { intendedByHierarchy } from '../../src/keying/intended.ts';
import { starterSpec } from '../../src/keying/starters.ts';
import { parseKeySymbol } from '../../src/keying/symbol.ts';
import { runToEnd, withoutAside, type KeyRecord } from '../../src/keying/system.ts';
import { chartOf } from '../../src/workbook/index.ts';
import { refersTo } from '../../src/workbook/references.ts';

const spec = starterSpec('S-018-6')!;

describe('a very long cell', () => {
  const LONG = 200_000;
  const blanks = ' '.repeat(LONG);

  it('is no symbol', () => {
    expect(parseKeySymbol(`X1X (operated by AA1${blanks}and AA2)`)).toMatchObject({
      ok: false,
      error: { code: 'symbol-too-long' },
    });
  });

  it('is no date', () => {
    const long = `2026-03-14${blanks}${'T'.repeat(LONG)}${blanks}09:30`;
    expect(parseMoment(long)).toEqual({ ok: false, error: { code: 'not-a-day', text: long } });
    expect(parseMoment(`${blanks}2026-03-14 09:30${blanks}`)).toMatchObject({
      ok: true,
      value: { minutes: 570 },
    });
  });

  it('is keyed to the symbol in front of its brackets', () => {
    expect(withoutAside('AA1 (ENG)')).toBe('AA1');
    expect(withoutAside('AA1 (ENG')).toBe('AA1 (ENG');
    expect(withoutAside(`AA1${blanks}(${'('.repeat(LONG)})`)).toBe('AA1');
    const keys: KeyRecord[] = [
      { symbol: 'AA1', level: 'CK', bitting: bittingOf(spec, [1, 2, 3, 4, 5, 6]), status: 'issued' },
    ];
    const opened = (symbol: string) => intendedByHierarchy(keys, [{ symbol }]);
    expect(opened('XAA1 (shared)')).toEqual([[0]]);
    expect(opened(`XAA1${blanks}(shared)`)).toEqual([[0]]);
    expect(opened(`A${blanks}x`)).toEqual([[]]);
    expect(opened(`A${'('.repeat(LONG)}`)).toEqual([[]]);
    const report = runToEnd(
      auditSystem({
        spec,
        keys,
        cylinders: [`XAA1${blanks}(shared)`, `A${blanks}x`, `A${'('.repeat(LONG)}`].map((symbol, c) => ({
          id: `C${c + 1}`,
          symbol,
          chambers: spec.centres.map(() => EVERY),
        })),
        intended: [[0], [0], [0]],
      }),
    );
    expect(report.counts['key-missing']).toBe(2);
  });

  it('refers to a sheet or a table that it names, and to no other', () => {
    const ours = { sheets: new Set(['keys', "owner's keys"]), tables: new Set(['keyrowkeys']) };
    const refers = (formula: string) => refersTo(formula, ours);
    for (const formula of [
      "=SUM('Keys'!A1:A9)",
      '=Keys!A1',
      '=Specs:Keys!A1',
      "='Specs:Keys'!A1",
      "='Owner''s keys'!A1",
      '=SUM(KeyrowKeys[Copies])',
      "=Doors[It''s]+KeyrowKeys[Copies]",
    ])
      expect(refers(formula), formula).toBe(true);
    for (const formula of ['="Keys!A1"', '=Keys2!A1', '=KeyrowKeys(1)', '=KeyrowKeys!A1', '=MyKeys!A1'])
      expect(refers(formula), formula).toBe(false);
    for (const filling of ['A', '1', "'", '"', '!', "'!", '(', ' ', 'A1', 'X!', "''!"]) {
      const filled = filling.repeat(LONG / filling.length);
      expect(refers(`=${filled}`), filling).toBe(false);
      expect(refers(`=Keys!A1+${filled}`), filling).toBe(true);
    }
  });

  it('lists keys in a grid with any number of blanks between', () => {
    const keysIn = (cell: string) =>
      chartOf({
        box: { sheet: 'S', row: 0, column: 0, rows: 2, columns: 2 },
        merged: [],
        values: [
          ['Cylinder', 'Keys'],
          ['C1', cell],
        ],
      })?.keys.map(({ symbol }) => symbol);
    expect(keysIn('AA1, AA2;A')).toEqual(['AA1', 'AA2', 'A']);
    expect(keysIn(`AA1${blanks},${blanks}AA2;${blanks}A`)).toEqual(['AA1', 'AA2', 'A']);
  });
});
