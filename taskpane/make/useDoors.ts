/**
 * Doors from the shop's own sheet: its columns are guessed by their headings, shown, and corrected by the user. The
 * mapping is kept in the workbook's settings; the sheet itself is only read.
 */
import { useCallback, useEffect, useState } from 'react';
import { headingsOf } from '../../src/keying/scheduleColumns.ts';
import {
  readSchedule,
  readSettings,
  writeSettings,
  type Problem,
  type ScheduleColumns,
  type ScheduleGuess,
  type ScheduleRow,
} from '../../src/workbook/index.ts';
import { useNavigation } from '../shared/navigation.tsx';

export interface DoorsRead {
  readonly guess: ScheduleGuess;
  readonly rows: readonly ScheduleRow[];
  readonly problems: readonly Problem[];
}

export type DoorsState =
  | { readonly step: 'none' }
  | { readonly step: 'reading' }
  | { readonly step: 'failed'; readonly sentence: string }
  | { readonly step: 'read'; readonly doors: DoorsRead };

export interface Doors {
  readonly state: DoorsState;
  readonly read: (sheet: string, columns?: ScheduleColumns) => Promise<void>;
  readonly forget: () => void;
}

/** The draft by which another screen names the sheet to read at once. */
export const MAKE_DOORS = 'make.doors';

export function useDoors(): Doors {
  const { drafts } = useNavigation();
  const [state, setState] = useState<DoorsState>({ step: 'none' });
  const read = useCallback(async (sheet: string, columns?: ScheduleColumns) => {
    setState({ step: 'reading' });
    const settings = await readSettings();
    const kept = settings.schedule?.sheet === sheet ? settings.schedule : undefined;
    const known = kept?.headings ? { columns: kept.columns, headings: kept.headings } : kept?.columns;
    const schedule = await readSchedule(sheet, columns ?? known);
    if (!schedule.ok) return setState({ step: 'failed', sentence: schedule.error.sentence });
    const { headers } = schedule.value.guess;
    if (columns)
      await writeSettings({
        ...settings,
        schedule: { sheet, columns, headings: headingsOf(columns, headers) },
      });
    setState({ step: 'read', doors: schedule.value });
  }, []);
  useEffect(() => {
    const sheet = drafts.get(MAKE_DOORS);
    drafts.delete(MAKE_DOORS);
    if (typeof sheet === 'string') void Promise.resolve().then(() => read(sheet));
  }, [drafts, read]);
  const forget = useCallback(() => setState({ step: 'none' }), []);
  return { state, read, forget };
}
