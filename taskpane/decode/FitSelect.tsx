/** The specs that measured cuts may be of, best first, each with how well it fits. */
import { Field, Select } from '@fluentui/react-components';
import type { SpecFit } from '../../src/keying/fitSpecs.ts';
import { sayVerdict } from './decodeWords.ts';

interface Props {
  readonly fits: readonly Pick<SpecFit, 'spec' | 'verdict'>[];
  /** Name of the spec looked at. */
  readonly value: string;
  readonly hint: string;
  readonly onChoose: (name: string) => void;
}

export function FitSelect({ fits, value, hint, onChoose }: Props) {
  return (
    <Field label="Spec, best first" hint={hint}>
      <Select value={value} onChange={(_, data) => onChoose(data.value)}>
        {fits.map((each) => (
          <option key={each.spec.name} value={each.spec.name}>
            {each.spec.name}: {sayVerdict(each).toLowerCase()}
          </option>
        ))}
      </Select>
    </Field>
  );
}
