/**
 * The way of every write: prepare (read afresh, plan), show, carry out, report, take back. One hook holds it, so
 * that no task can write without a plan having been shown.
 */
import { useCallback, useRef, useState } from 'react';
import {
  applyPlan,
  boxAddress,
  describePlan,
  undoPlan,
  type ApplyOptions,
  type ApplyOutcome,
  type ApplyProgress,
  type BookReading,
  type Conflict,
  type PlanDescription,
  type UndoPlan,
  type WritePlan,
} from '../../src/workbook/index.ts';
import { useAnnounce } from './announce.tsx';
import { useWorkbook } from './workbook.tsx';

export type PlanState =
  | { readonly step: 'none' }
  | { readonly step: 'preparing' }
  | { readonly step: 'ready'; readonly plan: WritePlan; readonly description: PlanDescription }
  | { readonly step: 'writing'; readonly progress: ApplyProgress | undefined; readonly undoing: boolean }
  | {
      readonly step: 'written';
      readonly sentence: string;
      readonly undo: UndoPlan | undefined;
      /** Sheets that were written to, to show. */
      readonly sheets: readonly string[];
    }
  | { readonly step: 'undone'; readonly sentence: string }
  | { readonly step: 'stopped'; readonly sentence: string }
  | {
      readonly step: 'failed';
      readonly sentence: string;
      readonly conflicts: readonly Conflict[];
      /** It was the undo that failed: what was written still stands. */
      readonly undoing: boolean;
    };

/** Makes the plan from a fresh reading; a string says why there can be none. */
export type PlanBuilder = (book: BookReading) => WritePlan | Promise<WritePlan | string>;

export interface PlanRun {
  readonly state: PlanState;
  /** Reads the workbook and plans on that reading. */
  readonly prepare: (build: PlanBuilder) => Promise<void>;
  readonly write: () => Promise<void>;
  readonly stop: () => void;
  readonly undo: () => Promise<void>;
  /** Plans once more with the last builder: after a refusal, or after an undo. */
  readonly again: () => Promise<void>;
  readonly leave: () => void;
}

/** What an outcome leaves on the screen. */
export function stateOf(outcome: ApplyOutcome, undoing: boolean, sheets: readonly string[] = []): PlanState {
  const { sentence } = outcome;
  switch (outcome.outcome) {
    case 'done':
      return undoing
        ? { step: 'undone', sentence }
        : { step: 'written', sentence, undo: outcome.undo, sheets };
    case 'refused':
      return { step: 'failed', sentence, conflicts: outcome.reasons, undoing };
    case 'rolled-back':
      return outcome.stopped
        ? { step: 'stopped', sentence }
        : { step: 'failed', sentence, conflicts: outcome.kept ?? [], undoing };
    case 'broken':
      return {
        step: 'failed',
        sentence,
        undoing,
        conflicts: outcome.places.map((box) => ({
          at: { sheet: box.sheet, address: boxAddress(box) },
          sentence: 'May be half written: check these cells.',
        })),
      };
  }
}

export function usePlan(): PlanRun {
  const { refresh, keepWrite } = useWorkbook();
  const announce = useAnnounce();
  const [state, setState] = useState<PlanState>({ step: 'none' });
  const builder = useRef<PlanBuilder>(undefined);
  const stopper = useRef<AbortController>(undefined);

  const prepare = useCallback(
    async (build: PlanBuilder) => {
      builder.current = build;
      setState({ step: 'preparing' });
      const book = await refresh();
      if (!book.ok) return setState({ step: 'failed', sentence: book.error, conflicts: [], undoing: false });
      const plan = await build(book.value);
      if (typeof plan === 'string')
        return setState({ step: 'failed', sentence: plan, conflicts: [], undoing: false });
      setState({ step: 'ready', plan, description: describePlan(plan) });
    },
    [refresh],
  );

  const carryOut = useCallback(
    async (
      work: (options: ApplyOptions) => Promise<ApplyOutcome>,
      undoing: boolean,
      sheets: readonly string[] = [],
    ) => {
      stopper.current = new AbortController();
      setState({ step: 'writing', progress: undefined, undoing });
      const outcome = await work({
        signal: stopper.current.signal,
        onProgress: (progress) => setState({ step: 'writing', progress, undoing }),
      });
      const next = stateOf(outcome, undoing, sheets);
      setState(next);
      announce(outcome.sentence);
      if (next.step === 'written') keepWrite(next.undo && { sentence: next.sentence, undo: next.undo });
      if (next.step === 'undone') keepWrite(undefined);
      await refresh();
    },
    [announce, keepWrite, refresh],
  );

  const write = useCallback(async () => {
    if (state.step !== 'ready') return;
    const { plan } = state;
    await carryOut((options) => applyPlan(plan, options), false, [
      ...new Set(plan.effects.map((effect) => effect.sheet)),
    ]);
  }, [carryOut, state]);

  const undo = useCallback(async () => {
    if (state.step !== 'written' || !state.undo) return;
    const handle = state.undo;
    await carryOut((options) => undoPlan(handle, options), true);
  }, [carryOut, state]);

  const again = useCallback(async () => {
    if (builder.current) await prepare(builder.current);
  }, [prepare]);

  const stop = useCallback(() => stopper.current?.abort(), []);
  const leave = useCallback(() => setState({ step: 'none' }), []);
  return { state, prepare, write, stop, undo, again, leave };
}
