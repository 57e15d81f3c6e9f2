/** What came of carrying out a plan, in words for the pane and with what is needed to take it back. */
import type { Conflict, PlanStep } from './plan.ts';
import type { Box } from './places.ts';
import type { CellValue } from './reading.ts';
import type { KnownSheet, KnownTable } from './sheetIds.ts';

/** Content of a box at one moment, enough to compare it or to put it back. */
export interface Remembered {
  /** Index of the step that writes the box. */
  readonly step: number;
  readonly box: Box;
  readonly formulas: readonly (readonly CellValue[])[];
  readonly values: readonly (readonly CellValue[])[];
  readonly numberFormats: readonly (readonly string[])[];
  /** Excel's value types: they tell the error #N/A from a text that reads the same. */
  readonly types: readonly (readonly string[])[];
}

/** A sheet that Excel confirmed to have added. */
export interface AddedSheet {
  /** Index of the step that added it. */
  readonly step: number;
  readonly sheet: string;
  /** Stays the same when the sheet is renamed. */
  readonly id: string;
}

/** What lay where a picture was put, on a sheet that was there before. */
export interface RememberedPicture {
  /** Index of the step that puts the picture. */
  readonly step: number;
  readonly rowHeight: number;
  /** The picture of the same name that was replaced. */
  readonly replaced?: {
    readonly base64: string;
    readonly alt: string;
    readonly left: number;
    readonly top: number;
    readonly width: number;
    readonly height: number;
  };
}

/** Handle for taking an applied plan back. */
export interface UndoPlan {
  readonly title: string;
  readonly steps: readonly PlanStep[];
  /** What was there, of boxes on sheets that the plan did not add. */
  readonly before: readonly Remembered[];
  /** What Excel gave back after writing: an undo refuses where the cells say something else by then. */
  readonly after: readonly Remembered[];
  readonly added: readonly AddedSheet[];
  /** Which sheets the plan's names stand for, those that were added too: they may be renamed by then. */
  readonly sheets: readonly KnownSheet[];
  /** The same of our tables. */
  readonly tables: readonly KnownTable[];
  readonly pictures: readonly RememberedPicture[];
}

export type ApplyOutcome =
  | {
      readonly outcome: 'done';
      /** "Added the sheet Keys with 64 rows." */
      readonly sentence: string;
      readonly cells: number;
      /** None after an undo. */
      readonly undo?: UndoPlan;
      /** Excel's own undo takes the whole run back in one go. */
      readonly oneUndo: boolean;
    }
  /** Nothing was written. */
  | { readonly outcome: 'refused'; readonly sentence: string; readonly reasons: readonly Conflict[] }
  /**
   * Something went wrong or was stopped, and the workbook is as before, but for what somebody else put into our cells
   * or onto our sheets meanwhile: that is kept, and listed.
   */
  | {
      readonly outcome: 'rolled-back';
      readonly sentence: string;
      readonly stopped: boolean;
      readonly kept?: readonly Conflict[];
    }
  /** Something went wrong and taking it back failed too: these places may be half written. */
  | { readonly outcome: 'broken'; readonly sentence: string; readonly places: readonly Box[] };

export interface ApplyProgress {
  readonly stage: 'checking' | 'writing' | 'reading back' | 'taking back';
  readonly done: number;
  readonly total: number;
}

export interface ApplyOptions {
  readonly onProgress?: (progress: ApplyProgress) => void;
  readonly signal?: AbortSignal;
}
