/**
 * Why a file could not be opened, as codes, with the sentence for each in one place.
 */

export const FILE_PROBLEMS = [
  'empty',
  'not-zip',
  'legacy-xls',
  'encrypted',
  'binary-workbook',
  'truncated',
  'damaged',
  'no-workbook',
  'no-sheets',
  'too-large',
  'too-many-parts',
] as const;

export type FileProblemCode = (typeof FILE_PROBLEMS)[number];

export interface FileProblem {
  readonly code: FileProblemCode;
  /** The part of the package at fault, where one is known. */
  readonly part?: string;
}

const SENTENCES: Record<FileProblemCode, string> = {
  empty: 'The file is empty. Choose a workbook saved as .xlsx.',
  'not-zip': 'This is not an Excel workbook. Choose a file saved as .xlsx.',
  'legacy-xls': 'This is an old-style .xls workbook. Open it in Excel and save it as .xlsx first.',
  encrypted:
    'This workbook is encrypted with a password. Remove the password in Excel, save, and open it again.',
  'binary-workbook': 'This is a binary .xlsb workbook. Open it in Excel and save it as .xlsx first.',
  truncated: 'The file is cut short, perhaps by an interrupted download. Get a complete copy and open that.',
  damaged:
    'The file is damaged and cannot be read. Open it in Excel, let Excel repair it, and save it again.',
  'no-workbook': 'The file holds no workbook. Choose a file saved as .xlsx by a spreadsheet program.',
  'no-sheets': 'The workbook holds no worksheet that can be shown.',
  'too-large': 'The workbook is too large to open here. Open it in Excel itself.',
  'too-many-parts': 'The file holds far more parts than a workbook should, and was not opened.',
};

/**
 * Puts a problem into a sentence for the user.
 *
 * @example describeFileProblem({ code: 'damaged', part: 'xl/workbook.xml' })
 *   // "The file is damaged … save it again. (Part: xl/workbook.xml.)"
 */
export function describeFileProblem(problem: FileProblem): string {
  const sentence = SENTENCES[problem.code];
  return problem.part === undefined ? sentence : `${sentence} (Part: ${problem.part}.)`;
}

/** Thrown inside this folder only; `openXlsx` turns it into a value. */
export class FileFault extends Error {
  constructor(readonly problem: FileProblem) {
    super(describeFileProblem(problem));
    this.name = 'FileFault';
  }
}
