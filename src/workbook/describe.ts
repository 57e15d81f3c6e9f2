import { ProgrammerError } from '../keying/result.ts';
import type { PlanDescription, WritePlan } from './plan.ts';
export function describePlan(_plan: WritePlan): PlanDescription {
  throw new ProgrammerError('not written yet');
}
