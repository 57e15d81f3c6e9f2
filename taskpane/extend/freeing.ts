/** Existing cylinders opened for re-pinning: which chambers are in use stays, what they shear at does not. */
import { EVERY } from '../../src/keying/depthSet.ts';
import type { Grid } from '../../src/keying/grid/index.ts';

export function freeing(grid: Grid, freed: ReadonlySet<string>): Grid {
  return {
    ...grid,
    cylinders: grid.cylinders.map((cylinder) => {
      const { chambers, ...rest } = cylinder;
      if (!chambers || !freed.has(cylinder.id)) return cylinder;
      return { ...rest, inUse: rest.inUse ?? chambers.map((set) => set !== EVERY) };
    }),
  };
}
