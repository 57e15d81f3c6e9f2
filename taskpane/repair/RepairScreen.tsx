/** Care of our formulas: those gone wrong are put back, and whoever wants values instead of formulas freezes them. */
import { Button, Field, Select } from '@fluentui/react-components';
import { useEffect, useState } from 'react';
import {
  brokenFormulas,
  freezableTables,
  freezeTable,
  planFreeze,
  planRepair,
  readFreezeSource,
  sayBroken,
  type BookReading,
  type Freeze,
  type WritePlan,
} from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';
import { Busy } from '../shared/Busy.tsx';
import { FaultList, type FaultLine } from '../shared/FaultList.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import { usePlan } from '../shared/usePlan.ts';
import { useBook, useWorkbook } from '../shared/workbook.tsx';

const TITLE = 'Repair and freeze';
const FREEZE = 'Freeze them';
const LEFT = 'Stays a formula: it shows an error, or fills the cells around it.';

const brokenLines = (book: BookReading): FaultLine[] =>
  brokenFormulas(book).map((broken) => ({
    severity: broken.why === 'overwritten' || broken.why === 'missing' ? 'warning' : 'fault',
    sentence: sayBroken(broken),
    at: broken.at,
  }));

export function RepairScreen() {
  const book = useBook();
  const run = usePlan();
  const [action, setAction] = useState('');
  const [lines, setLines] = useState<readonly FaultLine[]>([]);
  const [chosen, setChosen] = useState('');
  const [read, setRead] = useState(false);
  const { refresh } = useWorkbook();
  // Excel tells nobody when it has calculated, so the last reading may be from before the functions were there
  useEffect(() => {
    let gone = false;
    void refresh().then(() => {
      if (!gone) setRead(true);
    });
    return () => {
      gone = true;
    };
  }, [refresh]);
  if (run.state.step !== 'none')
    return (
      <PlanScreen
        title={TITLE}
        run={run}
        action={action}
        back={{ label: 'Back to Repair and freeze', onClick: run.leave }}
        onDone={run.leave}
      >
        {action === FREEZE && (
          <p className="lead">
            Each formula becomes the value that it shows now, and no longer follows the sheets. Undo brings
            the formulas back.
          </p>
        )}
        {lines.length > 0 && <FaultList label="Cells" lines={lines} />}
      </PlanScreen>
    );
  if (!read)
    return (
      <Screen title={TITLE}>
        <Busy stage="Reading the workbook" done={0} total={0} />
      </Screen>
    );
  const broken = book ? brokenLines(book) : [];
  const unknown = book ? brokenFormulas(book).filter(({ why }) => why === 'name').length : 0;
  const tables = book ? freezableTables(book) : [];
  const table = tables.find(({ name }) => name === chosen) ?? tables[0];

  const repair = (): void => {
    setAction('Put them back');
    void run.prepare((now) => {
      setLines(brokenLines(now));
      return planRepair(now);
    });
  };
  const shown = ({ plan, left }: Freeze): WritePlan | string => {
    setLines(left.map((at): FaultLine => ({ severity: 'note', sentence: LEFT, at })));
    return plan.effects.length > 0 || plan.conflicts.length > 0
      ? plan
      : left.length > 0
        ? `None of the ${counted(left.length, 'formula')} here can be frozen: they show an error, or fill the cells around them. Repair them first, or copy and paste as values.`
        : 'No formula of the add-in stands in these cells. Choose others.';
  };
  const freeze = (source: (now: BookReading) => Promise<Freeze | string>): void => {
    setAction(FREEZE);
    void run.prepare(async (now) => {
      const found = await source(now);
      return typeof found === 'string' ? found : shown(found);
    });
  };
  const freezeSelection = async (now: BookReading): Promise<Freeze | string> => {
    const source = await readFreezeSource();
    return source.ok ? planFreeze(now, source.value) : source.error.sentence;
  };
  const freezeChosen = (name: string): void =>
    freeze((now) => {
      const source = freezeTable(now, name);
      return Promise.resolve(source ? planFreeze(now, source) : 'This table is gone. Choose another.');
    });

  return (
    <Screen
      title={TITLE}
      lead="Looks after the formulas that the add-in wrote. Formulas of your own are left alone."
      foot={
        broken.length > 0 ? (
          <>
            <Button className="primary" appearance="primary" onClick={repair}>
              Put {counted(broken.length, 'formula')} back
            </Button>
            <Button onClick={() => void refresh()}>Read again</Button>
          </>
        ) : undefined
      }
    >
      <section className="stack" aria-labelledby="repair-wrong">
        <h2 id="repair-wrong">Formulas gone wrong</h2>
        {unknown > 0 && (
          <Notice kind="info">
            {counted(unknown, 'cell')} {unknown === 1 ? 'shows' : 'show'} #NAME?: Excel did not know the
            add-in’s functions when it calculated. Often that passes by itself soon after the add-in has
            loaded: read again before you put anything back.
          </Notice>
        )}
        {broken.length === 0 ? (
          <Notice kind="success">Every formula in Keys and Cylinders is where it should be.</Notice>
        ) : (
          <FaultList label="Formulas gone wrong" lines={broken} />
        )}
      </section>
      <section className="stack" aria-labelledby="repair-freeze">
        <h2 id="repair-freeze">Freeze to values</h2>
        <p>
          Formulas become what they show now and follow the sheets no longer. For a copy that goes to somebody
          without the add-in.
        </p>
        {table && (
          <>
            <Field label="Table">
              <Select value={table.name} onChange={(_, data) => setChosen(data.value)}>
                {tables.map(({ name, sheet }) => (
                  <option key={name} value={name}>
                    {sheet}
                  </option>
                ))}
              </Select>
            </Field>
            <Button onClick={() => freezeChosen(table.name)}>Freeze this table</Button>
          </>
        )}
        <Button onClick={() => freeze(freezeSelection)}>Freeze the selection</Button>
      </section>
    </Screen>
  );
}
