/** What the first screen says of the ledger: to which day it goes, and what is wrong in it. */
import { formatDay, type Day } from '../../src/keying/calendar.ts';
import type { BookSummary, Standing } from '../../src/workbook/index.ts';
import type { FaultLine } from '../shared/FaultList.tsx';
import { ledgerLines } from './LedgerTrouble.tsx';

export interface LedgerSummary {
  /** "ledger to 2026-03-06"; left out where there is no row yet. */
  readonly words?: string;
  readonly lines: readonly FaultLine[];
}

/** @example ledgerSummary(standing).words → 'ledger to 2026-03-06' */
export function ledgerSummary(standing: Standing): LedgerSummary {
  const days = standing.ledger.entries.map((entry) => entry.day);
  const last = days.reduce<Day | undefined>((a, b) => (a === undefined || b > a ? b : a), undefined);
  return {
    ...(last !== undefined && { words: `ledger to ${formatDay(last)}` }),
    lines: ledgerLines(standing),
  };
}

/** The workbook's counts with those of the ledger. */
export const withLedger = (summary: BookSummary, { lines }: LedgerSummary): BookSummary => ({
  ...summary,
  faults: summary.faults + lines.filter((line) => line.severity === 'fault').length,
  warnings: summary.warnings + lines.filter((line) => line.severity === 'warning').length,
});
