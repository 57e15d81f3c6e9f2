/** What will be ordered, before it is written: cylinders by kind, keys by symbol, and who signs for duplicates. */
import { Button, Field, Input } from '@fluentui/react-components';
import { useState } from 'react';
import { ORDER_ROLES, type ScheduleTotals } from '../../src/keying/scheduleTotals.ts';
import { ROLE_NAMES } from '../../src/keying/scheduleWords.ts';
import { authorisedSentence, type Authorised } from '../../src/workbook/index.ts';
import { counted, grouped } from '../pictures/numbers.ts';
import { Notice } from '../shared/Notice.tsx';

const PART = 40;

interface Props {
  readonly totals: ScheduleTotals;
  /** '' where there is no system. */
  readonly system: string;
  readonly people: readonly Authorised[];
  readonly onRecord: (person: {
    readonly name: string;
    readonly role: string;
    readonly blank: string;
  }) => void;
}

export function OrderView({ totals, system, people, onRecord }: Props) {
  const [shown, setShown] = useState(PART);
  const unknown = totals.keys.filter((key) => key.copies === undefined);
  const unkeyed = totals.cylinders.filter((c) => c.symbol === '').reduce((sum, c) => sum + c.quantity, 0);
  const kinds = ORDER_ROLES.filter((role) => totals.cylinders.some((c) => c.text[role] !== ''));
  return (
    <>
      <ul className="figures" aria-label="Totals">
        <li>
          <strong>{grouped(totals.cylinderCount)}</strong> <span>cylinders</span>
        </li>
        <li>
          <strong>{grouped(totals.keyCount)}</strong> <span>keys</span>
        </li>
      </ul>
      {unkeyed > 0 && (
        <Notice kind="warning">
          {counted(unkeyed, 'cylinder')} of them without a keyset yet: listed as such.
        </Notice>
      )}
      {unknown.length > 0 && (
        <Notice kind="warning">
          For {counted(unknown.length, 'key')} no number of copies is recorded. Fill in “Copies” in the sheet
          Keys, or the order leaves the number open.
        </Notice>
      )}
      {kinds.length < ORDER_ROLES.length && (
        <p className="lead">
          Not in the schedule:{' '}
          {ORDER_ROLES.filter((role) => !kinds.includes(role))
            .map((role) => ROLE_NAMES[role].toLowerCase())
            .join(', ')}
          .
        </p>
      )}
      {system && <Signing people={people} system={system} onRecord={onRecord} />}
      <table className="simple">
        <caption>Cylinders by kind and keyset</caption>
        <thead>
          <tr>
            <th scope="col">Kind and keyset</th>
            <th scope="col" className="numbers">
              Pieces
            </th>
          </tr>
        </thead>
        <tbody>
          {totals.cylinders.slice(0, shown).map(({ text, symbol, quantity }, i) => (
            <tr key={i}>
              <td>
                <strong>{symbol || 'not keyed yet'}</strong>
                {kinds.length > 0 &&
                  ` ${kinds
                    .map((role) => text[role])
                    .filter(Boolean)
                    .join(', ')}`}
              </td>
              <td className="numbers">{grouped(quantity)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {totals.cylinders.length > shown && (
        <Button onClick={() => setShown(shown + PART)}>
          Show more of {grouped(totals.cylinders.length - shown)}
        </Button>
      )}
    </>
  );
}

interface SigningProps {
  readonly people: readonly Authorised[];
  readonly system: string;
  readonly onRecord: Props['onRecord'];
}

/** Nobody recorded: asked for here, since this is where keys are ordered. */
function Signing({ people, system, onRecord }: SigningProps) {
  const [name, setName] = useState('');
  const [role, setRole] = useState('');
  const [blank, setBlank] = useState('');
  if (people.some((p) => p.name !== '')) return <p>{authorisedSentence(people)}</p>;
  return (
    <fieldset className="stack switches">
      <legend>Who may sign for duplicates of {system}?</legend>
      <p className="lead">Nobody is recorded. The order says so until somebody is.</p>
      <Field label="Name">
        <Input value={name} onChange={(_, { value }) => setName(value)} />
      </Field>
      <div className="pair">
        <Field label="Function">
          <Input value={role} onChange={(_, { value }) => setRole(value)} />
        </Field>
        <Field label="Restricted blank">
          <Input value={blank} onChange={(_, { value }) => setBlank(value)} />
        </Field>
      </div>
      <div className="ways">
        <Button disabledFocusable={name.trim() === ''} onClick={() => onRecord({ name, role, blank })}>
          Record in Authorised
        </Button>
      </div>
    </fieldset>
  );
}
