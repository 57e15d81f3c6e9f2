/** Small choices kept in the workbook's settings: never data, which belongs in the sheets. */
import { z } from 'zod';
import { SCHEDULE_ROLES } from '../keying/scheduleWords.ts';
import { explain } from './excelErrors.ts';

const columns = z.object({
  headerRow: z.number(),
  door: z.number(),
  location: z.number().exactOptional(),
  zone: z.number().exactOptional(),
  hardware: z.number().exactOptional(),
  type: z.number().exactOptional(),
  length: z.number().exactOptional(),
  cam: z.number().exactOptional(),
  finish: z.number().exactOptional(),
  side: z.number().exactOptional(),
  symbol: z.number().exactOptional(),
  hand: z.number().exactOptional(),
  quantity: z.number().exactOptional(),
  keys: z.number().exactOptional(),
  cylinder: z.number().exactOptional(),
  remarks: z.number().exactOptional(),
});

const settings = z.object({
  /** The spec and the system chosen last. */
  spec: z.string().exactOptional(),
  system: z.string().exactOptional(),
  /** Column mapping of the shop's own sheet. */
  schedule: z
    .object({
      sheet: z.string(),
      columns,
      /** Their headings, to find them again when the sheet was changed. */
      headings: z.partialRecord(z.enum(SCHEDULE_ROLES), z.string()).exactOptional(),
    })
    .exactOptional(),
});

export type BookSettings = z.infer<typeof settings>;

const KEY = 'Keyrow';

/** The settings of this workbook; empty where there are none or where they can't be read. */
export async function readSettings(): Promise<BookSettings> {
  try {
    return await Excel.run(async (context) => {
      const item = context.workbook.settings.getItemOrNullObject(KEY);
      item.load('value');
      await context.sync();
      if (item.isNullObject) return {};
      const value: unknown = item.value;
      const read = settings.safeParse(typeof value === 'string' ? parseJson(value) : undefined);
      return read.success ? read.data : {};
    });
  } catch (error) {
    explain(error);
    return {};
  }
}

/** Replaces the settings. A choice that can't be kept is no reason to trouble anyone: false then. */
export async function writeSettings(chosen: BookSettings): Promise<boolean> {
  try {
    await Excel.run(async (context) => {
      context.workbook.settings.add(KEY, JSON.stringify(settings.parse(chosen)));
      await context.sync();
    });
    return true;
  } catch (error) {
    explain(error);
    return false;
  }
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}
