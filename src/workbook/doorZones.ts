/** Which part of the building each door is in, by the shop's own schedule: its zone column, or its section headings. */
import { fold } from './names.ts';
import type { BookReading } from './reading.ts';
import { readSchedule, type ScheduleReading } from './schedule.ts';
import { readSettings } from './settings.ts';

export interface DoorZones {
  /** The sheet that they come from. */
  readonly sheet: string;
  readonly zoneOf: (door: string) => string | undefined;
}

/** The schedule whose columns were confirmed, if it can still be read with them. */
export async function confirmedSchedule(book: BookReading): Promise<ScheduleReading | undefined> {
  const { schedule } = await readSettings();
  if (!schedule?.headings || !book.sheets.some((s) => s.name === schedule.sheet)) return undefined;
  const read = await readSchedule(schedule.sheet, { columns: schedule.columns, headings: schedule.headings });
  return read.ok ? read.value : undefined;
}

/** @example zonesIn(schedule)?.zoneOf('301') → 'SPORTS HALL'; undefined where the schedule tells no zones */
export function zonesIn({ guess, schedule }: ScheduleReading): DoorZones | undefined {
  const zones = new Map<string, string>();
  for (const { door, text } of schedule.lines) {
    const { zone } = text;
    if (zone !== undefined && !zones.has(fold(door))) zones.set(fold(door), zone);
  }
  return zones.size === 0
    ? undefined
    : { sheet: guess.sheet, zoneOf: (door: string) => zones.get(fold(door)) };
}

/** Only read, so a schedule that nobody confirmed yet will do: the first sheet of the shop's that looks like one. */
export async function readZones(book: BookReading): Promise<DoorZones | undefined> {
  const confirmed = await confirmedSchedule(book);
  if (confirmed) return zonesIn(confirmed);
  const ours = new Set(book.tables.map((table) => fold(table.sheet)));
  for (const { name } of book.sheets) {
    if (ours.has(fold(name))) continue;
    const read = await readSchedule(name);
    const zones = read.ok ? zonesIn(read.value) : undefined;
    if (zones) return zones;
  }
  return undefined;
}
