/** Filters: of a table, of one of its columns, and of a sheet. */
import type { FilterCriteria, SheetModel } from '../../model/index.ts';
import { asOneOf, asRecord, asText, asWhole, isNothing } from '../args.ts';
import type { Book } from '../book.ts';
import { apiNotFound, badArgument, fail } from '../error.ts';
import { HostObject } from '../object.ts';
import { RangeObject } from './range.ts';
import type { TableObject } from './table.ts';

/** Values and own comparisons; colours, icons and top lists are not available here. */
function readCriteria(value: unknown): FilterCriteria {
  const given = asRecord(value);
  const filterOn = asText(given['filterOn']);
  if (filterOn === 'Values') {
    const values = given['values'];
    if (!Array.isArray(values)) return badArgument();
    return {
      filterOn,
      values: values.map((one: unknown) => (typeof one === 'number' ? String(one) : asText(one))),
    };
  }
  if (filterOn !== 'Custom') return apiNotFound(`A filter on ${filterOn}`);
  const operator = given['operator'];
  return {
    filterOn,
    criterion1: asText(given['criterion1']),
    ...(isNothing(given['criterion2']) ? {} : { criterion2: asText(given['criterion2']) }),
    ...(isNothing(operator) ? {} : { operator: asOneOf(operator, ['And', 'Or']) }),
  };
}

function listed(criteria: ReadonlyMap<number, FilterCriteria>, columns: number): (FilterCriteria | null)[] {
  return Array.from({ length: columns }, (_, i) => criteria.get(i) ?? null);
}

export class TableAutoFilterObject extends HostObject {
  override readonly scalars = ['criteria', 'enabled', 'isDataFiltered'];

  constructor(private readonly owner: TableObject) {
    super();
  }

  get Enabled(): boolean {
    return this.owner.table.showFilterButton;
  }

  get IsDataFiltered(): boolean {
    return this.owner.table.filter.size > 0;
  }

  get Criteria(): unknown {
    const { filter, columns } = this.owner.table;
    return listed(filter, columns.length);
  }

  Apply(_range: unknown, columnIndex: unknown, criteria: unknown): void {
    if (isNothing(columnIndex)) return;
    setFilter(this.owner, asWhole(columnIndex), isNothing(criteria) ? null : readCriteria(criteria));
  }

  ClearCriteria(): void {
    for (const column of [...this.owner.table.filter.keys()]) setFilter(this.owner, column, null);
  }

  ClearColumnCriteria(column: unknown): void {
    setFilter(this.owner, asWhole(column), null);
  }

  Reapply(): void {
    const [first] = this.owner.table.filter;
    if (first) setFilter(this.owner, first[0], first[1]);
  }

  GetRangeOrNullObject(): RangeObject | null {
    return this.Enabled ? this.owner.GetRange() : null;
  }

  GetRange(): RangeObject {
    return this.GetRangeOrNullObject() ?? fail('ItemNotFound');
  }
}

function setFilter(owner: TableObject, column: number, criteria: FilterCriteria | null): void {
  owner.book.guard(owner.sheet, owner.table.area, 'allowAutoFilter');
  if (column < 0 || column >= owner.table.columns.length) badArgument();
  owner.book.model.filterTable(owner.id, column, criteria, 'addin');
}

export class ColumnFilterObject extends HostObject {
  override readonly scalars = ['criteria'];

  constructor(
    private readonly owner: TableObject,
    private readonly column: () => number,
  ) {
    super();
  }

  get Criteria(): unknown {
    return this.owner.table.filter.get(this.column()) ?? null;
  }

  Apply(criteria: unknown): void {
    setFilter(this.owner, this.column(), readCriteria(criteria));
  }

  ApplyValuesFilter(values: unknown): void {
    this.Apply({ filterOn: 'Values', values });
  }

  ApplyCustomFilter(criterion1: unknown, criterion2: unknown, operator: unknown): void {
    this.Apply({ filterOn: 'Custom', criterion1, criterion2, operator });
  }

  Clear(): void {
    setFilter(this.owner, this.column(), null);
  }
}

export class SheetAutoFilterObject extends HostObject {
  override readonly scalars = ['criteria', 'enabled', 'isDataFiltered'];

  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
  ) {
    super();
  }

  private get state(): SheetModel['layout']['autoFilter'] {
    return this.sheet.layout.autoFilter;
  }

  get Enabled(): boolean {
    return this.state !== null;
  }

  get IsDataFiltered(): boolean {
    return (this.state?.criteria.size ?? 0) > 0;
  }

  get Criteria(): unknown {
    return this.state ? listed(this.state.criteria, this.state.area.columns) : [];
  }

  private store(state: SheetModel['layout']['autoFilter']): void {
    this.book.guard(this.sheet, state?.area ?? { row: 0, column: 0, rows: 1, columns: 1 }, 'allowAutoFilter');
    this.book.model.filterSheet(this.sheet, state, 'addin');
  }

  Apply(range: unknown, columnIndex: unknown, criteria: unknown): void {
    const { sheet } = this;
    const target = range instanceof RangeObject ? range : this.book.parseRange(asText(range), sheet);
    if (target.sheet !== sheet) badArgument();
    const area = { ...target.place() };
    const column = isNothing(columnIndex) ? null : asWhole(columnIndex);
    if (column !== null && (column < 0 || column >= area.columns)) badArgument();
    const kept = new Map(this.state?.criteria);
    if (column !== null && !isNothing(criteria)) kept.set(column, readCriteria(criteria));
    this.store({ area, criteria: kept });
  }

  ClearCriteria(): void {
    if (this.state) this.store({ ...this.state, criteria: new Map() });
  }

  ClearColumnCriteria(column: unknown): void {
    if (!this.state) return;
    const criteria = new Map(this.state.criteria);
    criteria.delete(asWhole(column));
    this.store({ ...this.state, criteria });
  }

  Reapply(): void {
    if (this.state) this.store(this.state);
  }

  Remove(): void {
    this.store(null);
  }

  GetRangeOrNullObject(): RangeObject | null {
    return this.state ? this.book.range(this.sheet, this.state.area) : null;
  }

  GetRange(): RangeObject {
    return this.GetRangeOrNullObject() ?? fail('ItemNotFound');
  }
}
