/** What solving and extending show alike: the search under way, and how an earlier one ended. */
import type { SolveResult } from '../../src/keying/grid/index.ts';
import { counted } from '../pictures/numbers.ts';
import { Busy } from '../shared/Busy.tsx';
import { Notice } from '../shared/Notice.tsx';
import { Screen } from '../shared/Screen.tsx';
import type { WorkState } from '../shared/useSteps.ts';
import { searchWords } from './stage.ts';

interface SearchingProps {
  readonly title: string;
  readonly state: WorkState<SolveResult>;
  readonly onStop: () => void;
  readonly back: { readonly label: string; readonly onClick: () => void };
}

export function Searching({ title, state, onStop, back }: SearchingProps) {
  return (
    <Screen title={title} step="busy" back={back}>
      {state.step === 'busy' && (
        <Busy {...state.progress} stage={searchWords(state.progress.stage)} onStop={onStop} />
      )}
    </Screen>
  );
}

/** Why there is no answer, where the search was stopped or failed. */
export function SearchEnded({ state }: { readonly state: WorkState<SolveResult> }) {
  if (state.step === 'failed') return <Notice kind="error">{state.sentence}</Notice>;
  if (state.step !== 'stopped') return null;
  return (
    <Notice kind="info">
      Stopped after {counted(state.progress?.done ?? 0, 'step')}. Nothing was found until then, and nothing is
      proved.
    </Notice>
  );
}
