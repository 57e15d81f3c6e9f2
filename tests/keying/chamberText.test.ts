import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  formatDepthList,
  formatDepthSet,
  parseDepthList,
  parseDepthSet,
} from '../../src/keying/chamberText.ts';
import { depthSetOf, EVERY, NONE } from '../../src/keying/depthSet.ts';
import { specArbitrary } from '../support/keyingArbitraries.ts';
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

describe('a chamber, written', () => {
  it('is its symbols from the shallowest, and reads back as the same depths in any sequence', () => {
    const separator = fc.constantFrom(' ', ', ', ';', ' : ', '/', '|', '+', '·', '–', '-', '\n');
    const chamber = specArbitrary().chain((spec) =>
      fc.record({
        spec: fc.constant(spec),
        depths: fc.shuffledSubarray([...spec.depths.keys()], { minLength: 1 }),
        between: separator,
      }),
    );
    fc.assert(
      fc.property(chamber, ({ spec, depths, between }) => {
        const symbols = (list: readonly number[]) => list.map((i) => spec.depths[i]!.symbol);
        const set = depthSetOf(depths);
        const sorted = [...depths].sort((a, b) => a - b);
        expect(formatDepthSet(spec, set)).toBe(symbols(sorted).join(' '));
        expect(formatDepthList(spec, depths)).toBe(symbols(depths).join(' '));
        const written = symbols(depths).join(between);
        expect(parseDepthSet(spec, written)).toEqual({ ok: true, value: set });
        expect(parseDepthList(spec, `${written}${between}`)).toEqual({ ok: true, value: depths });
      }),
    );
  });

  it('is “any” where it is empty', () => {
    expect(formatDepthSet(six, EVERY)).toBe('any');
    expect(parseDepthSet(six, formatDepthSet(six, EVERY))).toEqual({ ok: true, value: EVERY });
  });

  it.each(['', ' ', '\u00A0'])('is missing in “%s”', (text) => {
    expect(parseDepthSet(six, text)).toEqual({ ok: false, error: [{ code: 'chamber-blank' }] });
  });

  it.each([',', ' ; - ', '2.5', '?', '2 6!'])('is not in “%s”', (text) => {
    const error = [{ code: 'chamber-not-depths', text: text.trim() }];
    expect(parseDepthSet(six, text)).toEqual({ ok: false, error });
    expect(parseDepthList(six, text)).toEqual({ ok: false, error });
  });

  it('has every fault named, in the sequence of the cell', () => {
    const allowed = six.depths.map((d) => d.symbol);
    expect(parseDepthSet(six, '2 x 2 99')).toEqual({
      ok: false,
      error: [
        { code: 'chamber-depth-unknown', symbol: 'X', allowed },
        { code: 'chamber-depth-repeated', symbol: '2' },
        { code: 'chamber-depth-unknown', symbol: '99', allowed },
      ],
    });
  });

  it('offers depths set apart only where each sign of the cell is a depth', () => {
    const few = { ...six, depths: six.depths.slice(0, 3) };
    expect(parseDepthSet(few, '012')).toEqual({
      ok: false,
      error: [{ code: 'chamber-run-together', text: '012', suggestion: '0 1 2' }],
    });
    expect(parseDepthSet(few, '013')).toMatchObject({
      ok: false,
      error: [{ code: 'chamber-depth-unknown', symbol: '013' }],
    });
    // two signs that are one depth are that depth
    expect(parseDepthSet(ten, '10')).toEqual({ ok: true, value: depthSetOf([0]) });
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
