/**
 * Carries out write plans, and takes them back. The only place that changes cells, sheets and tables.
 *
 * Order: compare everything with what the plan expected; write block by block, text format first; read back and
 * compare; on any failure, or when stopped, put back what was there. Putting back is idempotent, since after a lost
 * answer nobody knows whether the last request was carried out. While it goes on, a note of it stands in the workbook
 * (`applyJournal.ts`).
 */
import { changeFoot, setFoot } from './pageFoot.ts';
import { ProgrammerError } from '../keying/result.ts';
import { blocksOf, hasFormulas, miswritten, numberFormats, writtenCells, type Block } from './blocks.ts';
import { claim, completeNote, noteOf, release, releaseWithin, type KeptNote } from './applyJournal.ts';
import { rangeOf } from './cells.ts';
import { placePicture, rememberPicture } from './applyPictures.ts';
import { checkPlan, checkUndo, remember } from './check.ts';
import { describeDone } from './describe.ts';
import { codeOf, explain } from './excelErrors.ts';
import { runExcel } from './excelRun.ts';
import type { ApplyOptions, ApplyOutcome, Remembered, UndoPlan } from './outcome.ts';
import type { Box, Place } from './places.ts';
import type { Conflict, PlanStep, SheetLayout, WritePlan } from './plan.ts';
import { namesNow } from './sheetIds.ts';
import { groupsUndo, NotAsWritten, putBack, Renamed, reasonOf, runOptions, type Tick } from './takeBack.ts';
import { Trace } from './takeBackTrace.ts';

/** Carries a plan out. Never throws for what Excel or the user did; the outcome says what happened. */
export async function applyPlan(plan: WritePlan, options: ApplyOptions = {}): Promise<ApplyOutcome> {
  if (plan.conflicts.length > 0) return refusal('something is in the way. See the list.', plan.conflicts);
  const blocks = plan.steps.flatMap(blocksOf);
  const tick = progress(blocks.length * 2 + plan.steps.length, options);
  let before: readonly Remembered[] | undefined;
  let note: string | undefined;
  const trace = new Trace();
  let outcome: ApplyOutcome;
  let slip: ProgrammerError | undefined;
  try {
    outcome = await runExcel(async (context): Promise<ApplyOutcome> => {
      const { id, others } = await claim(context, noteOf(plan.title, plan.steps, false));
      note = id;
      if (others.length > 0)
        return refusal('another write is under way or was broken off. See the list.', [busy(others)]);
      const checked = await checkPlan(context, plan.steps, tick);
      if (checked.reasons.length > 0)
        return refusal(
          'the workbook is not as it was when the plan was made. See the list.',
          checked.reasons,
        );
      stopIfAsked(options.signal);
      before = checked.before;
      trace.know(checked.sheets);
      trace.knowTables(checked.tables);
      trace.setOutFrom(checked.ids);
      completeNote(context, id, noteOf(plan.title, plan.steps, false, before, checked.ownSheets));
      for (const [index, step] of plan.steps.entries())
        await carryOut(context, step, index, trace, tick, options.signal);
      const after = await readBack(context, blocks, trace, tick, options.signal);
      await releaseWithin(context, id);
      note = undefined;
      return {
        outcome: 'done',
        sentence: describeDone(plan.effects),
        cells: blocks.reduce((sum, block) => sum + block.box.rows * block.box.columns, 0),
        oneUndo: groupsUndo(),
        undo: {
          title: plan.title,
          steps: plan.steps,
          before,
          after,
          added: trace.added(),
          sheets: trace.knownSheets(),
          tables: trace.knownTables(),
          pictures: trace.pictures(),
        },
      };
    }, runOptions());
  } catch (error) {
    const stopped = error instanceof Stopped;
    const reason = stopped ? 'Stopped.' : reasonOf(error);
    // a mistake of ours is not hidden, but never before the workbook is safe
    if (error instanceof ProgrammerError) slip = error;
    if (before) outcome = await putBack(plan.steps, before, trace, reason, stopped, tick);
    else if (stopped)
      outcome = { outcome: 'rolled-back', sentence: 'Stopped; nothing was written.', stopped };
    else outcome = { ...refusal(reason, [{ sentence: reason }]), sentence: `Nothing was written. ${reason}` };
  }
  // a note of a write that could not be put back is left for whoever opens the book next
  if (note !== undefined && outcome.outcome !== 'broken') await release(note);
  if (slip && outcome.outcome !== 'broken') throw slip;
  return outcome;
}

/** Takes an applied plan back. Refuses where cells were changed since, and lists them. */
export async function undoPlan(undo: UndoPlan, options: ApplyOptions = {}): Promise<ApplyOutcome> {
  const tick = progress(undo.after.length + undo.before.length, options);
  let note: string | undefined;
  let doubts: readonly string[] = [];
  let outcome: ApplyOutcome | undefined;
  try {
    const checked = await runExcel(async (context) => {
      const { id, others } = await claim(context, noteOf(undo.title, undo.steps, true));
      note = id;
      return others.length > 0 ? { reasons: [busy(others)], doubts: [] } : checkUndo(context, undo, tick);
    });
    const { reasons } = checked;
    ({ doubts } = checked);
    if (reasons.length > 0)
      outcome = {
        outcome: 'refused',
        sentence: `Nothing was taken back: ${reasons.some(({ at }) => at) ? 'cells were changed since' : 'something is in the way'}. See the list.`,
        reasons,
      };
  } catch (error) {
    const { sentence } = explain(error);
    outcome = {
      outcome: 'refused',
      sentence: `Nothing was taken back. ${sentence}`,
      reasons: [{ sentence }],
    };
  }
  outcome ??= await putBackWhole(undo, doubts, tick);
  if (note !== undefined && outcome.outcome !== 'broken') await release(note);
  return outcome;
}

async function putBackWhole(undo: UndoPlan, doubts: readonly string[], tick: Tick): Promise<ApplyOutcome> {
  const outcome = await putBack(undo.steps, undo.before, Trace.whole(undo), '', false, tick);
  if (outcome.outcome !== 'rolled-back') return outcome;
  return {
    outcome: 'done',
    sentence: [`Taken back: ${undo.title}.`, ...(outcome.kept ? [outcome.sentence] : []), ...doubts].join(
      ' ',
    ),
    cells: undo.after.reduce((sum, { box }) => sum + box.rows * box.columns, 0),
    oneUndo: false,
  };
}

const refusal = (why: string, reasons: readonly Conflict[]): ApplyOutcome & { outcome: 'refused' } => ({
  outcome: 'refused',
  sentence: `Nothing was written: ${why}`,
  reasons,
});

const busy = (others: readonly KeptNote[]): Conflict => ({
  sentence: `“${others[0]?.note?.title ?? 'A write'}” is being written by another window, or was broken off. Wait for it, or go to the start page to take it back or to leave it.`,
});

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
  trace.begin(step, index);
  // by its id, so that a sheet that was put in the place of a renamed one is not written on
  const placed = <T extends { readonly sheet: string }>(box: T): T => ({
    ...box,
    sheet: trace.keyOf(box.sheet),
  });
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
        writeBlock(rangeOf(context, placed(block.box)), block);
        // eslint-disable-next-line office-addins/no-context-sync-in-loop -- a block is as much as one request may hold
        await context.sync();
        tick('writing');
      }
      break;
    case 'add-table': {
      const sheet = context.workbook.worksheets.getItem(trace.keyOf(step.box.sheet));
      const table = sheet.tables.add(rangeOf(context, placed(step.box)), true);
      table.name = step.name;
      table.style = 'TableStyleLight15';
      if (step.plain) {
        table.showFilterButton = false;
        table.getHeaderRowRange().format.font.bold = true;
      }
      table.load('id');
      await context.sync();
      trace.knowTables([{ table: step.name, id: table.id }]);
      break;
    }
    case 'resize-table':
      context.workbook.tables.getItem(trace.tableKeyOf(step.name)).resize(rangeOf(context, placed(step.to)));
      await context.sync();
      break;
    case 'picture':
      trace.keepPicture(await rememberPicture(context, placed(step), index));
      await placePicture(context, placed(step), step.sheet);
      break;
    case 'layout':
      await layOut(context, trace.keyOf(step.sheet), step.layout);
      break;
    case 'foot':
      await changeFoot(context, trace.keyOf(step.sheet), step.foot);
      break;
  }
}

function writeBlock(range: Excel.Range, block: Block): void {
  range.numberFormat = numberFormats(block);
  if (hasFormulas(block)) range.formulas = writtenCells(block);
  else range.values = writtenCells(block);
}

/** Points of a column that holds so many characters of the default font. */
const columnPoints = (characters: number): number => characters * 5.25 + 4;

async function layOut(context: Excel.RequestContext, id: string, layout: SheetLayout): Promise<void> {
  const sheet = context.workbook.worksheets.getItem(id);
  const on = (box: Box): Excel.Range => rangeOf(context, { ...box, sheet: id });
  layout.widths.forEach((width, column) => {
    sheet.getRangeByIndexes(0, column, 1, 1).format.columnWidth = columnPoints(width);
  });
  const title = sheet.getRange('A1').format.font;
  title.bold = true;
  title.size = 14;
  sheet.getRange('A2').format.font.italic = true;
  for (const box of layout.centred ?? []) on(box).format.horizontalAlignment = 'Center';
  for (const box of layout.banners ?? []) {
    const banner = on(box);
    banner.merge();
    banner.format.wrapText = true;
    banner.format.verticalAlignment = 'Top';
  }
  if (layout.middle) on(layout.middle).format.verticalAlignment = 'Center';
  for (const box of layout.large ?? []) {
    const { font } = on(box).format;
    font.size = 16;
    font.bold = true;
  }
  for (const box of layout.wrapped ?? []) on(box).format.wrapText = true;
  for (const { box, from } of layout.choices ?? []) {
    const { dataValidation } = on(box);
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

async function readBack(
  context: Excel.RequestContext,
  blocks: readonly Block[],
  trace: Trace,
  tick: Tick,
  signal: AbortSignal | undefined,
): Promise<Remembered[]> {
  const after: Remembered[] = [];
  const wrong: Place[] = [];
  for (const block of blocks) {
    stopIfAsked(signal);
    const { box } = block;
    const { remembered, name } = await remember(context, block.step, box, trace.keyOf(box.sheet));
    // formulas that name the sheet were written under its old name
    if (name.toLowerCase() !== box.sheet.toLowerCase()) throw new Renamed(`sheet ${box.sheet}`);
    after.push(remembered);
    wrong.push(...miswritten(block, remembered.values, remembered.formulas));
    tick('reading back');
  }
  if (wrong.length > 0) throw new NotAsWritten(wrong);
  // what was written refers to our tables by the names that they had
  const names = await namesNow(context, [], trace.knownTables());
  for (const { table } of trace.knownTables()) {
    if (names.isTableGone(table)) throw new Renamed(`table ${table}`, 'removed');
    if (names.ofTable(table) !== table) throw new Renamed(`table ${table}`);
  }
  return after;
}
