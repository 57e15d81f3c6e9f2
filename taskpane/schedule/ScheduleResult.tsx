/** What the check of a schedule found: the verdict, spellings on offer, each finding with its cell, local codes. */
import { useMemo } from 'react';
import type { ScheduleFinding } from '../../src/keying/scheduleFindings.ts';
import {
  scheduleFindingLines,
  type ScheduleFindingLine,
  type ScheduleReading,
  type SystemReading,
} from '../../src/workbook/index.ts';
import { counted, grouped } from '../pictures/numbers.ts';
import { Cautions } from '../shared/Caution.tsx';
import { FaultList } from '../shared/FaultList.tsx';
import { Fold } from '../shared/Fold.tsx';
import { Notice } from '../shared/Notice.tsx';
import { FixList, type OfferedFix } from './FixList.tsx';

interface Props {
  readonly reading: ScheduleReading;
  readonly findings: readonly ScheduleFinding[];
  readonly system: SystemReading | undefined;
  readonly left: ReadonlySet<string>;
  readonly onLeft: (left: ReadonlySet<string>) => void;
}

/** The spellings among the findings. */
export function offeredFixes(lines: readonly ScheduleFindingLine[]): OfferedFix[] {
  return lines.flatMap(({ finding, at }) =>
    finding.code === 'symbol-untidy' && at
      ? [{ at, why: finding.why, fix: { row: finding.row, role: finding.role, ...finding.fix } }]
      : [],
  );
}

/** @example '2 faults and 4 warnings in 60 rows.' */
export function verdict(lines: readonly ScheduleFindingLine[], rows: number): string {
  const faults = lines.filter((l) => l.severity === 'fault').length;
  const warnings = lines.filter((l) => l.severity === 'warning').length;
  if (faults + warnings === 0) return `Nothing wrong in ${counted(rows, 'row')}.`;
  const parts = [
    ...(faults > 0 ? [counted(faults, 'fault')] : []),
    ...(warnings > 0 ? [counted(warnings, 'warning')] : []),
  ];
  return `${parts.join(' and ')} in ${counted(rows, 'row')}.`;
}

export function ScheduleResult({ reading, findings, system, left, onLeft }: Props) {
  const lines = useMemo(() => scheduleFindingLines(reading, findings, system), [reading, findings, system]);
  const fixes = useMemo(() => offeredFixes(lines), [lines]);
  const codes = lines.filter((l) => l.finding.code === 'caution');
  const others = lines.filter((l) => l.finding.code !== 'caution' && l.finding.code !== 'symbol-untidy');
  const faults = lines.some((l) => l.severity === 'fault');
  const { lines: rows } = reading.schedule;
  const keysets = new Set(rows.map((l) => l.symbol.trim().toUpperCase()).filter((s) => s !== ''));
  const cylinders = rows.reduce((sum, l) => sum + l.quantity, 0);
  return (
    <>
      <Notice kind={faults ? 'error' : lines.some((l) => l.severity === 'warning') ? 'warning' : 'success'}>
        {verdict(lines, rows.length)}
      </Notice>
      <ul className="figures" aria-label="Totals">
        <li>
          <strong>{grouped(rows.length)}</strong> <span>door rows</span>
        </li>
        <li>
          <strong>{grouped(cylinders)}</strong> <span>cylinders</span>
        </li>
        <li>
          <strong>{grouped(keysets.size)}</strong> <span>keysets</span>
        </li>
      </ul>
      {!system && (
        <p className="lead">
          This workbook holds no keys yet, so the keysets were only checked by the key coding and against each
          other.
        </p>
      )}
      {system && rows.length > 0 && keysets.size === 0 && (
        <Notice kind="warning">
          No row has a keyset, so nothing was checked against the keys. Is the keyset’s column missing?
        </Notice>
      )}
      {reading.sheet.filtered && (
        <Notice kind="info">
          A filter hides rows of this sheet. They were read and checked all the same.
        </Notice>
      )}
      {fixes.length > 0 && (
        <>
          <h2>Better spellings on offer</h2>
          <FixList fixes={fixes} left={left} onChange={onLeft} />
        </>
      )}
      {others.length > 0 && (
        <>
          <h2>One by one</h2>
          <FaultList label="Findings" lines={others} />
        </>
      )}
      {codes.length > 0 && (
        <>
          <h2>Under local codes</h2>
          <Cautions about={['exit-doors']} />
          <Fold label={`${counted(codes.length, 'remark')} on exit, fire and accessible doors`}>
            <FaultList label="Doors under local codes" lines={codes} />
          </Fold>
        </>
      )}
    </>
  );
}
