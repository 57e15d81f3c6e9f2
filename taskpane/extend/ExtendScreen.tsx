/** Extend a system: what its grid asks for beyond it is fitted in; keys and cylinders that stand are kept. */
import { Button } from '@fluentui/react-components';
import { useEffect, useMemo, useState } from 'react';
import type { Grid, SolveOptions } from '../../src/keying/grid/index.ts';
import {
  planExtension,
  readExtension,
  type Extension,
  type NamedChange,
  type Problem,
} from '../../src/workbook/index.ts';
import { counted, listed } from '../pictures/numbers.ts';
import { ChangeList } from '../shared/ChangeList.tsx';
import { FaultList } from '../shared/FaultList.tsx';
import { useDraft, useNavigation } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import { SystemSelect } from '../shared/SystemSelect.tsx';
import { chosenSystem } from '../shared/systems.ts';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useSteps } from '../shared/useSteps.ts';
import { useBook, useWorkbook } from '../shared/workbook.tsx';
import { inReserve, Reserve } from '../make/Reserve.tsx';
import { chartPlaces } from '../solve/chartPlaces.ts';
import { SolvedView } from '../solve/SolvedView.tsx';
import { SolveFields } from '../solve/SolveFields.tsx';
import { DEFAULT_SOLVE, readSolveForm, type SolveForm } from '../solve/solveForm.ts';
import { SearchEnded, Searching } from '../solve/SearchParts.tsx';
import { UnsolvedView } from '../solve/UnsolvedView.tsx';
import { freeing } from './freeing.ts';

interface Asked {
  readonly extension: Extension;
  /** With the cylinders that are to be re-pinned left open. */
  readonly grid: Grid;
  readonly options: SolveOptions;
}

export function ExtendScreen() {
  const book = useBook();
  const { refresh } = useWorkbook();
  const { go } = useNavigation();
  const [name, setName] = useDraft<string>('extend.system', '');
  const [form, setForm] = useDraft<SolveForm>('extend.form', DEFAULT_SOLVE);
  const [trouble, setTrouble] = useState<readonly Problem[]>([]);
  const [asked, setAsked] = useState<Asked>();
  const [changes, setChanges] = useState<readonly NamedChange[]>([]);
  const work = useSteps('solve');
  const run = usePlan();
  const systems = book?.systems ?? [];
  const system = chosenSystem(systems, name);
  const read = useMemo(() => (book && system ? readExtension(book, system.name) : undefined), [book, system]);
  const { options, faults } = useMemo(
    () =>
      system?.spec
        ? readSolveForm(form, system.spec)
        : { faults: new Map<never, string>(), options: undefined },
    [form, system],
  );

  const ask = (next: Asked): void => {
    setAsked(next);
    work.start({ grid: next.grid, options: next.options });
  };
  const extend = async (wanted: string): Promise<void> => {
    if (!options) return;
    const now = await refresh();
    if (!now.ok) return setTrouble([{ sheet: '', address: '', severity: 'fault', sentence: now.error }]);
    const found = readExtension(now.value, wanted);
    if (!found.ok) return setTrouble(found.error);
    const wrong = found.value.problems.filter((p) => p.severity === 'fault');
    if (wrong.length > 0) return setTrouble(wrong);
    setTrouble([]);
    ask({
      extension: found.value,
      grid: found.value.grid,
      options: { ...options, avoid: [...(options.avoid ?? []), ...found.value.avoid] },
    });
  };

  const { state } = work;
  const solved = state.step === 'done' && state.value.kind === 'solved' ? state.value : undefined;
  const doors = useMemo(
    () =>
      new Map([
        ...(asked?.extension.system.cylinders ?? []).map((c) => [c.id, c.door ?? ''] as const),
        ...(asked?.extension.newCylinders ?? []).map((c) => [c.id, c.door ?? ''] as const),
      ]),
    [asked],
  );
  const { prepare } = run;
  useEffect(() => {
    if (!solved || !asked) return;
    void prepare((now) => {
      const again = readExtension(now, asked.extension.system.name);
      if (!again.ok) return Promise.resolve(again.error[0]!.sentence);
      if (!sameGrid(again.value, asked.extension))
        return Promise.resolve('The grid or the system was changed since. Go back and fit them in again.');
      const made = planExtension(now, again.value, solved, { made: today() });
      setChanges(made.changes);
      return made.plan;
    });
  }, [asked, prepare, solved]);

  if (!system)
    return (
      <Screen title="Extend a system">
        <Notice kind="info">This workbook holds no system yet. Make keys or solve a grid first.</Notice>
      </Screen>
    );
  const back = (): void => {
    run.leave();
    work.reset();
  };
  const backWay = { label: 'Back to the system', onClick: back };
  if (solved && asked && run.state.step !== 'none')
    return (
      <PlanScreen
        title={`Extend ${asked.extension.system.name}`}
        run={run}
        action="Write the extension"
        back={backWay}
        onDone={() => {
          back();
          go('start');
        }}
      >
        <ChangeList changes={changes} />
        <SolvedView grid={asked.grid} solved={solved} doors={doors} />
      </PlanScreen>
    );
  if (state.step === 'busy' || solved)
    return <Searching title="Extend a system" state={state} onStop={work.stop} back={backWay} />;
  if (state.step === 'done' && state.value.kind !== 'solved' && asked) {
    const result = state.value;
    const { repin } = result;
    return (
      <Screen
        title={result.kind === 'impossible' ? 'Not as it stands' : 'Not found'}
        step="done"
        back={backWay}
        foot={
          <>
            {repin && (
              <Button
                className="primary"
                appearance="primary"
                onClick={() =>
                  ask({ ...asked, grid: freeing(asked.extension.grid, new Set(repin.cylinders)) })
                }
              >
                Re-pin {repin.cylinders.length === 1 ? 'it' : 'these'} and fit in
              </Button>
            )}
            <Button
              {...(repin ? {} : { className: 'primary', appearance: 'primary' as const })}
              onClick={() => void extend(asked.extension.system.name)}
            >
              Read the grid again
            </Button>
          </>
        }
      >
        {repin && (
          <Notice kind="info">
            Re-pinning {listed(repin.cylinders.slice(0, 12).map((id) => doors.get(id) || id))}
            {repin.cylinders.length > 12 && ` and ${repin.cylinders.length - 12} more`} makes it fit.{' '}
            {repin.kind === 'proved-smallest'
              ? 'Proved smallest: no fewer cylinders will do.'
              : `Best found: at least ${repin.atLeast} must be, and fewer than these may do.`}{' '}
            Their old pinning is shown before anything is written.
          </Notice>
        )}
        <UnsolvedView result={result} places={placesIn(asked.extension)} />
      </Screen>
    );
  }
  const found = read?.ok ? read.value : undefined;
  const refused = trouble.length > 0 ? trouble : read && !read.ok ? read.error : (found?.problems ?? []);
  const sheet = found?.table.sheet ?? 'Grid';
  return (
    <Screen
      title="Extend a system"
      step={state.step}
      lead="Keys and cylinders that exist stay as they are; new columns and rows of the grid are fitted in."
      foot={
        <>
          {!options && <p className="why">Mend the marked fields first.</p>}
          {read && !read.ok && <p className="why">It can’t be extended yet: see the reasons above.</p>}
          <Button
            className="primary"
            appearance="primary"
            disabledFocusable={!options || !read?.ok}
            onClick={() => void (read?.ok && extend(system.name))}
          >
            Fit them in
          </Button>
        </>
      }
    >
      <div className="stack">
        <SearchEnded state={state} />
        <SystemSelect
          systems={systems}
          value={system.name}
          onChange={(next) => {
            setName(next);
            setTrouble([]);
          }}
        />
        {found && (
          <p>
            {found.newKeys.length + found.newCylinders.length === 0
              ? `The grid asks for nothing new yet. Type a new key’s symbol to the right of the headings on ${sheet}, a new cylinder’s number below the last row, and mark who must open what.`
              : `New on ${sheet}: ${counted(found.newKeys.length, 'key')}${found.newKeys.length > 0 ? ` (${listed(found.newKeys.slice(0, 8).map((k) => k.symbol))})` : ''} and ${counted(found.newCylinders.length, 'cylinder')}${found.newCylinders.length > 0 ? ` (${listed(found.newCylinders.slice(0, 8).map((c) => c.door ?? c.id))})` : ''}.`}
          </p>
        )}
        {found && (
          <Reserve
            spec={found.grid.spec}
            keys={inReserve(found.audit.system.keys, found.audit.system.cylinders)}
          />
        )}
        {refused.length > 0 && (
          <>
            {read && !read.ok && (
              <Notice kind="error">This system is not extended until its record is complete.</Notice>
            )}
            <FaultList
              label="What is in the way"
              lines={refused.map(({ severity, sentence, sheet: on, address }) => ({
                severity,
                sentence,
                ...(address && { at: { sheet: on, address } }),
              }))}
            />
          </>
        )}
        {options || faults.size > 0 ? (
          <SolveFields form={form} onChange={setForm} faults={faults} extending />
        ) : null}
      </div>
    </Screen>
  );
}

/** The plan is made on a fresh reading; it must ask for the very same. */
const sameGrid = (a: Extension, b: Extension): boolean => JSON.stringify(a.grid) === JSON.stringify(b.grid);

/** Every key and cylinder of the extended grid by its cell there, else by its row in Keys and Cylinders. */
function placesIn(extension: Extension) {
  const { system, newKeys, newCylinders, marks, cells } = extension;
  return chartPlaces({
    keys: [...system.keys.map(({ symbol, at }) => ({ symbol, at: at.bitting })), ...newKeys],
    cylinders: [
      ...system.cylinders.map(({ id, door, at }) => ({ id, at: at.row, ...(door && { door }) })),
      ...newCylinders,
    ],
    marks: marks.map(({ key, cylinder }) => {
      const cell = cells.find((c) => c.key === key && c.cylinder === cylinder);
      return { key, cylinder, at: cell?.at ?? system.at };
    }),
    layout: { headerRow: 0, cylinder: 0, keys: [], list: 0 },
  });
}
