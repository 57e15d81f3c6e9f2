/**
 * Capacities of progressions against published ones.
 * - Table: trade-association magazine article on interchangeable-core systems, fig. 11 (cores of 10 depths at
 *   0.0125 in two-step, MACS 9; 7 depths at 0.018 in one-step, MACS 6; 6 depths at 0.021 in one-step, MACS 5).
 * - Blocks: US patent 6,516,644 (filed 1999), abstract and claims 10 and 13: six pins of five bittings give blocks of
 *   16, 64, 256 and 1,024 changes and 4,096 in total; array = (b − 1)^(p − 3), cell = (b − 1)^3.
 * - Five one-step positions of six depths: 5^5 = 3,125 by the same rule.
 */
import { describe, expect, it } from 'vitest';
import {
  capacity,
  defaultArray,
  evenTree,
  levelChanges,
  rotatingConstantChanges,
  theoreticalChanges,
  totalSpace,
  type Deal,
} from '../../src/keying/index.ts';
import { NO_RULES } from '../../src/keying/rules.ts';
import { cutsOf, plainSpec } from '../support/systems.ts';

const TWO_STEP = { depths: 10, increment: 0.0125, macs: 9, step: 2 };
const ONE_STEP_18 = { depths: 7, increment: 0.018, macs: 6, step: 1 };
const ONE_STEP_21 = { depths: 6, increment: 0.021, macs: 5, step: 1 };

describe('published capacities', () => {
  it.each([
    [TWO_STEP, 6, 4, 4096],
    [TWO_STEP, 5, 4, 1024],
    [TWO_STEP, 7, 4, 16384],
    [ONE_STEP_18, 6, 6, 46656],
    [ONE_STEP_18, 7, 6, 279936],
    [ONE_STEP_21, 6, 5, 15625],
    [ONE_STEP_21, 7, 5, 78125],
    [ONE_STEP_21, 5, 5, 3125],
  ])('of %o in %i positions: %i choices, %i changes', (depths, positions, choices, changes) => {
    const spec = plainSpec({ positions, ...depths });
    for (const code of ['0'.repeat(positions), '1234512'.slice(0, positions)]) {
      const array = defaultArray(spec, cutsOf(spec, code));
      expect(array.every((chamber) => chamber.length === choices)).toBe(true);
      expect(theoreticalChanges(array)).toBe(changes);
    }
    const counted = capacity({
      name: 'published',
      spec,
      levels: 2,
      grands: evenTree(2, { changeKeys: 1 }),
      topMaster: cutsOf(spec, '1234512'.slice(0, positions)),
      rules: NO_RULES,
    });
    // Without a rule every theoretical change is usable, counted one by one.
    expect(counted.figures).toMatchObject({ theoretical: changes, usable: changes });
  });

  it('come in the published blocks when positions are dealt one after the other', () => {
    const spec = plainSpec({ positions: 6, ...TWO_STEP });
    const topMaster = cutsOf(spec, '246824');
    const array = defaultArray(spec, topMaster);
    const context = {
      levels: 4 as const,
      topMaster,
      array,
      progression: { kind: 'total' as const },
      sequence: [0, 1, 2, 3, 4, 5],
      minimumDifference: 1,
    };
    const blocks = [2, 3, 4, 5].map((moving) => {
      const deal: Deal = array.map((_, i) => (i >= 6 - moving ? 'CK' : 'MK'));
      return levelChanges(context, deal, 'CK');
    });
    expect(blocks).toEqual([16, 64, 256, 1024]);
    expect(theoreticalChanges(array)).toBe(4096);
    const cell = (5 - 1) ** 3;
    expect(blocks[1]).toBe(cell);
    expect(levelChanges(context, ['MK', 'MK', 'MK', 'CK', 'CK', 'CK'], 'MK')).toBe((5 - 1) ** (6 - 3));
    const over = array.map((choices, chamber) => ({ chamber, master: topMaster[chamber]!, choices }));
    expect(totalSpace(over).size).toBe(4096);
  });
});

describe('rotating constant', () => {
  /** Every string over the choices and the top master's own cut (0), counted where exactly c are its own. */
  function byBruteForce(choices: readonly number[], constants: number): number {
    let count = 0;
    const walk = (i: number, kept: number): void => {
      if (i === choices.length) {
        if (kept === constants) count++;
        return;
      }
      for (let digit = 0; digit <= choices[i]!; digit++) walk(i + 1, kept + (digit === 0 ? 1 : 0));
    };
    walk(0, 0);
    return count;
  }

  it('of two positions in 4, 3, 4, 3, 4, 3 choices gives 2,196', () => {
    // 3 pairs of fours: 3·(4·27)= 3·4·27, 3 pairs of threes: 3·(64·3), 9 mixed pairs: 9·(16·9)
    expect(3 * (4 * 27) + 3 * (64 * 3) + 9 * (16 * 9)).toBe(2196);
    expect(rotatingConstantChanges([4, 3, 4, 3, 4, 3], 2)).toBe(2196);
    expect(byBruteForce([4, 3, 4, 3, 4, 3], 2)).toBe(2196);
  });

  it.each([
    [[4, 4, 4, 4, 4, 4], 0],
    [[4, 4, 4, 4, 4, 4], 1],
    [[2, 5, 3, 1, 4], 3],
    [[1, 1, 1, 1, 1, 1, 1, 1], 4],
    [[3, 2, 6], 3],
    [[3, 2, 6], 4],
  ])('of %j with %i kept agrees with counting', (choices, constants) => {
    expect(rotatingConstantChanges(choices, constants)).toBe(byBruteForce(choices, constants));
  });
});
