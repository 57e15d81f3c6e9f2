/**
 * Carries out write plans, and takes them back. The only place that changes cells, sheets and tables.
 *
 * Order: compare everything with what the plan expected; write block by block, text format first; read back and
 * compare; on any failure, or when stopped, put back what was there. Putting back is idempotent, since after a lost
 * answer nobody knows whether the last request was carried out.
 */
import {
  asText,
  blocksOf,
  hasFormulas,
  miswritten,
  numberFormats,
  writtenCells,
  type Block,
} from './blocks.ts';
import { isFormula, rangeOf } from './cells.ts';
import { addedSheets, checkPlan, checkUndo, remember, sameCells } from './check.ts';
import { describeDone } from './describe.ts';
import { explain } from './excelErrors.ts';
import { fold } from './names.ts';
import type { ApplyOptions, ApplyOutcome, ApplyProgress, Remembered, UndoPlan } from './outcome.ts';
import { boxAddress, formatPlace, type Box, type Place } from './places.ts';
import type { PageFoot, PlanStep, SheetLayout, WritePlan } from './plan.ts';

/** Carries a plan out. Never throws for what Excel or the user did; the outcome says what happened. */
export async function applyPlan(plan: WritePlan, options: ApplyOptions = {}): Promise<ApplyOutcome> {
  if (plan.conflicts.length > 0)
    return {
      outcome: 'refused',
      sentence: 'Nothing was written: something is in the way.',
      reasons: plan.conflicts,
    };
  const blocks = plan.steps.flatMap(blocksOf);
  const tick = progress(blocks.length * 2 + plan.steps.length, options);
  let before: readonly Remembered[] | undefined;
  try {
    return await Excel.run(runOptions(), async (context): Promise<ApplyOutcome> => {
      const checked = await checkPlan(context, plan.steps, tick);
      if (checked.reasons.length > 0)
        return {
          outcome: 'refused',
          sentence: 'Nothing was written: the workbook is not as it was when the plan was made.',
          reasons: checked.reasons,
        };
      stopIfAsked(options.signal);
      before = checked.before;
      for (const [index, step] of plan.steps.entries()) {
        await carryOut(context, step, index, tick, options.signal);
      }
      const after = await readBack(context, blocks, tick, options.signal);
      const undo: UndoPlan = { title: plan.title, steps: plan.steps, before: checked.before, after };
      return {
        outcome: 'done',
        sentence: describeDone(plan.effects),
        cells: blocks.reduce((sum, block) => sum + block.box.rows * block.box.columns, 0),
        oneUndo: groupsUndo(),
        undo,
      };
    });
  } catch (error) {
    const stopped = error instanceof Stopped;
    const reason = stopped ? 'Stopped.' : reasonOf(error);
    if (!before)
      return stopped
        ? { outcome: 'rolled-back', sentence: 'Stopped; nothing was written.', stopped }
        : { outcome: 'refused', sentence: `Nothing was written. ${reason}`, reasons: [{ sentence: reason }] };
    return putBack(plan.steps, before, reason, stopped, tick);
  }
}

/** Takes an applied plan back. Refuses where cells were changed since, and lists them. */
export async function undoPlan(undo: UndoPlan, options: ApplyOptions = {}): Promise<ApplyOutcome> {
  const tick = progress(undo.after.length + undo.before.length, options);
  let reasons: Awaited<ReturnType<typeof checkUndo>>;
  try {
    reasons = await Excel.run((context) => checkUndo(context, undo, tick));
  } catch (error) {
    const { sentence } = explain(error);
    return { outcome: 'refused', sentence: `Nothing was taken back. ${sentence}`, reasons: [{ sentence }] };
  }
  if (reasons.length > 0)
    return {
      outcome: 'refused',
      sentence: 'Nothing was taken back: cells were changed since.',
      reasons,
    };
  const outcome = await putBack(undo.steps, undo.before, '', false, tick);
  if (outcome.outcome !== 'rolled-back') return outcome;
  return {
    outcome: 'done',
    sentence: `Taken back: ${undo.title}.`,
    cells: undo.after.reduce((sum, { box }) => sum + box.rows * box.columns, 0),
    oneUndo: false,
  };
}

class Stopped extends Error {}

/** What was written did not arrive as written. */
class NotAsWritten extends Error {
  constructor(readonly places: readonly Place[]) {
    super('not as written');
  }
}

function reasonOf(error: unknown): string {
  if (!(error instanceof NotAsWritten)) return explain(error).sentence;
  const shown = error.places.slice(0, 3).map(formatPlace).join(', ');
  const more = error.places.length > 3 ? ` and ${error.places.length - 3} more` : '';
  return `Excel changed what was written at ${shown}${more}.`;
}

function stopIfAsked(signal: AbortSignal | undefined): void {
  if (signal?.aborted) throw new Stopped();
}

type Tick = (stage: ApplyProgress['stage']) => void;

function progress(total: number, { onProgress }: ApplyOptions): Tick {
  let done = 0;
  return (stage) => onProgress?.({ stage, done: Math.min(++done, total), total });
}

/** Undo groups need ExcelApi 1.20; older versions undo step by step. */
const groupsUndo = (): boolean => Office.context.requirements.isSetSupported('ExcelApi', '1.20');

const runOptions = (): Excel.RunOptions => (groupsUndo() ? { mergeUndoGroup: true } : {});

async function carryOut(
  context: Excel.RequestContext,
  step: PlanStep,
  index: number,
  tick: Tick,
  signal: AbortSignal | undefined,
): Promise<void> {
  stopIfAsked(signal);
  switch (step.kind) {
    case 'add-sheet':
      context.workbook.worksheets.add(step.sheet);
      await context.sync();
      break;
    case 'write':
      for (const block of blocksOf(step, index)) {
        stopIfAsked(signal);
        writeBlock(context, block);
        // eslint-disable-next-line office-addins/no-context-sync-in-loop -- a block is as much as one request may hold
        await context.sync();
        tick('writing');
      }
      break;
    case 'add-table': {
      const sheet = context.workbook.worksheets.getItem(step.box.sheet);
      const table = sheet.tables.add(rangeOf(context, step.box), true);
      table.name = step.name;
      table.style = 'TableStyleLight15';
      if (step.plain) {
        table.showFilterButton = false;
        table.getHeaderRowRange().format.font.bold = true;
      }
      await context.sync();
      break;
    }
    case 'resize-table':
      context.workbook.tables.getItem(step.name).resize(rangeOf(context, step.to));
      await context.sync();
      break;
    case 'layout':
      await layOut(context, step.sheet, step.layout);
      break;
  }
}

function writeBlock(context: Excel.RequestContext, block: Block): void {
  const range = rangeOf(context, block.box);
  range.numberFormat = numberFormats(block);
  if (hasFormulas(block)) range.formulas = writtenCells(block);
  else range.values = writtenCells(block);
}

/** Points of a column that holds so many characters of the default font. */
const columnPoints = (characters: number): number => characters * 5.25 + 4;

async function layOut(context: Excel.RequestContext, name: string, layout: SheetLayout): Promise<void> {
  const sheet = context.workbook.worksheets.getItem(name);
  layout.widths.forEach((width, column) => {
    sheet.getRangeByIndexes(0, column, 1, 1).format.columnWidth = columnPoints(width);
  });
  const title = sheet.getRange('A1').format.font;
  title.bold = true;
  title.size = 14;
  sheet.getRange('A2').format.font.italic = true;
  if (layout.centred) rangeOf(context, layout.centred).format.horizontalAlignment = 'Center';
  for (const box of layout.large ?? []) {
    const { font } = rangeOf(context, box).format;
    font.size = 16;
    font.bold = true;
  }
  for (const box of layout.wrapped ?? []) rangeOf(context, box).format.wrapText = true;
  for (const { row, rows: count, points } of layout.heights ?? [])
    sheet.getRangeByIndexes(row, 0, count, 1).format.rowHeight = points;
  const { rows, columns } = layout.freeze;
  sheet.freezePanes.freezeAt(sheet.getRangeByIndexes(0, 0, rows, columns));
  await context.sync();
  // a computer without a printer refuses page setup, and that is no reason to take everything back
  try {
    sheet.pageLayout.orientation = layout.landscape ? 'Landscape' : 'Portrait';
    sheet.pageLayout.setPrintArea(layout.printArea);
    if (layout.onePageWide) sheet.pageLayout.zoom = { horizontalFitToPages: 1 };
    sheet.pageLayout.setPrintTitleRows(`$${layout.titleRows.replace(':', ':$')}`);
    if (layout.foot) setFoot(sheet.pageLayout, layout.foot);
    await context.sync();
  } catch (error) {
    explain(error);
  }
}

/** In a footer an ampersand starts a code, so that of a text is doubled. */
function setFoot(page: Excel.PageLayout, { left, right }: PageFoot): void {
  const plain = (text: string): string => text.replaceAll('&', '&&');
  page.zoom = { horizontalFitToPages: 1 };
  const footer = page.headersFooters.defaultForAllPages;
  footer.leftFooter = plain(left);
  footer.centerFooter = 'Page &P of &N';
  footer.rightFooter = plain(right);
}

async function readBack(
  context: Excel.RequestContext,
  blocks: readonly Block[],
  tick: Tick,
  signal: AbortSignal | undefined,
): Promise<Remembered[]> {
  const after: Remembered[] = [];
  const wrong: Place[] = [];
  for (const block of blocks) {
    stopIfAsked(signal);
    const { remembered } = await remember(context, block.step, block.box);
    after.push(remembered);
    wrong.push(...miswritten(block, remembered.values, remembered.formulas));
    tick('reading back');
  }
  if (wrong.length > 0) throw new NotAsWritten(wrong);
  return after;
}

/** How often putting back is tried: each try is a whole one, since it may be repeated without harm. */
const TRIES = 3;

async function putBack(
  steps: readonly PlanStep[],
  before: readonly Remembered[],
  reason: string,
  stopped: boolean,
  tick: Tick,
): Promise<ApplyOutcome> {
  let last = '';
  for (let attempt = 0; attempt < TRIES; attempt++) {
    try {
      await Excel.run(runOptions(), (context) => takeBack(context, steps, before, tick));
      return {
        outcome: 'rolled-back',
        stopped,
        sentence: `${reason} The workbook is as it was before.`.trim(),
      };
    } catch (error) {
      last = reasonOf(error);
    }
  }
  const places = placesTouched(steps);
  return {
    outcome: 'broken',
    places,
    sentence:
      `${reason} Taking it back failed too: ${last} Check ${places.map((b) => formatPlace({ sheet: b.sheet, address: boxAddress(b) })).join(', ')}, or close the workbook without saving.`.trim(),
  };
}

const placesTouched = (steps: readonly PlanStep[]): Box[] =>
  steps.flatMap((step, index) => blocksOf(step, index).map((block) => block.box));

async function takeBack(
  context: Excel.RequestContext,
  steps: readonly PlanStep[],
  before: readonly Remembered[],
  tick: Tick,
): Promise<void> {
  const added = addedSheets(steps);
  for (const [index, step] of [...steps.entries()].reverse()) {
    if (step.kind === 'add-sheet') {
      await removeSheet(context, step.sheet);
    } else if (step.kind === 'resize-table') await resizeBack(context, step);
    else if (step.kind === 'write' && !added.has(fold(step.sheet))) {
      for (const content of before.filter((b) => b.step === index)) {
        const range = rangeOf(context, content.box);
        range.numberFormat = content.numberFormats.map((row) => [...row]);
        range.formulas = formulasToRestore(content);
        // eslint-disable-next-line office-addins/no-context-sync-in-loop -- a block is as much as one request may hold
        await context.sync();
        tick('taking back');
      }
    }
  }
  for (const content of before) {
    const { remembered } = await remember(context, content.step, content.box);
    if (!sameCells(remembered.formulas, content.formulas))
      throw new NotAsWritten([{ sheet: content.box.sheet, address: boxAddress(content.box) }]);
  }
}

async function removeSheet(context: Excel.RequestContext, name: string): Promise<void> {
  const sheet = context.workbook.worksheets.getItemOrNullObject(name);
  await context.sync();
  if (!sheet.isNullObject) sheet.delete();
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

/** Text goes back as text: a General cell would take `01234` for a number. */
const formulasToRestore = ({
  formulas,
  values,
  numberFormats: formats,
}: Remembered): (string | number | boolean)[][] =>
  formulas.map((row, r) =>
    row.map((cell, c) =>
      typeof cell === 'string' && formats[r]?.[c] !== '@' && !isFormula(cell, values[r]?.[c] ?? '')
        ? asText(cell)
        : cell,
    ),
  );
