/** Keys without a master: a pool of keyed-different bittings, or keyed-alike groups, drawn by a seed. */
import { Button, Checkbox, Field, Select } from '@fluentui/react-components';
import { useEffect, useMemo, useState, type ReactNode } from 'react';
import { formatBitting } from '../../src/keying/bitting.ts';
import type { PoolRequest } from '../../src/keying/grid/index.ts';
import { planNewSystem } from '../../src/workbook/index.ts';
import { isTaken, nextName } from '../make/makeForm.ts';
import { rulesText } from '../make/newSystem.ts';
import { counted, grouped } from '../pictures/numbers.ts';
import { TextTable } from '../pictures/TextTable.tsx';
import { Busy } from '../shared/Busy.tsx';
import { Cautions } from '../shared/Caution.tsx';
import { Fold } from '../shared/Fold.tsx';
import { useDraft, useGoToAudit, useNavigation } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { OWN_RULES, RuleSwitches } from '../shared/RuleSwitches.tsx';
import { Screen } from '../shared/Screen.tsx';
import { TextField } from '../shared/TextField.tsx';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useSteps } from '../shared/useSteps.ts';
import { useBook } from '../shared/workbook.tsx';
import { chosenSpec, specChoices } from '../specs/choices.ts';
import { SpecSelect } from '../specs/SpecSelect.tsx';
import { DEFAULT_POOL, poolSystem, readPoolForm, type PoolField, type PoolForm } from './poolForm.ts';

const SHOWN = 30;

interface Asked {
  readonly name: string;
  readonly request: PoolRequest;
  readonly kind: PoolForm['kind'];
  readonly cylinders: number;
}

export function PoolScreen() {
  const book = useBook();
  const { go } = useNavigation();
  const goToAudit = useGoToAudit();
  const [specName, setSpecName] = useDraft<string>('pool.spec', '');
  const [name, setName] = useDraft<string>('pool.name', '');
  const [form, setForm] = useDraft<PoolForm>('pool.form', DEFAULT_POOL);
  const [asked, setAsked] = useState<Asked>();
  const work = useSteps('pool');
  const run = usePlan();
  const spec = chosenSpec(specChoices(book), specName);
  const taken = useMemo(() => (book?.systems ?? []).map((s) => s.name), [book]);
  const called = name.trim() || nextName(taken);
  const nameTaken = isTaken(called, taken);
  const { request, cylinders, faults } = readPoolForm(form, spec, book);
  const { state } = work;
  const pool = state.step === 'done' ? state.value : undefined;
  const { prepare } = run;
  useEffect(() => {
    if (!pool || !asked || pool.bittings.length === 0) return;
    const { seed = 1, rules } = asked.request;
    const made = poolSystem(asked.name, asked.request.spec, pool.bittings, asked.kind, asked.cylinders);
    void prepare((now) =>
      planNewSystem(
        now,
        {
          ...made,
          seed,
          deal: asked.kind === 'alike' ? 'keyed alike, no master' : 'keyed different, no master',
          ...(rules && { rules: rulesText(rules) }),
        },
        { made: today(), grid: false },
      ),
    );
  }, [asked, pool, prepare]);

  const back = (): void => {
    run.leave();
    work.reset();
  };
  const leave = (): void => {
    back();
    setName('');
  };
  const text = (field: PoolField, label: string, hint?: string): ReactNode => (
    <TextField
      label={label}
      hint={hint}
      fault={faults.get(field)}
      value={form[field]}
      onChange={(value) => setForm({ ...form, [field]: value })}
    />
  );
  const backWay = { label: 'Back to the request', onClick: back };
  const alike = form.kind === 'alike';

  if (pool && asked && run.state.step !== 'none')
    return (
      <PlanScreen
        title={`Write ${asked.name}`}
        run={run}
        action="Write the keys"
        back={backWay}
        {...(asked.cylinders > 0 && {
          next: {
            label: 'Audit it',
            onClick: () => {
              leave();
              goToAudit(asked.name);
            },
          },
        })}
        onDone={() => {
          leave();
          go('start');
        }}
      >
        <div className="stack">
          {pool.short && (
            <Notice kind="warning">
              Only {counted(pool.bittings.length, 'bitting')} of {grouped(asked.request.count)} were found.{' '}
              {pool.exhausted
                ? 'Every bitting was looked at, so no more fit beside these: ask for a smaller difference, ease a rule, or try another seed.'
                : 'The search stopped at its limit; another seed may find more.'}
            </Notice>
          )}
          <p>
            {counted(pool.bittings.length, 'bitting')}, any two apart in{' '}
            {counted(asked.request.minimumDifference ?? 1, 'chamber')} at least
            {asked.request.used && asked.request.used.length > 0
              ? `, and from ${counted(asked.request.used.length, 'bitting')} used before.`
              : '. None were used before.'}
          </p>
          <Fold label="Look at the keys" open>
            <TextTable
              caption={
                pool.bittings.length > SHOWN
                  ? `The first ${SHOWN} of ${grouped(pool.bittings.length)}`
                  : counted(pool.bittings.length, 'key')
              }
              columns={['Key', 'Bitting']}
              rows={pool.bittings
                .slice(0, SHOWN)
                .map((cuts, i) => [
                  `${asked.kind === 'alike' ? 'KA' : 'SKD'}${i + 1}`,
                  formatBitting(asked.request.spec, cuts),
                ])}
            />
          </Fold>
          <Cautions about={['secret', 'exit-doors']} />
        </div>
      </PlanScreen>
    );
  if (state.step === 'busy' || (pool && pool.bittings.length > 0))
    return (
      <Screen title="Keys without a master" step="busy" back={backWay}>
        {state.step === 'busy' && <Busy {...state.progress} stage="Drawing bittings:" onStop={work.stop} />}
      </Screen>
    );
  return (
    <Screen
      title="Keys without a master"
      step={state.step}
      lead="The everyday case: so many keys, all different, or groups of cylinders that one key opens."
      foot={
        <>
          {(!request || nameTaken) && <p className="why">Mend the marked fields first.</p>}
          <Button
            className="primary"
            appearance="primary"
            disabledFocusable={!request || nameTaken}
            onClick={() => {
              if (!request || nameTaken) return;
              setAsked({ name: called, request, kind: form.kind, cylinders });
              work.start(request);
            }}
          >
            Draw the bittings
          </Button>
        </>
      }
    >
      <div className="stack">
        {state.step === 'failed' && <Notice kind="error">{state.sentence}</Notice>}
        {state.step === 'stopped' && <Notice kind="info">Stopped. Nothing was written.</Notice>}
        {pool && (
          <Notice kind="error">
            No bitting meets these rules beside those used. Ease a rule, or ask for a smaller difference.
          </Notice>
        )}
        <SpecSelect choices={specChoices(book)} value={spec.name} onChange={setSpecName} hint={spec.title} />
        <TextField
          label="Name"
          placeholder={nextName(taken)}
          fault={nameTaken ? `${called} is in this workbook already; choose another name.` : undefined}
          value={name}
          onChange={setName}
        />
        <Field label="Kind">
          <Select
            value={form.kind}
            onChange={(_, { value }) => setForm({ ...form, kind: value === 'alike' ? 'alike' : 'different' })}
          >
            <option value="different">keyed different: each key its own</option>
            <option value="alike">keyed alike: groups under one key</option>
          </Select>
        </Field>
        <div className="pair">
          {text('count', alike ? 'Groups' : 'Keys')}
          {text(
            'cylinders',
            alike ? 'Cylinders in each group' : 'Cylinders for each key',
            alike ? undefined : '0: keys alone.',
          )}
        </div>
        <Checkbox
          label="Avoid every bitting in this workbook under the same spec"
          checked={form.avoidBook}
          onChange={(_, { checked }) => setForm({ ...form, avoidBook: checked === true })}
        />
        <Fold label="More: difference, seed, rules" open={faults.size > 0}>
          {text(
            'difference',
            'Chambers that keys differ in',
            'At least, any two, those used before included.',
          )}
          {text('avoid', 'Further bittings to avoid', 'With commas between.')}
          {text('seed', 'Seed', 'The same seed gives the same keys.')}
          <RuleSwitches
            rules={form.rules}
            switches={OWN_RULES}
            onChange={(rules) => setForm({ ...form, rules })}
          />
        </Fold>
      </div>
    </Screen>
  );
}
