/** The switch between inches and millimetres: the workbook's, or one for a single job that starts from it. */
import { Field, Select } from '@fluentui/react-components';
import { UNITS, type Unit } from '../../src/keying/units.ts';
import { unitWords } from '../pictures/bladeText.ts';
import { useDraft } from './navigation.tsx';
import { chosenUnit, usePreferences } from './preferences.tsx';

/** All lengths that the pane shows for this workbook. It is remembered with it. */
export function UnitSwitch({ hint = '' }: { readonly hint?: string }) {
  const { chosen, keep } = usePreferences();
  return (
    <Field label="Show lengths" hint={hint}>
      <Select
        value={chosen?.unit ?? 'spec'}
        onChange={(_, { value }) => keep({ unit: UNITS.find((unit) => unit === value) ?? 'spec' })}
      >
        <option value="spec">as each spec is written</option>
        {UNITS.map((unit) => (
          <option key={unit} value={unit}>
            in {unitWords(unit)}
          </option>
        ))}
      </Select>
    </Field>
  );
}

interface UnitFieldProps {
  readonly label: string;
  readonly hint?: string;
  readonly value: Unit;
  readonly onChange: (unit: Unit) => void;
}

export function UnitField({ label, hint = '', value, onChange }: UnitFieldProps) {
  return (
    <Field label={label} hint={hint}>
      <Select
        value={value}
        onChange={(_, data) => onChange(UNITS.find((unit) => unit === data.value) ?? value)}
      >
        {UNITS.map((unit) => (
          <option key={unit} value={unit}>
            {unitWords(unit)}
          </option>
        ))}
      </Select>
    </Field>
  );
}

/**
 * The unit of one job: what was chosen for it, else the workbook's. A later choice for the workbook goes over it.
 */
export function useUnitOf(job: string): [Unit | undefined, (unit: Unit) => void] {
  const workbook = chosenUnit(usePreferences());
  const [own, setOwn] = useDraft<{ readonly unit: Unit; readonly over: Unit | undefined } | undefined>(
    `${job}.unit`,
    undefined,
  );
  const unit = own && own.over === workbook ? own.unit : workbook;
  return [unit, (chosen) => setOwn({ unit: chosen, over: workbook })];
}
