/** Errors of a sheet's formulas, as they arrive in the place of what the formula should come to. */
const ERROR = /^#(?:N\/A|REF!|VALUE!|NAME\?|DIV\/0!|NULL!|NUM!|SPILL!|CALC!|GETTING_DATA|BUSY!|CONNECT!)$/;

/** @example isSheetError('#N/A') → true; isSheetError('#12') → false */
export const isSheetError = (text: string): boolean => ERROR.test(text);
