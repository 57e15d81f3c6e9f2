/** The verdict of an audit: counts, the grid with its faults, and each finding with its cell. */
import { useMemo } from 'react';
import type { AuditReport } from '../../src/keying/audit.ts';
import type { AuditInput } from '../../src/keying/auditInput.ts';
import { severityOf } from '../../src/keying/findings.ts';
import { findingIn } from '../../src/keying/shownIn.ts';
import { say } from '../../src/keying/wording.ts';
import { placesOf, type SystemAudit, type SystemReading } from '../../src/workbook/index.ts';
import { GridPicture } from '../pictures/GridPicture.tsx';
import { grouped } from '../pictures/numbers.ts';
import { useShownUnit } from '../pictures/shownUnit.ts';
import { WhyOpens } from '../pictures/WhyOpens.tsx';
import { Cautions } from '../shared/Caution.tsx';
import { FaultList, type FaultLine } from '../shared/FaultList.tsx';
import { Notice } from '../shared/Notice.tsx';
import { AuditChanges, type SinceLast } from './AuditChanges.tsx';
import { gridOf } from './gridOf.ts';
import { auditCounts, auditSentence, partSentence } from './words.ts';

interface Props {
  readonly system: SystemReading;
  readonly audit: SystemAudit;
  readonly order: AuditInput;
  readonly report: AuditReport;
  /** What changed since the last audit of this system; undefined at the first. */
  readonly since: SinceLast | undefined;
}

export function AuditResult({ system, audit, order, report, since }: Props) {
  const counts = auditCounts(report);
  const part = partSentence(report);
  const faults = counts.some((c) => c.severity === 'fault');
  const data = useMemo(() => gridOf(order, audit, report.cylinders), [order, audit, report]);
  const unit = useShownUnit();
  const fresh = since?.change.findings?.fresh;
  const lines = useMemo(() => {
    // a list in which all is new would say the word at each
    const news = new Set(fresh && fresh.length < report.findings.length ? fresh : []);
    return report.findings
      .map((finding, i): FaultLine => {
        const at = placesOf(system, finding)[0];
        return {
          severity: severityOf(finding),
          sentence: (news.has(i) ? 'New. ' : '') + say(findingIn(finding, unit)),
          ...(at ? { at } : {}),
        };
      })
      .sort((a, b) => Number(a.severity !== 'fault') - Number(b.severity !== 'fault'));
  }, [fresh, report, system, unit]);
  const incidental = report.perCylinder.reduce((most, c) => Math.max(most, c.incidental), 0);
  return (
    <>
      {part !== undefined && <Notice kind="warning">{part}</Notice>}
      <Notice
        kind={faults ? 'error' : counts.length > 0 ? 'warning' : part === undefined ? 'success' : 'info'}
      >
        {part !== undefined && 'So far: '}
        {auditSentence(report)}
      </Notice>
      {counts.length === 0 && part === undefined && report.cylinders > 0 && (
        <p>Every key opens what it should and nothing else, with no near miss and no pin too thin.</p>
      )}
      {counts.length > 0 && (
        <ul className="figures" aria-label="Findings by kind">
          {counts.map(({ code, words, count }) => (
            <li key={code}>
              <strong>{grouped(count)}</strong> <span>{words.replace(/^[\d,]+ /, '')}</span>
            </li>
          ))}
        </ul>
      )}
      {since && <AuditChanges since={since} />}
      <GridPicture
        data={data}
        why={(row, column) => {
          const key = audit.system.keys[data.columns[column]!]!;
          return (
            <WhyOpens
              spec={order.spec}
              symbol={key.symbol}
              bitting={key.bitting}
              cylinder={audit.system.cylinders[row]!}
              state={data.stateOf(row, column)}
              {...(key.cuts === undefined ? {} : { cutsOnBlank: key.cuts })}
            />
          );
        }}
      />
      {incidental > 0 && (
        <p className="lead">
          The price of master keying: up to {grouped(incidental)} further bittings, given to nobody, turn one
          cylinder.
        </p>
      )}
      {lines.length > 0 && (
        <>
          <h2>One by one</h2>
          {!report.complete && part === undefined && (
            <p className="lead">
              The counts above are complete; the list holds the first thousand of each kind.
            </p>
          )}
          {!report.complete && part !== undefined && (
            <p className="lead">The list holds the first thousand of each kind.</p>
          )}
          <FaultList label="Findings" lines={lines} />
        </>
      )}
      <Cautions about={['master-keyed']} spec={order.spec} />
    </>
  );
}
