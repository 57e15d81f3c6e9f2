/** A key is lost: choose it, see what it opens, get new bittings, write the change. Nothing happens unconfirmed. */
import { Button, Checkbox, Field, Select, Textarea } from '@fluentui/react-components';
import { useState } from 'react';
import { byHolder } from '../../src/keying/access.ts';
import { copyName } from '../../src/keying/ledger.ts';
import { liveKey, lostKeyScope, phasesOf } from '../../src/keying/lostKey.ts';
import { foldName } from '../../src/keying/specTable.ts';
import { isInUse } from '../../src/keying/system.ts';
import { sayLostKey } from '../../src/keying/lostKeyWording.ts';
import {
  lostKeyChanges,
  lostKeyDoubts,
  planLostKey,
  planMends,
  zerosLost,
  type RecallLine,
  type Standing,
  type SystemStanding,
} from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';
import { LedgerTrouble } from '../people/LedgerTrouble.tsx';
import { readDay, useStanding } from '../people/useStanding.ts';
import { Busy } from '../shared/Busy.tsx';
import { Cautions } from '../shared/Caution.tsx';
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
import { LostChanges } from './LostChanges.tsx';
import { LostResult } from './LostResult.tsx';
import { LostTrouble } from './LostTrouble.tsx';
import { PHASE_TITLES, RISK_WORDS, riskOf, type RiskWords } from './risk.ts';
import { useZones } from './useZones.ts';

export function LostScreen() {
  const book = useBook();
  const [name, setName] = useDraft<string>('lost.system', '');
  const [symbol, setSymbol] = useDraft<string>('lost.key', '');
  const [words, setWords] = useDraft<RiskWords>('lost.words', RISK_WORDS);
  const [tenant, setTenant] = useDraft<boolean>('lost.tenant', true);
  const [callBack, setCallBack] = useDraft<boolean>('lost.recall', true);
  const [mending, setMending] = useState(false);
  const zones = useZones(book);
  const work = useSteps('lost');
  const run = usePlan();
  const standing = useStanding(book, readDay('').day);
  const system = standing?.systems.find((s) => s.reading.name === name) ?? standing?.systems[0];
  const keys = system?.audit.system.keys.filter(isInUse) ?? [];
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
  const doubts = lostKeyDoubts(book, system, found.scope);
  const barred = doubts.bars.length > 0;
  const { state } = work;
  const toForm = (): void => {
    run.leave();
    work.reset();
    setMending(false);
  };
  const mend = (): void => {
    setMending(true);
    void run.prepare((now) => {
      const reading = now.systems.find((s) => s.name === system.reading.name);
      return planMends(now, reading ? zerosLost(now, reading) : []);
    });
  };
  const fresh = state.step === 'done' && state.value.ok ? state.value : undefined;
  if (run.state.step !== 'none' && mending)
    return (
      <PlanScreen
        title={doubts.mends.length > 1 ? 'Put the lost zeros back' : 'Put the lost zero back'}
        run={run}
        action="Write it as text"
        back={{ label: 'Back to the lost key', onClick: toForm }}
        onDone={toForm}
      >
        <ul className="plain">
          {doubts.mends.map(({ at, symbol: of, from, to }) => (
            <li key={at.address}>
              <strong>
                {at.sheet}!{at.address}
              </strong>
              , {of}: <span className="code">{from}</span> → <span className="code">{to}</span>
            </li>
          ))}
        </ul>
        <p className="lead">
          A sheet takes a code of digits for a number and drops the zero at its front. Compare with the key or
          its record before you write it.
        </p>
      </PlanScreen>
    );
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
        {fresh && <LostChanges changes={lostKeyChanges(system.reading, fresh)} />}
        <Cautions about={['exit-doors', 'first-original', 'secret']} />
      </PlanScreen>
    );
  if (state.step === 'busy')
    return (
      <Screen title="A key is lost" step="busy" back={{ label: 'Back to the lost key', onClick: toForm }}>
        <Busy {...state.progress} stage={stageWords(state.progress.stage)} onStop={work.stop} />
      </Screen>
    );
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
        ...(callBack && { recall: recallOf(standing, system, found.scope.replaced) }),
        ...(zones && { zones }),
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
                work.start({
                  system: system.audit.system,
                  marks: system.audit.marks,
                  lost: found.lost,
                  ...(doubts.doubtful.length > 0 && { doubtful: doubts.doubtful }),
                });
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
        {!fresh && barred && <LostTrouble doubts={doubts} onMend={mend} />}
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
            <Checkbox
              label="Also a list of the keys to call back, with their holders"
              checked={callBack}
              onChange={(_, { checked }) => setCallBack(checked === true)}
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
        <LostResult system={system} scope={found.scope} phases={found.phases} zones={zones} />
        {!fresh && !barred && <LostTrouble doubts={doubts} onMend={mend} />}
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

/** Copies in hands of the keys that change, with who has them. */
function recallOf({ ledger }: Standing, { of }: SystemStanding, replaced: readonly number[]): RecallLine[] {
  const departments = new Map(ledger.people.map((p) => [foldName(p.name), p.department ?? '']));
  const held = replaced.flatMap((k) => of.copies[k]!.filter((c) => c.where === 'held'));
  return byHolder(held).flatMap(({ holder, copies }) =>
    copies.map(({ symbol, copy, since }) => ({
      holder: holder || '(no name)',
      department: departments.get(foldName(holder)) ?? '',
      symbol,
      copy,
      ...(since !== undefined && { since }),
    })),
  );
}
