/**
 * Puts back what a plan changed, after a failure or for an undo. Only what was begun is touched: a trace is kept of
 * the steps and blocks that were asked of Excel, and of the sheets that it confirmed. Putting back is idempotent,
 * since after a lost answer nobody knows whether the last request was carried out.
 */
import { ProgrammerError } from '../keying/result.ts';
import { addedSheets, asText, blocksOf } from './blocks.ts';
import { isFormula, rangeOf } from './cells.ts';
import { remember, sameCells } from './check.ts';
import { explain } from './excelErrors.ts';
import { fold } from './names.ts';
import { PictureInTheWay, putPictureBack } from './applyPictures.ts';
import type {
  AddedSheet,
  ApplyOutcome,
  ApplyProgress,
  Remembered,
  RememberedPicture,
  UndoPlan,
} from './outcome.ts';
import { boxAddress, formatPlace, type Box, type Place } from './places.ts';
import type { PlanStep } from './plan.ts';
import type { CellValue } from './reading.ts';

export type Tick = (stage: ApplyProgress['stage']) => void;

/** What was written did not arrive as written. */
export class NotAsWritten extends Error {
  constructor(readonly places: readonly Place[]) {
    super('not as written');
  }
}

/** Why something failed, in a sentence. */
export function reasonOf(error: unknown): string {
  if (error instanceof ProgrammerError) return `The add-in made a mistake (${error.message}).`;
  if (error instanceof PictureInTheWay) return error.message;
  if (!(error instanceof NotAsWritten)) return explain(error).sentence;
  const shown = error.places.slice(0, 3).map(formatPlace).join(', ');
  const more = error.places.length > 3 ? ` and ${error.places.length - 3} more` : '';
  return `Excel changed what was written at ${shown}${more}.`;
}

/** Undo groups need ExcelApi 1.20; older versions undo step by step. */
export const groupsUndo = (): boolean => Office.context.requirements.isSetSupported('ExcelApi', '1.20');

export const runOptions = (): Excel.RunOptions => (groupsUndo() ? { mergeUndoGroup: true } : {});

const blockId = ({ step, box }: { readonly step: number; readonly box: Box }): string => `${step} ${box.row}`;

/** How far a plan was carried out. */
export class Trace {
  private last = -1;
  private readonly blocks = new Set<string>();
  private readonly sheets = new Map<number, AddedSheet>();
  private readonly kept = new Map<number, RememberedPicture>();

  /** The trace of a plan that was carried out to its end. */
  static whole(undo: UndoPlan): Trace {
    const trace = new Trace();
    undo.steps.forEach((step, index) => {
      trace.begin(index);
      for (const block of blocksOf(step, index)) trace.beginBlock(block);
    });
    for (const sheet of undo.added) trace.sheets.set(sheet.step, sheet);
    for (const picture of undo.pictures) trace.keepPicture(picture);
    return trace;
  }

  begin(step: number): void {
    this.last = step;
  }

  /** Excel has answered that it did nothing. */
  refused(step: number): void {
    this.last = step - 1;
  }

  beginBlock(block: { readonly step: number; readonly box: Box }): void {
    this.blocks.add(blockId(block));
  }

  /** Excel has answered that the sheet is there, and which one it is. */
  confirm(step: number, sheet: string, id: string): void {
    this.sheets.set(step, { step, sheet, id });
  }

  /** What lies where a picture is about to be put. */
  keepPicture(picture: RememberedPicture): void {
    this.kept.set(picture.step, picture);
  }

  pictureOf = (step: number): RememberedPicture | undefined => this.kept.get(step);
  pictures = (): RememberedPicture[] => [...this.kept.values()];

  hasBegun = (step: number): boolean => step <= this.last;
  hasBegunBlock = (block: { readonly step: number; readonly box: Box }): boolean =>
    this.blocks.has(blockId(block));
  sheetOf = (step: number): AddedSheet | undefined => this.sheets.get(step);
  added = (): AddedSheet[] => [...this.sheets.values()];
}

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
  const begun = before.filter((content) => trace.hasBegunBlock(content));
  for (let attempt = 0; attempt < TRIES; attempt++) {
    try {
      await Excel.run(runOptions(), (context) => takeBack(context, steps, begun, trace, tick));
      return {
        outcome: 'rolled-back',
        stopped,
        sentence: `${reason} The workbook is as it was before.`.trim(),
      };
    } catch (error) {
      last = reasonOf(error);
    }
  }
  const places = placesTouched(steps, trace);
  return {
    outcome: 'broken',
    places,
    sentence:
      `${reason} Taking it back failed too: ${last} Check ${places.map((b) => formatPlace({ sheet: b.sheet, address: boxAddress(b) })).join(', ')}, or close the workbook without saving.`.trim(),
  };
}

const placesTouched = (steps: readonly PlanStep[], trace: Trace): Box[] =>
  steps.flatMap((step, index) =>
    blocksOf(step, index)
      .filter((block) => trace.hasBegunBlock(block))
      .map((block) => block.box),
  );

async function takeBack(
  context: Excel.RequestContext,
  steps: readonly PlanStep[],
  before: readonly Remembered[],
  trace: Trace,
  tick: Tick,
): Promise<void> {
  const added = addedSheets(steps);
  for (const [index, step] of [...steps.entries()].reverse()) {
    if (!trace.hasBegun(index)) continue;
    if (step.kind === 'add-sheet') {
      const sheet = trace.sheetOf(index);
      if (sheet) await removeSheet(context, sheet.id);
      else await removeUnconfirmed(context, step.sheet);
    } else if (step.kind === 'picture') {
      const kept = trace.pictureOf(index);
      if (kept && !added.has(fold(step.sheet))) await putPictureBack(context, step, kept);
    } else if (step.kind === 'resize-table') await resizeBack(context, step);
    else if (step.kind === 'write' && !added.has(fold(step.sheet))) {
      for (const content of before.filter((b) => b.step === index)) {
        const range = rangeOf(context, content.box);
        range.numberFormat = formatsToWriteUnder(content);
        range.formulas = formulasToRestore(content);
        range.numberFormat = content.numberFormats.map((row) => [...row]);
        // eslint-disable-next-line office-addins/no-context-sync-in-loop -- a block is as much as one request may hold
        await context.sync();
        tick('taking back');
      }
    }
  }
  for (const content of before) {
    const { remembered } = await remember(context, content.step, content.box);
    if (!sameCells(content, remembered))
      throw new NotAsWritten([{ sheet: content.box.sheet, address: boxAddress(content.box) }]);
  }
}

async function removeSheet(context: Excel.RequestContext, id: string): Promise<void> {
  const sheet = context.workbook.worksheets.getItemOrNullObject(id);
  await context.sync();
  if (!sheet.isNullObject) sheet.delete();
  await context.sync();
}

/**
 * The answer to adding this sheet never came, so one of its name may be ours or may be somebody else's. Ours would
 * still be empty, since nothing is written before the answer; a sheet with anything on it is left alone.
 */
async function removeUnconfirmed(context: Excel.RequestContext, name: string): Promise<void> {
  const sheet = context.workbook.worksheets.getItemOrNullObject(name);
  const used = sheet.getUsedRangeOrNullObject(false);
  const { tables } = sheet;
  tables.load('items/name');
  sheet.load('id');
  await context.sync();
  if (sheet.isNullObject || !used.isNullObject || tables.items.length > 0) return;
  sheet.delete();
  await context.sync();
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
