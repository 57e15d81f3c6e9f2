/** What a range is and holds: address, place, values, formulas, formats of numbers. */
import {
  MAX_COLUMNS,
  MAX_ROWS,
  areaAddress,
  isOnSheet,
  quoteSheet,
  type Area,
  type Cell,
  type SheetModel,
} from '../../model/index.ts';
import { asInput, asMatrix, asText, isNothing, refuseSize } from '../args.ts';
import type { Book, LiveRange } from '../book.ts';
import { badArgument, fail } from '../error.ts';
import { HostObject } from '../object.ts';
import { valueType, wireFormula, wireText, wireValue } from '../values.ts';
import { edges } from './geometry.ts';
import { linkOf, setLink } from './links.ts';
import type { WorksheetObject } from './worksheet.ts';

const READ_LIMIT = 5_000_000;

export abstract class RangeContent extends HostObject implements LiveRange {
  override readonly scalars = [
    'address',
    'addressLocal',
    'cellCount',
    'columnCount',
    'columnHidden',
    'columnIndex',
    'formulas',
    'formulasLocal',
    'hasSpill',
    'height',
    'hidden',
    'hyperlink',
    'isEntireColumn',
    'isEntireRow',
    'left',
    'numberFormat',
    'rowCount',
    'rowHidden',
    'rowIndex',
    'text',
    'top',
    'valueTypes',
    'values',
    'width',
  ];
  gone = false;

  constructor(
    readonly book: Book,
    readonly sheet: SheetModel,
    public area: Area,
  ) {
    super();
    if (!isOnSheet(area)) badArgument();
  }

  /** The area, unless its cells or its sheet were deleted meanwhile. */
  place(): Area {
    this.book.requireSheet(this.sheet);
    return this.gone ? fail('InvalidReference', 'The cells of this range were deleted.') : this.area;
  }

  protected get isUnbounded(): boolean {
    return this.area.rows === MAX_ROWS || this.area.columns === MAX_COLUMNS;
  }

  private grid<T>(read: (cell: Cell | undefined, row: number, column: number) => T): T[][] | null {
    const { row, column, rows, columns } = this.place();
    if (this.isUnbounded) return null;
    if (rows * columns > READ_LIMIT)
      fail('RangeExceedsLimit', 'The range holds more cells than can be read.');
    return Array.from({ length: rows }, (_, i) =>
      Array.from({ length: columns }, (__, j) =>
        read(this.sheet.cells.get(row + i, column + j), row + i, column + j),
      ),
    );
  }

  // ---- what it is

  get Address(): string {
    return `${quoteSheet(this.sheet.name)}!${areaAddress(this.place())}`;
  }

  get AddressLocal(): string {
    return this.Address;
  }

  get RowIndex(): number {
    return this.place().row;
  }

  get ColumnIndex(): number {
    return this.place().column;
  }

  get RowCount(): number {
    return this.place().rows;
  }

  get ColumnCount(): number {
    return this.place().columns;
  }

  get CellCount(): number {
    const { rows, columns } = this.place();
    return rows * columns > 2 ** 31 - 1 ? -1 : rows * columns;
  }

  get IsEntireRow(): boolean {
    return this.place().columns === MAX_COLUMNS;
  }

  get IsEntireColumn(): boolean {
    return this.place().rows === MAX_ROWS;
  }

  get Worksheet(): WorksheetObject {
    return this.book.makers.sheet(this.book, this.book.requireSheet(this.sheet));
  }

  get Left(): number {
    return edges(this.sheet, this.place()).left;
  }

  get Top(): number {
    return edges(this.sheet, this.place()).top;
  }

  get Width(): number {
    return edges(this.sheet, this.place()).width;
  }

  get Height(): number {
    return edges(this.sheet, this.place()).height;
  }

  // ---- content

  get Values(): unknown {
    return this.grid((cell) => wireValue(cell?.value ?? null));
  }

  set Values(value: unknown) {
    this.write(value);
  }

  get Formulas(): unknown {
    return this.grid(wireFormula);
  }

  set Formulas(value: unknown) {
    this.write(value);
  }

  get FormulasLocal(): unknown {
    return this.Formulas;
  }

  set FormulasLocal(value: unknown) {
    this.write(value);
  }

  get Text(): unknown {
    return this.grid(wireText);
  }

  get ValueTypes(): unknown {
    return this.grid((cell) => valueType(cell?.value ?? null));
  }

  get NumberFormat(): unknown {
    return this.grid((_, row, column) => this.sheet.styleAt(row, column).numberFormat ?? 'General');
  }

  set NumberFormat(value: unknown) {
    const area = this.place();
    this.book.guard(this.sheet, area, 'allowFormatCells');
    if (!Array.isArray(value)) {
      this.book.model.style(this.sheet, area, { numberFormat: asText(value) }, 'addin');
      return;
    }
    const formats = asMatrix(value, area.rows, area.columns, (one) => (isNothing(one) ? null : asText(one)));
    this.book.model.styleEach(
      this.sheet,
      area,
      (before, row, column) => {
        const numberFormat = formats[row - area.row]?.[column - area.column] ?? null;
        return numberFormat === null ? before : { ...before, numberFormat };
      },
      'addin',
    );
  }

  private write(value: unknown): void {
    const area = this.place();
    if (this.isUnbounded && !isNothing(value)) {
      fail('InvalidArgument', 'Values cannot be set on whole rows or columns at once.');
    }
    const inputs = asMatrix(value, area.rows, area.columns, asInput);
    this.book.guard(this.sheet, area, 'content');
    if (area.rows * area.columns === 1) {
      const { row, column } = area;
      const old = this.sheet.cells.get(row, column)?.value ?? null;
      this.book.before = { sheetId: this.sheet.id, row, column, value: old };
    }
    this.book.model.enterBlock(this.sheet, area, inputs, 'addin');
  }

  _ValidateArraySize(rows: unknown, columns: unknown): void {
    if (rows !== this.place().rows || columns !== this.place().columns) refuseSize();
  }

  get Hyperlink(): unknown {
    return linkOf(this.sheet, this.place());
  }

  set Hyperlink(value: unknown) {
    setLink(this.book, this.sheet, this.place(), value);
  }
}
