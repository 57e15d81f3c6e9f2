/** The options of solving, folded away: the defaults serve most grids. */
import { Checkbox, Field, Select } from '@fluentui/react-components';
import type { ReactNode } from 'react';
import { Fold } from '../shared/Fold.tsx';
import { TextField } from '../shared/TextField.tsx';
import { OWN_RULES, RuleSwitches } from '../shared/RuleSwitches.tsx';
import type { SolveField, SolveForm } from './solveForm.ts';

interface Props {
  readonly form: SolveForm;
  readonly onChange: (form: SolveForm) => void;
  readonly faults: ReadonlyMap<SolveField, string>;
  /** Where keys exist already, their bittings are avoided anyway. */
  readonly extending?: boolean;
}

export function SolveFields({ form, onChange, faults, extending = false }: Props) {
  const text = (field: SolveField, label: string, hint?: string): ReactNode => (
    <TextField
      label={label}
      hint={hint}
      fault={faults.get(field)}
      value={form[field]}
      onChange={(value) => onChange({ ...form, [field]: value })}
    />
  );
  return (
    <Fold label="More: differences, depths, seed, rules" open={faults.size > 0}>
      <div className="pair">
        {text('difference', 'Chambers that keys differ in', 'At least, any two keys.')}
        {text('mostDepths', 'Most depths in a chamber', 'Blank: as many as it takes.')}
      </div>
      <Field label="Keys with the same marks">
        <Select
          value={form.sameMarks}
          onChange={(_, { value }) =>
            onChange({ ...form, sameMarks: value === 'alike' ? 'alike' : 'different' })
          }
        >
          <option value="different">each its own bitting</option>
          <option value="alike">cut alike</option>
        </Select>
      </Field>
      {!extending && (
        <Checkbox
          label="Avoid every bitting in this workbook under the same spec"
          checked={form.avoidBook}
          onChange={(_, { checked }) => onChange({ ...form, avoidBook: checked === true })}
        />
      )}
      {text('avoid', 'Further bittings to keep free', 'With commas between.')}
      {text('constant', 'Positions kept for a later level', 'Every new key has the same cut there: 5 6.')}
      <div className="pair">
        {text('seed', 'Seed', 'The same seed gives the same keys.')}
        {text('budget', 'Search steps', 'About a million a second.')}
      </div>
      <RuleSwitches
        rules={form.rules}
        switches={OWN_RULES}
        onChange={(rules) => onChange({ ...form, rules })}
      />
    </Fold>
  );
}
