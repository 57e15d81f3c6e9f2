/**
 * The sheet `Pictures`: drawings of blades and pins, a row each, with the drawing over the last cell of its row. A
 * picture of the same name is replaced where it stands.
 */
import type { ColumnSpec } from './columns.ts';
import { columnOf } from './columns.ts';
import { findTable } from './find.ts';
import { fold, TABLES } from './names.ts';
import { place } from './places.ts';
import type { CellInput, WritePlan } from './plan.ts';
import { appendOrCreate, contentOf, reportObstacles } from './planRows.ts';
import { HEADER_ROW, PlanBuilder, type TableContent } from './planTable.ts';
import type { BookReading, TableReading } from './reading.ts';

export interface PictureInput {
  readonly made: string;
  /** @example 'Blade AA1 274153' */
  readonly name: string;
  /** The same facts in a sentence: what it shows to those who can't see it. */
  readonly shows: string;
  /** A PNG, and its size on the screen. */
  readonly base64: string;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

const POINTS_PER_PIXEL = 0.75;
/** Every row is as high, so that replacing one picture moves no other. */
const ROW_POINTS = 290;
const MOST_HEIGHT = ROW_POINTS - 10;

const COLUMNS: readonly ColumnSpec[] = [
  { heading: 'Picture', format: 'text', width: 26, needed: true },
  { heading: 'Shows', format: 'text', width: 34 },
  { heading: 'Written', format: 'text', width: 14 },
  { heading: 'Drawing', format: 'text', width: 84, needed: true },
];
const DRAWING = COLUMNS.length - 1;

/** Whether this Excel can hold pictures put there by an add-in. */
export const drawsPictures = (): boolean => Office.context.requirements.isSetSupported('ExcelApi', '1.9');

/** What is said where it can't. */
export const NO_PICTURES =
  'This version of Excel takes no pictures from an add-in. Use “Show as list” and copy the numbers, or open the workbook in Excel 2021 or later.';

/** Puts the picture into the row of its name, or into a new one. */
export function planPicture(book: BookReading, input: PictureInput): WritePlan {
  const builder = new PlanBuilder(book);
  const table = findTable(book.tables, TABLES.Pictures);
  const cells: CellInput[] = [input.name, input.shows, input.made, ''];
  const shrink = Math.min(1, MOST_HEIGHT / (input.heightPixels * POINTS_PER_PIXEL));
  const at = table ? rowInTable(builder, table, cells) : addSheet(builder, cells);
  if (at) {
    builder.steps.push({
      kind: 'picture',
      sheet: at.sheet,
      row: at.row,
      column: at.column,
      name: `Keyrow ${input.name}`,
      alt: input.shows,
      base64: input.base64,
      width: input.widthPixels * POINTS_PER_PIXEL * shrink,
      height: input.heightPixels * POINTS_PER_PIXEL * shrink,
      rowHeight: ROW_POINTS,
    });
    builder.effects.push({
      kind: 'picture',
      sheet: at.sheet,
      rows: 1,
      what: 'picture',
      name: `“${input.name}”`,
      replaces: at.replaces,
    });
  }
  return builder.plan('Put a picture into the sheet');
}

interface At {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly replaces: boolean;
}

const contentWith = (cells: readonly CellInput[]): TableContent => ({
  table: TABLES.Pictures,
  sheet: 'Pictures',
  title: 'Pictures',
  line: 'Blades and pins, drawn to scale. A picture of the same name replaces the one before.',
  columns: COLUMNS,
  rows: [cells],
  frozen: 1,
  bench: {
    line: 'SECRET: a picture of a blade or of pins tells the bitting as its numbers do.',
    large: [],
    wrapped: [0, 1],
  },
});

function addSheet(builder: PlanBuilder, cells: readonly CellInput[]): At {
  const content = contentWith(cells);
  appendOrCreate(builder, undefined, content);
  const sheet = builder.steps.flatMap((step) => (step.kind === 'add-sheet' ? [step.sheet] : []))[0]!;
  return { sheet, row: HEADER_ROW + 1, column: DRAWING, replaces: false };
}

function rowInTable(builder: PlanBuilder, table: TableReading, cells: readonly CellInput[]): At | undefined {
  const [names, drawing] = [columnOf(table, 'Picture'), columnOf(table, 'Drawing')];
  if (names < 0 || drawing < 0) {
    builder.conflict(
      `The table on ${table.sheet} has no column “${names < 0 ? 'Picture' : 'Drawing'}”. Give the renamed column its name back.`,
      place(table.sheet, table.box.row, table.box.column),
    );
    return undefined;
  }
  const column = table.box.column + drawing;
  const there = table.values.findIndex((row) => fold(String(row[names] ?? '')) === fold(String(cells[0])));
  if (there >= 0) {
    reportObstacles(builder, table);
    const row = table.box.row + 1 + there;
    COLUMNS.slice(1, DRAWING).forEach(({ heading, format }, i) => {
      const c = columnOf(table, heading);
      if (c < 0) return;
      const box = { sheet: table.sheet, row, column: table.box.column + c, rows: 1, columns: 1 };
      builder.steps.push({
        kind: 'write',
        sheet: table.sheet,
        row,
        column: box.column,
        cells: [[cells[i + 1]!]],
        formats: [format],
        expected: contentOf(builder, box),
      });
    });
    return { sheet: table.sheet, row, column, replaces: true };
  }
  const before = builder.steps.length;
  appendOrCreate(builder, table, contentWith(cells));
  const wrote = builder.steps.slice(before).find((step) => step.kind === 'write');
  return wrote && { sheet: table.sheet, row: wrote.row, column, replaces: false };
}
