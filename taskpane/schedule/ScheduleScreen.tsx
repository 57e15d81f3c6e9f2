/** The schedule that exists: choose the sheet, confirm its columns, see what is wrong, correct, order. */
import { Button, Field, Select } from '@fluentui/react-components';
import { useEffect, useMemo, useState } from 'react';
import { checkSchedule } from '../../src/keying/scheduleCheck.ts';
import { scheduleTotals } from '../../src/keying/scheduleTotals.ts';
import {
  againstOf,
  fixLines,
  planAuthorised,
  planOrder,
  planScheduleFixes,
  readAuthorised,
  scheduleFindingLines,
  type BookReading,
  type ChosenFix,
  type ScheduleReading,
} from '../../src/workbook/index.ts';
import { Busy } from '../shared/Busy.tsx';
import { useDraft } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import { SystemSelect } from '../shared/SystemSelect.tsx';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useBook } from '../shared/workbook.tsx';
import { ColumnMap } from './ColumnMap.tsx';
import { shownBlanks } from './FixList.tsx';
import { OrderView } from './OrderView.tsx';
import { offeredFixes, ScheduleResult } from './ScheduleResult.tsx';
import { rememberedSheet, useSchedule, type Schedule } from './useSchedule.ts';

/** Visible sheets that hold no table of ours. */
export function shopSheets(book: BookReading | undefined): string[] {
  const ours = new Set((book?.tables ?? []).map((t) => t.sheet));
  return (book?.sheets ?? []).filter((s) => s.visible && !ours.has(s.name)).map((s) => s.name);
}

const TITLE = 'Schedule';

export function ScheduleScreen() {
  const book = useBook();
  const schedule = useSchedule();
  const { state } = schedule;
  switch (state.step) {
    case 'none':
    case 'failed':
      return <Choose book={book} schedule={schedule} />;
    case 'reading':
      return (
        <Screen title={TITLE} step={state.step}>
          <Busy stage="Reading the schedule" done={0} total={0} />
        </Screen>
      );
    case 'columns':
      return (
        <Screen
          title="Columns of the schedule"
          step={state.step}
          back={{ label: 'Back to the choice of sheet', onClick: schedule.forget }}
          foot={
            <Button className="primary" appearance="primary" onClick={() => void schedule.confirm()}>
              Check {state.reading.schedule.lines.length.toLocaleString('en-US')} rows
            </Button>
          }
        >
          {!state.found && (
            <Notice kind="warning">
              No row of {state.reading.guess.sheet} looks like the headings of a schedule. Say where they are
              and what the columns hold.
            </Notice>
          )}
          {state.found && (
            <p className="lead">
              Guessed from the headings. Correct what is wrong; it is remembered in this workbook.
            </p>
          )}
          <ColumnMap reading={state.reading} onChange={schedule.change} />
        </Screen>
      );
    case 'confirmed':
      return <Checked book={book} schedule={schedule} reading={state.reading} />;
  }
}

function Choose({ book, schedule }: { readonly book: BookReading | undefined; readonly schedule: Schedule }) {
  const sheets = shopSheets(book);
  const [sheet, setSheet] = useDraft<string>('schedule.sheet', '');
  const [kept, setKept] = useState<string>();
  useEffect(() => {
    let gone = false;
    void rememberedSheet().then((name) => {
      if (!gone) setKept(name);
    });
    return () => {
      gone = true;
    };
  }, []);
  const likely = sheets.find((name) => /schedule|doors?\b|opening/i.test(name));
  const chosen = [sheet, kept, likely, sheets[0]].find((name) => name !== undefined && sheets.includes(name));
  return (
    <Screen
      title={TITLE}
      step={schedule.state.step}
      lead="Your own door schedule, checked row by row against the key coding and the keys of this workbook. It is only read; corrections are offered."
      foot={
        chosen !== undefined && (
          <Button className="primary" appearance="primary" onClick={() => void schedule.open(chosen)}>
            Read {chosen}
          </Button>
        )
      }
    >
      {schedule.state.step === 'failed' && <Notice kind="error">{schedule.state.sentence}</Notice>}
      {chosen === undefined ? (
        <Notice kind="info">
          There is no sheet of your own in this workbook. Type or paste the doors into a new sheet, one row a
          door, under headings such as Door, Location, Keyset and Quantity.
        </Notice>
      ) : (
        <Field label="Sheet with the doors">
          <Select value={chosen} onChange={(_, { value }) => setSheet(value)}>
            {sheets.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </Select>
        </Field>
      )}
    </Screen>
  );
}

type Plan = 'fixes' | 'order' | 'authorised';
const PLAN_TITLES: Readonly<Record<Plan, readonly [title: string, action: string]>> = {
  fixes: ['Correct the spellings', 'Correct these cells'],
  order: ['Write the order', 'Write Order and Stamping'],
  authorised: ['Who may sign', 'Record in Authorised'],
};

interface CheckedProps {
  readonly book: BookReading | undefined;
  readonly schedule: Schedule;
  readonly reading: ScheduleReading;
}

function Checked({ book, schedule, reading }: CheckedProps) {
  const [name, setName] = useDraft<string>('schedule.system', '');
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const [ordering, setOrdering] = useState(false);
  const [plan, setPlan] = useState<Plan>('fixes');
  const run = usePlan();
  const system = book?.systems.find((s) => s.name === name) ?? book?.systems[0];
  const systemName = system?.name ?? '';
  const against = useMemo(
    () => (book ? againstOf(book, systemName) : { keys: [], cylinders: [] }),
    [book, systemName],
  );
  const findings = useMemo(() => checkSchedule(reading.schedule, against), [reading, against]);
  const totals = useMemo(() => scheduleTotals(reading.schedule.lines, against.keys), [reading, against]);
  const fixes = offeredFixes(scheduleFindingLines(reading, findings, system))
    .filter(({ at }) => !left.has(at.address))
    .map(({ fix }) => fix);

  const correct = (): void => {
    setPlan('fixes');
    void run.prepare(async (now) => {
      const again = await schedule.again();
      return again ? planScheduleFixes(now, again, fixes) : 'The schedule could not be read again.';
    });
  };
  const order = (): void => {
    setPlan('order');
    void run.prepare(async (now) => {
      const again = await schedule.again();
      if (!again) return 'The schedule could not be read again.';
      return planOrder(now, {
        system: systemName,
        from: again.guess.sheet,
        made: today(),
        totals: scheduleTotals(again.schedule.lines, againstOf(now, systemName).keys),
      });
    });
  };

  if (run.state.step !== 'none') {
    const [title, action] = PLAN_TITLES[plan];
    const leave = (): void => {
      run.leave();
      void schedule.again();
    };
    return (
      <PlanScreen
        title={title}
        run={run}
        action={action}
        back={{ label: 'Back to the schedule', onClick: leave }}
        onDone={leave}
      >
        {plan === 'fixes' && <Changes reading={reading} fixes={fixes} />}
        {plan === 'order' && (
          <p className="lead">No bitting is on either sheet. The text to stamp is symbol and copy number.</p>
        )}
      </PlanScreen>
    );
  }
  if (ordering)
    return (
      <Screen
        title="Order and stamping"
        step="order"
        back={{ label: 'Back to the check', onClick: () => setOrdering(false) }}
        foot={
          <Button className="primary" appearance="primary" onClick={order}>
            Write Order and Stamping
          </Button>
        }
      >
        <OrderView
          totals={totals}
          system={systemName}
          people={book ? readAuthorised(book, systemName) : []}
          onRecord={(person) => {
            setPlan('authorised');
            void run.prepare((now) => planAuthorised(now, { system: systemName, ...person }, today()));
          }}
        />
      </Screen>
    );
  const toOrder = (primary: boolean) => (
    <Button
      {...(primary && { className: 'primary', appearance: 'primary' as const })}
      onClick={() => setOrdering(true)}
    >
      Order totals
    </Button>
  );
  return (
    <Screen
      title={`Check of ${reading.guess.sheet}`}
      step="confirmed"
      back={{ label: 'Back to the choice of sheet', onClick: schedule.forget }}
      foot={
        <>
          {fixes.length > 0 && (
            <Button className="primary" appearance="primary" onClick={correct}>
              Correct {fixes.length} {fixes.length === 1 ? 'spelling' : 'spellings'}
            </Button>
          )}
          {toOrder(fixes.length === 0)}
          {fixes.length === 0 && <Button onClick={() => void schedule.again()}>Check again</Button>}
        </>
      }
    >
      {book && book.systems.length > 1 && (
        <SystemSelect systems={book.systems} value={systemName} onChange={setName} />
      )}
      <ScheduleResult reading={reading} findings={findings} system={system} left={left} onLeft={setLeft} />
      <div className="ways">
        <Button onClick={schedule.columns}>Change the columns</Button>
        {fixes.length > 0 && <Button onClick={() => void schedule.again()}>Check again</Button>}
      </div>
    </Screen>
  );
}

const MOST_CHANGES = 40;

/** Old and new content of each cell that the plan would change. */
function Changes({
  reading,
  fixes,
}: {
  readonly reading: ScheduleReading;
  readonly fixes: readonly ChosenFix[];
}) {
  const lines = fixLines(reading, fixes);
  return (
    <table className="simple">
      <caption>What the cells hold and would hold</caption>
      <thead>
        <tr>
          <th scope="col">Cell</th>
          <th scope="col">Now</th>
          <th scope="col">Then</th>
        </tr>
      </thead>
      <tbody>
        {lines.slice(0, MOST_CHANGES).map(({ shown, from, to }) => (
          <tr key={shown}>
            <td>{shown}</td>
            <td className="code">{shownBlanks(from)}</td>
            <td className="code">{to}</td>
          </tr>
        ))}
      </tbody>
      {lines.length > MOST_CHANGES && (
        <tfoot>
          <tr>
            <td colSpan={3}>and {lines.length - MOST_CHANGES} more, all as offered</td>
          </tr>
        </tfoot>
      )}
    </table>
  );
}
