/** Check codes: the selected cells against a spec, by themselves and against each other. */
import { Button, Field, Select } from '@fluentui/react-components';
import { useEffect, useEffectEvent, useState } from 'react';
import { DEFAULT_RULES, type Rules } from '../../src/keying/rules.ts';
import { boxAddress, planCheckColumn, readTarget, type TargetReading } from '../../src/workbook/index.ts';
import { Busy } from '../shared/Busy.tsx';
import { Fold } from '../shared/Fold.tsx';
import { CHECK_START, useDraft, useNavigation } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { OWN_RULES, RuleSwitches } from '../shared/RuleSwitches.tsx';
import { Screen } from '../shared/Screen.tsx';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useSteps } from '../shared/useSteps.ts';
import { useBook } from '../shared/workbook.tsx';
import { chosenSpec, specChoices } from '../specs/choices.ts';
import { SpecSelect } from '../specs/SpecSelect.tsx';
import { guessCodeColumn } from './checkRows.ts';
import { CheckResult } from './CheckResult.tsx';
import { codeCells, columnName, targetName } from './columns.ts';
import { useTarget } from './useTarget.ts';

/** Switches of the list as a whole stand beside those of the single key. */
const SWITCHES = [...OWN_RULES, 'duplicate', 'nearMiss'] as const;

export function CheckScreen() {
  const book = useBook();
  const choices = specChoices(book);
  const [name, setName] = useDraft<string>('check.spec', '');
  const [rules, setRules] = useDraft<Rules>('check.rules', DEFAULT_RULES);
  const spec = chosenSpec(choices, name);
  const [target, readSelection, forget] = useTarget();
  const [column, setColumn] = useState<number>();
  const work = useSteps('check');
  const run = usePlan();

  const checkColumn = (found: TargetReading, index: number): void => {
    setColumn(index);
    work.start({ spec, rules, cells: codeCells(found, index) });
  };
  const check = async (): Promise<void> => {
    const found = await readSelection();
    if (found) checkColumn(found, guessCodeColumn(spec, found.values) ?? 0);
  };
  // the ribbon's button asks for the selection as it is
  const begin = useEffectEvent(() => void check());
  const { drafts } = useNavigation();
  useEffect(() => {
    if (drafts.delete(CHECK_START)) void Promise.resolve().then(() => begin());
  }, [drafts]);
  const start = (): void => {
    work.reset();
    forget();
  };

  if (run.state.step !== 'none')
    return (
      <PlanScreen
        title="Add a check column"
        run={run}
        action="Add the column"
        back={{ label: 'Back to the result', onClick: run.leave }}
        onDone={run.leave}
      >
        <p className="lead">The column follows the sheet: correct a code and its check changes with it.</p>
      </PlanScreen>
    );

  const { state } = work;
  if (target.step === 'reading' || state.step === 'busy')
    return (
      <Screen title="Check codes" step="busy">
        {state.step === 'busy' ? (
          <Busy {...state.progress} onStop={work.stop} />
        ) : (
          <Busy stage="Reading the selection" done={0} total={0} />
        )}
      </Screen>
    );
  if (target.step === 'read' && state.step === 'done' && column !== undefined)
    return (
      <Screen
        title="Check codes"
        step="done"
        back={{ label: 'Back to the choice of spec', onClick: start }}
        foot={
          <>
            <Button
              className="primary"
              appearance="primary"
              onClick={() =>
                void run.prepare(async (now) => {
                  const { sheet, ...box } = target.target.box;
                  const again = await readTarget({ sheet, address: boxAddress(box) });
                  if (!again.ok) return again.error.sentence;
                  return planCheckColumn(now, again.value, {
                    codes: column,
                    spec: spec.name,
                    made: today(),
                  });
                })
              }
            >
              Add a check column
            </Button>
            <Button onClick={() => void check()}>Check again</Button>
          </>
        }
      >
        <p className="lead">
          {targetName(target.target)}, against {spec.name}
        </p>
        {target.target.values[0] !== undefined && target.target.values[0].length > 1 && (
          <Field label="Column with the codes">
            <Select
              value={String(column)}
              onChange={(_, { value }) => checkColumn(target.target, Number(value))}
            >
              {target.target.values[0].map((_, i) => (
                <option key={i} value={i}>
                  {columnName(target.target, i)}
                </option>
              ))}
            </Select>
          </Field>
        )}
        <CheckResult spec={spec} report={state.value} target={target.target} column={column} />
      </Screen>
    );
  return (
    <Screen
      title="Check codes"
      step={state.step}
      lead="Select the cells that hold the codes, or one cell of their table, then check."
      foot={
        <Button className="primary" appearance="primary" onClick={() => void check()}>
          Check the selection
        </Button>
      }
    >
      <div className="stack">
        {target.step === 'failed' && <Notice kind="error">{target.sentence}</Notice>}
        {state.step === 'failed' && <Notice kind="error">{state.sentence}</Notice>}
        {state.step === 'stopped' && (
          <Notice kind="info">Stopped before all codes were compared. Nothing was written.</Notice>
        )}
        <SpecSelect choices={choices} value={spec.name} onChange={setName} hint={spec.title} />
        <Fold label="Rules">
          <RuleSwitches rules={rules} switches={SWITCHES} onChange={setRules} />
        </Fold>
      </div>
    </Screen>
  );
}
