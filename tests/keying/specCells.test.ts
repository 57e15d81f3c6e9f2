import { describe, expect, it } from 'vitest';
import {
  cellText,
  isBlank,
  lengthText,
  readChoiceCell,
  readLengthCell,
  readLengthList,
  readNumberCell,
  readSymbolList,
} from '../../src/keying/specCells.ts';
import { inches, lengthOf, millimetres } from '../../src/keying/units.ts';

describe('a blank cell', () => {
  it('is one that shows nothing', () => {
    for (const cell of [null, undefined, '', ' \n']) {
      expect(isBlank(cell)).toBe(true);
      expect(cellText(cell)).toBe('');
    }
    for (const cell of [0, false, ' x ']) expect(isBlank(cell)).toBe(false);
    expect(cellText(' x ')).toBe('x');
  });
});

describe('a length', () => {
  it('is neither a tick nor an empty cell', () => {
    expect(readLengthCell(true, 'in')).toEqual({
      ok: false,
      error: { code: 'cell-not-length', text: 'true' },
    });
    expect(readLengthCell(null, 'in')).toEqual({
      ok: false,
      error: { code: 'cell-not-length', text: 'null' },
    });
    expect(readLengthCell(' wide ', 'in')).toEqual({
      ok: false,
      error: { code: 'cell-not-length', text: 'wide' },
    });
  });

  it('goes out as short text that reads back exactly', () => {
    expect(lengthText(inches(0.3), 'in')).toBe('0.3');
    expect(lengthText(inches(0.0125), 'in')).toBe('0.0125');
    expect(lengthText(millimetres(10), 'mm')).toBe('10');
    expect(lengthText(millimetres(100.05), 'mm')).toBe('100.05');
    expect(lengthText(lengthOf(1_000_001), 'mm')).toBe('1.000001');
  });
});

describe('a number', () => {
  it.each([
    [7, 7],
    ['7', 7],
    ['-7', -7],
    ['+7', 7],
    ['22,5', 22.5],
    ['22.25', 22.25],
    ['90°', 90],
    ['90 °', 90],
    ['90 DEG', 90],
    ['90 degrees', 90],
    [' 120 ', 120],
  ])('reads %j', (cell, value) => {
    expect(readNumberCell(cell)).toEqual({ ok: true, value });
  });

  it.each(['x7', '7x', '7 cuts', '1.2.3', '7.', '2x5', '*7', '90 °C'])('refuses %j', (cell) => {
    expect(readNumberCell(cell)).toEqual({ ok: false, error: { code: 'cell-not-number', text: cell } });
  });

  it('refuses what is no number to count with', () => {
    for (const cell of [NaN, Infinity, true, null]) expect(readNumberCell(cell).ok).toBe(false);
  });
});

describe('a choice', () => {
  it('may be written in any case, with spaces or hyphens', () => {
    for (const cell of ['bow-to-tip', ' Bow to tip', 'BOW – TO – TIP', 'bow_to  tip'])
      expect(readChoiceCell(cell, ['bow-to-tip', 'tip-to-bow'])).toEqual({ ok: true, value: 'bow-to-tip' });
    expect(readChoiceCell(' up ', ['in'])).toEqual({
      ok: false,
      error: { code: 'cell-not-choice', text: 'up', choices: ['in'] },
    });
  });
});

describe('a list', () => {
  it('of lengths ignores empty entries and names the one that is none', () => {
    expect(readLengthList('0.2;; 0.35\n', 'in')).toEqual({ ok: true, value: [inches(0.2), inches(0.35)] });
    expect(readLengthList('0.2; far; near', 'in')).toEqual({
      ok: false,
      error: { code: 'list-not-lengths', text: 'far' },
    });
  });

  it('of depths takes symbols of two characters, spaces and either sign', () => {
    expect(readSymbolList('10 = 0.3; 11 : 0.28;', 'in')).toEqual({
      ok: true,
      value: [
        ['10', inches(0.3)],
        ['11', inches(0.28)],
      ],
    });
  });

  it.each(['1 2=0.3', '=0.3', '1', '1=wide', '1x0.3'])('of depths refuses %j', (text) => {
    expect(readSymbolList(text, 'in')).toEqual({ ok: false, error: { code: 'list-not-depths', text } });
  });

  it('of depths takes a letter in either case for one symbol', () => {
    expect(readSymbolList('a=0.3; A=0.28', 'in')).toEqual({
      ok: false,
      error: { code: 'list-symbol-repeated', symbol: 'A' },
    });
  });
});
