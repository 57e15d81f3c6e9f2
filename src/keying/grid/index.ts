/**
 * Key-by-door grids of any shape: solve, extend, prove. Planned entry points (bodies follow):
 * solveGrid(grid: Grid, options?: SolveOptions): Steps<SolveResult>
 * keyedDifferentPool(request: PoolRequest): Steps<Pool>
 * crossKeyingCost(system: KeySystem, cylinder: string, keys: readonly string[], marks?: Iterable<Mark>): CrossKeyingCost
 */
export {
  fixedCylinder,
  fixedKey,
  gridOf,
  type Grid,
  type GridCylinder,
  type GridKey,
  type SolveOptions,
} from './chart.ts';
export type {
  CylinderCost,
  GridCost,
  Impossible,
  NotFound,
  ProofReason,
  ProofScope,
  Repin,
  SolveResult,
  Solved,
  Violation,
} from './result.ts';
export type { Pool, PoolRequest } from './pool.ts';
export type { CrossKeyingAlternative, CrossKeyingCost, DoorFigures } from './crossKeying.ts';
