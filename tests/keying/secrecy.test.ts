/** Bittings in a text, against plainly looking for each code among the text's letters and digits. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { givesAway, secretsOf } from '../../src/keying/secrecy.ts';

const anyCuts = fc.string({ unit: fc.constantFrom('0', '1', '2', 'A'), minLength: 1, maxLength: 6 });
const between = fc.constantFrom('', ' ', '-', '/', '.', ' , ', '·', '\n', '\u00A0', '—');

describe('what gives a bitting away', () => {
  it('is a code of four cuts or more anywhere among the letters and digits of a text', () => {
    const text = fc.string({
      unit: fc.constantFrom('0', '1', '2', 'a', 'A', 'x', ' ', '-', '/'),
      maxLength: 14,
    });
    fc.assert(
      fc.property(fc.array(anyCuts, { maxLength: 4 }), text, (codes, written) => {
        const bare = written.toUpperCase().replaceAll(/[ \-/]/g, '');
        const found = codes.filter((c) => c.length >= 4).some((c) => bare.includes(c));
        expect(givesAway(secretsOf(codes), written)).toBe(found);
      }),
      { numRuns: 500 },
    );
  });

  it('is one whatever stands between its cuts and around it, in any width and case', () => {
    const hidden = anyCuts
      .filter((c) => c.length >= 4)
      .chain((c) =>
        fc.record({
          code: fc.constant(c),
          gaps: fc.array(between, { minLength: c.length, maxLength: c.length }),
          wide: fc.boolean(),
          before: fc.constantFrom('', 'cut ', 'Raum 7: '),
          behind: fc.constantFrom('', ' again', '!'),
        }),
      );
    const widen = (sign: string): string => String.fromCodePoint(sign.codePointAt(0)! + 0xfee0);
    fc.assert(
      fc.property(hidden, ({ code: c, gaps, wide, before, behind }) => {
        const signs = [...c.toLowerCase()].map((sign, i) => (wide ? widen(sign) : sign) + gaps[i]!);
        const text = before + signs.join('') + behind;
        // however the bitting itself is written down
        for (const written of [c, [...c].join('-'), ` ${c.toLowerCase()} `])
          expect(givesAway(secretsOf([written]), text)).toBe(true);
      }),
    );
  });

  it('is no shorter code, and nothing where there are no bittings', () => {
    expect(givesAway(secretsOf(['123', '1-2-3']), '123 1234')).toBe(false);
    expect(givesAway(secretsOf([]), '274153')).toBe(false);
    expect([...secretsOf(['2-7-4-1', '2741', '12', '3-5-4-6-3']).codes]).toEqual(['2741', '35463']);
    expect(secretsOf(['2741', '3546', '35463']).lengths).toEqual([4, 5]);
    // one of several lengths is enough
    expect(givesAway(secretsOf(['2741', '35463']), '2-7-4-1')).toBe(true);
    expect(givesAway(secretsOf(['2741', '35463']), '3-5-4-6-3')).toBe(true);
  });
});
