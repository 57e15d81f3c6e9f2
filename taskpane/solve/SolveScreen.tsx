/** Solve a grid: who must open what, as the shop marked it, becomes keys and cylinders; or a proof; or how far it got. */
import { Button, Field, Input, Select } from '@fluentui/react-components';
import { useEffect, useMemo, useState } from 'react';
import { gridOf, type Grid, type SolveOptions } from '../../src/keying/grid/index.ts';
import { systemOfSolved } from '../../src/keying/solvedSystem.ts';
import { boxAddress, planNewSystem, type GridChart, type GridSource } from '../../src/workbook/index.ts';
import { nextName } from '../make/makeForm.ts';
import { rulesText } from '../make/newSystem.ts';
import { Busy } from '../shared/Busy.tsx';
import { useDraft, useNavigation } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { ownSheets } from '../shared/ownSheets.ts';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useSteps } from '../shared/useSteps.ts';
import { useBook } from '../shared/workbook.tsx';
import { chosenSpec, specChoices } from '../specs/choices.ts';
import { SpecSelect } from '../specs/SpecSelect.tsx';
import { ChartView } from './ChartView.tsx';
import { chartPlaces } from './chartPlaces.ts';
import { FOUND, isSound, readChart, type LayoutChoice } from './layoutChoice.ts';
import { SolvedView } from './SolvedView.tsx';
import { SolveFields } from './SolveFields.tsx';
import { DEFAULT_SOLVE, readSolveForm, type SolveForm } from './solveForm.ts';
import { SearchEnded, Searching } from './SearchParts.tsx';
import { UnsolvedView } from './UnsolvedView.tsx';
import { SELECTION, useGridSource } from './useGridSource.ts';

/** What was asked of the solver, kept beside its answer. */
interface Asked {
  readonly name: string;
  readonly source: GridSource;
  readonly chart: GridChart;
  readonly grid: Grid;
  readonly options: SolveOptions;
}

export function SolveScreen() {
  const book = useBook();
  const { go } = useNavigation();
  const [specName, setSpecName] = useDraft<string>('solve.spec', '');
  const [name, setName] = useDraft<string>('solve.name', '');
  const [sheet, setSheet] = useDraft<string>('solve.sheet', SELECTION);
  const [form, setForm] = useDraft<SolveForm>('solve.form', DEFAULT_SOLVE);
  const [choice, setChoice] = useDraft<LayoutChoice>('solve.layout', FOUND);
  const [source, readSource, forget] = useGridSource();
  const work = useSteps('solve');
  const run = usePlan();

  const spec = chosenSpec(specChoices(book), specName);
  const sheets = ownSheets(book);
  const wanted = sheets.includes(sheet) ? sheet : SELECTION;
  const taken = useMemo(() => (book?.systems ?? []).map((s) => s.name), [book]);
  const { options, faults } = readSolveForm(form, spec, book);
  const cells = source.step === 'read' ? source.source : undefined;
  const chart = useMemo(() => cells && readChart(cells, choice), [cells, choice]);
  const called = name.trim() || nextName(taken);
  const nameTaken = taken.some((other) => other.trim().toLowerCase() === called.toLowerCase());

  const [asked, setAsked] = useState<Asked>();
  const ask = (next: Asked): void => {
    setAsked(next);
    work.start({ grid: next.grid, options: next.options });
  };
  // always from the cells as they are now
  const solve = async (): Promise<void> => {
    if (!options || nameTaken) return;
    const now = await readSource(wanted);
    const read = now && readChart(now, choice);
    if (!now || !isSound(read)) return;
    ask({
      name: called,
      source: now,
      chart: read,
      grid: gridOf(
        spec,
        read.keys.map((key) => key.symbol),
        read.cylinders.map((cylinder) => cylinder.id),
        read.marks,
      ),
      options,
    });
  };

  const { state } = work;
  const solved = state.step === 'done' && state.value.kind === 'solved' ? state.value : undefined;
  const doors = useMemo(
    () => new Map((asked?.chart.cylinders ?? []).map((c) => [c.id, c.door ?? ''] as const)),
    [asked],
  );
  const { prepare } = run;
  useEffect(() => {
    if (!solved || !asked) return;
    const { seed = 1, rules } = asked.options;
    const made = systemOfSolved(asked.grid, solved, {
      name: asked.name,
      doors,
      seed,
      ...(rules && { rules }),
    });
    void prepare((now) =>
      made.ok
        ? planNewSystem(
            now,
            {
              ...made.value,
              seed,
              deal: 'solved from a grid',
              ...(rules && { rules: rulesText(rules) }),
              note: `From ${asked.source.box.sheet} ${boxAddress(asked.source.box)}.`,
            },
            { made: today() },
          )
        : Promise.resolve(
            'The keys were found, but these cores leave no bitting for a control key. Try another seed, or a spec with more depths.',
          ),
    );
  }, [asked, doors, prepare, solved]);

  const back = (): void => {
    run.leave();
    work.reset();
  };
  const backWay = { label: 'Back to the grid', onClick: back };

  if (solved && asked && run.state.step !== 'none')
    return (
      <PlanScreen
        title={`Write ${asked.name}`}
        run={run}
        action="Write the system"
        back={backWay}
        onDone={() => {
          back();
          forget();
          setName('');
          go('start');
        }}
      >
        <SolvedView grid={asked.grid} solved={solved} doors={doors} />
      </PlanScreen>
    );
  if (state.step === 'busy' || solved)
    return <Searching title="Solve a grid" state={state} onStop={work.stop} back={backWay} />;
  if (state.step === 'done' && state.value.kind !== 'solved' && asked)
    return (
      <Screen
        title={state.value.kind === 'impossible' ? 'No solution' : 'Not found'}
        step="done"
        back={backWay}
        foot={
          state.value.kind === 'impossible' ? (
            <Button className="primary" appearance="primary" onClick={() => void solve()}>
              Solve again from the sheet
            </Button>
          ) : (
            <>
              <Button
                className="primary"
                appearance="primary"
                onClick={() => ask({ ...asked, options: moreSteps(asked.options) })}
              >
                Search on, four times as long
              </Button>
              <Button onClick={() => ask({ ...asked, options: nextSeed(asked.options) })}>
                Another seed
              </Button>
            </>
          )
        }
      >
        <UnsolvedView result={state.value} places={chartPlaces(asked.chart)} />
      </Screen>
    );
  return (
    <Screen
      title="Solve a grid"
      step={state.step}
      lead="Mark who must open what, cylinders down and keys across. Bittings and pinning are found, or it is proved that there are none."
      foot={
        <>
          {(!options || nameTaken) && <p className="why">Mend the marked fields first.</p>}
          <Button
            className="primary"
            appearance="primary"
            disabledFocusable={!options || nameTaken || source.step === 'reading'}
            onClick={() => void solve()}
          >
            Solve the grid
          </Button>
          <Button onClick={() => void readSource(wanted)}>Only read it</Button>
        </>
      }
    >
      <div className="stack">
        <SearchEnded state={state} />
        <SpecSelect choices={specChoices(book)} value={spec.name} onChange={setSpecName} hint={spec.title} />
        <Field label="Grid" hint="Only read, never changed.">
          <Select
            value={wanted}
            onChange={(_, { value }) => {
              setSheet(value);
              setChoice({ yes: choice.yes });
              forget();
            }}
          >
            <option value={SELECTION}>the selected cells</option>
            {sheets.map((each) => (
              <option key={each} value={each}>
                sheet {each}
              </option>
            ))}
          </Select>
        </Field>
        <Field
          label="Name of the new system"
          {...(nameTaken
            ? {
                validationState: 'error' as const,
                validationMessage: `${called} is in this workbook already; choose another name, or extend it.`,
              }
            : {})}
        >
          <Input value={name} placeholder={nextName(taken)} onChange={(_, { value }) => setName(value)} />
        </Field>
        {source.step === 'reading' && <Busy stage="Reading the grid" done={0} total={0} />}
        {source.step === 'failed' && <Notice kind="error">{source.sentence}</Notice>}
        {cells && <ChartView source={cells} chart={chart} choice={choice} onChoice={setChoice} />}
        <SolveFields form={form} onChange={setForm} faults={faults} />
      </div>
    </Screen>
  );
}

const moreSteps = (options: SolveOptions): SolveOptions => ({
  ...options,
  budget: 4 * (options.budget ?? 0),
});
const nextSeed = (options: SolveOptions): SolveOptions => ({ ...options, seed: (options.seed ?? 1) + 1 });
