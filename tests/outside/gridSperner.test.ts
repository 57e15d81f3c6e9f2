/**
 * How many change keys one master can have at most, whatever the method. With two depths a change key is the set of
 * positions in which it leaves the master's cut, and no set may contain another: Sperner's theorem (Ein Satz über
 * Untermengen einer endlichen Menge, Mathematische Zeitschrift 27, 1928) gives C(n, ⌊n/2⌋). With more depths the
 * largest rank of a product of stars takes its place: max over c of C(n, c)·(d − 1)^(n − c).
 */
import { describe, expect, it } from 'vitest';
import { solveGrid, type Grid } from '../../src/keying/grid/index.ts';
import { NO_RULES } from '../../src/keying/rules.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { plainGrid, smallSpec, wrongWith } from '../keying/grid/charts.ts';

/** Key 0 opens every door, and each other key its own. */
function underOneMaster(positions: number, depths: number, changeKeys: number): Grid {
  const marks = Array.from({ length: changeKeys }, (_, n) => [0, n + 1]);
  return plainGrid(smallSpec(positions, depths), changeKeys + 1, marks);
}

describe('change keys under one master', () => {
  it.each([
    { positions: 4, most: 6 },
    { positions: 5, most: 10 },
    { positions: 6, most: 20 },
  ])('two depths, $positions positions: $most, as Sperner says', ({ positions, most }) => {
    const full = underOneMaster(positions, 2, most);
    const solved = runToEnd(solveGrid(full, { rules: NO_RULES }));
    expect(solved.kind).toBe('solved');
    if (solved.kind === 'solved') expect(wrongWith(full, solved)).toEqual([]);

    const over = runToEnd(solveGrid(underOneMaster(positions, 2, most + 1), { rules: NO_RULES }));
    expect(over).toMatchObject({
      kind: 'impossible',
      scope: 'any',
      reason: { code: 'too-many-under-master', needed: most + 1, possible: most },
    });
  });

  it('three depths, four positions: 32 and not 33', () => {
    // max of C(4, c)·2^(4 − c): 16, 32, 24, 8, 1
    expect(runToEnd(solveGrid(underOneMaster(4, 3, 24), { rules: NO_RULES })).kind).toBe('solved');
    const over = runToEnd(solveGrid(underOneMaster(4, 3, 33), { rules: NO_RULES }));
    expect(over).toMatchObject({ kind: 'impossible', reason: { needed: 33, possible: 32 } });
  });
});
