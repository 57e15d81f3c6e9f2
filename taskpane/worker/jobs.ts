/** The long work that runs beside the pane, by name: what goes in, what comes out. All of it is plain data. */
import { auditSystem, type AuditReport } from '../../src/keying/audit.ts';
import type { AuditInput } from '../../src/keying/auditInput.ts';
import { capacityOf, type Capacity } from '../../src/keying/capacity.ts';
import {
  constructionKeying,
  type ConstructionRequest,
  type ConstructionResult,
} from '../../src/keying/construction.ts';
import {
  keyedDifferentPool,
  solveGrid,
  type Grid,
  type Pool,
  type PoolRequest,
  type SolveOptions,
  type SolveResult,
} from '../../src/keying/grid/index.ts';
import { freshBittings, type FreshResult, type LostKeyRequest } from '../../src/keying/freshBittings.ts';
import { generateSystem, type GenerateResult } from '../../src/keying/hierarchy.ts';
import { prepare } from '../../src/keying/preparation.ts';
import type { SystemRequest } from '../../src/keying/systemRequest.ts';
import type { Progress, Steps } from '../../src/keying/system.ts';
import { readCodes, type CodesInput, type CodesReport } from '../codes/codesJob.ts';
import { checkRows, type CheckInput, type CheckReport } from '../check/checkRows.ts';

export interface SolveOrder {
  readonly grid: Grid;
  readonly options: SolveOptions;
}

export interface Jobs {
  readonly capacity: { readonly input: SystemRequest; readonly output: Capacity };
  readonly generate: { readonly input: SystemRequest; readonly output: GenerateResult };
  readonly audit: { readonly input: AuditInput; readonly output: AuditReport };
  readonly check: { readonly input: CheckInput; readonly output: CheckReport };
  readonly solve: { readonly input: SolveOrder; readonly output: SolveResult };
  readonly pool: { readonly input: PoolRequest; readonly output: Pool };
  readonly construction: { readonly input: ConstructionRequest; readonly output: ConstructionResult };
  readonly lost: { readonly input: LostKeyRequest; readonly output: FreshResult };
  readonly codes: { readonly input: CodesInput; readonly output: CodesReport };
}

export type JobName = keyof Jobs;

type Run<J extends JobName> = (input: Jobs[J]['input'], stopped: () => boolean) => Steps<Jobs[J]['output']>;

export const JOBS: { readonly [J in JobName]: Run<J> } = {
  capacity: capacitySteps,
  generate: generateSystem,
  audit: (input, stopped) => auditSystem(input, { stopped }),
  check: checkRows,
  solve: ({ grid, options }) => solveGrid(grid, options),
  pool: keyedDifferentPool,
  construction: constructionKeying,
  lost: freshBittings,
  codes: readCodes,
};

export interface WorkOrder<J extends JobName = JobName> {
  readonly job: J;
  readonly input: Jobs[J]['input'];
}

export type WorkReport<J extends JobName = JobName> =
  | { readonly kind: 'progress'; readonly progress: Progress }
  | { readonly kind: 'done'; readonly value: Jobs[J]['output'] }
  | { readonly kind: 'failed'; readonly message: string };

/** The steps of an order; `stopped` is for jobs that give a part. */
export function stepsOf<J extends JobName>(
  { job, input }: WorkOrder<J>,
  stopped: () => boolean = () => false,
): Steps<Jobs[J]['output']> {
  return JOBS[job](input, stopped);
}

function* capacitySteps(request: SystemRequest): Steps<Capacity> {
  return capacityOf(request, yield* prepare(request));
}
