import { ProgrammerError } from '../keying/result.ts';
import type { Result } from '../keying/result.ts';
import type { ExcelTrouble } from './excelErrors.ts';
import type { BookReading } from './reading.ts';
/** Reads the whole book in a run of its own. */
export async function openBook(): Promise<Result<BookReading, ExcelTrouble>> {
  throw new ProgrammerError('not written yet');
}
export async function readBook(_context: Excel.RequestContext): Promise<BookReading> {
  throw new ProgrammerError('not written yet');
}
