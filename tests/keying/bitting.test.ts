import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bittingOf,
  formatBitting,
  packBitting,
  parseBitting,
  reverseBitting,
  unpackBitting,
  type Specification,
} from '../../src/keying/index.ts';
import { keysArbitrary } from '../support/keyingArbitraries.ts';
import { key, starter } from '../support/keys.ts';

const six = starter('S-018-6');

describe('parseBitting', () => {
  it.each([
    '274153',
    '2 7 4 1 5 3',
    '2-7-4-1-5-3',
    '2,7,4,1,5,3',
    '2/7/4/1/5/3',
    ' 274 153 ',
    '２７４１５３',
    '2 – 7 – 4 – 1 – 5 – 3',
  ])('reads %j', (text) => {
    expect(parseBitting(six, text)).toEqual({ ok: true, value: [2, 7, 4, 1, 5, 3] });
  });

  it('reads a number from a cell', () => {
    expect(parseBitting(six, 274153)).toEqual({ ok: true, value: [2, 7, 4, 1, 5, 3] });
  });

  it('names every unknown symbol and the wrong length at once', () => {
    const five = starter('S-025-5');
    const allowed = ['1', '2', '3', '4', '5', '6'];
    expect(parseBitting(five, '190')).toEqual({
      ok: false,
      error: [
        { code: 'length', found: 3, expected: 5 },
        { code: 'unknown-depth', symbol: '9', at: 2, allowed },
        { code: 'unknown-depth', symbol: '0', at: 3, allowed },
      ],
    });
  });

  it('suspects lost zeros only where the spec has a 0 and one or two digits are missing', () => {
    const faults = (spec: Specification, input: string | number) => {
      const parsed = parseBitting(spec, input);
      return parsed.ok ? [] : parsed.error;
    };
    expect(faults(six, 4153)).toEqual([{ code: 'lost-zero', found: 4, expected: 6, suggestion: '004153' }]);
    expect(faults(six, 153)).toEqual([{ code: 'length', found: 3, expected: 6 }]);
    expect(faults(six, '2741530')).toEqual([{ code: 'length', found: 7, expected: 6 }]);
    expect(faults(starter('S-025-5'), '1234')).toEqual([{ code: 'length', found: 4, expected: 5 }]);
  });

  it.each(['', '   ', '?', '27415!', '2.7.4.1.5.€', '---'])('refuses %j as no code', (text) => {
    expect(parseBitting(six, text)).toEqual({ ok: false, error: [{ code: 'not-a-code', text }] });
  });

  it.each([-274153, 27415.3, NaN])('refuses the number %d', (value) => {
    expect(parseBitting(six, value)).toMatchObject({ ok: false, error: [{ code: 'not-a-code' }] });
  });

  it.each(['1/2/2003', '-274153', '274153-', '+274153', '2--7-4-1-5-3/'])('takes %s for no code', (text) => {
    expect(parseBitting(starter('S-018-6'), text)).toEqual({
      ok: false,
      error: [{ code: 'not-a-code', text }],
    });
  });

  it('reads groups that are set apart', () => {
    for (const text of ['274 153', '27-41-53', '2741 53'])
      expect(parseBitting(starter('S-018-6'), text)).toEqual({ ok: true, value: [2, 7, 4, 1, 5, 3] });
  });

  it('reads letters in either case', () => {
    const letters = { ...six, depths: six.depths.map((d, i) => ({ ...d, symbol: 'ABCDEFGHJK'[i]! })) };
    expect(parseBitting(letters, 'cHeBfd')).toMatchObject({ ok: true, value: [2, 7, 4, 1, 5, 3] });
    expect(formatBitting(letters, [2, 7, 4, 1, 5, 3])).toBe('CHEBFD');
  });

  it('reads what formatBitting wrote', () => {
    fc.assert(
      fc.property(keysArbitrary(), ({ spec, bittings: [bitting] }) => {
        expect(parseBitting(spec, formatBitting(spec, bitting!))).toEqual({ ok: true, value: bitting });
      }),
    );
  });
});

describe('bittings', () => {
  it('pack into numbers that only equal keys share', () => {
    fc.assert(
      fc.property(keysArbitrary(2), ({ spec, bittings: [a, b] }) => {
        expect(unpackBitting(spec, packBitting(spec, a!))).toEqual(a);
        const same = formatBitting(spec, a!) === formatBitting(spec, b!);
        expect(packBitting(spec, a!) === packBitting(spec, b!)).toBe(same);
      }),
    );
  });

  it('read the same twice reversed', () => {
    expect(reverseBitting(key(six, '274153'))).toEqual(key(six, '351472'));
    expect(reverseBitting(reverseBitting(key(six, '274153')))).toEqual(key(six, '274153'));
  });

  it('refuse depths that the spec does not have', () => {
    expect(() => bittingOf(six, [0, 1, 2, 3, 4])).toThrow('6 cuts');
    expect(() => bittingOf(six, [0, 1, 2, 3, 4, 10])).toThrow('no depth at index 10');
  });
});

it.each(['', ' ', '2-é7-4-1-5-3', '2-7é-4-1-5-3', '2--', '-2', '2 7 4 ? 5 3', 'é'])(
  '“%s” is no code',
  (text) => {
    expect(parseBitting(starter('S-018-6'), text)).toEqual({
      ok: false,
      error: [{ code: 'not-a-code', text }],
    });
  },
);
