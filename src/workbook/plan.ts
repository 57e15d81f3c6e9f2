/**
 * A write plan: everything that one action will do to the workbook, as data, made before anything is touched.
 * A plan carries what each cell is expected to hold now, so that `applyPlan` can refuse where that changed.
 * Plans are built from a reading without talking to Excel; only `apply.ts` carries them out.
 */
import type { Box, Place } from './places.ts';
import type { CellValue } from './reading.ts';

/** What goes into a cell. Text is always text, whatever it starts with; a formula says that it is one. */
export type CellInput = CellValue | { readonly formula: string };

/** `text` columns get the number format @ before the text arrives, so that a code stays a code. */
export type ColumnFormat = 'text' | 'general' | 'number';

export interface WriteBlock {
  readonly kind: 'write';
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly cells: readonly (readonly CellInput[])[];
  readonly formats: readonly ColumnFormat[];
  /** Content now: formulas where there are any; 'empty' = all cells empty. */
  readonly expected: 'empty' | readonly (readonly CellValue[])[];
}

export type PlanStep =
  | { readonly kind: 'add-sheet'; readonly sheet: string }
  | WriteBlock
  | { readonly kind: 'add-table'; readonly name: string; readonly box: Box }
  | {
      readonly kind: 'resize-table';
      readonly name: string;
      readonly from: Box;
      readonly to: Box;
    }
  | { readonly kind: 'layout'; readonly sheet: string; readonly layout: SheetLayout };

/** Looks of a sheet of ours; only ever set on sheets that the same plan adds, but for the print area. */
export interface SheetLayout {
  readonly printArea: string;
  /** Row numbers repeated on each page, A1 form: `$4:$4`. */
  readonly titleRows: string;
  readonly landscape: boolean;
  /** Rows and columns that stay while scrolling; left out on sheets that exist. */
  readonly freeze?: { readonly rows: number; readonly columns: number };
  /** Column widths in characters, from column A on. */
  readonly widths?: readonly number[];
  /** Marks are centred, headings upright. */
  readonly centred?: string;
  readonly turnedHeader?: string;
}

/** Why a plan can't run. Without a place it concerns the whole workbook. */
export interface Conflict {
  readonly at?: Place;
  readonly sentence: string;
  /** What the cell holds, where it is a cell that isn't empty. */
  readonly holds?: string;
}

/** One line for the user: "adds the sheet Keys with 64 rows". */
export interface PlanEffect {
  readonly kind: 'sheet' | 'rows' | 'column' | 'replace';
  readonly sheet: string;
  readonly rows: number;
  readonly what: string;
}

export interface WritePlan {
  readonly title: string;
  readonly steps: readonly PlanStep[];
  readonly effects: readonly PlanEffect[];
  readonly conflicts: readonly Conflict[];
}

export interface PlanDescription {
  /** One sentence for the button's neighbour: "Adds … ; touches nothing else." */
  readonly sentence: string;
  readonly sheetsAdded: number;
  readonly cells: number;
  readonly effects: readonly PlanEffect[];
  readonly conflicts: readonly Conflict[];
}
