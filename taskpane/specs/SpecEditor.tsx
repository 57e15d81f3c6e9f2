/** An own spec, typed: each fault beside its field, and what the geometry gives as soon as it can be worked out. */
import { Button, Field, Input, Select, Textarea } from '@fluentui/react-components';
import { useMemo, type ReactElement, type ReactNode } from 'react';
import type { SpecColumn } from '../../src/keying/specTable.ts';
import { saySpecFault } from '../../src/keying/specWording.ts';
import { LEAST_POSITIONS, MOST_POSITIONS, type Specification } from '../../src/keying/specification.ts';
import { counted } from '../pictures/numbers.ts';
import { Fold } from '../shared/Fold.tsx';
import { Notice } from '../shared/Notice.tsx';
import { Screen } from '../shared/Screen.tsx';
import { limitHints } from './explain.ts';
import { SpecFacts } from './SpecFacts.tsx';
import { readSpecForm, type SpecForm } from './specForm.ts';

/** Hints with numbers as they look in the unit that is typed. */
const HINTS: Readonly<Record<string, { readonly depths: string; readonly centres: string }>> = {
  in: {
    depths:
      'One a line: symbol and root depth, such as 0=0.315. A column pair pasted from a sheet works too.',
    centres: 'Only where the spacing is uneven: 0.237; 0.393; …',
  },
  mm: {
    depths: 'One a line: symbol and root depth, such as 0=8.00. A column pair pasted from a sheet works too.',
    centres: 'Only where the spacing is uneven: 6.02; 9.98; …',
  },
};

interface Props {
  readonly form: SpecForm;
  readonly onChange: (form: SpecForm) => void;
  /** Names that are taken in the workbook. */
  readonly taken: readonly string[];
  readonly onBack: () => void;
  readonly onSave: (spec: Specification) => void;
}

export function SpecEditor({ form, onChange, taken, onBack, onSave }: Props) {
  const reading = useMemo(() => readSpecForm(form, taken), [form, taken]);
  const faults = reading.faults.size;
  const limits = limitHints(reading.shape);
  const shape = reading.faults.has('MACS') ? undefined : reading.shape;
  const field = (column: SpecColumn, label: string, hint?: string): ReactNode => (
    <FormField label={label} hint={hint} column={column} form={form} reading={reading}>
      <Input value={form[column]} onChange={(_, { value }) => onChange({ ...form, [column]: value })} />
    </FormField>
  );
  const choice = (
    column: SpecColumn,
    label: string,
    options: readonly (readonly [string, string])[],
    hint: string,
  ): ReactNode => (
    <Field label={label} hint={hint}>
      <Select value={form[column]} onChange={(_, { value }) => onChange({ ...form, [column]: value })}>
        {options.map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </Select>
    </Field>
  );
  const unit = form.Unit;
  const hints = HINTS[unit] ?? HINTS['in']!;
  return (
    <Screen
      title="Your own spec"
      lead="Dimensions from your depth and space data. Nothing is written until you have seen the plan."
      back={{ label: 'Back to specs', onClick: onBack }}
      foot={
        <>
          {faults > 0 && <p className="why">{counted(faults, 'field')} to mend before it can be written.</p>}
          <Button
            className="primary"
            appearance="primary"
            disabledFocusable={!reading.spec}
            onClick={() => reading.spec && onSave(reading.spec)}
          >
            Plan the Specs sheet
          </Button>
        </>
      }
    >
      <div className="stack">
        {field('Name', 'Name', 'Short and your own, such as SHOP-6.')}
        {field('Title', 'Description', 'What it is, in plain words.')}
        <div className="pair">
          {choice(
            'Unit',
            'Unit',
            [
              ['in', 'inches'],
              ['mm', 'millimetres'],
            ],
            'Of every length below.',
          )}
          {field('Cuts', 'Number of cuts', `${LEAST_POSITIONS} to ${MOST_POSITIONS}.`)}
          {choice(
            'Gauge',
            'Measured from',
            [
              ['shoulder', 'shoulder'],
              ['tip', 'tip'],
            ],
            'The stop that positions are measured from.',
          )}
          {choice(
            'Order',
            'Code reads',
            [
              ['bow-to-tip', 'bow to tip'],
              ['tip-to-bow', 'tip to bow'],
            ],
            'From the first symbol of a code to its last.',
          )}
          {field('First cut', `First cut, ${unit}`, 'From the stop to its middle.')}
          {field('Spacing', `Spacing, ${unit}`, 'From the middle of one cut to the next.')}
        </div>
        <FormField
          label={`Depths, ${unit}`}
          hint={hints.depths}
          column="Depths"
          form={form}
          reading={reading}
        >
          <Textarea
            rows={8}
            value={form.Depths}
            onChange={(_, { value }) => onChange({ ...form, Depths: value })}
          />
        </FormField>
        <div className="pair">
          {field('Root width', `Root width, ${unit}`, 'Flat at the bottom of a cut.')}
          {field('Angle', 'Angle, degrees', 'Included angle of a cut.')}
          {field('MACS', 'MACS, steps', limits.macs)}
          {field('Step', 'Progression step', limits.step)}
        </div>
        <Fold label="Pins, tolerance, uneven spacing, cores">
          {field('Centres', `List of centres, ${unit}`, hints.centres)}
          <div className="pair">
            {field('Tolerance', `Tolerance, ${unit}`, 'How far a reading may be off.')}
            {field('Blade height', `Blade height, ${unit}`, 'From the bottom to the uncut top.')}
            {field('Plug diameter', `Plug diameter, ${unit}`, 'Less root depth: the bottom pin.')}
            {field('Target stack', `Target stack, ${unit}`, 'All pins of a chamber; the top pin fills up.')}
            {field('Core total', 'Core total, steps', 'Whole stack; cores only.')}
            {field('Core addition', 'Control adds, steps', 'Control line above the other.')}
          </div>
          <FormField
            label={`Bottom pins, ${unit}`}
            hint="Only where they differ from plug diameter less root depth; one a line."
            column="Pins"
            form={form}
            reading={reading}
          >
            <Textarea
              rows={4}
              value={form.Pins}
              onChange={(_, { value }) => onChange({ ...form, Pins: value })}
            />
          </FormField>
          {field('Source', 'Where the numbers come from', 'A data sheet, a measured key, memory.')}
        </Fold>
        {shape ? (
          <>
            <h2>What this gives</h2>
            <SpecFacts spec={shape} />
          </>
        ) : (
          <Notice kind="info">The geometry is worked out as soon as the fields above are complete.</Notice>
        )}
      </div>
    </Screen>
  );
}

interface FormFieldProps {
  readonly label: string;
  readonly hint: string | undefined;
  readonly column: SpecColumn;
  readonly form: SpecForm;
  readonly reading: ReturnType<typeof readSpecForm>;
  readonly children: ReactNode;
}

/** A blank field that is still needed is not shouted about while typing: the foot counts it. */
function FormField({ label, hint, column, form, reading, children }: FormFieldProps) {
  const fault = reading.faults.get(column);
  const needed = fault?.code === 'cell-blank' && form[column] === '';
  const sentence = fault && !needed ? saySpecFault({ column, fault }) : undefined;
  return (
    <Field
      label={label}
      required={needed}
      {...(hint && !sentence ? { hint } : {})}
      {...(sentence ? { validationState: 'error' as const, validationMessage: sentence } : {})}
    >
      {children as ReactElement}
    </Field>
  );
}
