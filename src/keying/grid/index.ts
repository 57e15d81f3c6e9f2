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
export {
  keyedAlike,
  keyedDifferentPool,
  type AlikeGroup,
  type KeyedAlike,
  type Pool,
  type PoolRequest,
} from './pool.ts';
export {
  crossKeyingCost,
  whoElse,
  type CrossKeyingAlternative,
  type CrossKeyingCost,
  type CrossKeyingFault,
  type DoorFigures,
} from './crossKeying.ts';
export {
  readBlank,
  readControl,
  readCuts,
  type BlankFault,
  type BlankUse,
  type ControlFault,
} from './blanks.ts';
export { sayBlank, sayControl } from './blanksWording.ts';
export { sayProof, sayAnswer, sayRepin } from './wording.ts';
