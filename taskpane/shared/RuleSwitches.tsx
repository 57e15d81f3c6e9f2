/** The rules for a usable bitting as switches, with the limits that a shop may set. */
import { Checkbox, Field, Select } from '@fluentui/react-components';
import { Fragment, useId } from 'react';
import { GRADES } from '../../src/keying/en1303.ts';
import type { RuleName, Rules } from '../../src/keying/rules.ts';
import { ruleReason, ruleTitle } from '../../src/keying/wording.ts';
import { ruleWithLimit } from './ruleWords.ts';

type Switch = Exclude<RuleName, 'grade'>;

/** Rules about the key itself; the others need a system to check against. */
export const OWN_RULES = [
  'macs',
  'fewDepths',
  'equalRun',
  'stair',
  'pullsOutTurned',
] as const satisfies readonly Switch[];

interface Props {
  readonly rules: Rules;
  readonly switches: readonly Switch[];
  readonly onChange: (rules: Rules) => void;
}

export function RuleSwitches({ rules, switches, onChange }: Props) {
  const id = useId();
  return (
    <fieldset className="switches">
      <legend>Rules</legend>
      {switches.map((name) => (
        <Fragment key={name}>
          <Checkbox
            label={ruleWithLimit(name, rules)}
            checked={rules[name]}
            aria-describedby={`${id}-${name}`}
            onChange={(_, { checked }) => onChange({ ...rules, [name]: checked === true })}
          />
          <p className="means" id={`${id}-${name}`}>
            {ruleReason(name)}
          </p>
        </Fragment>
      ))}
      <Field label={ruleTitle('grade')} hint={ruleReason('grade')}>
        <Select
          value={String(rules.grade)}
          onChange={(_, { value }) =>
            onChange({ ...rules, grade: GRADES.find((grade) => String(grade) === value) ?? 0 })
          }
        >
          <option value="0">not checked</option>
          {GRADES.map((grade) => (
            <option key={grade} value={grade}>
              grade {grade}
            </option>
          ))}
        </Select>
      </Field>
    </fieldset>
  );
}
