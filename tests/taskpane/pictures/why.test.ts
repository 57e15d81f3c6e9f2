import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { depthSetOf, EVERY } from '../../../src/keying/depthSet.ts';
import { operates } from '../../../src/keying/index.ts';
import { whyChambers, whySentence } from '../../../taskpane/pictures/why.ts';
import { WhyOpens } from '../../../taskpane/pictures/WhyOpens.tsx';
import { bittingArbitrary } from '../../support/keyingArbitraries.ts';
import { key, starter } from '../../support/keys.ts';
import { render, tableRows } from './markup.ts';

const spec = starter('S-018-6');
const chambers = [[2, 6], [7], [4, 8], [1, 3], [5]].map(depthSetOf).concat(EVERY);
const cylinder = { id: 'C4', door: '104', chambers };

describe('why a key opens', () => {
  it('says which chamber blocks, with the cut and the depths that shear', () => {
    const why = { spec, symbol: 'AA3', bitting: key(spec, '674253'), cylinder };
    expect(whySentence(why, whyChambers(why))).toBe('AA3 does not open 104: chamber 4 blocks.');
    const rows = tableRows(render(WhyOpens, why));
    expect(rows[0]).toEqual(['Key’s cut', '6', '7', '4', '2', '5', '3']);
    expect(rows[1]).toEqual(['Shears at', '2 6', '7', '4 8', '1 3', '5', 'any']);
    expect(rows[2]!.map((cell) => /blocks/.test(cell))).toEqual([
      false,
      false,
      false,
      false,
      true,
      false,
      false,
    ]);
  });

  it('says that a short blank has no cut there', () => {
    const five = { ...cylinder, chambers: [...chambers.slice(0, 5), depthSetOf([3])] };
    const why = { spec, symbol: 'AA3', bitting: key(spec, '674153'), cutsOnBlank: 5, cylinder: five };
    expect(whyChambers(why)[5]).toEqual({ chamber: 6, shears: ['3'], passes: false });
    expect(whySentence(why, whyChambers(why))).toBe('AA3 does not open 104: chamber 6 blocks.');
  });

  it('says first that a blank doesn’t enter', () => {
    const why = {
      spec,
      symbol: 'AA3',
      bitting: key(spec, '674153'),
      cylinder,
      wrongKeyway: { key: 'K1', cylinder: 'K2' },
    };
    expect(whySentence(why, whyChambers(why))).toBe(
      'AA3 does not enter 104: its blank is for keyway K1, the cylinder has K2.',
    );
    expect(render(WhyOpens, why)).not.toContain('<table');
  });

  it('passes every chamber exactly where keying says that the key operates', () => {
    fc.assert(
      fc.property(bittingArbitrary(spec), (bitting) => {
        const all = whyChambers({ spec, bitting, cylinder }).every((c) => c.passes);
        expect(all).toBe(operates(chambers, bitting));
      }),
    );
    const opening = key(spec, '278159');
    expect(whyChambers({ spec, bitting: opening, cylinder }).every((c) => c.passes)).toBe(true);
  });
});
