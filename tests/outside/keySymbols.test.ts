/**
 * Key symbols against the published key coding: ANSI/BHMA A156.28 (2000 to 2018) and the level table of the LIST
 * Council, as reprinted in the trade. Only the rules are used.
 */
import { describe, expect, it } from 'vitest';
import {
  compareKeySymbols,
  formatKeySymbol,
  grandSymbol,
  levelOfSymbol,
  masterSymbol,
  nextSymbol,
  parentSymbol,
  parseKeySymbol,
  topSymbol,
  type KeySymbol,
  type SystemLevels,
} from '../../src/keying/index.ts';
import { LEVEL_TABLE } from './values.ts';

function read(text: string, levels: SystemLevels = 3): KeySymbol {
  const parsed = parseKeySymbol(text, { levels });
  if (!parsed.ok) throw new Error(parsed.error.code);
  return parsed.value;
}

describe('the published key coding', () => {
  it.each(LEVEL_TABLE)('of %i levels', (levels, symbols) => {
    expect(topSymbol(levels)).toBe(symbols[0]);
    symbols.forEach((symbol, i) => {
      expect(read(symbol, levels).kind).not.toBe('own');
      expect(read(symbol, levels).notes).toBeUndefined();
      expect(formatKeySymbol(read(symbol, levels))).toBe(symbol);
      expect(parentSymbol(symbol, { levels })).toBe(i === 0 ? undefined : symbols[i - 1]);
    });
  });

  it('prints the top of four levels also as GGM', () => {
    expect(read('GGM', 4)).toEqual({ kind: 'top', text: 'GGM' });
    expect(levelOfSymbol('GGM', { levels: 4 })).toBe('GGMK');
  });

  it('puts the number first in two levels and last in three', () => {
    expect(read('1AA', 2)).toEqual({
      kind: 'hierarchy',
      letters: 'AA',
      series: 1,
      number: 1,
      numberFirst: true,
    });
    expect(read('AA1', 3)).toEqual({
      kind: 'hierarchy',
      letters: 'AA',
      series: 1,
      number: 1,
      numberFirst: false,
    });
  });

  it.each<[string, KeySymbol]>([
    ['SKD1', { kind: 'single-keyed', number: 1 }],
    ['CTR', { kind: 'control' }],
    ['KA1', { kind: 'keyed-alike', number: 1 }],
    ['KA/2', { kind: 'keyed-alike', quantity: 2 }],
    ['X1X', { kind: 'cross-keyed-only', number: 1 }],
    [
      '1AA (NMK)',
      { kind: 'hierarchy', letters: 'AA', series: 1, number: 1, numberFirst: true, notMasterKeyed: true },
    ],
    [
      'AA1 (ENG)',
      { kind: 'hierarchy', letters: 'AA', series: 1, number: 1, numberFirst: false, selective: 'ENG' },
    ],
    [
      'XAA3 (operated by AA1, AA2, AA and A)',
      {
        kind: 'cross-keyed',
        own: { kind: 'hierarchy', letters: 'AA', series: 1, number: 3, numberFirst: false },
        operatedBy: ['AA1', 'AA2', 'AA', 'A'],
      },
    ],
  ])('reads %s and writes it so again', (text, symbol) => {
    expect(read(text)).toEqual(symbol);
    expect(formatKeySymbol(symbol)).toBe(text);
  });

  it('avoids I and O, and keeps X for cross-keying', () => {
    const grands = Array.from({ length: 30 }, (_, n) => grandSymbol(n)).filter((s) => s !== undefined);
    expect(grands.join('')).toBe('ABCDEFGHJKLMNPQRSTUVWYZ');
    expect(read('IA').notes).toEqual([{ code: 'avoided-letter', symbol: 'IA', letter: 'I' }]);
    expect(read('XA').notes).toEqual([{ code: 'reserved-letter', symbol: 'XA', letter: 'X' }]);
  });

  it('avoids Q too where the shop wants it: one source does', () => {
    expect(nextSymbol('P', { avoid: 'IOQ' })).toBe('R');
    expect(nextSymbol('P')).toBe('Q');
  });

  it('goes on with A2A after the 24 masters that the letters give', () => {
    const masters = Array.from({ length: 50 }, (_, n) => masterSymbol('A', n));
    expect(masters.slice(0, 9)).toEqual(['AA', 'AB', 'AC', 'AD', 'AE', 'AF', 'AG', 'AH', 'AJ']);
    expect(masters[23]).toBe('AZ');
    expect(masters.slice(24, 26)).toEqual(['A2A', 'A2B']);
    expect(masters[48]).toBe('A3A');
    masters.slice(1).forEach((symbol, n) => expect(nextSymbol(masters[n]!)).toBe(symbol));
    expect(parentSymbol('A2B7')).toBe('A2B');
    expect(parentSymbol('A2B')).toBe('A');
  });

  it('keeps controlled cross-keying under the same higher key: XAA3 lies under AA', () => {
    expect(parentSymbol('XAA3')).toBe('AA');
    expect(parentSymbol('X1X')).toBeUndefined();
  });

  it('has no key above a cylinder that is not master keyed', () => {
    expect(parentSymbol('AA1 (NMK)')).toBeUndefined();
  });

  it('sorts naturally, AA2 before AA10', () => {
    const sorted = [
      'GGMK', 'A', 'AA', 'AA1', 'AA2', 'XAA2', 'AA10', 'AB', 'AB1', 'AZ', 'A2A', 'A2A1', 'B', 'BA', 'BA1',
      'X1X', 'X2X', 'KA1', 'SKD1', 'SKD2', 'CTR', 'Boiler 2', 'Boiler 10',
    ]; // prettier-ignore
    expect([...sorted].reverse().sort((a, b) => compareKeySymbols(a, b))).toEqual(sorted);
  });
});
