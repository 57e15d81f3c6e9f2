import { ProgrammerError } from '../keying/result.ts';
import type { ApplyOptions, ApplyOutcome, UndoPlan } from './outcome.ts';
import type { WritePlan } from './plan.ts';
export async function applyPlan(_plan: WritePlan, _options: ApplyOptions = {}): Promise<ApplyOutcome> {
  throw new ProgrammerError('not written yet');
}
export async function undoPlan(_undo: UndoPlan, _options: ApplyOptions = {}): Promise<ApplyOutcome> {
  throw new ProgrammerError('not written yet');
}
