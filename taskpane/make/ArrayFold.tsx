/** The key bitting array: which depths each chamber may have, in which order, for which level; here or in a sheet. */
import { Button, Field, Input, Select } from '@fluentui/react-components';
import type { Deal } from '../../src/keying/deal.ts';
import { levelsDealt } from '../../src/keying/deal.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { levelWord, type ArrayReading } from '../../src/workbook/index.ts';
import { FaultList } from '../shared/FaultList.tsx';
import { Fold } from '../shared/Fold.tsx';
import { Notice } from '../shared/Notice.tsx';
import { ARRAY_FAULTS } from './arrayFaults.ts';
import { productWords, shownArray, withDepths, type Figures, type ShownArray } from './arrayForm.ts';
import type { MakeField, MakeForm } from './makeForm.ts';

interface Props {
  readonly spec: Specification;
  readonly form: MakeForm;
  readonly onChange: (form: MakeForm) => void;
  readonly faults: ReadonlyMap<MakeField, string>;
  /** What the program chose, once it has. */
  readonly figures: Figures | undefined;
  /** Name that the array has in the sheet, and whether it is there. */
  readonly name: string;
  readonly inSheet: boolean;
  readonly reading: ArrayReading | undefined;
  /** Puts the array on the sheet; absent while it isn't known. */
  readonly onSheet: (() => void) | undefined;
}

export function ArrayFold(props: Props) {
  const { form, onChange, faults, figures, name, inSheet, reading, onSheet, spec } = props;
  const fromSheet = form.arrayFrom === 'sheet';
  const shown = shownArray(form, spec, figures);
  const fault = faults.get('array');
  return (
    <Fold
      label="Key bitting array and levels"
      open={fromSheet || fault !== undefined || faults.has('sequence')}
    >
      {(inSheet || fromSheet) && (
        <Field label="Taken from">
          <Select
            value={form.arrayFrom}
            onChange={(_, { value }) =>
              onChange({ ...form, arrayFrom: value === 'sheet' ? 'sheet' : 'form' })
            }
          >
            <option value="form">this form</option>
            <option value="sheet">the sheet Array, rows of {name}</option>
          </Select>
        </Field>
      )}
      <div id={ARRAY_FAULTS} tabIndex={-1}>
        {fromSheet && !reading && (
          <Notice kind="error">
            The sheet Array has no rows for {name}. Take the array from this form, or type the name that
            stands there.
          </Notice>
        )}
        {reading && reading.problems.length > 0 && (
          <FaultList
            label="Faults in the sheet Array"
            lines={reading.problems.map(({ severity, sentence, sheet, address }) => ({
              severity,
              sentence,
              at: { sheet, address },
            }))}
          />
        )}
      </div>
      {shown ? (
        <ChamberTable {...props} shown={shown} />
      ) : (
        <p className="lead">The array is shown as soon as the changes are counted.</p>
      )}
      {figures && <p className="lead">{productWords(figures.array)}, before levels and rules.</p>}
      {fault && <Notice kind="error">{fault}</Notice>}
      {!fromSheet && (
        <>
          <Field
            label="Sequence of progression"
            {...(faults.has('sequence')
              ? { validationState: 'error' as const, validationMessage: faults.get('sequence')! }
              : { hint: 'Blank: the order of the code. The last chamber moves fastest.' })}
          >
            <Input
              value={form.sequence}
              placeholder={spec.centres.map((_, i) => i + 1).join(' ')}
              onChange={(_, { value }) => onChange({ ...form, sequence: value })}
            />
          </Field>
          <div className="ways">
            {form.array.length > 0 && (
              <Button size="small" onClick={() => onChange({ ...form, array: [] })}>
                Widest array
              </Button>
            )}
            {form.deal.length > 0 && (
              <Button size="small" onClick={() => onChange({ ...form, deal: [] })}>
                Deal for me
              </Button>
            )}
            <Button size="small" disabledFocusable={!onSheet} onClick={() => onSheet?.()}>
              Put it on a sheet to edit
            </Button>
          </div>
        </>
      )}
    </Fold>
  );
}

function ChamberTable({ spec, form, onChange, figures, shown }: Props & { readonly shown: ShownArray }) {
  const fixed = form.arrayFrom === 'sheet';
  const { deal } = shown;
  const change = (chamber: number, level: Deal[number]): void => {
    if (deal) onChange({ ...form, deal: deal.map((old, i) => (i === chamber ? level : old)) });
  };
  return (
    <table className="simple array">
      <caption>
        Kept: the chamber stays at the top master’s cut (TMK), free for a later level. Depths in the order in
        which they are used.
      </caption>
      <thead>
        <tr>
          <th scope="col">Ch</th>
          <th scope="col">TMK</th>
          <th scope="col">Depths in order</th>
          <th scope="col">Level</th>
        </tr>
      </thead>
      <tbody>
        {shown.depths.map((depths, i) => (
          <tr key={i}>
            <th scope="row">{i + 1}</th>
            <td className="code">{shown.topMaster[i]}</td>
            <td>
              {fixed ? (
                <span className="code">{depths || 'none'}</span>
              ) : (
                <Input
                  size="small"
                  aria-label={`Depths of chamber ${i + 1}, in order`}
                  value={depths}
                  onChange={(_, { value }) => onChange(withDepths(form, spec, shown, figures, i, value))}
                />
              )}
            </td>
            <td>
              {fixed ? (
                deal && levelWord(deal[i]!)
              ) : (
                <Select
                  size="small"
                  aria-label={`Level of chamber ${i + 1}`}
                  disabled={!deal}
                  value={deal?.[i] ?? ''}
                  onChange={(_, { value }) => change(i, value as Deal[number])}
                >
                  {!deal && <option value="">…</option>}
                  {[...levelsDealt(form.levels), 'constant' as const].map((level) => (
                    <option key={level} value={level}>
                      {levelWord(level)}
                    </option>
                  ))}
                </Select>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
