import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  add,
  formatLength,
  formatNumber,
  inches,
  lengthOf,
  millimetres,
  parseLength,
  subtract,
  times,
  toUnit,
  UNITS,
} from '../../src/keying/index.ts';

describe('parseLength', () => {
  it.each([
    ['0.237', 6_019_800],
    ['.237', 6_019_800],
    ['0,237', 6_019_800],
    ['+0.237', 6_019_800],
    ['-0.5', -12_700_000],
    ['1.', 25_400_000],
    [' 0.237 in ', 6_019_800],
    ['0.237in', 6_019_800],
    ['0.237"', 6_019_800],
    ['0.237″', 6_019_800],
    ['6.02mm', 6_020_000],
    ['6,02 MM', 6_020_000],
    ['0', 0],
    ['-0', 0],
  ])('reads %j where inches are asked for', (text, nm) => {
    expect(parseLength(text, 'in')).toEqual({ ok: true, value: nm });
  });

  it('takes the unit asked for where none is written, and the written one otherwise', () => {
    expect(parseLength('2.5', 'mm')).toEqual({ ok: true, value: 2_500_000 });
    expect(parseLength(2.5, 'mm')).toEqual({ ok: true, value: 2_500_000 });
    expect(parseLength('0.1 in', 'mm')).toEqual({ ok: true, value: 2_540_000 });
  });

  it.each([
    '',
    ' ',
    '.',
    '-',
    'abc',
    '1.2.3',
    '1 2',
    '0.2 cm',
    '0.237 in.',
    'x0.2',
    '1e3',
    '0x10',
    '1,000',
    '12,500 mm',
  ])('refuses %j', (text) => {
    expect(parseLength(text, 'in')).toEqual({ ok: false, error: { code: 'not-a-length', text } });
  });

  it.each([NaN, Infinity, -Infinity, 274153, 40])('refuses the number %d as inches', (value) => {
    expect(parseLength(value, 'in')).toEqual({
      ok: false,
      error: { code: 'not-a-length', text: String(value) },
    });
  });

  it('accepts up to a metre', () => {
    expect(parseLength(1000, 'mm').ok).toBe(true);
    expect(parseLength(1000.1, 'mm').ok).toBe(false);
    expect(parseLength(-1000, 'mm').ok).toBe(true);
    expect(parseLength(-1000.1, 'mm').ok).toBe(false);
  });
});

describe('formatLength', () => {
  it.each([
    [inches(0.0125), '0.0125 in', '0.32 mm'],
    [inches(0.3), '0.300 in', '7.62 mm'],
    [inches(1.017), '1.017 in', '25.83 mm'],
    [lengthOf(0), '0.000 in', '0.00 mm'],
    [inches(-0.004), '-0.004 in', '-0.10 mm'],
    [lengthOf(-1), '0.000 in', '0.00 mm'],
    [millimetres(8), '0.315 in', '8.00 mm'],
  ])('%i nm', (length, inInches, inMillimetres) => {
    expect(formatLength(length, 'in')).toBe(inInches);
    expect(formatLength(length, 'mm')).toBe(inMillimetres);
  });

  it('reads back what it wrote', () => {
    const grain = { in: 2_540, mm: 10_000 };
    fc.assert(
      fc.property(fc.integer({ min: -90_000, max: 90_000 }), fc.constantFrom(...UNITS), (n, unit) => {
        const length = lengthOf(n * grain[unit]);
        expect(parseLength(formatLength(length, unit), unit)).toEqual({ ok: true, value: length });
        expect(parseLength(formatNumber(length, unit), unit)).toEqual({ ok: true, value: length });
        expect(parseLength(toUnit(length, unit), unit)).toEqual({ ok: true, value: length });
      }),
    );
  });
});

it('calculates in whole nanometres and refuses a fraction', () => {
  expect(add(inches(0.237), inches(0.156))).toBe(inches(0.393));
  expect(subtract(inches(0.315), inches(0.018))).toBe(inches(0.297));
  expect(times(inches(0.0125), 8)).toBe(inches(0.1));
  expect(() => lengthOf(0.5)).toThrow('not a whole number');
  expect(() => lengthOf(NaN)).toThrow('not a whole number');
});
