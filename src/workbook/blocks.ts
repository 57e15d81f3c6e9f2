/**
 * Write steps cut into blocks that Excel takes in one request, and the comparison of what was meant with what the
 * cells hold. Used before writing (is everything as the plan expected?), after it (did it arrive?) and for undo.
 */
import { isBlank } from './fields.ts';
import { fold } from './names.ts';
import { place, type Box, type Place } from './places.ts';
import type { CellInput, ColumnFormat, PlanStep, WriteBlock } from './plan.ts';
import { rowBlocks, type Cells } from './cells.ts';
import type { CellValue } from './reading.ts';

/** Formats, values and formulas of a cell together weigh more than a value alone. */
const CELLS_A_WRITE = 20_000;

export interface Block {
  readonly step: number;
  readonly box: Box;
  readonly cells: readonly (readonly CellInput[])[];
  readonly formats: readonly ColumnFormat[];
  readonly expected: WriteBlock['expected'];
}

/** The blocks of a write step, top to bottom; none of any other step. */
export function blocksOf(step: PlanStep, index: number): Block[] {
  if (step.kind !== 'write') return [];
  return rowBlocks(step.cells.length, step.formats.length, CELLS_A_WRITE).map(({ start, count }) => ({
    step: index,
    box: {
      sheet: step.sheet,
      row: step.row + start,
      column: step.column,
      rows: count,
      columns: step.formats.length,
    },
    cells: step.cells.slice(start, start + count),
    formats: step.formats,
    expected: step.expected === 'empty' ? 'empty' : step.expected.slice(start, start + count),
  }));
}

const NUMBER_FORMATS: Readonly<Record<ColumnFormat, string>> = {
  text: '@',
  general: 'General',
  // the fourth decimal shows only where it isn't zero
  inches: '0.000#',
  millimetres: '0.00',
};

/** Number formats of a block's cells: `@` for text. */
export const numberFormats = (block: Block): string[][] =>
  block.cells.map(() => block.formats.map((format) => NUMBER_FORMATS[format]));

/**
 * Text that a General cell would take for something else gets Excel's apostrophe; in a text cell nothing is needed. Blanks
 * at the front are passed over by Excel, so whatever begins with no letter gets one.
 * @example asText('=1+1') → "'=1+1"; asText(' =1+1') → "' =1+1"
 */
export const asText = (text: string): string =>
  /^\P{L}|\d|^(true|false)\s*$/iu.test(text) ? `'${text}` : text;

/** What is handed to Excel for the cells of a block. */
export const writtenCells = (block: Block): CellValue[][] =>
  block.cells.map((row) =>
    row.map((cell, c) => {
      if (typeof cell === 'object') return cell.formula;
      return typeof cell === 'string' && block.formats[c] !== 'text' ? asText(cell) : cell;
    }),
  );

/** Whether any cell is a formula, so that the block goes in as formulas. */
export const hasFormulas = (block: Block): boolean =>
  block.cells.some((row) => row.some((cell) => typeof cell === 'object'));

/** Cells that don't hold what the plan expected to find. */
export function unexpectedCells(block: Block, formulas: Cells): { at: Place; holds: string }[] {
  return differing(block.box, formulas, (r, c) =>
    block.expected === 'empty' ? '' : (block.expected[r]?.[c] ?? ''),
  );
}

/** Cells of a box whose formulas differ from those given. */
export function differing(
  box: Box,
  formulas: Cells,
  wanted: (row: number, column: number) => CellValue,
): { at: Place; holds: string }[] {
  const found: { at: Place; holds: string }[] = [];
  formulas.forEach((row, r) =>
    row.forEach((cell, c) => {
      if (cell !== wanted(r, c))
        found.push({ at: place(box.sheet, box.row + r, box.column + c), holds: String(cell) });
    }),
  );
  return found;
}

/** Cells that came out otherwise than they were written. */
export function miswritten(block: Block, values: Cells, formulas: Cells): Place[] {
  const found: Place[] = [];
  block.cells.forEach((row, r) =>
    row.forEach((cell, c) => {
      if (!arrived(cell, values[r]?.[c] ?? '', formulas[r]?.[c] ?? ''))
        found.push(place(block.box.sheet, block.box.row + r, block.box.column + c));
    }),
  );
  return found;
}

/** Whether a cell holds what was written into it. */
export function arrived(cell: CellInput, value: CellValue, formula: CellValue): boolean {
  // Excel rewrites formulas as it likes ([@Bitting] for Keys[@Bitting]), so only their being one is compared
  if (typeof cell === 'object') return typeof formula === 'string' && formula.startsWith('=');
  if (typeof cell === 'number')
    return typeof value === 'number' && Math.abs(value - cell) <= 1e-12 * Math.max(1, Math.abs(cell));
  return value === cell || (isBlank(cell) && isBlank(value)) || sameLines(value, cell);
}

/** A line break in a cell is a line feed, whatever it was when it was written. */
const sameLines = (a: CellValue, b: CellValue): boolean =>
  typeof a === 'string' && typeof b === 'string' && a.replace(/\r\n?/g, '\n') === b.replace(/\r\n?/g, '\n');

/** Folded names of the sheets that the steps add. */
export const addedSheets = (steps: readonly PlanStep[]): ReadonlySet<string> =>
  new Set(steps.flatMap((step) => (step.kind === 'add-sheet' ? [fold(step.sheet)] : [])));

/** Folded names of tables and pictures. */
export interface OwnThings {
  readonly tables: ReadonlySet<string>;
  readonly pictures: ReadonlySet<string>;
}

/** The tables and pictures that the steps add. */
export const ownThings = (steps: readonly PlanStep[]): OwnThings => ({
  tables: new Set(steps.flatMap((step) => (step.kind === 'add-table' ? [fold(step.name)] : []))),
  pictures: new Set(steps.flatMap((step) => (step.kind === 'picture' ? [fold(step.name)] : []))),
});
