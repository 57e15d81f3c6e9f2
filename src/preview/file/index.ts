/** Workbook files: open, make, save. */
export type { FileNote, XlsxBook } from './book.ts';
export { openXlsx, type OpenResult } from './openXlsx.ts';
export { describeFileProblem, FILE_PROBLEMS, type FileProblem, type FileProblemCode } from './problems.ts';
export { newXlsx, saveXlsx } from './saveXlsx.ts';
export { fromFileFormula, toFileFormula } from './formulas.ts';
