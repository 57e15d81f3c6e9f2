/**
 * Excel's refusals in words. Codes are those of `Excel.ErrorCodes` and of the request layer below it; anything
 * unknown gets a sentence with the code in it, so that it can be looked up.
 */
import { err, ok, ProgrammerError, type Result } from '../keying/result.ts';

/** A failure of Excel's in one sentence: what happened and what to do. */
export interface ExcelTrouble {
  readonly code: string;
  readonly sentence: string;
}

const BUSY = 'Excel is busy. Wait until it is done and try again.';
const SENTENCES: Readonly<Record<string, string>> = {
  AccessDenied: 'The sheet or the workbook is protected. Take the protection off and try again.',
  ApiNotFound: 'This version of Excel is too old for this step. Update Excel and try again.',
  Conflict: 'Excel was changing the same cells. Try again.',
  DirtySupportingFormula: 'Excel is still calculating. Try again when it is done.',
  FilteredRangeConflict: 'The cells are filtered. Clear the filter and try again.',
  FormulaLengthExceedsLimit: 'A formula would be longer than Excel allows.',
  GeneralException:
    'Excel reported an internal error. Try again; if it stays, save, close and reopen the book.',
  InactiveWorkbook: 'The workbook is not the active one. Click into it and try again.',
  InsertDeleteConflict:
    'Excel can’t insert or delete cells there: they would cut through a table or an array.',
  InvalidArgument: 'Excel didn’t accept what was asked of it. Read the book again and try once more.',
  InvalidObjectPath: 'Something that was being used is gone. Read the book again.',
  InvalidOperation: 'Excel doesn’t allow this here.',
  InvalidOperationInCellEditMode: 'A cell is being edited. Press Enter or Esc in the sheet and try again.',
  InvalidReference: 'A cell that was being used doesn’t exist any more. Read the book again.',
  InvalidSelection: 'The selection can’t be used for this. Select cells of one block.',
  InvalidState: BUSY,
  ItemAlreadyExists: 'A sheet or table of this name exists already. Read the book again.',
  ItemNotFound: 'A sheet or table that was being used is gone or was renamed. Read the book again.',
  MergedRangeConflict: 'There are merged cells in the way. Unmerge them and try again.',
  NoCells: 'Excel didn’t hand over the cells that it was asked for. Try again.',
  NonBlankCellOffSheet: 'There is no room: filled cells would be pushed off the sheet.',
  NotImplemented: 'This version of Excel can’t do this step.',
  OperationCellsExceedLimit: 'Too many cells at once for Excel.',
  PivotTableRangeConflict: 'A pivot table is in the way. Move it and try again.',
  PropertyNotLoaded: 'Something went wrong inside the add-in. Read the book again.',
  RangeExceedsLimit: 'The range is too large for Excel to hand over at once.',
  RequestAborted: 'Excel broke off the request. Try again.',
  RequestPayloadSizeLimitExceeded: 'Too much to write at once for Excel on the web.',
  ResponsePayloadSizeLimitExceeded: 'Too much to read at once for Excel on the web.',
  SearchDialogIsOpen: 'A search window is open in Excel. Close it and try again.',
  UnsupportedOperation: 'This version of Excel can’t do this step.',
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
  return { code, sentence: SENTENCES[code] ?? `Excel reported “${code}”. Try again.` };
}

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
    return ok(await Excel.run(batch));
  } catch (error) {
    return err(explain(error));
  }
}
