import { describe, expect, it } from 'vitest';
import {
  formatDepthList,
  formatDepthSet,
  parseDepthList,
  parseDepthSet,
} from '../../src/keying/chamberText.ts';
import { depthSetOf, EVERY, NONE } from '../../src/keying/depthSet.ts';
import { starter } from '../support/keys.ts';

const six = starter('S-018-6');
const ten = {
  ...six,
  depths: six.depths.slice(0, 4).map((d, i) => ({ ...d, symbol: ['10', '11', 'a', 'B'][i]! })),
};

describe('the depths of a chamber', () => {
  it('are read whatever stands around and between them, letters in either case', () => {
    expect(parseDepthSet(six, '  2, 6 ;')).toEqual({ ok: true, value: depthSetOf([2, 6]) });
    expect(parseDepthSet(ten, '11 A b')).toEqual({ ok: true, value: depthSetOf([1, 2, 3]) });
    expect(parseDepthSet(six, ' ANY ')).toEqual({ ok: true, value: EVERY });
  });

  it('say what is wrong with each, and only offer what they can only mean', () => {
    const allowed = six.depths.map((d) => d.symbol);
    expect(parseDepthSet(six, ' 26 ')).toEqual({
      ok: false,
      error: [{ code: 'chamber-run-together', text: '26', suggestion: '2 6' }],
    });
    expect(parseDepthSet(six, '2X')).toEqual({
      ok: false,
      error: [{ code: 'chamber-depth-unknown', symbol: '2X', allowed }],
    });
    expect(parseDepthSet(six, 'X')).toEqual({
      ok: false,
      error: [{ code: 'chamber-depth-unknown', symbol: 'X', allowed }],
    });
    expect(parseDepthSet(six, '2 26')).toEqual({
      ok: false,
      error: [{ code: 'chamber-depth-unknown', symbol: '26', allowed }],
    });
    expect(parseDepthSet(six, '2 ?6')).toEqual({
      ok: false,
      error: [{ code: 'chamber-not-depths', text: '2 ?6' }],
    });
  });
});

describe('a cell of a key bitting array', () => {
  it('keeps the sequence in which it is written, and may be blank', () => {
    expect(parseDepthList(six, ' 6 2 4 ')).toEqual({ ok: true, value: [6, 2, 4] });
    expect(parseDepthList(six, '６, ２')).toEqual({ ok: true, value: [6, 2] });
    expect(parseDepthList(ten, 'b 10')).toEqual({ ok: true, value: [3, 0] });
    expect(parseDepthList(six, 4)).toEqual({ ok: true, value: [4] });
    expect(parseDepthList(six, '  ')).toEqual({ ok: true, value: [] });
    expect(formatDepthList(six, [6, 2, 4])).toBe('6 2 4');
    expect(formatDepthList(six, [])).toBe('');
    expect(formatDepthSet(six, NONE)).toBe('');
  });

  it('is not any depth, nor one twice', () => {
    expect(parseDepthList(six, ' any ')).toEqual({
      ok: false,
      error: [{ code: 'chamber-not-depths', text: 'any' }],
    });
    expect(parseDepthList(six, '6 2 6')).toMatchObject({
      ok: false,
      error: [{ code: 'chamber-depth-repeated', symbol: '6' }],
    });
  });
});
