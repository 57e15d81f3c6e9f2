/**
 * Carries out write plans, and takes them back. The only place that changes cells, sheets and tables.
 *
 * Order: compare everything with what the plan expected; write block by block, text format first; read back and
 * compare; on any failure, or when stopped, put back what was there. Putting back is idempotent, since after a lost
 * answer nobody knows whether the last request was carried out.
 */
import { ProgrammerError } from '../keying/result.ts';
import { blocksOf, hasFormulas, miswritten, numberFormats, writtenCells, type Block } from './blocks.ts';
import { rangeOf } from './cells.ts';
import { placePicture, rememberPicture } from './applyPictures.ts';
import { checkPlan, checkUndo, remember } from './check.ts';
import { describeDone } from './describe.ts';
import { codeOf, explain } from './excelErrors.ts';
import type { ApplyOptions, ApplyOutcome, Remembered, UndoPlan } from './outcome.ts';
import type { Place } from './places.ts';
import type { PageFoot, PlanStep, SheetLayout, WritePlan } from './plan.ts';
import { groupsUndo, NotAsWritten, putBack, reasonOf, runOptions, Trace, type Tick } from './takeBack.ts';

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
  const trace = new Trace();
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
        await carryOut(context, step, index, trace, tick, options.signal);
      }
      const after = await readBack(context, blocks, tick, options.signal);
      const undo: UndoPlan = {
        title: plan.title,
        steps: plan.steps,
        before: checked.before,
        after,
        added: trace.added(),
        pictures: trace.pictures(),
      };
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
    if (before) {
      const outcome = await putBack(plan.steps, before, trace, reason, stopped, tick);
      // a mistake of ours is not hidden, but never before the workbook is safe
      if (error instanceof ProgrammerError && outcome.outcome !== 'broken') throw error;
      return outcome;
    }
    if (error instanceof ProgrammerError) throw error;
    return stopped
      ? { outcome: 'rolled-back', sentence: 'Stopped; nothing was written.', stopped }
      : { outcome: 'refused', sentence: `Nothing was written. ${reason}`, reasons: [{ sentence: reason }] };
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
  const trace = Trace.whole(undo);
  const outcome = await putBack(undo.steps, undo.before, trace, '', false, tick);
  if (outcome.outcome !== 'rolled-back') return outcome;
  return {
    outcome: 'done',
    sentence: `Taken back: ${undo.title}.`,
    cells: undo.after.reduce((sum, { box }) => sum + box.rows * box.columns, 0),
    oneUndo: false,
  };
}

class Stopped extends Error {}

function stopIfAsked(signal: AbortSignal | undefined): void {
  if (signal?.aborted) throw new Stopped();
}

function progress(total: number, { onProgress }: ApplyOptions): Tick {
  let done = 0;
  return (stage) => onProgress?.({ stage, done: Math.min(++done, total), total });
}

async function carryOut(
  context: Excel.RequestContext,
  step: PlanStep,
  index: number,
  trace: Trace,
  tick: Tick,
  signal: AbortSignal | undefined,
): Promise<void> {
  stopIfAsked(signal);
  trace.begin(index);
  switch (step.kind) {
    case 'add-sheet': {
      const sheet = context.workbook.worksheets.add(step.sheet);
      sheet.load('id');
      try {
        await context.sync();
      } catch (error) {
        if (codeOf(error) === 'ItemAlreadyExists') trace.refused(index);
        throw error;
      }
      trace.confirm(index, step.sheet, sheet.id);
      break;
    }
    case 'write':
      for (const block of blocksOf(step, index)) {
        stopIfAsked(signal);
        trace.beginBlock(block);
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
    case 'picture':
      trace.keepPicture(await rememberPicture(context, step, index));
      await placePicture(context, step);
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
  for (const { box, from } of layout.choices ?? []) {
    const { dataValidation } = rangeOf(context, box);
    dataValidation.rule = { list: { inCellDropDown: true, source: from.join(',') } };
    // the list is a help: a remark in the shop's own words is no mistake
    dataValidation.errorAlert = { showAlert: false, title: '', message: '', style: 'Information' };
  }
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
