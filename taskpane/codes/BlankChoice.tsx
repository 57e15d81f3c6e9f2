/** The blank for rows of a list that name none: one of the shop's, with its equivalents, or a name of its own. */
import { Field, Input, Select } from '@fluentui/react-components';
import { useState } from 'react';
import { equivalentsOf, type ShopBlank } from '../../src/keying/shop.ts';
import { positions, type Specification } from '../../src/keying/specification.ts';
import { foldName } from '../../src/keying/specTable.ts';
import { counted, listed } from '../pictures/numbers.ts';

interface Props {
  readonly spec: Specification;
  readonly blanks: readonly ShopBlank[];
  readonly value: string;
  readonly onChange: (blank: string) => void;
}

const LABEL = 'Blank for rows that name none';
const OTHER = '\0other';

export function BlankChoice({ spec, blanks, value, onChange }: Props) {
  const chosen = blanks.find((blank) => foldName(blank.name) === foldName(value));
  const [other, setOther] = useState(value !== '' && !chosen);
  if (blanks.length === 0)
    return (
      <Field label={LABEL} hint="Any name of your own; left empty where it isn’t known.">
        <Input value={value} onChange={(_, data) => onChange(data.value)} />
      </Field>
    );
  const lacks = (blank: ShopBlank): number => Math.max(0, positions(spec) - (blank.cuts ?? positions(spec)));
  const choose = (name: string): void => {
    setOther(name === OTHER);
    onChange(name === OTHER ? '' : name);
  };
  return (
    <>
      <Field label={LABEL} hint={chosen && !other ? hintOf(chosen, blanks, lacks(chosen)) : ''}>
        <Select value={other ? OTHER : (chosen?.name ?? '')} onChange={(_, data) => choose(data.value)}>
          <option value="">not known yet</option>
          {blanks.map((blank) => (
            <option key={blank.name} value={blank.name}>
              {blank.name}
              {lacks(blank) > 0 ? `, ${counted(lacks(blank), 'cut')} too short` : ''}
            </option>
          ))}
          <option value={OTHER}>another one</option>
        </Select>
      </Field>
      {other && (
        <Field label="Name of the other blank">
          <Input value={value} onChange={(_, data) => onChange(data.value)} />
        </Field>
      )}
    </>
  );
}

/** @example 'Enters K1, K2. Instead: B1-brass.' */
function hintOf(blank: ShopBlank, blanks: readonly ShopBlank[], lacks: number): string {
  const instead = equivalentsOf(blank.name, blanks);
  return [
    lacks > 0 ? `Has room for ${blank.cuts} cuts; this spec has ${(blank.cuts ?? 0) + lacks}.` : '',
    blank.keyways.length > 0 ? `Enters ${listed(blank.keyways)}.` : '',
    instead.length > 0 ? `Instead: ${listed(instead)}.` : '',
  ]
    .filter(Boolean)
    .join(' ');
}
