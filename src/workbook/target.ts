import { ProgrammerError, type Result } from '../keying/result.ts';
import type { ExcelTrouble } from './excelErrors.ts';
import type { Box } from './places.ts';
import type { CellValue } from './reading.ts';

/** A range the user named, or the selection; a cell inside a table means the whole table. */
export type TargetRequest = { readonly sheet: string; readonly address: string } | 'selection';

/** A block of the shop's own cells, with the column that would be written to the right of it. */
export interface TargetReading {
  readonly box: Box;
  /** Name of the table, where the range lies in one. */
  readonly table?: string;
  readonly headers: readonly string[];
  /** First row below the header. */
  readonly values: readonly (readonly CellValue[])[];
  /** Content of the cells just right of the box, header row first. */
  readonly right: readonly CellValue[];
  readonly protected: boolean;
  readonly filtered: boolean;
  readonly merged: boolean;
}
export async function readTarget(_request: TargetRequest): Promise<Result<TargetReading, ExcelTrouble>> {
  throw new ProgrammerError('not written yet');
}
