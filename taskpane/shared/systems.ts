/** The system that a screen is about. */
import { useMemo } from 'react';
import {
  auditInput,
  type BookReading,
  type SystemAudit,
  type SystemReading,
} from '../../src/workbook/index.ts';

/** The one of that name; the workbook's first where none is chosen yet, or it has gone. */
export const chosenSystem = (systems: readonly SystemReading[], name: string): SystemReading | undefined =>
  systems.find((system) => system.name === name) ?? systems[0];

/** What the audit reads of a system, worked out when the workbook or the choice changes. */
export function useAuditInput(
  book: BookReading | undefined,
  system: SystemReading | undefined,
): SystemAudit | undefined {
  return useMemo(() => (book && system ? auditInput(book, system.name) : undefined), [book, system]);
}
