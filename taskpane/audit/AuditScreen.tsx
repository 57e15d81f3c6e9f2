/** Audit: every key of a system against every cylinder, as they stand in the sheets. */
import { Button } from '@fluentui/react-components';
import { useEffect, useEffectEvent, useMemo, useState } from 'react';
import type { AuditReport } from '../../src/keying/audit.ts';
import type { AuditInput } from '../../src/keying/auditInput.ts';
import { compareAudits, compareMetal, noteAudit } from '../../src/keying/auditNotes.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import {
  auditInput,
  planFindings,
  secretsIn,
  type BookSettings,
  type BookReading,
  type SystemAudit,
  type SystemReading,
} from '../../src/workbook/index.ts';
import type { Secrets } from '../../src/keying/secrecy.ts';
import type { KeySystem } from '../../src/keying/system.ts';
import { counted, listed } from '../pictures/numbers.ts';
import { useShownUnit } from '../pictures/shownUnit.ts';
import { Busy } from '../shared/Busy.tsx';
import { AUDIT_START, useDraft, useNavigation } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { usePreferences } from '../shared/preferences.tsx';
import { Screen } from '../shared/Screen.tsx';
import { SystemSelect } from '../shared/SystemSelect.tsx';
import { chosenSystem } from '../shared/systems.ts';
import { stageWords } from '../shared/stages.ts';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useSteps } from '../shared/useSteps.ts';
import { useBook, useWorkbook } from '../shared/workbook.tsx';
import { auditCounts, partSentence } from './words.ts';
import type { SinceLast } from './AuditChanges.tsx';
import { AuditResult } from './AuditResult.tsx';

/** What was sent to the audit, kept beside its report. */
interface Asked {
  readonly system: SystemReading;
  readonly audit: SystemAudit;
  readonly order: AuditInput;
  /** Bittings that must not be remembered. */
  readonly secrets: Secrets;
  /** The audit before this one, as it was remembered. */
  readonly before: RememberedAudit | undefined;
  /** What stood in the sheets at the audit before, where that was in this sitting. */
  readonly stood: KeySystem | undefined;
}

type RememberedAudit = NonNullable<BookSettings['lastAudits']>[number];

/** The draft that keeps what was audited last, in memory alone: it holds the bittings. */
const stoodDraft = (system: string): string => `audit.stood.${system}`;

export function AuditScreen() {
  const book = useBook();
  const { refresh } = useWorkbook();
  const [name, setName] = useDraft<string>('audit.system', '');
  const [trouble, setTrouble] = useState<string>();
  const [asked, setAsked] = useState<Asked>();
  const work = useSteps('audit');
  const run = usePlan();
  const { drafts } = useNavigation();
  const { chosen, keep } = usePreferences();
  const unit = useShownUnit();
  const systems = book?.systems ?? [];
  const system = chosenSystem(systems, name);

  const audit = async (wanted: string): Promise<void> => {
    setTrouble(undefined);
    const now = await refresh();
    if (!now.ok) return setTrouble(now.error);
    const ask = askFor(now.value, wanted, {
      before: chosen?.lastAudits?.find((last) => last.system === wanted),
      stood: drafts.get(stoodDraft(wanted)) as KeySystem | undefined,
    });
    if (typeof ask === 'string') return setTrouble(ask);
    setAsked(ask);
    work.start(ask.order);
  };

  // another screen, or a button of the ribbon, may have asked for the audit already
  const begin = useEffectEvent((wanted: string) => {
    const name = systems.some((s) => s.name === wanted) ? wanted : system?.name;
    if (name === undefined) return;
    setName(name);
    void audit(name);
  });
  useEffect(() => {
    const wanted = drafts.get(AUDIT_START);
    drafts.delete(AUDIT_START);
    if (typeof wanted === 'string') void Promise.resolve().then(() => begin(wanted));
  }, [drafts]);
  // what came of it is remembered in numbers, so that the start screen can say it
  const remember = useEffectEvent((report: AuditReport) => {
    if (!asked) return;
    const counts = auditCounts(report);
    const sum = (severity: 'fault' | 'warning'): number =>
      counts.filter((c) => c.severity === severity).reduce((total, c) => total + c.count, 0);
    const { name } = asked.system;
    const others = (chosen?.audits ?? []).filter((a) => a.system !== name);
    const lastOthers = (chosen?.lastAudits ?? []).filter((a) => a.system !== name);
    drafts.set(stoodDraft(name), asked.audit.system);
    keep({
      begun: true,
      audits: [...others, { system: name, made: today(), faults: sum('fault'), warnings: sum('warning') }],
      lastAudits: [
        ...lastOthers,
        { system: name, made: today(), ...noteAudit(asked.audit.system, report, asked.secrets) },
      ],
    });
  });
  const report = work.state.step === 'done' ? work.state.value : undefined;
  const since = useMemo(() => (asked && report ? sinceLast(asked, report) : undefined), [asked, report]);
  useEffect(() => {
    // a part is no verdict on the system
    if (report && report.unaudited === undefined) remember(report);
  }, [report]);

  if (!system)
    return (
      <Screen title="Audit a system">
        <Notice kind="info">This workbook holds no system yet. Make keys first.</Notice>
      </Screen>
    );
  const { state } = work;
  if (run.state.step !== 'none')
    return (
      <PlanScreen
        title="Write the findings"
        run={run}
        action="Write to Findings"
        back={{ label: 'Back to the result', onClick: run.leave }}
        onDone={run.leave}
      />
    );
  if (state.step === 'busy')
    return (
      <Screen title="Audit a system" step="busy">
        <Busy {...state.progress} stage={stageWords(state.progress.stage)} onStop={work.stop} />
      </Screen>
    );
  if (state.step === 'done' && asked)
    return (
      <Screen
        title={`Audit of ${asked.system.name}`}
        back={{ label: 'Back to the choice of system', onClick: work.reset }}
        foot={
          state.value.findings.length > 0 ? (
            <>
              <Button
                className="primary"
                appearance="primary"
                onClick={() =>
                  void run.prepare((now) =>
                    planFindings(now, {
                      made: today(),
                      unit,
                      audits: [
                        {
                          system: asked.system.name,
                          findings: state.value.findings,
                          part: partSentence(state.value),
                        },
                      ],
                    }),
                  )
                }
              >
                Write the findings to a sheet
              </Button>
              <Button onClick={() => void audit(asked.system.name)}>Audit again</Button>
            </>
          ) : (
            <Button className="primary" appearance="primary" onClick={() => void audit(asked.system.name)}>
              Audit again
            </Button>
          )
        }
      >
        <LeftOut audit={asked.audit} />
        <AuditResult
          system={asked.system}
          audit={asked.audit}
          order={asked.order}
          report={state.value}
          since={since}
        />
      </Screen>
    );
  return (
    <Screen
      title="Audit a system"
      step={state.step}
      lead="Finds every key that opens what it should not, and every key that fails where it should open."
      foot={
        <Button className="primary" appearance="primary" onClick={() => void audit(system.name)}>
          Audit {system.name}
        </Button>
      }
    >
      <div className="stack">
        {trouble && <Notice kind="error">{trouble}</Notice>}
        {state.step === 'failed' && <Notice kind="error">{state.sentence}</Notice>}
        {state.step === 'stopped' && (
          <Notice kind="info">Stopped before the first cylinder was done, so nothing is reported.</Notice>
        )}
        <SystemSelect systems={systems} value={system.name} onChange={setName} />
        <p>
          {counted(system.keys.length, 'key')} against {counted(system.cylinders.length, 'cylinder')}, read
          afresh from the sheets.
        </p>
      </div>
    </Screen>
  );
}

/** What to audit, or a sentence on why that can't be done. */
function askFor(book: BookReading, name: string, last: Pick<Asked, 'before' | 'stood'>): Asked | string {
  const system = book.systems.find((s) => s.name === name);
  if (!system) return `The system ${name} is no longer in this workbook.`;
  const audit = auditInput(book, name);
  if (!audit)
    return `The spec ${system.specName} of ${name} could not be read. Mend it in the Specs sheet first.`;
  return {
    system,
    audit,
    order: auditInputOf(audit.system, audit.marks),
    secrets: secretsIn(book),
    ...last,
  };
}

/** What changed since the audit before; undefined at the first, and of a part, which is no verdict. */
function sinceLast({ audit, secrets, before, stood }: Asked, report: AuditReport): SinceLast | undefined {
  if (!before || report.unaudited !== undefined) return undefined;
  const notes = noteAudit(audit.system, report, secrets);
  return {
    made: before.made,
    change: compareAudits(before, notes, report),
    metal: stood && compareMetal(stood, audit.system),
    withheld: notes.withheld,
  };
}

/** Rows that could not be read were not audited: that has to be seen before any verdict. */
function LeftOut({ audit }: { readonly audit: SystemAudit }) {
  const { keys, cylinders } = audit.leftOut;
  if (keys.length + cylinders.length === 0) return null;
  const some = (names: readonly string[]): string =>
    listed(names.length > 6 ? [...names.slice(0, 5), `${names.length - 5} more`] : names);
  return (
    <Notice kind="error">
      Not audited, since their rows could not be read:{' '}
      {[
        ...(keys.length > 0 ? [`${counted(keys.length, 'key')} (${some(keys)})`] : []),
        ...(cylinders.length > 0 ? [`${counted(cylinders.length, 'cylinder')} (${some(cylinders)})`] : []),
      ].join('; ')}
      . The start screen lists what is wrong with them.
    </Notice>
  );
}
