/** Which of the workbook's systems a task is about. */
import { Field, Select } from '@fluentui/react-components';
import type { SystemReading } from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';

interface Props {
  readonly systems: readonly SystemReading[];
  readonly value: string;
  readonly onChange: (name: string) => void;
}

export function SystemSelect({ systems, value, onChange }: Props) {
  return (
    <Field label="System">
      <Select value={value} onChange={(_, data) => onChange(data.value)}>
        {systems.map((system) => (
          <option key={system.name} value={system.name}>
            {system.name} ({counted(system.cylinders.length, 'cylinder')})
          </option>
        ))}
      </Select>
    </Field>
  );
}
