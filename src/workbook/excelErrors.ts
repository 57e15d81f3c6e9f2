/**
 * Excel's refusals in words. Codes are those of `Excel.ErrorCodes` and of the request layer below it; anything
 * unknown gets a sentence with the code in it, so that it can be looked up.
 */
import { err, ok, ProgrammerError, type Result } from '../keying/result.ts';
import { runExcel } from './excelRun.ts';

/** A failure of Excel's in one sentence: what happened and what to do. */
export interface ExcelTrouble {
  readonly code: string;
  readonly sentence: string;
}

const BUSY = 'Excel is busy. Wait until it is done and try again.';
const TOO_OLD = 'This version of Excel is too old for this step. Update Excel and try again.';
const SENTENCES: Readonly<Record<string, string>> = {
  AccessDenied: 'The sheet or the workbook is protected. Take the protection off and try again.',
  ApiNotFound: TOO_OLD,
  Conflict: 'Excel was changing the same cells. Try again.',
  DirtySupportingFormula: 'Excel is still calculating. Try again when it is done.',
  FilteredRangeConflict: 'The cells are filtered. Clear the filter and try again.',
  FormulaLengthExceedsLimit:
    'A formula would be longer than Excel allows. Give the sheets and columns that it names shorter names.',
  GeneralException:
    'Excel reported an internal error. Try again; if it stays, save, close and reopen the book.',
  InactiveWorkbook: 'The workbook is not the active one. Click into it and try again.',
  InsertDeleteConflict:
    'Excel can’t insert or delete cells there: they would cut through a table or an array. Move it out of the way and try again.',
  InvalidArgument: 'Excel didn’t accept what was asked of it. Read the book again and try once more.',
  InvalidObjectPath: 'Something that was being used is gone. Read the book again.',
  InvalidOperation:
    'Excel doesn’t allow this here. Read the book again; if it stays, check whether the sheet is shared, protected or part of a data model.',
  InvalidOperationInCellEditMode: 'A cell is being edited. Press Enter or Esc in the sheet and try again.',
  InvalidReference: 'A cell that was being used doesn’t exist any more. Read the book again.',
  InvalidSelection: 'The selection can’t be used for this. Select cells of one block.',
  InvalidState: BUSY,
  ItemAlreadyExists: 'A sheet or table of this name exists already. Read the book again.',
  ItemNotFound: 'A sheet or table that was being used is gone or was renamed. Read the book again.',
  MergedRangeConflict: 'There are merged cells in the way. Unmerge them and try again.',
  NoAnswer:
    'Excel did not answer. If a cell is being edited or a window of Excel is open, finish that, then try again.',
  NoCells: 'Excel didn’t hand over the cells that it was asked for. Try again.',
  NonBlankCellOffSheet:
    'There is no room: filled cells would be pushed off the sheet. Move what stands in its last rows or columns.',
  NotImplemented: TOO_OLD,
  OperationCellsExceedLimit: 'These are too many cells at once for Excel. Try again with fewer.',
  PivotTableRangeConflict: 'A pivot table is in the way. Move it and try again.',
  PropertyNotLoaded: 'Something went wrong inside the add-in. Read the book again.',
  RangeExceedsLimit: 'The range is too large for Excel to hand over at once. Select fewer cells.',
  RequestAborted: 'Excel broke off the request. Try again.',
  RequestPayloadSizeLimitExceeded:
    'This is too much to write at once for Excel on the web. Try it in Excel for the desktop, or in smaller parts.',
  ResponsePayloadSizeLimitExceeded:
    'This is too much to read at once for Excel on the web. Try it in Excel for the desktop, or in smaller parts.',
  SearchDialogIsOpen: 'A search window is open in Excel. Close it and try again.',
  UnsupportedOperation: TOO_OLD,
  UnsupportedSheet: 'This kind of sheet has no cells. Pick a worksheet.',
  ActivityLimitReached: BUSY,
  BackgroundActivityLimitReached: BUSY,
  EditModeLimitExceeded: 'A cell is being edited. Press Enter or Esc in the sheet and try again.',
};

/** The codes that have a sentence of their own. */
export const KNOWN_CODES: readonly string[] = Object.keys(SENTENCES);

/**
 * Any thrown value to a sentence. Rethrows a programmer's error, which no user can do anything about.
 * @example explain({ code: 'AccessDenied' }).sentence → 'The sheet or the workbook is protected. …'
 */
export function explain(error: unknown): ExcelTrouble {
  if (error instanceof ProgrammerError) throw error;
  const code = codeOf(error);
  return { code, sentence: sentenceOf(code) };
}

const sentenceOf = (code: string): string =>
  Object.hasOwn(SENTENCES, code)
    ? SENTENCES[code]!
    : `Excel refused this with “${code.slice(0, 80)}”. Try again; if it stays, save, close and reopen the book.`;

/** The code of a failure of Excel's; its message where there is none. */
export function codeOf(error: unknown): string {
  if (typeof error === 'object' && error !== null && 'code' in error && typeof error.code === 'string')
    return error.code;
  if (error instanceof Error) return error.message;
  return String(error);
}

/** Runs a reading batch; a refusal of Excel's comes back as trouble. */
export async function runReading<T>(
  batch: (context: Excel.RequestContext) => Promise<T>,
): Promise<Result<T, ExcelTrouble>> {
  try {
    return ok(await runExcel(batch));
  } catch (error) {
    return err(explain(error));
  }
}
