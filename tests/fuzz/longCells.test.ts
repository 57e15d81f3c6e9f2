/**
 * Cells of 200,000 characters: where reading took the square of that, these tests didn't end. What is right is told by
 * the same cell short.
 */
import { describe, expect, it } from 'vitest';
import { auditSystem } from '../../src/keying/audit.ts';
import { bittingOf, parseBitting } from '../../src/keying/bitting.ts';
import { parseDepthSet } from '../../src/keying/chamberText.ts';
import { readCode } from '../../src/keying/importCode.ts';
import { sayReading } from '../../src/keying/importWording.ts';
import { checkSchedule } from '../../src/keying/scheduleCheck.ts';
import { readLines } from '../../src/keying/scheduleRead.ts';
import { sayScheduleFinding } from '../../src/keying/scheduleWording.ts';
import { sayChamberFault } from '../../src/keying/specWording.ts';
import { say } from '../../src/keying/wording.ts';
import { brief } from '../../src/keying/words.ts';
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

  it('is one finding as a code and as a chamber, not one for each of its characters', () => {
    for (const filling of ['l', '2-', '9', 'x ', '(', '\u0301', '\u{1F511}']) {
      const text = filling.repeat(LONG / filling.length);
      expect(parseBitting(spec, text)).toEqual({ ok: false, error: [{ code: 'not-a-code', text }] });
      const read = readCode(spec, text);
      expect(read).toMatchObject({ kind: 'unreadable', faults: [{ code: 'not-a-code' }] });
      expect(read.faults).toHaveLength(1);
      expect(read.notes.length).toBeLessThan(3);
      const chamber = parseDepthSet(spec, text);
      expect(chamber.ok ? [] : chamber.error).toMatchObject([{ code: 'chamber-not-depths' }]);
    }
    // blanks around it are no part of a code
    expect(parseBitting(spec, `${blanks}274153${blanks}`)).toEqual(parseBitting(spec, '274153'));
    expect(readCode(spec, `${blanks}274153${blanks}`)).toMatchObject({ kind: 'bitting' });
  });

  it('is told in a sentence that can be read', () => {
    for (const filling of ['l', '2-', ' x', '“', '”', '\u{1F511}', '\uD800']) {
      const text = filling.repeat(LONG / filling.length);
      const sentences = [
        sayReading(readCode(spec, text)),
        ...[parseBitting(spec, text)].flatMap((read) => (read.ok ? [] : read.error.map((f) => say(f)))),
        ...[parseDepthSet(spec, text)].flatMap((read) => (read.ok ? [] : read.error.map(sayChamberFault))),
        ...scheduleFindings(text).map(sayScheduleFinding),
        ...gridSentences(text),
      ];
      expect(sentences.length).toBeGreaterThan(3);
      for (const sentence of sentences) {
        expect(sentence.length, filling).toBeLessThan(1_300);
        if (!filling.includes('\uD800')) expect(sentence).not.toMatch(/\p{Cs}/u);
      }
    }
    expect(brief('short “text”.')).toBe('short “text”.');
    expect(brief(`“${'x'.repeat(500)}” is not a code; type it.`)).toBe(
      `“${'x'.repeat(60)}…” is not a code; type it.`,
    );
    expect(brief(`The range holds ${'0'.repeat(5_000)}.`)).toMatch(/^The range holds 0+… 0+\.$/);
    expect(brief(`The range holds ${'\u{1F511}'.repeat(5_000)}.`)).not.toMatch(/\p{Cs}/u);
    expect(brief(`${'word '.repeat(500)}end of it.`)).toMatch(/^word .*… (?:word )+end of it\.$/);
    // a second or two by itself, many where other work shares the machine
  }, 60_000);

  it('is a door, a keyset and a quantity of a schedule with findings of its own rows alone', () => {
    const found = scheduleFindings('AA1 '.repeat(LONG / 4));
    // five rows of five columns: each cell can be found fault with a few times, never once for each character
    expect(found.length).toBeLessThan(50);
    expect(found.some((f) => f.code === 'not-a-number')).toBe(true);
  });
});

function scheduleFindings(text: string) {
  const cells = [
    ['Door', 'Room', 'Keyset', 'Qty', 'Keys'],
    ['1', text, text, text, text],
    [text, 'x', 'AA1', 1, 1],
    ['3', 'x', `${text}1`, 1, 1],
    [text, '', '', '', ''],
  ];
  const columns = { headerRow: 0, door: 0, location: 1, symbol: 2, quantity: 3, keys: 4 };
  return checkSchedule(readLines(cells, columns, []), {
    keys: [{ symbol: text }, { symbol: 'AA1' }],
    cylinders: [text],
  });
}

const gridSentences = (text: string): string[] =>
  chartOf({
    box: { sheet: 'S', row: 0, column: 0, rows: 4, columns: 4 },
    merged: [],
    values: [
      ['Cylinder', 'Door', text, 'AA1'],
      ['C1', 'x', text, 'x'],
      [text, text, 'x', 'x'],
      [text, text, 'x', text],
    ],
  })?.problems.map(({ sentence }) => sentence) ?? [];
