import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  changeSymbol,
  compareKeySymbols,
  formatKeySymbol,
  grandSymbol,
  levelOfSymbol,
  masterSymbol,
  nextSymbol,
  parentSymbol,
  parseKeySymbol,
  sortKeySymbols,
} from '../../src/keying/index.ts';

const kindOf = (text: string): string => {
  const parsed = parseKeySymbol(text);
  return parsed.ok ? parsed.value.kind : parsed.error.code;
};

describe('key symbols', () => {
  it.each([
    'Boiler house',
    'A-1',
    'AA 1',
    'A1',
    'AA01',
    'AA0',
    '1AA1',
    'AAA1',
    'A1A',
    'TMK',
    'GMK',
    'AA1 (',
    'ÄA1',
    '12',
  ])('keeps a shop’s own %s as written', (text) => {
    expect(parseKeySymbol(text)).toEqual({ ok: true, value: { kind: 'own', text } });
    expect(parentSymbol(text)).toBeUndefined();
  });

  it('refuses nothing and too much', () => {
    expect(kindOf('  ')).toBe('symbol-empty');
    expect(parseKeySymbol('A'.repeat(61))).toEqual({
      ok: false,
      error: { code: 'symbol-too-long', length: 61, most: 60 },
    });
  });

  it('reads what it writes, whatever the text', () => {
    const coded = fc.stringMatching(
      /^X?[1-9]?[A-Z]{0,2}[1-9]?[A-Z]?[0-9]{0,3}( \((NMK|ENG|operated by AA1 and B)\))?$/,
    );
    fc.assert(
      fc.property(fc.oneof(fc.string(), coded), fc.constantFrom(2, 3, 4, 5, 6), (text, levels) => {
        const parsed = parseKeySymbol(text, { levels: levels as 2 });
        if (!parsed.ok) return;
        const again = formatKeySymbol(parsed.value);
        expect(again.replace(/\s/g, '').toUpperCase()).toBe(text.replace(/\s/g, '').toUpperCase());
        expect(parseKeySymbol(again, { levels: levels as 2 })).toEqual(parsed);
      }),
      { numRuns: 2000 },
    );
  });

  it('names a hierarchy whose every symbol is read back at its level', () => {
    for (let g = 0; g < 23; g++) {
      const grand = grandSymbol(g)!;
      expect(levelOfSymbol(grand)).toBe('GMK');
      for (let m = 0; m < 60; m++) {
        const master = masterSymbol(grand, m);
        expect([levelOfSymbol(master), parentSymbol(master)]).toEqual(['MK', grand]);
        for (const n of [1, 10, 123]) {
          const change = changeSymbol(master, n);
          expect([levelOfSymbol(change), parentSymbol(change)]).toEqual(['CK', master]);
          expect(nextSymbol(change)).toBe(changeSymbol(master, n + 1));
        }
        expect(parentSymbol(changeSymbol(master, 7, 2), { levels: 2 })).toBe(master);
      }
    }
  });

  it.each([
    ['SKD9', 'SKD10'],
    ['X1X', 'X2X'],
    ['KA4', 'KA5'],
    ['CTR', 'CTR1'],
    ['9AA', '10AA'],
    ['H', 'J'],
    ['W', 'Y'],
    ['Z', undefined],
    ['Office 09', 'Office 10'],
    ['Office', undefined],
    ['GGMK', undefined],
    ['XAA3', undefined],
  ])('after %s comes %s', (symbol, next) => {
    expect(nextSymbol(symbol)).toBe(next);
  });

  it('orders any texts totally', () => {
    const text = fc.oneof(fc.string({ maxLength: 4 }), fc.stringMatching(/^X?[AB]{0,2}[0-9]{0,2}X?$/));
    fc.assert(
      fc.property(text, text, text, (a, b, c) => {
        const sign = (x: string, y: string) => Math.sign(compareKeySymbols(x, y));
        expect(sign(a, b) + sign(b, a)).toBe(0);
        if (sign(a, b) <= 0 && sign(b, c) <= 0) expect(sign(a, c)).toBeLessThanOrEqual(0);
        if (a !== b) expect(sign(a, b)).not.toBe(0);
        expect(sortKeySymbols([a, b, c])).toEqual([a, b, c].sort((x, y) => compareKeySymbols(x, y)));
      }),
      { numRuns: 1000 },
    );
  });
});

describe('KA, which is a master of grand K and a group keyed alike', () => {
  it('is left to keyed alike: grand K begins with KB', () => {
    expect(masterSymbol('K', 0)).toBe('KB');
    expect(masterSymbol('K', 23)).toBe('K2A');
    expect(kindOf('KA1')).toBe('keyed-alike');
  });
});
