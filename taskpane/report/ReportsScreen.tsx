/** Reports for the customer and for the shop, and what can be done about sheets that hold bittings. */
import { Button, Field, Input, Radio, RadioGroup } from '@fluentui/react-components';
import { useState } from 'react';
import { confirmedSchedule, planCustomerReport, planShopReport } from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';
import { Cautions } from '../shared/Caution.tsx';
import { useDraft } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import { SystemSelect } from '../shared/SystemSelect.tsx';
import { chosenSystem } from '../shared/systems.ts';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useBook } from '../shared/workbook.tsx';
import { Privacy } from './Privacy.tsx';

type For = 'customer' | 'shop';

export function ReportsScreen() {
  const book = useBook();
  const systems = book?.systems ?? [];
  const [name, setName] = useDraft<string>('reports.system', '');
  const [whom, setWhom] = useDraft<For>('reports.for', 'customer');
  const [revision, setRevision] = useDraft<string>('reports.revision', 'A');
  const [told, setTold] = useState<{ readonly leftOut: number; readonly from: string }>();
  const run = usePlan();
  const system = chosenSystem(systems, name);

  const write = (): void => {
    if (!system) return;
    const input = { system: system.name, made: today(), revision: revision.trim() };
    void run.prepare(async (now) => {
      if (whom === 'shop') {
        setTold(undefined);
        return planShopReport(now, input);
      }
      const schedule = await confirmedSchedule(now);
      const report = planCustomerReport(now, { ...input, ...(schedule && { schedule }) });
      setTold({ leftOut: report.leftOut, from: schedule?.guess.sheet ?? 'Cylinders' });
      return report.plan;
    });
  };

  if (run.state.step !== 'none')
    return (
      <PlanScreen
        title={whom === 'customer' ? 'Report for the customer' : 'Report for the shop'}
        run={run}
        action="Write the report"
        back={{ label: 'Back to the reports', onClick: run.leave }}
        onDone={run.leave}
      >
        {told && (
          <p>
            Doors come from {told.from}. Every text was compared with all bittings of this workbook:{' '}
            {told.leftOut === 0
              ? 'none is in the report.'
              : `${counted(told.leftOut, 'text')} quoted one and ${told.leftOut === 1 ? 'is' : 'are'} left out.`}
          </p>
        )}
        {whom === 'shop' && <Cautions about={['secret']} />}
      </PlanScreen>
    );
  if (!system)
    return (
      <Screen title="Reports and privacy">
        <Notice kind="info">
          This workbook holds no system yet, so there is nothing to report. Make keys first.
        </Notice>
      </Screen>
    );
  return (
    <Screen
      title="Reports and privacy"
      lead="A report is a sheet, laid out for printing: one page wide, titles repeated, page numbers, date and revision at the foot."
      foot={
        <Button className="primary" appearance="primary" onClick={write}>
          {whom === 'customer' ? 'Report for the customer' : 'Report for the shop'}
        </Button>
      }
    >
      <div className="stack">
        {systems.length > 1 && <SystemSelect systems={systems} value={system.name} onChange={setName} />}
        <Field label="For whom">
          <RadioGroup value={whom} onChange={(_, { value }) => setWhom(value as For)}>
            <Radio value="customer" label="The customer: doors, keysets and keys, no bittings" />
            <Radio value="shop" label="The shop: with bittings, marked as secret" />
          </RadioGroup>
        </Field>
        <Field label="Revision">
          <Input value={revision} maxLength={12} onChange={(_, { value }) => setRevision(value)} />
        </Field>
        {book && <Privacy book={book} />}
      </div>
    </Screen>
  );
}
