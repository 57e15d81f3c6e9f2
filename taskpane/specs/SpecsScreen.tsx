/** Specs: look one up, put a starter into the workbook, or make an own one. */
import { Button } from '@fluentui/react-components';
import { useState } from 'react';
import { planSpecs } from '../../src/workbook/index.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { useShown, useShownUnit } from '../pictures/shownUnit.ts';
import { Cautions } from '../shared/Caution.tsx';
import { listed } from '../pictures/numbers.ts';
import { FaultList, GoTo } from '../shared/FaultList.tsx';
import { MAKE_SPEC, useDraft, useNavigation } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import { UnitSwitch } from '../shared/UnitField.tsx';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useBook } from '../shared/workbook.tsx';
import { chosenSpec, specChoices } from './choices.ts';
import { CompareSpecs } from './CompareSpecs.tsx';
import { SpecEditor } from './SpecEditor.tsx';
import { SpecFacts } from './SpecFacts.tsx';
import { emptySpecForm, specForm, type SpecForm } from './specForm.ts';
import { SpecSelect } from './SpecSelect.tsx';
import { SpecTableFold } from './SpecTableFold.tsx';

export function SpecsScreen() {
  const book = useBook();
  const { go, drafts } = useNavigation();
  const choices = specChoices(book);
  const [name, setName] = useDraft<string>('specs.name', '');
  const [form, setForm] = useDraft<SpecForm | undefined>('specs.form', undefined);
  const [editing, setEditing] = useState(false);
  const [comparing, setComparing] = useState(false);
  const run = usePlan();
  const spec = chosenSpec(choices, name);
  const unit = useShownUnit();
  const shown = useShown(spec);
  const row = book?.specs.find((s) => s.spec === spec);
  const makeKeys = (): void => {
    drafts.set(MAKE_SPEC, spec.name);
    go('make');
  };
  const plan = (...wanted: readonly Specification[]): void =>
    void run.prepare((now) => planSpecs(now, wanted, { made: today() }));
  const [first] = book?.specs ?? [];
  const faulty = (book?.specs ?? []).filter((s) => !s.spec).map((s) => s.name || 'one without a name');
  const unread = (book?.problems ?? []).filter(({ sheet }) => sheet === first?.at.sheet);

  if (run.state.step !== 'none')
    return (
      <PlanScreen
        title="Write the spec"
        run={run}
        action="Write to Specs"
        back={{ label: editing ? 'Back to the dimensions' : 'Back to specs', onClick: run.leave }}
        onDone={() => {
          setForm(undefined);
          setEditing(false);
          run.leave();
        }}
      >
        <Cautions about={['first-original']} />
      </PlanScreen>
    );
  if (editing && form)
    return (
      <SpecEditor
        form={form}
        onChange={setForm}
        taken={(book?.specs ?? []).map((s) => s.name)}
        onBack={() => setEditing(false)}
        onSave={plan}
      />
    );
  if (comparing) return <CompareSpecs choices={choices} first={spec} onBack={() => setComparing(false)} />;
  const edit = (start: SpecForm): void => {
    setForm(start);
    setEditing(true);
  };
  return (
    <Screen
      title="Specs"
      lead="The dimensions that turn a code into cuts."
      foot={
        <>
          {row ? (
            <Button className="primary" appearance="primary" onClick={makeKeys}>
              Make keys with this spec
            </Button>
          ) : (
            <Button className="primary" appearance="primary" onClick={() => plan(spec)}>
              Copy to this workbook
            </Button>
          )}
        </>
      }
    >
      <div className="stack">
        <SpecSelect choices={choices} value={spec.name} onChange={setName} />
        <UnitSwitch />
        <p className="lead">{spec.title}</p>
        {row && (
          <p>
            <GoTo at={row.at} />
          </p>
        )}
        {faulty.length > 0 && (
          <>
            <Notice kind="error">
              Specs with a fault are not offered: {listed(faulty)}. Mend their cells, then read the workbook
              again.
            </Notice>
            <FaultList
              label="What can’t be read in the sheet Specs"
              lines={unread.map(({ severity, sentence, sheet, address }) => ({
                severity,
                sentence,
                at: { sheet, address },
              }))}
            />
          </>
        )}
        {spec.source && <Notice kind="warning">Source: {spec.source}.</Notice>}
        <SpecFacts spec={spec} />
        <div className="ways">
          <Button onClick={() => setComparing(true)}>Compare with another spec</Button>
        </div>
        <h2>Your own</h2>
        <div className="ways">
          <Button onClick={() => edit({ ...specForm(shown), Name: '', Source: '' })}>
            Start from {spec.name}
          </Button>
          <Button onClick={() => edit(emptySpecForm(unit))}>Start empty</Button>
          {form && <Button onClick={() => setEditing(true)}>Go on with your draft</Button>}
        </div>
        <SpecTableFold spec={spec} onTake={(wanted) => plan(...wanted)} />
      </div>
    </Screen>
  );
}
