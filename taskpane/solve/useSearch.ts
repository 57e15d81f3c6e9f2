/** A search for bittings, with what was asked of it kept beside its answer. */
import { useState } from 'react';
import { DEFAULT_BUDGET } from '../../src/keying/grid/index.ts';
import type {
  Grid,
  Impossible,
  NotFound,
  Solved,
  SolveOptions,
  SolveResult,
} from '../../src/keying/grid/index.ts';
import { useSteps, type WorkState } from '../shared/useSteps.ts';

export interface Asked {
  readonly grid: Grid;
  readonly options: SolveOptions;
}

export interface Search<A extends Asked> {
  readonly asked: A | undefined;
  readonly ask: (next: A) => void;
  readonly state: WorkState<SolveResult>;
  readonly solved: Solved | undefined;
  readonly unsolved: Impossible | NotFound | undefined;
  readonly stop: () => void;
  readonly reset: () => void;
}

export function useSearch<A extends Asked>(): Search<A> {
  const [asked, setAsked] = useState<A>();
  const { state, start, stop, reset } = useSteps('solve');
  const answer = state.step === 'done' ? state.value : undefined;
  return {
    asked,
    ask: (next) => {
      setAsked(next);
      start({ grid: next.grid, options: next.options });
    },
    state,
    solved: answer?.kind === 'solved' ? answer : undefined,
    unsolved: answer && answer.kind !== 'solved' ? answer : undefined,
    stop,
    reset,
  };
}

/** The same once more, four times as long. */
export const searchedOn = <A extends Asked>(asked: A): A => ({
  ...asked,
  options: { ...asked.options, budget: 4 * (asked.options.budget ?? DEFAULT_BUDGET) },
});

/** The same once more, drawn otherwise. */
export const withNextSeed = <A extends Asked>(asked: A): A => ({
  ...asked,
  options: { ...asked.options, seed: (asked.options.seed ?? 1) + 1 },
});
