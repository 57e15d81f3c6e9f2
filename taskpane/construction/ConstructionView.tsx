/** A construction key before it is written: both states of every cylinder, what leaves, and which keys end it. */
import { Field, Select } from '@fluentui/react-components';
import { useState } from 'react';
import { formatBitting } from '../../src/keying/bitting.ts';
import { formatDepthSet } from '../../src/keying/chamberText.ts';
import type { ConstructionRequest, ConstructionResult } from '../../src/keying/construction.ts';
import type { Chambers } from '../../src/keying/system.ts';
import { leavesWords } from '../../src/workbook/index.ts';
import { counted, listed } from '../pictures/numbers.ts';
import { useShown } from '../pictures/shownUnit.ts';
import { TextTable } from '../pictures/TextTable.tsx';
import { Cautions } from '../shared/Caution.tsx';
import { Fold } from '../shared/Fold.tsx';
import { Notice } from '../shared/Notice.tsx';

interface Props {
  readonly request: ConstructionRequest;
  readonly found: Extract<ConstructionResult, { readonly ok: true }>;
}

const SHOWN = 60;
const MOST_NAMES = 8;

const some = (names: readonly string[]): string =>
  names.length > MOST_NAMES
    ? `${names.slice(0, MOST_NAMES).join(', ')} and ${names.length - MOST_NAMES} more`
    : listed(names);

export function ConstructionView({ request, found }: Props) {
  const { system, symbol, oneWay } = request;
  const { spec } = system;
  const lengths = useShown(spec);
  const { bitting, chambers, cylinders, pairs } = found;
  const [at, setAt] = useState(cylinders[0]!.id);
  const doors = new Map(system.cylinders.map((c) => [c.id, c.door ?? c.id]));
  const shown = cylinders.find(({ id }) => id === at) ?? cylinders[0]!;
  const stay = [...new Set(cylinders.flatMap(({ notBy }) => notBy))];
  const one = chambers.length === 1;
  const loose = oneWay === 'loose-pin';
  return (
    <div className="stack">
      <p>
        <strong>{symbol}</strong> <span className="code">{formatBitting(spec, bitting)}</span>: a further pin
        in {one ? 'chamber' : 'chambers'} {listed(chambers.map(String))} of{' '}
        {counted(cylinders.length, 'cylinder')}. Both states are audited, {counted(pairs, 'pair')} each: only{' '}
        {symbol} comes in before, and nothing of it is left after.
      </p>
      <Field label="Cylinder">
        <Select value={shown.id} onChange={(_, { value }) => setAt(value)}>
          {cylinders.map(({ id }) => (
            <option key={id} value={id}>
              {doors.get(id)}
            </option>
          ))}
        </Select>
      </Field>
      <TextTable
        caption={`Depths at which ${doors.get(shown.id) ?? shown.id} shears, where it changes`}
        columns={['Chamber', 'Until hand-over', 'After, as now', 'What leaves']}
        rows={shown.leaves.map((leaving) => {
          const shears = (chambers: Chambers): string => formatDepthSet(spec, chambers[leaving.chamber - 1]!);
          return [
            String(leaving.chamber),
            shears(shown.before),
            shears(shown.after),
            leavesWords(lengths, leaving),
          ];
        })}
      />
      {loose ? (
        <>
          <p>
            The first use of {some(shown.changedBy)} ends it at {doors.get(shown.id) ?? shown.id}.
          </p>
          {stay.length > 0 && (
            <Notice kind="warning">
              {some(stay)} {stay.length === 1 ? 'turns' : 'turn'} a cylinder without ending it: shallower
              there, {stay.length === 1 ? 'it leaves' : 'they leave'} the loose pin where it is. Turn each
              cylinder once with a key that ends it. A chamber that all keys share, kept at the top master’s
              cut, has no such keys.
            </Notice>
          )}
          <Notice kind="warning">
            This assumes a plug whose pocket takes a loose pin or ball of that size and no master pin, and
            keeps it. Not every cylinder is made so, and makers’ instructions go first: build one, try both
            keys, then pin the rest.
          </Notice>
        </>
      ) : (
        <Notice kind="info">
          Nothing changes by itself: until somebody re-pins or exchanges a cylinder, {symbol} opens it.
        </Notice>
      )}
      <Notice kind="warning">
        One way: {symbol} never works again once its pin is out, and its bitting is retired, not issued again.
        Everybody who holds a copy can come in until then: count the copies, and collect them.
      </Notice>
      <Fold label="All cylinders">
        <TextTable
          caption={
            cylinders.length > SHOWN
              ? `The first ${SHOWN} of ${counted(cylinders.length, 'cylinder')}`
              : counted(cylinders.length, 'cylinder')
          }
          columns={['Door', 'Chamber', 'Before', 'After', ...(loose ? ['Ended by'] : [])]}
          rows={cylinders
            .slice(0, SHOWN)
            .flatMap((cylinder) =>
              cylinder.leaves.map(({ chamber }) => [
                doors.get(cylinder.id) ?? cylinder.id,
                String(chamber),
                formatDepthSet(spec, cylinder.before[chamber - 1]!),
                formatDepthSet(spec, cylinder.after[chamber - 1]!),
                ...(loose ? [some(cylinder.changedBy)] : []),
              ]),
            )}
        />
      </Fold>
      <Cautions about={['secret', 'exit-doors']} />
    </div>
  );
}
