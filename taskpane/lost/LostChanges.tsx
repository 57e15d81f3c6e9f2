/** Old beside new for every key and cylinder of the plan, door by door. */
import { Button } from '@fluentui/react-components';
import { useState } from 'react';
import type { LostKeyChanges } from '../../src/workbook/index.ts';
import { counted, grouped } from '../pictures/numbers.ts';
import { Fold } from '../shared/Fold.tsx';

const PART = 25;

export function LostChanges({ changes }: { readonly changes: LostKeyChanges }) {
  const [shown, setShown] = useState(PART);
  const { keys, cylinders } = changes;
  return (
    <>
      <Fold label={`New bittings: ${counted(keys.length, 'key')}`} open>
        <ul className="plain faults" aria-label="New bittings">
          {keys.map(({ symbol, from, to }) => (
            <li key={symbol}>
              <div className="what">
                <strong>{symbol}</strong>: <span className="code">{from}</span> →{' '}
                <span className="code">{to}</span>
              </div>
            </li>
          ))}
        </ul>
      </Fold>
      <Fold label={`New pinning: ${counted(cylinders.length, 'cylinder')}`}>
        <ul className="plain faults" aria-label="New pinning">
          {cylinders.slice(0, shown).map(({ door, cylinder, symbol, chambers }) => (
            <li key={cylinder}>
              <div className="what">
                <strong>{door}</strong>
                {cylinder !== door && ` (cylinder ${cylinder})`}, {symbol}:{' '}
                {chambers.length === 0
                  ? 'stays as it is'
                  : chambers.map(({ chamber, from, to }, i) => (
                      <span key={chamber}>
                        {i > 0 && '; '}
                        chamber {chamber} <span className="code">{from || '(empty)'}</span> →{' '}
                        <span className="code">{to || '(empty)'}</span>
                      </span>
                    ))}
              </div>
            </li>
          ))}
        </ul>
        {cylinders.length > shown && (
          <Button onClick={() => setShown(shown + PART)}>
            Show {Math.min(PART, cylinders.length - shown)} more of {grouped(cylinders.length - shown)}
          </Button>
        )}
      </Fold>
    </>
  );
}
