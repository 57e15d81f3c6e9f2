/** What the calculation engine reports, as the model's values. */
import type { ICellData } from '@univerjs/core';
import { ERROR_CODES } from '../model/input.ts';
import type { CellResult } from '../model/results.ts';
import type { Cell, CellValue } from '../model/types.ts';
import type { WorkbookModel } from '../model/workbook.ts';
import { BOOLEAN } from './snapshot.ts';

export type Matrix<T> = Record<number, Record<number, T> | undefined>;
export type BySheet<T> = Record<string, Record<string, Matrix<T> | undefined> | undefined>;

interface Span {
  startRow: number;
  startColumn: number;
  endRow: number;
  endColumn: number;
}

export class Results {
  private arrays: BySheet<Span> = {};
  private arrayCells: BySheet<ICellData> = {};
  private readonly messages = new Map<string, string>();

  constructor(
    private readonly model: WorkbookModel,
    private readonly unit: string,
  ) {}

  /** Keeps the sentence that goes with a cell's error. */
  note(sheetId: string, row: number, column: number, message: string | undefined): void {
    const key = `${sheetId} ${String(row)} ${String(column)}`;
    if (message === undefined) this.messages.delete(key);
    else this.messages.set(key, message);
  }

  /** The extents and cells of all spilled arrays; they come just before the results. */
  takeArrays(params: { arrayFormulaRange?: BySheet<Span>; arrayFormulaCellData?: BySheet<ICellData> }): void {
    this.arrays = params.arrayFormulaRange ?? {};
    this.arrayCells = params.arrayFormulaCellData ?? {};
  }

  /** Puts a run's results into the model; what is the same already is left alone. */
  take(unitData: BySheet<ICellData>): void {
    for (const [sheetId, rows] of Object.entries(unitData[this.unit] ?? {})) {
      const sheet = this.model.findSheet(sheetId);
      if (sheet === undefined || rows === undefined) continue;
      const list: CellResult[] = [];
      for (const [r, columns] of Object.entries(rows))
        for (const [c, data] of Object.entries(columns ?? {})) {
          const [row, column] = [Number(r), Number(c)];
          const before = sheet.cells.get(row, column);
          if (before?.formula === undefined) continue;
          const result = this.resultAt(sheetId, row, column, data);
          if (!isSame(before, result)) list.push({ row, column, result });
        }
      if (list.length > 0) this.model.setResults(sheet, list);
    }
  }

  private resultAt(sheetId: string, row: number, column: number, data: ICellData): CellResult['result'] {
    const span = this.arrays[this.unit]?.[sheetId]?.[row]?.[column];
    if (span === undefined || (span.startRow === span.endRow && span.startColumn === span.endColumn))
      return this.valueOf(data, sheetId, row, column);
    const cells = this.arrayCells[this.unit]?.[sheetId] ?? {};
    const rows: CellValue[][] = [];
    for (let r = span.startRow; r <= span.endRow; r++) {
      const line: CellValue[] = [];
      for (let c = span.startColumn; c <= span.endColumn; c++)
        line.push(this.valueOf(cells[r]?.[c], sheetId, row, column));
      rows.push(line);
    }
    return rows;
  }

  private valueOf(
    data: ICellData | null | undefined,
    sheetId: string,
    row: number,
    column: number,
  ): CellValue {
    const value = data?.v;
    if (value === null || value === undefined) return null;
    if (data?.t === BOOLEAN || typeof value === 'boolean') return Boolean(value);
    if (typeof value === 'number') return value;
    const error = ERROR_CODES.find((code) => code === value);
    if (error === undefined) return value;
    const message = this.messages.get(`${sheetId} ${String(row)} ${String(column)}`);
    return message === undefined ? { error } : { error, message };
  }
}

function isSame(cell: Cell, result: CellResult['result']): boolean {
  if (Array.isArray(result) || cell.spill !== undefined) return false;
  return JSON.stringify(cell.value) === JSON.stringify(result);
}
