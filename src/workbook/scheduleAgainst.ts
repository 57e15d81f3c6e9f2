/** What a schedule is checked against: the keys and cylinders of one system, with the cells that they stand in. */
import type { ScheduleAgainst, ScheduleKey } from '../keying/scheduleCheck.ts';
import { scheduleSeverity, type ScheduleFinding } from '../keying/scheduleFindings.ts';
import { sayScheduleFinding } from '../keying/scheduleWording.ts';
import { systemNamed } from './find.ts';
import type { Place } from './places.ts';
import type { BookReading, SystemReading } from './reading.ts';
import { scheduleCell, type ScheduleReading } from './schedule.ts';

/** Nothing to check against where there is no such system. */
export function againstOf(book: BookReading, name: string): ScheduleAgainst {
  const system = systemNamed(book, name);
  return {
    keys: (system?.keys ?? []).map(({ symbol, level, status, copies }): ScheduleKey => ({
      symbol,
      level,
      status,
      copies,
    })),
    cylinders: (system?.cylinders ?? []).map((cylinder) => cylinder.symbol),
  };
}

export interface ScheduleFindingLine {
  readonly finding: ScheduleFinding;
  readonly severity: 'fault' | 'warning' | 'note';
  readonly sentence: string;
  /** Left out where the finding is of the schedule as a whole. */
  readonly at?: Place;
}

/** Findings with their words and cells; faults first, else in the order found. */
export function scheduleFindingLines(
  reading: ScheduleReading,
  findings: readonly ScheduleFinding[],
  system?: SystemReading,
): ScheduleFindingLine[] {
  const rank = { fault: 0, warning: 1, note: 2 };
  return findings
    .map((finding): ScheduleFindingLine => {
      const at =
        'row' in finding
          ? scheduleCell(reading.sheet.box, reading.guess.columns, finding.row, finding.role)
          : finding.code === 'key-without-door'
            ? system?.keys[finding.key]?.at.symbol
            : undefined;
      return {
        finding,
        severity: scheduleSeverity(finding),
        sentence: sayScheduleFinding(finding),
        ...(at && { at }),
      };
    })
    .sort((a, b) => rank[a.severity] - rank[b.severity]);
}
