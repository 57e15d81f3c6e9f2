/** Small choices kept in the workbook's settings: never data, which belongs in the sheets. */
import { z } from 'zod';
import { SCHEDULE_ROLES } from '../keying/scheduleWords.ts';
import { UNITS } from '../keying/units.ts';
import { explain } from './excelErrors.ts';
import { runExcel } from './excelRun.ts';

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

const names = z.array(z.tuple([z.string(), z.string()]).readonly()).readonly();

const settings = z.object({
  /** The spec chosen last. */
  spec: z.string().exactOptional(),
  /** Lengths in the pane and on new sheets; `spec`, or left out = as each spec is written. */
  unit: z.enum([...UNITS, 'spec']).exactOptional(),
  /** The first steps were taken, or were not wanted. */
  begun: z.boolean().exactOptional(),
  /** Groups of tasks that are folded away, by their name. */
  folded: z.array(z.string()).exactOptional(),
  /** The strip at the foot is folded away. */
  stripFolded: z.boolean().exactOptional(),
  /** When each system was last audited and what came of it: numbers only. */
  audits: z
    .array(
      z.object({
        system: z.string(),
        made: z.string(),
        faults: z.number(),
        warnings: z.number(),
      }),
    )
    .exactOptional(),
  /** What the last audit of each system found and looked at: names and kinds, never a bitting. */
  lastAudits: z
    .array(
      z.object({
        system: z.string(),
        made: z.string(),
        keys: z.number(),
        cylinders: z.number(),
        counts: z.record(z.string(), z.number()),
        findings: z
          .array(z.tuple([z.string(), z.string(), z.string(), z.string()]).readonly())
          .readonly()
          .exactOptional(),
        names: z.object({ keys: names, cylinders: names }).exactOptional(),
        withheld: z.number(),
      }),
    )
    .exactOptional(),
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

/**
 * What can be read of a stored text. A choice that can't be read, such as one of a later version, costs only itself.
 * @example parseSettings('{"spec":"S-018-6","unit":"furlong"}') → { spec: 'S-018-6' }
 */
export function parseSettings(text: string): BookSettings {
  const raw = parseJson(text);
  if (typeof raw !== 'object' || raw === null) return {};
  const kept = Object.entries(settings.shape).flatMap(([name, shape]) => {
    const read = shape.safeParse((raw as Record<string, unknown>)[name]);
    return read.success ? [[name, read.data] as const] : [];
  });
  return settings.parse(Object.fromEntries(kept));
}

/** The settings of this workbook; empty where there are none or where they can't be read. */
export async function readSettings(): Promise<BookSettings> {
  return (await stored()) ?? {};
}

/** What is kept in the workbook; undefined where Excel doesn't tell. */
async function stored(): Promise<BookSettings | undefined> {
  try {
    return await runExcel(async (context) => {
      const item = context.workbook.settings.getItemOrNullObject(KEY);
      item.load('value');
      await context.sync();
      if (item.isNullObject) return {};
      const value: unknown = item.value;
      return typeof value === 'string' ? parseSettings(value) : {};
    });
  } catch (error) {
    explain(error);
    return undefined;
  }
}

/** Replaces the settings. A choice that can't be kept is no reason to trouble anyone: false then. */
export async function writeSettings(chosen: BookSettings): Promise<boolean> {
  try {
    await runExcel(async (context) => {
      context.workbook.settings.add(KEY, JSON.stringify(settings.parse(chosen)));
      await context.sync();
    });
    return true;
  } catch (error) {
    explain(error);
    return false;
  }
}

let queue: Promise<unknown> = Promise.resolve();

/**
 * Changes some of the settings and leaves the others; one change after another, so that none is lost. What can't be read
 * isn't written over: false then.
 */
export function changeSettings(change: (now: BookSettings) => BookSettings): Promise<boolean> {
  const turn = queue.then(async () => {
    const now = await stored();
    return now !== undefined && (await writeSettings(change(now)));
  });
  queue = turn;
  return turn;
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}
