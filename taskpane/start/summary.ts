/** What the workbook holds and what is wrong with it, as the first screen says it. */
import type { BookSummary } from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';

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

/** @example troubleSentence(summary) → '3 faults and 1 warning in Keyrow’s sheets.'; undefined when all is well */
export function troubleSentence({ faults, warnings }: BookSummary): string | undefined {
  const parts = [
    ...(faults > 0 ? [counted(faults, 'fault')] : []),
    ...(warnings > 0 ? [counted(warnings, 'warning')] : []),
  ];
  return parts.length > 0 ? `${parts.join(' and ')} in what was read.` : undefined;
}
