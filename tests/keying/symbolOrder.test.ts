/** Rarer forms of the published key coding (ANSI/BHMA A156.28), and the order of a list of symbols. */
import { describe, expect, it } from 'vitest';
import {
  changeSymbol,
  formatKeySymbol,
  levelOfSymbol,
  nextSymbol,
  parentSymbol,
  parseKeySymbol,
  sortKeySymbols,
  compareKeySymbols,
  type SystemLevels,
} from '../../src/keying/index.ts';

const read = (text: string, levels: SystemLevels = 3) => {
  const parsed = parseKeySymbol(text, { levels });
  if (!parsed.ok) throw new Error(parsed.error.code);
  return parsed.value;
};

describe('the order of symbols', () => {
  it('goes from the top down, each group by its numbers, the shop’s own last', () => {
    const sorted = [
      'GGMK',
      'A',
      'AA',
      'AA2',
      'XAA2',
      'AA10',
      'AB',
      'A2A',
      'B',
      'X1X',
      'X12X',
      'KA/2',
      'KA/10',
      'KA1',
      'KA10',
      'SKD',
      'SKD2',
      'SKD10',
      'CTR',
      'CTR3',
      'Office',
      'office 9',
      'Office 10',
    ];
    expect(sortKeySymbols([...sorted].reverse())).toEqual(sorted);
    expect(sortKeySymbols(['', ...sorted].reverse())).toEqual([...sorted, '']);
  });

  it('tells symbols apart that are written unlike, always the same way', () => {
    expect(compareKeySymbols('AA1', 'aa1')).toBe(-1);
    expect(compareKeySymbols('aa1', 'AA1')).toBe(1);
    expect(compareKeySymbols('AA1', 'AA1')).toBe(0);
    expect(sortKeySymbols(['aa1', 'AA1'])).toEqual(['AA1', 'aa1']);
    expect(sortKeySymbols(['AA1', 'aa1'])).toEqual(['AA1', 'aa1']);
  });
});

describe('levels and parents', () => {
  it('of tops, cross-keyed keys and what stands outside', () => {
    expect(levelOfSymbol('')).toBeUndefined();
    expect(levelOfSymbol('GGGMK', { levels: 5 })).toBeUndefined();
    expect(levelOfSymbol('GGGM', { levels: 5 })).toBeUndefined();
    expect(levelOfSymbol('GGM', { levels: 4 })).toBe('GGMK');
    expect(levelOfSymbol('XAA3')).toBe('CK');
    expect(levelOfSymbol('SKD1')).toBeUndefined();
    expect(parentSymbol('XAA3')).toBe('AA');
    expect(parentSymbol('A2A7')).toBe('A2A');
    expect(parentSymbol('AA1 (NMK)')).toBeUndefined();
    expect(parentSymbol('AA', { levels: 2 })).toBeUndefined();
  });

  it('puts the number first in two levels only', () => {
    expect(changeSymbol('AA', 3, 2)).toBe('3AA');
    expect(changeSymbol('AA', 3, 3)).toBe('AA3');
    expect(changeSymbol('AA', 3)).toBe('AA3');
    expect(read('1AAA', 5).kind).toBe('own');
  });
});

describe('what follows', () => {
  it.each([
    ['', undefined],
    ['KA/2', undefined],
    ['12-099', '12-100'],
    ['Room 1a', undefined],
    ['007', '008'],
    ['X9X', 'X10X'],
    ['CTR9', 'CTR10'],
  ])('after %j: %j', (text, next) => {
    expect(nextSymbol(text)).toBe(next);
  });
});

describe('what is written behind a symbol', () => {
  it.each([
    ['XAA3 (operated by AA1, AA2 & B)', ['AA1', 'AA2', 'B']],
    ['XAA3 (operated by AA1,AA2&B)', ['AA1', 'AA2', 'B']],
    ['XAA3 (Oper.  by  AA1  and  B)', undefined],
    ['XAA3 (op. by AA1)', ['AA1']],
    ['XAA3 (opr by AA1)', ['AA1']],
    ['XAA3 (opr. by  AA1  and  B)', ['AA1', 'B']],
    ['XAA3 (operated  by AA1, , B)', ['AA1', 'B']],
    ['X1X (not operated by AA1)', undefined],
  ])('%s', (text, operatedBy) => {
    const symbol = read(text);
    expect('operatedBy' in symbol ? symbol.operatedBy : undefined).toEqual(operatedBy);
    expect(symbol.kind === 'own').toBe(operatedBy === undefined);
  });

  it('is written back in one way', () => {
    expect(formatKeySymbol(read('X1X(opr by AA1)'))).toBe('X1X (operated by AA1)');
    expect(formatKeySymbol(read('XAA3 (op by AA1, AA2, A)'))).toBe('XAA3 (operated by AA1, AA2 and A)');
    expect(formatKeySymbol(read('XAA3'))).toBe('XAA3');
    expect(formatKeySymbol({ kind: 'cross-keyed-only', number: 1, operatedBy: [] })).toBe('X1X');
    expect(formatKeySymbol(read('SKD'))).toBe('SKD');
    expect(formatKeySymbol(read('CTR'))).toBe('CTR');
    expect(formatKeySymbol({ kind: 'keyed-alike' })).toBe('KA');
  });

  it('is a mark of two to six letters, else the whole is the shop’s own', () => {
    expect(read('AA1 ( eng )')).toMatchObject({ kind: 'hierarchy', selective: 'ENG' });
    expect(read('AA1(NMK)')).toMatchObject({ kind: 'hierarchy', notMasterKeyed: true });
    for (const text of ['AA1 (E)', 'AA1 (engineer)', 'AA1 (E4)', 'AA1 (4EN)', 'AA1 (EN4)', 'SKD1 (ENG)'])
      expect(read(text)).toEqual({ kind: 'own', text });
  });
});

describe('marks of their own', () => {
  it.each<[string, object]>([
    ['GGGM', { kind: 'top', text: 'GGGM' }],
    ['KA/12', { kind: 'keyed-alike', quantity: 12 }],
    ['KA12', { kind: 'keyed-alike', number: 12 }],
    ['SKD123', { kind: 'single-keyed', number: 123 }],
    ['X12X', { kind: 'cross-keyed-only', number: 12 }],
    ['SKA/2', { kind: 'own', text: 'SKA/2' }],
    ['KA/2B', { kind: 'own', text: 'KA/2B' }],
    ['KA/2/', { kind: 'own', text: 'KA/2/' }],
    ['AX1X', { kind: 'own', text: 'AX1X' }],
    ['X1X2', { kind: 'own', text: 'X1X2' }],
  ])('%s', (text, symbol) => {
    expect(read(text)).toEqual(symbol);
  });

  it('may be sixty characters long', () => {
    expect(read('b'.repeat(60))).toEqual({ kind: 'own', text: 'b'.repeat(60) });
  });
});
