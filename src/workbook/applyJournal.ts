/**
 * A note in the workbook's settings while a write is under way: which sheets, tables and cells. It is there for two
 * reasons. Whoever opens the book after it was closed in the middle is told what was begun; and two panes on one book
 * don't write over each other, since the second finds the note of the first. Settings never hold a bitting, so the note
 * has places and counts, and of old contents only those of cells on the shop's own sheets that can't be a code.
 *
 * Adding one's own note and reading all notes is a single request. Of two panes at least one sees the other's, then.
 */
import { z } from 'zod';
import { explain } from './excelErrors.ts';
import { runExcel } from './excelRun.ts';
import type { Remembered } from './outcome.ts';
import type { PlanStep } from './plan.ts';

const PREFIX = 'KeyrowWriting ';
/** Settings are to stay small; a note that would be longer has no old contents, and in the end no places. */
const LONGEST = 20_000;

const cell = z.union([z.string(), z.number(), z.boolean()]);
const box = z.object({
  sheet: z.string(),
  row: z.number(),
  column: z.number(),
  rows: z.number(),
  columns: z.number(),
});
const note = z.object({
  title: z.string(),
  undoing: z.boolean(),
  /** Sheets added. */
  sheets: z.array(z.string()),
  tables: z.array(z.object({ name: z.string(), from: box, to: box })),
  /** Cells that pictures are put on; their names may have a bitting in them, so they are not kept here. */
  pictures: z.array(z.object({ sheet: z.string(), row: z.number(), column: z.number() })).exactOptional(),
  blocks: z.array(
    z.object({
      box,
      /** How many cells of the box the plan fills. */
      filled: z.number(),
      /** All cells were empty before. */
      empty: z.boolean(),
      /** Contents and number formats before, where they may be kept here. */
      before: z
        .object({ cells: z.array(z.array(cell)), formats: z.array(z.array(z.string())) })
        .exactOptional(),
    }),
  ),
});

export type Note = z.infer<typeof note>;
export interface KeptNote {
  readonly id: string;
  /** Undefined where somebody garbled it. */
  readonly note: Note | undefined;
}

/** Notes whose write came to its end while taking the note away failed: they say nothing any more. */
const over = new Set<string>();
let serial = 0;

/** A name that no other pane gives. */
const newId = (): string => `${PREFIX}${crypto.randomUUID()} ${++serial}`;

/** The note of a plan. `before` adds the old contents, where they may be kept. */
export function noteOf(
  title: string,
  steps: readonly PlanStep[],
  undoing: boolean,
  before: readonly Remembered[] = [],
  ownSheets: ReadonlySet<string> = new Set(),
): Note {
  const whole: Note = {
    title: title.slice(0, 200),
    undoing,
    sheets: steps.flatMap((step) => (step.kind === 'add-sheet' ? [step.sheet] : [])),
    tables: steps.flatMap((step) =>
      step.kind === 'resize-table' ? [{ name: step.name, from: step.from, to: step.to }] : [],
    ),
    pictures: steps.flatMap((step) =>
      step.kind === 'picture' ? [{ sheet: step.sheet, row: step.row, column: step.column }] : [],
    ),
    blocks: steps.flatMap((step, index) => {
      if (step.kind !== 'write') return [];
      const { sheet, row, column, cells, formats } = step;
      const old = ownSheets.has(sheet) ? undefined : contentBefore(before, index);
      const keeps = old && old.cells.length === cells.length && old.cells.flat().every(mayBeKept);
      return [
        {
          box: { sheet, row, column, rows: cells.length, columns: formats.length },
          filled: cells.flat().filter((c) => c !== '').length,
          empty: step.expected === 'empty' || step.expected.flat().every((c) => c === ''),
          ...(keeps && { before: old }),
        },
      ];
    }),
  };
  const fits = (one: Note): boolean => JSON.stringify(one).length <= LONGEST;
  if (fits(whole)) return whole;
  const bare = {
    ...whole,
    blocks: whole.blocks.map(({ box: at, filled, empty }) => ({ box: at, filled, empty })),
  };
  return fits(bare) ? bare : { ...whole, blocks: around(bare.blocks), tables: whole.tables.slice(0, 20) };
}

/** One box a sheet around all its blocks: too many to be listed. */
function around(blocks: Note['blocks']): Note['blocks'] {
  const sheets = new Map<string, Note['blocks'][number]>();
  for (const one of blocks) {
    const known = sheets.get(one.box.sheet);
    sheets.set(one.box.sheet, known ? joined(known, one) : one);
  }
  return [...sheets.values()].slice(0, 100);
}

function joined(a: Note['blocks'][number], b: Note['blocks'][number]): Note['blocks'][number] {
  const row = Math.min(a.box.row, b.box.row);
  const column = Math.min(a.box.column, b.box.column);
  return {
    box: {
      sheet: a.box.sheet,
      row,
      column,
      rows: Math.max(a.box.row + a.box.rows, b.box.row + b.box.rows) - row,
      columns: Math.max(a.box.column + a.box.columns, b.box.column + b.box.columns) - column,
    },
    filled: a.filled + b.filled,
    // what lies between the blocks is not ours to clear
    empty: false,
  };
}

function contentBefore(
  before: readonly Remembered[],
  step: number,
): NonNullable<Note['blocks'][number]['before']> {
  const parts = before.filter((b) => b.step === step);
  return {
    cells: parts.flatMap((b) => b.formulas.map((row) => [...row])),
    formats: parts.flatMap((b) => b.numberFormats.map((row) => [...row])),
  };
}

/**
 * A code has at least three cuts; what has fewer digits, or fewer letters in a row, gives none away. Formulas and errors
 * are not kept either: as texts they could not be told from the same characters typed as text.
 */
const mayBeKept = (content: string | number | boolean): boolean => {
  const text = String(content);
  return text.replace(/[^\p{L}\p{N}]/gu, '').length <= 4 && !/\d.*\d.*\d|^[=#]/su.test(text);
};

/** Leaves a note and says which notes of others were there before it. */
export async function claim(
  context: Excel.RequestContext,
  content: Note,
): Promise<{ readonly id: string; readonly others: readonly KeptNote[] }> {
  const id = newId();
  const { settings } = context.workbook;
  settings.load('items/key,items/value');
  settings.add(id, JSON.stringify(content));
  try {
    await context.sync();
  } catch (error) {
    // it may have arrived all the same
    await release(id);
    throw error;
  }
  const others = notesIn(settings.items).filter((other) => other.id !== id);
  for (const gone of over)
    if (settings.items.some((item) => item.key === gone)) settings.getItem(gone).delete();
  return { id, others };
}

/** Replaces one's own note; it goes along with the next request. */
export function completeNote(context: Excel.RequestContext, id: string, content: Note): void {
  context.workbook.settings.add(id, JSON.stringify(content));
}

const notesIn = (items: readonly Excel.Setting[]): KeptNote[] =>
  items
    .filter(({ key }) => key.startsWith(PREFIX) && !over.has(key))
    .map(({ key, value }) => ({ id: key, note: parse(value) }));

function parse(value: unknown): Note | undefined {
  if (typeof value !== 'string') return undefined;
  try {
    const read = note.safeParse(JSON.parse(value));
    return read.success ? read.data : undefined;
  } catch {
    return undefined;
  }
}

/** Takes a note away in a run of its own. Where Excel doesn't let us, it counts as over for this pane all the same. */
export async function release(id: string): Promise<void> {
  over.add(id);
  try {
    await runExcel((context) => dropNote(context, id));
  } catch (error) {
    explain(error);
  }
}

/** The same within a run; a refusal of Excel's is no reason to take back what has just come to a good end. */
export async function releaseWithin(context: Excel.RequestContext, id: string): Promise<void> {
  over.add(id);
  try {
    await dropNote(context, id);
  } catch (error) {
    explain(error);
  }
}

async function dropNote(context: Excel.RequestContext, id: string): Promise<void> {
  const item = context.workbook.settings.getItemOrNullObject(id);
  await context.sync();
  if (!item.isNullObject) item.delete();
  await context.sync();
  over.delete(id);
}

/** Takes notes away, whoever's they are. */
export async function dropNotes(context: Excel.RequestContext, ids: readonly string[]): Promise<void> {
  const items = ids.map((id) => context.workbook.settings.getItemOrNullObject(id));
  await context.sync();
  for (const item of items) if (!item.isNullObject) item.delete();
  await context.sync();
}

/** All notes in the workbook, of writes under way or broken off. */
export async function readNotes(context: Excel.RequestContext): Promise<KeptNote[]> {
  const { settings } = context.workbook;
  settings.load('items/key,items/value');
  await context.sync();
  return notesIn(settings.items);
}
