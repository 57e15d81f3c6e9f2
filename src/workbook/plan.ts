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
export type ColumnFormat = 'text' | 'general' | 'inches' | 'millimetres';

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

/** A picture over one cell, whose row is made `rowHeight` points high. One of the same name is replaced. */
export interface PictureStep {
  readonly kind: 'picture';
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly name: string;
  /** What it shows, for those who can't see it. */
  readonly alt: string;
  /** A PNG. */
  readonly base64: string;
  /** In points. */
  readonly width: number;
  readonly height: number;
  readonly rowHeight: number;
}

export type PlanStep =
  | { readonly kind: 'add-sheet'; readonly sheet: string }
  | WriteBlock
  | {
      readonly kind: 'add-table';
      readonly name: string;
      readonly box: Box;
      /** Without filter buttons, which would cover headings of a few characters. */
      readonly plain?: boolean;
    }
  | {
      readonly kind: 'resize-table';
      readonly name: string;
      readonly from: Box;
      readonly to: Box;
    }
  | { readonly kind: 'layout'; readonly sheet: string; readonly layout: SheetLayout }
  | PictureStep
  /** The foot of a report that is written anew; `before` is what undo puts back. */
  | {
      readonly kind: 'foot';
      readonly sheet: string;
      readonly foot: PageFoot;
      readonly before: PageFoot;
    };

/** Plain text; the page number is added in the middle. */
export interface PageFoot {
  readonly left: string;
  readonly right: string;
}

/** Looks of a sheet of ours; only ever set on sheets that the same plan adds. */
export interface SheetLayout {
  /** Whole columns, so that rows added later are printed too: `A:L`. */
  readonly printArea: string;
  /** Rows repeated on each page, A1 form: `4:4`. */
  readonly titleRows: string;
  readonly landscape: boolean;
  readonly freeze: { readonly rows: number; readonly columns: number };
  /** Column widths in characters, from column A on. */
  readonly widths: readonly number[];
  /** Text at the foot of each page; with it the sheet is printed one page wide. */
  readonly foot?: PageFoot;
  /** Cells that are centred. */
  readonly centred?: readonly Box[];
  /** Shrunk so that all columns come onto one page. */
  readonly onePageWide?: boolean;
  /** Rows of cells made into one whose text goes on in further lines. */
  readonly banners?: readonly Box[];
  /** Cells with their content at half height. */
  readonly middle?: Box;
  /** Cells in large bold digits, to be read at the machine. */
  readonly large?: readonly Box[];
  /** Cells whose text goes on in further lines. */
  readonly wrapped?: readonly Box[];
  /** Cells with a drop-down; what else is typed is left to the person. */
  readonly choices?: readonly { readonly box: Box; readonly from: readonly string[] }[];
  /** Heights of rows in points; no host fits them to large or wrapped text that a program wrote. */
  readonly heights?: readonly { readonly row: number; readonly rows: number; readonly points: number }[];
}

/** Why a plan can't run. Without a place it concerns the whole workbook. */
export interface Conflict {
  readonly at?: Place;
  readonly sentence: string;
  /** What the cell holds, where it is a cell that isn't empty. */
  readonly holds?: string;
}

/** One line of a plan for the user; `describe.ts` makes sentences of them. */
export type PlanEffect = {
  readonly sheet: string;
  readonly rows: number;
  /** In two or three words: "new sheet", "rows added". */
  readonly what: string;
} & (
  | { readonly kind: 'sheet' }
  | { readonly kind: 'rows' }
  /** Cells of the shop's that the user named in this plan. */
  | { readonly kind: 'cells' }
  | { readonly kind: 'replace'; readonly before: number }
  | { readonly kind: 'column'; readonly heading: string; readonly beside: string }
  | { readonly kind: 'picture'; readonly name: string; readonly replaces: boolean }
);

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
