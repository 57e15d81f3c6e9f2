/** Extend a system: what its grid asks for beyond it is fitted in; keys and cylinders that stand are kept. */
import { Button } from '@fluentui/react-components';
import { useEffect, useMemo, useState } from 'react';
import { sayRepin, type Repin } from '../../src/keying/grid/index.ts';
import {
  NO_WISH,
  planExtension,
  readExtension,
  readShop,
  type Extension,
  type MetalWish,
  type NamedChange,
  type Problem,
} from '../../src/workbook/index.ts';
import { counted, listed } from '../pictures/numbers.ts';
import { ChangeList } from '../shared/ChangeList.tsx';
import { FaultList } from '../shared/FaultList.tsx';
import { useDraft, useGoToAudit, useNavigation } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { Screen } from '../shared/Screen.tsx';
import { SystemSelect } from '../shared/SystemSelect.tsx';
import { chosenSystem } from '../shared/systems.ts';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useBook, useWorkbook } from '../shared/workbook.tsx';
import { inReserve, Reserve } from '../make/Reserve.tsx';
import { chartPlaces } from '../solve/chartPlaces.ts';
import { MetalFields } from '../solve/MetalFields.tsx';
import { SolveFields } from '../solve/SolveFields.tsx';
import { DEFAULT_SOLVE, readSolveForm, type SolveForm } from '../solve/solveForm.ts';
import { SearchEnded, SearchScreens } from '../solve/SearchParts.tsx';
import { useSearch, type Asked } from '../solve/useSearch.ts';
import { freeing } from './freeing.ts';

interface AskedExtension extends Asked {
  /** Its grid has none of the cylinders open that are to be re-pinned. */
  readonly extension: Extension;
  readonly wish: MetalWish;
}

export function ExtendScreen() {
  const book = useBook();
  const { refresh } = useWorkbook();
  const { go } = useNavigation();
  const goToAudit = useGoToAudit();
  const [name, setName] = useDraft<string>('extend.system', '');
  const [form, setForm] = useDraft<SolveForm>('extend.form', DEFAULT_SOLVE);
  const [wish, setWish] = useDraft<MetalWish>('extend.metal', NO_WISH);
  const [trouble, setTrouble] = useState<readonly Problem[]>([]);
  const [changes, setChanges] = useState<readonly NamedChange[]>([]);
  const search = useSearch<AskedExtension>();
  const run = usePlan();
  const systems = book?.systems ?? [];
  const system = chosenSystem(systems, name);
  const blanks = useMemo(() => (book ? readShop(book).blanks : []), [book]);
  const read = useMemo(
    () => (book && system ? readExtension(book, system.name, wish) : undefined),
    [book, system, wish],
  );
  const { options, faults } = useMemo(
    () =>
      system?.spec
        ? readSolveForm(form, system.spec)
        : { faults: new Map<never, string>(), options: undefined },
    [form, system],
  );

  const extend = async (wanted: string): Promise<void> => {
    if (!options) return;
    const now = await refresh();
    if (!now.ok) return setTrouble([{ sheet: '', address: '', severity: 'fault', sentence: now.error }]);
    const found = readExtension(now.value, wanted, wish);
    if (!found.ok) return setTrouble(found.error);
    if (found.value.faults.size > 0) return;
    const wrong = found.value.problems.filter((p) => p.severity === 'fault');
    if (wrong.length > 0) return setTrouble(wrong);
    setTrouble([]);
    search.ask({
      extension: found.value,
      wish,
      grid: found.value.grid,
      options: { ...options, avoid: [...(options.avoid ?? []), ...found.value.avoid] },
    });
  };

  const { asked, solved, state } = search;
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
      const again = readExtension(now, asked.extension.system.name, asked.wish);
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
    search.reset();
  };
  const leave = (): void => {
    back();
    // what was new stands by now
    setWish({ ...wish, others: '' });
  };
  const repinning = (repin: Repin | undefined) => {
    if (!repin || !asked) return undefined;
    const { cylinders } = repin;
    return {
      words: (
        <Notice kind="info">
          {sayRepin(repin, (id) => doors.get(id) || id)} Their old pinning is shown before anything is
          written.
        </Notice>
      ),
      button: (
        <Button
          className="primary"
          appearance="primary"
          onClick={() => search.ask({ ...asked, grid: freeing(asked.extension.grid, new Set(cylinders)) })}
        >
          Re-pin {cylinders.length === 1 ? 'it' : 'these'} and fit in
        </Button>
      ),
    };
  };
  if (asked && (state.step === 'busy' || state.step === 'done'))
    return (
      <SearchScreens
        search={search}
        run={run}
        title="Extend a system"
        writing={{ title: `Extend ${asked.extension.system.name}`, action: 'Write the extension' }}
        back={{ label: 'Back to the system', onClick: back }}
        onDone={() => {
          leave();
          go('start');
        }}
        onAudit={() => {
          leave();
          goToAudit(asked.extension.system.name);
        }}
        doors={doors}
        places={placesIn(asked.extension)}
        changes={<ChangeList changes={changes} />}
        headings={{ impossible: 'Not as it stands', 'not-found': 'Not found' }}
        wayOut={repinning(search.unsolved?.repin)}
        again={{ label: 'Read the grid again', onClick: () => void extend(asked.extension.system.name) }}
      />
    );
  const found = read?.ok ? read.value : undefined;
  const refused = trouble.length > 0 ? trouble : read && !read.ok ? read.error : (found?.problems ?? []);
  const sheet = found?.table.sheet ?? 'Grid';
  const sound = options !== undefined && (found?.faults.size ?? 0) === 0;
  return (
    <Screen
      title="Extend a system"
      step={state.step}
      lead="Keys and cylinders that exist stay as they are; new columns and rows of the grid are fitted in."
      foot={
        <>
          {!sound && <p className="why">Mend the marked fields first.</p>}
          {read && !read.ok && <p className="why">It can’t be extended yet: see the reasons above.</p>}
          <Button
            className="primary"
            appearance="primary"
            disabledFocusable={!sound || !read?.ok}
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
        {found && (
          <MetalFields
            spec={found.grid.spec}
            blanks={blanks}
            wish={wish}
            onChange={setWish}
            faults={found.faults}
            keyway={system.keyway}
            extending
          />
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
