/** Construction keying: a key that works while the building goes up and stops at hand-over; and the hand-over itself. */
import { Button, Field, Input, Select } from '@fluentui/react-components';
import { useEffect, useMemo, useState } from 'react';
import type { ConstructionRequest, ConstructionResult, OneWay } from '../../src/keying/construction.ts';
import { foldName } from '../../src/keying/specTable.ts';
import { sayConstructionFault } from '../../src/keying/constructionWording.ts';
import {
  openConstructions,
  planConstruction,
  planHandOver,
  type NamedChange,
  type OpenConstruction,
} from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';
import { useShownUnit } from '../pictures/shownUnit.ts';
import { Busy } from '../shared/Busy.tsx';
import { ChangeList } from '../shared/ChangeList.tsx';
import { Choice } from '../shared/Choice.tsx';
import { useDraft, useGoToAudit, useNavigation } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import { stageWords } from '../shared/stages.ts';
import { SystemSelect } from '../shared/SystemSelect.tsx';
import { chosenSystem, useAuditInput } from '../shared/systems.ts';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useSteps } from '../shared/useSteps.ts';
import { useBook } from '../shared/workbook.tsx';
import { ConstructionView } from './ConstructionView.tsx';
import { HandOver } from './HandOver.tsx';

const TITLE = 'Construction keying';

type Found = Extract<ConstructionResult, { readonly ok: true }>;

export function ConstructionScreen() {
  const book = useBook();
  const { go } = useNavigation();
  const goToAudit = useGoToAudit();
  const [name, setName] = useDraft<string>('construction.system', '');
  const [symbol, setSymbol] = useDraft<string>('construction.symbol', 'CON');
  const [chosen, setChosen] = useDraft<readonly string[]>('construction.cylinders', []);
  const [oneWay, setOneWay] = useDraft<OneWay>('construction.way', 'loose-pin');
  const [asked, setAsked] = useState<ConstructionRequest>();
  const [changes, setChanges] = useState<readonly NamedChange[]>([]);
  const work = useSteps('construction');
  const run = usePlan();
  const handOver = usePlan();
  const systems = book?.systems ?? [];
  const system = chosenSystem(systems, name);
  const audit = useAuditInput(book, system);
  const open = useMemo(
    () =>
      book && system
        ? openConstructions(book).filter((o) => foldName(o.system) === foldName(system.name))
        : [],
    [book, system],
  );
  const { state } = work;
  const found: Found | undefined = state.step === 'done' && state.value.ok ? state.value : undefined;
  const { prepare } = run;
  const unit = useShownUnit();
  useEffect(() => {
    if (!found || !asked) return;
    void prepare((now) => {
      const made = planConstruction(
        now,
        { ...found, system: asked.system.name, symbol: asked.symbol, oneWay: asked.oneWay, unit },
        { made: today() },
      );
      setChanges(made.changes);
      return made.plan;
    });
  }, [asked, found, prepare, unit]);

  const back = (): void => {
    run.leave();
    handOver.leave();
    work.reset();
  };
  const backWay = { label: 'Back to the request', onClick: back };
  const done = (): void => {
    back();
    go('start');
  };
  const audited = {
    label: 'Audit it',
    onClick: () => {
      back();
      if (system) goToAudit(system.name);
    },
  };
  if (handOver.state.step !== 'none')
    return (
      <PlanScreen
        title={`Hand over ${system?.name ?? ''}`}
        run={handOver}
        action="Write the hand-over"
        back={backWay}
        next={audited}
        onDone={done}
      >
        <Notice kind="warning">
          One way: write this when every one of these cylinders has been turned by a key that ends the
          construction key, or was re-pinned, and the construction key was tried and no longer turns it.
        </Notice>
        <ChangeList changes={changes} />
      </PlanScreen>
    );
  if (found && asked && run.state.step !== 'none')
    return (
      <PlanScreen
        title={`Construction key ${asked.symbol}`}
        run={run}
        action="Write the construction key"
        back={backWay}
        next={audited}
        onDone={done}
      >
        <ConstructionView request={asked} found={found} />
        <ChangeList changes={changes} />
      </PlanScreen>
    );
  if (state.step === 'busy' || found)
    return (
      <Screen title={TITLE} step="busy" back={backWay}>
        {state.step === 'busy' && (
          <Busy {...state.progress} stage={stageWords(state.progress.stage)} onStop={work.stop} />
        )}
      </Screen>
    );
  if (!system || !audit)
    return (
      <Screen title={TITLE}>
        <Notice kind="info">
          {system
            ? `The spec of ${system.name} can’t be read. Mend it in the sheet Specs first.`
            : 'This workbook holds no system yet. Make keys first.'}
        </Notice>
      </Screen>
    );
  const cylinders = audit.system.cylinders;
  const wanted = cylinders.filter(({ id }) => chosen.length === 0 || chosen.includes(id)).map((c) => c.id);
  const called = symbol.trim();
  const showHandOver = (which: OpenConstruction, ids: readonly string[]): void => {
    void handOver.prepare((now) => {
      const fresh = openConstructions(now).find(
        (o) => o.system === which.system && o.symbol === which.symbol,
      );
      if (!fresh) return Promise.resolve('These cylinders were handed over in the meantime.');
      const made = planHandOver(now, fresh, ids, { made: today() });
      setChanges(made.changes);
      return made.plan;
    });
  };
  return (
    <Screen
      title={TITLE}
      step={state.step}
      lead="One more key while the building goes up. It stops working at hand-over, for good."
      foot={
        <>
          {(called === '' || wanted.length === 0) && (
            <p className="why">Give the construction key a symbol, and choose pinned cylinders.</p>
          )}
          <Button
            className="primary"
            appearance="primary"
            disabledFocusable={called === '' || wanted.length === 0}
            onClick={() => {
              if (called === '' || wanted.length === 0) return;
              const request: ConstructionRequest = {
                system: audit.system,
                marks: audit.marks,
                cylinders: wanted,
                symbol: called,
                oneWay,
              };
              setAsked(request);
              work.start(request);
            }}
          >
            Find a construction key
          </Button>
        </>
      }
    >
      <div className="stack">
        {state.step === 'failed' && <Notice kind="error">{state.sentence}</Notice>}
        {state.step === 'stopped' && <Notice kind="info">Stopped. Nothing was written.</Notice>}
        {state.step === 'done' && !state.value.ok && (
          <Notice kind="error">{sayConstructionFault(state.value.fault)}</Notice>
        )}
        <SystemSelect
          systems={systems}
          value={system.name}
          onChange={(next) => {
            setName(next);
            setChosen([]);
          }}
        />
        {open.map((each) => (
          <HandOver key={each.symbol} open={each} cylinders={cylinders} onShow={showHandOver} />
        ))}
        {open.length > 0 && <h2>A further construction key</h2>}
        <Choice
          label="Cylinders"
          many
          hint={`None chosen: all ${counted(cylinders.length, 'cylinder')}.`}
          options={cylinders.map((c) => ({
            value: c.id,
            text: c.door && c.door !== c.id ? `${c.door} (${c.id})` : c.id,
          }))}
          chosen={chosen}
          onChoose={setChosen}
        />
        <Field label="Symbol of the construction key">
          <Input value={symbol} onChange={(_, { value }) => setSymbol(value)} />
        </Field>
        <Field
          label="What ends it"
          hint={
            oneWay === 'loose-pin'
              ? 'Needs a plug with a pocket that takes the loose pin and no other.'
              : 'Somebody goes to every cylinder at hand-over.'
          }
        >
          <Select
            value={oneWay}
            onChange={(_, { value }) => setOneWay(value === 'repin' ? 'repin' : 'loose-pin')}
          >
            <option value="loose-pin">the first turn of the owner’s key</option>
            <option value="repin">re-pinning at hand-over</option>
          </Select>
        </Field>
      </div>
    </Screen>
  );
}
