import { describe, expect, it } from 'vitest';
import { findSchedule } from '../../src/workbook/schedule.ts';
import { looksHeaded } from '../../src/workbook/target.ts';

describe('a schedule’s headings', () => {
  it('are found below a title block', () => {
    const found = findSchedule([
      ['West wing, door schedule', '', '', ''],
      ['Rev. C', '', '', ''],
      ['', '', '', ''],
      ['Door No.', 'Room', 'Keyset', 'Qty'],
      ['101', 'Office', 'AA1', 1],
    ]);
    expect(found).toEqual({
      columns: { headerRow: 3, door: 0, location: 1, symbol: 2, quantity: 3 },
      headers: ['Door No.', 'Room', 'Keyset', 'Qty'],
    });
  });

  it('are not guessed from one word alone', () => {
    expect(
      findSchedule([
        ['Door', 'Colour'],
        ['101', 'grey'],
      ]),
    ).toBeUndefined();
  });

  it('match whole headings only', () => {
    expect(
      findSchedule([
        ['Door closer', 'Room temperature'],
        ['x', 'y'],
      ]),
    ).toBeUndefined();
  });

  it('are the fullest of several candidates', () => {
    const found = findSchedule([
      ['Door', 'Location'],
      ['Door', 'Location', 'Symbol', 'Quantity'],
    ]);
    expect(found?.columns.headerRow).toBe(1);
  });
});

describe('a header row above codes', () => {
  it('is words over codes', () => {
    expect(looksHeaded([['Key code'], ['274153'], ['213456']])).toBe(true);
    expect(looksHeaded([['274153'], ['213456']])).toBe(false);
    expect(looksHeaded([['Key code']])).toBe(false);
  });
});
