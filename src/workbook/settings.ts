import { ProgrammerError } from '../keying/result.ts';
import type { ScheduleColumns } from './schedule.ts';

/** Small choices kept in the workbook: never data. */
export interface BookSettings {
  readonly spec?: string;
  readonly system?: string;
  /** Column mapping of the shop's own sheet, by sheet name. */
  readonly schedule?: { readonly sheet: string; readonly columns: ScheduleColumns };
}
export async function readSettings(): Promise<BookSettings> {
  throw new ProgrammerError('not written yet');
}
/** Replaces the settings. */
export async function writeSettings(_settings: BookSettings): Promise<void> {
  throw new ProgrammerError('not written yet');
}
