/** Sample data on request: made beside the pane, shown as a plan, written into new sheets of this workbook. */
import { Button } from '@fluentui/react-components';
import { useEffect } from 'react';
import { say } from '../../src/keying/wording.ts';
import { planSample, sampleRequest } from '../../src/workbook/index.ts';
import { Busy } from '../shared/Busy.tsx';
import { useNavigation } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { usePreferences } from '../shared/preferences.tsx';
import { Screen } from '../shared/Screen.tsx';
import { stageWords } from '../shared/stages.ts';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useSteps } from '../shared/useSteps.ts';

const TITLE = 'Sample data';

export function SampleScreen() {
  const { go } = useNavigation();
  const { keep } = usePreferences();
  const run = usePlan();
  const { state, start } = useSteps('generate');
  useEffect(() => start(sampleRequest()), [start]);
  const made = state.step === 'done' && state.value.ok ? state.value : undefined;
  const { prepare } = run;
  useEffect(() => {
    if (made) void prepare((book) => planSample(book, made, { made: today() }));
  }, [made, prepare]);
  const leave = (): void => {
    keep({ begun: true });
    go('start');
  };
  if (made && run.state.step !== 'none')
    return (
      <PlanScreen
        title={TITLE}
        run={run}
        action="Write the sample"
        back={{ label: 'Back to start', onClick: () => go('start') }}
        onDone={leave}
      >
        <p className="lead">
          An invented hall with 18 doors: its door schedule, its keys and grid, and a list of codes with a few
          faults. It all goes onto new sheets, and Undo takes them away again.
        </p>
      </PlanScreen>
    );
  const trouble =
    state.step === 'failed'
      ? [state.sentence]
      : state.step === 'done' && !state.value.ok
        ? state.value.problems.map((problem) => say(problem))
        : [];
  return (
    <Screen
      title={TITLE}
      step={state.step}
      foot={trouble.length > 0 && <Button onClick={() => start(sampleRequest())}>Try again</Button>}
    >
      {trouble.map((sentence) => (
        <Notice key={sentence} kind="error">
          {sentence}
        </Notice>
      ))}
      {state.step === 'busy' && <Busy {...state.progress} stage={stageWords(state.progress.stage)} />}
    </Screen>
  );
}
