import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findDelimiter, splitPasted } from '../../src/keying/importText.ts';

describe('splitPasted', () => {
  it('finds the delimiter of common lists', () => {
    expect(findDelimiter('Mark\tCode\nAA1\t274153')).toBe('tab');
    expect(findDelimiter('Mark;Code;Qty\nAA1;2-7-4-1-5-3;2\nAA2;3-5-4-6-3-5;1')).toBe('semicolon');
    expect(findDelimiter('AA1,274153\nAA2,354635')).toBe('comma');
    expect(findDelimiter('AA1  274153\nAA2  354635')).toBe('spaces');
    expect(findDelimiter('AA1 274153\nAA2 354635')).toBe('space');
    expect(findDelimiter('274153\n354635')).toBe('none');
  });

  it('does not cut a code up into its symbols', () => {
    expect(findDelimiter('2,7,4,1,5,3\n3,5,4,6,3,5')).toBe('none');
    expect(findDelimiter('2 7 4 1 5 3\n3 5 4 6 3 5')).toBe('none');
    expect(findDelimiter('274 153\n354 635')).toBe('none');
    expect(findDelimiter('AA1 2,7,4,1,5,3\nAA2 3,5,4,6,3,5')).toBe('space');
    // cuts in columns, as a sheet gives them
    expect(findDelimiter('2\t7\t4\t1\t5\t3')).toBe('tab');
    expect(findDelimiter('AA1,2,7,4,1,5,3,10\nAA2,3,5,4,6,3,5,12')).toBe('comma');
  });

  it('takes four cells of a symbol each, or more, for a code cut up, where every second line is', () => {
    expect(findDelimiter('2,7,4\n3,5,4')).toBe('comma');
    expect(findDelimiter('2,7,4,1\n3,5,4,6')).toBe('none');
    expect(findDelimiter('10,2,12,1\nA,b,C,d')).toBe('none');
    expect(findDelimiter('100,2,12,1\n100,b,C,d')).toBe('comma');
    expect(findDelimiter('2,7,4,?\n3,5,4,?')).toBe('comma');
    expect(findDelimiter('2,7,4,1\nAA1,x,y,z')).toBe('none');
    expect(findDelimiter('2,7,4,1\nAA1,x,y,z\nAA2,x,y,z')).toBe('comma');
    // a code behind a name, a space between: the name's last sign is a cut
    expect(findDelimiter('Hall 10,2,7,4\nGym 3,5,4,6')).toBe('space');
    expect(findDelimiter('Hall 1 room,2,7,4\nGym 2 room,5,4,6')).toBe('comma');
    expect(findDelimiter('AA1 2 7 4\nAA2 3 5 4')).toBe('space');
    expect(findDelimiter('A 2 7 4\nB 3 5 4')).toBe('none');
  });

  it('takes spaces between groups of two to four figures for part of a code', () => {
    expect(findDelimiter('27 41 53\n35 46 35')).toBe('none');
    expect(findDelimiter('2741 5312\n3546 3512')).toBe('none');
    expect(findDelimiter('27415 31\n35463 51')).toBe('space');
    expect(findDelimiter('2 7415\n3 5463')).toBe('space');
    expect(findDelimiter('274 153\nAA1 354')).toBe('space');
    expect(findDelimiter('274 15a\n354 63a')).toBe('space');
    expect(findDelimiter('274 a15\n354 a63')).toBe('space');
    expect(findDelimiter('274;153\n354;635')).toBe('semicolon');
  });

  it('wants four lines in five to have the usual number of cells', () => {
    const lines = (good: number, ...others: string[]) =>
      [...Array<string>(good).fill('AA1;274153'), ...others].join('\n');
    expect(findDelimiter(lines(4, 'x'))).toBe('semicolon');
    expect(findDelimiter(lines(3, 'x'))).toBe('none');
    expect(findDelimiter(`x\n${lines(7, 'x')}`)).toBe('none');
    expect(findDelimiter(lines(4, 'a;b;c'))).toBe('semicolon');
    expect(findDelimiter(`a;b;c\n${lines(4)}`)).toBe('semicolon');
    expect(findDelimiter(lines(4, '', '  ', '\t'))).toBe('semicolon');
    expect(findDelimiter('')).toBe('none');
  });

  it('goes by the first lines, up to two hundred that hold something', () => {
    const good = Array<string>(160).fill('AA1;274153');
    const other = (n: number) => Array<string>(n).fill('x');
    expect(findDelimiter([...good, ...other(40), ...other(300)].join('\r\n'))).toBe('semicolon');
    expect(findDelimiter([...good.slice(1), ...other(41)].join('\r'))).toBe('none');
    const blank = good.flatMap((line) => [line, '']);
    expect(findDelimiter([...blank, ...other(40), ...other(40)].join('\n'))).toBe('semicolon');
  });

  it('cuts at what it is told to', () => {
    const rows = (text: string, delimiter: Parameters<typeof splitPasted>[1]) =>
      splitPasted(text, delimiter).rows;
    expect(rows('a;b\r\nc\rd', 'none')).toEqual([['a;b'], ['c'], ['d']]);
    expect(rows('  a  b c\u00A0 d \r\ne   f', 'spaces')).toEqual([
      ['a', 'b c', 'd'],
      ['e', 'f'],
    ]);
    expect(rows(' a  b\u00A0c \rd', 'space')).toEqual([['a', 'b', 'c'], ['d']]);
    expect(rows('a|b|\r\n|c', 'bar')).toEqual([
      ['a', 'b', ''],
      ['', 'c'],
    ]);
    expect(rows('a|"b|c"|d', 'bar')).toEqual([['a', 'b|c', 'd']]);
    expect(rows('a\tb', 'comma')).toEqual([['a\tb']]);
    // nothing but blanks is no row; a mark in the middle stays where it is
    expect(rows(' ; \n;\na;\n', 'semicolon')).toEqual([['a', '']]);
    expect(rows('\uFEFFa;\uFEFFb', 'semicolon')).toEqual([['a', '\uFEFFb']]);
    // what follows a closing quote belongs to the cell, as does another program's delimiter behind an open one
    expect(rows('"a" x;b', 'semicolon')).toEqual([['a x', 'b']]);
    expect(rows('"a" \n"b"c', 'semicolon')).toEqual([['a '], ['bc']]);
    expect(rows('"5, x;b\nc;d', 'semicolon')).toEqual([
      ['"5, x', 'b'],
      ['c', 'd'],
    ]);
    expect(rows('"open', 'comma')).toEqual([['"open']]);
    expect(rows('a,"', 'comma')).toEqual([['a', '"']]);
  });

  it('finds a delimiter behind the mark that some programs put first', () => {
    expect(findDelimiter('\uFEFFAA1 2,7,4,1,5,3')).toBe('space');
    expect(findDelimiter('\uFEFF2,7,4,1,5,3')).toBe('none');
  });

  // RFC 4180, section 2, rules 5 to 7
  it('reads quoted cells as RFC 4180 writes them', () => {
    const text = 'Mark,Note\r\nAA1,"the ""old"" one, worn"\r\nAA2,"two\r\nlines"\r\n';
    expect(splitPasted(text)).toEqual({
      delimiter: 'comma',
      rows: [
        ['Mark', 'Note'],
        ['AA1', 'the "old" one, worn'],
        ['AA2', 'two\r\nlines'],
      ],
    });
  });

  it('keeps cells as they came, and an open quote as a character', () => {
    expect(splitPasted('AA1;\u00A0274153 \nAA2; 354635').rows).toEqual([
      ['AA1', '\u00A0274153 '],
      ['AA2', ' 354635'],
    ]);
    expect(splitPasted('AA1;"274153\nAA2;354635').rows).toEqual([
      ['AA1', '"274153'],
      ['AA2', '354635'],
    ]);
    expect(splitPasted('\uFEFFAA1;274153\n\nAA2;354635\n').rows[0]).toEqual(['AA1', '274153']);
  });

  it('gives back whatever was written with quotes', () => {
    const cell = fc.string({ unit: fc.constantFrom('a', '7', ' ', ';', '"', '\n', 'é'), minLength: 1 });
    const filled = cell.filter((text) => text.trim() !== '');
    fc.assert(
      fc.property(fc.array(fc.tuple(filled, cell), { minLength: 1, maxLength: 20 }), (rows) => {
        const text = rows.map((row) => row.map((c) => `"${c.replaceAll('"', '""')}"`).join(';')).join('\n');
        expect(splitPasted(text, 'semicolon').rows).toEqual(rows);
      }),
    );
  });
});
