/** The grid of a solution, cell by cell: what each key does at each cylinder against what is marked. */
import { reachOf } from '../../src/keying/blankReach.ts';
import { operates } from '../../src/keying/cylinder.ts';
import type { Grid, Solved } from '../../src/keying/grid/index.ts';
import { entersKeyway } from '../../src/keying/keyways.ts';
import type { Chambers } from '../../src/keying/system.ts';
import type { GridData } from '../pictures/gridStates.ts';
import type { Why } from '../pictures/why.ts';

export interface SolvedGrid extends GridData {
  readonly cylinders: readonly {
    readonly id: string;
    readonly door: string;
    readonly chambers: Chambers;
  }[];
}

/** `doors` has what people call the doors, by cylinder. */
export function solvedGrid(
  grid: Grid,
  { keys, cylinders }: Pick<Solved, 'keys' | 'cylinders'>,
  doors: ReadonlyMap<string, string>,
): SolvedGrid {
  const meant = grid.marks.map((list) => new Set(list));
  return {
    keys,
    cylinders: cylinders.map(({ id, chambers }) => ({ id, chambers, door: doors.get(id) || id })),
    stateOf(row, column) {
      const { wrongKeyway, cutsOnBlank } = blankAt(grid, row, column);
      const reach = reachOf(grid.spec, cutsOnBlank);
      const opens = !wrongKeyway && operates(cylinders[row]!.chambers, keys[column]!.bitting, reach);
      if (opens) return meant[row]!.has(column) ? 'opens' : 'interchange';
      return meant[row]!.has(column) ? 'lock-out' : 'closed';
    },
  };
}

/** What the blank has to do with whether a key opens a cylinder. */
export function blankAt(grid: Grid, row: number, column: number): Pick<Why, 'cutsOnBlank' | 'wrongKeyway'> {
  const { keyway: key = '', cuts } = grid.keys[column]!;
  const { keyway: cylinder = '' } = grid.cylinders[row]!;
  return {
    ...(cuts !== undefined && { cutsOnBlank: cuts }),
    ...(!entersKeyway(grid.enters, key, cylinder) && { wrongKeyway: { key, cylinder } }),
  };
}
