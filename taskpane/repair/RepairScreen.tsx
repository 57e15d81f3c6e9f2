/** Care of our formulas: those gone wrong are put back, and whoever wants values instead of formulas freezes them. */
import { Button, Field, Select } from '@fluentui/react-components';
import { useState } from 'react';
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
import { FaultList, type FaultLine } from '../shared/FaultList.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import { usePlan } from '../shared/usePlan.ts';
import { useBook } from '../shared/workbook.tsx';

const TITLE = 'Repair and freeze';
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
  if (run.state.step !== 'none')
    return (
      <PlanScreen
        title={TITLE}
        run={run}
        action={action}
        back={{ label: 'Back to Repair and freeze', onClick: run.leave }}
        onDone={run.leave}
      >
        {lines.length > 0 && <FaultList label="Cells" lines={lines} />}
      </PlanScreen>
    );
  const broken = book ? brokenLines(book) : [];
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
    setAction('Freeze them');
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
          <Button className="primary" appearance="primary" onClick={repair}>
            Put {counted(broken.length, 'formula')} back
          </Button>
        ) : undefined
      }
    >
      <section className="stack" aria-labelledby="repair-wrong">
        <h2 id="repair-wrong">Formulas gone wrong</h2>
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
