/** What new keys and cylinders are made of, folded away: most workbooks have one keyway and no cores. */
import type { ReactNode } from 'react';
import type { ShopBlank } from '../../src/keying/shop.ts';
import type { Specification } from '../../src/keying/specification.ts';
import type { MetalWish } from '../../src/workbook/index.ts';
import { Fold } from '../shared/Fold.tsx';
import { TextField } from '../shared/TextField.tsx';

interface Props {
  readonly spec: Specification;
  readonly blanks: readonly ShopBlank[];
  readonly wish: MetalWish;
  readonly onChange: (wish: MetalWish) => void;
  readonly faults: ReadonlyMap<keyof MetalWish, string>;
  /** The keyway of a system that is extended: taken where nothing is typed. */
  readonly keyway?: string | undefined;
  readonly extending?: boolean;
}

const MOST_NAMES = 6;

export function MetalFields({ spec, blanks, wish, onChange, faults, keyway, extending = false }: Props) {
  const text = (field: keyof MetalWish, label: string, hint: string, placeholder?: string): ReactNode => (
    <TextField
      label={label}
      hint={hint}
      placeholder={placeholder}
      fault={faults.get(field)}
      value={wish[field]}
      onChange={(value) => onChange({ ...wish, [field]: value })}
    />
  );
  const names = blanks.slice(0, MOST_NAMES).map(({ name }) => name);
  return (
    <Fold label="Keyways, blanks, control key" open={faults.size > 0}>
      {text(
        'blank',
        'Keyway or blank',
        `For what the sheet names none for.${names.length > 0 ? ` Your blanks: ${names.join(', ')}${blanks.length > names.length ? ' …' : ''}.` : ''}`,
        keyway,
      )}
      {text('others', 'Other keyways or blanks', 'With their keys and doors: K2: A1, Store; K3: A2.')}
      {(spec.core || wish.control !== '') &&
        text(
          'control',
          'Control key',
          extending ? 'Its cuts. Blank: as the other cores have.' : 'Its cuts. Blank: they are found.',
        )}
      <p className="lead">
        The sheet may say it too: a row Keyway, Blank or Cuts above the keys, columns Keyway, Pins and Control
        beside the cylinders.
      </p>
    </Fold>
  );
}
