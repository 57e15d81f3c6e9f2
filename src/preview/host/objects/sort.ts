/** Sorting the rows of a range or of a table's body. */
import {
  offsetReferences,
  type Area,
  type Cell,
  type CellValue,
  type SheetModel,
} from '../../model/index.ts';
import { asRecord, asWhole } from '../args.ts';
import type { Book } from '../book.ts';
import { apiNotFound, badArgument } from '../error.ts';
import { HostObject } from '../object.ts';

interface SortKey {
  column: number;
  ascending: boolean;
}

/** Numbers before text before booleans before errors; empty cells last either way. */
function rank(value: CellValue): number {
  if (value === null) return 4;
  if (typeof value === 'number') return 0;
  if (typeof value === 'string') return 1;
  return typeof value === 'boolean' ? 2 : 3;
}

function compare(a: CellValue, b: CellValue, ascending: boolean): number {
  const sign = ascending ? 1 : -1;
  const ranks = rank(a) - rank(b);
  if (a === null || b === null) return ranks;
  if (ranks !== 0) return sign * ranks;
  if (typeof a === 'number' && typeof b === 'number') return sign * (a - b);
  if (typeof a === 'string' && typeof b === 'string') {
    return sign * a.localeCompare(b, 'en-US', { sensitivity: 'accent' });
  }
  return sign * (Number(a === true) - Number(b === true));
}

export class SortObject extends HostObject {
  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
    private readonly area: () => Area,
  ) {
    super();
  }

  Apply(fields: unknown, _matchCase?: unknown, hasHeaders?: unknown, orientation?: unknown): void {
    if (!Array.isArray(fields) || fields.length === 0) return badArgument();
    if (orientation === 'Columns') apiNotFound('Sorting from left to right');
    const whole = this.area();
    const area = hasHeaders === true ? { ...whole, row: whole.row + 1, rows: whole.rows - 1 } : whole;
    if (area.rows < 2) return;
    const keys = fields.map((field: unknown): SortKey => {
      const given = asRecord(field);
      const column = asWhole(given['key']);
      if (column < 0 || column >= area.columns) badArgument();
      return { column, ascending: given['ascending'] !== false };
    });
    this.book.guard(this.sheet, area, 'content');
    this.book.guard(this.sheet, area, 'allowSort');
    this.rearrange(area, keys);
  }

  Clear(): void {
    // nothing is kept of a sort but the order of the rows
  }

  Reapply(): void {
    apiNotFound('Sort.reapply');
  }

  private rearrange(area: Area, keys: readonly SortKey[]): void {
    const { cells } = this.sheet;
    const lines: { from: number; cells: (Cell | undefined)[] }[] = [];
    for (let row = area.row; row < area.row + area.rows; row++) {
      const line = Array.from({ length: area.columns }, (_, j) => cells.get(row, area.column + j));
      lines.push({ from: row, cells: line });
    }
    lines.sort((a, b) => {
      for (const { column, ascending } of keys) {
        const order = compare(a.cells[column]?.value ?? null, b.cells[column]?.value ?? null, ascending);
        if (order !== 0) return order;
      }
      return a.from - b.from;
    });
    this.book.model.edit('Sort', 'addin', () => {
      lines.forEach((line, i) => {
        const row = area.row + i;
        line.cells.forEach((cell, j) => {
          this.book.model.put(this.sheet, row, area.column + j, moved(cell, row - line.from));
        });
      });
      this.book.model.emit({ kind: 'cells', sheetId: this.sheet.id, area, origin: 'addin' });
      this.book.model.emit({ kind: 'styles', sheetId: this.sheet.id, area, origin: 'addin' });
    });
  }
}

function moved(cell: Cell | undefined, down: number): Cell | undefined {
  if (cell?.formula === undefined) return cell;
  return { ...cell, formula: offsetReferences(cell.formula, down, 0) };
}
