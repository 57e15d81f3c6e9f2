/** Make keys: describe a system, see at once whether it fits, make it beside the pane, look, write. */
import { Button, Link } from '@fluentui/react-components';
import { useEffect, useMemo, useState } from 'react';
import type { Capacity } from '../../src/keying/capacity.ts';
import { enteringOf } from '../../src/keying/shop.ts';
import { say } from '../../src/keying/wording.ts';
import {
  arrayNames,
  planArray,
  planNewSystem,
  readArray,
  readShop,
  retiredUnder,
  type NamedChange,
  type ScheduleRow,
} from '../../src/workbook/index.ts';
import { showArrayFaults } from './arrayFaults.ts';
import { ArrayFold } from './ArrayFold.tsx';
import { withSheet, type Figures } from './arrayForm.ts';
import { ChangeList } from '../shared/ChangeList.tsx';
import { Busy } from '../shared/Busy.tsx';
import { MAKE_SPEC, useDraft, useGoToAudit, useNavigation } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { ownSheets } from '../shared/ownSheets.ts';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { usePreferences } from '../shared/preferences.tsx';
import { Screen } from '../shared/Screen.tsx';
import { stageWords } from '../shared/stages.ts';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useSteps, type WorkState } from '../shared/useSteps.ts';
import { useBook } from '../shared/workbook.tsx';
import { chosenSpec, specChoices } from '../specs/choices.ts';
import { SpecSelect } from '../specs/SpecSelect.tsx';
import { CapacityView } from './CapacityView.tsx';
import { DoorsFold } from './DoorsFold.tsx';
import { doorTree } from './doors.ts';
import { MadeSystem, type Made } from './MadeSystem.tsx';
import { MakeFields } from './MakeFields.tsx';
import {
  DEFAULT_MAKE,
  nextName,
  readMakeForm,
  wantedSentence,
  type KeywayGround,
  type MakeForm,
} from './makeForm.ts';
import { parseWhole } from './counts.ts';
import { newSystem } from './newSystem.ts';
import { useCapacity } from './useCapacity.ts';
import { useDoors } from './useDoors.ts';

export function MakeScreen() {
  const book = useBook();
  const { go } = useNavigation();
  const goToAudit = useGoToAudit();
  const { chosen, keep } = usePreferences();
  const [specName, setSpecName] = useDraft<string>(MAKE_SPEC, '');
  const [typed, setForm] = useDraft<MakeForm>('make.form', DEFAULT_MAKE);
  const doors = useDoors();
  const work = useSteps('generate');
  const run = usePlan();

  const choices = useMemo(() => specChoices(book), [book]);
  const spec = chosenSpec(choices, specName || chosen?.spec);
  const taken = useMemo(() => (book?.systems ?? []).map((s) => s.name), [book]);
  const called = typed.name.trim() || nextName(taken);
  const fromSheet = typed.arrayFrom === 'sheet';
  const sheetArray = useMemo(
    () => (book && fromSheet ? readArray(book, called, spec) : undefined),
    [book, called, fromSheet, spec],
  );
  const form = useMemo(
    () => (sheetArray?.array ? withSheet(typed, spec, sheetArray.array) : typed),
    [sheetArray, spec, typed],
  );
  const rows = doors.state.step === 'read' ? doors.state.doors.rows : undefined;
  const tree = useMemo(() => {
    if (!rows || rows.length === 0) return undefined;
    const masters = parseWhole(form.masters, 1, 1000, 'masters');
    return doorTree(rows, form.levels, masters.ok ? masters.value : 1);
  }, [form.levels, form.masters, rows]);
  const ground = useMemo((): KeywayGround => {
    if (!book) return {};
    const entering = enteringOf(readShop(book).blanks);
    return {
      retiredFor: (keyway) => retiredUnder(book, spec, keyway || undefined),
      ...(entering && { entering }),
    };
  }, [book, spec]);
  const reading = useMemo(
    () => readMakeForm(form, spec, taken, tree, ground),
    [form, ground, spec, taken, tree],
  );
  const { wanted } = reading;
  const request = fromSheet && !sheetArray?.array ? undefined : reading.request;
  const capacity = useCapacity(request);
  const figures = useLastFigures(capacity, spec.name);
  const arrayRun = usePlan();
  const [arrayChanges, setArrayChanges] = useState<readonly NamedChange[]>([]);

  // the plan belongs to what was asked, not to what the form holds afterwards
  const [asked, setAsked] = useState<{ readonly form: MakeForm; readonly rows: readonly ScheduleRow[] }>();
  const make = (): void => {
    if (!request) return;
    setAsked({ form, rows: rows ?? [] });
    work.start(request);
  };
  const { state } = work;
  const made: Made | undefined = state.step === 'done' && state.value.ok ? state.value : undefined;
  const { prepare } = run;
  useEffect(() => {
    if (!made || !asked) return;
    const system = newSystem(made, asked.form, asked.rows);
    void prepare((now) => planNewSystem(now, system, { made: today() }));
  }, [asked, made, prepare]);

  // an array and a deal are chamber by chamber: those of another spec would be somebody else's
  const changeSpec = (name: string): void => {
    setSpecName(name);
    setForm({ ...typed, array: [], deal: [], sequence: '' });
  };
  const putOnSheet = (): void => {
    if (!figures || !request) return;
    // what is typed goes first: the count of it may still be under way
    const { topMaster = figures.topMaster, array = figures.array, deal = figures.deal, sequence } = request;
    const input = { system: called, spec, topMaster, array, deal };
    void arrayRun.prepare((now) => {
      const made = planArray(now, { ...input, ...(sequence && { sequence }) }, { made: today() });
      setArrayChanges(made.changes);
      return made.plan;
    });
  };

  const backToForm = (): void => {
    run.leave();
    work.reset();
  };

  const leaveFor = (to: 'audit' | 'start'): void => {
    backToForm();
    setForm({ ...typed, name: '', arrayFrom: 'form' });
    keep({ begun: true, spec: spec.name });
    if (made && to === 'audit') goToAudit(made.system.name);
    else go('start');
  };

  if (arrayRun.state.step !== 'none')
    return (
      <PlanScreen
        title={`Array of ${called}`}
        run={arrayRun}
        action="Put it on the sheet"
        back={{ label: 'Back to the description', onClick: arrayRun.leave }}
        onDone={() => {
          const there = arrayRun.state.step === 'written' || arrayRun.state.step === 'ready';
          arrayRun.leave();
          if (there) setForm({ ...typed, name: called, arrayFrom: 'sheet' });
        }}
      >
        <ChangeList changes={arrayChanges} />
        <p>
          Edit the depths, their order and the levels there; Make keys then takes what the sheet says, and
          names the cell of every fault.
        </p>
      </PlanScreen>
    );
  if (made && run.state.step !== 'none')
    return (
      <PlanScreen
        title={`Write ${made.system.name}`}
        run={run}
        action="Write the system"
        back={{ label: 'Back to the description', onClick: backToForm }}
        {...(made.system.cylinders.length > 0
          ? { next: { label: 'Audit it', onClick: () => leaveFor('audit') } }
          : {})}
        onDone={() => leaveFor('start')}
      >
        <MadeSystem made={made} />
      </PlanScreen>
    );
  if (state.step === 'busy' || made)
    return (
      <Screen
        title="Make keys"
        step={state.step}
        back={{ label: 'Back to the description', onClick: backToForm }}
      >
        {state.step === 'busy' && (
          <Busy {...state.progress} stage={stageWords(state.progress.stage)} onStop={work.stop} />
        )}
      </Screen>
    );
  const short = capacity.step === 'done' && !capacity.value.fits;
  return (
    <Screen
      title="Make keys"
      step={state.step}
      lead="A master-key system: bittings, key-by-door grid and pinning in this workbook."
      foot={
        <>
          {!request && (
            <p className="why">
              {fromSheet && !sheetArray?.array ? (
                <>
                  The array in the sheet has faults.{' '}
                  <Link as="button" onClick={showArrayFaults}>
                    Show them
                  </Link>
                </>
              ) : (
                'Mend the marked fields first.'
              )}
            </p>
          )}
          {request && short && <p className="why">It does not fit: see under Room.</p>}
          <Button
            className="primary"
            appearance="primary"
            disabledFocusable={!request || short}
            onClick={() => !short && make()}
          >
            Make the keys
          </Button>
        </>
      }
    >
      <div className="stack">
        {state.step === 'failed' && <Notice kind="error">{state.sentence}</Notice>}
        {state.step === 'stopped' && (
          <Notice kind="info">Stopped before all keys were found. Nothing was made.</Notice>
        )}
        {state.step === 'done' &&
          !state.value.ok &&
          state.value.problems.map((problem, i) => (
            <Notice key={i} kind="error">
              {say(problem)}
            </Notice>
          ))}
        <SpecSelect choices={choices} value={spec.name} onChange={changeSpec} hint={spec.title} />
        <MakeFields
          form={typed}
          onChange={setForm}
          fromSheet={fromSheet}
          faults={reading.faults}
          nextName={nextName(taken)}
          fromDoors={tree !== undefined}
        />
        <ArrayFold
          spec={spec}
          form={form}
          onChange={fromSheet ? (next) => setForm({ ...typed, arrayFrom: next.arrayFrom }) : setForm}
          faults={reading.faults}
          figures={figures}
          name={called}
          inSheet={book !== undefined && arrayNames(book).some((n) => sameSystem(n, called))}
          reading={sheetArray}
          onSheet={figures && request ? putOnSheet : undefined}
        />
        <DoorsFold sheets={ownSheets(book)} doors={doors} tree={tree} />
        {wanted && (
          <>
            <h2>Room</h2>
            <p>{wantedSentence(form.levels, wanted)}</p>
            <CapacityView state={capacity} needed={wanted.changeKeys + wanted.spares} />
          </>
        )}
      </div>
    </Screen>
  );
}

const sameSystem = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

/** What the program chose last for this spec: the table stays while another count is under way. */
function useLastFigures(capacity: WorkState<Capacity>, spec: string): Figures | undefined {
  const [last, setLast] = useState<{ readonly spec: string; readonly figures: Figures }>();
  const found = capacity.step === 'done' ? capacity.value.figures : undefined;
  if (found && last?.figures !== found) setLast({ spec, figures: found });
  return found ?? (last?.spec === spec ? last.figures : undefined);
}
