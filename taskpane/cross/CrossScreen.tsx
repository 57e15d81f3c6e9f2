/** Cross-key a door: choose door and keys, see what it costs before and after, choose how, write the named cells. */
import { Button, Field, Select } from '@fluentui/react-components';
import { useMemo, useState } from 'react';
import { crossKeyingCost, type CrossKeyingCost } from '../../src/keying/grid/index.ts';
import { isInUse, type Chambers } from '../../src/keying/system.ts';
import { planCrossKeying, type NamedChange } from '../../src/workbook/index.ts';
import { Cautions } from '../shared/Caution.tsx';
import { ChangeList } from '../shared/ChangeList.tsx';
import { Choice } from '../shared/Choice.tsx';
import { useDraft, useGoToAudit, useNavigation } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import { SystemSelect } from '../shared/SystemSelect.tsx';
import { chosenSystem, useAuditInput } from '../shared/systems.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useBook } from '../shared/workbook.tsx';
import { CostView } from './CostView.tsx';
import { wayLabel } from './words.ts';

export function CrossScreen() {
  const book = useBook();
  const { go } = useNavigation();
  const goToAudit = useGoToAudit();
  const [name, setName] = useDraft<string>('cross.system', '');
  const [door, setDoor] = useDraft<string>('cross.door', '');
  const [keys, setKeys] = useDraft<readonly string[]>('cross.keys', []);
  const [way, setWay] = useState('0');
  const [changes, setChanges] = useState<readonly NamedChange[]>([]);
  const run = usePlan();
  const systems = book?.systems ?? [];
  const system = chosenSystem(systems, name);
  const audit = useAuditInput(book, system);
  const cylinder = audit?.system.cylinders.find((c) => c.id === door);
  const cost = useMemo(
    () =>
      audit && cylinder && keys.length > 0
        ? crossKeyingCost(audit.system, cylinder.id, keys, audit.marks)
        : undefined,
    [audit, cylinder, keys],
  );
  if (!system || !audit)
    return (
      <Screen title="Cross-key a door">
        <Notice kind="info">
          {system
            ? `The spec of ${system.name} can’t be read. Mend it in the sheet Specs first.`
            : 'This workbook holds no system yet. Make keys first.'}
        </Notice>
      </Screen>
    );
  const { spec } = audit.system;
  const found = cost?.ok ? cost.value : undefined;
  const ways = found ? waysOf(found) : [];
  const chosen = ways[Number(way)] ?? ways[0];
  const leave = (): void => {
    run.leave();
    setKeys([]);
  };
  if (run.state.step !== 'none')
    return (
      <PlanScreen
        title={`Cross-key ${cylinder?.door ?? door}`}
        run={run}
        action="Change these cells"
        back={{ label: 'Back to the door', onClick: run.leave }}
        next={{
          label: 'Audit it',
          onClick: () => {
            leave();
            goToAudit(system.name);
          },
        }}
        onDone={() => {
          leave();
          go('start');
        }}
      >
        <ChangeList changes={changes} />
        <Cautions about={['exit-doors', 'master-keyed']} spec={spec} />
      </PlanScreen>
    );
  const live = audit.system.keys.filter((key) => key.level !== 'control' && isInUse(key));
  return (
    <Screen
      title="Cross-key a door"
      lead="Let further keys open one door. What it costs is shown before anything is written."
      foot={
        <>
          {!found && <p className="why">Choose a door and at least one key.</p>}
          <Button
            className="primary"
            appearance="primary"
            disabledFocusable={!chosen}
            onClick={() => {
              if (!chosen || !cylinder) return;
              void run.prepare((now) => {
                const made = planCrossKeying(now, {
                  system: system.name,
                  cylinder: cylinder.id,
                  keys,
                  chambers: chosen.chambers,
                });
                setChanges(made.changes);
                return made.plan;
              });
            }}
          >
            Show the change
          </Button>
        </>
      }
    >
      <div className="stack">
        <SystemSelect
          systems={systems}
          value={system.name}
          onChange={(next) => {
            setName(next);
            setDoor('');
            setKeys([]);
          }}
        />
        <Choice
          label="Door"
          options={audit.system.cylinders.map((c) => ({
            value: c.id,
            text: c.door && c.door !== c.id ? `${c.door} (${c.id})` : c.id,
          }))}
          chosen={cylinder ? [cylinder.id] : []}
          onChoose={([id]) => {
            setDoor(id ?? '');
            setWay('0');
          }}
        />
        <Choice
          label="Keys that shall open it too"
          many
          options={live.map((key) => ({ value: key.symbol, text: key.symbol }))}
          chosen={keys}
          onChoose={(next) => {
            setKeys(next);
            setWay('0');
          }}
        />
        {cost && !cost.ok && (
          <Notice kind="error">Some of these keys are no longer in the system. Choose them again.</Notice>
        )}
        {found && cylinder && (
          <>
            {ways.length > 1 && (
              <Field label="How it is pinned">
                <Select value={way} onChange={(_, { value }) => setWay(value)}>
                  {ways.map(({ label }, i) => (
                    <option key={label} value={String(i)}>
                      {label}
                    </option>
                  ))}
                </Select>
              </Field>
            )}
            <CostView
              spec={spec}
              cost={found}
              way={Number(way) < ways.length ? Number(way) : 0}
              name={cylinder.door ?? cylinder.id}
            />
          </>
        )}
      </div>
    </Screen>
  );
}

interface Way {
  readonly label: string;
  readonly chambers: Chambers;
}

const waysOf = (cost: CrossKeyingCost): Way[] => [
  { label: 'With further master pins', chambers: cost.after.chambers },
  ...cost.alternatives.map((other) => ({ label: wayLabel(other), chambers: other.after.chambers })),
];
