/** Cells that are there already and would change: what each holds now and what it would hold. */
import { formatPlace, type NamedChange } from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';
import { GoTo } from './FaultList.tsx';

interface Props {
  readonly changes: readonly NamedChange[];
}

export function ChangeList({ changes }: Props) {
  if (changes.length === 0) return null;
  return (
    <section aria-label="Cells that change">
      <h2>{counted(changes.length, 'cell')} that stand already change</h2>
      <ul className="plain faults">
        {changes.map(({ at, what, from, to }) => (
          <li key={formatPlace(at)}>
            <div className="what">
              <strong>{what}</strong> ({formatPlace(at)}): <span className="code">{from || 'blank'}</span>{' '}
              becomes <span className="code">{to || 'blank'}</span>
              <div className="ways">
                <GoTo at={at} />
              </div>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}
