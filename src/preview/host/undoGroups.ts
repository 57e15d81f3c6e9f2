/**
 * `Excel.run({ mergeUndoGroup: true }, …)` for a runtime that doesn't know the option yet: wraps `run` and tells the
 * host where the group begins and ends.
 */
import type { Host } from './host.ts';

/** The part of the `Excel` namespace that is wrapped. */
export interface Runner {
  run: (...args: never[]) => Promise<unknown>;
}

export function followUndoGroups(excel: Runner, host: () => Host | null): void {
  const original = excel.run as (...args: unknown[]) => Promise<unknown>;
  const run = async (...args: unknown[]): Promise<unknown> => {
    const target = asksForGroup(args[0]) ? host() : null;
    target?.beginUndoGroup();
    try {
      return await original(...args);
    } finally {
      target?.endUndoGroup();
    }
  };
  excel.run = run;
}

function asksForGroup(options: unknown): boolean {
  return (
    typeof options === 'object' &&
    options !== null &&
    'mergeUndoGroup' in options &&
    options.mergeUndoGroup === true
  );
}
