/**
 * Writing into a table that exists: rows below it, or its rows replaced by others. The reading is searched for
 * whatever stands in the way, and all of it is listed.
 */
import { columnOf, type ColumnSpec } from './columns.ts';
import { sliceCells } from './cells.ts';
import { isBlank } from './fields.ts';
import { headerReference } from './formulas.ts';
import { place, type Box } from './places.ts';
import type { CellInput, PageFoot } from './plan.ts';
import { createSheet, formulaBlock, type PlanBuilder, type TableContent } from './planTable.ts';
import type { CellValue, SheetReading, TableReading } from './reading.ts';

const SORTED_OUT = 'Do that first, then read the book again.';

/** Whatever keeps us from writing into a table: protection, a filter, a totals row. */
export function reportObstacles(builder: PlanBuilder, table: TableReading): void {
  const at = place(table.sheet, table.box.row, table.box.column);
  if (sheetOf(builder, table.sheet)?.protected)
    builder.conflict(`The sheet ${table.sheet} is protected: take the protection off. ${SORTED_OUT}`, at);
  if (table.filtered)
    builder.conflict(
      `The table on ${table.sheet} is filtered, and writing would miss its hidden rows: clear the filter. ${SORTED_OUT}`,
      at,
    );
  if (table.totals)
    builder.conflict(
      `The table on ${table.sheet} has a totals row in the way: switch it off. ${SORTED_OUT}`,
      at,
    );
}

const sheetOf = (builder: PlanBuilder, name: string): SheetReading | undefined =>
  builder.book.sheets.find((sheet) => sheet.name === name);

/** Content of a box now, formulas where there are any. */
export function contentOf(builder: PlanBuilder, box: Box): CellValue[][] {
  const sheet = sheetOf(builder, box.sheet);
  return sheet?.used && sheet.formulas
    ? sliceCells(sheet.formulas, sheet.used, box)
    : Array.from({ length: box.rows }, () => Array.from({ length: box.columns }, () => ''));
}

/** Lists the filled cells of a box as conflicts. */
export function reportFilled(builder: PlanBuilder, box: Box): void {
  contentOf(builder, box).forEach((row, r) =>
    row.forEach((cell, c) => {
      if (isBlank(cell)) return;
      builder.conflict(
        'This cell is not empty, and the table has to grow over it. Move its content.',
        place(box.sheet, box.row + r, box.column + c),
        String(cell),
      );
    }),
  );
}

/** Adds rows below an existing table and grows it. Columns go by their headings; others are left alone. */
function appendRows(builder: PlanBuilder, table: TableReading, content: TableContent): void {
  reportObstacles(builder, table);
  const count = content.rows.length;
  if (count === 0) return;
  const { box } = table;
  const blank =
    table.values.length === 1 && (table.values[0] ?? []).every((v, c) => vacant(table, content, c, v));
  const first = blank ? box.row + 1 : box.row + box.rows;
  const to = { ...box, rows: first - box.row + count };
  const grown = { ...box, row: box.row + box.rows, rows: to.rows - box.rows };
  reportFilled(builder, grown);
  const target: Box = { ...box, row: first, rows: count };
  writeColumns(builder, table, content, target, content.rows, () => {
    if (to.rows !== box.rows) builder.steps.push({ kind: 'resize-table', name: table.name, from: box, to });
  });
  builder.effects.push({ kind: 'rows', sheet: table.sheet, rows: count, what: 'rows added' });
}

/** A cell of a new table's only, still empty row: blank, or a formula of ours. */
function vacant(table: TableReading, content: TableContent, column: number, value: CellValue): boolean {
  return (
    isBlank(value) ||
    content.columns.some((c) => c.formula !== undefined && columnOf(table, c.heading) === column)
  );
}

/** Puts other rows in the place of all those in a table of ours. Notes in columns of the shop's are never moved. */
function replaceRows(builder: PlanBuilder, table: TableReading, content: TableContent): void {
  reportObstacles(builder, table);
  const { box } = table;
  const ours = new Set(content.columns.map((c) => columnOf(table, c.heading)));
  table.values.forEach((row, r) =>
    row.forEach((cell, c) => {
      if (ours.has(c) || isBlank(cell)) return;
      builder.conflict(
        `“${table.headers[c] ?? ''}” is a column of your own, and its notes would end up beside other rows. Move it off this sheet.`,
        place(table.sheet, box.row + 1 + r, box.column + c),
        String(cell),
      );
    }),
  );
  const before = box.rows - 1;
  const count = Math.max(1, content.rows.length);
  const empty = content.columns.map(() => '');
  const rows = Array.from({ length: Math.max(before, count) }, (_, r) => content.rows[r] ?? empty);
  const to = { ...box, rows: count + 1 };
  if (count > before) reportFilled(builder, { ...box, row: box.row + box.rows, rows: count - before });
  writeLine(builder, table, content.line);
  if (content.foot)
    builder.steps.push({
      kind: 'foot',
      sheet: table.sheet,
      foot: content.foot,
      before: footBefore(builder, table, content.foot),
    });
  writeColumns(builder, table, content, { ...box, row: box.row + 1, rows: rows.length }, rows, () => {
    if (count !== before) builder.steps.push({ kind: 'resize-table', name: table.name, from: box, to });
  });
  const filled = table.values.filter((row) => row.some((cell) => !isBlank(cell))).length;
  builder.effects.push({
    kind: 'replace',
    sheet: table.sheet,
    rows: content.rows.length,
    before: filled,
    what: 'rows replaced',
  });
}

/** Brings the line under the title up to date, where it still stands two rows above the table. */
function writeLine(builder: PlanBuilder, table: TableReading, line: string): void {
  const box: Box = {
    sheet: table.sheet,
    row: table.box.row - 2,
    column: table.box.column,
    rows: 1,
    columns: 1,
  };
  if (box.row < 1) return;
  const now = contentOf(builder, box);
  if (typeof now[0]?.[0] !== 'string' || isBlank(now[0][0])) return;
  builder.steps.push({
    kind: 'write',
    sheet: box.sheet,
    row: box.row,
    column: box.column,
    cells: [[line]],
    formats: ['general'],
    expected: now,
  });
}

/** The foot that a report had: its line says of which revision and day it was. */
function footBefore(builder: PlanBuilder, table: TableReading, foot: PageFoot): PageFoot {
  const box = { ...table.box, row: Math.max(0, table.box.row - 2), rows: 1, columns: 1 };
  const line = String(contentOf(builder, box)[0]?.[0] ?? '');
  const [, revision, day] = /Revision (.*?) of (.*?)\. /.exec(`${line} `) ?? [];
  return revision === undefined ? foot : { left: foot.left, right: `Revision ${revision}, ${day}` };
}

function writeColumns(
  builder: PlanBuilder,
  table: TableReading,
  content: TableContent,
  target: Box,
  rows: readonly (readonly CellInput[])[],
  resize: () => void,
): void {
  const at = content.columns.map((column) => columnOf(table, column.heading));
  content.columns.forEach((column, i) => {
    if (at[i]! >= 0 || column.formula !== undefined || rows.every((row) => row[i] === '')) return;
    builder.conflict(
      `The table on ${table.sheet} has no column “${column.heading}”. Add it, or give the renamed column its name back.`,
      place(table.sheet, table.box.row, table.box.column),
    );
  });
  for (const run of runsOf(content.columns, at)) {
    const box = { ...target, column: target.column + at[run[0]!]!, columns: run.length };
    builder.steps.push({
      kind: 'write',
      sheet: box.sheet,
      row: box.row,
      column: box.column,
      cells: rows.map((row) => run.map((i) => row[i] ?? '')),
      formats: run.map((i) => content.columns[i]!.format),
      expected: contentOf(builder, box),
    });
  }
  resize();
  content.columns.forEach((column, i) => {
    if (column.formula === undefined || at[i]! < 0) return;
    const formula = formulaIn(builder, table, content.columns, at, column.formula);
    if (formula === undefined) return;
    const box = { ...target, column: target.column + at[i]!, columns: 1 };
    // a table fills a calculated column by itself when it grows, so what is expected is what was there before
    builder.steps.push(
      formulaBlock(box.sheet, box.row, box.column, formula, box.rows, contentOf(builder, box)),
    );
  });
}

/**
 * A formula of ours with the headings as they stand in this table. A column that it names has to be there, and those
 * of a range side by side: anything placed between them would be counted in. Undefined, with a conflict, otherwise.
 */
export function formulaIn(
  builder: PlanBuilder,
  table: TableReading,
  columns: readonly ColumnSpec[],
  at: readonly number[],
  formula: string,
): string | undefined {
  const where = place(table.sheet, table.box.row, table.box.column);
  const [headings = []] = contentOf(builder, { ...table.box, rows: 1 });
  let sound = true;
  const bar = (sentence: string): void => {
    sound = false;
    builder.conflict(sentence, where);
  };
  const indexOf = (heading: string): number => columns.findIndex((c) => c.heading === heading);
  const reference = (i: number): string => `[${headerReference(String(headings[at[i]!] ?? ''))}]`;
  const text = formula.replace(
    /\[@(?:\[([^\]]+)\]:\[([^\]]+)\]|([^[\]]+))\]/g,
    (whole, from: string | undefined, to: string | undefined, one: string | undefined) => {
      const [first, last] = [indexOf(from ?? one ?? ''), indexOf(to ?? one ?? '')];
      const named = columns.slice(first, last + 1);
      const lost = named.filter((_, i) => at[first + i]! < 0);
      for (const { heading } of lost)
        bar(
          `The table on ${table.sheet} has no column “${heading}”, which a formula in it needs. Add it, or give the renamed column its name back.`,
        );
      if (lost.length > 0) return whole;
      named.slice(1).forEach(({ heading }, i) => {
        if (at[first + i + 1]! !== at[first + i]! + 1)
          bar(
            `The column “${heading}” on ${table.sheet} doesn’t stand right after “${named[i]!.heading}”, and a formula would count in what stands between. Move it back.`,
          );
      });
      if (one === undefined) return `[@${reference(first)}:${reference(last)}]`;
      const plain = headings[at[first]!] === one;
      return plain ? whole : `[@${reference(first)}]`;
    },
  );
  return sound ? text : undefined;
}

/** Our columns as they stand side by side in the table: lists of indices, without formula columns. */
function runsOf(columns: readonly ColumnSpec[], at: readonly number[]): number[][] {
  const order = columns
    .map((_, i) => i)
    .filter((i) => at[i]! >= 0 && columns[i]!.formula === undefined)
    .sort((a, b) => at[a]! - at[b]!);
  const runs: number[][] = [];
  for (const i of order) {
    const last = runs.at(-1);
    if (last && at[last.at(-1)!]! + 1 === at[i]!) last.push(i);
    else runs.push([i]);
  }
  return runs;
}

/** Adds the rows to our table, or adds the sheet where there is no such table yet. */
export function appendOrCreate(
  builder: PlanBuilder,
  table: TableReading | undefined,
  content: TableContent,
): void {
  if (table) appendRows(builder, table, content);
  else createSheet(builder, content, builder.sheetName(content.sheet));
}

/** Replaces the rows of our table, or adds the sheet where there is no such table yet. */
export function replaceOrCreate(
  builder: PlanBuilder,
  table: TableReading | undefined,
  content: TableContent,
): void {
  if (table) replaceRows(builder, table, content);
  else createSheet(builder, content, builder.sheetName(content.sheet));
}
