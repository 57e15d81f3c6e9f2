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
      <ul className="plain changes">
        {changes.map(({ at, what, from, to }) => (
          <li key={formatPlace(at)}>
            <strong>{what}</strong>
            <span>
              <span className="code">{from || 'blank'}</span> <span aria-hidden>→</span>
              <span className="unseen">becomes</span> <span className="code">{to || 'blank'}</span>
            </span>
            <GoTo at={at} short />
          </li>
        ))}
      </ul>
    </section>
  );
}
