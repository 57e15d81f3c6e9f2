/** The one control with which every task asks for a spec. */
import { Field, Select } from '@fluentui/react-components';
import type { Specification } from '../../src/keying/specification.ts';
import type { SpecChoices } from './choices.ts';

interface Props {
  readonly choices: SpecChoices;
  readonly value: string;
  readonly onChange: (name: string) => void;
  readonly hint?: string;
}

export function SpecSelect({ choices, value, onChange, hint }: Props) {
  return (
    <Field label="Spec" hint={hint ?? ''}>
      <Select value={value} onChange={(_, data) => onChange(data.value)}>
        {choices.own.length > 0 && <Options label="In this workbook" specs={choices.own} />}
        {choices.starters.length > 0 && <Options label="Starters, from memory" specs={choices.starters} />}
      </Select>
    </Field>
  );
}

function Options({ label, specs }: { readonly label: string; readonly specs: readonly Specification[] }) {
  return (
    <optgroup label={label}>
      {specs.map((spec) => (
        <option key={spec.name} value={spec.name} title={spec.title}>
          {spec.name}
        </option>
      ))}
    </optgroup>
  );
}
