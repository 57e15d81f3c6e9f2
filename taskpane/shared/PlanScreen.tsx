/**
 * A write, from its plan to its report. Says what will happen, does it on one button, says what happened and offers
 * to take it back. All five states are here: preparing, ready (or barred by conflicts), writing, stopped or failed,
 * done.
 */
import { Button } from '@fluentui/react-components';
import type { ReactNode } from 'react';
import { goTo, type ApplyProgress, type Conflict, type PlanDescription } from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';
import { Busy } from './Busy.tsx';
import { FaultList, type FaultLine } from './FaultList.tsx';
import { Notice } from './Notice.tsx';
import { Screen } from './Screen.tsx';
import type { PlanRun } from './usePlan.ts';

interface Props {
  readonly title: string;
  readonly run: PlanRun;
  /** Verb of the primary button: "Write the system". */
  readonly action: string;
  /** Pictures and cautions that belong to the decision; shown while it can still be taken. */
  readonly children?: ReactNode;
  readonly back: { readonly label: string; readonly onClick: () => void };
  /** What naturally follows once it is written; then the primary button, with “Done” beside it. */
  readonly next?: { readonly label: string; readonly onClick: () => void };
  /** Leaves the task for good once it is written. */
  readonly onDone: () => void;
}

const STAGES: Record<ApplyProgress['stage'], string> = {
  checking: 'Checking that nothing changed',
  writing: 'Writing',
  'reading back': 'Reading back',
  'taking back': 'Taking back',
};

export function PlanScreen({ title, run, action, children, back, next, onDone }: Props) {
  const { state } = run;
  switch (state.step) {
    case 'none':
    case 'preparing':
      return (
        <Screen title={title} step={state.step} back={back}>
          <Busy stage="Reading the workbook" done={0} total={0} />
        </Screen>
      );
    case 'ready': {
      const { description } = state;
      const barred = description.conflicts.length > 0;
      const nothing = !barred && description.cells === 0;
      return (
        <Screen
          title={title}
          step={state.step}
          back={back}
          foot={
            barred ? (
              <Button className="primary" appearance="primary" onClick={() => void run.again()}>
                Check again
              </Button>
            ) : nothing ? (
              <Button className="primary" appearance="primary" onClick={onDone}>
                Done
              </Button>
            ) : (
              <Button className="primary" appearance="primary" onClick={() => void run.write()}>
                {action}
              </Button>
            )
          }
        >
          <Effects description={description} />
          {barred ? (
            <>
              <Notice kind="error">
                {counted(description.conflicts.length, 'thing')} in the way. Nothing is written until the way
                is free.
              </Notice>
              <FaultList label="In the way" lines={description.conflicts.map(conflictLine)} />
            </>
          ) : (
            children
          )}
        </Screen>
      );
    }
    case 'writing':
      return (
        <Screen title={title} step={state.step} back={back}>
          <Busy
            stage={state.progress ? STAGES[state.progress.stage] : state.undoing ? 'Taking back' : 'Starting'}
            done={state.progress?.done ?? 0}
            total={state.progress?.total ?? 0}
            onStop={state.undoing ? undefined : run.stop}
          />
        </Screen>
      );
    case 'written':
      return (
        <Screen
          title={title}
          step={state.step}
          back={back}
          foot={
            <>
              {next && (
                <Button className="primary" appearance="primary" onClick={next.onClick}>
                  {next.label}
                </Button>
              )}
              <Button
                {...(next ? {} : { className: 'primary', appearance: 'primary' as const })}
                onClick={onDone}
              >
                Done
              </Button>
              {state.undo && <Button onClick={() => void run.undo()}>Undo</Button>}
            </>
          }
        >
          <Notice kind="success">{state.sentence}</Notice>
          {state.sheets.length > 0 && (
            <div className="ways">
              {state.sheets.map((sheet) => (
                <Button key={sheet} size="small" onClick={() => void goTo({ sheet, address: 'A1' })}>
                  Show {sheet}
                </Button>
              ))}
            </div>
          )}
        </Screen>
      );
    case 'undone':
    case 'stopped':
      return (
        <Screen
          title={title}
          step={state.step}
          back={back}
          foot={
            <>
              <Button className="primary" appearance="primary" onClick={() => void run.again()}>
                Plan it again
              </Button>
              <Button onClick={onDone}>Leave it</Button>
            </>
          }
        >
          <Notice kind="info">{state.sentence}</Notice>
        </Screen>
      );
    case 'failed':
      return (
        <Screen
          title={title}
          step={state.step}
          back={back}
          foot={
            state.undoing ? (
              <Button className="primary" appearance="primary" onClick={onDone}>
                Leave it as it is
              </Button>
            ) : (
              <Button className="primary" appearance="primary" onClick={() => void run.again()}>
                Try again
              </Button>
            )
          }
        >
          <Notice kind="error">{state.sentence}</Notice>
          {state.conflicts.length > 0 && (
            <FaultList label="Reasons" lines={state.conflicts.map(conflictLine)} />
          )}
        </Screen>
      );
  }
}

const conflictLine = ({ at, sentence, holds }: Conflict): FaultLine => ({
  severity: 'fault',
  sentence: holds ? `${sentence} The cell holds “${holds}”.` : sentence,
  ...(at ? { at } : {}),
});

/** The plan in a sentence and a number. */
function Effects({ description }: { readonly description: PlanDescription }) {
  return (
    <section aria-label="What will be written">
      <p>{description.sentence}</p>
      {description.cells > 0 && <p className="lead">{counted(description.cells, 'cell')} in all.</p>}
    </section>
  );
}
