/** The fields of a new system: what most people need in view, the rest folded. */
import { Field, Select } from '@fluentui/react-components';
import type { ReactNode } from 'react';
import { Fold } from '../shared/Fold.tsx';
import { TextField } from '../shared/TextField.tsx';
import { OWN_RULES, RuleSwitches } from '../shared/RuleSwitches.tsx';
import type { Progression } from '../../src/keying/progression.ts';
import type { MakeField, MakeForm } from './makeForm.ts';

type TextFields = Exclude<MakeField, 'array'>;

const PROGRESSIONS: readonly (readonly [kind: Progression['kind'], label: string])[] = [
  ['total', 'total position'],
  ['partial', 'partial position'],
  ['rotating', 'rotating constant'],
];

interface Props {
  readonly form: MakeForm;
  readonly onChange: (form: MakeForm) => void;
  readonly faults: ReadonlyMap<MakeField, string>;
  /** Name that is used when none is typed. */
  readonly nextName: string;
  /** Top master and array come from the sheet Array. */
  readonly fromSheet: boolean;
  /** Groups come from the shop's doors: the counts are not asked. */
  readonly fromDoors: boolean;
}

export function MakeFields({ fromSheet, form, onChange, faults, nextName, fromDoors }: Props) {
  const text = (field: TextFields, label: string, hint?: string, placeholder?: string): ReactNode => (
    <TextField
      label={label}
      hint={hint}
      placeholder={placeholder}
      fault={faults.get(field)}
      value={form[field]}
      onChange={(value) => onChange({ ...form, [field]: value })}
    />
  );
  const { levels } = form;
  return (
    <>
      {text('name', 'Name of the system', undefined, nextName)}
      <Field label="Levels">
        <Select
          value={String(levels)}
          onChange={(_, { value }) =>
            onChange({ ...form, deal: [], levels: value === '2' ? 2 : value === '4' ? 4 : 3 })
          }
        >
          <option value="2">2: a master over change keys</option>
          <option value="3">3: a grand master over masters</option>
          <option value="4">4: a great grand master over grands</option>
        </Select>
      </Field>
      {!fromDoors && (
        <>
          {levels === 4 && text('grands', 'Grand masters')}
          {levels >= 3 &&
            text(
              'masters',
              levels === 4 ? 'Masters under each grand master' : 'Masters',
              levels === 4 ? 'One count for all, or one each: 4, 2' : undefined,
            )}
          {text(
            'changeKeys',
            levels === 2 ? 'Change keys' : 'Change keys under each master',
            levels === 2 ? undefined : 'One count for all, or one each: 12, 8, 20',
          )}
          <div className="pair">
            {text('spares', 'Spares in each group')}
            {text('doorsPerKey', 'Doors per change key')}
          </div>
        </>
      )}
      {levels > 2 && (
        <Fold label="Reserve for later" open={faults.has('spareMasters') || faults.has('spareGrands')}>
          <div className="pair">
            {text('spareMasters', levels === 4 ? 'Spare masters, each grand' : 'Spare masters')}
            {levels === 4 && text('spareGrands', 'Spare grand masters')}
          </div>
          <p className="lead">
            Their bittings are set aside now, each with room for a group as large as the smallest. For a whole
            further level, keep a chamber at the top master’s cut: see the array below.
          </p>
        </Fold>
      )}
      <Fold label="More: order, rules, top master">
        <div className="pair">
          <Field label="Order of the keys">
            <Select
              value={form.order}
              onChange={(_, { value }) =>
                onChange({ ...form, order: value === 'progression' ? 'progression' : 'scattered' })
              }
            >
              <option value="scattered">scattered</option>
              <option value="progression">progression</option>
            </Select>
          </Field>
          {text('seed', 'Seed', 'The same seed gives the same system.')}
        </div>
        <div className="pair">
          <Field label="Progression">
            <Select
              value={form.progression}
              onChange={(_, { value }) =>
                onChange({
                  ...form,
                  progression: PROGRESSIONS.find(([kind]) => kind === value)?.[0] ?? 'total',
                })
              }
            >
              {PROGRESSIONS.map(([kind, label]) => (
                <option key={kind} value={kind}>
                  {label}
                </option>
              ))}
            </Select>
          </Field>
          {form.progression === 'rotating' && text('constants', 'Constant cuts in each key')}
          {form.progression === 'partial' && text('kept', 'Chambers that stay the top master’s')}
          {form.progression === 'total' &&
            text('difference', 'Chambers that keys differ in', 'At least, between keys of one level.')}
        </div>
        {!fromSheet && text('topMaster', 'Top master', 'Blank: one is proposed that leaves room.')}
        {text('keyway', 'Keyway')}
        <RuleSwitches
          rules={form.rules}
          switches={OWN_RULES}
          onChange={(rules) => onChange({ ...form, rules })}
        />
      </Fold>
    </>
  );
}
