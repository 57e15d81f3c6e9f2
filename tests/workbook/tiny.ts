/** Plans of a step or two, so that a test of how they are carried out takes milliseconds. */
import type { ApplyOutcome, Box, PlanStep, WriteBlock, WritePlan } from '../../src/workbook/index.ts';

export const block = (cells: WriteBlock['cells'], more: Partial<WriteBlock> = {}): WriteBlock => ({
  kind: 'write',
  sheet: 'Sheet1',
  row: 0,
  column: 0,
  cells,
  formats: cells[0]!.map(() => 'text'),
  expected: 'empty',
  ...more,
});
export const tiny = (...steps: readonly PlanStep[]): WritePlan => ({
  title: 'Tiny',
  steps,
  effects: [],
  conflicts: [],
});
/** A PNG of so many pixels by 3: only the size in the head matters here (PNG 3rd edition, 11.2.1). */
export const png = (width: number): string =>
  btoa(
    '\x89PNG\r\n\x1a\n' +
      '\0\0\0\x0dIHDR' +
      `\0\0\0${String.fromCharCode(width)}\0\0\0\x03` +
      '\x08\x02\0\0\0',
  );
export const reasons = (outcome: ApplyOutcome): string[] =>
  outcome.outcome === 'refused' ? outcome.reasons.map(({ sentence }) => sentence) : [outcome.outcome];
export const box = (row: number, column: number, rows: number, columns: number, sheet = 'Sheet1'): Box => ({
  sheet,
  row,
  column,
  rows,
  columns,
});
