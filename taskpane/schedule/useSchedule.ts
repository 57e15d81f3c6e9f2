/**
 * The shop's schedule as the pane has it: which sheet, which columns, what was read. Confirmed columns are kept in the
 * workbook with their headings, so that the next reading finds them even when the sheet was changed.
 */
import { useCallback, useState } from 'react';
import {
  headersAt,
  headingsOf,
  findSchedule,
  type ScheduleColumns,
} from '../../src/keying/scheduleColumns.ts';
import {
  readSchedule,
  readScheduleSheet,
  readSettings,
  understand,
  writeSettings,
  type ScheduleReading,
} from '../../src/workbook/index.ts';

export type ScheduleState =
  | { readonly step: 'none' }
  | { readonly step: 'reading' }
  | { readonly step: 'failed'; readonly sentence: string }
  /** `found` = the headings were recognised; else the columns shown are only a start. */
  | { readonly step: 'columns'; readonly reading: ScheduleReading; readonly found: boolean }
  | { readonly step: 'confirmed'; readonly reading: ScheduleReading };

export interface Schedule {
  readonly state: ScheduleState;
  /** Reads a sheet; goes on at once where its columns were confirmed before. */
  readonly open: (sheet: string) => Promise<void>;
  readonly change: (columns: ScheduleColumns) => void;
  readonly confirm: () => Promise<void>;
  readonly columns: () => void;
  /** Reads again with the confirmed columns; undefined where that failed, and the state then says why. */
  readonly again: () => Promise<ScheduleReading | undefined>;
  readonly forget: () => void;
}

/** The sheet whose columns were confirmed last, if any. */
export const rememberedSheet = async (): Promise<string | undefined> =>
  (await readSettings()).schedule?.sheet;

export function useSchedule(): Schedule {
  const [state, setState] = useState<ScheduleState>({ step: 'none' });

  const open = useCallback(async (sheet: string) => {
    setState({ step: 'reading' });
    const { schedule: kept } = await readSettings();
    const known =
      kept?.sheet === sheet && kept.headings ? { columns: kept.columns, headings: kept.headings } : undefined;
    const read = await readScheduleSheet(sheet);
    if (!read.ok) return setState({ step: 'failed', sentence: read.error.sentence });
    if (known) {
      const confirmed = await readSchedule(sheet, known);
      if (confirmed.ok && sameHeadings(confirmed.value, known.headings))
        return setState({ step: 'confirmed', reading: confirmed.value });
    }
    const found = findSchedule(read.value.values);
    const columns = found?.columns ?? { headerRow: firstFullRow(read.value.values), door: 0 };
    const headers = headersAt(read.value.values, columns.headerRow);
    setState({
      step: 'columns',
      found: found !== undefined,
      reading: understand(read.value, { columns, headers }),
    });
  }, []);

  const change = useCallback((columns: ScheduleColumns) => {
    setState((now) => {
      if (now.step !== 'columns') return now;
      const { sheet } = now.reading;
      return {
        ...now,
        reading: understand(sheet, { columns, headers: headersAt(sheet.values, columns.headerRow) }),
      };
    });
  }, []);

  const confirm = useCallback(async () => {
    if (state.step !== 'columns') return;
    const { reading } = state;
    const { columns, headers, sheet } = reading.guess;
    setState({ step: 'confirmed', reading });
    const settings = await readSettings();
    await writeSettings({
      ...settings,
      schedule: { sheet, columns, headings: headingsOf(columns, headers) },
    });
  }, [state]);

  const columns = useCallback(() => {
    setState((now) =>
      now.step === 'confirmed' ? { step: 'columns', reading: now.reading, found: true } : now,
    );
  }, []);

  const again = useCallback(async () => {
    if (state.step !== 'confirmed') return undefined;
    const { columns: confirmed, headers, sheet } = state.reading.guess;
    const read = await readSchedule(sheet, { columns: confirmed, headings: headingsOf(confirmed, headers) });
    if (!read.ok) {
      setState({ step: 'failed', sentence: read.error.sentence });
      return undefined;
    }
    setState({ step: 'confirmed', reading: read.value });
    return read.value;
  }, [state]);

  const forget = useCallback(() => setState({ step: 'none' }), []);
  return { state, open, change, confirm, columns, again, forget };
}

/** A guess is no confirmation: where a heading was gone, the reading fell back to one. */
function sameHeadings(
  { guess }: ScheduleReading,
  kept: Readonly<Record<string, string | undefined>>,
): boolean {
  const now = headingsOf(guess.columns, guess.headers) as Readonly<Record<string, string | undefined>>;
  const names = Object.keys(kept);
  return names.length === Object.keys(now).length && names.every((role) => now[role] === kept[role]);
}

/** A start for a sheet without headings that we know. */
function firstFullRow(values: readonly (readonly (string | number | boolean)[])[]): number {
  const row = values.findIndex((cells) => cells.filter((cell) => String(cell).trim() !== '').length > 1);
  return Math.max(0, row);
}
