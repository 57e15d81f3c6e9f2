/** Marks that skip a level: they can't be met by total position progression. */
import type { Grid } from './chart.ts';
import { planOf } from './plan.ts';
import { prepareGrid, wholeDomain } from './prepare.ts';
import type { ProofReason } from './result.ts';

/**
 * Each cylinder that is marked for a key and for one two levels above, but not for the one between. Under total
 * position progression the one between always gets in, since each of its cuts is one of the other two's.
 */
export function skippedLevels(grid: Grid): ProofReason[] {
  const { instance, keysIn, cylindersIn } = prepareGrid(grid, {}, wholeDomain(grid));
  const plan = planOf(instance);
  const top = plan.tops[0];
  const found: ProofReason[] = [];
  instance.keysOf.forEach((marked, c) => {
    const here = new Set(marked);
    for (const k of marked) {
      const above: number[] = [];
      for (let at = plan.parent[k]!; at >= 0 && !above.includes(at); at = plan.parent[at]!) above.push(at);
      if (top !== undefined && !above.includes(top)) above.push(top);
      above.forEach((between, n) => {
        if (here.has(between) || !above.slice(n + 1).some((higher) => here.has(higher))) return;
        found.push({
          code: 'skips-level',
          key: grid.keys[keysIn[between]![0]!]!.symbol,
          cylinder: grid.cylinders[cylindersIn[c]![0]!]!.id,
        });
      });
    }
  });
  return found;
}
