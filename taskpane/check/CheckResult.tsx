/** What a check of codes found: the counts, the reasons, the depths in use and each faulty row. */
import { useMemo } from 'react';
import { sayGroups } from '../../src/keying/sayAll.ts';
import { findingIn } from '../../src/keying/shownIn.ts';
import type { Unit } from '../../src/keying/units.ts';
import { severityOf } from '../../src/keying/findings.ts';
import type { Specification } from '../../src/keying/specification.ts';
import type { TargetReading } from '../../src/workbook/index.ts';
import { DepthPicture } from '../pictures/DepthPicture.tsx';
import { useShownUnit } from '../pictures/shownUnit.ts';
import { FaultList, type FaultLine } from '../shared/FaultList.tsx';
import { Notice } from '../shared/Notice.tsx';
import type { CheckReport } from './checkRows.ts';
import { codePlace } from './columns.ts';
import { checkSentence, reasonLine } from './reasons.ts';

/** Faults first, then warnings; each in the order of the rows. */
function faultLines(
  report: CheckReport,
  target: TargetReading,
  column: number,
  unit: Unit | undefined,
): FaultLine[] {
  const lines = report.found.flatMap(({ index, findings }) =>
    sayGroups(findings.map((finding) => findingIn(finding, unit))).map((said) => ({
      severity: severityOf(said.findings[0]!),
      sentence: said.sentence,
      at: codePlace(target, column, index),
    })),
  );
  return [...lines.filter((l) => l.severity === 'fault'), ...lines.filter((l) => l.severity !== 'fault')];
}

interface Props {
  readonly spec: Specification;
  readonly report: CheckReport;
  readonly target: TargetReading;
  readonly column: number;
}

export function CheckResult({ spec, report, target, column }: Props) {
  const unit = useShownUnit();
  const lines = useMemo(() => faultLines(report, target, column, unit), [column, report, target, unit]);
  if (report.codes === 0)
    return (
      <Notice kind="info">These cells are all empty. Choose another column, or select the codes.</Notice>
    );
  return (
    <>
      <Notice kind={report.faulty > 0 ? 'error' : report.warned > 0 ? 'warning' : 'success'}>
        {checkSentence(report)}
      </Notice>
      {report.reasons.length > 0 && (
        <ul className="plain" aria-label="Reasons">
          {report.reasons.map((reason) => (
            <li key={reason.code}>{reasonLine(reason)}</li>
          ))}
        </ul>
      )}
      {report.bittings.length > 0 && <DepthPicture spec={spec} bittings={report.bittings} />}
      {lines.length > 0 && (
        <>
          <h2>Row by row</h2>
          <FaultList label="Rows with a finding" lines={lines} />
        </>
      )}
    </>
  );
}
