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
