/** The visible rows and columns of a range, as `getVisibleView` gives them. */
import { cellAddress, quoteSheet, type Area, type Cell, type SheetModel } from '../../model/index.ts';
import type { Book } from '../book.ts';
import { badArgument } from '../error.ts';
import { HostCollection, HostObject } from '../object.ts';
import { valueType, wireFormula, wireText, wireValue } from '../values.ts';
import type { RangeObject } from './range.ts';

export class RangeViewObject extends HostObject {
  override readonly scalars = [
    'cellAddresses',
    'columnCount',
    'formulas',
    'index',
    'numberFormat',
    'rowCount',
    'text',
    'valueTypes',
    'values',
  ];
  private readonly rows: number[] = [];
  private readonly columns: number[] = [];

  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
    private readonly area: Area,
    private readonly index = 0,
  ) {
    super();
    if (area.rows * area.columns > 5_000_000) badArgument();
    for (let r = area.row; r < area.row + area.rows; r++) if (!sheet.isRowHidden(r)) this.rows.push(r);
    const { hiddenColumns } = sheet.layout;
    for (let c = area.column; c < area.column + area.columns; c++)
      if (!hiddenColumns.has(c)) this.columns.push(c);
  }

  private grid<T>(read: (cell: Cell | undefined, row: number, column: number) => T): T[][] {
    return this.rows.map((row) =>
      this.columns.map((column) => read(this.sheet.cells.get(row, column), row, column)),
    );
  }

  get Index(): number {
    return this.index;
  }

  get RowCount(): number {
    return this.rows.length;
  }

  get ColumnCount(): number {
    return this.columns.length;
  }

  get Values(): unknown[][] {
    return this.grid((cell) => wireValue(cell?.value ?? null));
  }

  get Formulas(): unknown[][] {
    return this.grid(wireFormula);
  }

  get Text(): string[][] {
    return this.grid(wireText);
  }

  get ValueTypes(): string[][] {
    return this.grid((cell) => valueType(cell?.value ?? null));
  }

  get NumberFormat(): string[][] {
    return this.grid((_, row, column) => this.sheet.styleAt(row, column).numberFormat ?? 'General');
  }

  get CellAddresses(): string[][] {
    const sheet = quoteSheet(this.sheet.name);
    return this.grid((_, row, column) => `${sheet}!${cellAddress(row, column)}`);
  }

  get Rows(): RangeViewsObject {
    const { area, book, sheet } = this;
    return new RangeViewsObject(
      this.rows.map((row, i) => new RangeViewObject(book, sheet, { ...area, row, rows: 1 }, i)),
    );
  }

  GetRange(): RangeObject {
    return this.book.range(this.sheet, this.area);
  }
}

export class RangeViewsObject extends HostCollection<RangeViewObject> {
  constructor(private readonly views: RangeViewObject[]) {
    super();
  }

  override items(): RangeViewObject[] {
    return this.views;
  }

  override find(key: unknown): RangeViewObject | null {
    return this.views.find((view) => view.Index === key) ?? null;
  }
}
