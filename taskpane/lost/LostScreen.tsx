/** A key is lost: choose it, see what it opens, get new bittings, write the change. Nothing happens unconfirmed. */
import { Button, Checkbox, Field, Select, Textarea } from '@fluentui/react-components';
import { copyName } from '../../src/keying/ledger.ts';
import { liveKey, lostKeyScope, phasesOf } from '../../src/keying/lostKey.ts';
import { sayLostKey } from '../../src/keying/lostKeyWording.ts';
import { planLostKey, type SystemStanding } from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';
import { LedgerTrouble } from '../people/LedgerTrouble.tsx';
import { readDay, useStanding } from '../people/useStanding.ts';
import { Busy } from '../shared/Busy.tsx';
import { Cautions } from '../shared/Caution.tsx';
import { FaultList, type FaultLine } from '../shared/FaultList.tsx';
import { Fold } from '../shared/Fold.tsx';
import { useDraft } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import { stageWords } from '../shared/stages.ts';
import { SystemSelect } from '../shared/SystemSelect.tsx';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useSteps } from '../shared/useSteps.ts';
import { useBook } from '../shared/workbook.tsx';
import { LostResult } from './LostResult.tsx';
import { PHASE_TITLES, RISK_WORDS, riskOf, type RiskWords } from './risk.ts';

export function LostScreen() {
  const book = useBook();
  const [name, setName] = useDraft<string>('lost.system', '');
  const [symbol, setSymbol] = useDraft<string>('lost.key', '');
  const [words, setWords] = useDraft<RiskWords>('lost.words', RISK_WORDS);
  const [tenant, setTenant] = useDraft<boolean>('lost.tenant', true);
  const work = useSteps('lost');
  const run = usePlan();
  const standing = useStanding(book, readDay('').day);
  const system = standing?.systems.find((s) => s.reading.name === name) ?? standing?.systems[0];
  const keys =
    system?.audit.system.keys.filter((k) => k.status === 'issued' || k.status === 'reserved') ?? [];
  const lostCopies = standing?.state.copies.filter((c) => c.where === 'lost') ?? [];
  const proposed = lostCopies.find((c) => keys.some((k) => k.symbol === c.symbol))?.symbol;
  const key = keys.find((k) => k.symbol === symbol) ?? keys.find((k) => k.symbol === proposed) ?? keys[0];
  const chosen = key?.symbol;
  const found = system && chosen !== undefined ? lossOf(system, chosen, words) : undefined;

  if (!book || !standing || !system || !key || !found)
    return (
      <Screen title="A key is lost">
        <Notice kind="info">No system with keys in use can be read in this workbook. Make keys first.</Notice>
      </Screen>
    );
  const { keys: unread, cylinders: unpinned } = system.audit.leftOut;
  const barred = unread.length + unpinned.length > 0;
  const { state } = work;
  const toForm = (): void => {
    run.leave();
    work.reset();
  };
  if (run.state.step !== 'none')
    return (
      <PlanScreen
        title={`Change what ${key.symbol} opens`}
        run={run}
        action="Change the sheets"
        back={{ label: 'Back to the lost key', onClick: run.leave }}
        onDone={toForm}
      >
        <p className="lead">
          The old bitting is retired for good and never given out again. What the cells held is kept, so that
          this can be taken back.
        </p>
        <Cautions about={['exit-doors', 'first-original', 'secret']} />
      </PlanScreen>
    );
  if (state.step === 'busy')
    return (
      <Screen title="A key is lost" step="busy" back={{ label: 'Back to the lost key', onClick: toForm }}>
        <Busy {...state.progress} stage={stageWords(state.progress.stage)} onStop={work.stop} />
      </Screen>
    );
  const fresh = state.step === 'done' && state.value.ok ? state.value : undefined;
  const plan = (): void => {
    if (!fresh) return;
    void run.prepare(async (now) => {
      const reading = now.systems.find((s) => s.name === system.reading.name);
      if (!reading || JSON.stringify(reading) !== JSON.stringify(system.reading))
        return 'The system was changed since the bittings were found. Look for them again.';
      return planLostKey(now, {
        made: today(),
        system: reading,
        fresh,
        phases: found.phases,
        orders: { shop: true, tenant },
      });
    });
  };
  return (
    <Screen
      title={fresh ? `New bittings for ${key.symbol}` : 'A key is lost'}
      step={state.step}
      {...(fresh && { back: { label: 'Back to the lost key', onClick: toForm } })}
      foot={
        fresh ? (
          <Button className="primary" appearance="primary" onClick={plan}>
            Plan the change and the work order
          </Button>
        ) : (
          <>
            {barred && <p className="why">Mend what can’t be read first.</p>}
            <Button
              className="primary"
              appearance="primary"
              disabledFocusable={barred}
              onClick={() => {
                if (barred) return;
                work.start({ system: system.audit.system, marks: system.audit.marks, lost: found.lost });
              }}
            >
              Find new bittings
            </Button>
          </>
        )
      }
    >
      <div className="stack">
        {state.step === 'failed' && <Notice kind="error">{state.sentence}</Notice>}
        {state.step === 'stopped' && <Notice kind="info">Stopped. Nothing was changed.</Notice>}
        {state.step === 'done' &&
          !state.value.ok &&
          state.value.problems.map((problem, i) => (
            <Notice key={i} kind="error">
              {sayLostKey(problem)}
            </Notice>
          ))}
        {barred && (
          <>
            <Notice kind="error">
              A system is never extended blind. What can’t be read here leaves gaps in the list of bittings in
              use, or hides what the lost key opens. Mend these cells first.
            </Notice>
            <FaultList label="To be mended first" lines={unreadable(system)} />
          </>
        )}
        {fresh ? (
          <>
            <Notice kind="success">
              {counted(fresh.keys.length, 'new bitting')} for {counted(fresh.cylinders.length, 'cylinder')}:{' '}
              {counted(fresh.pairsAudited, 'pair')} of key and cylinder audited, and the lost key opens none.
            </Notice>
            <Checkbox
              label="Also a work order without bittings, for the tenant"
              checked={tenant}
              onChange={(_, { checked }) => setTenant(checked === true)}
            />
          </>
        ) : (
          <>
            {(standing.systems.length > 1 || name !== '') && (
              <SystemSelect
                systems={standing.systems.map((s) => s.reading)}
                value={system.reading.name}
                onChange={setName}
              />
            )}
            <Field label="Lost key">
              <Select
                value={key.symbol}
                onChange={(_, { value }) => {
                  work.reset();
                  setSymbol(value);
                }}
              >
                {keys.map((k) => (
                  <option key={k.symbol} value={k.symbol}>
                    {k.symbol} ({k.level})
                  </option>
                ))}
              </Select>
            </Field>
            {lostCopies.length > 0 && (
              <p className="lead">
                By the ledger lost: {lostCopies.map((c) => copyName(c.symbol, c.copy)).join(', ')}.
              </p>
            )}
          </>
        )}
        <LostResult system={system} scope={found.scope} phases={found.phases} />
        {!fresh && (
          <Fold label="Which doors come first">
            <Field label="Outside doors have one of these words">
              <Textarea
                value={words.outside}
                onChange={(_, { value }) => setWords({ ...words, outside: value })}
              />
            </Field>
            <Field label="Then doors with one of these">
              <Textarea
                value={words.sensitive}
                onChange={(_, { value }) => setWords({ ...words, sensitive: value })}
              />
            </Field>
          </Fold>
        )}
        <LedgerTrouble standing={standing} />
        <Cautions about={['exit-doors', 'holders']} />
      </div>
    </Screen>
  );
}

/** What follows from the loss, and the order of the change. */
function lossOf(system: SystemStanding, symbol: string, words: RiskWords) {
  const lost = liveKey(system.audit.system, symbol);
  if (lost < 0) return undefined;
  const scope = lostKeyScope(system.audit.system, system.of.access, lost);
  const rows = system.reading.cylinders.filter((row) => row.chambers);
  const phases = phasesOf(system.audit.system, scope, {
    titles: PHASE_TITLES,
    riskOf: (c) => riskOf(rows[c]!, words),
  });
  return { lost, scope, phases };
}

/** Rows that stand in the way of new bittings, each with its cell. */
function unreadable({ reading }: SystemStanding): FaultLine[] {
  return [
    ...reading.keys
      .filter((row) => !row.record)
      .map((row): FaultLine => ({
        severity: 'fault',
        sentence: `Key ${row.symbol || '(no symbol)'} can’t be read.`,
        at: row.at.bitting,
      })),
    ...reading.cylinders
      .filter((row) => !row.chambers)
      .map((row): FaultLine => ({
        severity: 'fault',
        sentence: `Cylinder ${row.id || '(no number)'} can’t be read.`,
        at: row.at.row,
      })),
  ];
}
