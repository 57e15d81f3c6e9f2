/**
 * Puts back what a plan changed, after a failure or for an undo. Only what was begun is touched, as the trace has it,
 * and of that only what still is as it was written: what somebody else put there meanwhile is left alone and listed.
 * Putting back is idempotent, since after a lost answer nobody knows whether the last request was carried out.
 */
import { changeFoot } from './pageFoot.ts';
import { ProgrammerError } from '../keying/result.ts';
import { addedSheets, arrived, asText, blocksOf, ownThings, type Block } from './blocks.ts';
import { isFormula, rangeOf } from './cells.ts';
import { PictureInTheWay, putPictureBack } from './applyPictures.ts';
import { remember, sameCell, sameCells, type Cell } from './check.ts';
import { explain } from './excelErrors.ts';
import { runExcel } from './excelRun.ts';
import { fold } from './names.ts';
import type { ApplyOutcome, ApplyProgress, Remembered } from './outcome.ts';
import { boxAddress, formatPlace, place, type Box, type Place } from './places.ts';
import type { Conflict, PlanStep } from './plan.ts';
import type { CellValue } from './reading.ts';
import { namesNow, sheetOf } from './sheetIds.ts';
import { removeSheet, removeUnconfirmed, writtenBy } from './takeBackSheets.ts';
import type { Trace } from './takeBackTrace.ts';

export type Tick = (stage: ApplyProgress['stage']) => void;

/** What was written did not arrive as written. */
export class NotAsWritten extends Error {
  constructor(readonly places: readonly Place[]) {
    super('not as written');
  }
}

/** A sheet or a table got another name, or went, while it was written. */
export class Renamed extends Error {
  constructor(
    /** As in a sentence: `sheet Keys`. */
    readonly what: string,
    readonly how: 'renamed' | 'removed' = 'renamed',
  ) {
    super(how);
  }
}

/** Why something failed, in a sentence. */
export function reasonOf(error: unknown): string {
  if (error instanceof ProgrammerError) return `The add-in made a mistake (${error.message}).`;
  if (error instanceof PictureInTheWay) return error.message;
  if (error instanceof Renamed)
    return `The ${error.what} was ${error.how} while it was being written. Read the book again, then try once more.`;
  if (!(error instanceof NotAsWritten)) return explain(error).sentence;
  return `What was written at ${someOf(error.places)} reads otherwise by now.`;
}

function someOf(places: readonly Place[]): string {
  const shown = places.slice(0, 3).map(formatPlace).join(', ');
  return places.length > 3 ? `${shown} and ${places.length - 3} more` : shown;
}

/** Undo groups need ExcelApi 1.20; older versions undo step by step. */
export const groupsUndo = (): boolean => Office.context.requirements.isSetSupported('ExcelApi', '1.20');

export const runOptions = (): Excel.RunOptions => (groupsUndo() ? { mergeUndoGroup: true } : {});

/** How often putting back is tried: each try is a whole one, since it may be repeated without harm. */
const TRIES = 3;

/** Puts everything back that was begun; `before` is what was there. */
export async function putBack(
  steps: readonly PlanStep[],
  before: readonly Remembered[],
  trace: Trace,
  reason: string,
  stopped: boolean,
  tick: Tick,
): Promise<ApplyOutcome> {
  let last = '';
  for (let attempt = 0; attempt < TRIES; attempt++) {
    try {
      const { kept, gone } = await runExcel(
        (context) => takeBack(context, steps, before, trace, tick),
        runOptions(),
      );
      return {
        outcome: 'rolled-back',
        stopped,
        sentence: [reason, asBefore(kept), ...(gone.length > 0 ? [without(gone)] : [])].join(' ').trim(),
        ...(kept.length + gone.length > 0 && { kept: [...kept, ...gone.map(lost)] }),
      };
    } catch (error) {
      last = reasonOf(error);
    }
  }
  const places = placesTouched(steps, trace);
  const where = places.map((b) => formatPlace({ sheet: b.sheet, address: boxAddress(b) })).slice(0, 5);
  const more = places.length > 5 ? ` and ${places.length - 5} more places` : '';
  const check = where.length > 0 ? `Check ${where.join(', ')}${more}, or close` : 'Close';
  return {
    outcome: 'broken',
    places,
    sentence: `${reason} Taking it back failed too: ${last} ${check} the workbook without saving.`.trim(),
  };
}

/** How the workbook is after something was put back. */
export function asBefore(kept: readonly Conflict[]): string {
  if (kept.length === 0) return 'The workbook is as it was before.';
  const places = kept.flatMap(({ at }) => (at ? [at] : []));
  const where = places.length > 0 ? someOf(places) : 'the sheets that were added';
  return `The workbook is as it was before, except for what was changed meanwhile at ${where}: that was left alone. Check it.`;
}

const lost = (sheet: string): Conflict => ({
  sentence: `The sheet ${sheet} was deleted meanwhile, so nothing could be put back there. An earlier version of the file has it.`,
});

const without = (gone: readonly string[]): string =>
  `Check what is missing: ${gone.join(', ')} ${gone.length === 1 ? 'was' : 'were'} deleted meanwhile. An earlier version of the file has ${gone.length === 1 ? 'it' : 'them'}.`;

const placesTouched = (steps: readonly PlanStep[], trace: Trace): Box[] =>
  steps.flatMap((step, index) =>
    blocksOf(step, index)
      .filter((block) => trace.hasBegunBlock(block))
      .map((block) => block.box),
  );

interface TakenBack {
  readonly kept: readonly Conflict[];
  /** Sheets of the user's that were deleted meanwhile. */
  readonly gone: readonly string[];
}

async function takeBack(
  context: Excel.RequestContext,
  planned: readonly PlanStep[],
  contents: readonly Remembered[],
  trace: Trace,
  tick: Tick,
): Promise<TakenBack> {
  const names = await namesNow(context, trace.knownSheets(), trace.knownTables());
  const steps = names.steps(planned);
  const before = names.contents(contents);
  const added = addedSheets(steps);
  const blocks = steps.flatMap(blocksOf);
  const kept: Conflict[] = [];
  const restored: { readonly content: Remembered; readonly theirs: readonly Theirs[] }[] = [];
  for (const [index, step] of [...steps.entries()].reverse()) {
    if (names.isGone(sheetOf(planned[index]!))) continue;
    if (step.kind === 'add-sheet' && trace.hasBegun(index)) {
      const sheet = trace.sheetOf(index);
      const own = blocks.filter(
        (block) => fold(block.box.sheet) === fold(step.sheet) && trace.hasBegunBlock(block),
      );
      if (sheet) kept.push(...(await removeSheet(context, sheet.id, writtenBy(own), ownThings(steps))));
      else kept.push(...(await removeUnconfirmed(context, step.sheet, trace.idsKnown())));
    } else if (step.kind === 'picture') {
      const lay = trace.pictureOf(index);
      if (lay && !added.has(fold(step.sheet))) await putPictureBack(context, step, lay);
    } else if (step.kind === 'foot' && trace.hasBegun(index))
      await changeFoot(context, step.sheet, step.before);
    else if (step.kind === 'resize-table' && trace.hasBegun(index) && !names.isTableGone(step.name))
      await resizeBack(context, step);
    else if (step.kind === 'write' && !added.has(fold(step.sheet))) {
      for (const content of before.filter((b) => b.step === index && trace.mayHaveChanged(b))) {
        const block = blocks.find((one) => one.step === index && one.box.row === content.box.row);
        if (!block) continue;
        const theirs = await restore(context, content, block);
        restored.push({ content, theirs });
        if (trace.hasBegunBlock(content)) kept.push(...theirs.map((cell) => keptCell(content, cell)));
        tick('taking back');
      }
    }
  }
  for (const { content, theirs } of restored) {
    const { remembered } = await remember(context, content.step, content.box);
    if (!sameCells(content, remembered, theirs))
      throw new NotAsWritten([{ sheet: content.box.sheet, address: boxAddress(content.box) }]);
  }
  const own = addedSheets(planned);
  const begun = planned.filter((_, index) => trace.hasBegun(index)).map(sheetOf);
  return { kept, gone: names.gone.filter((sheet) => !own.has(fold(sheet)) && begun.includes(sheet)) };
}

/** A cell within a box, that holds neither what was there before nor what we wrote. */
interface Theirs extends Cell {
  readonly holds: string;
}

/** Puts one block back, cell by cell, but for those that somebody else changed since. */
async function restore(
  context: Excel.RequestContext,
  content: Remembered,
  block: Block,
): Promise<readonly Theirs[]> {
  const { remembered: now } = await remember(context, content.step, content.box);
  if (sameCells(content, now) && sameFormats(content, now)) return [];
  const theirs: Theirs[] = [];
  now.formulas.forEach((row, r) =>
    row.forEach((formula, c) => {
      const written = arrived(block.cells[r]![c]!, now.values[r]?.[c] ?? '', formula);
      if (!written && !sameCell(content, now, r, c))
        theirs.push({ row: r, column: c, holds: String(formula) });
    }),
  );
  const range = rangeOf(context, content.box);
  range.numberFormat = leaving(theirs, formatsToWriteUnder(content));
  range.formulas = leaving(theirs, formulasToRestore(content));
  range.numberFormat = leaving(
    theirs,
    content.numberFormats.map((row) => [...row]),
  );
  await context.sync();
  return theirs;
}

const sameFormats = (a: Remembered, b: Remembered): boolean =>
  a.numberFormats.every((row, r) => row.every((format, c) => format === b.numberFormats[r]?.[c]));

/** Excel leaves a cell as it is where it is given null for it. */
function leaving<T>(theirs: readonly Theirs[], cells: (T | null)[][]): (T | null)[][] {
  for (const { row, column } of theirs) cells[row]![column] = null;
  return cells;
}

function keptCell({ box, formulas }: Remembered, { row, column, holds }: Theirs): Conflict {
  const was = String(formulas[row]?.[column] ?? '');
  return {
    at: place(box.sheet, box.row + row, box.column + column),
    holds,
    sentence: `This cell was changed meanwhile and is left as it is. Before, it ${was === '' ? 'was empty' : `held “${was}”`}.`,
  };
}

async function resizeBack(
  context: Excel.RequestContext,
  step: Extract<PlanStep, { kind: 'resize-table' }>,
): Promise<void> {
  const table = context.workbook.tables.getItem(step.name);
  const range = table.getRange();
  range.load('rowCount,columnCount');
  await context.sync();
  if (range.rowCount === step.from.rows && range.columnCount === step.from.columns) return;
  table.resize(rangeOf(context, step.from));
  await context.sync();
}

/** Whether a cell holds plain text: no formula, no number, no error that reads like a text. */
function isText({ formulas, values, types }: Remembered, r: number, c: number): boolean {
  const cell = formulas[r]?.[c] ?? '';
  return typeof cell === 'string' && types[r]?.[c] !== 'Error' && !isFormula(cell, values[r]?.[c] ?? '');
}

/** A text cell would make a text of whatever else is put back into it, so that goes in before its format. */
const formatsToWriteUnder = (content: Remembered): string[][] =>
  content.numberFormats.map((row, r) =>
    row.map((format, c) => (format === '@' && !isText(content, r, c) ? 'General' : format)),
  );

/** Text goes back as text: a General cell would take `01234` for a number. */
const formulasToRestore = (content: Remembered): CellValue[][] =>
  content.formulas.map((row, r) =>
    row.map((cell, c) =>
      typeof cell === 'string' && content.numberFormats[r]?.[c] !== '@' && isText(content, r, c)
        ? asText(cell)
        : cell,
    ),
  );
