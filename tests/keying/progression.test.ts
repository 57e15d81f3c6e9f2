import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arrayFaults,
  defaultArray,
  inOrder,
  rotatingConstantChanges,
  rotatingSpace,
  scatterOf,
  theoreticalChanges,
  totalSpace,
  type ProgressingPosition,
} from '../../src/keying/index.ts';
import { cutsOf, plainSpec } from '../support/systems.ts';

const spec = plainSpec({ positions: 6, depths: 10, increment: 0.015, macs: 7 });
const topMaster = cutsOf(spec, '274153');

describe('key bitting array', () => {
  it('holds the depths of the top master’s parity without its own', () => {
    const array = defaultArray(spec, topMaster);
    expect(array[0]).toEqual([0, 4, 6, 8]);
    expect(array[1]).toEqual([1, 3, 5, 9]);
    expect(theoreticalChanges(array)).toBe(4096);
    expect(arrayFaults(spec, topMaster, array)).toEqual([]);
  });

  it('holds the depths a whole number of steps away, whatever the step', () => {
    fc.assert(
      fc.property(
        fc.array(fc.nat(9), { minLength: 6, maxLength: 6 }),
        fc.integer({ min: 1, max: 4 }),
        (code, step) => {
          const array = defaultArray(spec, cutsOf(spec, code.join('')), { step });
          array.forEach((choices, i) => {
            const wanted = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9].filter(
              (depth) => depth !== code[i] && Number.isInteger(Math.abs(depth - code[i]!) / step),
            );
            expect(choices).toEqual(wanted);
          });
        },
      ),
    );
  });

  it('leaves constant positions without choices', () => {
    const array = defaultArray(spec, topMaster, { constants: [0, 5] });
    expect([array[0], array[5]]).toEqual([[], []]);
    expect(theoreticalChanges(array)).toBe(256);
    expect(arrayFaults(spec, topMaster, array)).toEqual([]);
  });

  it('says everything wrong with an edited one', () => {
    const edited = [[0, 2, 4, 4], [8], [1, 12], [1], [5], [3]].map((list) => list);
    expect(arrayFaults(spec, topMaster, edited)).toEqual([
      { code: 'array-master-cut', chamber: 1, symbol: '2' },
      { code: 'array-repeated', chamber: 1, symbol: '4' },
      { code: 'array-thin', chamber: 2, symbol: '8', steps: 1, step: 2 },
      { code: 'array-parity', chamber: 3, symbol: '1', steps: 3, step: 2 },
      { code: 'array-unknown-depth', chamber: 3, index: 12 },
      { code: 'array-master-cut', chamber: 4, symbol: '1' },
      { code: 'array-master-cut', chamber: 5, symbol: '5' },
      { code: 'array-master-cut', chamber: 6, symbol: '3' },
    ]);
    expect(arrayFaults(spec, topMaster, [[0]])).toEqual([{ code: 'array-length', found: 1, expected: 6 }]);
  });
});

const over: fc.Arbitrary<ProgressingPosition[]> = fc
  .array(fc.uniqueArray(fc.integer({ min: 1, max: 6 }), { minLength: 1, maxLength: 4 }), {
    minLength: 1,
    maxLength: 5,
  })
  .map((lists) => lists.map((choices, chamber) => ({ chamber, master: 0, choices })));

describe('progressions', () => {
  it('move the last position fastest', () => {
    const space = totalSpace([
      { chamber: 0, master: 2, choices: [0, 4] },
      { chamber: 1, master: 7, choices: [1, 3, 5] },
    ]);
    const seen = Array.from({ length: space.size }, (_, n) => {
      const cuts = [2, 7];
      space.at(n, cuts);
      return cuts.join('');
    });
    expect(seen).toEqual(['01', '03', '05', '41', '43', '45']);
  });

  it('number every change once, with exactly the constants kept', () => {
    fc.assert(
      fc.property(over, fc.nat({ max: 5 }), (list, c) => {
        const space = c === 0 ? totalSpace(list) : rotatingSpace(list, c);
        expect(space.size).toBe(
          rotatingConstantChanges(
            list.map(({ choices }) => choices.length),
            c,
          ),
        );
        const seen = new Set<string>();
        for (let n = 0; n < space.size; n++) {
          const cuts = list.map(() => -1);
          space.at(n, cuts);
          expect(cuts.filter((cut) => cut === 0)).toHaveLength(c);
          expect(cuts.every((cut, i) => cut === 0 || list[i]!.choices.includes(cut))).toBe(true);
          seen.add(cuts.join());
        }
        expect(seen.size).toBe(space.size);
      }),
    );
  });
});

describe('scattered order', () => {
  it('visits each change once, the same way for the same seed', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 3000 }), fc.integer(), (size, seed) => {
        const visited = [...inOrder(size, 'scattered', seed)];
        expect([...visited].sort((a, b) => a - b)).toEqual([...inOrder(size, 'progression', seed)]);
        expect([...inOrder(size, 'scattered', seed)]).toEqual(visited);
      }),
      { numRuns: 60 },
    );
  });

  it('is scattered: neighbours are far apart and seeds differ', () => {
    const visited = [...inOrder(4096, 'scattered', 1)];
    const jumps = visited.slice(1).map((n, i) => Math.abs(n - visited[i]!));
    const mean = jumps.reduce((sum, n) => sum + n, 0) / jumps.length;
    // Two random numbers below n lie n / 3 apart on average.
    expect(Math.abs(mean - 4096 / 3)).toBeLessThan(60);
    expect([...inOrder(4096, 'scattered', 2)]).not.toEqual(visited);
  });

  it('stays inside large spaces without listing them', () => {
    const size = 9 ** 8 * 17;
    const scatter = scatterOf(size, 5);
    const seen = new Set(Array.from({ length: 20_000 }, (_, n) => scatter(n)));
    expect(seen.size).toBe(20_000);
    expect([...seen].every((n) => Number.isInteger(n) && n >= 0 && n < size)).toBe(true);
  });
});
