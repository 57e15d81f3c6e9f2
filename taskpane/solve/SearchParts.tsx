/** What solving and extending show alike: the search under way, its plan, and why there is no answer. */
import { Button } from '@fluentui/react-components';
import type { ReactNode } from 'react';
import type { SolveResult } from '../../src/keying/grid/index.ts';
import { counted } from '../pictures/numbers.ts';
import { Busy } from '../shared/Busy.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import type { PlanRun } from '../shared/usePlan.ts';
import type { WorkState } from '../shared/useSteps.ts';
import { SolvedView } from './SolvedView.tsx';
import { searchWords } from './stage.ts';
import { UnsolvedView, type Places } from './UnsolvedView.tsx';
import { searchedOn, withNextSeed, type Asked, type Search } from './useSearch.ts';

interface Props<A extends Asked> {
  readonly search: Search<A>;
  readonly run: PlanRun;
  /** Of the task, while it searches. */
  readonly title: string;
  /** Of the plan, and the verb of its button. */
  readonly writing: { readonly title: string; readonly action: string };
  readonly back: { readonly label: string; readonly onClick: () => void };
  readonly onDone: () => void;
  readonly onAudit: () => void;
  /** What people call the doors, by cylinder. */
  readonly doors: ReadonlyMap<string, string>;
  readonly places: Places;
  /** Cells that change, above the solution. */
  readonly changes?: ReactNode;
  /** Headings where there is proved to be no solution, and where none was found. */
  readonly headings: { readonly impossible: string; readonly 'not-found': string };
  /** What makes it possible all the same, above the proof, and its primary button. */
  readonly wayOut?: { readonly words: ReactNode; readonly button: ReactNode } | undefined;
  /** Reads the grid once more, after a proof. */
  readonly again: { readonly label: string; readonly onClick: () => void };
}

/** Everything from the search's start to the written plan. */
export function SearchScreens<A extends Asked>(props: Props<A>) {
  const { search, run, title, writing, back, onDone, onAudit, doors, places, changes } = props;
  const { headings, wayOut, again } = props;
  const { asked, state, solved, unsolved } = search;
  if (solved && asked && run.state.step !== 'none')
    return (
      <PlanScreen
        title={writing.title}
        run={run}
        action={writing.action}
        back={back}
        next={{ label: 'Audit it', onClick: onAudit }}
        onDone={onDone}
      >
        {changes}
        <SolvedView grid={asked.grid} solved={solved} doors={doors} />
      </PlanScreen>
    );
  if (!unsolved || !asked)
    return (
      <Screen title={title} step="busy" back={back}>
        {state.step === 'busy' && (
          <Busy {...state.progress} stage={searchWords(state.progress.stage)} onStop={search.stop} />
        )}
      </Screen>
    );
  const first = wayOut ? {} : ({ className: 'primary', appearance: 'primary' } as const);
  return (
    <Screen
      title={headings[unsolved.kind]}
      step="done"
      back={back}
      foot={
        <>
          {wayOut?.button}
          {unsolved.kind === 'impossible' ? (
            <Button {...first} onClick={again.onClick}>
              {again.label}
            </Button>
          ) : (
            <>
              <Button {...first} onClick={() => search.ask(searchedOn(asked))}>
                Search on
              </Button>
              <Button onClick={() => search.ask(withNextSeed(asked))}>Another seed</Button>
            </>
          )}
        </>
      }
    >
      {wayOut?.words}
      <UnsolvedView result={unsolved} places={places} />
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
