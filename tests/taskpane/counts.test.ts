import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseCounts, parseWhole } from '../../taskpane/make/counts.ts';

describe('parseCounts', () => {
  it('takes one count for all groups', () => {
    expect(parseCounts('12', 3, 'master')).toEqual({ ok: true, value: [12, 12, 12] });
  });

  it.each([['12, 8, 20'], ['12,8,20'], ['12 8 20'], ['12; 8; 20'], [' 12 , 8 , 20 '], ['１２, 8, 20']])(
    'takes a count each: %s',
    (text) => {
      expect(parseCounts(text, 3, 'master')).toEqual({ ok: true, value: [12, 8, 20] });
    },
  );

  it.each([['2 × 12, 20'], ['2x12, 20'], ['2 * 12,20'], ['2 X 12 20']])('takes runs: %s', (text) => {
    expect(parseCounts(text, 3, 'master')).toEqual({ ok: true, value: [12, 12, 20] });
  });

  it('says what is wrong and what to write', () => {
    expect(parseCounts('12, 8', 3, 'master')).toEqual({
      ok: false,
      error: '2 counts for 3 masters: give one for all, or one each.',
    });
    expect(parseCounts('twelve', 3, 'master')).toMatchObject({
      ok: false,
      error: expect.stringContaining('twelve'),
    });
    expect(parseCounts('  ', 3, 'master')).toMatchObject({ ok: false });
    expect(parseCounts('-3', 3, 'master')).toMatchObject({ ok: false });
    expect(parseCounts('999999', 1, 'master')).toMatchObject({ ok: false });
    expect(parseCounts('99999 x 99999', 1, 'master')).toMatchObject({ ok: false });
  });

  it('reads back any list written with commas', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 5000 }), { minLength: 2, maxLength: 40 }), (counts) => {
        expect(parseCounts(counts.join(', '), counts.length, 'master')).toEqual({ ok: true, value: counts });
      }),
    );
  });
});

describe('parseWhole', () => {
  it('holds the bounds and names them', () => {
    expect(parseWhole('4', 1, 20, 'grand masters')).toEqual({ ok: true, value: 4 });
    expect(parseWhole('21', 1, 20, 'grand masters')).toEqual({
      ok: false,
      error: 'From 1 to 20 grand masters.',
    });
    expect(parseWhole('4.5', 1, 20, 'grand masters')).toMatchObject({ ok: false });
    expect(parseWhole('', 1, 20, 'grand masters')).toMatchObject({ ok: false });
  });
});
