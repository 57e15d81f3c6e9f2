/** Several areas of one sheet. */
import {
  MAX_COLUMNS,
  MAX_ROWS,
  areaAddress,
  intersect,
  quoteSheet,
  type Area,
  type SheetModel,
} from '../../model/index.ts';
import { asText } from '../args.ts';
import type { Book } from '../book.ts';
import { badArgument, fail } from '../error.ts';
import { HostCollection, HostObject } from '../object.ts';
import { RangeObject } from './range.ts';
import { RangeFormatObject } from './rangeFormat.ts';
import type { WorksheetObject } from './worksheet.ts';

export class RangesObject extends HostCollection<RangeObject> {
  constructor(private readonly ranges: RangeObject[]) {
    super();
  }

  override items(): RangeObject[] {
    return this.ranges;
  }

  override find(): null {
    return null;
  }
}

export class RangeAreasObject extends HostObject {
  override readonly scalars = [
    'address',
    'addressLocal',
    'areaCount',
    'cellCount',
    'isEntireColumn',
    'isEntireRow',
  ];

  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
    private readonly areas: readonly Area[],
  ) {
    super();
    if (areas.length === 0) badArgument();
  }

  get Address(): string {
    const sheet = quoteSheet(this.sheet.name);
    return this.areas.map((area) => `${sheet}!${areaAddress(area)}`).join(',');
  }

  get AddressLocal(): string {
    return this.Address;
  }

  get AreaCount(): number {
    return this.areas.length;
  }

  get CellCount(): number {
    const count = this.areas.reduce((sum, area) => sum + area.rows * area.columns, 0);
    return count > 2 ** 31 - 1 ? -1 : count;
  }

  get IsEntireColumn(): boolean {
    return this.areas.every((area) => area.rows === MAX_ROWS);
  }

  get IsEntireRow(): boolean {
    return this.areas.every((area) => area.columns === MAX_COLUMNS);
  }

  get Areas(): RangesObject {
    return new RangesObject(this.areas.map((area) => this.book.range(this.sheet, area)));
  }

  get Format(): RangeFormatObject {
    return new RangeFormatObject(this.book, this.sheet, this.areas);
  }

  get Worksheet(): WorksheetObject {
    return this.book.makers.sheet(this.book, this.sheet);
  }

  Clear(what: unknown): void {
    for (const area of this.areas) this.book.range(this.sheet, area).Clear(what);
  }

  Calculate(): void {
    this.book.model.emit({ kind: 'calculate', origin: 'addin' });
  }

  GetIntersectionOrNullObject(other: unknown): RangeAreasObject | null {
    const area =
      other instanceof RangeObject ? other.place() : this.book.parseRange(asText(other), this.sheet).place();
    const shared = this.areas.map((mine) => intersect(mine, area)).filter((one) => one !== null);
    return shared.length > 0 ? new RangeAreasObject(this.book, this.sheet, shared) : null;
  }

  GetIntersection(other: unknown): RangeAreasObject {
    return this.GetIntersectionOrNullObject(other) ?? fail('ItemNotFound');
  }
}
