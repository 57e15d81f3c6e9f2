/**
 * A new sheet of ours with its table, and the builder that gathers the steps of a plan.
 */
import type { ColumnSpec } from './columns.ts';
import { freeSheetName } from './names.ts';
import { columnName, type Box } from './places.ts';
import type {
  CellInput,
  Conflict,
  PlanEffect,
  PageFoot,
  PlanStep,
  SheetLayout,
  WriteBlock,
  WritePlan,
} from './plan.ts';
import type { BookReading } from './reading.ts';

export interface TableContent {
  readonly table: string;
  /** Wanted name of the sheet; another is taken where the shop has one of that name. */
  readonly sheet: string;
  readonly title: string;
  /** What the sheet is, when and from what it was made. */
  readonly line: string;
  readonly columns: readonly ColumnSpec[];
  /** In the order of `columns`; formula columns are blank. */
  readonly rows: readonly (readonly CellInput[])[];
  /** Columns that stay while scrolling sideways. */
  readonly frozen: number;
  /** A report: text at the foot of each page, one page wide, title and line repeated with the header. */
  readonly foot?: PageFoot;
  /** From this column on, cells are centred. */
  readonly centredFrom?: number;
  /** For a sheet that goes to the bench: what is the same for all rows, in the line above the table. */
  readonly bench?: BenchSheet;
}

export interface BenchSheet {
  readonly line?: string;
  /** How many columns are printed, from the first on; all where left out. The others are for the screen. */
  readonly printed?: number;
  /** Indices of columns in large digits, of those whose text runs over several lines, and of numbers to be centred. */
  readonly large: readonly number[];
  readonly wrapped: readonly number[];
  readonly centred?: readonly number[];
  /** Columns with a drop-down. */
  readonly choices?: readonly { readonly column: number; readonly from: readonly string[] }[];
}

/** Header row of the table on a new sheet, zero-based: title, line and a blank row come first. */
export const HEADER_ROW = 3;

/** Collects the steps of one plan. */
export class PlanBuilder {
  readonly steps: PlanStep[] = [];
  readonly effects: PlanEffect[] = [];
  readonly conflicts: Conflict[] = [];
  private readonly taken: string[];

  constructor(readonly book: BookReading) {
    this.taken = book.sheets.map((sheet) => sheet.name);
  }

  /** A free sheet name, kept for this plan. The first of the wanted ones that is free, else a variant of the last. */
  sheetName(...wanted: readonly string[]): string {
    const free = wanted.find((name) => freeSheetName(name, this.taken) === name);
    const name = free ?? freeSheetName(wanted.at(-1)!, this.taken);
    this.taken.push(name);
    return name;
  }

  /** Notes what is in the way; the same thing met twice is said once. */
  conflict(sentence: string, at?: Conflict['at'], holds?: string): void {
    const same = (c: Conflict): boolean =>
      c.sentence === sentence && c.at?.sheet === at?.sheet && c.at?.address === at?.address;
    if (this.conflicts.some(same)) return;
    this.conflicts.push({ sentence, ...(at && { at }), ...(holds !== undefined && { holds }) });
  }

  plan(title: string): WritePlan {
    const { steps, effects, conflicts } = this;
    return { title, steps: conflicts.length > 0 ? [] : steps, effects, conflicts };
  }
}

/** Adds a sheet with the table on it; returns the sheet's name. */
export function createSheet(builder: PlanBuilder, content: TableContent, sheet: string): void {
  if (builder.book.structureProtected)
    builder.conflict(
      'The workbook’s structure is protected, so no sheet can be added. Take that protection off first.',
    );
  const { columns } = content;
  const rows = content.rows.length > 0 ? content.rows : [columns.map(() => '')];
  const box: Box = { sheet, row: HEADER_ROW, column: 0, rows: rows.length + 1, columns: columns.length };
  builder.steps.push(
    { kind: 'add-sheet', sheet },
    {
      kind: 'write',
      sheet,
      row: 0,
      column: 0,
      cells: [
        [content.title],
        [content.line],
        ...(content.bench?.line === undefined ? [] : [[content.bench.line]]),
      ],
      formats: ['general'],
      expected: 'empty',
    },
    // headings are text too: a key symbol such as 1AA or -A must stay as it is
    {
      kind: 'write',
      sheet,
      row: HEADER_ROW,
      column: 0,
      cells: [columns.map((c) => c.heading)],
      formats: columns.map(() => 'text'),
      expected: 'empty',
    },
    // formulas are written by themselves: their results would not be what this step wrote
    ...plainRuns(columns).map((run): WriteBlock => ({
      kind: 'write',
      sheet,
      row: HEADER_ROW + 1,
      column: run[0]!,
      cells: rows.map((row) => run.map((c) => row[c] ?? '')),
      formats: run.map((c) => columns[c]!.format),
      expected: 'empty',
    })),
    {
      kind: 'add-table',
      name: content.table,
      box,
      ...(content.centredFrom !== undefined && { plain: true }),
    },
    ...columns.flatMap((column, c) =>
      column.formula === undefined || content.rows.length === 0
        ? []
        : [formulaBlock(sheet, HEADER_ROW + 1, c, column.formula, rows.length, 'empty')],
    ),
    {
      kind: 'layout',
      sheet,
      layout: {
        printArea: `A:${columnName((content.bench?.printed ?? columns.length) - 1)}`,
        titleRows: `${content.foot || content.bench ? 1 : HEADER_ROW + 1}:${HEADER_ROW + 1}`,
        ...(content.foot && { foot: content.foot }),
        landscape: printedWidth(content) > 90,
        freeze: { rows: HEADER_ROW + 1, columns: content.frozen },
        widths: columns.map((c) => c.width),
        ...(content.centredFrom !== undefined && {
          centred: [
            {
              ...box,
              column: content.centredFrom,
              columns: Math.max(1, columns.length - content.centredFrom),
            },
          ],
        }),
        ...(content.bench && {
          onePageWide: true,
          banners: bannerBoxes(content, content.bench, sheet),
          centred: columnBoxes(box, content.bench.centred ?? []),
          middle: { ...box, row: box.row + 1, rows: box.rows - 1 },
          large: columnBoxes(box, content.bench.large),
          wrapped: [{ ...box, rows: 1 }, ...columnBoxes(box, content.bench.wrapped)],
          ...(content.bench.choices && {
            choices: content.bench.choices.map(({ column, from }) => ({
              box: columnBoxes(box, [column])[0]!,
              from,
            })),
          }),
          heights: benchHeights(content, content.bench),
        }),
      },
    },
  );
  builder.effects.push({ kind: 'sheet', sheet, rows: content.rows.length, what: 'new sheet' });
}

/** Width of the columns that are printed, in characters. */
const printedWidth = ({ columns, bench }: TableContent): number =>
  columns.slice(0, bench?.printed).reduce((sum, column) => sum + column.width, 0);

/** The lines above the table of a bench sheet: as wide as what is printed, so that paper cuts none of them off. */
const bannerBoxes = (content: TableContent, bench: BenchSheet, sheet: string): Box[] =>
  bannerLines(content, bench).map((_, i) => ({
    sheet,
    row: 1 + i,
    column: 0,
    rows: 1,
    columns: bench.printed ?? content.columns.length,
  }));

const bannerLines = ({ line }: TableContent, bench: BenchSheet): string[] => [
  line,
  ...(bench.line === undefined ? [] : [bench.line]),
];

/** A line of large digits, and of text in the default font, in points. */
const LARGE_LINE = 24;
const TEXT_LINE = 15;
/** Narrow columns break a heading of three words twice, since the filter button takes its share. */
const HEADING_LINES = 3;

/** Heights of the header and the rows so that wrapped text is seen whole; rows alike in one go. */
function benchHeights(content: TableContent, bench: BenchSheet): NonNullable<SheetLayout['heights']> {
  const { columns, rows } = content;
  const lines = (text: CellInput | undefined, width: number): number =>
    typeof text === 'string' ? Math.ceil(text.length / Math.max(1, width - 1)) : 1;
  const heights: { row: number; rows: number; points: number }[] = bannerLines(content, bench).map(
    (text, i) => ({ row: 1 + i, rows: 1, points: TEXT_LINE * lines(text, printedWidth(content)) }),
  );
  heights.push({ row: HEADER_ROW, rows: 1, points: TEXT_LINE * HEADING_LINES });
  rows.forEach((cells, r) => {
    const most = Math.max(1, ...bench.wrapped.map((c) => lines(cells[c], columns[c]!.width)));
    const points = Math.min(MOST_POINTS, Math.max(LARGE_LINE, TEXT_LINE * most));
    const last = heights.at(-1)!;
    if (r > 0 && last.points === points) last.rows++;
    else heights.push({ row: HEADER_ROW + 1 + r, rows: 1, points });
  });
  return heights;
}

/** Excel's limit for a row. */
const MOST_POINTS = 409;

/** Columns without a formula that stand side by side. */
function plainRuns(columns: readonly ColumnSpec[]): number[][] {
  const runs: number[][] = [];
  columns.forEach(({ formula }, c) => {
    if (formula !== undefined) return;
    if (runs.at(-1)?.at(-1) === c - 1) runs.at(-1)!.push(c);
    else runs.push([c]);
  });
  return runs;
}

/** The cells of some columns below the header. */
const columnBoxes = (table: Box, columns: readonly number[]): Box[] =>
  columns.map((column) => ({ ...table, row: table.row + 1, rows: table.rows - 1, column, columns: 1 }));

/** A column of one formula. */
export function formulaBlock(
  sheet: string,
  row: number,
  column: number,
  formula: string,
  rows: number,
  expected: WriteBlock['expected'],
): WriteBlock {
  const cells = Array.from({ length: rows }, () => [{ formula }]);
  return { kind: 'write', sheet, row, column, cells, formats: ['general'], expected };
}
