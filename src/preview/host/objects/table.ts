/** One table. */
import {
  bodyArea,
  headerArea,
  totalsArea,
  type Area,
  type SheetModel,
  type TableModel,
} from '../../model/index.ts';
import { asFlag, asText } from '../args.ts';
import type { Book } from '../book.ts';
import { fail } from '../error.ts';
import { HostObject } from '../object.ts';
import { TableAutoFilterObject } from './autoFilter.ts';
import { RangeObject } from './range.ts';
import { SortObject } from './sort.ts';
import { TableColumnsObject, TableRowsObject } from './tableParts.ts';
import type { WorksheetObject } from './worksheet.ts';

export class TableObject extends HostObject {
  override readonly scalars = [
    'highlightFirstColumn',
    'highlightLastColumn',
    'id',
    'legacyId',
    'name',
    'showBandedColumns',
    'showBandedRows',
    'showFilterButton',
    'showHeaders',
    'showTotals',
    'style',
  ];

  constructor(
    readonly book: Book,
    readonly id: string,
  ) {
    super();
  }

  override identity(): Record<string, unknown> {
    return { Id: this.id };
  }

  get table(): TableModel {
    return this.book.model.tables.find((table) => table.id === this.id) ?? fail('ItemNotFound');
  }

  get sheet(): SheetModel {
    return this.book.model.sheet(this.table.sheetId);
  }

  range(area: Area): RangeObject {
    return this.book.range(this.sheet, area);
  }

  /** Tables on a protected sheet cannot change their shape, whatever the protection allows. */
  guardShape(): void {
    this.book.guard(this.sheet, this.table.area, 'table');
  }

  private change(patch: Partial<TableModel>): void {
    this.guardShape();
    this.book.model.setTable(this.id, patch, 'addin');
  }

  get Id(): string {
    return this.id;
  }

  get LegacyId(): string {
    return this.id;
  }

  get Name(): string {
    return this.table.name;
  }

  set Name(value: unknown) {
    const name = asText(value);
    if (name !== this.table.name) this.book.model.renameTable(this.id, name, 'addin');
  }

  get Style(): string {
    return this.table.style;
  }

  set Style(value: unknown) {
    this.change({ style: asText(value) });
  }

  get ShowBandedRows(): boolean {
    return this.table.showBandedRows;
  }

  set ShowBandedRows(value: unknown) {
    this.change({ showBandedRows: asFlag(value) });
  }

  get ShowBandedColumns(): boolean {
    return this.table.showBandedColumns;
  }

  set ShowBandedColumns(value: unknown) {
    this.change({ showBandedColumns: asFlag(value) });
  }

  get ShowFilterButton(): boolean {
    return this.table.showFilterButton;
  }

  set ShowFilterButton(value: unknown) {
    this.change({ showFilterButton: asFlag(value) });
  }

  get HighlightFirstColumn(): boolean {
    return this.table.highlightFirstColumn;
  }

  set HighlightFirstColumn(value: unknown) {
    this.change({ highlightFirstColumn: asFlag(value) });
  }

  get HighlightLastColumn(): boolean {
    return this.table.highlightLastColumn;
  }

  set HighlightLastColumn(value: unknown) {
    this.change({ highlightLastColumn: asFlag(value) });
  }

  get ShowHeaders(): boolean {
    return this.table.showHeaders;
  }

  set ShowHeaders(value: unknown) {
    this.guardShape();
    this.book.model.showHeaders(this.id, asFlag(value), 'addin');
  }

  get ShowTotals(): boolean {
    return this.table.showTotals;
  }

  set ShowTotals(value: unknown) {
    this.guardShape();
    this.book.model.showTotals(this.id, asFlag(value), 'addin');
  }

  get Worksheet(): WorksheetObject {
    return this.book.makers.sheet(this.book, this.sheet);
  }

  get Columns(): TableColumnsObject {
    return new TableColumnsObject(this);
  }

  get Rows(): TableRowsObject {
    return new TableRowsObject(this);
  }

  get AutoFilter(): TableAutoFilterObject {
    return new TableAutoFilterObject(this);
  }

  get Sort(): SortObject {
    return new SortObject(this.book, this.sheet, () => bodyArea(this.table));
  }

  GetRange(): RangeObject {
    return this.range(this.table.area);
  }

  GetDataBodyRange(): RangeObject {
    return this.range(bodyArea(this.table));
  }

  GetHeaderRowRange(): RangeObject {
    return this.range(headerArea(this.table) ?? fail('ItemNotFound'));
  }

  GetTotalRowRange(): RangeObject {
    return this.range(totalsArea(this.table) ?? fail('ItemNotFound'));
  }

  ClearFilters(): void {
    this.AutoFilter.ClearCriteria();
  }

  ReapplyFilters(): void {
    this.AutoFilter.Reapply();
  }

  Resize(range: unknown): void {
    this.guardShape();
    const wanted = range instanceof RangeObject ? range : this.book.parseRange(asText(range), this.sheet);
    if (wanted.sheet !== this.sheet) fail('InvalidArgument');
    this.book.model.resizeTable(this.id, wanted.place(), 'addin');
  }

  ConvertToRange(): RangeObject {
    this.guardShape();
    const range = this.GetRange();
    this.book.model.removeTable(this.id, true, 'addin');
    return range;
  }

  Delete(): void {
    this.guardShape();
    this.book.model.removeTable(this.id, false, 'addin');
  }
}
