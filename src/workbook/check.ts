/**
 * The look before the leap: is the workbook still what the plan was made from? Reads only. Everything that stands in
 * the way is listed, so that the user meets it once.
 */
import { addedSheets, blocksOf, differing, ownThings, unexpectedCells } from './blocks.ts';
import { isFormula, loadBox, rangeOf, toCells } from './cells.ts';
import { fold, isOurs } from './names.ts';
import type { ApplyProgress, Remembered, UndoPlan } from './outcome.ts';
import { referencesTo } from './references.ts';
import { boxAddress, cellAddress, contains, place, type Box } from './places.ts';
import type { Conflict, PlanStep } from './plan.ts';
import { knownSheets, knownTables, namesNow, type KnownSheet, type KnownTable } from './sheetIds.ts';
import { strangersOn, type IsOurs } from './takeBackSheets.ts';

export interface Checked {
  readonly reasons: readonly Conflict[];
  /** Content of every block on sheets that exist, before anything is written. */
  readonly before: readonly Remembered[];
  /** Sheets that tables of ours are on. */
  readonly ownSheets: ReadonlySet<string>;
  /** Which sheets the plan's names stand for. */
  readonly sheets: readonly KnownSheet[];
  /** The same of our tables. */
  readonly tables: readonly KnownTable[];
  /** The ids of all sheets. */
  readonly ids: readonly string[];
}

type Tick = (stage: ApplyProgress['stage']) => void;

/** Reasons why a plan can't be carried out now, and the content of every block that it would change. */
export async function checkPlan(
  context: Excel.RequestContext,
  steps: readonly PlanStep[],
  tick: Tick,
): Promise<Checked> {
  const { reasons, ...objects } = await checkObjects(context, steps, 'apply');
  reasons.push(...tooLong(steps));
  const added = addedSheets(steps);
  const before: Remembered[] = [];
  if (reasons.length > 0) return { reasons, before, ...objects };
  for (const block of steps.flatMap(blocksOf)) {
    if (added.has(fold(block.box.sheet))) continue;
    const { remembered, merged } = await remember(context, block.step, block.box);
    before.push(remembered);
    reasons.push(...mergedReason(block.box, merged));
    for (const { at, holds } of unexpectedCells(block, remembered.formulas))
      reasons.push({
        at,
        holds,
        sentence: 'This cell has changed since the book was read. Read it again and make the plan anew.',
      });
    tick('checking');
  }
  return { reasons, before, ...objects };
}

/** Characters that a cell of Excel's holds. */
const LONGEST_TEXT = 32_767;

/** Texts that no cell takes: better told by their place than refused by Excel in the middle. */
const tooLong = (steps: readonly PlanStep[]): Conflict[] =>
  steps.flatMap((step) =>
    step.kind !== 'write'
      ? []
      : step.cells.flatMap((row, r) =>
          row.flatMap((cell, c): Conflict[] => {
            if (typeof cell !== 'string' || cell.length <= LONGEST_TEXT) return [];
            const has = cell.length.toLocaleString('en-US');
            const most = LONGEST_TEXT.toLocaleString('en-US');
            return [
              {
                at: place(step.sheet, step.row + r, step.column + c),
                sentence: `“${cell.slice(0, 30)}…”, which was to go here, has ${has} characters, and a cell holds ${most}. Shorten it.`,
              },
            ];
          }),
        ),
  );

/**
 * Before an undo: everything that we wrote must still be as we left it, and added sheets hold nothing else. The doubts
 * are sentences about what may refer to an added sheet and can't be looked into.
 */
export async function checkUndo(
  context: Excel.RequestContext,
  applied: UndoPlan,
  tick: Tick,
): Promise<{ readonly reasons: readonly Conflict[]; readonly doubts: readonly string[] }> {
  const names = await namesNow(context, applied.sheets, applied.tables);
  if (names.gone.length > 0) return { reasons: names.gone.map(deleted), doubts: [] };
  const undo = names.undo(applied);
  const { reasons } = await checkObjects(context, undo.steps, 'undo');
  if (reasons.length > 0) return { reasons, doubts: [] };
  const added = addedSheets(undo.steps);
  for (const after of undo.after) {
    const { formulas } = await loadBox(context, after.box);
    for (const { at, holds } of differing(after.box, formulas, (r, c) => after.formulas[r]?.[c] ?? ''))
      reasons.push({ at, holds, sentence: 'This cell was changed since, so it is not taken back.' });
    tick('checking');
  }
  // a cell of ours that was changed is listed already
  for (const { id, sheet } of undo.added) {
    const boxes = undo.after.flatMap(({ box }) => (fold(box.sheet) === fold(sheet) ? [box] : []));
    const within: IsOurs = (row, column) => boxes.some((box) => contains(box, row, column));
    const found = context.workbook.worksheets.getItem(id);
    reasons.push(...(await strangersOn(context, found, within, ownThings(undo.steps))));
  }
  if (added.size === 0) return { reasons, doubts: [] };
  const { found, doubts } = await referencesTo(context, undo);
  return { reasons: dedupe([...reasons, ...found]), doubts };
}

const deleted = (sheet: string): Conflict => ({
  sentence: `The sheet ${sheet} was deleted since, and a sheet of its name would be another one. Take the rest back by hand, or open an earlier version of the file.`,
});

function dedupe(reasons: readonly Conflict[]): Conflict[] {
  const seen = new Set<string>();
  return reasons.filter(({ at, sentence }) => {
    const id = `${at?.sheet ?? ''}!${at?.address ?? ''} ${sentence}`;
    if (seen.has(id)) return false;
    seen.add(id);
    return true;
  });
}

/** Sheets, tables and protection: what a plan takes for granted about them. */
async function checkObjects(
  context: Excel.RequestContext,
  steps: readonly PlanStep[],
  direction: 'apply' | 'undo',
): Promise<{ readonly reasons: Conflict[] } & Pick<Checked, 'ownSheets' | 'sheets' | 'tables' | 'ids'>> {
  const { worksheets, tables, protection } = context.workbook;
  worksheets.load('items/name,items/id');
  tables.load('items/name,items/id,items/showTotals,items/worksheet/name');
  protection.load('protected');
  await context.sync();
  const reasons: Conflict[] = [];
  const ownSheets = new Set(
    tables.items.filter((table) => isOurs(table.name)).map((table) => table.worksheet.name),
  );
  const sheets = new Map(worksheets.items.map((sheet) => [fold(sheet.name), sheet]));
  const byName = new Map(tables.items.map((table) => [fold(table.name), table]));
  const added = addedSheets(steps);
  if (added.size > 0 && protection.protected)
    reasons.push({ sentence: 'The workbook’s structure is protected: take that protection off first.' });
  const needed = new Set<string>();
  for (const step of steps) {
    if (step.kind === 'add-sheet') {
      if (direction === 'apply' && sheets.has(fold(step.sheet)))
        reasons.push({ sentence: `A sheet ${step.sheet} was added since the book was read. Read it again.` });
      if (direction === 'undo') needed.add(step.sheet);
    } else if ((step.kind === 'write' || step.kind === 'picture') && !added.has(fold(step.sheet)))
      needed.add(step.sheet);
    else if (step.kind === 'add-table' && direction === 'apply' && byName.has(fold(step.name)))
      reasons.push({ sentence: `A table ${step.name} was added since the book was read. Read it again.` });
  }
  const protections = [...needed].flatMap((name) => {
    const sheet = sheets.get(fold(name));
    if (!sheet) {
      reasons.push({ sentence: `The sheet ${name} is gone or was renamed. Read the book again.` });
      return [];
    }
    sheet.protection.load('protected');
    return [{ name, protection: sheet.protection }];
  });
  const filters = filtersOver(steps, sheets, tables.items);
  const resized = steps.flatMap((step) => {
    if (step.kind !== 'resize-table') return [];
    const table = byName.get(fold(step.name));
    if (!table) {
      reasons.push({ sentence: `The table ${step.name} is gone. Read the book again.` });
      return [];
    }
    const range = table.getRange();
    range.load('rowIndex,columnIndex,rowCount,columnCount');
    table.worksheet.load('name');
    return [{ step, table, range }];
  });
  await context.sync();
  for (const { name, protection: state } of protections)
    if (state.protected)
      reasons.push({ sentence: `The sheet ${name} is protected: take the protection off first.` });
  reasons.push(...filters());
  for (const { step, table, range } of resized) {
    const wanted = direction === 'apply' ? step.from : step.to;
    const now: Omit<Box, 'sheet'> = {
      row: range.rowIndex,
      column: range.columnIndex,
      rows: range.rowCount,
      columns: range.columnCount,
    };
    if (table.showTotals)
      reasons.push({ sentence: `The table on ${step.from.sheet} has a totals row: switch it off first.` });
    else if (boxAddress(now) !== boxAddress(wanted) || fold(table.worksheet.name) !== fold(wanted.sheet))
      reasons.push({
        sentence: `The table on ${step.from.sheet} was moved or has other rows by now. Read the book again.`,
      });
  }
  return {
    reasons,
    ownSheets,
    sheets: knownSheets(steps, worksheets.items),
    tables: knownTables(tables.items),
    ids: worksheets.items.map(({ id }) => id),
  };
}

/**
 * Asks for the filters whose hidden rows a write would miss: Excel puts what is written into the rows that are seen. A
 * filter hides whole rows, also those of what lies beside it. After the next request the result tells what is in the way.
 */
function filtersOver(
  steps: readonly PlanStep[],
  sheets: ReadonlyMap<string, Excel.Worksheet>,
  tables: readonly Excel.Table[],
): () => Conflict[] {
  const added = addedSheets(steps);
  const rows = new Map<string, Rows[]>();
  for (const { box } of steps.flatMap(blocksOf)) {
    const name = fold(box.sheet);
    if (!added.has(name)) rows.set(name, [...(rows.get(name) ?? []), { row: box.row, rows: box.rows }]);
  }
  const own = [...rows.keys()].flatMap((folded) => {
    const sheet = sheets.get(folded);
    return sheet ? [{ name: sheet.name, autoFilter: sheet.autoFilter }] : [];
  });
  for (const { autoFilter } of own) autoFilter.load('isDataFiltered');
  const beside = tables
    .filter((table) => rows.has(fold(table.worksheet.name)))
    .map((table) => {
      const range = table.getRange();
      range.load('rowIndex,rowCount');
      table.autoFilter.load('isDataFiltered');
      // now: a sheet may be called otherwise by the time of the answer
      return { name: table.worksheet.name, table, range };
    });
  return () => [
    ...own.flatMap(({ name, autoFilter }) =>
      autoFilter.isDataFiltered
        ? [
            {
              sentence: `The sheet ${name} is filtered, and writing would miss its hidden rows: clear the filter first.`,
            },
          ]
        : [],
    ),
    ...beside.flatMap(({ name, table, range }) => {
      const hit = rows
        .get(fold(name))!
        .some(
          (block) => block.row <= range.rowIndex + range.rowCount && range.rowIndex <= block.row + block.rows,
        );
      return table.autoFilter.isDataFiltered && hit
        ? [{ sentence: `The table on ${name} is filtered: clear the filter first.` }]
        : [];
    }),
  ];
}

type Rows = Pick<Box, 'row' | 'rows'>;

/** Reads a box with everything that putting it back takes, and what its sheet is called; `sheet` may be an id. */
export async function remember(
  context: Excel.RequestContext,
  step: number,
  box: Box,
  sheet = box.sheet,
): Promise<{ readonly remembered: Remembered; readonly merged: boolean; readonly name: string }> {
  const range = rangeOf(context, { ...box, sheet });
  range.load('values,formulas,numberFormat,valueTypes,worksheet/name');
  const merged = range.getMergedAreasOrNullObject();
  merged.load('address');
  await context.sync();
  return {
    remembered: {
      step,
      box,
      values: toCells(range.values),
      formulas: toCells(range.formulas),
      numberFormats: toCells(range.numberFormat).map((row) => row.map(String)),
      types: toCells(range.valueTypes).map((row) => row.map(String)),
    },
    merged: !merged.isNullObject,
    name: range.worksheet.name,
  };
}

function mergedReason(box: Box, merged: boolean): Conflict[] {
  if (!merged) return [];
  const at = { sheet: box.sheet, address: cellAddress(box.row, box.column) };
  return [{ at, sentence: `There are merged cells within ${boxAddress(box)}. Unmerge them first.` }];
}

/**
 * Whether a cell of a box holds the same at two moments: its formula, and of a cell without one the kind of content too,
 * since an error and a text may read alike. What formulas come to is left out: it changes by itself.
 */
export function sameCell(a: Remembered, b: Remembered, r: number, c: number): boolean {
  const cell = a.formulas[r]?.[c] ?? '';
  const formula = isFormula(cell, a.values[r]?.[c] ?? '');
  const other = b.formulas[r]?.[c];
  if (cell !== other || formula !== isFormula(other, b.values[r]?.[c] ?? '')) return false;
  return formula || a.types[r]?.[c] === b.types[r]?.[c];
}

/** The same for all cells of a box, but for those that are passed over. */
export const sameCells = (a: Remembered, b: Remembered, but: readonly Cell[] = []): boolean =>
  a.formulas.length === b.formulas.length &&
  a.formulas.every((row, r) =>
    row.every((_, c) => but.some((cell) => cell.row === r && cell.column === c) || sameCell(a, b, r, c)),
  );

/** A cell within a box. */
export interface Cell {
  readonly row: number;
  readonly column: number;
}
