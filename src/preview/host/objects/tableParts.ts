/** Columns and rows of a table. */
import { bodyArea, headerArea, totalsArea, type Area } from '../../model/index.ts';
import { asFlag, asInput, asMatrix, asText, asWhole, isNothing, refuseSize } from '../args.ts';
import { badArgument, fail } from '../error.ts';
import { HostCollection, HostObject } from '../object.ts';
import { ColumnFilterObject } from './autoFilter.ts';
import type { RangeObject } from './range.ts';
import type { TableObject } from './table.ts';

export class TableColumnsObject extends HostCollection<TableColumnObject> {
  constructor(private readonly owner: TableObject) {
    super();
  }

  override items(): TableColumnObject[] {
    return this.owner.table.columns.map((column) => new TableColumnObject(this.owner, column.id));
  }

  /** By name or by id. */
  override find(key: unknown): TableColumnObject | null {
    const wanted = typeof key === 'string' ? key.toLowerCase() : null;
    return this.items().find((column) => column.Id === key || column.Name.toLowerCase() === wanted) ?? null;
  }

  /** `values` holds the header first; a single value fills the body. */
  Add(index: unknown, values: unknown, name: unknown): TableColumnObject {
    this.owner.guardShape();
    const { model } = this.owner.book;
    const at = isNothing(index) ? null : asWhole(index);
    const { rows } = this.owner.table.area;
    const inputs = isNothing(values) ? null : asMatrix(values, rows, 1, asInput);
    const header = isNothing(name) ? inputs?.[0]?.[0] : asText(name);
    const place = model.addTableColumn(
      this.owner.id,
      at,
      header === undefined ? null : String(header),
      'addin',
    );
    const column = this.items()[place] ?? fail('GeneralException');
    if (inputs) {
      const { area } = column;
      const body = { ...area, row: area.row + 1, rows: area.rows - 1 };
      model.enterBlock(this.owner.sheet, body, inputs.slice(1), 'addin');
    }
    return column;
  }
}

export class TableColumnObject extends HostObject {
  override readonly scalars = ['id', 'index', 'name', 'values'];

  constructor(
    private readonly owner: TableObject,
    private readonly id: number,
  ) {
    super();
  }

  override identity(): Record<string, unknown> {
    return { Id: this.id };
  }

  get area(): Area {
    const { area } = this.owner.table;
    return { ...area, column: area.column + this.Index, columns: 1 };
  }

  private strip(area: Area | null): RangeObject {
    if (!area) return fail('ItemNotFound');
    return this.owner.range({ ...area, column: area.column + this.Index, columns: 1 });
  }

  get Id(): number {
    return this.id;
  }

  get Index(): number {
    const index = this.owner.table.columns.findIndex((column) => column.id === this.id);
    return index < 0 ? fail('ItemNotFound') : index;
  }

  get Name(): string {
    return this.owner.table.columns[this.Index]?.name ?? '';
  }

  set Name(value: unknown) {
    this.owner.guardShape();
    const { row, column } = this.area;
    const name = asText(value);
    if (name === '') badArgument();
    // the apostrophe keeps a name like 007 as it is
    this.owner.book.model.enter(this.owner.sheet, row, column, `'${name}`, 'addin');
  }

  get Values(): unknown {
    return this.GetRange().Values;
  }

  set Values(value: unknown) {
    this.GetRange().Values = value;
  }

  get Filter(): ColumnFilterObject {
    return new ColumnFilterObject(this.owner, () => this.Index);
  }

  GetRange(): RangeObject {
    return this.owner.range(this.area);
  }

  GetDataBodyRange(): RangeObject {
    return this.strip(bodyArea(this.owner.table));
  }

  GetHeaderRowRange(): RangeObject {
    return this.strip(headerArea(this.owner.table));
  }

  GetTotalRowRange(): RangeObject {
    return this.strip(totalsArea(this.owner.table));
  }

  Delete(): void {
    this.owner.guardShape();
    this.owner.book.model.deleteTableColumn(this.owner.id, this.Index, 'addin');
  }
}

export class TableRowsObject extends HostCollection<TableRowObject> {
  constructor(private readonly owner: TableObject) {
    super();
  }

  override items(): TableRowObject[] {
    return Array.from(
      { length: bodyArea(this.owner.table).rows },
      (_, i) => new TableRowObject(this.owner, i),
    );
  }

  override get Count(): number {
    return bodyArea(this.owner.table).rows;
  }

  override GetCount(): number {
    return this.Count;
  }

  override find(key: unknown): TableRowObject | null {
    return typeof key === 'number' && key >= 0 && key < this.Count
      ? new TableRowObject(this.owner, key)
      : null;
  }

  override GetItemAt(index: unknown): TableRowObject {
    return this.find(index) ?? badArgument();
  }

  Add(index: unknown, values: unknown, alwaysInsert?: unknown): TableRowObject {
    this.owner.guardShape();
    if (!isNothing(alwaysInsert)) asFlag(alwaysInsert);
    const { columns } = this.owner.table.area;
    const rows = isNothing(values) ? 1 : Array.isArray(values) ? values.length : refuseSize();
    if (rows === 0) refuseSize();
    const inputs = isNothing(values) ? null : asMatrix(values, rows, columns, asInput);
    const { model } = this.owner.book;
    const at = model.addTableRows(this.owner.id, isNothing(index) ? null : asWhole(index), rows, 'addin');
    if (inputs) {
      const body = bodyArea(this.owner.table);
      model.enterBlock(this.owner.sheet, { ...body, row: body.row + at, rows }, inputs, 'addin');
    }
    return new TableRowObject(this.owner, at);
  }

  DeleteRowsAt(index: unknown, count: unknown): void {
    this.owner.guardShape();
    this.owner.book.model.deleteTableRows(
      this.owner.id,
      asWhole(index),
      isNothing(count) ? 1 : asWhole(count),
      'addin',
    );
  }

  DeleteRows(rows: unknown): void {
    if (!Array.isArray(rows)) return badArgument();
    const indexes = rows.map((row: unknown) => (row instanceof TableRowObject ? row.Index : asWhole(row)));
    for (const index of [...new Set(indexes)].sort((a, b) => b - a)) this.DeleteRowsAt(index, 1);
  }
}

export class TableRowObject extends HostObject {
  override readonly scalars = ['index', 'values'];

  constructor(
    private readonly owner: TableObject,
    private readonly index: number,
  ) {
    super();
  }

  get Index(): number {
    return this.index;
  }

  get Values(): unknown {
    return this.GetRange().Values;
  }

  set Values(value: unknown) {
    this.GetRange().Values = value;
  }

  GetRange(): RangeObject {
    const body = bodyArea(this.owner.table);
    if (this.index >= body.rows) fail('ItemNotFound');
    return this.owner.range({ ...body, row: body.row + this.index, rows: 1 });
  }

  Delete(): void {
    this.owner.guardShape();
    this.owner.book.model.deleteTableRows(this.owner.id, this.index, 1, 'addin');
  }
}
