import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dateParts, dateSerial, displayText, readInput } from '../../../src/preview/model/index.ts';

const general = { numberFormat: 'General', year: 2026 };

describe('date serials', () => {
  // ECMA-376 part 1, 18.17.4.1: 1 January 1900 is 1, 31 December 9999 is 2,958,465; day 60 is 29 February 1900
  it.each([
    [1900, 1, 1, 1],
    [1900, 2, 28, 59],
    [1900, 3, 1, 61],
    [9999, 12, 31, 2_958_465],
    [2003, 1, 2, 37_623],
  ])('%i-%i-%i is day %i', (year, month, day, serial) => {
    expect(dateSerial(year, month, day)).toBe(serial);
    expect(dateParts(serial)).toMatchObject({ year, month, day });
  });

  it('agree with the calendar of JavaScript', () => {
    fc.assert(
      fc.property(fc.integer({ min: 61, max: 2_958_465 }), (serial) => {
        const { year, month, day, weekday } = dateParts(serial);
        expect(dateSerial(year, month, day)).toBe(serial);
        expect(new Date(Date.UTC(year, month - 1, day)).getUTCDay()).toBe(weekday);
      }),
    );
  });

  it('know no 30 February', () => {
    expect(dateSerial(2024, 2, 29)).not.toBeNull();
    expect(dateSerial(2023, 2, 29)).toBeNull();
    expect(dateSerial(2024, 13, 1)).toBeNull();
  });
});

describe('what a General cell makes of text (from memory)', () => {
  it.each([
    ['$5.50', 5.5, '$#,##0.00_);[Red]($#,##0.00)'],
    ['(12)', -12, undefined],
    ['1,234', 1234, '#,##0'],
    ['12,34', '12,34', undefined],
    ['1 3/4', 1.75, '# ?/?'],
    ['1:30 PM', 0.5625, 'h:mm AM/PM'],
    ['13:30', 0.5625, 'h:mm'],
    ['5-Jan', 46_027, 'd-mmm'],
    ['Jan 2024', 45_292, 'mmm-yy'],
    ['2024-01-05', 45_296, 'm/d/yyyy'],
    ['1/2/2024 6:00', 45_293.25, 'm/d/yyyy h:mm'],
    ['2-32', 11_720, 'mmm-yy'],
    ['-', '-', undefined],
    ['=', '=', undefined],
    ['1.2.3', '1.2.3', undefined],
    ['AA1', 'AA1', undefined],
    ['1-2-3-4-5', '1-2-3-4-5', undefined],
    ['.5', 0.5, undefined],
    ['+7', 7, undefined],
  ])('%j', (text, value, numberFormat) => {
    const entered = readInput(text, general);
    expect(entered.value).toBe(value);
    expect(entered.numberFormat).toBe(numberFormat);
    expect(entered.formula).toBeUndefined();
  });

  it('keeps plain numbers as they are', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e9, max: 1e9 }), (n) => {
        expect(readInput(String(n), general)).toEqual({ value: n === 0 ? 0 : n });
      }),
    );
  });

  it('never changes text in a text cell, the empty one apart', () => {
    fc.assert(
      fc.property(fc.string({ minLength: 1 }), (text) => {
        expect(readInput(text, { numberFormat: '@', year: 2026 })).toEqual({ value: text });
      }),
    );
  });
});

describe('the text a cell shows', () => {
  // number formats as in ECMA-376 part 1, 18.8.31; results from memory of Excel
  it.each([
    [1234.5, '#,##0.00', '1,234.50'],
    [0.125, '0%', '13%'],
    [1234.5, '0', '1235'],
    [-2, '0.0;(0.0)', '(2.0)'],
    [5, '000', '005'],
    [0.5, '#.##', '.5'],
    [12345, '0.00E+00', '1.23E+04'],
    [37623, 'm/d/yyyy', '1/2/2003'],
    [37623.5625, 'dddd d mmm yy h:mm AM/PM', 'Thursday 2 Jan 03 1:30 PM'],
    [0.1 + 0.2, 'General', '0.3'],
    [1e11, 'General', '1E+11'],
    [1 / 3, 'General', '0.333333333'],
    [3, '0" pins"', '3 pins'],
    ['x', '@', 'x'],
    ['x', '0.00', 'x'],
    [true, 'General', 'TRUE'],
    [null, '0.00', ''],
    [{ error: '#REF!' as const }, '0', '#REF!'],
  ])('%j as %s', (value, format, text) => {
    expect(displayText(value, format)).toBe(text);
  });
});
