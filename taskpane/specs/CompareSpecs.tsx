/** Two or three specs side by side, what differs first. Narrow as the pane is, each dimension heads its own line. */
import { Button, Checkbox, Field, Select } from '@fluentui/react-components';
import { useMemo, useState } from 'react';
import type { Specification } from '../../src/keying/specification.ts';
import { counted } from '../pictures/numbers.ts';
import { useShownUnit } from '../pictures/shownUnit.ts';
import { useDraft } from '../shared/navigation.tsx';
import { Screen } from '../shared/Screen.tsx';
import { UnitSwitch } from '../shared/UnitField.tsx';
import type { SpecChoices } from './choices.ts';
import { compareSpecs } from './compareSpecs.ts';

interface Props {
  readonly choices: SpecChoices;
  /** The spec that was looked at. */
  readonly first: Specification;
  readonly onBack: () => void;
}

export function CompareSpecs({ choices, first, onBack }: Props) {
  const all = [...choices.own, ...choices.starters];
  const others = all.filter((spec) => spec !== first);
  const [second, setSecond] = useDraft<string>('specs.second', '');
  const [third, setThird] = useDraft<string>('specs.third', '');
  const [onlyDiffering, setOnlyDiffering] = useState(true);
  const b = others.find((spec) => spec.name === second) ?? others[0];
  const c = others.find((spec) => spec.name === third && spec !== b);
  const specs = useMemo(() => [first, ...(b ? [b] : []), ...(c ? [c] : [])], [first, b, c]);
  const unit = useShownUnit();
  const rows = useMemo(() => compareSpecs(specs, unit), [specs, unit]);
  const differing = rows.filter((row) => row.differs).length;
  return (
    <Screen
      title="Compare specs"
      step="compare"
      lead={`${first.name} beside another, or two.`}
      back={{ label: 'Back to specs', onClick: onBack }}
      foot={
        <Button className="primary" appearance="primary" onClick={onBack}>
          Done
        </Button>
      }
    >
      <div className="stack">
        <div className="pair">
          <Field label="Compare with">
            <Select value={b?.name ?? ''} onChange={(_, { value }) => setSecond(value)}>
              {others.map((spec) => (
                <option key={spec.name}>{spec.name}</option>
              ))}
            </Select>
          </Field>
          <Field label="And with">
            <Select value={c?.name ?? ''} onChange={(_, { value }) => setThird(value)}>
              <option value="">no third</option>
              {others
                .filter((spec) => spec !== b)
                .map((spec) => (
                  <option key={spec.name}>{spec.name}</option>
                ))}
            </Select>
          </Field>
        </div>
        <UnitSwitch />
        <p role="status">
          {differing === 0
            ? 'These specs are the same in everything.'
            : `${counted(differing, 'dimension')} of ${rows.length} differ${differing === 1 ? 's' : ''}.`}
        </p>
        <Checkbox
          label="Only what differs"
          checked={onlyDiffering}
          onChange={(_, { checked }) => setOnlyDiffering(checked === true)}
        />
        <table className="compare">
          <caption className="unseen">Dimensions of {specs.map((spec) => spec.name).join(', ')}</caption>
          <thead>
            <tr>
              {specs.map((spec) => (
                <th key={spec.name} scope="col">
                  {spec.name}
                </th>
              ))}
            </tr>
          </thead>
          {rows
            .filter((row) => row.differs || !onlyDiffering)
            .map((row) => (
              <tbody key={row.label}>
                <tr>
                  <th scope="rowgroup" colSpan={specs.length} className={row.differs ? 'differs' : ''}>
                    {row.label}
                    {row.differs ? ' ≠' : ''}
                    {row.differs && <span className="unseen"> differs</span>}
                  </th>
                </tr>
                <tr>
                  {row.values.map((value, i) => (
                    <td key={specs[i]!.name}>{value}</td>
                  ))}
                </tr>
              </tbody>
            ))}
        </table>
      </div>
    </Screen>
  );
}
