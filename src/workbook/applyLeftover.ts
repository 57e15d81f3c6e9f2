/**
 * What a write left that was broken off: the book was closed in the middle of it, or taking it back failed. The note in
 * the settings (`applyJournal.ts`) tells where to look. Whoever opens the book is told in one sentence and may take back
 * what was begun, or leave it. The note has no bittings, so old contents that may be one can't be put back from it:
 * those cells are named.
 */
import { asText } from './blocks.ts';
import { dropNotes, readNotes, type KeptNote, type Note } from './applyJournal.ts';
import { loadBox, rangeOf } from './cells.ts';
import { explain, runReading, type ExcelTrouble } from './excelErrors.ts';
import { runExcel } from './excelRun.ts';
import { isBlank } from './fields.ts';
import { fold, isOurs } from './names.ts';
import type { ApplyOutcome } from './outcome.ts';
import { boxAddress, contains, formatPlace, type Box } from './places.ts';
import type { Result } from '../keying/result.ts';
import { strangersOn, type IsOurs } from './takeBackSheets.ts';

export interface Leftover {
  readonly notes: readonly KeptNote[];
  /** What was begun, how much of it is there, and what can be done. */
  readonly sentence: string;
}

const counted = (n: number, noun: string): string =>
  `${n.toLocaleString('en-US')} ${noun}${n === 1 ? '' : 's'}`;

/** What a broken-off write left, or undefined where there is none. A write under way in another window counts too. */
export async function readLeftover(): Promise<Result<Leftover | undefined, ExcelTrouble>> {
  return await runReading(async (context) => {
    const notes = await readNotes(context);
    const [first, ...more] = notes;
    if (!first) return undefined;
    const what = first.note ? `“${first.note.title}”` : 'A write';
    const begun = first.note?.undoing ? `Taking back ${what}` : what;
    const others = more.length === 0 ? '' : ` ${counted(more.length, 'further write')} too.`;
    const there = first.note ? ` ${await progressOf(context, first.note)}` : '';
    const does = first.note
      ? 'Take it back, or leave it as it is.'
      : 'Its note can’t be read: leave it as it is.';
    return {
      notes,
      sentence: `${begun} was begun in this workbook, and its end was not noted.${there}${others} If another window is still writing, wait for it. ${does}`,
    };
  });
}

async function progressOf(context: Excel.RequestContext, note: Note): Promise<string> {
  const { worksheets } = context.workbook;
  worksheets.load('items/name');
  await context.sync();
  const names = new Set(worksheets.items.map((sheet) => fold(sheet.name)));
  const planned = note.blocks.reduce((sum, block) => sum + block.filled, 0);
  let filled = 0;
  for (const { box, filled: most } of note.blocks) {
    if (!names.has(fold(box.sheet))) continue;
    filled += Math.min(most, await filledIn(context, box));
  }
  const sheets = note.sheets.filter((name) => names.has(fold(name))).length;
  const ofSheets =
    note.sheets.length === 0 ? '' : `${sheets} of ${counted(note.sheets.length, 'new sheet')} and `;
  return `${ofSheets}${filled.toLocaleString('en-US')} of ${counted(planned, 'cell')} hold something now.`;
}

/** Forgets the notes and touches nothing else. */
export async function leaveLeftover(leftover: Leftover): Promise<ApplyOutcome> {
  return await settle(leftover, () => Promise.resolve([]), 'Left as it is.');
}

/**
 * Takes back what the notes tell of: added sheets with nothing else on them, rows that tables grew by, cells that were
 * empty. May be repeated without harm.
 */
export async function takeLeftoverBack(leftover: Leftover): Promise<ApplyOutcome> {
  const titles = leftover.notes.map(({ note }) => `“${note?.title ?? 'a write'}”`).join(', ');
  return await settle(leftover, takeNotesBack, `Taken back: ${titles}.`);
}

async function settle(
  leftover: Leftover,
  work: (context: Excel.RequestContext, notes: readonly Note[]) => Promise<readonly string[]>,
  sentence: string,
): Promise<ApplyOutcome> {
  try {
    return await runExcel(async (context): Promise<ApplyOutcome> => {
      const left = await work(
        context,
        leftover.notes.flatMap(({ note }) => (note ? [note] : [])),
      );
      await dropNotes(
        context,
        leftover.notes.map(({ id }) => id),
      );
      return { outcome: 'done', sentence: [sentence, ...left].join(' '), cells: 0, oneUndo: false };
    });
  } catch (error) {
    const trouble = explain(error);
    return {
      outcome: 'refused',
      sentence: `It was not all taken back. ${trouble.sentence}`,
      reasons: [{ sentence: trouble.sentence }],
    };
  }
}

async function takeNotesBack(context: Excel.RequestContext, notes: readonly Note[]): Promise<string[]> {
  const left: string[] = [];
  for (const note of notes) {
    const present = await sheetsPresent(context);
    for (const name of [...note.sheets].reverse()) {
      const id = present.get(fold(name));
      if (id !== undefined) left.push(...(await removeAdded(context, id, note, name)));
    }
    for (const { name, from, to } of note.tables) await shrink(context, name, from, to);
    const added = new Set(note.sheets.map(fold));
    for (const at of note.pictures ?? [])
      if (!added.has(fold(at.sheet)) && present.has(fold(at.sheet)))
        left.push(...(await takePicture(context, at, note)));
    const unknown: Box[] = [];
    const missing = new Set<string>();
    for (const block of note.blocks) {
      if (added.has(fold(block.box.sheet))) continue;
      if (!present.has(fold(block.box.sheet))) missing.add(block.box.sheet);
      else if (block.empty) left.push(...(await clear(context, block)));
      else if (block.before) await putContentBack(context, block.box, block.before);
      else unknown.push(block.box);
    }
    if (missing.size > 0)
      left.push(
        `Check ${[...missing].join(', ')}: no sheet has that name now, so nothing was taken back there. If it was renamed, look through it under its new name.`,
      );
    if (unknown.length > 0)
      left.push(
        `Check ${listOf(unknown)}: cells there held something before that is not kept outside the sheet. Excel’s own undo or an earlier version of the file has it.`,
      );
  }
  return left;
}

function listOf(boxes: readonly Box[]): string {
  const shown = boxes.slice(0, 5).map((box) => formatPlace({ sheet: box.sheet, address: boxAddress(box) }));
  return boxes.length > 5 ? `${shown.join(', ')} and ${boxes.length - 5} more places` : shown.join(', ');
}

async function sheetsPresent(context: Excel.RequestContext): Promise<Map<string, string>> {
  const { worksheets } = context.workbook;
  worksheets.load('items/name,items/id');
  await context.sync();
  return new Map(worksheets.items.map((sheet) => [fold(sheet.name), sheet.id]));
}

/** A sheet goes only where every filled cell lies where the plan had one, and the tables on it are ours. */
async function removeAdded(
  context: Excel.RequestContext,
  id: string,
  note: Note,
  name: string,
): Promise<string[]> {
  const sheet = context.workbook.worksheets.getItem(id);
  sheet.tables.load('items/name');
  await context.sync();
  const boxes = note.blocks.flatMap(({ box }) => (fold(box.sheet) === fold(name) ? [box] : []));
  const within: IsOurs = (row, column) => boxes.some((box) => contains(box, row, column));
  const own = {
    tables: new Set(sheet.tables.items.map((table) => fold(table.name)).filter(isOurs)),
    pictures: new Set<string>(),
  };
  const strangers = await strangersOn(context, sheet, within, own);
  const at = strangers[0]?.at;
  if (strangers.length > 0)
    return [`The sheet ${name} was kept: there is something else on it${at ? ` at ${at.address}` : ''}.`];
  const ours = note.blocks.filter(({ box }) => fold(box.sheet) === fold(name));
  for (const { box, filled } of ours)
    if ((await filledIn(context, box)) > filled)
      return [`The sheet ${name} was kept: there is something else on it within ${boxAddress(box)}.`];
  sheet.delete();
  await context.sync();
  return [];
}

/** A picture of ours on a new row goes with it; on a row that was there before, it may be the old one. */
async function takePicture(
  context: Excel.RequestContext,
  { sheet: name, row, column }: NonNullable<Note['pictures']>[number],
  note: Note,
): Promise<string[]> {
  const sheet = context.workbook.worksheets.getItem(name);
  const cell = sheet.getRangeByIndexes(row, column, 1, 1);
  cell.load('address,top,left,height,width');
  const below = sheet.getRangeByIndexes(row + 1, column, 1, 1);
  below.load('height');
  sheet.shapes.load('items/name,items/top,items/left');
  await context.sync();
  const there = sheet.shapes.items.filter(
    (shape) =>
      shape.name.startsWith('Keyrow ') &&
      shape.top >= cell.top &&
      shape.top < cell.top + cell.height &&
      shape.left >= cell.left &&
      shape.left < cell.left + cell.width,
  );
  if (!note.blocks.every((block) => block.empty))
    return there.length > 0 ? [`Check the picture at ${cell.address}: it may be the new one.`] : [];
  for (const shape of there) shape.delete();
  // the row was made high for it
  cell.format.rowHeight = below.height;
  await context.sync();
  return [];
}

async function shrink(context: Excel.RequestContext, name: string, from: Box, to: Box): Promise<void> {
  const table = context.workbook.tables.getItemOrNullObject(name);
  table.load('name');
  await context.sync();
  if (table.isNullObject) return;
  const range = table.getRange();
  range.load('rowIndex,columnIndex,rowCount,columnCount');
  await context.sync();
  const now = {
    row: range.rowIndex,
    column: range.columnIndex,
    rows: range.rowCount,
    columns: range.columnCount,
  };
  if (boxAddress(now) !== boxAddress(to)) return;
  table.resize(rangeOf(context, from));
  await context.sync();
}

/** Cells that were empty are emptied again, unless more of them are filled by now than the plan filled. */
async function clear(
  context: Excel.RequestContext,
  { box, filled }: Note['blocks'][number],
): Promise<string[]> {
  if ((await filledIn(context, box)) > filled)
    return [`${listOf([box])} was kept: there is something else in it.`];
  rangeOf(context, box).clear('Contents');
  await context.sync();
  return [];
}

async function filledIn(context: Excel.RequestContext, box: Box): Promise<number> {
  const { formulas } = await loadBox(context, box);
  return formulas.flat().filter((cell) => !isBlank(cell)).length;
}

async function putContentBack(
  context: Excel.RequestContext,
  box: Box,
  { cells, formats }: NonNullable<Note['blocks'][number]['before']>,
): Promise<void> {
  const range = rangeOf(context, box);
  // in a text cell the apostrophe of `asText` would stay
  range.numberFormat = formats.map((row) => row.map(() => 'General'));
  range.values = cells.map((row) => row.map((cell) => (typeof cell === 'string' ? asText(cell) : cell)));
  range.numberFormat = formats;
  await context.sync();
}
