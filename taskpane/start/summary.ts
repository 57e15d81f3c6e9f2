/** What the workbook holds and what is wrong with it, as the first screen says it. */
import type { BookSummary } from '../../src/workbook/index.ts';
import { counted, listed } from '../pictures/numbers.ts';

/** @example holdsSentence(summary) → '2 specs · 148 keys · 60 cylinders' */
export function holdsSentence({ specs, systems, keys, cylinders }: BookSummary): string | undefined {
  const parts = [
    ...(specs > 0 ? [counted(specs, 'spec')] : []),
    ...(systems > 0 ? [counted(systems, 'system')] : []),
    ...(keys > 0 ? [counted(keys, 'key')] : []),
    ...(cylinders > 0 ? [counted(cylinders, 'cylinder')] : []),
  ];
  return parts.length > 0 ? parts.join(' · ') : undefined;
}

/** Sheets with a problem, each once, in the order of the problems. */
export const sheetsIn = (problems: readonly { readonly sheet: string }[]): string[] => [
  ...new Set(problems.map((problem) => problem.sheet)),
];

/** @example troubleSentence(summary, ['Keys']) → '3 faults and 1 warning in Keys.'; undefined when all is well */
export function troubleSentence(
  { faults, warnings }: BookSummary,
  sheets: readonly string[] = [],
): string | undefined {
  const parts = [
    ...(faults > 0 ? [counted(faults, 'fault')] : []),
    ...(warnings > 0 ? [counted(warnings, 'warning')] : []),
  ];
  if (parts.length === 0) return undefined;
  const where = sheets.length === 0 || sheets.length > 3 ? 'what was read' : listed(sheets);
  return `${parts.join(' and ')} in ${where}.`;
}
