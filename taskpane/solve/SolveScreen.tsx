/** Solve a grid: who must open what, as the shop marked it, becomes keys and cylinders; or a proof; or how far it got. */
import { Button, Field, Select } from '@fluentui/react-components';
import { useEffect, useMemo } from 'react';
import { gridOf } from '../../src/keying/grid/index.ts';
import { enteringOf } from '../../src/keying/shop.ts';
import { systemOfSolved } from '../../src/keying/solvedSystem.ts';
import {
  boxAddress,
  NO_WISH,
  planNewSystem,
  readShop,
  retiredUnder,
  type GridChart,
  type GridSource,
  type MetalWish,
} from '../../src/workbook/index.ts';
import { isTaken, nextName } from '../make/makeForm.ts';
import { rulesText } from '../make/newSystem.ts';
import { Busy } from '../shared/Busy.tsx';
import { useDraft, useGoToAudit, useNavigation } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { ownSheets } from '../shared/ownSheets.ts';
import { Screen } from '../shared/Screen.tsx';
import { TextField } from '../shared/TextField.tsx';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useBook } from '../shared/workbook.tsx';
import { chosenSpec, specChoices } from '../specs/choices.ts';
import { SpecSelect } from '../specs/SpecSelect.tsx';
import { ChartView } from './ChartView.tsx';
import { chartPlaces } from './chartPlaces.ts';
import { MetalFields } from './MetalFields.tsx';
import { FOUND, isSound, readChart, type LayoutChoice } from './layoutChoice.ts';
import { keywaysOf, withMetal } from './metal.ts';
import { SolveFields } from './SolveFields.tsx';
import { DEFAULT_SOLVE, readSolveForm, type SolveForm } from './solveForm.ts';
import { SearchEnded, SearchScreens } from './SearchParts.tsx';
import { SELECTION, useGridSource } from './useGridSource.ts';
import { useSearch, type Asked } from './useSearch.ts';

interface AskedGrid extends Asked {
  readonly name: string;
  /** Of most keys, as typed. */
  readonly keyway: string | undefined;
  readonly source: GridSource;
  readonly chart: GridChart;
}

export function SolveScreen() {
  const book = useBook();
  const { go } = useNavigation();
  const goToAudit = useGoToAudit();
  const [specName, setSpecName] = useDraft<string>('solve.spec', '');
  const [name, setName] = useDraft<string>('solve.name', '');
  const [sheet, setSheet] = useDraft<string>('solve.sheet', SELECTION);
  const [form, setForm] = useDraft<SolveForm>('solve.form', DEFAULT_SOLVE);
  const [choice, setChoice] = useDraft<LayoutChoice>('solve.layout', FOUND);
  const [wish, setWish] = useDraft<MetalWish>('solve.metal', NO_WISH);
  const [source, readSource, forget] = useGridSource();
  const search = useSearch<AskedGrid>();
  const run = usePlan();

  const spec = chosenSpec(specChoices(book), specName);
  const sheets = ownSheets(book);
  const wanted = sheets.includes(sheet) ? sheet : SELECTION;
  const taken = useMemo(() => (book?.systems ?? []).map((s) => s.name), [book]);
  const { options, faults } = readSolveForm(form, spec, book);
  const cells = source.step === 'read' ? source.source : undefined;
  const blanks = useMemo(() => (book ? readShop(book).blanks : []), [book]);
  const chart = useMemo(() => cells && readChart(cells, choice), [cells, choice]);
  const ground = { spec, blanks };
  const read = withMetal(chart, wish, ground);
  const sound = options !== undefined && read.faults.size === 0;
  const called = name.trim() || nextName(taken);
  const nameTaken = isTaken(called, taken);

  // always from the cells as they are now
  const solve = async (): Promise<void> => {
    if (!options || !sound || nameTaken) return;
    const now = await readSource(wanted);
    const found = withMetal(now && readChart(now, choice), wish, ground);
    if (!now || !isSound(found.chart) || found.faults.size > 0) return;
    const retired = book ? keywaysOf(found.keys).flatMap((keyway) => retiredUnder(book, spec, keyway)) : [];
    search.ask({
      name: called,
      keyway: found.keyway,
      source: now,
      chart: found.chart,
      grid: gridOf(spec, found.keys, found.cylinders, found.chart.marks, enteringOf(blanks)),
      options: { ...options, avoid: [...(options.avoid ?? []), ...retired] },
    });
  };

  const { asked, solved, state } = search;
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
      keyway: asked.keyway,
      ...(rules && { rules }),
    });
    void prepare((now) =>
      made.ok
        ? planNewSystem(
            now,
            {
              ...made.value,
              seed,
              ...(asked.keyway !== undefined && { keyway: asked.keyway }),
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
    search.reset();
  };
  const leave = (): void => {
    back();
    forget();
    setName('');
    // they name keys and doors of this grid alone
    setWish({ ...wish, others: '' });
  };
  if (asked && (state.step === 'busy' || state.step === 'done'))
    return (
      <SearchScreens
        search={search}
        run={run}
        title="Solve a grid"
        writing={{ title: `Write ${asked.name}`, action: 'Write the system' }}
        back={{ label: 'Back to the grid', onClick: back }}
        onDone={() => {
          leave();
          go('start');
        }}
        onAudit={() => {
          leave();
          goToAudit(asked.name);
        }}
        doors={doors}
        places={chartPlaces(asked.chart)}
        headings={{ impossible: 'No solution', 'not-found': 'Not found' }}
        again={{ label: 'Solve again from the sheet', onClick: () => void solve() }}
      />
    );
  return (
    <Screen
      title="Solve a grid"
      step={state.step}
      lead="Mark who must open what, cylinders down and keys across. Bittings and pinning are found, or it is proved that there are none."
      foot={
        <>
          {(!sound || nameTaken) && <p className="why">Mend the marked fields first.</p>}
          <Button
            className="primary"
            appearance="primary"
            disabledFocusable={!sound || nameTaken || source.step === 'reading'}
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
        <TextField
          label="Name of the new system"
          placeholder={nextName(taken)}
          fault={
            nameTaken
              ? `${called} is in this workbook already; choose another name, or extend it.`
              : undefined
          }
          value={name}
          onChange={setName}
        />
        {source.step === 'reading' && <Busy stage="Reading the grid" done={0} total={0} />}
        {source.step === 'failed' && <Notice kind="error">{source.sentence}</Notice>}
        {cells && <ChartView source={cells} chart={read.chart} choice={choice} onChoice={setChoice} />}
        <MetalFields spec={spec} blanks={blanks} wish={wish} onChange={setWish} faults={read.faults} />
        <SolveFields form={form} onChange={setForm} faults={faults} />
      </div>
    </Screen>
  );
}
