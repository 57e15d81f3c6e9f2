/** Spellings on offer, cell by cell: what stands there, what it would become. None is made unless it is ticked. */
import { Button, Checkbox } from '@fluentui/react-components';
import { useState } from 'react';
import type { UntidyWhy } from '../../src/keying/scheduleFindings.ts';
import type { ChosenFix, Place } from '../../src/workbook/index.ts';
import { GoTo } from '../shared/FaultList.tsx';

export interface OfferedFix {
  readonly fix: ChosenFix;
  readonly at: Place;
  readonly why: UntidyWhy;
}

const WHY: Readonly<Record<UntidyWhy, string>> = {
  case: 'small letters',
  spaces: 'stray spaces',
  'look-alike': 'a character that only looks right',
};

/** Blanks are what one can't see. */
export const shownBlanks = (text: string): string => text.replace(/[\s\u00A0]/g, '␣');

const PART = 30;

interface Props {
  readonly fixes: readonly OfferedFix[];
  readonly left: ReadonlySet<string>;
  readonly onChange: (left: ReadonlySet<string>) => void;
}

export function FixList({ fixes, left, onChange }: Props) {
  const [shown, setShown] = useState(PART);
  const toggle = (address: string, checked: boolean): void => {
    const next = new Set(left);
    if (checked) next.delete(address);
    else next.add(address);
    onChange(next);
  };
  return (
    <>
      <ul className="plain faults" aria-label="Spellings offered">
        {fixes.slice(0, shown).map(({ fix, at, why }) => (
          <li key={at.address}>
            <div className="what">
              <Checkbox
                checked={!left.has(at.address)}
                label={
                  <>
                    <strong>{at.address}: </strong>
                    <span className="code">{shownBlanks(fix.from)}</span> →{' '}
                    <span className="code">{fix.to}</span> ({WHY[why]})
                  </>
                }
                onChange={(_, { checked }) => toggle(at.address, checked === true)}
              />
              <div className="ways under-checkbox">
                <GoTo at={at} />
              </div>
            </div>
          </li>
        ))}
      </ul>
      {fixes.length > shown && (
        <Button onClick={() => setShown(shown + PART)}>Show more of {fixes.length - shown}</Button>
      )}
    </>
  );
}
