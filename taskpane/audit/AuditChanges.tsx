/** What is new, gone and as before since the last audit of the same system. */
import type { AuditChange } from '../../src/keying/auditNotes.ts';
import { counted, grouped } from '../pictures/numbers.ts';
import { Fold } from '../shared/Fold.tsx';
import { sayCount, sayGone, sayMetal, sayNames } from './changeWords.ts';

/** The audit before, and what of it is other now. */
export interface SinceLast {
  readonly made: string;
  readonly change: AuditChange;
  /** Told from two readings of this pane; undefined where the audit before was in another. */
  readonly metal?: { readonly recut: readonly string[]; readonly repinned: readonly string[] } | undefined;
  /** Names that look like a bitting, of which nothing is remembered. */
  readonly withheld: number;
}

/** More of them would be a list to read. */
const MOST_GONE = 50;

export function AuditChanges({ since }: { readonly since: SinceLast }) {
  const { made, change, metal, withheld } = since;
  const { findings, counts } = change;
  const lines = [
    ...(change.keys ? sayNames('key', change.keys) : []),
    ...(change.cylinders ? sayNames('cylinder', change.cylinders) : []),
    ...(metal ? sayMetal(metal) : []),
  ];
  const whole = findings !== undefined && change.keys !== undefined;
  const moved = findings ? findings.fresh.length + findings.gone.length > 0 : counts.length > 0;
  return (
    <section aria-label="Since the last audit">
      <h2>Since the audit of {made}</h2>
      {!moved && lines.length === 0 ? (
        <p>
          {whole
            ? 'Nothing has changed: the same findings, keys and cylinders.'
            : 'The numbers are the same.'}
        </p>
      ) : (
        <ul className="plain">
          {findings && (
            <li>
              Findings: {grouped(findings.fresh.length)} new, {grouped(findings.gone.length)} gone,{' '}
              {grouped(findings.same)} as before.
            </li>
          )}
          {!findings && counts.map((count) => <li key={count.code}>{sayCount(count)}</li>)}
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      {findings && findings.gone.length > 0 && (
        <Fold label={`Gone since then: ${counted(findings.gone.length, 'finding')}`}>
          <ul className="plain">
            {findings.gone.slice(0, MOST_GONE).map((note, i) => (
              <li key={i}>{sayGone(note)}</li>
            ))}
          </ul>
          {findings.gone.length > MOST_GONE && <p>And {grouped(findings.gone.length - MOST_GONE)} more.</p>}
        </Fold>
      )}
      {!metal && (
        <p className="lead">
          New bittings and pins can be told only between audits in one sitting: the workbook’s settings hold
          no bitting to compare with.
        </p>
      )}
      {!whole && <p className="lead">This system is too large to remember by name; numbers are compared.</p>}
      {withheld > 0 && (
        <p className="lead">
          {counted(withheld, 'name')} {withheld === 1 ? 'looks' : 'look'} like a bitting, so nothing is
          remembered of {withheld === 1 ? 'it' : 'them'}.
        </p>
      )}
    </section>
  );
}
