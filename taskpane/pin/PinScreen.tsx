/** Pin cylinders: look at one stack by stack, or write the pinning sheet for all of a system. */
import { Button, Field, Select } from '@fluentui/react-components';
import { planPinning, readShop, type SystemReading } from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';
import { PinStackPicture } from '../pictures/PinStackPicture.tsx';
import { ShownUnit } from '../pictures/shownUnit.ts';
import { Cautions } from '../shared/Caution.tsx';
import { useDraft } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import { SystemSelect } from '../shared/SystemSelect.tsx';
import { chosenSystem } from '../shared/systems.ts';
import { today } from '../shared/today.ts';
import { UnitField, useUnitOf } from '../shared/UnitField.tsx';
import { usePlan } from '../shared/usePlan.ts';
import { useBook } from '../shared/workbook.tsx';

export function PinScreen() {
  const systems = useBook()?.systems ?? [];
  const [name, setName] = useDraft<string>('pin.system', '');
  const system = chosenSystem(systems, name);
  if (!system)
    return (
      <Screen title="Pin cylinders">
        <Notice kind="info">This workbook holds no system yet. Make keys first.</Notice>
      </Screen>
    );
  return <PinSystem systems={systems} system={system} onChoose={setName} />;
}

interface Props {
  readonly systems: readonly SystemReading[];
  readonly system: SystemReading;
  readonly onChoose: (name: string) => void;
}

function PinSystem({ systems, system, onChoose }: Props) {
  const [id, setId] = useDraft<string>('pin.cylinder', '');
  const [chosenUnit, setUnit] = useUnitOf('pin');
  const unit = chosenUnit ?? system.spec?.unit ?? 'in';
  const book = useBook();
  const sizes = readShop(book ?? { tables: [] }).pins.length;
  const run = usePlan();
  const pinned = system.cylinders.filter((c) => c.chambers);
  const unread = system.cylinders.length - pinned.length;
  const cylinder = pinned.find((c) => c.id === id) ?? pinned[0];
  if (run.state.step !== 'none')
    return (
      <PlanScreen
        title="Write the pinning sheet"
        run={run}
        action="Write the pinning sheet"
        back={{ label: 'Back to the cylinders', onClick: run.leave }}
        onDone={run.leave}
      >
        <Cautions about={['secret']} />
      </PlanScreen>
    );
  return (
    <Screen
      title="Pin cylinders"
      lead="Bottom pin, master pins and top pin of every chamber."
      foot={
        <Button
          className="primary"
          appearance="primary"
          disabledFocusable={pinned.length === 0}
          onClick={() =>
            void run.prepare((book) =>
              planPinning(book, { made: today(), system: system.name, unit, kitList: true }),
            )
          }
        >
          Plan the pinning sheet and kit list
        </Button>
      }
    >
      <div className="stack">
        <SystemSelect systems={systems} value={system.name} onChange={onChoose} />
        {!system.spec && (
          <Notice kind="error">
            The spec {system.specName} of this system could not be read. Mend it in the Specs sheet, then read
            the workbook again.
          </Notice>
        )}
        {unread > 0 && (
          <Notice kind="warning">
            {counted(unread, 'cylinder')} left out: their chambers could not be read. The start screen lists
            why.
          </Notice>
        )}
        {cylinder && (
          <Field label="Cylinder">
            <Select value={cylinder.id} onChange={(_, { value }) => setId(value)}>
              {pinned.map((c) => (
                <option key={c.id} value={c.id}>
                  {[c.id, c.door, c.symbol].filter(Boolean).join(' · ')}
                </option>
              ))}
            </Select>
          </Field>
        )}
        {system.spec && cylinder?.chambers && (
          <ShownUnit value={unit}>
            <PinStackPicture spec={system.spec} cylinder={{ ...cylinder, chambers: cylinder.chambers }} />
          </ShownUnit>
        )}
        <UnitField
          label="Lengths here and on the sheet"
          hint={
            sizes > 0
              ? `Rounded to the ${counted(sizes, 'size')} in the sheet Pins, with the error shown.`
              : 'Put your kit’s sizes into the sheet Pins (Shop tables) to have lengths rounded to them.'
          }
          value={unit}
          onChange={setUnit}
        />
        {system.cylinders.length === 0 && <Notice kind="info">This system has no cylinders yet.</Notice>}
        <Cautions about={['first-original']} />
      </div>
    </Screen>
  );
}
