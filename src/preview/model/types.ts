/**
 * The workbook that stands in for Excel: plain data plus change notices. `host/` answers office.js from it,
 * `grid/` shows it and calculates it, `file/` reads and writes it as .xlsx. The model is the single truth;
 * the grid is a view that sends user edits and calculated results back.
 *
 * Rows and columns are zero-based everywhere in the model.
 */

export type ErrorCode =
  '#VALUE!' | '#N/A' | '#REF!' | '#NAME?' | '#DIV/0!' | '#NUM!' | '#NULL!' | '#SPILL!' | '#CALC!' | '#BUSY!';

export interface CellError {
  readonly error: ErrorCode;
  readonly message?: string;
}

/** What a cell holds. Empty is null. Dates are serial numbers with a date number format, as in Excel. */
export type CellValue = string | number | boolean | CellError | null;

/** `veryHidden` sheets cannot be shown again from the user interface. */
export type SheetVisibility = 'visible' | 'hidden' | 'veryHidden';

export type BorderEdge = 'top' | 'bottom' | 'left' | 'right';

export interface CellStyle {
  numberFormat?: string;
  bold?: boolean;
  italic?: boolean;
  underline?: boolean;
  fontName?: string;
  fontSize?: number;
  fontColor?: string;
  fill?: string;
  horizontal?: 'general' | 'left' | 'center' | 'right';
  vertical?: 'top' | 'center' | 'bottom';
  wrap?: boolean;
  locked?: boolean;
  strikethrough?: boolean;
  indent?: number;
  /** Degrees, as `textOrientation`. */
  rotation?: number;
  shrink?: boolean;
  formulaHidden?: boolean;
  borders?: Partial<Record<BorderEdge, { style: 'thin' | 'medium' | 'thick'; color: string }>>;
}

export interface Cell {
  value: CellValue;
  /** With the leading `=`, en-US, as the user sees it (`=KEYROW.CHECK([@Bitting],…)`). */
  formula?: string;
  /** Set on the anchor of a spilled array: its extent. */
  spill?: { rows: number; columns: number };
  /** Set on a cell filled by another cell's spill; such a cell has no content of its own. */
  spilledFrom?: { row: number; column: number };
  style?: CellStyle;
  /** Index of the cell's format in the opened file's style table; travels with the cell, lost when `style` is changed. */
  fileFormat?: number;
}

export interface Area {
  row: number;
  column: number;
  rows: number;
  columns: number;
}

/** Who caused a change. `calculation` = formula results arriving from the engine. */
export type Origin = 'addin' | 'user' | 'calculation' | 'file';

export type Change =
  | { kind: 'cells'; sheetId: string; area: Area; origin: Origin }
  | { kind: 'styles'; sheetId: string; area: Area; origin: Origin }
  | {
      kind: 'inserted' | 'deleted';
      axis: 'rows' | 'columns';
      sheetId: string;
      at: number;
      count: number;
      origin: Origin;
      /** Where only part of the sheet was shifted (a range insert), the lane that moved; else the whole sheet. */
      lane?: { start: number; count: number };
    }
  | {
      kind: 'sheet';
      what: 'added' | 'removed' | 'renamed' | 'moved' | 'shown' | 'layout' | 'protection';
      sheetId: string;
      origin: Origin;
    }
  | { kind: 'table'; what: 'added' | 'removed' | 'changed'; tableId: string; sheetId: string; origin: Origin }
  | { kind: 'name'; name: string; origin: Origin }
  | { kind: 'active'; sheetId: string; origin: Origin }
  | { kind: 'selection'; sheetId: string; area: Area; origin: Origin }
  | { kind: 'setting'; key: string; origin: Origin }
  | { kind: 'xmlPart'; id: string; origin: Origin }
  | { kind: 'calculate'; origin: Origin };
