/**
 * Numbers of bittings within MACS against the On-Line Encyclopedia of Integer Sequences: strings over n symbols whose
 * neighbours differ by at most k. Source: https://oeis.org, the entries named below, read there.
 */
import { describe, expect, it } from 'vitest';
import { countWithinMacs, countWithinMacsOf } from '../../src/keying/index.ts';
import { depthSetOf, EVERY, type DepthSet } from '../../src/keying/depthSet.ts';

interface Entry {
  readonly id: string;
  readonly depths: number;
  readonly macs: number;
  /** Number of positions of the first term. */
  readonly offset: number;
  readonly terms: readonly number[];
}

const OEIS: readonly Entry[] = [
  {
    id: 'A055099',
    depths: 4,
    macs: 2,
    offset: 0,
    terms: [1, 4, 14, 50, 178, 634, 2258, 8042, 28642, 102010],
  },
  {
    id: 'A126392',
    depths: 5,
    macs: 2,
    offset: 0,
    terms: [1, 5, 19, 75, 295, 1161, 4569, 17981, 70763, 278483],
  },
  {
    id: 'A126473',
    depths: 5,
    macs: 3,
    offset: 0,
    terms: [1, 5, 23, 107, 497, 2309, 10727, 49835, 231521, 1075589],
  },
  {
    id: 'A126474',
    depths: 6,
    macs: 3,
    offset: 0,
    terms: [1, 6, 30, 154, 788, 4034, 20650, 105708, 541122, 2770018],
  },
  {
    id: 'A126501',
    depths: 6,
    macs: 4,
    offset: 0,
    terms: [1, 6, 34, 194, 1106, 6306, 35954, 204994, 1168786, 6663906],
  },
  {
    id: 'A126394',
    depths: 7,
    macs: 2,
    offset: 0,
    terms: [1, 7, 29, 125, 543, 2363, 10287, 44787, 194995, 848979],
  },
  {
    id: 'A126475',
    depths: 7,
    macs: 3,
    offset: 0,
    terms: [1, 7, 37, 203, 1111, 6083, 33305, 182349, 998383, 5466269],
  },
  {
    id: 'A126502',
    depths: 7,
    macs: 4,
    offset: 0,
    terms: [1, 7, 43, 269, 1679, 10483, 65449, 408623, 2551187, 15928021],
  },
  {
    id: 'A126503',
    depths: 8,
    macs: 4,
    offset: 0,
    terms: [1, 8, 52, 348, 2322, 15500, 103462, 690610, 4609826, 30770620],
  },
  {
    id: 'A126504',
    depths: 9,
    macs: 4,
    offset: 0,
    terms: [1, 9, 61, 429, 3011, 21141, 148433, 1042167, 7317185, 51374875],
  },
  {
    id: 'A126364',
    depths: 10,
    macs: 1,
    offset: 1,
    terms: [10, 28, 80, 230, 664, 1922, 5574, 16188, 47064, 136946],
  },
  {
    id: 'A126397',
    depths: 10,
    macs: 2,
    offset: 0,
    terms: [1, 10, 44, 200, 918, 4236, 19598, 90790, 420870, 1951636],
  },
  {
    id: 'A126478',
    depths: 10,
    macs: 3,
    offset: 0,
    terms: [1, 10, 58, 350, 2130, 12990, 79258, 483646, 2951370, 18010366],
  },
  {
    id: 'A126505',
    depths: 10,
    macs: 4,
    offset: 0,
    terms: [1, 10, 70, 510, 3720, 27142, 198034, 1444904, 10542368, 76919662],
  },
  {
    id: 'A126531',
    depths: 10,
    macs: 5,
    offset: 0,
    terms: [1, 10, 80, 660, 5430, 44692, 367826, 3027314, 24915652, 205062892],
  },
];

/** The same by writing out every bitting: slow and plain. */
function bruteForce(chambers: readonly (readonly number[])[], macs: number): number {
  let strings: number[][] = [[]];
  for (const chamber of chambers)
    strings = strings.flatMap((before) =>
      chamber
        .filter((d) => before.length === 0 || Math.abs(d - before[before.length - 1]!) <= macs)
        .map((d) => [...before, d]),
    );
  return strings.length;
}

const allDepths = (depths: number) => Array.from({ length: depths }, (_, i) => i);

describe('bittings within MACS', () => {
  it.each(OEIS)('$id: $depths depths, MACS $macs', ({ depths, macs, offset, terms }) => {
    expect(terms.map((_, i) => countWithinMacs(depths, offset + i, macs))).toEqual(terms);
  });

  it.each(OEIS)('$id by writing out every bitting of up to four cuts', ({ depths, macs, offset, terms }) => {
    terms.forEach((term, i) => {
      const positions = offset + i;
      if (positions > 4) return;
      expect(bruteForce(new Array(positions).fill(allDepths(depths)), macs)).toBe(term);
    });
  });

  // OEIS A383202: positive integers with n digits whose neighbours differ by at most 7; the first digit is not 0
  it('A383202: ten depths, MACS 7, no leading zero', () => {
    const terms = [9, 86, 813, 7693, 72786, 688661, 6515721, 61648078];
    const first = depthSetOf([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    const counted = terms.map((_, i) =>
      countWithinMacsOf([first, ...new Array<DepthSet>(i).fill(EVERY)], 10, 7),
    );
    expect(counted).toEqual(terms);
  });

  it('counts chambers that allow only some depths as writing them out does', () => {
    const chambers = [[0, 9], [4], [1, 3, 5, 8], [0, 2, 7]];
    for (let macs = 0; macs <= 9; macs++)
      expect(countWithinMacsOf(chambers.map(depthSetOf), 10, macs)).toBe(bruteForce(chambers, macs));
    // by hand: both first cuts reach the 4; from there 1, 3, 5, 8 go on to 2, 3, 3 and 1 of the last
    expect(bruteForce(chambers, 5)).toBe(18);
  });
});
