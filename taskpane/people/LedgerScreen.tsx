/** Keys change hands: one or many rows for the ledger, planned, checked against what stands there, then added. */
import { Button, Checkbox, Field, Input, Select, Textarea } from '@fluentui/react-components';
import { useId, useState } from 'react';
import { copyName, LEDGER_EVENTS, type LedgerEvent } from '../../src/keying/ledger.ts';
import { heldBy } from '../../src/keying/ledgerAnswers.ts';
import { namesOf, peopleNames, planLedger, planReceipt, type NewEntry } from '../../src/workbook/index.ts';
import { foldName } from '../../src/keying/specTable.ts';
import { Cautions } from '../shared/Caution.tsx';
import { Fold } from '../shared/Fold.tsx';
import { useDraft, useNavigation } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import { SystemSelect } from '../shared/SystemSelect.tsx';
import { chosenSystem } from '../shared/systems.ts';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useBook } from '../shared/workbook.tsx';
import { entriesOf, type LedgerForm } from './ledgerForm.ts';
import { readDay, todayText, useStanding } from './useStanding.ts';

const EVENTS: Record<LedgerEvent, string> = {
  issued: 'Keys are given out',
  returned: 'Keys come back',
  transferred: 'Keys go from hand to hand',
  lost: 'Keys are lost',
  found: 'Lost keys are found',
  destroyed: 'Keys are destroyed',
  struck: 'A row was a mistake: strike it',
};
const isEvent = (text: string): text is LedgerEvent => (LEDGER_EVENTS as readonly string[]).includes(text);

const EMPTY: Omit<LedgerForm, 'date'> = {
  event: 'issued',
  keys: '',
  holder: '',
  department: '',
  due: '',
  givenBy: '',
  takenBy: '',
  hook: '',
  sign: true,
  corrects: '',
};

export function LedgerScreen() {
  const book = useBook();
  const { go } = useNavigation();
  const names = useId();
  const [form, setForm] = useDraft<LedgerForm>('ledger.form', () => ({ ...EMPTY, date: todayText() }));
  const [name, setName] = useDraft<string>('ledger.system', '');
  const [tried, setTried] = useDraft<boolean>('ledger.tried', false);
  const [from, setFrom] = useDraft<string>('ledger.from', '');
  // the rows as they were planned: afterwards the same form would mean the next copies
  const [planned, setPlanned] = useState<readonly NewEntry[]>([]);
  const [receipt, setReceipt] = useState(false);
  const run = usePlan();
  const standing = useStanding(book, readDay(form.date).day);
  const systems = book?.systems ?? [];
  const system = chosenSystem(systems, name);
  if (!book || !standing || !system)
    return (
      <Screen title="Hand out and take back">
        <Notice kind="info">This workbook holds no system yet. Make keys first.</Notice>
      </Screen>
    );
  const set = (change: Partial<LedgerForm>): void => setForm({ ...form, ...change });
  const { event } = form;
  const given = event === 'issued' || event === 'transferred';
  const people = peopleNames(standing);
  const isNew =
    form.holder.trim() !== '' && !people.some((p) => p.toLowerCase() === form.holder.trim().toLowerCase());
  const giver = event === 'transferred' ? from : event === 'returned' || event === 'lost' ? form.holder : '';
  const mine =
    giver.trim() === ''
      ? []
      : heldBy(standing.state, giver.trim()).filter((c) => foldName(c.system) === foldName(system.name));
  const entries = entriesOf(form, standing.state, system.name);
  const plan = (): void => {
    setTried(true);
    if (!entries.ok) return;
    setPlanned(entries.value);
    setReceipt(false);
    void run.prepare((now) =>
      planLedger(now, {
        made: today(),
        title: `${EVENTS[event]}: ${namesOf(entries.value)}`,
        entries: entries.value,
        holders:
          given && isNew
            ? [
                {
                  name: form.holder.trim(),
                  ...(form.department.trim() && { department: form.department.trim() }),
                },
              ]
            : [],
      }),
    );
  };
  const done = (): void => {
    setForm({ ...form, keys: '', corrects: '' });
    setTried(false);
    setReceipt(false);
    run.leave();
  };
  const planReceiptNow = (): void => {
    setReceipt(true);
    const holder = form.holder.trim();
    const givenBy = form.givenBy.trim();
    void run.prepare((now) =>
      planReceipt(now, {
        made: today(),
        holder,
        copies: planned.map(({ system: of, symbol, copy, day, due }) => ({
          system: of,
          symbol,
          copy,
          issued: day,
          ...(due !== undefined && { due }),
        })),
        ...(givenBy && { givenBy }),
      }),
    );
  };
  if (run.state.step !== 'none' && receipt)
    return (
      <PlanScreen
        title={`Receipt for ${form.holder.trim()}`}
        run={run}
        action="Write the receipt"
        back={{ label: 'Back to the form', onClick: done }}
        onDone={done}
      >
        <p className="lead">{namesOf(planned)}</p>
        <Cautions about={['holders']} />
      </PlanScreen>
    );
  if (run.state.step !== 'none')
    return (
      <PlanScreen
        title="Add to the ledger"
        run={run}
        action="Add to the ledger"
        back={{ label: 'Back to the form', onClick: run.leave }}
        onDone={done}
        {...(given && { next: { label: 'Receipt to sign', onClick: planReceiptNow } })}
      >
        {event !== 'struck' && <p className="lead">{namesOf(planned)}</p>}
        {event === 'lost' && (
          <Notice kind="warning">
            Recording the loss changes no lock.{' '}
            <Button size="small" onClick={() => go('lost')}>
              See what it opens
            </Button>
          </Notice>
        )}
        <Cautions about={['holders']} />
      </PlanScreen>
    );
  return (
    <Screen
      title="Hand out and take back"
      lead="Each event is a row of its own; nothing in the ledger is ever changed."
      foot={
        <Button className="primary" appearance="primary" onClick={plan}>
          Plan the rows
        </Button>
      }
    >
      <div className="stack">
        {tried &&
          !entries.ok &&
          entries.error.map((sentence) => (
            <Notice key={sentence} kind="error">
              {sentence}
            </Notice>
          ))}
        {systems.length > 1 && <SystemSelect systems={systems} value={system.name} onChange={setName} />}
        <Field label="What happened">
          <Select value={event} onChange={(_, { value }) => isEvent(value) && set({ event: value })}>
            {LEDGER_EVENTS.map((e) => (
              <option key={e} value={e}>
                {EVENTS[e]}
              </option>
            ))}
          </Select>
        </Field>
        {event !== 'struck' && (
          <Field
            label="Keys"
            hint="Type or scan: AA1/2 is copy 2 of AA1; AA1 x3 any three copies; AA1-AA8 one of each."
          >
            <Textarea value={form.keys} rows={3} onChange={(_, { value }) => set({ keys: value })} />
          </Field>
        )}
        {event === 'transferred' && (
          <Field label="From" hint="Whoever has them now.">
            <Input list={names} value={from} onChange={(_, { value }) => setFrom(value)} />
          </Field>
        )}
        {mine.length > 0 && (
          <div className="ways">
            <Button
              size="small"
              onClick={() => set({ keys: mine.map((c) => copyName(c.symbol, c.copy)).join('\n') })}
            >
              All that {giver.trim()} has: {mine.length}
            </Button>
          </div>
        )}
        {event !== 'struck' && event !== 'destroyed' && (
          <Field label={given ? 'To' : 'Holder'}>
            <Input list={names} value={form.holder} onChange={(_, { value }) => set({ holder: value })} />
            <datalist id={names}>
              {people.map((person) => (
                <option key={person} value={person} />
              ))}
            </datalist>
          </Field>
        )}
        {given && isNew && (
          <Field label="Department" hint="A new name is added to the sheet Holders.">
            <Input value={form.department} onChange={(_, { value }) => set({ department: value })} />
          </Field>
        )}
        <div className={given ? 'pair' : undefined}>
          <Field label="On">
            <Input value={form.date} onChange={(_, { value }) => set({ date: value })} />
          </Field>
          {given && (
            <Field label="Due back">
              <Input value={form.due} placeholder="open" onChange={(_, { value }) => set({ due: value })} />
            </Field>
          )}
        </div>
        {given && (
          <Checkbox
            label="Signature required"
            checked={form.sign}
            onChange={(_, { checked }) => set({ sign: checked === true })}
          />
        )}
        <Fold label="Given by, taken by, hook, correction">
          <Field label="Given by">
            <Input value={form.givenBy} onChange={(_, { value }) => set({ givenBy: value })} />
          </Field>
          <Field label="Taken by">
            <Input value={form.takenBy} onChange={(_, { value }) => set({ takenBy: value })} />
          </Field>
          {(event === 'returned' || event === 'found') && (
            <Field label="Hook in the cabinet">
              <Input value={form.hook} onChange={(_, { value }) => set({ hook: value })} />
            </Field>
          )}
          {event !== 'struck' && <Corrects form={form} set={set} />}
        </Fold>
        {event === 'struck' && <Corrects form={form} set={set} />}
        <Cautions about={['holders']} />
      </div>
    </Screen>
  );
}

interface CorrectsProps {
  readonly form: LedgerForm;
  readonly set: (change: Partial<LedgerForm>) => void;
}

function Corrects({ form, set }: CorrectsProps) {
  return (
    <Field
      label="Corrects row number"
      hint="The number in the ledger’s first column. That row stays, and no longer counts."
    >
      <Input value={form.corrects} onChange={(_, { value }) => set({ corrects: value })} />
    </Field>
  );
}
