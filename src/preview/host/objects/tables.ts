/** The tables of the workbook, of a sheet, or of a range. */
import type { SheetModel, TableModel } from '../../model/index.ts';
import { asFlag, asText, isNothing } from '../args.ts';
import type { Book } from '../book.ts';
import { HostCollection } from '../object.ts';
import { RangeObject } from './range.ts';
import type { TableObject } from './table.ts';

export class TablesObject extends HostCollection<TableObject> {
  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel | null,
    private readonly ids: readonly string[] | null = null,
  ) {
    super();
  }

  override eventTarget(): [string, string] {
    return ['Table', this.sheet?.id ?? 'Workbook'];
  }

  private models(): readonly TableModel[] {
    return this.book.model.tables.filter(
      (table) =>
        (this.sheet === null || table.sheetId === this.sheet.id) &&
        (this.ids === null || this.ids.includes(table.id)),
    );
  }

  override items(): TableObject[] {
    return this.models().map((table) => this.book.makers.table(this.book, table));
  }

  override find(key: unknown): TableObject | null {
    const table = typeof key === 'string' ? this.book.model.findTable(key) : undefined;
    return table && this.models().includes(table) ? this.book.makers.table(this.book, table) : null;
  }

  GetFirst(): TableObject {
    return this.GetItemAt(0);
  }

  Add(address: unknown, hasHeaders: unknown): TableObject {
    const range =
      address instanceof RangeObject
        ? address
        : this.sheet
          ? this.book.parseRange(asText(address), this.sheet)
          : this.book.parseAnywhere(asText(address));
    const area = range.place();
    this.book.guard(range.sheet, area, 'table');
    const headers = isNothing(hasHeaders) ? true : asFlag(hasHeaders);
    return this.book.makers.table(this.book, this.book.model.addTable(range.sheet, area, headers, 'addin'));
  }
}
