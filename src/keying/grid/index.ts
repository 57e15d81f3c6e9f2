/** Key-by-door grids of any shape: solve, extend, prove. What other rooms may use. */
export { DEFAULT_BUDGET, solveGrid } from './solve.ts';
export { skippedLevels } from './levels.ts';
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
